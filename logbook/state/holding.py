"""Which fact holds: at a moment, for one quantity at one position, the best of what is stated.

As known now: a fact holds on its part for the whole stretch between two reworks that touch it, backwards too. A fact of
the assembled engine belongs to the set of parts it was taken on; it holds while, and whenever, just these parts are
together. The order: measured, predicted, measured but out of date, published, inferred, hearsay, assumed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import INFERRED, MEASURED, PREDICTED, Fact
from logbook.record.readings import named_reading
from logbook.state.bolts import BOLTS, of_other_bolts
from logbook.state.fold import Life
from logbook.state.owners import Owners, Signature
from logbook.state.prediction import CARRIED, CUT, carried
from logbook.state.ranking import Candidate, Ranking
from logbook.state.sayings import adoptions
from logbook.state.speaking import Horizon, said_of, speaking
from logbook.state.spread import Sureness, figure, not_taken
from logbook.state.states import BEFORE_ALL, END_OF_ENTRY, Moment, Reworked, State, moment_of
from logbook.state.stretches import Stretches

Conditions = tuple[tuple[str, str], ...]


class Held(NamedTuple):
    """One fact at one position of the engine, as it stands at the moment that was asked about."""

    fact: Fact
    value: Uncertain
    out_of_date: bool = False
    later: bool = False  # measured after the moment that was asked about
    spread_assumed: bool = False
    overrules: bool = False
    made: str = ""  # inferred or predicted, where the figure is not the fact's own
    place: int | None = None  # of its figure among those that the fact states, where it is one of them as it stands

    @property
    def basis(self) -> str:
        return self.made or self.fact.stated.basis


@dataclass(frozen=True)
class Holding:
    """The facts as they stand at one state, as far as the first `known` entries tell. `first`: the basis put first."""

    life: Life
    state: State
    known: int | None = None
    planned: tuple[Reworked, ...] = ()
    assumed: Mapping[str, Fact] | None = None
    first: str = MEASURED
    lent: Mapping[tuple[str, str], Held | None] | None = None  # by quantity and position: from another time or shelf
    hindsight: bool = False  # a mistake is one although only a later entry says so
    _found: dict[tuple[str, str, Conditions | None], Held | None] = field(default_factory=dict, init=False, repr=False)

    def best(self, row: Quantity, position: str, conditions: Conditions | None = None) -> Held | None:
        """The fact that holds for a quantity at a position, or None. Claims never hold."""
        key = (row.name, position, conditions)
        if key not in self._found:
            self._found[key] = self._best(row, position, conditions)
        return self._found[key]

    def _best(self, row: Quantity, position: str, conditions: Conditions | None) -> Held | None:
        if self.assumed and row.name in self.assumed:
            return self._assumed(self.assumed[row.name], row, position)
        if self.lent and (row.name, position) in self.lent:
            lent = self.lent[row.name, position]
            return lent if lent is None or conditions in (None, lent.fact.stated.qualifiers) else None
        if row.name not in self.life.record.facts and row.name not in CARRIED:
            return None
        ranking, standing = self._ranking, []
        for each in self._candidates(row, position, conditions, self._in_turn(row)):
            if ranking.before_all(each):
                return self._held(each)
            standing.append(each)
        best = ranking.first_of(standing) if standing else None
        if best and ranking.settled(best):
            return self._held(best)
        return self._foreseen(row, position, standing, best) or (self._held(best) if best else None)

    def _in_turn(self, row: Quantity) -> Iterator[tuple[Fact, Moment]]:
        """What is stated of a quantity, first what is likely to come first."""
        said = said_of(self.life.record, row.name, self._horizon.mistakes, claims=False)
        turns = self._ranking.in_turn(row, said, self.known)
        if row.owner == BOLTS:
            return (each for each in turns if not of_other_bolts(self.life, self.state, each[0]))
        return turns

    def reading(self, row: Quantity, position: str) -> Held | None:
        """One named reading of the fact that holds for the quantity it is a reading of; None if that has none such."""
        if row.reading is None:
            return None
        name, label = row.reading
        whole = self.best(quantity(name), position)
        fact = self._named(whole.fact, label) if whole and not whole.made else None
        parts = self._parts(fact, position, moment_of(fact)) if fact else None
        sure = self._sure(fact, parts[1]) if fact and parts else None
        if whole is None or fact is None or sure is None:
            return None
        return whole._replace(fact=fact, value=sure.value, spread_assumed=sure.assumed)

    def _named(self, fact: Fact, label: str) -> Fact | None:
        named, _ = self.life.record.once(("named", id(fact), label), lambda: (named_reading(fact, label), fact))
        return named

    def all(self, row: Quantity, position: str, conditions: Conditions | None = None) -> list[Held]:
        """Every fact that says something of this position now, the best first; claims among them."""
        if self.lent and (row.name, position) in self.lent:
            lent = self.lent[row.name, position]
            return [lent] if lent else []
        found = self._candidates(row, position, conditions, self.speaking(row.name))
        return [self._held(each) for each in sorted(found, key=self._ranking.of)]

    # does it speak of this position, and is it still true

    def _candidates(
        self, row: Quantity, position: str, conditions: Conditions | None, stated: Iterable[tuple[Fact, Moment]]
    ) -> Iterator[Candidate]:
        worked_on = self._stretches.worked_on(row.name)
        alike: dict[object, tuple[Signature, int] | None] = {}  # by the one part, or by what stood together then
        for fact, moment in stated:
            said = fact.stated
            if conditions is not None and said.qualifiers != conditions:
                continue
            whose = said.stated_for, said.part or id(self._stood(fact, moment).fitted)
            if whose not in alike:
                alike[whose] = self._parts(fact, position, moment)
            parts = alike[whose]
            if parts is None:
                continue
            signature, index = parts
            done = len(self._seen(signature, fact, moment)) if worked_on else 0
            by_now = len(self._seen(signature, fact, self._now)) if worked_on else 0
            if done <= by_now:
                yield Candidate(fact, index, done < by_now, moment, not fact.at(index))

    def speaking(self, name: str) -> Sequence[tuple[Fact, Moment]]:
        """The facts of a quantity that may hold at all, wherever, with the moment they were stated at."""
        return speaking(self.life, self.state, name, self._horizon)

    @cached_property
    def _horizon(self) -> Horizon:
        return Horizon(self.known, None if self.hindsight else self.known)

    def _held(self, candidate: Candidate) -> Held:
        sure = self._sure(candidate.fact, candidate.place, inferred=candidate.inferred)
        assert sure is not None  # a candidate states something
        later = candidate.moment > self._now
        made = INFERRED if candidate.inferred else ""
        return Held(
            candidate.fact, sure.value, candidate.out_of_date, later, sure.assumed, made=made, place=candidate.place
        )

    def _sure(self, fact: Fact, place: int, *, inferred: bool = False) -> Sureness | None:
        record, make = self.life.record, not_taken if inferred else figure
        place = 0 if fact.for_all else place  # the very same figure everywhere, so that work on it is done once
        key = ("figure", id(fact), place, inferred)
        sure, _ = record.once(key, lambda: (make(record, fact, place), fact))  # the fact too, so that its id is its own
        return sure

    @property
    def _now(self) -> Moment:
        return (self.state.number, END_OF_ENTRY)

    def _parts(self, fact: Fact, position: str, moment: Moment) -> tuple[Signature, int] | None:
        """The part or set that the fact is of, if it serves `position` now, and the index of its figure there."""
        stated = fact.stated
        if any(self._owners.piece_of(part, fact.row, position) is None for _, part in stated.stated_for):
            return None  # of a bank, what is stated for its head says nothing of the other
        if stated.part is not None:
            piece = self._owners.piece_of(stated.part, fact.row, position)
            return (((stated.part, piece),), piece) if piece is not None else None
        index = self.life.arrangement.positions(fact.row.place).index(position)
        now = self._owners.signature(fact.row, position)
        then = self._owners.signature(fact.row, position, self._stood(fact, moment))
        return (now, index) if then == now else None

    def _stood(self, fact: Fact, moment: Moment) -> State:
        """The engine that a figure of the assembled engine was taken of."""
        if not fact.row.owner or moment == BEFORE_ALL:
            return self.state
        before = self.life.before(moment)
        return self.life.meant(before) if fact.claim else before

    @cached_property
    def _owners(self) -> Owners:
        return Owners(self.life.arrangement, self.state)

    def _seen(self, signature: Signature, fact: Fact, until: Moment) -> list[Reworked]:
        return self._stretches.seen({part for part, _ in signature}, fact, until, now=until == self._now)

    @cached_property
    def _stretches(self) -> Stretches:
        if self.planned:
            return Stretches(self.life.reworks, self.planned)
        done = self.life.reworks
        return self.life.record.once(("stretches", id(done)), lambda: Stretches(done))

    # what work of known depth, or the exchange of one part, has made of a figure

    def _foreseen(self, row: Quantity, position: str, some: list[Candidate], best: Candidate | None) -> Held | None:
        """What the best figure that is out of date must have become, or that of a set that differs by one part."""
        # A position that was not taken loses what the others lose, where nothing better is known of it.
        stale = [each for each in some if each.out_of_date and (each is best or not each.inferred)]
        after_cuts = self._after_cuts(self._ranking.first_of(stale), position) if stale else None
        return after_cuts or (self._carried(row, position) if row.name in CARRIED else None)

    def _after_cuts(self, candidate: Candidate, position: str) -> Held | None:
        fact, parts = candidate.fact, self._parts(candidate.fact, position, candidate.moment)
        signature = parts[0] if parts else ()
        before = self._seen(signature, fact, candidate.moment)
        value: Uncertain | None = self._held(candidate).value
        for rework in self._seen(signature, fact, self._now)[len(before) :]:
            rule, depth = CUT.get((rework.operation, fact.name)), rework.depth
            sure = figure(self.life.record, depth, 0) if depth else None
            value = rule(value, sure.value, self._look(position)) if rule and sure and value else None
        made = INFERRED if candidate.inferred else PREDICTED
        return Held(fact, value, later=candidate.moment > self._now, made=made) if value else None

    def _look(self, position: str) -> Callable[[str], Uncertain | None]:
        def look(name: str) -> Uncertain | None:
            held = self.best(quantity(name), position)
            return held.value if held else None

        return look

    def _carried(self, row: Quantity, position: str) -> Held | None:
        """From the latest measured figure of a set of which just one part has been exchanged since."""
        for fact, moment in reversed(self.speaking(row.name)):
            if fact.stated.part is None and fact.stated.basis == MEASURED and moment != BEFORE_ALL:
                value = self._carried_from(fact, position, moment)
                if value:
                    return Held(fact, value, later=moment > self._now, made=PREDICTED)
        return None

    def _carried_from(self, fact: Fact, position: str, moment: Moment) -> Uncertain | None:
        then = self.life.before(moment)
        was, now = self._owners.signature(fact.row, position, then), self._owners.signature(fact.row, position)
        exchanged = [old[0] for old, new in zip(was, now, strict=False) if old != new]
        kept = tuple(owner for owner in was if owner in now)
        if len(was) != len(now) or len(exchanged) != 1:
            return None
        if len(self._seen(kept, fact, moment)) != len(self._seen(kept, fact, self._now)):
            return None
        name, share = CARRIED[fact.name].get(self.life.record.parts[exchanged[0]].kind, ("", 0.0))
        index = self.life.arrangement.positions(fact.row.place).index(position)
        sure = figure(self.life.record, fact, index)
        if not name or sure is None:
            return None
        at = self.life.arrangement.across(fact.row.place, position, quantity(name).place)[0]
        old = Holding(self.life, then, self.known, hindsight=self.hindsight).best(quantity(name), at)
        new = self.best(quantity(name), at)
        return carried(sure.value, old.value, new.value, share) if old and new else None

    @cached_property
    def _ranking(self) -> Ranking:
        record = self.life.record
        return Ranking(record, self.state.number, adoptions(record, self.known), self.first)

    def _assumed(self, fact: Fact, row: Quantity, position: str) -> Held | None:
        index = self.life.arrangement.positions(row.place).index(position)
        sure = figure(self.life.record, fact, index)
        return Held(fact, sure.value, spread_assumed=sure.assumed, overrules=True) if sure else None
