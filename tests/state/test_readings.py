"""Bores read at named places, rods that share a crankpin, and bolts of which several sets are fitted."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.quantity.units import unit

BORES = (
    "bore: {top along: 80.03 / x mm, top across: 80.05 / 80.06 mm, bottom along: 80.00 / 80.01 mm, "
    "bottom across: 80.01 / 80.02 mm}"
)


def bored() -> Life:
    life = Life(2).part("block", "block", bore="80.00 mm").work("2024-01-01", "fit: block", at="100 km")
    life.texts["measurements/2024-02-01-bores.yaml"] = f"date: 2024-02-01\npart: block\nvalues:\n  {BORES}\n"
    return life


def millimetres(life: Life, name: str) -> list[float | None]:
    values = life.at("now").specs[name].values
    return [value and pytest.approx(unit("mm").from_base(value.nominal)) for value in values]


def test_taper_and_ovality_follow_from_the_named_readings_and_the_bore_is_their_mean() -> None:
    life = bored()
    assert [finding for finding in life.book.findings if finding.level == "wrong"] == []
    assert millimetres(life, "bore_taper") == [0.04, 0.04]  # the second from its readings across alone
    assert millimetres(life, "bore_ovality")[0] == 0.02
    assert life.at("now").specs["bore_ovality"].values[1] is None
    held = life.at("now").graph.at("bore", "1")
    assert unit("mm").from_base(held.value.nominal) == pytest.approx(80.0225)  # type: ignore[union-attr]


def test_a_bore_that_is_honed_has_its_old_taper_out_of_date_until_it_is_read_again() -> None:
    life = bored().work("2024-03-01", "rework: block, operation: honed", at="100 km")
    assert all(value is None or value.out_of_date for value in life.at("now").specs["bore_taper"].values)
    life.measure("2024-03-02", "block", bore="80.04 / 80.04 mm")
    assert life.at("now").specs["bore_taper"].known == ()


def test_each_reading_stands_at_its_own_line() -> None:
    node = bored().at("now").graph.at("bore_top_across", "2")
    (held,) = node.facts.values()  # type: ignore[union-attr]
    assert held.fact.path == ("values", "bore", "top across")
    assert held.fact.text == "80.05 / 80.06 mm"


def side_clearances(arrangement: str, cylinders: int) -> int:
    pins = cylinders // 2 if arrangement == "vee" else cylinders
    wide = "50.30 mm" if arrangement == "vee" else "25.30 mm"
    life = Life(cylinders, arrangement)
    life.part("crank", "crankshaft", crankpin_width=wide).part("rods", "connecting_rods", big_end_width="25.00 mm")
    life.work("2024-01-01", "fit: crank", "fit: rods", at="100 km")
    found = millimetres(life, "rod_side_clearance")
    assert found == [0.3] * pins
    return pins


def test_side_clearance_is_of_each_crankpin_with_all_the_rods_on_it() -> None:
    assert side_clearances("inline", 4) == 4
    assert side_clearances("vee", 6) == 3


def test_two_sets_of_bolts_are_never_mixed() -> None:
    life = Life(1, "single").part("heads", "bolts", bolt_diameter="10 mm", bolt_torque="60 N m", nut_factor="0.2")
    life.part("rods", "bolts", bolt_diameter="8 mm").work("2024-01-01", "fit: heads", "fit: rods", at="100 km")
    (preload,) = life.at("now").specs["bolt_preload"].known
    assert preload.nominal == pytest.approx(30e3)
    (finding,) = life.book.findings
    assert "of one set, `heads`, and `rods` is fitted too" in finding.says
