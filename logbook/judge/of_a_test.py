"""What one test comes to by its own figures and the engine of its day, as documents tell it.

Of a run as it was observed, at its best torque and its greatest power; of a leak-down test the size of the leaks only
where the tester's orifice and its supply stand among the figures of the test.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from logbook.judge.as_tested import Tested, tests
from logbook.judge.power_runs import OBSERVED, standard_named
from logbook.quantity.uncertain import Uncertain
from logbook.record.record import Entry
from logbook.specs.graph import Missing, Node
from logbook.state.fold import Life

#: Of a run: the mean effective pressure where the torque is greatest, the others where the power is.
OF_A_RUN = ("specific_output", "volumetric_efficiency", "air_ratio", "specific_fuel_consumption",
            "brake_thermal_efficiency", "injector_duty")  # fmt: skip
_AT_THE_TORQUE = "brake_mean_effective_pressure"
_TESTER = ("leak_down_orifice", "leak_down_supply")


class Leaks(NamedTuple):
    """A leak-down test: how far its cylinders lie apart (share), each one's area (m2), or what is missing for it."""

    entry: Entry
    instrument: str
    spread: Uncertain | None
    areas: tuple[Uncertain | None, ...]
    missing: tuple[str, ...]


def run_figures(tested: Tested) -> Iterator[tuple[str, Node]]:
    """What a run comes to, as observed, as far as its own figures go."""
    for name in (_AT_THE_TORQUE, *OF_A_RUN):
        row = tested.greatest("torque") if name == _AT_THE_TORQUE else tested.best
        node = row.graph.at(name, "")
        if tested.gives(name) and isinstance(node, Node):
            yield name, node


def where(name: str) -> str:
    """At which speed of a run `run_figures` takes a figure."""
    return "at greatest torque" if name == _AT_THE_TORQUE else "at greatest power"


def as_read(tested: Tested) -> str:
    """Whether a run stands as it was observed, or was corrected before it was written down."""
    already = tested.entry.says.conditions.get("corrected", OBSERVED[-1])
    if already.casefold() in OBSERVED:
        return "as observed"
    return f"as read, corrected to {standard_named(already) or already} already"


def leak_tests(life: Life, file: Callable[[str], bytes]) -> Iterator[Leaks]:
    """Every leak-down test, in order."""
    for tested in tests(life, file):
        leaks = tested.best.graph.all("leak_down")
        stated = next((node.held.fact for node in leaks if isinstance(node, Node) and node.held), None)
        if any(isinstance(node, Node) for node in leaks):
            yield _leaks(tested, (stated.stated.instrument if stated else None) or "")


def _leaks(tested: Tested, instrument: str) -> Leaks:
    graph = tested.best.graph
    spread, areas = graph.at("leak_down_spread", ""), graph.all("leak_area")
    missing = tuple(name for name in _TESTER if isinstance(graph.at(name, ""), Missing))
    sizes = () if missing else tuple(area.value if isinstance(area, Node) else None for area in areas)
    return Leaks(tested.entry, instrument, spread.value if isinstance(spread, Node) else None, sizes, missing)
