"""measure, work and save: which file they write, that it reads back, that the commit has it, and what they say."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from keyboard import git, typed

from logbook.cli import entering
from logbook.logbook import Logbook

MEASURED = """\
Saved measurements/2024-03-09-head-b-chamber-volume.yaml as commit {commit}.
What this changed in the specs of now:
  compression ratio, mean of the cylinders
         8.589 →  8.573  -0.016 ± 0.038  within the error
  compression ratio, greatest less least
         0.017 →  0.050  +0.032 ± 0.076  within the error
  compression ratio
     1   8.597 →  8.597   0.000 ± 0.054  within the error
     2   8.580 →  8.548  -0.032 ± 0.054  within the error
  clearance volume, cc
     1  39.70  → 39.70    0.00  ± 0.28   within the error
     2  39.80  → 39.97   +0.17  ± 0.28   within the error
"""

WORKED = """\
date: 2024-03-09
time: 14:30
reading: 125 h
by: owner
title: Head A on again
kind: head swap
build: head-a-again
work:
  - remove: head-b
  - rework: head-a
    operation: surface milled
    depth: 0.10 mm
  - fit: head-a
  - set:
      valve_lash_inlet:
        all: 0.25 mm
    with: feeler
  - set:
      fuel: 98 RON
  - service: oil and filter
  - tighten: head bolts
    stages: 30 N m, 60 N m
note: |-
  Cold.
  In the rain.
"""


def head(folder: Path, path: str) -> str:
    """A file as the last commit has it."""
    return git(folder, "show", f"HEAD:{path}")


def test_measure_writes_a_file_and_commits_it(own: Path) -> None:
    ran = typed("measure", "head-b", "chamber_volume", "26.0 / 26.27 cc", "--with", "burette", "--date", "2024-03-09",
                "--reading", "125 h", at=own)  # fmt: skip
    assert (ran.status, ran.err) == (0, "")
    assert ran.out == MEASURED.format(commit=git(own, "rev-parse", "--short=10", "HEAD").strip())
    path = "measurements/2024-03-09-head-b-chamber-volume.yaml"
    text = """\
date: 2024-03-09
reading: 125 h
part: head-b
with: burette
values:
  chamber_volume: 26.0 / 26.27 cc
"""
    assert ((own / path).read_text(), head(own, path)) == (text, text)
    assert git(own, "show", "--name-only", "--format=%s%n%an", "HEAD").split("\n") == [
        "Measured: combustion chamber volume of head-b", "A Owner", "", path, "specs.yaml", "",
    ]  # fmt: skip
    assert git(own, "status", "--porcelain") == ""
    entry = Logbook.open(own).record.entries[-1]
    assert (entry.file, entry.facts[0].text) == (path, "26.0 / 26.27 cc")


def test_figures_of_the_engine_as_it_is_together_have_no_part(own: Path) -> None:
    typed("measure", "deck_clearance", "0.5 / 0.5 mm below", "--date", "2024-03-09", at=own)
    entry = Logbook.open(own).record.entries[-1].says
    assert (entry.part, entry.values) == (None, {"deck_clearance": "0.5 / 0.5 mm below"})


def test_several_quantities_and_all_that_measure_may_say(own: Path) -> None:
    ran = typed("measure", "inlet_opens", "12 deg before TDC", "inlet_closes", "50 deg after BDC", "--at-lift",
                "1.00 mm", "--at-lash", "0.25 mm", "--title", "On the wheel", "--by", "owner", "--time", "09:05",
                "--date", "2024-03-09", "--note", "twice\r\nover", "--file", "Degree wheel!", at=own)  # fmt: skip
    assert ran.status == 0, ran.err
    assert (
        (own / "measurements/2024-03-09-degree-wheel.yaml").read_text()
        == """\
date: 2024-03-09
time: 09:05
by: owner
title: On the wheel
at_lift: 1.00 mm
at_lash: 0.25 mm
values:
  inlet_opens: 12 deg before TDC
  inlet_closes: 50 deg after BDC
note: |-
  twice
  over
"""
    )


@pytest.mark.parametrize(
    ("value", "reads"),
    [
        ("{all: 5.1 cc}", {"all": "5.1 cc"}),
        ("{readings: [5.0 / 5.1 cc, 5.1 / 5.1 cc]}", {"readings": ["5.0 / 5.1 cc", "5.1 / 5.1 cc"]}),
        ("x / 5.1 ± 0.1 cc", "x / 5.1 ± 0.1 cc"),
        ("unknown", "unknown"),
    ],
)
def test_values_are_written_as_in_the_files(own: Path, value: str, reads: object) -> None:
    ran = typed("measure", "pistons-1", "dish_volume", value, "--date", "2024-03-09", at=own)
    assert ran.status == 0, ran.err
    assert Logbook.open(own).record.entries[-1].says.values == {"dish_volume": reads}


def test_work_keeps_its_steps_in_the_order_in_which_they_were_typed(own: Path) -> None:
    ran = typed("work", "--title", "Head A on again", "--remove", "head-b", "--rework",
                "head-a: surface milled 0.10 mm", "--fit", "head-a", "--set", "valve_lash_inlet={all: 0.25 mm}",
                "--set", "fuel=98 RON", "--with", "feeler", "--service", "oil and filter", "--step",
                '{tighten: head bolts, stages: "30 N m, 60 N m"}', "--build", "head-a-again", "--kind", "head swap",
                "--date", "2024-03-09", "--time", "14:30", "--reading", "125 h", "--by", "owner", "--note",
                "Cold.\nIn the rain.", at=own)  # fmt: skip
    assert (ran.status, ran.err) == (0, "")
    path = "changes/2024-03-09-head-a-on-again.yaml"
    assert ((own / path).read_text(), head(own, path)) == (WORKED, WORKED)
    assert git(own, "log", "-1", "--format=%s") == "Head A on again\n"
    assert "head-a" in Logbook.open(own).at("now").state.parts


def test_a_quantity_may_be_called_as_the_trade_calls_it_in_a_step_too() -> None:
    from logbook.cli.steps import _step

    written = "correct: {entry: changes/x, quantity: quench clearance, why: a slip}"
    assert _step(("step", written)) == {
        "correct": {"entry": "changes/x", "quantity": "squish_clearance", "why": "a slip"}
    }


@pytest.mark.parametrize(
    ("fit", "step"),
    [
        ("head-a", {"fit": "head-a"}),
        ("head-a found", {"fit": "head-a", "found": "yes"}),
        ("head-a at bank 1", {"fit": "head-a", "at": "bank 1"}),
        ("pistons-1 order B / A", {"fit": "pistons-1", "order": "B / A"}),
        ("pistons-1 at cylinder 2 order B / A found",
         {"fit": "pistons-1", "at": "cylinder 2", "order": "B / A", "found": "yes"}),
    ],
)  # fmt: skip
def test_what_may_be_said_of_a_part_that_is_fitted(fit: str, step: object) -> None:
    from logbook.cli.steps import _step

    assert _step(("fit", fit)) == step


def test_what_is_set_in_a_row_was_read_together(own: Path) -> None:
    """In steps of their own, the second event of the camshaft would put the first one out of date."""
    ran = typed("work", "--title", "Timed", "--set", "intake closes=52 deg after BDC", "--set", "main_jet=140",
                "--set", "valve_lash_inlet={all: 0.25 mm}", "--set", "inlet_opens=12 deg before TDC", "--service",
                "oil", "--set", "main_jet=145", "--set", "main_jet=150", "--with", "feeler", "--at-lift", "1.00 mm",
                "--date", "2024-03-09", at=own)  # fmt: skip
    assert ran.status == 0, ran.err
    events = {"inlet_closes": "52 deg after BDC", "inlet_opens": "12 deg before TDC"}
    work = Logbook.open(own).record.entries[-1].says.work
    assert [getattr(step, "set", None) for step in work] == [
        events, {"main_jet": "140"}, {"valve_lash_inlet": {"all": "0.25 mm"}}, None, {"main_jet": "145"},
        {"main_jet": "150"},
    ]  # fmt: skip
    assert [getattr(step, "at_lift", None) for step in work] == ["1.00 mm", *[None] * 5]
    specs = Logbook.open(own).at("now").specs
    assert [value.nominal for name in events for value in specs[name].known] == [52, 12]


def test_hand_edits_are_saved_with_a_new_entry(own: Path) -> None:
    (own / "parts/head-c.yaml").write_text("kind: cylinder_head\nwhat: another\n")
    ran = typed("work", "--title", "Head C on", "--fit", "head-c", "--date", "2024-03-09", at=own)
    assert ran.out.startswith("Saved changes/2024-03-09-head-c-on.yaml, parts/head-c.yaml as commit ")
    assert head(own, "parts/head-c.yaml").startswith("kind: cylinder_head")


def test_a_second_entry_of_one_name_has_a_file_of_its_own(own: Path) -> None:
    for number in ("", "-2", "-3"):
        typed("work", "--title", "Oil", "--service", "oil", "--date", "2024-03-09", at=own)
        assert (own / f"changes/2024-03-09-oil{number}.yaml").exists()


def test_the_date_is_today_where_none_is_told(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(entering, "today", lambda: "2024-05-04")
    typed("work", "--title", "Oil", "--service", "oil", at=own)
    assert (own / "changes/2024-05-04-oil.yaml").read_text().startswith("date: 2024-05-04\n")
    monkeypatch.undo()
    assert entering.today() == date.today().isoformat()


def test_an_entry_is_refused_whole_and_printed_as_it_was_typed(own: Path) -> None:
    before = git(own, "rev-parse", "HEAD")
    ran = typed("measure", "head-b", "chamber_volume", "26,0 / 26.2 cc", "--date", "2024-03-09", at=own)
    assert (ran.status, ran.out) == (2, "")
    assert (
        ran.err
        == """\
measurements/2024-03-09-head-b-chamber-volume.yaml:4:19: wrong: a number has a
  decimal point, not a comma; write 26.0
Nothing was saved. Mend this, or save it as it is with --even-so "the reason"

The entry, as it was to stand in measurements/2024-03-09-head-b-chamber-volume.yaml:

date: 2024-03-09
part: head-b
values:
  chamber_volume: 26,0 / 26.2 cc
"""
    )
    assert git(own, "rev-parse", "HEAD") == before
    assert git(own, "status", "--porcelain") == ""


def test_even_so_saves_it_and_keeps_the_reason(own: Path) -> None:
    ran = typed("measure", "head-b", "chamber_volume", "26,0 / 26.2 cc", "--date", "2024-03-09", "--even-so",
                "the sheet says so", at=own)  # fmt: skip
    assert ran.status == 1
    assert "wrong: a number has a\n  decimal point, not a comma\n    write 26.0\n1 wrong\n" in ran.out
    assert "Saved with findings, because: the sheet says so" in git(own, "log", "-1", "--format=%b")
    assert head(own, "measurements/2024-03-09-head-b-chamber-volume.yaml").endswith("26,0 / 26.2 cc\n")


def test_what_is_doubtful_is_saved_and_told(own: Path) -> None:
    ran = typed("measure", "block-1", "bore", "8.0 / 8.0 mm", "--date", "2024-03-09", at=own)
    assert ran.status == 1
    assert ran.out.endswith("""\
measurements/2024-03-09-block-1-bore.yaml:4:9: doubtful: bore of 8 mm is outside
  the usual 25 to 1000 mm
    correct the figure or its unit if it is a slip
1 doubtful
""")
    assert git(own, "status", "--porcelain") == ""


def test_a_day_still_to_come_is_a_slip_in_the_year(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(entering, "today", lambda: "2024-05-04")
    call = "work", "--title", "Oil", "--service", "oil", "--date", "2042-03-09"
    ran = typed(*call, at=own)
    assert ran.status == 2
    assert ran.told[0].startswith(
        "2042-03-09 is still to come: this computer's clock says 2024-05-04. Correct the date;"
    )
    assert "  - service: oil\n" in ran.err
    assert typed(*call, "--even-so", "the clock is wrong", at=own).status == 0


def test_save_commits_what_was_edited_and_says_what_it_did(own: Path) -> None:
    sheet = own / "measurements/2024-01-13-on-the-bench.yaml"
    sheet.write_text(sheet.read_text().replace("26.0 / 26.1", "25.0 / 25.1"))
    ran = typed("save", at=own)
    assert ran.status == 0
    assert ran.out.startswith("Saved measurements/2024-01-13-on-the-bench.yaml as commit ")
    assert "  amended\n" in ran.out  # a figure rewritten, not an engine changed
    assert "  real\n" not in ran.out
    assert git(own, "log", "-1", "--format=%s") == "On the bench\n"


def test_save_with_a_title_and_with_nothing_to_save(own: Path) -> None:
    assert typed("save", at=own) == (0, "Nothing has changed since the last save.\n", "")
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-knock.yaml").write_text("date: 2024-03-09\ntitle: Knock\n")
    assert typed("save", "--title", "From the garage", at=own).status == 0
    assert git(own, "log", "-1", "--format=%s") == "From the garage\n"


def test_save_refuses_what_is_wrong_and_leaves_the_hand_edit(own: Path) -> None:
    (own / "parts/head-c.yaml").write_text("kind: cylinder_head\nwaht: c\n")
    ran = typed("save", at=own)
    assert (ran.status, ran.out) == (2, "")
    assert (
        ran.err
        == """\
parts/head-c.yaml:1:1: wrong: `what` is missing; add a line `what: …`
parts/head-c.yaml:2:1: wrong: `waht` is not a key that belongs here; write
  `what`
Nothing was saved. Mend this, or save it as it is with --even-so "the reason"
"""
    )
    assert git(own, "status", "--porcelain") == "?? parts/head-c.yaml\n"


def test_the_users_own_staged_files_stay_staged(own: Path) -> None:
    (own / "letter.txt").write_text("to the shop")
    git(own, "add", "letter.txt")
    typed("work", "--title", "Oil", "--service", "oil", "--date", "2024-03-09", at=own)
    assert git(own, "status", "--porcelain") == "A  letter.txt\n"
    assert "letter.txt" not in git(own, "show", "--name-only", "HEAD")


# the order of one day


def measured(folder: Path, *more: str) -> str:
    ran = typed("measure", "head-b", "chamber_volume", "26.4 / 26.5 cc", "--date", "2024-03-09", *more, at=folder)
    assert ran.status == 0, ran.out + ran.err
    return ran.out.partition("Saved ")[2].partition(" as commit")[0]


def test_what_is_typed_later_on_one_day_follows(own: Path) -> None:
    first = measured(own, "--reading", "126 h", "--file", "one")
    assert "after:" not in (own / first).read_text()
    ran = typed("work", "--date", "2024-03-09", "--title", "T", "--step", "set: {main_jet: 140}", at=own)
    change = ran.out.partition("Saved ")[2].partition(" as commit")[0]
    assert ran.out.startswith(f"Taken to follow {first.removesuffix('.yaml')} of the same day")
    assert f"after: {first.removesuffix('.yaml')}\n" in (own / change).read_text()
    assert [each.file for each in Logbook.open(own).record.entries[-2:]] == [first, change]


@pytest.mark.parametrize("more", [("--time", "08:00"), ("--date", "2024-03-10")])
def test_a_time_or_another_day_says_the_order_itself(own: Path, more: tuple[str, ...]) -> None:
    measured(own, "--reading", "126 h", "--file", "one")
    assert "after:" not in (own / measured(own, *more, "--file", "two")).read_text()


def test_work_at_a_lower_reading_came_before(own: Path) -> None:
    first = measured(own, "--reading", "126 h", "--file", "one")
    ran = typed("work", "--date", "2024-03-09", "--reading", "125 h", "--title", "T", "--step", "set: {main_jet: 140}",
                at=own)  # fmt: skip
    assert (ran.status, "follow" in ran.out) == (0, False)
    assert Logbook.open(own).record.entries[-1].file == first


def test_a_remark_of_the_day_is_followed_by_nothing(own: Path) -> None:
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-n.yaml").write_text("date: 2024-03-09\ntitle: N\n")
    assert typed("save", at=own).status == 0
    assert "after:" not in (own / measured(own, "--file", "one")).read_text()
