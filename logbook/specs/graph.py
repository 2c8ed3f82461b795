"""The graph: from facts to specs, each with its uncertainty by source and with everything it rests on.

In: the facts that hold at a state (state.Holding). Out: a Node for a name at a position, or Missing with what would
unlock it. A formula is a plain function on floats; what surrounds it here finds its arguments, carries their
uncertainties through it, and remembers which they were.

A name under evaluation counts as missing, so that two formulas may stand on each other (lobe centres from events,
events from lobe centres); such a missing is not remembered, because it is only true from where it was met.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from itertools import product

from logbook.quantity.catalogue import Quantity, quantity
from logbook.record.facts import MEASURED, PREDICTED
from logbook.specs.bench import COEFFICIENT, TEST_PRESSURES, assumed_coefficient, pressure_of_test
from logbook.specs.index import ALL_SPECS, WITH_CREVICE, Formula, Function, formula, with_conditions
from logbook.specs.inference import REST, Claimed, claimed_ratios, inferred_rest
from logbook.specs.node import Groups, Missing, Node, of_fact, worked_out
from logbook.state.arrangement import Arrangement
from logbook.state.holding import Held, Holding

_MOST_GROUPS = 24


class Graph:
    """Specs of one configuration, each evaluated when it is first asked for."""

    def __init__(self, arrangement: Arrangement, holding: Holding, *, crevice: bool = False) -> None:
        self.arrangement, self.holding = arrangement, holding
        self.specs = WITH_CREVICE if crevice else ALL_SPECS
        self.evaluated = 0  # formulas run, for the benchmark and the tests
        self._known: dict[tuple[str, str], Node | Missing] = {}
        self._under_way: set[tuple[str, str]] = set()

    def at(self, name: str, position: str) -> Node | Missing:
        """The value of a name at a position of its place, or what is missing."""
        key = (name, position)
        if key in self._known:
            return self._known[key]
        if key in self._under_way:
            return Missing(((name,),), passing=True)
        self._under_way.add(key)
        try:
            found = self._evaluate(quantity(name), position)
        finally:
            self._under_way.discard(key)
        if isinstance(found, Node) or not found.passing or not self._under_way:
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
        return Graph(self.arrangement, holding, crevice=self.specs is WITH_CREVICE)

    def _evaluate(self, row: Quantity, position: str) -> Node | Missing:
        if row.reading:
            read = self.holding.reading(row, position)
            return of_fact(row.name, position, read) if read else Missing(((row.name,),))
        if row.name in TEST_PRESSURES:
            return pressure_of_test(self.holding, row.name, position)
        held = self.holding.best(row, position, self.conditions if with_conditions(row.name) else None)
        if held and (held.overrules or row.name not in self.specs or self._stands(held)):
            return of_fact(row.name, position, held)
        if row.name not in self.specs:
            return Missing(((row.name,),))
        computed = self._compute(row, position)
        if isinstance(computed, Missing) and row.name == REST:
            computed = inferred_rest(self, position) or computed
        if isinstance(computed, Missing) and row.name == COEFFICIENT and not held and not computed.because:
            computed = assumed_coefficient(position, valve=self.at("inlet_valve_diameter", position))
        if isinstance(computed, Node):
            better = held and held.basis == PREDICTED and held.value.standard < computed.value.standard
            return of_fact(row.name, position, held) if held and better else computed
        return of_fact(row.name, position, held) if held and not row.result else computed

    def _stands(self, held: Held) -> bool:
        """Whether a figure comes before the formulas for it: measured and still true, or what is asked for first."""
        first = self.holding.first
        return held.basis == first and (first != MEASURED or not held.out_of_date)

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
        found = {name: self._needed(name, its, row, position) for name in its.needs}
        absent = [node for some in found.values() for node in some if isinstance(node, Missing)]
        if absent:
            return _together(absent)
        return {name: tuple(n for n in some if isinstance(n, Node)) for name, some in found.items()}

    def _needed(self, name: str, its: Formula, row: Quantity, position: str) -> tuple[Node | Missing, ...]:
        positions = self.arrangement.across(row.place, position, quantity(name).place)
        if name not in its.every and len(positions) > 1:
            raise TypeError(
                f"{its.name} is one for the {row.place} and needs {name} at {len(positions)} positions: "
                "annotate it with Every"
            )
        return tuple(self.at(name, each) for each in positions)

    @cached_property
    def conditions(self) -> tuple[tuple[str, str], ...]:
        """The conditions under which camshaft events are taken: the lowest checking lift at which any holds."""
        found = {
            held.fact.stated.qualifiers
            for name in ("inlet_closes", "inlet_opens", "exhaust_opens", "exhaust_closes", "inlet_lobe_centre")
            for held in self.holding.all(quantity(name), "")
        }
        return min(found, key=_lift, default=())


def _lift(conditions: tuple[tuple[str, str], ...]) -> tuple[float, int, str]:
    lift = dict(conditions).get("at_lift")
    return (float(lift.split()[0]) if lift else float("inf"), len(conditions), str(conditions))


def _together(absent: list[Missing]) -> Missing:
    """What one formula lacks: all of it."""
    groups = tuple(dict.fromkeys(group for missing in absent for group in missing.groups))
    because = next((missing.because for missing in absent if missing.because), "")
    return Missing(groups, because, any(missing.passing for missing in absent))


def _either(row: Quantity, lacking: list[Missing]) -> Missing:
    """What would unlock one of several formulas, or the figure itself where it may be stated."""
    because = next((missing.because for missing in lacking if missing.because), "")
    passing = any(missing.passing for missing in lacking)
    ways: list[Groups] = [missing.groups for missing in lacking if missing.groups]
    if not row.derived_only and not row.result and not because:
        ways.append(((row.name,),))
    if because and not ways:
        return Missing((), because, passing)
    combined = {tuple(dict.fromkeys(name for group in choice for name in group)) for choice in product(*ways)}
    least = [group for group in combined if not any(set(other) < set(group) for other in combined)]
    groups = tuple(sorted(least, key=lambda group: (len(group), group))[:_MOST_GROUPS])
    return Missing(groups, because, passing)


__all__ = ["Formula", "Function", "Graph", "Groups", "Missing", "Node"]
