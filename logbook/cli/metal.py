"""What `logbook specs` prints of metal: surface by surface what came off, and what may still come off."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.cli import layout
from logbook.cli.figures import figure, rests_on, unit_of
from logbook.quantity.catalogue import quantity
from logbook.specs.configuration import Configuration
from logbook.specs.metal import BOUND, LEFT, REMOVED, surfaces

_ROW = quantity(REMOVED)  # every sum and difference of cuts is shown as they are


def metal_rows(at: Configuration) -> Iterator[tuple[str, str, str, str, tuple[str, ...]]]:
    """Name, number, ±, unit and marks of each figure."""
    its, engine = surfaces(at), at.life.record.engine
    removed = ((f"{place}, removed", each.removed, BOUND[REMOVED], each.bounds) for place, each in its.items())
    left = ((f"{place}, left to remove", each.left, BOUND[LEFT], each.bounds) for place, each in its.items())
    for name, value, bound, is_bound in (*removed, *left):
        if value:
            number, plus_minus = figure(_ROW, value, engine.show)
            old = "out of date" if value.out_of_date else ""
            marks = (bound if is_bound else "", rests_on(value.shares, value.basis), old)
            yield engine.usage.prose(name), number, plus_minus, unit_of(_ROW, engine), tuple(filter(None, marks))


def too_thin(at: Configuration) -> Iterator[str]:
    """The caution where more is gone than may be, or where the error leaves it open."""
    for surface, its in surfaces(at).items():
        left, place = its.left, at.life.record.engine.usage.prose(surface)
        if left is not None and left.nominal < left.expanded:
            is_gone = "has come off" if left.nominal < 0 else "may have come off, within its error,"
            says = f"Careful: more metal {is_gone} the {place} than its limit allows. What is too thin warps, "
            says += "and its joint may fail under pressure; the maker's least thickness comes first."
            yield from layout.wrapped(says, indent=2)
