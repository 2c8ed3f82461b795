"""What may come out otherwise where one figure is another: by the formulas of the index, whichever of them is taken."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from logbook.quantity.catalogue import catalogue, quantity
from logbook.specs.bench import COEFFICIENT, TEST_PRESSURES
from logbook.specs.checking import CHECKING_LIFT
from logbook.specs.index import ALL_SPECS, OF_THE_CARD, WITH_CREVICE, formula, with_conditions
from logbook.specs.inference import REST

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
    found = {name}
    if with_conditions(name):  # an event moves the lift at which all events are taken
        found |= {each for each in catalogue() if with_conditions(each)} | {CHECKING_LIFT}
    before = 0
    while len(found) > before:
        before = len(found)
        found |= {each for each in catalogue() if not found.isdisjoint(_needs(each))}
    return frozenset(found)


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
