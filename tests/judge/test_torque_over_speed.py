"""Torque over speed: on one standard, from which speed the later run is better, by how much, where it is scatter."""

from __future__ import annotations

from math import hypot

import pytest
from lives import EXAMPLE, Life

from logbook.judge.torque_over_speed import BETTER, SCATTER, WORSE, Torque
from logbook.logbook import Logbook

AIR = "{pressure: 99.0 kPa absolute, temperature: 25.0 degC, humidity: 0 %}"


def engine(instrument: str = "{what: rig, each: 1 %, day: 2 %}") -> Life:
    life = Life(2)
    life.texts["engine.yaml"] += f"  rig: {instrument}\n"
    life.part("head-a", "cylinder_head").part("head-b", "cylinder_head")
    return life.work("2024-01-01", "fit: head-a", build="a")


def run(life: Life, date: str, rows: str, conditions: str = AIR) -> Life:
    life.texts[f"tests/{date}.yaml"] = (
        f"date: {date}\nkind: dynamometer\nwith: rig\nconditions: {conditions}\ndata: tests/{date}.csv\n"
    )
    life.texts[f"tests/{date}.csv"] = f"engine_speed rpm,torque N m\n{rows}"
    life.__dict__.pop("book", None)
    return life


def told(life: Life) -> Torque:
    torque = life.book.compare("a", "b").torque
    assert torque
    return torque


def both(first: str, second: str, instrument: str = "{what: rig, each: 1 %, day: 2 %}") -> Torque:
    life = run(engine(instrument), "2024-01-02", first).work("2024-02-01", "fit: head-b", build="b")
    return told(run(life, "2024-02-02", second))


def test_the_example_as_its_story_tells_it() -> None:
    """+22.0 kW sheet to sheet, +20.2 on one standard; then 3.4 to 4.9 % from 2500 to 4500, the peak in the scatter."""
    book = Logbook.open(EXAMPLE)
    first = book.compare("as-bought", "donor-head").torque
    assert first
    assert first.runs.sheets == pytest.approx(22.0e3)
    assert not first.runs.alike
    assert first.runs.by_standard["ISO 1585"].nominal == pytest.approx(20.2e3, abs=50)
    second = book.compare("donor-head", "third-head").torque
    assert second
    better, scatter = second.stretches
    assert (better.verdict, better.low * 60, better.high * 60) == (BETTER, pytest.approx(2500), pytest.approx(4500))
    assert (round(better.least, 3), round(better.most, 3)) == (0.034, 0.049)
    assert (scatter.verdict, scatter.high * 60) == (SCATTER, pytest.approx(6800))


def test_stretches_of_one_verdict() -> None:
    """Each run is good for 1 % and 2 %, 2.2 % together; of 100 N m two of them differ by 3.2 N m or it is scatter."""
    torque = both("1000,100\n2000,100\n3000,100\n4000,100\n", "1000,90\n2000,96\n3000,103\n4000,110\n")
    assert [(each.verdict, round(each.low * 60), round(each.high * 60)) for each in torque.stretches] == [
        (WORSE, 1000, 2000), (SCATTER, 3000, 3000), (BETTER, 4000, 4000)]  # fmt: skip
    assert torque.points[2].difference.expanded == pytest.approx(hypot(2.236, 2.236 * 1.03), rel=1e-3)


def test_another_day_is_another_error() -> None:
    torque = both("1000,100\n2000,100\n", "1000,102\n2000,102\n", "{what: rig, each: 0.5 %, day: 5 %}")
    assert [point.verdict for point in torque.points] == [SCATTER, SCATTER]


def test_what_all_readings_of_a_day_share_cancels() -> None:
    life = run(engine("{what: rig, each: 0.5 %, day: 5 %}"), "2024-02-01", "1000,100\n2000,100\n")
    life.texts["changes/2024-02-01-b.yaml"] = "date: 2024-02-01\nafter: 2024-02-01\nbuild: b\nwork: [{fit: head-b}]\n"
    life.texts["tests/2024-02-01-second.yaml"] = life.texts["tests/2024-02-01.yaml"].replace(".csv", "-second.csv") + (
        "after: 2024-02-01-b\n")  # fmt: skip
    life.texts["tests/2024-02-01-second.csv"] = "engine_speed rpm,torque N m\n1000,102\n2000,102\n"
    life.__dict__.pop("book", None)
    assert [point.verdict for point in told(life).points] == [BETTER, BETTER]


def test_a_speed_that_one_run_lacks_is_read_between_its_readings() -> None:
    torque = both("1000,100\n3000,120\n", "1000,100\n2000,100\n3000,100\n4000,90\n")
    assert [round(point.speed * 60) for point in torque.points] == [1000, 2000, 3000]
    assert torque.points[1].before.nominal == pytest.approx(110)


def test_without_the_air_of_the_day_the_runs_are_not_set_side_by_side() -> None:
    life = run(engine(), "2024-01-02", "1000,100\n2000,100\n").work("2024-02-01", "fit: head-b", build="b")
    torque = told(run(life, "2024-02-02", "1000,100\n2000,100\n", "{gear: fourth}"))
    assert (torque.standard, torque.points) == ("", ())
    assert torque.why_not


def test_no_run_or_one_for_both_sides_tells_nothing() -> None:
    life = engine().work("2024-02-01", "tune: two, state: in use", build="b")
    assert life.book.compare("a", "b").torque is None
    assert run(life, "2024-01-02", "1000,100\n2000,100\n").book.compare("a", "b").torque is None
