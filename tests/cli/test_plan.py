"""Plans at the keyboard: listed, set beside the engine, carried out in one commit, undone, and never half."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from keyboard import git, typed

PLAN = """\
title: Head A again, milled
date: 2024-03-20
from: now
assume: {gasket_thickness: 1.00 mm}
work:
  - {rework: head-a, operation: surface milled, depth: 0.20 mm, to: {chamber_volume: 28.0 / 28.2 cc}}
  - fit: head-a
"""


@pytest.fixture
def planned(own: Path) -> Path:
    """The twin with a plan that is saved."""
    (own / "plans").mkdir()
    (own / "plans/head-a-milled.yaml").write_text(PLAN)
    assert typed("save", at=own).status == 0
    return own


def test_without_plans_it_says_how_to_begin(twin: Path) -> None:
    ran = typed("plan", at=twin)
    assert ran.status == 0
    assert "logbook plan write NAME" in ran.out
    assert "logbook compare now --suppose fit=PART" in ran.out
    assert json.loads(typed("plan", "--json", at=twin).out) == {"format": 1, "plans": []}


def test_a_plan_is_listed_with_what_it_would_do(planned: Path) -> None:
    out = typed("plan", at=planned).out
    assert out.startswith("head-a-milled\n    2024-03-20  Head A again, milled: open\n")
    assert "    it stands on now, and on an assumed gasket thickness\n" in out
    assert "compression ratio, mean of the cylinders" in out


def test_it_says_what_would_have_to_be_known_of_a_part_of_which_too_little_is(own: Path) -> None:
    (own / "parts/gasket-9.yaml").write_text("kind: head_gasket\nwhat: another\n")
    write = ("plan", "write", "thin", "--title", "Thin", "--fit", "gasket-9")
    ran = typed(*write, "--assume", "gasket_thickness=0.7 mm", at=own)
    assert "unknown" in ran.out
    assert "needs gasket_opening or gasket_bore or gasket_volume" in " ".join(ran.out.split())
    assert all(len(line) <= 80 for line in ran.out.splitlines())
    done = typed("plan", "carry-out", "thin", "--date", "2024-04-01", "--reading", "140 h", at=own)
    assert "To know again what is no longer known it needs gasket_thickness or gasket_volume" in " ".join(
        done.out.split()
    )
    assert "To know again" not in typed("compare", "as-bought", "2024-03-01", at=own).out


def test_shown_it_stands_beside_its_start_or_any_point(planned: Path) -> None:
    out = typed("plan", "show", "head-a-milled", at=planned).out
    assert out.startswith("Garden twin: now → plan:head-a-milled\n")
    assert "  head-a  surface milled 0.20 mm, only thought of\n" in out
    assert "Assumed: gasket thickness." in out
    lower = typed("plan", "show", "head-a-milled", "--against", "as-bought", at=planned).out
    assert lower.startswith("Garden twin: as-bought → plan:head-a-milled\n")
    assert "Careful\n  More compression: listen for knock" in lower


def test_the_folder_may_be_named_on_either_side(planned: Path, tmp_path: Path) -> None:
    for words in (("--in", str(planned), "show", "head-a-milled"), ("show", "head-a-milled", "--in", str(planned))):
        assert typed("plan", *words, at=tmp_path).out.startswith("Garden twin: now → plan:head-a-milled\n")


def carry_out(folder: Path) -> str:
    ran = typed("plan", "carry-out", "head-a-milled", "--date", "2024-04-02", "--reading", "130 h", "--by", "owner",
                "--build", "a-milled", at=folder)  # fmt: skip
    assert ran.status == 0, ran.err
    return ran.out


def test_carried_out_it_is_one_commit_that_can_be_undone(planned: Path) -> None:
    before = git(planned, "rev-list", "--count", "HEAD")
    assert "Saved changes/2024-04-02-head-a-again-milled.yaml as commit " in carry_out(planned)
    assert int(git(planned, "rev-list", "--count", "HEAD")) == int(before) + 1
    text = (planned / "changes/2024-04-02-head-a-again-milled.yaml").read_text()
    assert "by: owner\n" in text
    assert "forecast:\n  from: plan:head-a-milled\n  assume:\n    gasket_thickness: 1.00 mm\n  specs:\n" in text
    assert "to:" not in text
    assert "carried out 2024-04-02" in typed("plan", at=planned).out
    assert typed("undo", at=planned).status == 0
    assert not (planned / "changes/2024-04-02-head-a-again-milled.yaml").exists()
    assert "Head A again, milled: open\n" in typed("plan", at=planned).out


def test_from_then_on_the_timeline_holds_the_forecast_against_what_is_found(planned: Path) -> None:
    carry_out(planned)
    assert "not measured since" in typed("timeline", at=planned).out
    found = ("chamber_volume", "28.6 / 28.7 cc", "--with", "burette", "--date", "2024-04-03")
    measured = typed("measure", "head-a", *found, at=planned)
    assert measured.status == 0
    out = typed("timeline", at=planned).out
    assert "    forecast of plan:head-a-milled → found:\n    compression ratio, mean of the cylinders\n" in out
    assert "E_n: found less forecast over both errors" in out
    entries = json.loads(typed("timeline", "--json", at=planned).out)["entries"]
    scores = next(each["forecast"] for each in entries if each["forecast"])
    mean = next(each for each in scores if each["spec"] == "mean_compression_ratio")
    assert (mean["e_n"] < 0) == (mean["found"] < mean["forecast"])
    assert mean["verdict"] == ("held" if abs(mean["e_n"]) <= 1 else "missed")


def test_carried_out_and_measured_on_one_day_nothing_is_doubtful(planned: Path) -> None:
    carry_out(planned)
    found = ("chamber_volume", "28.6 / 28.7 cc", "--with", "burette", "--date", "2024-04-02")
    measured = typed("measure", "head-a", *found, "--reading", "130 h", at=planned)
    assert measured.status == 0, measured.out
    assert "Taken to follow changes/2024-04-02-head-a-again-milled of the same day" in measured.out
    again = typed("measure", "head-a", *found, "--file", "again", at=planned)  # the same day, and no reading told
    assert again.status == 0, again.out
    assert "doubtful" not in typed("check", at=planned).out
    entries = json.loads(typed("timeline", "--json", at=planned).out)["entries"]
    assert [each["id"].split("/")[0] for each in entries[-3:]] == ["changes", "measurements", "measurements"]


def test_what_cannot_be_carried_out_writes_nothing(planned: Path) -> None:
    plan = planned / "plans/head-a-milled.yaml"
    plan.write_text(PLAN.replace("fit: head-a", "fit: head-b"))
    ran = typed("plan", "carry-out", "head-a-milled", "--date", "2024-04-02", at=planned)
    assert (ran.status, ran.out) == (2, "")
    assert ran.told[0].startswith("`head-a-milled` cannot be carried out: `head-b` is in the engine already")
    assert len(list((planned / "changes").iterdir())) == 2


def test_the_demonstration_has_a_plan_that_was_withdrawn(demo: Path) -> None:
    (plan,) = json.loads(typed("plan", "--json", at=demo).out)["plans"]
    assert (plan["name"], plan["became"], plan["done"]) == ("half-millimetre-pistons", "withdrawn", None)
    assert plan["effect"]["displacement"]["to"] == pytest.approx([1608.3], abs=0.1)


def test_where_it_rested_on_a_mistake_both_forecasts_are_scored(planned: Path) -> None:
    """The gasket that the forecast rested on had been misread by half a millimetre."""
    gasket = ("gasket-1", "gasket_thickness", "1.70 mm", "--with", "micrometer", "--date", "2024-03-25")
    plan = planned / "plans/head-a-milled.yaml"
    plan.write_text(PLAN.replace("assume: {gasket_thickness: 1.00 mm}\n", ""))
    for words in (("save",), ("measure", *gasket)):
        assert typed(*words, at=planned).status == 0
    (wrong,) = (path.stem for path in (planned / "measurements").glob("2024-03-25*"))
    carry_out(planned)
    chambers = ("head-a", "chamber_volume", "28.1 / 28.1 cc", "--with", "burette", "--date", "2024-04-03")
    assert typed("measure", *chambers, at=planned).status == 0
    correct = f"correct: {{entry: {wrong}, part: gasket-1, quantity: gasket_thickness, why: two gaskets}}"
    assert typed("work", "--title", "Misread", "--step", correct, "--date", "2024-04-04", at=planned).status == 0
    out = typed("plan", at=planned).out
    assert "    carried out as planned\n" in out
    start = out.index("    forecast → found:\n")
    missed, rested, _, held = out[start:].splitlines()[2:6]
    assert missed.endswith("  missed")
    assert rested == "          rested on gasket thickness, compressed (gasket-1, corrected"
    assert held.endswith("  held")
    assert max(map(len, out.splitlines())) <= 80
    change = planned / "changes/2024-04-02-head-a-again-milled.yaml"
    change.write_text(change.read_text().replace("depth: 0.20 mm", "depth: 0.25 mm"))
    told = "    carried out otherwise than planned:\n      head-a: surface milled 0.25 mm, where 0.20 mm was planned\n"
    assert told in typed("plan", at=planned).out


WRITE = ("plan", "write", "head-a-milled", "--title", "Head A again, milled", "--fit", "head-a",
         "--rework", "head-a: surface milled 0.20 mm", "--assume", "gasket_thickness=1.00 mm",
         "--date", "2024-03-20")  # fmt: skip


def test_a_plan_is_written_in_one_commit_and_can_be_undone(own: Path) -> None:
    ran = typed(*WRITE, at=own)
    assert ran.status == 0, ran.err
    assert ran.out.startswith("Saved plans/head-a-milled.yaml as commit ")
    assert "head-a-milled\n    2024-03-20  Head A again, milled: open\n" in ran.out
    assert "compression ratio, mean of the cylinders" in ran.out
    assert (own / "plans/head-a-milled.yaml").read_text() == (
        "title: Head A again, milled\ndate: 2024-03-20\nfrom: now\nassume:\n  gasket_thickness:\n    all: 1.00 mm\n"
        "work:\n  - fit: head-a\n  - rework: head-a\n    operation: surface milled\n    depth: 0.20 mm\n"
    )
    assert git(own, "log", "-1", "--format=%s") == "Plan: Head A again, milled\n"
    assert git(own, "status", "--porcelain") == ""
    assert typed("undo", at=own).status == 0
    assert not (own / "plans/head-a-milled.yaml").exists()


@pytest.mark.parametrize(
    ("name", "words", "says"),
    [
        ("head-a-milled", ("--fit", "head-z"), "there is no part `head-z`; write `head-b`"),
        ("head-a-milled", ("--fit", "head-a", "--from", "nowhere"), "`nowhere` is no point in this record"),
        ("head-a-milled", ("--assume", "gasket_thicknes=1 mm"), "did you mean gasket_thickness?"),
        ("head-a-milled", (), "write at least one step or figure"),
        ("Head A", ("--fit", "head-a"), "a plan is called as its file, in small letters: head-a"),
        ("../away", ("--fit", "head-a"), "a plan is called as its file, in small letters: away"),
    ],
)
def test_a_plan_that_cannot_be_is_not_written(own: Path, name: str, words: tuple[str, ...], says: str) -> None:
    before = git(own, "rev-parse", "HEAD")
    ran = typed("plan", "write", name, "--title", "Head A", *words, at=own)
    assert ran.status == 2
    assert says in " ".join(ran.err.split())
    assert (git(own, "rev-parse", "HEAD"), git(own, "status", "--porcelain")) == (before, "")


def test_a_plan_is_not_written_over_another(planned: Path) -> None:
    ran = typed(*WRITE, at=planned)
    assert (ran.status, (planned / "plans/head-a-milled.yaml").read_text()) == (2, PLAN)
    assert "is there already: edit it, or choose another" in ran.err
