"""Runs by each standard, like with like; what is not corrected, and why; air that cannot be."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.judge.power_runs import Run, power_runs, set_beside, spread_words, standard_named
from logbook.logbook import Logbook

AIR = "pressure: 98.2 kPa absolute, temperature: 20 degC, humidity: 50 %"


def run(life: Life, date: str, air: str = AIR, more: str = "", torque: int = 100) -> Life:
    name = f"tests/{date}-run"
    life.texts[f"{name}.csv"] = f"engine_speed rpm,torque N m\n3000,{torque}\n6000,{torque - 5}\n"
    life.texts[f"{name}.yaml"] = f"date: {date}\nkind: dynamometer\nconditions: {{{air}}}\ndata: {name}.csv\n{more}"
    life.__dict__.pop("book", None)
    return life


def runs(life: Life) -> tuple[Run, ...]:
    return power_runs(life.fold, life.book.file)


def told(life: Life) -> list[str]:
    return [str(each) for each in life.book.findings if each.file.startswith("tests/")]


def test_the_example_sheet_to_sheet_and_like_with_like() -> None:
    """Two sheets by two standards say +22.0 kW, the same runs by one +20.2; the next is within the rig's repeatability.

    The figures are the scenario's own.
    """
    book = Logbook.open(EXAMPLE)
    first, second, third = power_runs(book.life, book.file)
    factors = [each.corrected["ISO 1585"].factor for each in (first, second, third)]
    assert factors == pytest.approx([0.9847, 0.9877, 1.0035], abs=5e-5)
    powers = [each.corrected["ISO 1585"].power.nominal / 1e3 for each in (first, second, third)]
    assert powers == pytest.approx([49.0, 69.2, 70.4], abs=0.051)
    assert second.corrected["DIN 70020"].power.nominal == pytest.approx(71.0e3, abs=50)  # as its sheet says
    gain = set_beside(first, second)
    assert gain.sheets == pytest.approx(22.0e3)
    assert not gain.alike
    assert gain.by_standard["ISO 1585"].nominal / 1e3 == pytest.approx(20.2, abs=0.05)
    more = set_beside(second, third)
    assert abs(more.by_standard["ISO 1585"].nominal) < more.by_standard["ISO 1585"].expanded
    alike = set_beside(first, third)
    assert alike.alike
    assert "15 to 35 degC" in second.corrected["SAE J1349"].outside
    assert second.corrected["ISO 1585"].outside == ""


def test_the_error_of_a_day_cancels_between_two_runs_of_it() -> None:
    engine = "  dyno: {what: brake, each: 0.1 %, day: 4 %}\n"
    life = Life(more=engine)
    run(life, "2024-05-01", more="with: dyno\ntime: 10:00\n")
    life.texts["tests/2024-05-01-again.csv"] = life.texts["tests/2024-05-01-run.csv"].replace("95", "97")
    again = life.texts["tests/2024-05-01-run.yaml"].replace("-run", "-again").replace("10:00", "11:00")
    life.texts["tests/2024-05-01-again.yaml"] = again
    first, second = runs(life)
    difference = set_beside(first, second).by_standard["ISO 1585"]
    assert first.power.expanded / first.power.nominal == pytest.approx(0.04, abs=0.001)
    assert 0 < difference.expanded < 0.01 * first.power.nominal


def test_a_run_of_which_nobody_stated_an_error_has_the_usual_one_and_says_so() -> None:
    first, second = runs(run(run(Life(), "2024-05-01"), "2024-06-01", torque=101))
    assert first.power.expanded == pytest.approx(0.03 * first.power.nominal)
    difference = set_beside(first, second).observed
    assert difference.expanded == pytest.approx(0.03 * (first.power.nominal**2 + second.power.nominal**2) ** 0.5)
    assert spread_words((first, second)) == (
        "± of the runs of 2024-05-01 and 2024-06-01 taken as 3 %, as no instrument with its errors is named"
    )


def test_a_run_whose_brake_states_its_errors_keeps_them() -> None:
    (one,) = runs(run(Life(more="  dyno: {what: brake, each: 1 %}\n"), "2024-05-01", more="with: dyno\n"))
    assert one.power.expanded == pytest.approx(0.01 * one.power.nominal)
    assert spread_words((one,)) == ""


@pytest.mark.parametrize("kind", ["turbocharger", "supercharger"])
def test_boost_is_not_corrected_silently(kind: str) -> None:
    life = Life().part("blower", kind).work("2024-01-01", "fit: blower")
    (one,) = runs(run(life, "2024-02-01"))
    assert one.corrected == {}
    assert one.why_not.startswith("blower is fitted")
    assert one.power.nominal > 0


def test_a_boost_control_that_is_set_says_so_too() -> None:
    life = Life().work("2024-01-01", "set: {boost_control: wastegate 0.5}")
    (one,) = runs(run(life, "2024-02-01"))
    assert not one.corrected
    assert "wastegate 0.5" in one.why_not


def test_what_is_corrected_already_is_never_corrected_twice() -> None:
    life = run(Life(), "2024-02-01", air=AIR + ", corrected: STD")
    first, second = runs(run(life, "2024-03-01", torque=110))
    assert set(first.corrected) == {"SAE J607"}
    assert first.corrected["SAE J607"].power == first.power
    assert set(set_beside(first, second).by_standard) == {"SAE J607"}
    assert "corrected already" in first.why_not


def test_without_humidity_only_the_standard_that_asks_for_none() -> None:
    (one,) = runs(run(Life(), "2024-02-01", air="pressure: 98 kPa absolute, temperature: 20 degC"))
    assert set(one.corrected) == {"DIN 70020"}


def test_without_air_nothing_and_the_reason() -> None:
    life = run(run(Life(), "2024-02-01", air="temperature: 20 degC"), "2024-03-01")
    first, second = runs(life)
    assert first.why_not == "the pressure of the air was not written down"
    pair = set_beside(first, second)
    assert not pair.by_standard
    assert pair.why_not == first.why_not


def test_compression_ignition_is_not_corrected_as_spark_is() -> None:
    (one,) = runs(run(Life(more="ignition: compression\n"), "2024-02-01"))
    assert not one.corrected
    assert "compression ignition" in one.why_not


@pytest.mark.parametrize(
    ("air", "says"),
    [
        ("humidity: 300 %", "300 % cannot be the relative humidity of the air"),
        ("pressure: 98 kPa", "98 kPa"),
        ("pressure: 982 kPa absolute", "982 kPa absolute cannot be the air pressure"),
        ("temperature: 200 degC", "200 degC cannot be the air temperature"),
        ("humidity: damp", "`damp`"),
    ],
)
def test_air_that_cannot_be_is_told_at_its_line(air: str, says: str) -> None:
    life = run(Life(), "2024-02-01", air=air)
    (finding,) = told(life)
    assert finding.startswith("tests/2024-02-01-run.yaml:3:")
    assert "wrong" in finding
    assert says in finding
    assert not runs(life)[0].corrected


def test_a_sheet_without_a_standard_or_with_an_unknown_one_is_told() -> None:
    assert "says little without the standard" in told(run(Life(), "2024-02-01", more="sheet: {power: 71.0 kW}\n"))[0]
    other = run(Life(), "2024-02-01", more="sheet: {power: 71.0 kW, standard: as always}\n")
    assert "`as always` is none of the standards" in told(other)[0]
    assert not told(run(Life(), "2024-02-01", more="sheet: {power: 71.0 kW, standard: observed}\n"))


@pytest.mark.parametrize(
    ("power", "says"),
    [
        ("-71 kW", "-71 kW is no power that an engine gives; write what the sheet says, above 0"),
        ("0 kW", "0 kW is no power that an engine gives; write what the sheet says, above 0"),
        ("1 / 2 kW", "'1 / 2 kW' is not one amount; write one number and its unit, without ±"),
        ("71", "'71' has no unit; write 71 kW, 71 hp, 71 PS or 71 W"),
    ],
)
def test_a_sheet_whose_power_cannot_be_is_told_at_its_place(power: str, says: str) -> None:
    life = run(Life(), "2024-02-01", more=f"sheet: {{power: {power}, standard: STD}}\n")
    assert told(life) == [f"tests/2024-02-01-run.yaml:5:16: wrong: {says}"]
    assert runs(life)[0].sheet is None


def test_the_names_that_sheets_use() -> None:
    assert standard_named("80/1269/eec") == "ISO 1585"
    assert standard_named("STD") == "SAE J607"
    assert standard_named("SAE") is None
