"""Which fact holds: at a moment, for one quantity at one position, the best of what is stated.

As known now: a fact holds on its part for the whole stretch between two reworks that touch it, backwards too. A fact of
the assembled engine belongs to the set of parts it was taken on; it holds while, and whenever, just these parts are
together. The order: measured, predicted, measured but out of date, published, inferred, hearsay, assumed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import TypeVar

from logbook.quantity.catalogue import ENGINE, Quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record import entries as model
from logbook.record.facts import BASES, MEASURED, Fact
from logbook.state.fold import Life
from logbook.state.spread import figure, standard
from logbook.state.states import BEFORE_ALL, END_OF_ENTRY, Fitting, Moment, Reworked, State

S = TypeVar("S", bound=model.Step)

_NO_WORD = 1 << 20  # beyond the number of any entry

Conditions = tuple[tuple[str, str], ...]
Signature = tuple[tuple[str, int], ...]  # the parts of a set and the piece of each at a position


@dataclass(frozen=True, slots=True)
class Held:
    """One fact at one position of the engine, as it stands at the moment that was asked about."""

    fact: Fact
    value: Uncertain
    out_of_date: bool = False
    later: bool = False  # measured after the moment that was asked about
    spread_assumed: bool = False
    overrules: bool = False

    @property
    def basis(self) -> str:
        return self.fact.stated.basis


@dataclass(frozen=True, slots=True)
class _Candidate:
    """A fact that speaks of the position that is asked about, before its figure is worked out."""

    fact: Fact
    index: int
    out_of_date: bool
    moment: Moment


@dataclass(frozen=True)
class Holding:
    """The facts as they stand at one state. `known`: entries known of, None for all of them."""

    life: Life
    state: State
    known: int | None = None
    planned: tuple[Reworked, ...] = ()
    assumed: Mapping[str, Fact] | None = None

    def best(self, row: Quantity, position: str, conditions: Conditions | None = None) -> Held | None:
        """The fact that holds for a quantity at a position, or None. Claims never hold."""
        if self.assumed and row.name in self.assumed:
            return self._assumed(self.assumed[row.name], row, position)
        standing = [each for each in self._candidates(row, position, conditions) if not each.fact.claim]
        if not standing:
            return None
        ranks = [self._first_rank(each) for each in standing]
        first = min(ranks)
        equal = [each for each, rank in zip(standing, ranks, strict=True) if rank == first]
        return self._held(min(equal, key=self._second_rank) if len(equal) > 1 else equal[0])

    def all(self, row: Quantity, position: str, conditions: Conditions | None = None) -> list[Held]:
        """Every fact that says something of this position now, the best first; claims among them."""
        found = self._candidates(row, position, conditions)
        found.sort(key=lambda each: (self._first_rank(each), self._second_rank(each)))
        return [self._held(each) for each in found]

    # does it speak of this position, and is it still true

    def _candidates(self, row: Quantity, position: str, conditions: Conditions | None) -> list[_Candidate]:
        found = []
        worked_on = row.name in self._reworks
        for fact, moment in self._speaking(row.name):
            if conditions is not None and fact.stated.qualifiers != conditions:
                continue
            parts = self._parts(fact, position, moment)
            if parts is None or not fact.at(parts[1]):
                continue
            signature, index = parts
            done = self._touching(signature, fact, moment) if worked_on else 0
            by_now = self._touching(signature, fact, self._now) if worked_on else 0
            if done <= by_now:
                found.append(_Candidate(fact, index, done < by_now, moment))
        return found

    def _speaking(self, name: str) -> list[tuple[Fact, Moment]]:
        """The facts of a quantity that may hold at all, wherever, with the moment they were stated at."""
        if name not in self._by_name:
            self._by_name[name] = [
                (fact, BEFORE_ALL if fact.stated.entry is None else (fact.stated.entry, fact.stated.step))
                for fact in self.life.record.facts.get(name, ())
                if self._may_hold(fact)
            ]
        return self._by_name[name]

    @cached_property
    def _by_name(self) -> dict[str, list[tuple[Fact, Moment]]]:
        return {}

    def _may_hold(self, fact: Fact) -> bool:
        stated = fact.stated
        if stated.occasion == "test" or fact.unknown or id(fact) in self._corrected:
            return False
        return self.known is None or stated.entry is None or stated.entry < self.known

    def _held(self, candidate: _Candidate) -> Held:
        sure = figure(self.life.record, candidate.fact, candidate.index)
        assert sure is not None  # a candidate was taken at its position
        later = candidate.moment > self._now
        return Held(candidate.fact, sure.value, candidate.out_of_date, later, sure.assumed)

    @property
    def _now(self) -> Moment:
        return (self.state.number, END_OF_ENTRY)

    def _parts(self, fact: Fact, position: str, moment: Moment) -> tuple[Signature, int] | None:
        """The part or set that the fact is of, if it serves `position` now, and the index of its figure there."""
        stated = fact.stated
        if stated.stated_for and any(part not in self._fitted for _, part in stated.stated_for):
            return None
        if stated.part is not None:
            return self._of_part(stated.part, fact.row, position)
        index = self.life.arrangement.positions(fact.row.place).index(position)
        now = self._signature(self.state, fact.row, position)
        if not fact.row.owner or moment == BEFORE_ALL:
            return now, index
        return (now, index) if self._signature(self.life.before(moment), fact.row, position) == now else None

    def _of_part(self, part: str, row: Quantity, position: str) -> tuple[Signature, int] | None:
        key = (part, row.name, position)
        if key not in self._pieces:
            fitting = self._fitted.get(part)
            piece = self._piece(fitting, row, position) if fitting else None
            self._pieces[key] = (((part, piece),), piece) if piece is not None else None
        return self._pieces[key]

    @cached_property
    def _pieces(self) -> dict[tuple[str, str, str], tuple[Signature, int] | None]:
        return {}

    @cached_property
    def _fitted(self) -> Mapping[str, Fitting]:
        return {fitting.part: fitting for fitting in self.state.fitted.values()}

    @cached_property
    def _signatures(self) -> dict[tuple[int, str, str], Signature]:
        return {}  # states share what is fitted until it changes, so few of these are ever worked out

    def _signature(self, state: State, row: Quantity, position: str) -> Signature:
        """The parts that own a quantity at a position, with the piece of each."""
        key = (id(state.fitted), row.name, position)
        if key not in self._signatures:
            self._signatures[key] = tuple(self._owners(state, row, position))
        return self._signatures[key]

    def _owners(self, state: State, row: Quantity, position: str) -> Iterator[tuple[str, int]]:
        for kinds in row.owner:
            for fitting in state.fitted.values():
                piece = self._piece(fitting, row, position) if fitting.kind in kinds.split("|") else None
                if piece is not None:
                    yield fitting.part, piece

    def _piece(self, fitting: Fitting, row: Quantity, position: str) -> int | None:
        """Index of the part's own position that serves an engine position; None if it does not serve it."""
        if row.place == ENGINE:
            return 0
        covered = self.life.arrangement.covered(fitting.at, row.place)
        if position not in covered:
            return None
        index = covered.index(position)
        if fitting.order is None:
            return index
        return fitting.order[index] if index < len(fitting.order) else None

    def _touching(self, signature: Signature, fact: Fact, until: Moment) -> int:
        """How many reworks that touch the fact's quantity its owners had seen by a moment; planned ones only now."""
        parts, assembled = {part for part, _ in signature} or {""}, fact.stated.part is None
        return sum(
            1
            for rework in self._reworks[fact.name]
            if rework.moment <= until
            and (until == self._now or rework not in self.planned)
            and rework.part in parts
            and (assembled or not rework.adjusted)
        )

    @cached_property
    def _reworks(self) -> Mapping[str, list[Reworked]]:
        """Reworks by the quantity they touch."""
        by_name: dict[str, list[Reworked]] = {}
        for rework in (*self.life.reworks, *self.planned):
            for name in rework.touches:
                by_name.setdefault(name, []).append(rework)
        return by_name

    # which is better

    def _first_rank(self, candidate: _Candidate) -> tuple[float, float]:
        """Smaller is better: the owner's word, then what it rests on."""
        return self._overruled(candidate), _standing(candidate)

    def _second_rank(self, candidate: _Candidate) -> tuple[float, float, float]:
        """Between facts of one standing: nearest in time if it wears, else the surest; then the latest before."""
        fact, (entry, step) = candidate.fact, candidate.moment
        wears = fact.row.wears
        nearness = self._days_from(fact) if wears else standard(self.life.record, fact, candidate.index)
        return nearness, self._away(entry), -step

    def _overruled(self, candidate: _Candidate) -> float:
        """How the owner's word ranks it: what is adopted comes first, as long as no work has put it out of date."""
        if not self._adopted:
            return _NO_WORD
        stated = candidate.fact.stated
        words = [
            self._away(number)
            for number, said, file in self._adopted
            if said.quantity == candidate.fact.name and said.part in (None, stated.part) and stated.file == file
        ]
        return min(words) if words and not candidate.out_of_date else _NO_WORD

    def _away(self, entry: int) -> int:
        """How far an entry stands from the point asked about: the latest before it first, then the earliest after."""
        return -entry if entry <= self.state.number else entry + _NO_WORD // 2

    def _days_from(self, fact: Fact) -> float:
        """Days between the point that was asked about and the day the fact was taken."""
        entries = self.life.record.entries
        if fact.stated.when is None or not entries:
            return 1 << 20
        now: date = entries[max(self.state.number, 0)].says.date.first
        return abs((now - fact.stated.when.first).days)

    @cached_property
    def _corrected(self) -> frozenset[int]:
        """Facts that a later entry calls a mistake; they do not hold, from the day they were written."""
        wrong: set[int] = set()
        for number, step in self._said(model.Correct):
            said, file = step.correct, self._file_of(step.correct.entry)
            wrong |= {
                id(fact)
                for fact in self.life.record.facts.get(said.quantity, ())
                if fact.stated.file == file
                and said.part in (None, fact.stated.part)
                and (fact.stated.entry is None or fact.stated.entry < number)
            }
        return frozenset(wrong)

    @cached_property
    def _adopted(self) -> list[tuple[int, model.Adoption, str]]:
        """What the owner says holds: the number of the entry that says so, its words, the file that it means."""
        return [(number, step.adopt, self._file_of(step.adopt.from_)) for number, step in self._said(model.Adopt)]

    def _file_of(self, name: str) -> str:
        """The file of an entry, or of a part, by the name that a step gives it."""
        entry = self.life.record.entry(name)
        return entry.file if entry else f"{name.removesuffix('.yaml')}.yaml"

    def _said(self, kind: type[S]) -> list[tuple[int, S]]:
        """Steps of one kind in the entries that are known of."""
        entries = self.life.record.entries[: self.known]
        return [
            (number, step)
            for number, entry in enumerate(entries)
            if isinstance(entry.says, model.Change)
            for step in entry.says.work
            if isinstance(step, kind)
        ]

    def _assumed(self, fact: Fact, row: Quantity, position: str) -> Held | None:
        index = self.life.arrangement.positions(row.place).index(position)
        sure = figure(self.life.record, fact, index)
        return Held(fact, sure.value, spread_assumed=sure.assumed, overrules=True) if sure else None


def _standing(candidate: _Candidate) -> float:
    basis = candidate.fact.stated.basis
    if basis == MEASURED:
        return 1.5 if candidate.out_of_date else 0.0
    return BASES.index(basis) + (len(BASES) if candidate.out_of_date else 0.0)
