"""How far a part has run in all: in this engine, in the one that it came from, and before anybody wrote it down."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.record.models import Part
from logbook.record.record import Record
from logbook.record.when import Amount, parse_reading
from logbook.state.counters import Totals
from logbook.state.states import State


class Run(NamedTuple):
    """Distance [m] and hours [s]: here, elsewhere, and whether the sum is only about right or a least."""

    here: Totals
    elsewhere: tuple[Amount, ...] = ()
    unknown: bool = False  # nobody knows what it ran before

    def of(self, kind: str) -> float | None:
        """The whole run, as far as it is known; None where nothing is."""
        here = self.here.of(kind)
        known = [each.base for each in self.elsewhere if each.kind == kind] + ([] if here is None else [here])
        return sum(known) if known else None

    def hedge(self, kind: str) -> str:
        """'', 'about ' or 'at least ': what stands before the sum."""
        hedges = {each.hedge for each in self.elsewhere if each.kind == kind}
        if self.unknown or "at least " in hedges:
            return "at least "
        return "about " if "about " in hedges else ""


def whole_run(record: Record, state: State, part: str) -> Run:
    """What a part has run up to a state, with what its file says of earlier."""
    said = record.parts[part]
    return Run(state.has_run(part), tuple(_elsewhere(said)), _unknown(said))


def _elsewhere(part: Part) -> Iterator[Amount]:
    if part.came_from:
        yield from (amount for amount in (part.came_from.distance, part.came_from.hours) if amount)
    if part.used_before and part.used_before != "new":
        yield from parse_reading(part.used_before)


def _unknown(part: Part) -> bool:
    """A part that came from another record is known as that one knows it."""
    return part.used_before == "unknown" or (part.used_before is None and part.came_from is None)
