"""Which of several facts comes first: the owner's word, then what it rests on, then the nearest or surest, then the
latest.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any, NamedTuple

from logbook.quantity.catalogue import Quantity
from logbook.record import entries as model
from logbook.record.facts import BASES, INFERRED, MEASURED, Fact
from logbook.record.record import Record
from logbook.state.speaking import Said, lateness
from logbook.state.spread import standard
from logbook.state.states import Moment

_NO_WORD = 1 << 21  # beyond the word of any entry
_SETTLED = (_NO_WORD, 0.0)  # the rank of a fresh measurement: nothing needs to be foreseen
_NO_DAY = 1 << 20


class Candidate(NamedTuple):
    """A fact that speaks of the position that is asked about, before its figure is worked out."""

    fact: Fact
    place: int  # among the positions of the fact
    out_of_date: bool
    moment: Moment
    inferred: bool = False


@dataclass(frozen=True)
class Ranking:
    """The order of the facts as seen from one entry. `adopted`: the owner's words; `first`: the basis put first."""

    record: Record
    number: int
    adopted: tuple[tuple[int, model.Adoption, str], ...]
    first: str = MEASURED

    def first_of(self, some: list[Candidate]) -> Candidate:
        """The first of one or more; what would not decide is not looked at."""
        equal = _least(_least(some, self._standing), self._nearness)
        return min(equal, key=self._latest_before) if len(equal) > 1 else equal[0]

    def of(self, candidate: Candidate) -> tuple[Any, ...]:
        """The whole rank; smaller is better."""
        return self._standing(candidate), self._nearness(candidate), self._latest_before(candidate)

    def settled(self, candidate: Candidate) -> bool:
        """Whether it is as good as a fresh measurement."""
        return self._standing(candidate) <= _SETTLED

    def in_turn(self, row: Quantity, said: Said, known: int | None) -> Iterator[tuple[Fact, Moment]]:
        """Facts of a quantity by what is the same at every position: how near they are in time, or only how late."""
        if row.wears:
            return said.nearest_first(self._today, self.number, known)
        return said.latest_first(self.number, known)

    def before_all(self, candidate: Candidate) -> bool:
        """Whether it comes before all whose turn is later: measured, fresh, as sure as any, no word of the owner's."""
        fact = candidate.fact
        return (
            fact.stated.basis == MEASURED == self.first
            and not (candidate.out_of_date or candidate.inferred)
            and fact.name not in self._spoken_of
            and (fact.row.wears or standard(self.record, fact, candidate.place) <= self._surest(fact.name))
        )

    def _surest(self, name: str) -> float:
        """The least standard uncertainty that any fact of a quantity has at any of its positions."""
        facts = self.record.facts[name]
        every = ((fact, place) for fact in facts for place in range(len(fact.positions)))
        return self.record.once(("surest", name), lambda: min(standard(self.record, *each) for each in every))

    @cached_property
    def _spoken_of(self) -> frozenset[str]:
        return frozenset(said.quantity for _, said, _ in self.adopted)

    def _standing(self, candidate: Candidate) -> tuple[float, float]:
        """The owner's word, then what it rests on."""
        word = self._overruled(candidate) if self.adopted and self.first == MEASURED else _NO_WORD
        return word, standing_of(candidate, self.first)

    def _nearness(self, candidate: Candidate) -> float:
        """Between facts of one standing: the nearest in time if it wears, else the surest."""
        fact = candidate.fact
        return self._days_from(fact) if fact.row.wears else standard(self.record, fact, candidate.place)

    def _latest_before(self, candidate: Candidate) -> tuple[int, int]:
        """Between facts as near as each other: the latest before the point that was asked about."""
        return lateness(candidate.moment, self.number)

    def _overruled(self, candidate: Candidate) -> float:
        """How the owner's word ranks it: what is adopted comes first, as long as no work has put it out of date."""
        stated = candidate.fact.stated
        words = [
            lateness((number, 0), self.number)[0]
            for number, said, file in self.adopted
            if said.quantity == candidate.fact.name and said.part in (None, stated.part) and stated.file == file
        ]
        return min(words) if words and not candidate.out_of_date else _NO_WORD

    def _days_from(self, fact: Fact) -> float:
        """Days between the point that was asked about and the day the fact was taken."""
        when, today = fact.stated.when, self._today
        return _NO_DAY if when is None or today is None else abs((today - when.first).days)

    @cached_property
    def _today(self) -> date | None:
        entries = self.record.entries
        today: date | None = entries[max(self.number, 0)].says.date.first if entries else None
        return today


def standing_of(candidate: Candidate, first: str) -> float:
    """Smaller is better: measured, predicted, measured but out of date, then what was said; `first` before all."""
    basis = INFERRED if candidate.inferred else candidate.fact.stated.basis
    if basis == first != MEASURED:
        return -1.0  # whatever was done to the part since: the papers say what they say
    if basis == MEASURED:
        return 1.5 if candidate.out_of_date else 0.0
    return BASES.index(basis) + (len(BASES) if candidate.out_of_date else 0.0)


def _least(some: list[Candidate], rank: Callable[[Candidate], Any]) -> list[Candidate]:
    """Those of the smallest rank; the ranks are only worked out where there is a choice."""
    if len(some) < 2:
        return some
    ranks = [rank(each) for each in some]
    smallest = min(ranks)
    return [each for each, its in zip(some, ranks, strict=True) if its == smallest]
