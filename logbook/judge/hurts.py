"""Where a change can hurt an engine or a person: what rises or falls the wrong way, and the usual caution for it.

The maker's manual comes first in each of them. A difference within the error calls for none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.judge.compare import SAME, WITHIN, Difference
from logbook.judge.tuned import TAKE_CARE, unproven
from logbook.specs.configuration import Configuration
from logbook.state.metal import surface
from logbook.state.states import END_OF_ENTRY

MAKER_FIRST = "The maker's manual comes first."

_KNOCK = (
    "More compression: listen for knock at full load with the fuel that will be used, and go back at once where it is "
    "heard."
)
_SQUISH = (
    "The piston comes nearer to the head: measure it on the assembled engine with soft metal, at the least place; rods "
    "stretch and crowns rock at speed."
)
_VALVES = (
    "The valves come nearer to the pistons: measure it with the timing and lash that will be run, and turn the engine "
    "twice by hand before it is started."
)
_BOOST = "More boost: mixture, spark and fuel supply first, then boost in small steps, listening for knock."

#: What hurts where it rises, and where it falls.
RISES: Mapping[str, str] = {
    "mean_compression_ratio": _KNOCK,
    "compression_ratio": _KNOCK,
    "effective_compression_ratio": _KNOCK,
    "boost_pressure": _BOOST,
    "pressure_ratio": _BOOST,
}
FALLS: Mapping[str, str] = {
    "squish_clearance": _SQUISH,
    "squish_clearance_running": _SQUISH,
    "valve_to_piston_inlet": _VALVES,
    "valve_to_piston_exhaust": _VALVES,
}


def cautions(specs: Mapping[str, Difference], before: Configuration, after: Configuration) -> tuple[str, ...]:
    """The cautions that stand beside a comparison, each once; the last says what comes first."""
    found = [*of_specs(specs), *_of_tune(before, after), *_of_metal(after)]
    return (*dict.fromkeys(found), MAKER_FIRST) if found else ()


def of_specs(specs: Mapping[str, Difference]) -> Iterator[str]:
    """The cautions for some specs alone."""
    for names, sign in ((RISES, 1.0), (FALLS, -1.0)):
        for name, caution in names.items():
            if name in specs and _moves(specs[name], sign):
                yield caution


def _moves(each: Difference, sign: float) -> bool:
    """Whether a difference at any position goes that way, by more than its error."""
    pairs = zip(each.differences, each.verdicts, strict=True)
    return any(delta and sign * delta.nominal > 0 and told not in (SAME, WITHIN) for delta, told in pairs)


def _of_tune(before: Configuration, after: Configuration) -> Iterator[str]:
    """A tune that what was fitted or worked on leaves unproven, if it was not so before."""
    found, already = unproven(after), unproven(before)
    if found and (already is None or already.words != found.words):
        yield f"{found.tune.label} is {found.words}: {TAKE_CARE}."


def _of_metal(after: Configuration) -> Iterator[str]:
    """Surfaces of fitted parts that have been cut, or would be, deeper than their part allows."""
    for part in after.state.parts:
        until = (after.state.number, END_OF_ENTRY)
        its = surface(after.life, part, until, after.holding.planned)
        if its and its.metal_left is not None and its.metal_left.nominal < -1e-9:
            its_name = after.life.record.engine.usage.prose(its.name)
            yield f"More has come off the {its_name} of {part} than its file allows: it may leak or crack."
