"""Is it within its limits? The rules that hold for this engine, and each figure judged by them.

In: engine.yaml's `limits:`, the rules that the program brings along (limit_rules.py), a configuration. Out: a Judged
for every figure that a rule speaks of, with what was accepted beside it. Nothing is printed here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.judge.acceptance import Accepted, accepted
from logbook.judge.bounds import OUTSIDE, UNDECIDED, WITHIN, Standing, parse_bound, standing
from logbook.judge.limit_rules import HARMFUL, RULE, RULES, Option, Rule
from logbook.quantity.catalogue import ENGINE, Quantity, catalogue
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.value import ValueProblem
from logbook.record import models
from logbook.record.facts import INFERRED
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.state.states import State

__all__ = ["OUTSIDE", "UNDECIDED", "WITHIN", "Judged", "Limit", "judged", "limits_of"]

_BLOWERS = ("turbocharger", "supercharger")


class Limit(NamedTuple):
    """A rule as it holds for this engine. `low` and `high` as written; `source`: where it is from.

    `own`: set by the owner; `others`: published forms of the same rule that say otherwise.
    """

    id: str
    spec: str
    low: str | None
    high: str | None
    source: str
    own: bool = False
    others: tuple[Option, ...] = ()
    remark: str = ""
    danger: bool = False
    weight: str = RULE
    spread: bool = False
    of_test: bool = False


class Judged(NamedTuple):
    """One figure at one position against one limit. Values and bounds in base units.

    `node`: what was judged and all that it rests on; of a spread the position that lies highest.
    """

    limit: Limit
    row: Quantity
    position: str
    value: Uncertain
    low: Uncertain | None
    high: Uncertain | None
    standing: Standing
    node: Node
    accepted: Accepted | None = None

    @property
    def verdict(self) -> str:
        """`within`, `outside` or `not proven either way`."""
        return self.standing.verdict

    @property
    def in_force(self) -> bool:
        """Whether the owner accepts it as it is: said once, and nothing has changed since."""
        return self.accepted is not None and not self.accepted.ended


def judged(at: Configuration) -> tuple[Judged, ...]:
    """Every figure of a configuration that a limit speaks of, by limit in the order of the rules."""
    found = []
    for limit in limits_of(at.life.record.engine, boosted=_is_boosted(at.state)):
        row = catalogue().get(limit.spec)
        if row and not row.event and not limit.of_test:
            found += list(_of_spread(at, limit, row) if limit.spread else _of_positions(at, limit, row))
    return tuple(found)


def _is_boosted(state: State) -> bool:
    return any(fitting.kind in _BLOWERS for fitting in state.fitted.values())


def _of_positions(at: Configuration, limit: Limit, row: Quantity) -> Iterator[Judged]:
    for node in at.graph.all(row.name):
        if isinstance(node, Node) and not (node.held and node.held.made == INFERRED):  # not taken, not judged
            low, high = (_bound(at, text, row, node.position) for text in (limit.low, limit.high))
            if low is not None or high is not None:
                yield _judged(at, limit, row, node.position, node.value, low, high, node)


def _of_spread(at: Configuration, limit: Limit, row: Quantity) -> Iterator[Judged]:
    """The greatest less the least, where each position was taken by itself."""
    nodes = [node for node in at.graph.all(row.name) if isinstance(node, Node)]
    if len(nodes) < 2 or any(node.held and (node.held.fact.for_all or node.held.made == INFERRED) for node in nodes):
        return
    least, most = (pick(nodes, key=lambda node: node.value.nominal) for pick in (min, max))
    high = _bound(at, limit.high, row, "")
    if high is not None:
        yield _judged(at, limit, row, "", most.value - least.value, None, high, most)


def _judged(
    at: Configuration,
    limit: Limit,
    row: Quantity,
    position: str,
    value: Uncertain,
    low: Uncertain | None,
    high: Uncertain | None,
    node: Node,
) -> Judged:
    found = Judged(limit, row, position, value, low, high, standing(value, low, high), node)
    return found if found.verdict == WITHIN else found._replace(accepted=accepted(at, limit, node, value, low, high))


def _bound(at: Configuration, text: str | None, row: Quantity, position: str) -> Uncertain | None:
    """A bound at a position; None where there is none, or the figure that it is a multiple of is not known."""
    if text is None:
        return None
    try:
        bound = parse_bound(text, row)
    except ValueProblem:
        return None  # limits_can_be_read says so
    if not bound.of:
        return bound.at(None)
    places = at.life.arrangement.across(row.place, position, catalogue()[bound.of].place)
    nodes = [at.graph.at(bound.of, each) for each in places]
    return bound.at(nodes[0].value) if len(nodes) == 1 and isinstance(nodes[0], Node) else None


# --- which rules hold ------------------------------------------------------------------------------------------------


def limits_of(engine: models.Engine, *, boosted: bool = False) -> tuple[Limit, ...]:
    """The limits that hold for an engine: the program's, as the owner has changed them, and the owner's own."""
    own = {limit.id: limit for limit in engine.limits}
    shipped = [_shipped(rule, own.get(rule.id), engine, boosted) for rule in RULES]
    known = {rule.id for rule in RULES}
    added = [_own(limit) for limit in engine.limits if limit.id not in known and limit.spec and not limit.off]
    return tuple(limit for limit in (*shipped, *added) if limit)


def _shipped(rule: Rule, mine: models.Limit | None, engine: models.Engine, boosted: bool) -> Limit | None:
    """A rule of the program with the owner's word on it; None where it is switched off or has to stand back."""
    if mine and mine.spec not in (None, rule.spec):
        mine = None  # limits_can_be_read says so
    if mine and mine.off:
        return None
    option = _option(rule, mine.choose if mine else None, boosted)
    flags = rule.danger, rule.weight, rule.spread, rule.of_test
    if mine and (mine.min or mine.max):
        others = tuple(each for each in rule.options if each.boosted == boosted)
        return Limit(rule.id, rule.spec, mine.min, mine.max, mine.rule or "", True, others, rule.remark, *flags)
    low, high = _left_over(rule, option, engine)
    if low is None and high is None:
        return None
    others = tuple(each for each in rule.options if each is not option and each.boosted == option.boosted)
    return Limit(rule.id, rule.spec, low, high, option.source, bool(mine and mine.choose), others, rule.remark, *flags)


def _option(rule: Rule, chosen: str | None, boosted: bool) -> Option:
    """The form of a rule that the owner chose, else the first that suits the engine."""
    named = [option for option in rule.options if option.source == chosen]
    suiting = [option for option in rule.options if option.boosted == boosted]
    return (named or suiting or list(rule.options))[0]


def _left_over(rule: Rule, option: Option, engine: models.Engine) -> tuple[str | None, str | None]:
    """The bounds that the owner's limits of the same quantity leave to a rule of thumb: they come first."""
    mine = [limit for limit in engine.limits if limit.spec == rule.spec and not limit.off] if not rule.spread else []
    low = None if any(limit.min for limit in mine) else option.low
    high = None if any(limit.max for limit in mine) else option.high
    return low, high


def _own(limit: models.Limit) -> Limit:
    assert limit.spec  # asked before
    row = catalogue().get(limit.spec)
    of_test = bool(row and row.event) or bool(row and row.place == ENGINE and limit.spec == "cranking_pressure_least")
    danger = limit.spec in HARMFUL or any(rule.danger and rule.spec == limit.spec for rule in RULES)
    said = limit.min, limit.max, limit.rule or ""
    return Limit(limit.id, limit.spec, *said, own=True, danger=danger, of_test=of_test)
