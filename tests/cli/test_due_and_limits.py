"""`logbook due` and the limits under `logbook specs`, as they are printed and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

from keyboard import typed


def test_what_is_over_stands_first_and_the_makers_word_beside_it(demo: Path) -> None:
    ran = typed("due", at=demo)
    assert ran.status == 0
    assert (
        ran.out
        == """\
Bracken special, as of 2020-03-07; 41.6 h (true total 112640 km)

Overdue
  springs-2  30 h  11.6 h over  service life, 30 h

Due later
  oil         2020-10-05  212 days left  service interval, 12 months
  valve lash  2020-10-05  212 days left  service interval, 12 months
  oil         58.2 h        16.6 h left  service interval, 20 h
  valve lash  58.2 h        16.6 h left  service interval, 20 h

The maker's own intervals and lives come first. All is counted to the last
entry; later: --as-of 2021-03-07 or --as-of 142h.
"""
    )


def test_as_of_a_day_to_come_and_a_reading_to_come(demo: Path) -> None:
    later = typed("due", "--as-of", "2020-10-06", at=demo).out
    assert "oil 2020-10-05 1 day over service interval" in " ".join(later.split())
    assert "Distance and hours are those of" in later
    assert "1.8 h over" in typed("due", "--as-of", "60 h", at=demo).out
    early = typed("due", "--as-of", "2017-04-10", at=demo).out
    assert "retorque head 104800 km 500 km left announced 2017-04-02, 500 km" in " ".join(early.split())


def test_json_csv_and_markdown(demo: Path) -> None:
    printed = json.loads(typed("due", "--json", at=demo).out)
    assert (printed["format"], printed["as_of"]) == (1, "now")
    first = printed["due"][0]
    assert {"what", "at", "left", "unit", "basis"} <= set(first)
    assert (first["what"], first["at"], first["left"], first["unit"]) == ("springs-2", "30 h", -11.6, "h")
    assert (first["basis"], first["overdue"]) == ("service life", True)
    assert typed("due", "--csv", at=demo).out.splitlines()[:2] == [
        "what,due at,left,unit,why", 'springs-2,30 h,-11.6,h,"service life, 30 h"',
    ]  # fmt: skip
    assert (
        typed("due", "--markdown", at=demo).out.splitlines()[2]
        == "| springs-2 | 30 h | -11.6 | h | service life, 30 h |"
    )


def test_where_nothing_is_counted_it_says_what_to_give(twin: Path) -> None:
    ran = typed("due", at=twin)
    assert (ran.status, ran.out) == (
        0, "Nothing is counted: give service intervals in engine.yaml, or a part its\nservice_life.\n",
    )  # fmt: skip


def test_the_limits_stand_under_the_specs(demo: Path) -> None:
    """The inlet valve is outside the rule and accepted by the owner with a limit of 6800 rpm."""
    printed = typed("specs", "donor-head", at=demo).out
    limits = " ".join(printed[printed.index("\nLimits\n") :].split())
    assert (
        "inlet valve to piston, least of cylinder 1: 1.900 ± 0.020 mm; at least 2.0 mm (common practice, steel rods): "
        "outside; accepted 2018-03-24 (1.9 mm): a tenth under the rule of 2.0; accepted by the owner with a limit of "
        "6800 rpm"
    ) in limits
    assert "knowing the gasket thickness, compressed, to ± 0.045 mm would settle it: measure it" in limits
    assert "the maker's manual comes first" in limits
    assert "Within their limits: " in limits
    assert "crankshaft end float; top ring end gap; exhaust valve to piston, least;" in limits


def test_a_tune_that_is_not_proven_is_told_under_the_specs(demo: Path) -> None:
    said = " ".join(typed("specs", "third-head", at=demo).out.split())
    assert "Careful: tune-4 is not proven since head-c was fitted; listen for knock" in said
    assert "not proven since" not in typed("specs", at=demo).out


def test_the_limits_in_json(demo: Path) -> None:
    limits = json.loads(typed("specs", "donor-head", "--json", at=demo).out)["limits"]
    (inlet,) = (each for each in limits if each["limit"] == "inlet-valve-to-piston")
    wanted = {"spec": "valve_to_piston_inlet", "position": "1", "unit": "mm", "value": 1.9, "uncertainty": 0.02,
              "low": 2.0, "high": None, "verdict": "outside"}  # fmt: skip
    assert {key: inlet[key] for key in wanted} == wanted
    assert inlet["own"]
    assert inlet["accepted"]["entry"] == "changes/2018-03-24-camshaft-timed"
    assert inlet["accepted"]["ended"] is None
    assert "6800" in inlet["accepted"]["why"]
    assert {each["verdict"] for each in limits} == {"within", "outside", "not proven either way"}


def test_a_limit_that_cannot_be_is_told_at_its_place(demo: Path, tmp_path: Path) -> None:
    import shutil

    copy = Path(shutil.copytree(demo, tmp_path / "copy"))
    file = copy / "engine.yaml"
    file.write_text(
        file.read_text() + "  - {id: squish-lest, min: 1 mm, rule: mine}\n  - {id: top-ring-gap, choose: mine}\n"
    )
    said = " ".join(typed("check", at=copy).out.split())
    assert (
        "`squish-lest` is no rule of the program's, so it needs a quantity write `squish-least`, or add spec:" in said
    )
    assert "`mine` is no published form of this rule write one of: ring maker's table, road;" in said
