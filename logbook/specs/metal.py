"""Metal removed and left, surface by surface, of what is fitted at a point.

Not part of the graph: which surfaces there are follows from the parts that are fitted, not from the engine's places.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import BASES, MEASURED
from logbook.specs.configuration import Configuration
from logbook.specs.results import Spec, Value
from logbook.state.metal import Surface, surface
from logbook.state.spread import figure
from logbook.state.states import END_OF_ENTRY

REMOVED, LEFT = "metal_removed", "metal_left"
#: What a figure is where more may have come off than was written down.
BOUND = {REMOVED: "at least", LEFT: "at most"}


def surfaces(at: Configuration) -> dict[str, Surface]:
    """The surfaces of the fitted parts of which anything is known, by their names: 'joint face of head-b'."""
    return dict(_surfaces(at))


def _surfaces(at: Configuration) -> Iterator[tuple[str, Surface]]:
    until = at.point.number, END_OF_ENTRY
    for part in at.state.parts:
        its = surface(at.life, part, until, at.holding.planned)
        if its and (its.limit or its.metal_removed.nominal or not its.at_least):
            yield f"{its.name} of {part}", its


def metal_specs(at: Configuration) -> tuple[Spec, ...]:
    """metal_removed and metal_left in the shape of any spec, their positions the surfaces; none without a surface."""
    found = surfaces(at)
    if not found:
        return ()
    removed = [_value(at, its, its.metal_removed) if _is_removed(its) else None for its in found.values()]
    left = [None if its.metal_left is None else _value(at, its, its.metal_left) for its in found.values()]
    return tuple(Spec(name, quantity(name), tuple(found), tuple(values), _lacking(found, name))
                 for name, values in ((REMOVED, removed), (LEFT, left)))  # fmt: skip


def _is_removed(its: Surface) -> bool:
    """Whether anything can be said of what came off: a sum, or that nothing did."""
    return bool(its.metal_removed.nominal) or not its.at_least


def _lacking(found: dict[str, Surface], name: str) -> tuple[str, ...]:
    """The limits that would give what is left."""
    limits = {"joint face": "metal_limit", "deck": "deck_metal_limit"}
    return tuple(dict.fromkeys(limits[its.name] for its in found.values() if name == LEFT and not its.limit))


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
