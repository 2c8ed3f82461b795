"""`logbook explain knock_integral --against BUILD`, of one engine with a thick gasket, then a thin one."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from keyboard import typed
from lives import Life

WORDS = ("explain", "knock_integral", "high", "--against", "low")


@pytest.fixture
def two_builds(tmp_path: Path) -> Path:
    engine = Life()
    engine.part("block-1", "block", bore="80 mm")
    engine.part("crank-1", "crankshaft", stroke="79 mm")
    engine.part("rods-1", "connecting_rods", rod_length="134 mm")
    engine.part("pistons-1", "pistons", dish_volume="5.5 cc")
    engine.part("head-a", "cylinder_head", chamber_volume="36 cc")
    engine.part("thick", "head_gasket", gasket_thickness="1.9 mm", gasket_bore="82 mm")
    engine.part("thin", "head_gasket", gasket_thickness="0.9 mm", gasket_bore="82 mm")
    engine.part("cam", "camshaft")
    fitted = [f"fit: {part}" for part in ("block-1", "crank-1", "rods-1", "pistons-1", "head-a", "cam", "thick")]
    engine.work("2020-01-01", *fitted, "set: {fuel: 98 RON}", build="low", at="100 km")
    closes = {"deck_clearance": "{all: 0.30 mm below}", "inlet_closes": "60 deg after BDC"}
    engine.measure("2020-01-02", more="at_lift: 0.1 mm\n", **closes)
    engine.measure("2020-02-01", charge_temperature="45 degC")
    engine.work("2021-01-01", "fit: thin", build="high", at="200 km")
    engine.measure("2021-02-01", charge_temperature="45 degC")
    for file, text in engine.texts.items():
        (tmp_path / file).parent.mkdir(exist_ok=True)
        (tmp_path / file).write_text(text)
    return tmp_path


def test_it_says_which_build_is_nearer_and_to_be_careful(two_builds: Path) -> None:
    ran = typed(*WORDS, at=two_builds)
    assert (ran.status, ran.err) == (0, "")
    assert max(map(len, ran.out.splitlines())) <= 80
    assert sum(line.startswith("  cylinder ") for line in ran.out.splitlines()) == 4
    assert ran.out.count("nearer to knock\n") >= 4
    said = " ".join(ran.out.split())
    assert "Careful Knock destroys engines. The maker's manual, the fuel" in said
    assert "a listening device come first; this is a relative figure only" in said


def test_the_same_as_json(two_builds: Path) -> None:
    shape = json.loads(typed(*WORDS, "--json", at=two_builds).out)
    assert (shape["build"], shape["against"], shape["fuel"]) == ("high", "low", "98 RON")
    assert list(shape["cylinders"]) == ["1", "2", "3", "4"]
    first = shape["cylinders"]["1"]
    assert 0 < first["uncertainty"] < first["ratio"]
    assert "destroys" in shape["careful"][0]


def test_the_other_way_round_it_is_not_nearer(two_builds: Path) -> None:
    shape = json.loads(typed("explain", "knock_integral", "low", "--against", "high", "--json", at=two_builds).out)
    assert all(0 < each["ratio"] < 1 for each in shape["cylinders"].values())
