"""Compression tests foretold from the first one with the same gauge, and what it means where the next test departs.

Cranking pressure follows the effective ratio. So the first test of an engine gives its exponent, and the ratio of any
later state says what the same gauge should then show: a volume with the wrong sign, or a camshaft that closes the inlet
elsewhere than on its card, shows itself in the next test. Gauges do not agree with each other, so nothing is carried
from one to another, nor from dry to oiled cylinders, nor to events at another checking lift.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import median
from typing import NamedTuple

from logbook.judge.nearest_tests import unlike
from logbook.judge.power_air import Refused, air_pressure_said
from logbook.quantity.uncertain import COVERAGE, Uncertain, propagate
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.finding import NOTE, Finding
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.graph import Node
from logbook.specs.pressures import cranking_exponent, expected_cranking_pressure
from logbook.state.fold import Life
from logbook.state.sayings import of_entry
from logbook.state.spread import figure

# Pa, where no barometer was read: the place's height, the same for all such tests, and the weather of each day
_AIR, _PLACE, _WEATHER = 100e3, 5e3, 2e3
_BAR = unit("bar gauge")
_AGAIN = frozenset({"pressure", "air_pressure", "barometer"})  # conditions that the formula itself makes up for


class Taken(NamedTuple):
    """One line of cranking pressures, with the number of its entry."""

    number: int
    entry: Entry
    fact: Fact


class Foretold(NamedTuple):
    """A test, and what the first one with its gauge lets expect of it; Pa gauge.

    `expected` by cylinder, None where no ratio is known; `mean` and `measured` over the cylinders that have both.
    `ratio`: mean effective ratio of these as worked out; `as_if`: the ratio that would give what was measured.
    `crown_turned`: the mean to expect if every crown had the other sign, None where crowns are flat or unknown.
    """

    test: Taken
    by: Entry
    expected: tuple[Uncertain | None, ...]
    mean: Uncertain
    measured: Uncertain
    ratio: float
    as_if: float
    crown_turned: float | None

    @property
    def departs(self) -> bool:
        """Whether it was measured further away than its uncertainty explains; what both share has cancelled."""
        return not self._near(self.measured.nominal - self.mean.nominal)

    @property
    def as_if_turned(self) -> bool:
        """Whether the other sign of the crowns would explain a departure, and is needed for it."""
        turned = self.crown_turned
        return self.departs and turned is not None and self._near(self.measured.nominal - turned)

    def _near(self, away: float) -> bool:
        return abs(away) <= (self.measured - self.mean).expanded


def foretold(life: Life, *, then: bool = False) -> Iterator[Foretold]:
    """Every compression test after the first with its gauge. `then`: by what was known on the day of the test."""
    first: dict[tuple[object, ...], Taken] = {}
    for test in _tests(life):
        key = (test.fact.stated.instrument, test.fact.stated.qualifiers)
        known = test.number + 1 if then else None
        found = _foretold(life, first[key], test, known) if key in first else None
        if found:
            yield found
        elif key not in first and _exponents(life, test, None):
            first[key] = test


def _tests(life: Life) -> Iterator[Taken]:
    for number, entry in enumerate(life.record.entries):
        for fact in of_entry(life.record, entry) if isinstance(entry.says, model.Test) else ():
            if fact.name == "cranking_pressure" and fact.stated.instrument and not fact.unknown:
                yield Taken(number, entry, fact)


def _foretold(life: Life, first: Taken, test: Taken, known: int | None) -> Foretold | None:
    at, before = (configuration_after(life, each.number, known=known) for each in (test, first))
    exponents = _exponents(life, first, known)
    if not exponents or at.graph.conditions != before.graph.conditions:
        return None
    ratios = [_value(at, "effective_compression_ratio", each) for each in life.arrangement.cylinders]
    air = _air(test.entry)
    expected = tuple(each and _expected(exponents, air, each) for each in ratios)
    read = [figure(life.record, test.fact, index) for index in range(len(ratios))]
    both = [index for index, each in enumerate(expected) if each and read[index]]
    if not both:
        return None
    measured = _mean([sure.value for index in both if (sure := read[index])])
    mean = _mean([each for index in both if (each := expected[index])])
    ratio = sum(each.nominal for index in both if (each := ratios[index])) / len(both)
    turned = _turned(at, exponents, air, [life.arrangement.cylinders[index] for index in both])
    return Foretold(test, first.entry, expected, mean, measured, ratio, _as_if(measured, air, exponents), turned)


def _exponents(life: Life, taken: Taken, known: int | None) -> list[Uncertain]:
    at = configuration_after(life, taken.number, known=known)
    found = []
    for index, cylinder in enumerate(life.arrangement.cylinders):
        read, ratio = figure(life.record, taken.fact, index), _value(at, "effective_compression_ratio", cylinder)
        if read and ratio:
            given = {"cranking_pressure": read.value, "air_pressure": _air(taken.entry)}
            try:
                found.append(propagate(cranking_exponent, {**given, "effective_compression_ratio": ratio}))
            except ValueError:
                continue  # a pressure that no ratio gives says nothing of the next
    return found


def _value(at: Configuration, name: str, cylinder: str) -> Uncertain | None:
    node = at.graph.at(name, cylinder)
    return node.value if isinstance(node, Node) else None


def _air(entry: Entry) -> Uncertain:
    """By barometer where the test says so; else what air usually has."""
    try:
        said = air_pressure_said(entry.says.conditions)
    except Refused:
        said = None
    if said is not None:
        return Uncertain(said)
    return Uncertain(_AIR, {"air of the place": _PLACE / COVERAGE, f"air of {entry.file}": _WEATHER / COVERAGE})


def _expected(exponents: Sequence[Uncertain], air: Uncertain, ratio: Uncertain) -> Uncertain:
    return propagate(
        expected_cranking_pressure,
        {"cranking_exponent": exponents, "air_pressure": air, "effective_compression_ratio": ratio},
    )


def _mean(values: Sequence[Uncertain]) -> Uncertain:
    return propagate(lambda each: sum(each) / len(each), {"each": values})


def _as_if(measured: Uncertain, air: Uncertain, exponents: Sequence[Uncertain]) -> float:
    steep = median(each.nominal for each in exponents)
    return float(((measured.nominal + air.nominal) / air.nominal) ** (1 / steep))


def _turned(at: Configuration, exponents: Sequence[Uncertain], air: Uncertain, cylinders: list[str]) -> float | None:
    """What to expect if what the crowns add to the clearance volume were taken from it, and the other way round."""
    found = []
    for each in cylinders:
        crown, rest, ratio = (
            _value(at, name, each) for name in ("crown_volume", "clearance_volume", "effective_compression_ratio")
        )
        if not (crown and rest and ratio and crown.nominal and rest.nominal > 2 * crown.nominal):
            return None
        turned = 1 + (ratio.nominal - 1) * rest.nominal / (rest.nominal - 2 * crown.nominal)
        found.append(_expected(exponents, air, Uncertain(turned)).nominal)
    return sum(found) / len(found) if found else None


def tests_are_as_foretold(life: Life) -> Iterator[Finding]:
    """A compression test whose mean departs from what the first test with its gauge lets expect."""
    for each in foretold(life):
        if each.departs:
            yield life.record.finding(each.test.entry.file, each.test.fact.path, NOTE, _says(each), _mend(each))


def _says(each: Foretold) -> str:
    value, mean, sure = (_BAR.from_size(base) for base in (
        each.measured.nominal, each.mean.nominal, (each.measured - each.mean).expanded))  # fmt: skip
    crown = ", and as if the crowns had the other sign" if each.as_if_turned else ""
    return (
        f"{value:.1f} bar gauge in the mean where {mean:.1f} ± {sure:.1f} is to be expected after {each.by.file}: "
        f"as if the effective ratio were {each.as_if:.2f} and not {each.ratio:.2f}{crown}"
    )


def _mend(each: Foretold) -> str:
    higher = each.measured.nominal > each.mean.nominal
    look = "check the volumes and their signs, and inlet closing"
    other = "then the gauge" if higher else "then leakage, and the gauge"
    differ = "; ".join(unlike(each.by, each.test.entry, _AGAIN))
    return f"{look}; {other}" + (f"; the tests were not made alike: {differ}" if differ else "")
