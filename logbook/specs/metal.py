"""Metal removed and left, surface by surface, of what is fitted at a point.

What is left is a spec of the graph, metal_left of a head and deck_metal_left of a block; here it is set beside what
came off, by the part whose surface it is. Where nobody knows all that came off, the graph has no value and a bound
stands.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import BASES, MEASURED
from logbook.record.operations import SURFACES
from logbook.specs.configuration import Configuration
from logbook.specs.results import Spec, Value
from logbook.state.metal import Surface, surface
from logbook.state.owners import Owners
from logbook.state.spread import figure
from logbook.state.states import END_OF_ENTRY

REMOVED, LEFT = "metal_removed", "metal_left"
#: What a figure is where more may have come off than was written down.
BOUND = {REMOVED: "at least", LEFT: "at most"}


class Metal(NamedTuple):
    """One surface of a fitted part: what came off it and what may still; None where nothing can be said.

    `bounds`: something came off that nobody measured, so that more may be gone, and less left.
    """

    removed: Value | None
    left: Value | None
    bounds: bool


def surfaces(at: Configuration) -> dict[str, Metal]:
    """The surfaces of the fitted parts of which anything is known, by their names: 'joint face of head-b'."""
    return dict(_surfaces(at))


def _surfaces(at: Configuration) -> Iterator[tuple[str, Metal]]:
    until, owners = (at.point.number, END_OF_ENTRY), Owners(at.life.arrangement, at.state)
    for part in at.state.parts:
        its = surface(at.life, part, until, at.holding.planned)
        if its and (its.limit or its.metal_removed.nominal or not its.at_least):
            known = its.metal_removed.nominal or not its.at_least
            removed = _value(at, its, its.metal_removed) if known else None
            bound = _value(at, its, its.metal_left) if its.metal_left is not None else None
            yield f"{its.name} of {part}", Metal(removed, _left(at, owners, part) or bound, its.at_least)


def _left(at: Configuration, owners: Owners, part: str) -> Value | None:
    """What the graph says is left, where this part serves."""
    its = SURFACES[at.life.record.parts[part].kind]
    spec, row = at.specs[its.left], quantity(its.removed)
    pairs = zip(spec.positions, spec.values, strict=True)
    return next((value for position, value in pairs if owners.piece_of(part, row, position) is not None), None)


def metal_removed(at: Configuration) -> tuple[Spec, tuple[str | None, ...]] | None:
    """What came off in the shape of any spec, its positions the surfaces, and which is a bound; None without any."""
    found = surfaces(at)
    if not found:
        return None
    spec = Spec(REMOVED, quantity(REMOVED), tuple(found), tuple(each.removed for each in found.values()))
    return spec, tuple(BOUND[REMOVED] if each.bounds else None for each in found.values())


def _value(at: Configuration, its: Surface, metal: Uncertain) -> Value:
    """With what it rests on: cuts are measured, a limit is often only published."""
    sure = figure(at.life.record, its.limit, 0) if its.limit and metal is its.metal_left else None
    basis = its.limit.stated.basis if sure and its.limit else MEASURED
    of_limit = set(sure.value.terms) if sure else set()
    total = sum(term * term for term in metal.terms.values()) or 1.0
    shares: dict[str, float] = {}
    for key, term in metal.terms.items():
        whose = basis if key in of_limit else MEASURED
        shares[whose] = shares.get(whose, 0.0) + term * term / total
    unmeasured = frozenset(of_limit) if basis != MEASURED else frozenset()
    return Value(metal.nominal, metal.terms, max(basis, MEASURED, key=BASES.index), shares, False, False, unmeasured)
