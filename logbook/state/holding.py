"""Which fact holds: at a moment, for one quantity at one position, the best of what is stated.

As known now: a fact holds on its part for the whole stretch between two reworks that touch it, backwards too. A fact of
the assembled engine belongs to the set of parts it was taken on; it holds while, and whenever, just these parts are
together. The order: measured, predicted, measured but out of date, published, inferred, hearsay, assumed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import NamedTuple

from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record import entries as model
from logbook.record.facts import INFERRED, MEASURED, PREDICTED, Fact
from logbook.record.readings import named_reading
from logbook.state.fold import Life
from logbook.state.owners import Owners, Signature
from logbook.state.prediction import CARRIED, CUT, carried
from logbook.state.ranking import Candidate, least, standing_of
from logbook.state.sayings import adoptions
from logbook.state.speaking import Horizon, speaking
from logbook.state.spread import Sureness, figure, not_taken, standard
from logbook.state.states import BEFORE_ALL, END_OF_ENTRY, Moment, Reworked, State, moment_of
from logbook.state.stretches import Stretches

_NO_WORD = 1 << 20  # beyond the number of any entry
_SETTLED = (_NO_WORD, 0.0)  # the rank of a fresh measurement: nothing needs to be foreseen

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

    def best(self, row: Quantity, position: str, conditions: Conditions | None = None) -> Held | None:
        """The fact that holds for a quantity at a position, or None. Claims never hold."""
        if self.assumed and row.name in self.assumed:
            return self._assumed(self.assumed[row.name], row, position)
        if self.lent and (row.name, position) in self.lent:
            lent = self.lent[row.name, position]
            return lent if lent is None or conditions in (None, lent.fact.stated.qualifiers) else None
        stating = speaking(self.life, self.state, row.name, self._horizon, claims=False)
        if not stating and row.name not in CARRIED:
            return None
        standing = self._candidates(row, position, conditions, stating)
        best = self._first_of(standing) if standing else None
        if best and self._first_rank(best) <= _SETTLED:
            return self._held(best)
        return self._foreseen(row, position, standing, best) or (self._held(best) if best else None)

    def _first_of(self, standing: list[Candidate]) -> Candidate:
        equal = least(least(standing, self._first_rank), self._nearness)
        return min(equal, key=self._latest_before) if len(equal) > 1 else equal[0]

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
        found.sort(key=lambda each: (self._first_rank(each), self._nearness(each), self._latest_before(each)))
        return [self._held(each) for each in found]

    # does it speak of this position, and is it still true

    def _candidates(
        self, row: Quantity, position: str, conditions: Conditions | None, stated: Iterable[tuple[Fact, Moment]]
    ) -> list[Candidate]:
        found = []
        worked_on = self._stretches.worked_on(row.name)
        of_part: dict[str, tuple[Signature, int] | None] = {}
        for fact, moment in stated:
            part = fact.stated.part
            if conditions is not None and fact.stated.qualifiers != conditions:
                continue
            if part is None or fact.stated.stated_for:
                parts = self._parts(fact, position, moment)
            elif part in of_part:
                parts = of_part[part]
            else:
                parts = of_part[part] = self._parts(fact, position, moment)
            if parts is None:
                continue
            signature, index = parts
            done = len(self._seen(signature, fact, moment)) if worked_on else 0
            by_now = len(self._seen(signature, fact, self._now)) if worked_on else 0
            if done <= by_now:
                found.append(Candidate(fact, index, done < by_now, moment, inferred=not fact.at(index)))
        return found

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
        return Held(candidate.fact, sure.value, candidate.out_of_date, later, sure.assumed, made=made)

    def _sure(self, fact: Fact, place: int, *, inferred: bool = False) -> Sureness | None:
        record, make = self.life.record, not_taken if inferred else figure
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
        if not fact.row.owner or moment == BEFORE_ALL:
            return now, index
        before = self.life.before(moment)
        then = self.life.meant(before) if fact.claim else before
        return (now, index) if self._owners.signature(fact.row, position, then) == now else None

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
        after_cuts = self._after_cuts(self._first_of(stale), position) if stale else None
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

    # which is better

    def _first_rank(self, candidate: Candidate) -> tuple[float, float]:
        """Smaller is better: the owner's word, then what it rests on."""
        word = self._overruled(candidate) if self._adopted and self.first == MEASURED else _NO_WORD
        return word, standing_of(candidate, self.first)

    def _nearness(self, candidate: Candidate) -> float:
        """Between facts of one standing: the nearest in time if it wears, else the surest."""
        fact = candidate.fact
        return self._days_from(fact) if fact.row.wears else standard(self.life.record, fact, candidate.place)

    def _latest_before(self, candidate: Candidate) -> tuple[float, float]:
        """Between facts as near as each other: the latest before the point that was asked about."""
        entry, step = candidate.moment
        return self._away(entry), -step

    def _overruled(self, candidate: Candidate) -> float:
        """How the owner's word ranks it: what is adopted comes first, as long as no work has put it out of date."""
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
    def _adopted(self) -> tuple[tuple[int, model.Adoption, str], ...]:
        return adoptions(self.life.record, self.known)

    def _assumed(self, fact: Fact, row: Quantity, position: str) -> Held | None:
        index = self.life.arrangement.positions(row.place).index(position)
        sure = figure(self.life.record, fact, index)
        return Held(fact, sure.value, spread_assumed=sure.assumed, overrules=True) if sure else None
