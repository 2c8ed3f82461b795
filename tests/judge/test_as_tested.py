"""What one test comes to in the engine of its day: by its own figures, over its own speeds, and carried nowhere."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.judge import as_tested
from logbook.judge.as_tested import AsTested
from logbook.logbook import Logbook
from logbook.quantity.units import unit
from logbook.specs.explain import Explanation
from logbook.specs.graph import Missing, Node
from logbook.specs.index import OF_A_TEST

AIR = "pressure: 98.0 kPa absolute, temperature: 20.0 degC, humidity: 50 %"
HEADS = "engine_speed rpm,torque N m,air_flow kg/h,fuel_flow kg/h,injector_open_time ms"
ROWS = ("3000,120,80,6.4,6.0", "6000,100,150,12.5,9.0", "6500,60,x,9.5,9.1")
RUN = "tests/2024-02-01-run"


def engine(more: str = "", **fitted: str) -> Life:
    """One litre in one cylinder, on petrol."""
    life = Life(1, "single", more).part("b", "block", bore="100 mm").part("c", "crankshaft", stroke="127.324 mm")
    for name, kind in fitted.items():
        life.part(name, kind)
    life.work("2024-01-01", "fit: b", "fit: c", *(f"fit: {name}" for name in fitted))
    return life.measure("2024-01-02", ethanol_content="0.0 %")


def run(life: Life, conditions: str = AIR, rows: tuple[str, ...] = ROWS, heads: str = HEADS) -> Life:
    life.texts[f"{RUN}.csv"] = "\n".join((heads, *rows)) + "\n"
    life.texts[f"{RUN}.yaml"] = f"date: 2024-02-01\nkind: dynamometer\nconditions: {{{conditions}}}\ndata: {RUN}.csv\n"
    life.__dict__.pop("book", None)
    return life


def as_run(life: Life) -> as_tested.Tested:
    (found,) = as_tested.tests(life.fold, life.book.file)
    return found


def value(at: AsTested, name: str, symbol: str = "") -> float:
    node = at.graph.at(name, "")
    assert isinstance(node, Node), (name, node)
    return unit(symbol).from_base(node.value.nominal) if symbol else node.value.nominal


def test_a_run_without_stated_errors_is_no_surer_than_such_runs_are() -> None:
    fast = as_run(run(engine())).best.graph.at("power", "")
    assert isinstance(fast, Node)
    assert fast.value.expanded == pytest.approx(0.03 * fast.value.nominal, rel=1e-3)


def test_a_run_with_all_its_figures_by_hand() -> None:
    """1.000 l at 3000 and 6000 rpm; moist air of 98.0 kPa and 20 degC has 1.1593 kg/m3."""
    slow, fast, _ = as_run(run(engine())).rows
    assert value(slow, "air_density") == pytest.approx(1.1593, abs=2e-4)
    assert value(slow, "volumetric_efficiency") == pytest.approx(80 / (1.1593 * 1e-3 * 1500 * 60), rel=1e-3)
    assert value(fast, "power", "kW") == pytest.approx(100 * 6000 / 9549.3, rel=1e-4)
    assert value(fast, "brake_mean_effective_pressure", "bar") == pytest.approx(12.566, rel=1e-3)
    assert value(fast, "air_ratio") == pytest.approx(150 / 12.5 / 14.6, rel=1e-9)
    assert value(fast, "specific_fuel_consumption", "g/kWh") == pytest.approx(12_500 / 62.832, rel=1e-4)
    assert value(fast, "brake_thermal_efficiency", "%") == pytest.approx(62.832 * 3.6 / 12.5 / 44.0 * 100, rel=1e-4)
    assert value(fast, "injector_duty", "%") == pytest.approx(45, rel=1e-6)


def test_its_specs_are_those_of_its_own_graph() -> None:
    fast = as_run(run(engine())).best
    assert {"brake_mean_effective_pressure", "displacement"} <= set(fast.specs)
    (found,) = fast.specs["brake_mean_effective_pressure"].known
    assert found.nominal == value(fast, "brake_mean_effective_pressure")


def test_the_best_row_is_that_of_the_greatest_power_and_the_best_torque_another() -> None:
    found = as_run(run(engine()))
    assert found.best.speed == pytest.approx(100)
    assert found.greatest("torque").speed == pytest.approx(50)


def test_what_was_not_taken_at_a_speed_is_not_made_up() -> None:
    last = as_run(run(engine())).rows[-1]
    assert isinstance(last.graph.at("volumetric_efficiency", ""), Missing)
    assert value(last, "injector_duty", "%") == pytest.approx(9.1e-3 * 6500 / 120 * 100)


def test_a_run_is_explained_over_its_speeds_down_to_the_row() -> None:
    life = run(engine())
    found = life.book.at("2024-02-01-run").explain("volumetric_efficiency")
    assert isinstance(found, Explanation)
    assert found.curve is not None
    assert [round(point.at * 60) for point in found.curve.points] == [3000, 6000]
    assert found.root is not None
    where = {each.row.name: each.where for each in found.root.inputs}
    air = where["air_flow"]
    assert air is not None
    assert (air.file, air.line, air.source) == (f"{RUN}.yaml", 4, f"{RUN}.csv:3")


def test_nothing_is_carried_to_another_day() -> None:
    life = run(engine())
    life.work("2024-03-01", "set: {main_jet: 140}")
    for point in ("now", "2024-02-01"):  # a date names no test
        at = life.book.at(point)
        assert at.tested is None
        assert not OF_A_TEST.keys() & at.graph.specs.keys()
        assert isinstance(at.graph.at("air_temperature", ""), Missing)


def test_figures_of_the_engine_that_need_the_air_come_with_the_test() -> None:
    life = run(engine(), AIR + ", boost_pressure: 0.0 bar gauge")
    found = life.book.at("2024-02-01-run").tested
    assert found is not None
    assert "pressure_at_inlet_closing" in found.specs
    assert "displacement" not in found.specs  # known without the test


@pytest.mark.parametrize("name", ["correction_iso_1585", "correction_sae_j1349", "correction_din_70020"])
def test_what_must_not_be_corrected_is_refused_with_the_reason(name: str) -> None:
    boosted = as_run(run(engine(blower="turbocharger"))).best.graph.at(name, "")
    assert isinstance(boosted, Missing)
    assert boosted.because.startswith("blower is fitted: boost makes up for the air")
    already = as_run(run(engine(), AIR + ", corrected: STD")).best.graph
    assert "corrected already, to STD" in getattr(already.at(name, ""), "because", "")
    assert "corrected already" in getattr(already.at("specific_fuel_consumption", ""), "because", "")
    diesel = as_run(run(engine("ignition: compression\n"))).best.graph
    assert "spark ignition" in getattr(diesel.at(name, ""), "because", "")
    assert isinstance(diesel.at("correction_iso_1585_compression", ""), Node)


def test_without_a_barometer_nothing_is_corrected() -> None:
    found = as_run(run(engine(), "temperature: 20 degC")).best.graph.at("correction_din_70020", "")
    assert isinstance(found, Missing)
    assert ("air_pressure",) in found.groups


def test_the_errors_of_the_brake_are_not_those_of_its_clock() -> None:
    life = engine("  brake: {what: brake, each: 2 %}\n")
    run(life)
    life.texts[f"{RUN}.yaml"] += "with: brake\n"
    best = as_run(life).best.graph
    torque, speed = best.at("torque", ""), best.at("engine_speed", "")
    assert isinstance(torque, Node)
    assert isinstance(speed, Node)
    assert torque.value.expanded == pytest.approx(0.02 * 100)
    assert speed.value.expanded < 1 / 60


def test_cylinders_that_were_left_out_leave_the_others_to_be_compared() -> None:
    life = Life(4).work("2024-01-01", "set: {main_jet: 140}")
    life.texts["tests/2024-02-01-leak.yaml"] = (
        "date: 2024-02-01\nkind: leak-down\nvalues: {leak_down: 6 / x / 8 / 24 %}\n"
    )
    assert value(as_run(life).best, "leak_down_spread", "%") == pytest.approx(18)


def test_the_example_runs_as_they_were_told() -> None:
    book = Logbook.open(EXAMPLE)
    found = book.at("2018-04-14-donor-head").tested
    assert found is not None
    assert value(found.greatest("torque"), "brake_mean_effective_pressure", "bar") == pytest.approx(8.96, abs=0.005)
    assert value(found.best, "power", "kW") == pytest.approx(70.1, abs=0.05)


@pytest.mark.parametrize(("content", "share"), [("0.0 %", 0.0), ("100 %", 1.0)])
def test_a_figure_at_the_edge_of_what_can_be_has_its_error_to_one_side(content: str, share: float) -> None:
    """Nobody blends less than none: the formula refuses what its ± would reach beyond, and the value stands."""
    life = Life(1, "single").work("2024-01-01", "set: {main_jet: 140}").measure("2024-01-02", ethanol_content=content)
    node = life.at("now").graph.at("ethanol_mass_share", "")
    assert isinstance(node, Node)
    assert node.value.nominal == pytest.approx(share)
    assert node.value.standard > 0
    assert node.value.curved
