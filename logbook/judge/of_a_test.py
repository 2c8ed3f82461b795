"""What one test comes to by its own figures and the engine of its day: bmep, specific output, leaks and their spread.

Of a run as it was observed, at its best torque and its greatest power; of a leak-down test the size of the leaks only
where the tester's orifice and its supply stand among the figures of the test.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.judge.power_air import Refused, air_pressure_said
from logbook.judge.power_runs import Run
from logbook.quantity.uncertain import Uncertain, propagate
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.read import Entry, Record
from logbook.specs.configuration import configuration_after
from logbook.specs.graph import Node
from logbook.specs.leak_down import leak_area, leak_down_spread
from logbook.specs.power import brake_mean_effective_pressure, specific_output
from logbook.state.fold import Life
from logbook.state.sayings import of_entry
from logbook.state.spread import figure

_SEA_LEVEL = 101.325e3  # Pa: what air a leak goes into matters little


class Leaks(NamedTuple):
    """A leak-down test: how far its cylinders lie apart (share), each one's area (m2), or what is missing for it."""

    entry: Entry
    instrument: str
    spread: Uncertain | None
    areas: tuple[Uncertain | None, ...]
    missing: tuple[str, ...]


def size_of_power(life: Life, run: Run) -> tuple[Uncertain, Uncertain] | None:
    """Brake mean effective pressure (Pa) and specific output (W/m3) as observed; None without a displacement."""
    node = configuration_after(life, run.number).graph.at("displacement", "")
    if not isinstance(node, Node):
        return None
    return (
        propagate(brake_mean_effective_pressure, {"torque": run.torque, "displacement": node.value}),
        propagate(specific_output, {"power": run.power, "displacement": node.value}),
    )


def leak_tests(life: Life) -> Iterator[Leaks]:
    """Every leak-down test, in order."""
    for entry in life.record.entries:
        for fact in of_entry(life.record, entry) if isinstance(entry.says, model.Test) else ():
            if fact.name == "leak_down" and not fact.unknown:
                yield _leaks(life.record, entry, fact)


def _leaks(record: Record, entry: Entry, fact: Fact) -> Leaks:
    read = [figure(record, fact, index) for index in range(len(fact.positions))]
    leaks = [sure.value if sure else None for sure in read]
    known = [each for each in leaks if each]
    spread = propagate(leak_down_spread, {"leak_down": known}) if len(known) > 1 else None
    tester = {name: _stated(record, entry, name) for name in ("leak_down_orifice", "leak_down_supply")}
    missing = tuple(name for name, value in tester.items() if value is None)
    given = {name: value for name, value in tester.items() if value} | {"air_pressure": Uncertain(_air(entry))}
    areas = () if missing else tuple(each and _area(each, given) for each in leaks)
    return Leaks(entry, fact.stated.instrument or "", spread, areas, missing)


def _area(leak: Uncertain, given: dict[str, Uncertain]) -> Uncertain | None:
    try:
        return propagate(leak_area, {"leak_down": leak, **given})
    except ValueError:
        return None  # none of it leaks, or all: no hole of a size that is known gives that


def _stated(record: Record, entry: Entry, name: str) -> Uncertain | None:
    fact = next((each for each in of_entry(record, entry) if each.name == name), None)
    sure = figure(record, fact, 0) if fact else None
    return sure.value if sure else _supply(entry) if name == "leak_down_supply" else None


def _supply(entry: Entry) -> Uncertain | None:
    """As the conditions have it, `supply: 6 bar gauge`: set, not read, so without a ± of its own."""
    try:
        return Uncertain(parse_measure(entry.says.conditions.get("supply", ""), "pressure_gauge")[0])
    except ValueProblem:
        return None


def _air(entry: Entry) -> float:
    try:
        return air_pressure_said(entry.says.conditions) or _SEA_LEVEL
    except Refused:
        return _SEA_LEVEL
