"""How a value came about, as plain objects: formula, source, validity, every input down to its line in a file, shares.

In: a configuration and a name. Out: an Explanation, or for a curve a CurveExplanation; nothing here prints.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from logbook.errors import LogbookError
from logbook.quantity.catalogue import CYLINDER, ENGINE, Quantity, catalogue, did_you_mean, own_name, quantity
from logbook.record.facts import ASSUMED
from logbook.specs.better import Next, leaves, next_measurement
from logbook.specs.curves import CURVES, Inputs, Point, curve_formula, curve_inputs, curve_values
from logbook.specs.graph import Missing, Node
from logbook.specs.groups import in_page_order
from logbook.specs.index import ALL_SPECS, OF_A_TEST, WITH_CREVICE, Function
from logbook.specs.page import Page, page

if TYPE_CHECKING:
    from logbook.specs.configuration import Configuration


class CannotExplain(LogbookError):
    """There is no such spec, or no such place: one line that says what there is."""


class Where(NamedTuple):
    """Where a stated figure stands and who says it; `line` 0 where no line of a file does."""

    file: str
    line: int
    date: str
    instrument: str
    by: str
    source: str


class Input(NamedTuple):
    """What one argument is: its nodes (one for each position), where it is stated or from what it is worked out.

    `inputs` are those of the first node; `above` where the same was told already.
    """

    row: Quantity
    nodes: tuple[Node, ...]
    where: Where | None
    page: Page | None
    inputs: tuple[Input, ...] = ()
    above: bool = False


class Share(NamedTuple):
    """What one source of error has in the variance of a value, 1 = all. `shared`: an instrument's error in several."""

    rows: tuple[Quantity, ...]
    shared: str
    share: float


class CurveExplanation(NamedTuple):
    """One curve at one position; no points where it cannot be worked out."""

    row: Quantity
    over: Quantity
    position: str
    points: tuple[Point, ...]
    missing: Missing | None
    inputs: tuple[Input, ...]
    page: Page


class Explanation(NamedTuple):
    """One spec at one position; `node` is None where it cannot be worked out. `curve`: it over a variable."""

    row: Quantity
    position: str
    positions: tuple[str, ...]
    node: Node | None
    missing: Missing | None
    root: Input | None
    pages: tuple[Page, ...]
    shares: tuple[Share, ...]
    next: Next | None
    curve: CurveExplanation | None = None


class Overview(NamedTuple):
    """What can be worked out now, each with its node at the first place, what each of the others needs, and how many
    each single measurement unlocks."""

    known: tuple[tuple[str, Node], ...]
    lacking: tuple[tuple[str, Missing], ...]
    unlocks: tuple[tuple[str, int], ...]


def explain(at: Configuration, name: str, cylinder: str | None = None) -> Explanation | CurveExplanation:
    """One spec, curve or stated quantity, at the place of that cylinder; at the first place if none is named.

    Raises CannotExplain for a name or a cylinder that there is not.
    """
    name = own_name(name)
    if name not in catalogue():
        raise CannotExplain(_unknown(name))
    position = _position(at, quantity(name), cylinder)
    if name in CURVES and name not in at.graph.specs:
        return _curve(at, name, position)
    found = at.graph.at(name, position)
    node = found if isinstance(found, Node) else None
    return Explanation(
        quantity(name),
        position,
        at.graph.arrangement.positions(quantity(name).place),
        node,
        found if isinstance(found, Missing) else None,
        _input(at, (node,), set()) if node else None,
        (page(node.formula.function),) if node and node.formula else () if node else pages_of(name),
        tuple(_shares(node)) if node else (),
        next_measurement(at.life.record, node) if node and node.value.standard else None,
        _curve(at, name, position) if node and name in CURVES else None,
    )


def overview(at: Configuration) -> Overview:
    """All specs: known, lacking, and what would unlock most."""
    lacking = {name: found for name in in_page_order(at.graph.specs)
               for found in at.graph.all(name) if isinstance(found, Missing)}  # fmt: skip
    many: dict[str, int] = {}  # in the order of the page: of two that unlock as many, the one that unlocks it earlier
    for each in lacking.values():
        for one in _alone(each):
            many[one] = many.get(one, 0) + 1
    first = {name: at.graph.all(name)[0] for name in in_page_order(at.graph.specs) if name not in lacking}
    known = tuple((name, node) for name, node in first.items() if isinstance(node, Node))
    return Overview(known, tuple(lacking.items()), tuple(sorted(many.items(), key=lambda each: -each[1])))


def _alone(missing: Missing) -> tuple[str, ...]:
    """The names of which each alone is all that is missing."""
    first, *others = missing.groups or ((),)
    return tuple(name for name in first if all(name in group for group in others))


def pages_of(name: str) -> tuple[Page, ...]:
    """The pages of every formula for a spec or curve; of the one formula of that name."""
    some = [function for each in _INDEXES for function in each.get(name, ())]
    named = [function for each in _INDEXES for group in each.values() for function in group if _named(function, name)]
    over = [each for each in (CURVES[name].function, CURVES[name].offset) if each] if name in CURVES else []
    return tuple(page(function) for function in dict.fromkeys(some or over or named))


_INDEXES = (ALL_SPECS, OF_A_TEST, WITH_CREVICE)


def _named(function: Function, name: str) -> bool:
    return function.__name__ == name


def formula_pages(name: str) -> tuple[Page, ...]:
    """As pages_of; CannotExplain where there is none."""
    found = pages_of(own_name(name)) or pages_of(name)
    if not found and name in catalogue():
        raise CannotExplain(f"`{name}` is measured or stated and has no formula")
    if not found:
        raise CannotExplain(_unknown(name))
    return found


def _unknown(name: str) -> str:
    specs = [*ALL_SPECS, *CURVES, *OF_A_TEST]
    known = did_you_mean(name, specs) or did_you_mean(name, list(catalogue()), "logbook explain lists them")
    return f"`{name}` is not a spec{known}"


def _position(at: Configuration, row: Quantity, cylinder: str | None) -> str:
    its = at.graph.arrangement
    if cylinder is None:
        return its.positions(row.place)[0]
    if cylinder not in its.cylinders:
        raise CannotExplain(
            f"there is no cylinder {cylinder}; this engine has {its.cylinders[0]} to {its.cylinders[-1]}"
        )
    there = its.across(CYLINDER, cylinder, row.place)
    if row.place == ENGINE or len(there) > 1:
        raise CannotExplain(f"{row.name} has no figure for a cylinder; leave --cylinder out")
    return there[0]


def _curve(at: Configuration, name: str, position: str) -> CurveExplanation:
    curve, points = CURVES[name], curve_values(at, name, position)
    inputs = curve_inputs(at.graph, name, position)
    missing = points if isinstance(points, Missing) else None
    return CurveExplanation(
        quantity(name),
        quantity(curve.over),
        position,
        () if isinstance(points, Missing) else points,
        missing,
        () if isinstance(inputs, Missing) else _inputs(at, inputs, set()),
        page(curve_formula(at.graph, name, position)),
    )


Told = set[tuple[str, tuple[str, ...]]]


def _inputs(at: Configuration, inputs: Inputs | Mapping[str, tuple[Node, ...]], told: Told) -> tuple[Input, ...]:
    return tuple(_input(at, nodes, told) for nodes in inputs.values() if nodes)


def _input(at: Configuration, nodes: tuple[Node, ...], told: Told) -> Input:
    """One argument; what was told already is not told again."""
    first, row = nodes[0], quantity(nodes[0].name)
    key = (first.name, tuple(node.position for node in nodes))
    if key in told:
        return Input(row, nodes, None, None, above=True)
    told.add(key)
    if first.formula is None:
        return Input(row, nodes, where(at, first), None)
    return Input(row, nodes, None, page(first.formula.function), _inputs(at, first.inputs, told))


def where(at: Configuration, node: Node) -> Where | None:
    """Where the fact behind a node stands; None where there is no single one."""
    if node.held is None:
        return None
    fact, record = node.held.fact, at.life.record
    stated = fact.stated
    line = record.where(stated.file, fact.path)[0] if fact.path and stated.file in record.texts else 0
    return Where(stated.file, line, str(stated.when or ""), stated.instrument or "", stated.by or "",
                 stated.source or ("assumed" if stated.basis == ASSUMED else ""))  # fmt: skip


def _shares(node: Node) -> Iterator[Share]:
    """By quantity, and by instrument where its error is in several readings; the greatest first."""
    total = node.value.standard**2
    rows: dict[str, dict[str, Quantity]] = {}
    for leaf in leaves(node):
        for key in leaf.value.terms:
            rows.setdefault(key, {})[leaf.name] = quantity(leaf.name)
    summed: dict[tuple[tuple[Quantity, ...], str], float] = {}
    for key, term in node.value.terms.items():
        shared = key if key.startswith("instrument ") else ""
        its = (tuple(rows.get(key, {}).values()), shared)
        summed[its] = summed.get(its, 0.0) + (term * term / total if total else 0.0)
    for (some, shared), share in sorted(summed.items(), key=lambda each: -each[1]):
        yield Share(some, shared.removeprefix("instrument "), share)
