"""What the graph answers with: a value and how it came about, or what is missing for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.quantity.curve import Curve
from logbook.quantity.uncertain import Argument, Uncertain, nominal_of, propagate
from logbook.record.facts import BASES
from logbook.specs.index import Formula, Function
from logbook.specs.validity import OUTSIDE, outside_validity
from logbook.state.holding import Held

Groups = tuple[tuple[str, ...], ...]
Curves = tuple[tuple[str, Curve], ...]


class Node(NamedTuple):
    """A value at one position and how it came about: the fact that it is, or the formula and its inputs."""

    name: str
    position: str
    value: Uncertain
    basis: str
    held: Held | None = None
    formula: Formula | None = None
    inputs: Mapping[str, tuple[Node, ...]] = {}
    out_of_date: bool = False
    outside: tuple[str, ...] = ()  # why it lies outside the validity of a formula that it rests on
    facts: Mapping[str, Held] = {}  # every fact it rests on, by the place where it stands


@dataclass(frozen=True, slots=True)
class Missing:
    """No value. `groups`: any one name of each group unlocks it. `because`: what cannot be, if figures contradict."""

    groups: Groups = ()
    because: str = ""


def of_fact(name: str, position: str, held: Held) -> Node:
    """A stated figure as it stands."""
    fact = held.fact
    facts = {f"{fact.stated.file}|{'/'.join(map(str, fact.path))}": held}
    return Node(name, position, held.value, held.basis, held, out_of_date=held.out_of_date, facts=facts)


def worked_out(its: Formula, position: str, nodes: Mapping[str, tuple[Node, ...]]) -> Node | Missing:
    """The value of a formula at what it needs; the weakest basis of that is its basis."""
    arguments: dict[str, Argument] = {
        name: [node.value for node in some] if name in its.every else some[0].value for name, some in nodes.items()
    }
    whole = {name: tuple(map(_curve, nodes[name])) for name in its.curves}
    if bare := tuple((name,) for name, some in whole.items() if None in some):
        return Missing(bare)
    curves = tuple((name, curve) for name, some in whole.items() for curve in some if curve is not None)
    try:
        value = _remembered(its.function, arguments, curves)
    except (ValueError, ZeroDivisionError, OverflowError) as impossible:
        return Missing(because=str(impossible))
    used = [node for some in nodes.values() for node in some]
    weakest = max((node.basis for node in used), key=BASES.index)
    old = any(node.out_of_date for node in used)
    outside = _outside(its, value, {**arguments, **dict(curves)}, used)
    facts = {key: held for node in used for key, held in node.facts.items()}
    return Node(its.name, position, value, weakest, None, its, nodes, old, outside, facts)


def _outside(
    its: Formula, value: Uncertain, arguments: Mapping[str, Argument | Curve], used: Sequence[Node]
) -> tuple[str, ...]:
    """Its own reasons, and those of all it rests on, each once."""
    inherited = (reason for node in used for reason in node.outside)
    if its.name not in OUTSIDE:
        return tuple(dict.fromkeys(inherited))
    nominal = {name: each if isinstance(each, Curve) else nominal_of(each) for name, each in arguments.items()}
    own = outside_validity(its.name, {**nominal, "result": value.nominal})
    return tuple(dict.fromkeys((*own, *inherited)))


_MOST_REMEMBERED = 1 << 14
#: By the ids of what it was worked out from, which is kept beside it so that they stay its own.
_done: dict[tuple[object, ...], tuple[Uncertain, object]] = {}


def _remembered(function: Function, arguments: Mapping[str, Argument], curves: Curves) -> Uncertain:
    """A formula at uncertain arguments; the same arithmetic comes up at every entry of a life, and is done once.

    The same: of the very same values, not of equal ones, which would take longer to tell than most formulas to run.
    """
    values = (id(each) if isinstance(each, Uncertain) else tuple(map(id, each)) for each in arguments.values())
    key = (id(function), *values, *(id(curve) for _, curve in curves))
    if key not in _done:
        if len(_done) >= _MOST_REMEMBERED:
            _done.clear()
        value = propagate(_with_curves(function, curves), arguments)
        _done[key] = value, (function, arguments, curves)
    return _done[key][0]


def forget() -> None:
    """Lets go of what was worked out so far, for a comparison of times."""
    _done.clear()


def _with_curves(function: Function, curves: Curves) -> Function:
    """The formula with each lift table handed over whole, raised or lowered with its greatest lift.

    What may be wrong in a table is taken as one error of all its readings: of a lift the dial's zero and the lash, of a
    flow the bench's factor.
    """
    if not curves:
        return function

    def on_curves(**given: float) -> float:
        whole = {name: _with_its_error(name, curve, given[name]) for name, curve in curves}
        return function(**{**given, **whole})

    return on_curves


def _with_its_error(name: str, curve: Curve, greatest: float) -> Curve:
    return curve.raised(greatest - curve.top) if quantity(name).kind == "length" else curve.scaled(greatest / curve.top)


def _curve(node: Node) -> Curve | None:
    """The table that a figure is the greatest of; None where that one figure is all that was stated or supposed."""
    return node.held.fact.curve if node.held else None
