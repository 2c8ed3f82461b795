"""Which fact holds: at a moment, for one quantity at one position, the best of what is stated.

As known now: a fact holds on its part for the whole stretch between two reworks that touch it, backwards too. A fact of
the assembled engine belongs to the set of parts it was taken on; it holds while, and whenever, just these parts are
together. The order: measured, predicted, measured but out of date, published, inferred, hearsay, assumed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import TypeVar

from logbook.quantity.catalogue import ENGINE, Quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record import entries as model
from logbook.record.facts import BASES, MEASURED, Fact
from logbook.state.fold import BEFORE_ALL, END_OF_ENTRY, Fitting, Life, Moment, Reworked, State
from logbook.state.spread import figure

S = TypeVar("S", bound=model.Step)

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


@dataclass(frozen=True)
class Holding:
    """The facts as they stand at one state. `known`: entries known of, None for all of them."""

    life: Life
    state: State
    known: int | None = None
    planned: tuple[Reworked, ...] = ()
    assumed: Mapping[str, Fact] | None = None

    def best(self, row: Quantity, position: str, conditions: tuple[tuple[str, str], ...] | None = None) -> Held | None:
        """The fact that holds for a quantity at a position, or None. Claims never hold."""
        if self.assumed and row.name in self.assumed:
            return self._assumed(self.assumed[row.name], row, position)
        standing = [held for held in self.all(row, position, conditions) if not held.fact.claim]
        return standing[0] if standing else None

    def all(self, row: Quantity, position: str, conditions: tuple[tuple[str, str], ...] | None = None) -> list[Held]:
        """Every fact that says something of this position now, the best first; claims among them."""
        found = []
        for fact in self.life.record.facts.get(row.name, ()):
            if conditions is not None and fact.stated.qualifiers != conditions:
                continue
            held = self._held(fact, position)
            if held:
                found.append(held)
        adopted = self._adopted.get(row.name)
        return sorted(found, key=lambda held: self._rank(held, adopted))

    # does it speak of this position, and is it still true

    def _held(self, fact: Fact, position: str) -> Held | None:
        stated = fact.stated
        if stated.occasion == "test" or fact.unknown or id(fact) in self._corrected:
            return None
        if self.known is not None and stated.entry is not None and stated.entry >= self.known:
            return None
        moment = BEFORE_ALL if stated.entry is None else (stated.entry, stated.step)
        parts = self._parts(fact, position, moment)
        if parts is None:
            return None
        signature, index = parts
        done, by_now = self._touching(signature, fact, moment), self._touching(signature, fact, self._now)
        if done > by_now:
            return None
        sure = figure(self.life.record, fact, index)
        if sure is None:
            return None
        return Held(fact, sure.value, out_of_date=done < by_now, later=moment > self._now, spread_assumed=sure.assumed)

    @property
    def _now(self) -> Moment:
        return (self.state.number, END_OF_ENTRY)

    def _parts(self, fact: Fact, position: str, moment: Moment) -> tuple[Signature, int] | None:
        """The part or set that the fact is of, if it serves `position` now, and the index of its figure there."""
        fitted = {fitting.part for fitting in self.state.fitted.values()}
        if any(part not in fitted for _, part in fact.stated.stated_for):
            return None
        if fact.stated.part is not None:
            serving = self._serving_part(self.state.fitted.values(), fact.stated.part, fact.row, position)
            return (((fact.stated.part, serving),), serving) if serving is not None else None
        index = self.life.arrangement.positions(fact.row.place).index(position)
        now = self._signature(self.state, fact.row, position)
        if not fact.row.owner or moment == BEFORE_ALL:
            return now, index
        return (now, index) if self._signature(self.life.before(moment), fact.row, position) == now else None

    def _signature(self, state: State, row: Quantity, position: str) -> Signature:
        """The parts that own a quantity at a position, with the piece of each."""
        found = []
        for kinds in row.owner:
            for fitting in state.fitted.values():
                if fitting.kind in kinds.split("|"):
                    piece = self._piece(fitting, row, position)
                    if piece is not None:
                        found.append((fitting.part, piece))
        return tuple(found)

    def _serving_part(self, fittings: Iterable[Fitting], part: str, row: Quantity, position: str) -> int | None:
        for fitting in fittings:
            if fitting.part == part:
                return self._piece(fitting, row, position)
        return None

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
        """How many reworks that touch the fact's quantity its owners had seen by a moment."""
        reworks = self._reworks.get(fact.name)
        if not reworks:
            return 0
        parts, assembled = {part for part, _ in signature} or {""}, fact.stated.part is None
        return sum(
            1
            for rework in reworks
            if rework.moment <= until and rework.part in parts and (assembled or not rework.adjusted)
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

    def _rank(self, held: Held, adopted: str | None) -> tuple[float, ...]:
        """Smaller is better."""
        entry = held.fact.stated.entry
        if adopted is not None and held.fact.stated.file == adopted:
            return (-1,)
        moment = BEFORE_ALL if entry is None else (entry, held.fact.stated.step)
        time = -moment[0] if not held.later else moment[0] + (1 << 20)  # the latest before, else the earliest after
        nearness = self._days_from(held.fact) if held.fact.row.wears else held.value.standard
        return (_standing(held), nearness, time, -moment[1])

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
            said = step.correct
            entry = self.life.record.entry(said.entry)
            facts = entry.facts if entry else self._of_part(said.entry)
            wrong |= {
                id(fact)
                for fact in facts
                if fact.name == said.quantity
                and (said.part is None or fact.stated.part == said.part)
                and (fact.stated.entry is None or fact.stated.entry < number)
            }
        return frozenset(wrong)

    def _of_part(self, name: str) -> tuple[Fact, ...]:
        file = f"{name.removesuffix('.yaml')}.yaml"
        return tuple(fact for some in self.life.record.facts.values() for fact in some if fact.stated.file == file)

    @cached_property
    def _adopted(self) -> Mapping[str, str]:
        """Quantity -> file that the owner says holds; the latest word counts."""
        found = {}
        for number, step in self._said(model.Adopt):
            entry = self.life.record.entry(step.adopt.from_)
            if entry and number <= self.state.number:
                found[step.adopt.quantity] = entry.file
            elif not entry:
                found[step.adopt.quantity] = f"{step.adopt.from_.removesuffix('.yaml')}.yaml"
        return found

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


def _standing(held: Held) -> float:
    if held.basis == MEASURED:
        return 1.5 if held.out_of_date else 0.0
    return BASES.index(held.basis) + (len(BASES) if held.out_of_date else 0.0)
