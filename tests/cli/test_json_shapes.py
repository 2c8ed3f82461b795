"""The JSON that programs read, key by key as the README tells it; whole numbers, null where there is no value."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from keyboard import typed

SPEC = {"unit", "positions", "values", "uncertainty", "basis", "basis_shares", "out_of_date", "linear_rule_doubtful",
        "missing", "missing_any", "because", "conditions", "claims",
        "outside_validity"}  # fmt: skip
DIFFERENCE = {"unit", "positions", "from", "to", "difference", "uncertainty", "verdict", "outside_validity"}


def shape(folder: Path, *words: str) -> Any:
    """What a command prints as JSON, refusing what JSON does not know."""

    def no_number(word: str) -> float:
        raise AssertionError(f"{word} is no number of JSON")

    printed = json.loads(typed(*words, "--json", at=folder).out, parse_constant=no_number)
    assert printed["format"] == 1
    return printed


def test_specs(twin: Path) -> None:
    printed = shape(twin, "specs", "as-bought")
    assert set(printed) == {"format", "point", "specs", "limits", "firing", "of_the_test"}
    assert printed["firing"] is None  # its engine.yaml states no order
    assert printed["point"] == "as-bought"
    assert all(set(spec) == SPEC for spec in printed["specs"].values())
    ratio = printed["specs"]["compression_ratio"]
    assert (ratio["unit"], ratio["positions"]) == ("", ["1", "2"])
    assert ratio["values"] == pytest.approx([7.902, 7.872], abs=0.0005)  # by pencil in conftest.py
    assert ratio["uncertainty"] == pytest.approx([0.064, 0.063], abs=0.0005)
    assert sum(ratio["basis_shares"].values()) == pytest.approx(1)
    assert ratio["basis"] == "published"
    assert printed["specs"]["displacement"]["positions"] == []
    assert printed["specs"]["displacement"]["unit"] == "cc"


def test_a_spec_without_a_value_says_what_it_lacks(twin: Path) -> None:
    lobe = shape(twin, "specs")["specs"]["inlet_lobe_centre"]
    assert (lobe["values"], lobe["uncertainty"], lobe["basis"]) == ([None], [None], None)
    assert ["inlet_closes", "inlet_lobe_centre", "inlet_peak_centre"] in lobe["missing_any"]
    assert shape(twin, "specs")["specs"]["valve_overlap"]["missing"] == ["exhaust_closes", "inlet_opens"]


def test_when_each_cylinder_fires(demo: Path) -> None:
    firing = shape(demo, "specs")["firing"]
    assert set(firing) == {"order", "angles", "intervals", "even", "basis", "pin_split", "fits"}
    assert dict(zip(firing["order"], firing["angles"], strict=True)) == {"1": 0, "3": 180, "4": 360, "2": 540}


def test_what_a_test_comes_to(demo: Path) -> None:
    found = shape(demo, "specs", "2018-04-14-donor-head")["of_the_test"]
    assert (found["entry"], found["engine_speed"]) == ("tests/2018-04-14-donor-head", 6500)
    assert all(set(spec) == SPEC for spec in found["specs"].values())
    assert found["specs"]["power"]["values"] == pytest.approx([70.1], abs=0.05)
    explained = shape(demo, "explain", "power", "2018-04-14-donor-head")
    assert explained["curve"]["over"] == "engine_speed"
    assert len(explained["curve"]["points"]) == 10


def test_a_claim_and_a_condition_stand_beside(demo: Path) -> None:
    specs = shape(demo, "specs", "start")["specs"]
    assert specs["effective_compression_ratio"]["conditions"] == {"at_lift": "0.1 mm"}
    claim, *more = specs["compression_ratio"]["claims"]
    assert not more
    assert set(claim) == {"value", "uncertainty", "basis", "source", "stated_for", "file"}
    assert (claim["value"], claim["source"]) == (9.2, "seller")


def test_compare(twin: Path) -> None:
    printed = shape(twin, "compare", "as-bought", "now")
    assert set(printed) == {"format", "from", "to", "engines", "parts", "specs", "facts", "settings", "tables", "tests",
                            "torque", "cautions"}  # fmt: skip
    assert (printed["from"], printed["to"]) == ("as-bought", "now")
    assert printed["parts"] == {"off": ["head-a"], "on": ["head-b"], "worked": []}
    assert all(set(each) == DIFFERENCE for each in printed["specs"].values())
    ratio = printed["specs"]["compression_ratio"]
    assert ratio["difference"] == pytest.approx([to - was for was, to in zip(ratio["from"], ratio["to"], strict=True)])
    assert ratio["verdict"] == ["real", "real"]
    assert printed["settings"] == {"main_jet": {"from": None, "to": "115"}}
    assert printed["facts"] == {"chamber_volume": {"from": "30.0 / 30.2 cc", "to": "26.0 / 26.1 cc"}}
    first, last = printed["cautions"]
    assert first.startswith("More compression: listen for knock")
    assert last == "The maker's manual comes first."


def test_compare_tells_tables_and_tests(demo: Path) -> None:
    printed = shape(demo, "compare", "donor-head", "third-head")
    (table,) = (each for each in printed["tables"] if each["name"] == "ignition")
    assert set(table) == {"name", "inside", "unit", "files", "down", "rows", "across", "columns", "from", "to",
                          "difference", "between", "because"}  # fmt: skip
    assert (table["inside"], table["unit"], table["down"], table["across"]) == (
        "ignition_advance", "deg", "engine_speed", None)  # fmt: skip
    assert table["files"] == {"from": "files/tune-2-ignition.csv", "to": "files/tune-4-ignition.csv"}
    assert table["rows"][:3] == [1000, 2000, 3000]
    assert table["difference"][:3] == [[4], [4], [1]]
    torque = printed["torque"]
    assert (torque["standard"], torque["because"], torque["unit"]) == ("ISO 1585", "", "N m")
    assert torque["rpm"][:2] == [2500, 3000]
    assert torque["verdict"][:6] == ["better"] * 5 + ["inside the scatter"]
    assert torque["power"]["alike"] is False
    pressure = printed["tests"][0]
    assert set(pressure) == {"name", "conditions", "entries", "besides", "unlike", *DIFFERENCE}
    assert pressure["entries"] == {"from": "tests/2018-04-14-compression", "to": "tests/2019-10-05-compression"}
    assert pressure["difference"] == pytest.approx([-0.5, -0.2, -0.4, -0.6])
    assert pressure["uncertainty"] == pytest.approx([0.3 * 2**0.5] * 4)
    leakage = printed["tests"][1]
    assert leakage["entries"] == {"from": None, "to": "tests/2019-10-05-leak-down"}
    assert set(leakage) == {"name", "conditions", "entries", "besides", "unlike"}


def test_timeline(twin: Path) -> None:
    printed = shape(twin, "timeline")
    assert set(printed) == {"format", "entries"}
    first = printed["entries"][0]
    assert set(first) == {"id", "date", "reading", "title", "written_from", "open", "closed", "written", "days_after",
                          "amended", "told_as", "effect", "forecast", "of_the_test"}  # fmt: skip
    assert first["of_the_test"] is None
    assert (first["id"], first["date"], first["reading"]) == ("changes/2024-01-06-bought", "2024-01-06", "100 h")
    assert first["written"].startswith("2024-01-06T19:00:00")
    assert (first["days_after"], first["amended"]) == (0, [])
    assert [each["told_as"] for each in printed["entries"]] == ["work", "belief", "work"]
    assert all(set(each) == DIFFERENCE for entry in printed["entries"] for each in entry["effect"].values())
    assert first["effect"]["displacement"]["from"] == [None]


def test_what_is_not_committed_was_not_written_yet(own: Path) -> None:
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-knock.yaml").write_text("date: 2024-03-09\ntitle: Knock\n")
    assert [entry["written"] is None for entry in shape(own, "timeline")["entries"]] == [False, False, False, True]


def test_check(own: Path) -> None:
    assert shape(own, "check") == {"format": 1, "findings": []}
    (own / "parts/head-c.yaml").write_text("kind: cylinder_hed\nwhat: c\n")
    assert shape(own, "check")["findings"] == [
        {"file": "parts/head-c.yaml", "line": 1, "column": 7, "level": "wrong",
         "says": "`cylinder_hed` is not a kind of part", "mend": "write cylinder_head"},
    ]  # fmt: skip


def test_figures_are_in_the_usual_metric_unit_whatever_is_shown(own: Path) -> None:
    before = shape(own, "specs")["specs"]["displacement"]
    with (own / "engine.yaml").open("a") as engine:
        engine.write("show: imperial\n")
    assert shape(own, "specs")["specs"]["displacement"] == before
