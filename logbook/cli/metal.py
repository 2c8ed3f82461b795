"""What `logbook specs` prints of metal: surface by surface what came off, and what may still come off."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.cli import layout
from logbook.cli.figures import figure, rests_on, unit_of
from logbook.specs.configuration import Configuration
from logbook.specs.metal import BOUND, LEFT, REMOVED, metal_specs, surfaces

_WORDS = {REMOVED: "removed", LEFT: "left to remove"}


def metal_rows(at: Configuration) -> Iterator[tuple[str, str, str, str, tuple[str, ...]]]:
    """Name, number, ±, unit and marks of each figure."""
    its, engine = surfaces(at), at.life.record.engine
    for spec in metal_specs(at):
        for place, value in zip(spec.positions, spec.values, strict=True):
            if value:
                marks = (BOUND[spec.name] if its[place].at_least else "", rests_on(value.shares, value.basis))
                number, plus_minus = figure(spec.row, value, engine.show)
                name, unit = f"{place}, {_WORDS[spec.name]}", unit_of(spec.row, engine)
                yield name, number, plus_minus, unit, tuple(filter(None, marks))


def too_thin(at: Configuration) -> Iterator[str]:
    """The caution where more is gone than may be, or where the error leaves it open."""
    for place, its in surfaces(at).items():
        left = its.metal_left
        if left is not None and left.nominal < left.expanded:
            is_gone = "has come off" if left.nominal < 0 else "may have come off, within its error,"
            says = f"Careful: more metal {is_gone} the {place} than its limit allows. What is too thin warps, "
            says += "and its joint may fail under pressure; the maker's least thickness comes first."
            yield from layout.wrapped(says, indent=2)
