"""What is true of the engine at one moment: what is fitted where, since when, what was set, how far each part ran.

Nouns only. In: nothing. Out: State and what it is made of; steps.py makes one from another, fold.py all of them.
"""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_uppercase
from typing import NamedTuple

from logbook.quantity.catalogue import PART_KINDS
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.state.counters import KINDS, NOTHING_RUN, Counters, Totals

Moment = tuple[int, int]  # (number of the entry, number of the step)
Slot = tuple[str, str]  # (part kind, where: '', 'bank 1' or 'cylinder 4'; the part's own name for kinds of many)
BEFORE_ALL: Moment = (-1, 0)
PLANNED = 1 << 30  # steps of a plan follow those of the entry that it stands on: their number plus this
END_OF_ENTRY = 1 << 31


def moment_of(fact: Fact) -> Moment:
    """When a fact was stated; before all for what stands in a part's file."""
    return BEFORE_ALL if fact.stated.entry is None else (fact.stated.entry, fact.stated.step)


def piece_name(part: str, piece: int) -> str:
    """A piece of a set, by the letter that it has in the set's own order: `pistons-2, piece D`."""
    return f"{part}, piece {ascii_uppercase[piece] if piece < len(ascii_uppercase) else piece + 1}"


class Fitting(NamedTuple):
    """A part in its place, since when, and which of its pieces serves which position (None: in its own order).

    `off`: the cylinders in which its piece has been exchanged for another part, or is off.
    """

    part: str
    kind: str
    at: str
    since: Moment
    order: tuple[int, ...] | None = None
    off: frozenset[str] = frozenset()


class Reworked(NamedTuple):
    """A rework that has been done: it puts out of date what it touches.

    `adjusted`: nothing was cut, a figure of the assembled engine was set anew; the parts' own figures stay true.
    """

    part: str  # '' for what belongs to no part
    operation: str
    touches: frozenset[str]
    moment: Moment
    depth: Fact | None = None
    adjusted: bool = False


class Setting(NamedTuple):
    """What was set without a unit: jets, fuel, plugs."""

    text: str
    moment: Moment


class TuneState(NamedTuple):
    """A tune by its label, with what it came from and the tables that belong to it."""

    label: str
    step: model.Tune
    moment: Moment


class State(NamedTuple):
    """The engine after the entry `number` (−1: before the first)."""

    number: int
    counters: Counters
    fitted: Mapping[Slot, Fitting] = {}
    run: Mapping[str, Totals] = {}  # what each part, and piece of a set, ran in closed periods
    begun: Mapping[str, Totals] = {}  # totals when the running period of each of them began
    settings: Mapping[str, Setting] = {}
    tune: TuneState | None = None
    build: str | None = None
    vehicle: str | None = None
    gone: Mapping[str, str] = {}  # parts sold or scrapped

    def part_at(self, kind: str, at: str = "") -> str | None:
        """The part of that kind in that place, if any."""
        fitting = self.fitted.get((kind, at))
        return fitting.part if fitting else None

    @property
    def parts(self) -> tuple[str, ...]:
        """Fitted parts, by kind in the order of the catalogue."""
        kinds = list(PART_KINDS)
        return tuple(
            fitting.part for fitting in sorted(self.fitted.values(), key=lambda f: (kinds.index(f.kind), f.at))
        )

    def has_run(self, part: str) -> Totals:
        """Distance and hours of a part, or of a piece by its name, in this engine; None where no counter tells."""
        return Totals(*(self._has_run(part, kind) for kind in KINDS))

    def _has_run(self, part: str, kind: str) -> float | None:
        closed, now = self.run.get(part, NOTHING_RUN).of(kind), self.counters.totals.of(kind)
        if part not in self.begun or now is None:
            return closed
        begun = self.begun[part].of(kind)
        if begun is None:  # fitted before this kind of counter was: its run counts from the counter's first reading
            begun = self.counters.began(kind)
        return (closed or 0.0) + now - (now if begun is None else begun)
