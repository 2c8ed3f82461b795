"""The knock index: only between named builds of one engine on one fuel, with a measured charge temperature."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.errors import Refused
from logbook.judge.knock import CAUTION, Nearer, knock_against


def life(
    *, fuel: str = "98 RON", other_fuel: str = "98 RON", first: str = "45 degC", second: str = "45 degC", more: str = ""
) -> Life:
    """Two builds: a thick gasket, then a thin one; charge temperatures '' where nobody measured."""
    engine = Life()
    engine.part("block-1", "block", bore="80 mm")
    engine.part("crank-1", "crankshaft", stroke="79 mm")
    engine.part("rods-1", "connecting_rods", rod_length="134 mm")
    engine.part("pistons-1", "pistons", dish_volume="5.5 cc")
    engine.part("head-a", "cylinder_head", chamber_volume="36 cc")
    engine.part("thick", "head_gasket", gasket_thickness="1.9 mm", gasket_bore="82 mm")
    engine.part("thin", "head_gasket", gasket_thickness="0.9 mm", gasket_bore="82 mm")
    engine.part("cam", "camshaft")
    fitted = [f"fit: {part}" for part in ("block-1", "crank-1", "rods-1", "pistons-1", "head-a", "cam")]
    engine.work("2020-01-01", *fitted, "fit: thick", f"set: {{fuel: {fuel}}}", build="low", at="100 km")
    closes = {"deck_clearance": "{all: 0.30 mm below}", "inlet_closes": "60 deg after BDC"}
    engine.measure("2020-01-02", more="at_lift: 0.1 mm\n", **closes)
    if first:
        engine.measure("2020-02-01", charge_temperature=first)
    engine.work("2021-01-01", "fit: thin", f"set: {{fuel: {other_fuel}}}", build="high", at="200 km")
    if second:
        engine.measure("2021-02-01", charge_temperature=second)
    return engine


def nearer(**told: str) -> Nearer:
    engine = life(**told)
    return knock_against(engine.book.at("high"), engine.book.at("low"))


def test_more_compression_is_nearer_to_knock() -> None:
    found = nearer()
    assert (found.build, found.against, found.fuel) == ("high", "low", "98 RON")
    assert len(found.ratios) == 4
    assert all(1.2 < ratio.nominal < 3 for ratio in found.ratios)
    assert all(0 < ratio.expanded < ratio.nominal for ratio in found.ratios)
    assert found.caution == CAUTION
    assert "never" in CAUTION


def test_a_build_against_itself_is_one_and_sure() -> None:
    engine = life()
    found = knock_against(engine.book.at("high"), engine.book.at("high"))
    assert [ratio.nominal for ratio in found.ratios] == pytest.approx([1.0] * 4)
    assert [ratio.expanded for ratio in found.ratios] == pytest.approx([0.0] * 4, abs=1e-12)


def test_the_other_way_round_it_is_one_over() -> None:
    engine = life()
    there = knock_against(engine.book.at("high"), engine.book.at("low")).ratios[0].nominal
    assert knock_against(engine.book.at("low"), engine.book.at("high")).ratios[0].nominal == pytest.approx(1 / there)


def test_a_cooler_charge_takes_it_away_again() -> None:
    assert nearer(second="20 degC").ratios[0].nominal < nearer().ratios[0].nominal


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"other_fuel": "95 RON"}, "different fuels, 95 RON and 98 RON"),
        ({"second": ""}, "nobody measured the charge_temperature of build high"),
        ({"first": ""}, "nobody measured the charge_temperature of build low"),
    ],
)
def test_why_there_is_none(told: dict[str, str], words: str) -> None:
    with pytest.raises(Refused, match=words):
        nearer(**told)


def test_none_at_a_point_without_a_build() -> None:
    engine = Life()
    engine.work("2019-01-01", at="1 km")
    with pytest.raises(Refused, match="no build is named"):
        knock_against(engine.book.at("now"), engine.book.at("now"))


def test_none_of_a_boosted_engine_without_its_pressure() -> None:
    engine = life()
    engine.part("blower", "supercharger")
    engine.work("2021-03-01", "fit: blower", build="blown", at="300 km")
    engine.measure("2021-04-01", charge_temperature="90 degC")
    with pytest.raises(Refused, match="build blown is boosted"):
        knock_against(engine.book.at("blown"), engine.book.at("low"))


def test_none_where_the_inlet_was_checked_at_another_lift() -> None:
    engine = life()
    engine.part("cam-2", "camshaft")
    engine.work("2021-03-01", "fit: cam-2", build="late", at="300 km")
    engine.measure("2021-04-01", more="at_lift: 1.27 mm\n", inlet_closes="30 deg after BDC")
    engine.measure("2021-04-02", charge_temperature="45 degC")
    with pytest.raises(Refused, match=r"inlet closing was checked at .* and at "):
        knock_against(engine.book.at("late"), engine.book.at("low"))


@pytest.mark.parametrize(("fuel", "said"), [("80 RON", False), ("100 RON", False), ("102 RON", True), ("79 RON", True)])
def test_a_fuel_beyond_the_correlation_is_said_to_be(fuel: str, said: bool) -> None:
    assert ("is outside the 80 to 100 of octane" in nearer(fuel=fuel, other_fuel=fuel).caution) is said
