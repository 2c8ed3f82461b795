"""What may come out otherwise where one figure or part is another: by the formulas of the index, whichever is taken."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from logbook.quantity.catalogue import PART_KINDS, catalogue, quantity
from logbook.specs.bench import COEFFICIENT, TEST_PRESSURES
from logbook.specs.checking import CHECKING_LIFT, EVENTS
from logbook.specs.index import ALL_SPECS, OF_THE_CARD, WITH_CREVICE, formula, with_conditions
from logbook.specs.inference import REST
from logbook.state.prediction import CARRIED, CUT_BY

#: What rests on more than its formulas name: a claimed ratio tells the rest volume, a table the pressure of its bench.
_BESIDE = {
    REST: ("compression_ratio",),
    COEFFICIENT: ("inlet_valve_diameter",),
    **{name: (flow,) for name, flow in TEST_PRESSURES.items()},
    **{name: (its,) for name, its in OF_THE_CARD.items()},
}


@cache
def depending_on(name: str) -> frozenset[str]:
    """The names whose values may change with that of `name`, itself among them."""
    return frozenset(each for each in catalogue() if name in names_under(each))


@cache
def kinds_under(name: str) -> frozenset[str]:
    """The kinds of part that a value of `name` may rest on; every kind, where it may rest on a claimed ratio."""
    names = names_under(name)
    if REST in names:
        return frozenset(PART_KINDS)
    return frozenset().union(*map(owners_of, names))


@cache
def owners_of(name: str) -> frozenset[str]:
    """The kinds of part that a quantity is of."""
    return frozenset(kind for owner in quantity(name).owner for kind in owner.split("|"))


@cache
def names_under(name: str) -> frozenset[str]:
    """The names that a value of `name` may rest on, itself among them."""
    found: set[str] = set()
    new = {name}
    while new:
        found |= new
        new = {each for above in new for each in _looked_up(above)} - found
    return frozenset(found)


def _looked_up(name: str) -> Iterator[str]:
    """What is asked for on the way to a value: by the formulas, by the lift of its events, and by what foresees it."""
    yield from _needs(name)
    if with_conditions(name) or name == CHECKING_LIFT:
        yield from (CHECKING_LIFT, *EVENTS)
    yield from (other for other, _ in CARRIED.get(name, {}).values())
    yield from CUT_BY.get(name, ())


@cache
def _needs(name: str) -> frozenset[str]:
    return frozenset(_named(name))


def _named(name: str) -> Iterator[str]:
    for index in (ALL_SPECS, WITH_CREVICE):
        for function in index.get(name, ()):
            yield from formula(name, function).needs
    yield from _BESIDE.get(name, ())
    if reading := quantity(name).reading:
        yield reading[0]
