"""Catalogue rows for what is worked out over a variable (specs/curves.py), and for these variables."""

from logbook.quantity.catalogue import CYLINDER, Quantity


def _curve(name: str, words: str, kind: str, unit: str, low: float, high: float, imperial: str = "") -> Quantity:
    return Quantity(name, words, words, kind, unit, CYLINDER, low=low, high=high, imperial=imperial, derived_only=True)


# fmt: off
CURVE_ROWS: tuple[Quantity, ...] = (
    # what is varied
    Quantity("crank_angle", "crank angle", "crank angle", "angle", "deg", low=-720, high=720, derived_only=True),
    Quantity("time", "time", "time", "time", "s", low=0, high=1e6, derived_only=True),
    # motion
    _curve("piston_travel", "piston travel from TDC", "length", "mm", 0, 6000, "in"),
    _curve("piston_travel_with_offset", "piston travel from TDC, the pin offset", "length", "mm", 0, 6000, "in"),
    _curve("piston_speed", "piston speed at the limit", "speed", "m/s", -150, 150, "ft/s"),
    _curve("piston_acceleration", "piston acceleration at the limit", "acceleration", "m/s2", -2e5, 2e5, "ft/s2"),
    _curve("cylinder_volume", "volume above the piston", "volume", "cc", 0, 200000, "cu in"),
)
