"""The graph: from facts to specs, each with its uncertainty by source and with everything it rests on.

In: the facts that hold at a state (state.Holding). Out: a Node for a name at a position, or Missing with what would
unlock it. A formula is a plain function on floats; what surrounds it here finds its arguments, carries their
uncertainties through it, and remembers which they were.

A name under evaluation counts as missing, so that two formulas may stand on each other (lobe centres from events,
events from lobe centres); what came about by such a missing is not remembered, because it is only true from where it
was met.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any

from logbook.quantity.catalogue import Quantity, quantity
from logbook.record.facts import MEASURED, PREDICTED, PUBLISHED
from logbook.specs.bench import COEFFICIENT, TEST_PRESSURES, assumed_coefficient, pressure_of_test
from logbook.specs.checking import CENTRES, CHECKING_LIFT, UNMOVED, checking_lift_of, conditions_of
from logbook.specs.index import ALL_SPECS, OF_THE_CARD, Formula, Function, Index, formula, with_conditions
from logbook.specs.inference import REST, Claimed, claimed_ratios, inferred_rest
from logbook.specs.node import Groups, Missing, Node, of_fact, worked_out
from logbook.state.arrangement import Arrangement
from logbook.state.holding import Conditions, Held, Holding
from logbook.state.steps import TIMING

if TYPE_CHECKING:
    from logbook.specs.sharing import Kept

_MOST_GROUPS = 24
_CONDITIONS = (CHECKING_LIFT, "conditions")  # the second stands where a position would


class Graph:
    """Specs of one configuration, each evaluated when it is first asked for."""

    def __init__(
        self, arrangement: Arrangement, holding: Holding, specs: Index = ALL_SPECS, known: Kept | None = None
    ) -> None:
        self.arrangement, self.holding, self.specs = arrangement, holding, specs
        self.evaluated = 0  # formulas run, for the benchmark and the tests
        self._known: Kept = {} if known is None else known
        self._under_way: set[tuple[str, str]] = set()
        self._leant_on: set[tuple[str, str]] = set()  # what was under way when it was asked for, and so was missing
        self._as_read: dict[frozenset[str], Graph] = {}

    def at(self, name: str, position: str) -> Node | Missing:
        """The value of a name at a position of its place, or what is missing."""
        key = (name, position)
        known: Node | Missing | None = self._known.get(key)
        if known is not None:
            return known
        if key in self._under_way:
            self._leant_on.add(key)
            return Missing(((name,),))
        outer, self._leant_on = self._leant_on, set()
        self._under_way.add(key)
        try:
            found = self._evaluate(quantity(name), position)
        finally:
            self._under_way.discard(key)
            leant_on = self._leant_on - {key}
            self._leant_on = outer | leant_on
        if not leant_on:
            self._known[key] = found
        return found

    def all(self, name: str) -> tuple[Node | Missing, ...]:
        """A name at every position of its place."""
        return tuple(self.at(name, position) for position in self.arrangement.positions(quantity(name).place))

    def computed(self, name: str, position: str) -> Node | Missing:
        """The value from the formulas alone, with the facts of that name left aside."""
        apart = self.with_holding(self.holding)
        apart._under_way.add((name, position))  # nothing that it rests on may rest on the fact itself
        return apart._compute(quantity(name), position)

    @cached_property
    def claimed(self) -> tuple[Claimed, ...]:
        """The claimed compression ratios of the record, each with the engine that it was stated for."""
        return tuple(claimed_ratios(self))

    def with_holding(self, holding: Holding) -> Graph:
        """The same formulas on other facts: those of another state, or those of the papers."""
        return Graph(self.arrangement, holding, self.specs)

    def kept_without(self, names: Set[str]) -> dict[tuple[str, str], Any]:
        """What is known, but for what is known of these names."""
        known = self._known if isinstance(self._known, dict) else {}
        return {key: found for key, found in known.items() if key[0] not in names}

    def _left_aside(self, name: str) -> frozenset[str]:
        """What is supposed of the camshaft and leaves a figure where it is; nothing where events are supposed too."""
        if not self.holding.assumed:
            return frozenset()
        supposed = frozenset(self.holding.assumed)
        return supposed & UNMOVED.get(name, frozenset()) if supposed & TIMING <= CENTRES else frozenset()

    def _without(self, supposed: frozenset[str]) -> Graph:
        """The same engine without these suppositions."""
        if supposed not in self._as_read:
            assumed = {name: fact for name, fact in (self.holding.assumed or {}).items() if name not in supposed}
            self._as_read[supposed] = self.with_holding(replace(self.holding, assumed=assumed))
        return self._as_read[supposed]

    def _evaluate(self, row: Quantity, position: str) -> Node | Missing:
        if row.reading:
            read = self.holding.reading(row, position)
            return of_fact(row.name, position, read) if read else Missing(((row.name,),))
        if left := self._left_aside(row.name):
            return self._without(left).at(row.name, position)
        if row.name == CHECKING_LIFT:
            return checking_lift_of(self.holding, self.conditions)
        if row.name in TEST_PRESSURES:
            return pressure_of_test(self.holding, row.name, position)
        held = self.holding.best(row, position, self.conditions if with_conditions(row.name) else None)
        if held and (held.overrules or row.name not in self.specs or self._stands(held)):
            return of_fact(row.name, position, held)
        if row.name in OF_THE_CARD:
            return self._of_the_card(row.name, position)
        if row.name not in self.specs:
            return Missing(((row.name,),))
        computed = self._compute(row, position)
        if isinstance(computed, Missing) and row.name == REST:
            computed = inferred_rest(self, position) or computed
        if isinstance(computed, Missing) and row.name == COEFFICIENT and not held and not computed.because:
            computed = assumed_coefficient(position, valve=self.at("inlet_valve_diameter", position))
        if isinstance(computed, Node):
            return of_fact(row.name, position, held) if held and _surer(row, held, computed) else computed
        return of_fact(row.name, position, held) if held and not row.result else computed

    def _stands(self, held: Held) -> bool:
        """Whether a figure comes before the formulas for it: measured and still true, or what is asked for first."""
        first = self.holding.first
        return held.basis == first and (first != MEASURED or not held.out_of_date) and not self._turned(held)

    def _turned(self, held: Held) -> bool:
        """Whether the camshaft is supposed to stand elsewhere than where this event was read."""
        return held.fact.name in TIMING and not TIMING.isdisjoint(self.holding.assumed or ())

    def _of_the_card(self, name: str, position: str) -> Node | Missing:
        """A figure from what was published alone; a card is not asked for its own card."""
        if self.holding.first == PUBLISHED:
            return Missing(((name,),))
        found = self._card.at(OF_THE_CARD[name], position)
        published = isinstance(found, Node) and all(
            held.basis not in (MEASURED, PREDICTED) for held in found.facts.values()
        )
        return found if published else Missing(((name,),))

    @cached_property
    def _card(self) -> Graph:
        return self.with_holding(replace(self.holding, first=PUBLISHED, assumed=None))

    def _compute(self, row: Quantity, position: str) -> Node | Missing:
        """From the first formula that can run; what every one lacks if none can."""
        lacking: list[Missing] = []
        for function in self.specs[row.name]:
            found = self._run(formula(row.name, function), row, position)
            if isinstance(found, Node):
                return found
            lacking.append(found)
        return _either(row, lacking)

    def _run(self, its: Formula, row: Quantity, position: str) -> Node | Missing:
        inputs = self.inputs(its, row, position)
        if isinstance(inputs, Missing):
            return inputs
        self.evaluated += 1
        return worked_out(its, position, inputs)

    def inputs(self, its: Formula, row: Quantity, position: str) -> Mapping[str, tuple[Node, ...]] | Missing:
        """What a formula needs for a quantity at a position of its place, by name."""
        found: dict[str, tuple[Node, ...]] = {}
        absent: list[Missing] = []
        for name, positions in _needed(self.arrangement, its, row.place, position):
            nodes = [self.at(name, each) for each in positions]
            found[name] = taken = tuple([node for node in nodes if isinstance(node, Node)])
            if len(taken) < len(nodes):
                enough = taken and name in its.every and quantity(name).event  # a test may leave some out
                absent += [] if enough else [node for node in nodes if isinstance(node, Missing)]
        return _together(absent) if absent else found

    @cached_property
    def conditions(self) -> Conditions:
        """The conditions under which camshaft events are taken: see checking.py."""
        known: Conditions | None = self._known.get(_CONDITIONS)
        if known is None:
            known = self._known[_CONDITIONS] = conditions_of(self.holding)
        return known


def _surer(row: Quantity, held: Held, computed: Node) -> bool:
    """Whether a figure that was not measured is better than what was worked out, and comes before it.

    A prediction that is surer; and what a card states at this very lift, before what follows from the card's own other
    figures or from its lift table, as long as nothing measured or supposed is among these.
    """
    if held.basis == PREDICTED:
        return held.value.standard < computed.value.standard
    of_a_card = held.basis == PUBLISHED and row.name in TIMING
    return of_a_card and not any(
        each.overrules or each.basis in (MEASURED, PREDICTED) for each in computed.facts.values()
    )


@lru_cache(maxsize=1 << 12)
def _needed(
    arrangement: Arrangement, its: Formula, place: str, position: str
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Where a formula wants each of its names, for a quantity at a position of its place."""
    return tuple((name, _positions(arrangement, its, name, place, position)) for name in its.needs)


def _positions(arrangement: Arrangement, its: Formula, name: str, place: str, position: str) -> tuple[str, ...]:
    positions = arrangement.across(place, position, quantity(name).place)
    if name not in its.every and len(positions) > 1:
        raise TypeError(
            f"{its.name} is one for the {place} and needs {name} at {len(positions)} positions: annotate it with Every"
        )
    return positions


def _together(absent: list[Missing]) -> Missing:
    """What one formula lacks: all of it."""
    groups = tuple(dict.fromkeys(group for missing in absent for group in missing.groups))
    because = next((missing.because for missing in absent if missing.because), "")
    return Missing(groups, because)


def _either(row: Quantity, lacking: list[Missing]) -> Missing:
    """What would unlock one of several formulas, or the figure itself where it may be stated.

    A camshaft's event is asked for itself: it is read off a degree wheel like whatever else would give it.
    """
    if row.card and row.sides:
        return Missing(((row.name,),), next((missing.because for missing in lacking if missing.because), ""))
    because = next((missing.because for missing in lacking if missing.because), "")
    ways: list[Groups] = [missing.groups for missing in lacking if missing.groups]
    if not row.derived_only and not row.result and not because:
        ways.append(((row.name,),))
    if because and not ways:
        return Missing((), because)
    return Missing(_alternatives(tuple(ways)) if ways else (), because)


@lru_cache(maxsize=1 << 10)
def _alternatives(ways: tuple[Groups, ...]) -> Groups:
    """What unlocks one of several ways: a name out of each group of a set that has one group of every way."""
    groups: Groups = ((),)
    for way in ways:
        groups = _fewest({tuple(dict.fromkeys((*some, *more))) for some in groups for more in way})
    return groups


def _fewest(groups: set[tuple[str, ...]]) -> Groups:
    """Without the groups that hold another one whole; the shortest first, and not without end."""
    sets = {group: frozenset(group) for group in groups}
    least = [group for group, its in sets.items() if not any(other < its for other in sets.values())]
    return tuple(sorted(least, key=lambda group: (len(group), group))[:_MOST_GROUPS])


__all__ = ["Formula", "Function", "Graph", "Groups", "Missing", "Node"]
