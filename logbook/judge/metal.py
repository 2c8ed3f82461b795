"""Cuts that go deeper than the part allows, and sums of cuts that are only a least."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.errors import PointUnknown
from logbook.quantity.catalogue import quantity
from logbook.quantity.units import unit
from logbook.quantity.usage import Usage
from logbook.record.finding import DOUBTFUL, NOTE, WRONG, Finding
from logbook.record.operations import SURFACES
from logbook.state.fold import Life, also
from logbook.state.metal import Surface, surface
from logbook.state.points import find_point
from logbook.state.states import PLANNED, Reworked


def cuts_leave_enough(life: Life) -> Iterator[Finding]:
    """A cut after which more is gone than may come off, done or planned."""
    for rework in life.reworks:
        yield from _too_deep(life, rework, ())
    for name, plan in life.record.plans.items():
        try:
            point = find_point(life, f"plan:{name}")
        except PointUnknown:
            continue  # plans_can_be says so
        planned = also(life, life.after(point.number), plan.work, f"plans/{name}.yaml")[1]
        for rework in planned:
            yield from _too_deep(life, rework, planned)


def _too_deep(life: Life, rework: Reworked, planned: tuple[Reworked, ...]) -> Iterator[Finding]:
    its = surface(life, rework.part, rework.moment, planned) if rework.depth and rework.part else None
    if rework.depth is None or its is None or its.limit is None or its.metal_left is None:
        return
    if its.metal_left.nominal < -1e-9 and rework.operation == SURFACES[life.record.parts[rework.part].kind].operation:
        line, _ = life.record.where(its.limit.stated.file, its.limit.path)
        most = its.metal_removed.nominal + its.metal_left.nominal
        usage = life.record.engine.usage
        says = (
            f"with this cut {_gone(its, usage)} of `{rework.part}`, and {_metal(most, usage)} may "
            f"({its.limit.stated.file}:{line})"
        )
        path = ("work", rework.moment[1] % PLANNED, "depth")
        mend = "correct the depth or the limit if one is a slip"
        yield life.record.finding(rework.depth.stated.file, path, DOUBTFUL, says, mend)


def removed_before_is_known(life: Life) -> Iterator[Finding]:
    """`removed_before` of a part that has no such surface, and a sum that is only a least because of it."""
    for name, part in life.record.parts.items():
        file, its = f"parts/{name}.yaml", surface(life, name)
        if part.removed_before and its is None:
            says = f"`removed_before` is said of a head's joint face or a block's deck, and `{name}` is neither"
            yield life.record.finding(file, ("removed_before",), WRONG, says, "put it into `note:`", key=True)
        elif part.removed_before == "unknown" and its and its.at_least and its.metal_removed.nominal:
            says = f"{_gone(its, life.record.engine.usage)} of `{name}`, and what came off before is unknown"
            mend = "measure it, and enter `metal_removed`" if its.name == "joint face" else "measure the deck height"
            yield life.record.finding(file, ("removed_before",), NOTE, says, mend)


def _gone(its: Surface, usage: Usage) -> str:
    much = f"{'at least ' if its.at_least else ''}{_metal(its.metal_removed.nominal, usage)}"
    return f"{much} has come off the {usage.prose(its.name)}"


def _metal(length: float, usage: Usage) -> str:
    """With no more digits than a cut is told with: hundredths of a millimetre, or tenths of a thou."""
    shown = usage.unit(quantity("metal_removed"))
    return f"{unit(shown).from_base(length):.{2 if shown == 'mm' else 4}f} {shown}"
