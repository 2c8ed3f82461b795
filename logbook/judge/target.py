"""What a quantity must become for a spec to have a wanted value; and how deep a cut gets it there.

Solved on the graph itself, so whatever the spec rests on is taken along. What the answer rests on makes it uncertain:
its uncertainty is that of the spec there, over the spec's slope against the quantity (JCGM 100:2008, 5.1.2).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise
from math import sqrt
from typing import NamedTuple

from logbook.errors import LogbookError
from logbook.quantity.catalogue import ENGINE, Quantity, catalogue, did_you_mean, own_name, quantity
from logbook.quantity.stated import Line, Stated
from logbook.quantity.uncertain import COVERAGE
from logbook.quantity.units import unit
from logbook.record.facts import ASSUMED, Fact, Statement
from logbook.record.operations import OPERATIONS
from logbook.specs.better import leaves
from logbook.specs.configuration import Configuration
from logbook.specs.dependence import depending_on
from logbook.specs.graph import Node
from logbook.specs.sharing import Kept
from logbook.state.metal import Surface, surface
from logbook.state.prediction import OPENING_ASSUMED
from logbook.state.states import PLANNED, Reworked

_STEPS = 48  # of the range that is searched for a change of sign
_DEEPEST = 3e-3  # m: no joint face has more to give
_ALONE = 999  # the number of a step that stands after every other that is thought of

#: Operations that take a depth off, by the kind of part they are done to, as `--by` names them.
CUTS = {"surface_milled": ("surface milled", "cylinder_head"), "decked": ("decked", "block")}


class CannotAim(LogbookError):
    """A target that is no target: one line that says what would work."""


class Needed(NamedTuple):
    """What is needed at one position, base units. `reached`: what the spec is there; short of it where none does."""

    position: str
    value: float
    standard: float
    now: float | None
    reached: float
    solved: bool

    @property
    def expanded(self) -> float:
        return COVERAGE * self.standard


class Target(NamedTuple):
    """The answer: `by` is the quantity or cut; `at` the engine as it would be."""

    spec: Quantity
    wanted: float
    by: str
    row: Quantity  # what `needed` is a figure of
    needed: tuple[Needed, ...]
    at: Configuration


def target(at: Configuration, name: str, wanted: float, by: str) -> Target:
    """What `by` must become for `name` to be `wanted` (base units). Raises CannotAim."""
    spec, by = _spec(at, name), own_name(by)
    if by in CUTS:
        row, change, bounds = quantity("cut_depth"), _cutting(at, by), (0.0, _DEEPEST)
    else:
        row = _by(at, name, by)
        change, bounds = _stating(at, row), _range(row)
    each_alone = row.place == spec.place != ENGINE  # else one figure serves all, and the spec's mean is aimed at
    positions = at.graph.arrangement.positions(row.place) if each_alone else ("",)
    aims = [
        _Aim(spec, wanted, position, by, change, bounds, None if by in CUTS else _now(at, row, position))
        for position in positions
    ]
    found = tuple(_solve(at, aim) for aim in aims)
    return Target(spec, wanted, by, row, found, change(tuple(each.value for each in found)))


def _spec(at: Configuration, name: str) -> Quantity:
    if name not in at.graph.specs:
        near = did_you_mean(name, list(at.graph.specs), "logbook explain lists them")
        raise CannotAim(f"`{name}` is not a spec that is worked out{near}")
    if not at.specs[name].known and not at.specs[name].missing and not at.specs[name].missing_any:
        raise CannotAim(f"{name} cannot be worked out here: {at.specs[name].because}")
    return quantity(name)


def _by(at: Configuration, name: str, by: str) -> Quantity:
    """The row of a quantity that can be changed and that the spec rests on."""
    row = catalogue().get(by)
    known = [*CUTS, *(each.name for each in catalogue().values() if not each.derived_only and not each.event)]
    if row is None or by not in known:
        movers = [*_movers(at, name, known), *CUTS]
        near = did_you_mean(by, movers, f"{name} rests here on {', '.join(movers[:-2])}; a cut is {' or '.join(CUTS)}")
        says = f"`{by}` is nothing that can be changed" if by else "say with --by what is to be changed"
        raise CannotAim(f"{says}{near}")
    if by == name:
        raise CannotAim(
            f"{name} itself is what is wanted; name with --by what is to be changed, chamber_volume for one"
        )
    return row


def _movers(at: Configuration, name: str, known: list[str]) -> list[str]:
    """The stated figures that a spec rests on here, or would."""
    nodes = [each for each in at.graph.all(name) if isinstance(each, Node)]
    stated = {leaf.name for node in nodes for leaf in leaves(node)}
    return [each for each in known if each in stated or (not stated and each != name and name in depending_on(each))]


def _range(row: Quantity) -> tuple[float, float]:
    """Where an answer is looked for: what a workshop believes of the quantity."""
    scale = unit(row.unit) if row.unit else None
    low, high = (0.0 if row.low is None else row.low), (1e6 if row.high is None else row.high)
    return (scale.to_base(low), scale.to_base(high)) if scale else (low, high)


Change = Callable[[tuple[float, ...]], Configuration]


def _stating(at: Configuration, row: Quantity) -> Change:
    """The configuration in which the quantity has these values, one for all or one for each position, exactly."""

    def change(values: tuple[float, ...]) -> Configuration:
        positions = tuple((Stated(value, 0.0, 0.0),) for value in values)
        line = Line(positions, row.unit)
        stated = Statement("what is aimed at", (row.name,), ASSUMED)
        fact = Fact(row, line.positions, len(values) == 1 and row.place != ENGINE, False, "", stated, (row.name,))
        assumed = {**(at.holding.assumed or {}), row.name: fact}
        return _on(at, at.graph.kept_without(depending_on(row.name)), assumed=assumed)

    return change


def _cutting(at: Configuration, by: str) -> Change:
    """The configuration after a cut of that depth on every fitted part of the kind."""
    operation, kind = CUTS[by]
    parts = [fitting.part for fitting in at.state.fitted.values() if fitting.kind == kind]
    if not parts:
        raise CannotAim(f"no {kind} is fitted here, so none can be cut; fit one with --suppose fit=…")

    def change(values: tuple[float, ...]) -> Configuration:
        stated = Statement("what is aimed at", ("depth",), ASSUMED, occasion="cut")
        depth = Fact(quantity("cut_depth"), ((Stated(values[0], 0.0, 0.0),),), False, False, "", stated, ("depth",))
        moment = (at.state.number, PLANNED + _ALONE)
        cuts = tuple(Reworked(part, operation, frozenset(OPERATIONS[operation]), moment, depth) for part in parts)
        return _on(at, None, planned=(*at.holding.planned, *cuts))

    return change


def _on(at: Configuration, known: Kept | None, **changed: object) -> Configuration:
    return Configuration(at.life, at.point, at.state, replace(at.holding, **changed), known)  # type: ignore[arg-type]


class _Aim(NamedTuple):
    """What is looked for at one position, '' for all of them together: by which change, between which bounds."""

    spec: Quantity
    wanted: float
    position: str
    by: str
    change: Change
    bounds: tuple[float, float]
    now: float | None

    def off(self, value: float) -> float:
        """How far the spec is from what is wanted; _NoValue where it cannot be worked out."""
        return _nominal(self.change((value,)), self.spec, self.position) - self.wanted


def _solve(at: Configuration, aim: _Aim) -> Needed:
    """One position: where the miss changes its sign, nearest to the present value; else where it is least."""
    tried = [(value, miss) for value in _grid(aim) if (miss := _tried(aim.off, value)) is not None]
    _refuse_no_hold(at, aim, [miss for _, miss in tried])
    brackets = [(a, b) for (a, x), (b, y) in pairwise(tried) if x == 0 or x * y < 0]
    if not brackets:
        value, miss = min(tried, key=lambda each: abs(each[1]))
        return Needed(aim.position, value, 0.0, aim.now, aim.wanted + miss, False)
    near = aim.bounds[0] if aim.now is None else aim.now
    value, slope = _root(aim, *min(brackets, key=lambda each: abs(sum(each) / 2 - near)))
    spread = _standard(aim.change((value,)), aim.spec, aim.position) / abs(slope)
    return Needed(aim.position, value, spread, aim.now, aim.wanted, True)


def _refuse_no_hold(at: Configuration, aim: _Aim, misses: list[float]) -> None:
    """Where the spec cannot be worked out at all, or does not move with what is changed."""
    if not misses:
        lacking = at.specs[aim.spec.name]
        needs = ", ".join([*lacking.missing, *(" or ".join(group) for group in lacking.missing_any)])
        why = lacking.because or (f"it needs {needs}" if needs else f"{aim.by} does not serve it here")
        raise CannotAim(f"{aim.spec.name} cannot be worked out whatever {aim.by} is: {why}")
    if max(misses) == min(misses):
        names = [each.name for each in catalogue().values() if not each.derived_only and not each.event]
        others = ", ".join(_movers(at, aim.spec.name, names))
        raise CannotAim(
            f"{aim.spec.name} does not rest on {aim.by} here" + (f"; it does on {others}" if others else "")
        )


def _root(aim: _Aim, low: float, high: float) -> tuple[float, float]:
    """Where the miss is nought between two values of different sign, and its slope there."""
    from scipy.optimize import brentq

    value = float(brentq(aim.off, low, high, xtol=1e-15, rtol=1e-12)) if _tried(aim.off, low) else low
    return value, _slope(aim.off, value, (high - low) * 1e-4)


def _grid(aim: _Aim) -> list[float]:
    """Evenly over the range, and finely about the present value, where the answer mostly is."""
    low, high = aim.bounds
    even = [low + (high - low) * step / _STEPS for step in range(_STEPS + 1)]
    near = [aim.now * (1 + step / 20) for step in range(-10, 11)] if aim.now else []
    return sorted({*even, *(value for value in near if low <= value <= high)})


def _tried(off: Callable[[float], float], value: float) -> float | None:
    try:
        return off(value)
    except _NoValue:
        return None


class _NoValue(Exception):
    """The spec cannot be worked out there."""


def _nodes(at: Configuration, spec: Quantity, position: str) -> list[Node]:
    nodes = [at.graph.at(spec.name, position)] if position and spec.place != ENGINE else list(at.graph.all(spec.name))
    known = [node for node in nodes if isinstance(node, Node)]
    if len(known) < len(nodes):
        raise _NoValue
    return known


def _nominal(at: Configuration, spec: Quantity, position: str) -> float:
    known = _nodes(at, spec, position)
    return sum(node.value.nominal for node in known) / len(known)


def _standard(at: Configuration, spec: Quantity, position: str) -> float:
    known = _nodes(at, spec, position)
    terms: dict[str, float] = {}
    for node in known:
        for key, term in node.value.terms.items():
            terms[key] = terms.get(key, 0.0) + term / len(known)
    return sqrt(sum(term * term for term in terms.values()))


def _now(at: Configuration, row: Quantity, position: str) -> float | None:
    """What the quantity is now; the mean of its positions where all are changed together."""
    positions = [position] if position else at.graph.arrangement.positions(row.place)
    values = [node.value.nominal for each in positions if isinstance(node := at.graph.at(row.name, each), Node)]
    return sum(values) / len(values) if values else None


def _slope(off: Callable[[float], float], at: float, step: float) -> float:
    above, below = _tried(off, at + step), _tried(off, at - step)
    here = off(at)
    return (
        (above - here) / step
        if below is None and above is not None
        else (
            (here - below) / step
            if above is None and below is not None
            else ((above or 0.0) - (below or 0.0)) / (2 * step)
        )
    )


def opening_assumed(found: Target) -> bool:
    """Whether a cut of the head was reckoned with an opening of the chambers that nobody has measured."""
    chambers = found.at.graph.all("chamber_volume") if found.by == "surface_milled" else ()
    return any(OPENING_ASSUMED in node.value.terms for node in chambers if isinstance(node, Node))


def metal_after(found: Target) -> Iterator[tuple[str, Surface]]:
    """The surfaces that the answer cuts, each with what is left of it."""
    if found.by in CUTS:
        for part in dict.fromkeys(cut.part for cut in found.at.holding.planned if cut.moment[1] == PLANNED + _ALONE):
            its = surface(found.at.life, part, planned=found.at.holding.planned)
            if its:
                yield part, its
