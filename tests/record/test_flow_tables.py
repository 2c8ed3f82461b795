"""A flow test's table: what it gives, and each thing that can be wrong with it at its line."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.quantity.units import unit
from logbook.record.facts import MEASURED, Fact
from logbook.record.finding import DOUBTFUL, WRONG, Finding

CFM = unit("cfm").to_base(1.0)
TABLE = "valve_lift mm,inlet_flow cfm,exhaust_flow cfm\n2,40,32\n4,75,57\n6,98,72\n8,110,x\n"
TEST = "date: 2020-02-01\nkind: flow bench\npart: head-a\nat_depression: 28 inH2O\ndata: flow.csv\n"


def life(table: str = TABLE, test: str = TEST) -> Life:
    engine = Life()
    engine.part("head-a", "cylinder_head")
    engine.texts["tests/2020-02-01-flow.yaml"] = test
    engine.texts["tests/flow.csv"] = table
    return engine


def facts(engine: Life, name: str) -> tuple[Fact, ...]:
    return engine.book.record.facts.get(name, ())


def findings(engine: Life) -> list[Finding]:
    return [each for each in engine.book.record.findings if "tests/" in each.file]


def test_the_greatest_flow_and_the_curve_of_each_valve() -> None:
    (inlet,), (exhaust,) = facts(life(), "inlet_flow"), facts(life(), "exhaust_flow")
    assert inlet.stated.basis == MEASURED
    assert (inlet.stated.part, inlet.stated.file) == ("head-a", "tests/2020-02-01-flow.yaml")
    assert inlet.positions[0]
    assert inlet.positions[0][0].nominal == pytest.approx(110 * CFM)
    assert inlet.curve
    assert inlet.curve.value(0.0) == 0
    assert inlet.curve.value(4e-3) == pytest.approx(75 * CFM)
    assert exhaust.curve
    assert exhaust.curve.at[-1] == pytest.approx(6e-3), "at 8 mm the exhaust was not taken"


def test_other_units_and_orders_of_columns_say_the_same() -> None:
    other = "inlet_flow l/s,valve_lift in\n18.878,0.0787402\n35.396,0.1574803\n"
    (inlet,) = facts(life(other), "inlet_flow")
    assert inlet.curve
    assert inlet.curve.value(4e-3) == pytest.approx(75 * CFM, rel=1e-4)


@pytest.mark.parametrize(
    ("table", "line", "column", "words"),
    [
        ("valve_lift mm,inlet_flow cfm\n2,40\n2,75\n", 3, 1, "the lift must rise from row to row"),
        ("valve_lift mm,inlet_flow cfm\n4,40\n2,75\n", 3, 1, "the lift must rise from row to row"),
        ("valve_lift mm,inlet_flow cfm\n0,0\n2,75\n", 2, 1, "a flow is read at a lift above 0"),
        ("valve_lift mm,inlet_flow cfm\n2,40\n4,0\n", 3, 3, "a flow that was read is above 0"),
        ("valve_lift mm,inlet_flow cfm\n2,40\n4,-75\n", 3, 3, "a flow that was read is above 0"),
        ("valve_lift mm,inlet_flow cfm\n2,40\n", 1, 15, "one reading makes no flow"),
        ("inlet_flow cfm,exhaust_flow cfm\n40,32\n75,57\n", 1, 1, "no lifts they were read at"),
    ],
)
def test_what_is_wrong_in_the_table(table: str, line: int, column: int, words: str) -> None:
    engine = life(table)
    assert facts(engine, "inlet_flow") == ()
    wrong = [each for each in findings(engine) if words in each.says]
    places = [(each.file, each.line, each.column, each.level) for each in wrong]
    assert places == [("tests/flow.csv", line, column, WRONG)]


def test_a_flow_without_its_test_pressure_is_not_used() -> None:
    engine = life(test=TEST.replace("at_depression: 28 inH2O\n", ""))
    assert facts(engine, "inlet_flow") == ()
    (doubt,) = findings(engine)
    assert (doubt.level, doubt.line) == (DOUBTFUL, 4)
    assert "at_depression: 28 inH2O" in doubt.mend


def test_other_runs_are_no_flow_tests() -> None:
    engine = life("engine_speed rpm,torque N m\n2000,88\n2500,94\n")
    assert facts(engine, "inlet_flow") == ()
    assert findings(engine) == []


@pytest.mark.parametrize(("text", "count"), [("2+2", 2), ("1+1", 1), ("3 + 2", 3)])
def test_valves_of_each_cylinder(text: str, count: int) -> None:
    (valves,) = facts(Life(more=f"valves_per_cylinder: {text}\n"), "inlet_valves")
    assert valves.positions[0]
    assert valves.positions[0][0].nominal == count
    assert valves.stated.file == "engine.yaml"


@pytest.mark.parametrize("more", ["", "valves_per_cylinder: four\n"])
def test_valves_that_are_not_told(more: str) -> None:
    assert facts(Life(more=more), "inlet_valves") == ()
