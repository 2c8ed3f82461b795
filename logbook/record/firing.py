"""The firing intervals that engine.yaml may state: `even`, or degrees of crank with - between."""

from __future__ import annotations

from logbook.record.models import Engine

CYCLE = 720  # deg of crank


def stated_intervals(engine: Engine) -> tuple[float, ...] | None:
    """From each firing to the next, deg of crank, first that of the first two cylinders of the firing order.

    None where nothing is stated, or nothing that can be: see interval_slip.
    """
    text = engine.firing_intervals
    if not text or interval_slip(text, engine.cylinders):
        return None
    return tuple(_degrees(text)) or (CYCLE / engine.cylinders,) * engine.cylinders


def interval_slip(text: str, cylinders: int) -> str:
    """Why these cannot be the intervals of so many cylinders; '' if they can."""
    if text == "even":
        return ""
    try:
        degrees = _degrees(text)
    except ValueError:
        return f"`{text}` is neither `even` nor degrees with - between"
    if len(degrees) != cylinders:
        return f"{len(degrees)} intervals are stated for {cylinders} cylinders"
    if not all(0 <= each for each in degrees) or abs(sum(degrees) - CYCLE) > 0.5:
        return f"the intervals add up to {sum(degrees):g} deg, not to the 720 of two turns"
    return ""


def _degrees(text: str) -> list[float]:
    return [] if text == "even" else [float(each) for each in text.removesuffix("deg").split("-")]
