"""A configuration: what is fitted and what holds at a point, and the specs that follow from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from copy import copy
from typing import TYPE_CHECKING

from logbook.specs.graph import Graph
from logbook.specs.groups import in_page_order
from logbook.specs.index import ALL_SPECS, WITH_CREVICE, Index
from logbook.specs.results import Spec, spec
from logbook.specs.touched import touched
from logbook.state.fold import Life, also
from logbook.state.holding import Holding
from logbook.state.intended import intended
from logbook.state.points import Point, find_point
from logbook.state.states import State

if TYPE_CHECKING:
    from logbook.specs.explain import CurveExplanation, Explanation
    from logbook.specs.sharing import Kept


_MOST_KEPT = 64


class Configuration:
    """The engine at one point, with its facts and its specs; `besides`: more formulas than those of any engine."""

    def __init__(
        self,
        life: Life,
        point: Point,
        state: State,
        holding: Holding,
        known: Kept | None = None,
        besides: Index | None = None,
    ) -> None:
        self.life, self.point, self.state, self.holding = life, point, state, holding
        index = WITH_CREVICE if life.record.engine.crevice == "counted" else ALL_SPECS
        self.graph = Graph(life.arrangement, holding, {**index, **besides} if besides else index, known)
        self.specs: Mapping[str, Spec] = _Specs(self.graph, known)

    def named(self, point: Point) -> Configuration:
        """The same under the name of another point; what the one works out the other knows."""
        same = copy(self)
        same.point = point
        return same

    def explain(self, name: str, cylinder: str | None = None) -> Explanation | CurveExplanation:
        """How a spec, a curve or a stated figure came about. Raises CannotExplain."""
        from logbook.specs.explain import explain

        return explain(self, name, cylinder)


_EVERYWHERE = "at every place"  # stands where a position would: a spec is its values at all of them


class _Specs(Mapping[str, Spec]):
    """Every spec by its name, in page order; each is worked out when it is first asked for."""

    def __init__(self, graph: Graph, known: Kept | None) -> None:
        self._graph = graph
        self._names = in_page_order(graph.specs)
        self._found: Kept = {} if known is None else known

    def __getitem__(self, name: str) -> Spec:
        found: Spec | None = self._found.get((name, _EVERYWHERE))
        if found is None:
            if name not in self._graph.specs:
                raise KeyError(name)
            found = self._found[name, _EVERYWHERE] = spec(self._graph, name)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


def configuration(life: Life, text: str = "now", *, known: int | None = None, hindsight: bool = False) -> Configuration:
    """The configuration at the point that `text` names; PointUnknown if there is none.

    Of a plan from the first `known` entries alone, with `hindsight` less what later ones call mistakes.
    """
    point = find_point(life, text)
    if point.plan is None:
        return configuration_after(life, point.number, point=point)
    plan = life.record.plans[point.plan]
    state, reworks, _ = also(life, life.after(point.number), plan.work, f"plans/{point.plan}.yaml")
    assumed = {fact.name: fact for fact in life.record.planned[point.plan] if fact.stated.part is None}
    lent = intended(life, state, point.plan, reworks)
    holding = Holding(life, state, known, reworks, assumed, lent=lent or None, hindsight=hindsight)
    return Configuration(life, point, state, holding)


def configuration_after(
    life: Life, number: int, *, known: int | None = None, point: Point | None = None
) -> Configuration:
    """The configuration after entry `number`, as known now or from the first `known` entries alone."""
    name = life.record.entries[number].id if number >= 0 else "before the first entry"
    return _after(life, number, known).named(point or Point(name, number))


def _after(life: Life, number: int, known: int | None) -> Configuration:
    """The latest that were asked for are kept: a life is walked more than once for one page. A new one takes over from
    the nearest of them what is the same in both, so that an entry costs what it touches.

    What is kept holds its life, so that while there is any the id of that life is no other's.
    """
    kept: dict[tuple[int, int | None], Configuration] = life.record.once(("configurations", id(life)), dict)
    key = (number, known)
    found = kept.pop(key, None)
    if found is None:
        while len(kept) >= _MOST_KEPT:
            del kept[next(iter(kept))]
        state = life.after(number)
        holding = Holding(life, state, known)
        nearest = min(kept.values(), key=lambda other: _apart(other.holding, holding), default=None)
        same = nearest.graph.kept_without(touched(nearest.holding, holding)) if nearest else {}
        found = Configuration(life, Point("", number), state, holding, same)
    kept[key] = found  # at the end, so that the first is the one that was not asked for the longest
    return found


def _apart(one: Holding, other: Holding) -> int:
    """How many entries lie between two points of a life, and between what is known there."""
    every = len(one.life.record.entries)
    known = [every if each.known is None else each.known for each in (one, other)]
    return abs(one.state.number - other.state.number) + abs(known[0] - known[1])
