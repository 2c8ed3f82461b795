"""What the reading commands print of the garden twin, line by line. The figures follow from conftest.py by pencil."""

from __future__ import annotations

import json
import os
import pty
import re
import sys
from io import StringIO
from pathlib import Path

import pytest
from keyboard import started, typed

from logbook.cli.report import say_to_who_waits
from logbook.specs.index import ALL_SPECS

SPECS = f"""\
Garden twin, GT-7
build head-b-on; 2024-03-02; 120 h

Size
  engine capacity                          603.26  ± 0.15    cc
  swept volume, by cylinder                        ± 0.091   cc
      1  301.593      2  301.668
  bore to stroke ratio, by cylinder                ± 0.00028
      1    1.33333    2    1.33350

Compression
  compression ratio, mean of the             8.589 ± 0.065       62% published
    cylinders
  compression ratio, greatest less least     0.017 ± 0.081       published
                                                                 ± rough
  compression ratio, by cylinder                   ± 0.077       44% published
      1    8.597      2    8.580
  squish clearance, each cylinder            1.700 ± 0.054   mm  86% published
  Top land crevice: left out of every ratio.

Volumes above the piston
  clearance volume, by cylinder                    ± 0.40    cc  44% published
      1   39.70       2   39.80
  crown volume, dish plus, raised minus,     5.00  ± 0.20    cc
    each cylinder
  gasket volume, each cylinder               6.18  ± 0.27    cc  published
  deck volume, each cylinder                 2.51  ± 0.10    cc
  rest volume, gasket and deck, each         8.70  ± 0.29    cc  88% published
    cylinder
  deck clearance, below, each cylinder       0.500 ± 0.020   mm

{len(ALL_SPECS) - 13} more cannot be worked out yet: logbook specs --all says what they need.

± is expanded, k = 2. What is not marked rests on measurements alone.

Limits
  squish clearance of cylinders 1 and 2: at worst 1.700 ± 0.054 mm; at most 1.15
      mm (trade newsletter, steel rods): beyond this guide; wider than that,
      squish does little
  Within their limits: combustion chamber volume, greatest less least.
"""

COMPARE = f"""\
Garden twin: as-bought → now

Parts
  cylinder head  head-a → head-b

Settings
  main jet  none → 115

Figures of the record
  combustion chamber volume
      30.0 / 30.2 cc → 26.0 / 26.1 cc

Specs
  compression ratio, mean of the cylinders
         7.887 →  8.589  +0.702 ± 0.037  real
  compression ratio, greatest less least
         0.030 →  0.017  -0.013 ± 0.071  within the error
  compression ratio
     1   7.902 →  8.597  +0.695 ± 0.051  real
     2   7.872 →  8.580  +0.708 ± 0.051  real
  clearance volume, cc
     1  43.70  → 39.70   -4.00  ± 0.28   real
     2  43.90  → 39.80   -4.10  ± 0.28   real

Careful
  More compression: listen for knock at full load with the fuel that will be
    used, and go back at once where it is heard.
  The maker's manual comes first.

{len(ALL_SPECS) - 4} specs are the same at both points. ± is expanded, k = 2.
"""

TIMELINE = """\
2024-01-06  100 h  Bought
    engine capacity, cc
          unknown → 603.26    ± 0.15   now known
    compression ratio, mean of the cylinders
          unknown →   7.887   ± 0.054  now known
    squish clearance, mm, each cylinder
          unknown →   1.700   ± 0.054  now known
    and 10 more (--all)
2024-01-13  100 h  On the bench
    what this changed in belief:
    engine capacity, cc
          unknown → 603.26    ± 0.15   now known
    compression ratio, mean of the cylinders
          unknown →   7.887   ± 0.054  now known
    squish clearance, mm, each cylinder
          unknown →   1.700   ± 0.054  now known
    and 9 more (--all)
2024-03-02  120 h  Head B on
    compression ratio, mean of the cylinders
          7.887 → 8.589  +0.702 ± 0.037  real
    and 3 more (--all)
"""

CSV = """\
spec,position,value,±,unit,rests on
engine capacity,,603.26,0.15,cc,measured
swept volume,1,301.593,0.091,cc,measured
swept volume,2,301.668,0.091,cc,measured
bore to stroke ratio,1,1.33333,0.00028,,measured
bore to stroke ratio,2,1.33350,0.00028,,measured
"compression ratio, mean of the cylinders",,8.589,0.065,,62% published
"""

MARKDOWN = """\
| spec | position | as-bought | now | difference | ± | unit | verdict |
| --- | --- | --- | --- | --- | --- | --- | --- |
| engine capacity |  | 603.26 | 603.26 | 0 |  | cc | the same |
"""


@pytest.mark.parametrize(
    ("words", "text"),
    [("specs", SPECS), ("compare as-bought", COMPARE), ("timeline", TIMELINE)],
)
def test_the_whole_of_it(twin: Path, words: str, text: str) -> None:
    ran = typed(*words.split(), at=twin)
    assert (ran.status, without_the_clock(ran.out), ran.err) == (0, text, "")


def without_the_clock(out: str) -> str:
    """What is told of entries that were written down late depends on the day on which the test runs."""
    return re.sub(r"    written down \d+ days later, on [0-9-]+\n", "", out)


@pytest.mark.parametrize(("words", "text"), [("specs --csv", CSV), ("compare as-bought --markdown", MARKDOWN)])
def test_a_table_to_take_elsewhere_begins_so(twin: Path, words: str, text: str) -> None:
    ran = typed(*words.split(), at=twin)
    assert ran.status == 0
    assert ran.out.startswith(text)


def test_a_timeline_as_a_table_has_a_row_for_each_entry(twin: Path) -> None:
    rows = typed("timeline", "--csv", at=twin).out.splitlines()
    assert rows[0] == "date,reading,title,specs that changed"
    assert [row.split(",")[:3] for row in rows[1:]] == [
        ["2024-01-06", "100 h", "Bought"],
        ["2024-01-13", "100 h", "On the bench"],
        ["2024-03-02", "120 h", "Head B on"],
    ]


def test_what_is_missing_is_told_when_all_is_asked_for(twin: Path) -> None:
    out = typed("specs", "--all", at=twin).out
    assert "  rod ratio, length to stroke\n      needs rod_length\n" in out
    assert "more cannot be worked out" not in out


def test_all_of_the_timeline_hides_nothing(twin: Path) -> None:
    out = typed("timeline", "--all", at=twin).out
    assert "(--all)" not in out
    assert "    clearance volume, cc\n       1  43.70  → 39.70   -4.00  ± 0.28   real\n" in out


def test_the_timeline_says_what_was_copied_and_what_is_open(own: Path) -> None:
    (own / "notes").mkdir()
    (own / "notes/2024-03-08-knock.yaml").write_text(
        "date: 2024-03-08\ntitle: A knock\nopen: true\nwritten_from: files/p12.jpg\n"
    )
    assert "A knock\n    copied from files/p12.jpg\n    still open\n" in typed("timeline", at=own).out
    knock = json.loads(typed("timeline", "--json", at=own).out)["entries"][-1]
    assert (knock["written_from"], knock["open"], knock["closed"]) == ("files/p12.jpg", True, None)
    (own / "changes/2024-03-09-c.yaml").write_text(
        "date: 2024-03-09\ntitle: Shield tightened\nwork: [{closes: 2024-03-08-knock}]\n"
    )
    assert "    closed on 2024-03-09: Shield tightened\n" in typed("timeline", at=own).out
    *_, knock, tightened = json.loads(typed("timeline", "--json", at=own).out)["entries"]
    assert (knock["open"], knock["closed"]) == (False, "changes/2024-03-09-c")
    assert (tightened["written_from"], tightened["open"], tightened["closed"]) == (None, None, None)


def test_a_part_on_an_engine_that_counts_hours_alone_has_run_no_kilometres(twin: Path) -> None:
    out = typed("timeline", "--part", "head-b", at=twin).out
    assert "2024-03-02  0 h  fitted in place of head-a\n" in out
    assert "It is in the engine and has run 0 h in this engine; in all nobody knows how far.\n" in out
    assert "km" not in out


def test_a_sound_record_has_nothing_said_of_it(twin: Path) -> None:
    assert typed("check", at=twin) == (0, "Nothing to say: the record reads well.\n", "")


def test_check_gives_each_finding_with_its_mend_and_counts_them(own: Path) -> None:
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-odd.yaml").write_text("date: 2024-02-30\ntitle: Odd\n")
    assert typed("check", at=own) == (
        1,
        "notes/2024-03-09-odd.yaml:1:7: wrong: there is no day 2024-02-30\n    correct the month or the day\n1 wrong\n",
        "",
    )


def test_notes_alone_are_fine(own: Path) -> None:
    (own / "parts/head-c.yml").write_text("kind: cylinder_head\nwhat: c\n")
    ran = typed("check", at=own)
    assert (ran.status, ran.out.splitlines()[-1]) == (0, "1 note")


def test_the_folder_is_found_from_below_and_by_name(twin: Path, tmp_path: Path) -> None:
    assert typed("specs", at=twin / "parts").out == SPECS
    assert typed("specs", "--in", str(twin), at=tmp_path).out == SPECS
    assert typed("specs", "--in", str(twin / "changes"), at="/").out == SPECS


@pytest.mark.parametrize("point", ["now", "head-b-on", "2024-03-02", "120h", "2024-03-02-head-b", "true:120h"])
def test_one_point_has_many_names(twin: Path, point: str) -> None:
    assert typed("specs", point, at=twin).out == SPECS


def test_us_words_and_imperial_units(own: Path) -> None:
    with (own / "engine.yaml").open("a") as engine:
        engine.write("words: us\nshow: imperial\n")
    out = typed("specs", "--all", at=own).out
    assert "  displacement                         36.8133  ± 0.0089  cu in\n" in out  # 603.261 cc / 16.387064
    assert "quench clearance, each cylinder" in out
    assert "intake lobe center" in out


def test_what_cannot_be_read_is_not_left_out_in_silence(own: Path) -> None:
    (own / "parts/head-c.yaml").write_text("kind: head\n")
    ran = typed("specs", at=own)
    assert (ran.status, ran.out) == (1, SPECS)
    assert ran.told == ["Careful: 2 places in the record cannot be read and count for nothing here: logbook check"]


def test_no_figure_is_told_of_an_engine_that_cannot_be_read(own: Path) -> None:
    (own / "engine.yaml").write_text("format: 1\nname: Garden twin\narrangement: inline\n")
    says = "engine.yaml:1:1: wrong: `cylinders` is missing; add a line `cylinders: …`\n"
    for command in ("specs", "timeline", "compare start"):
        assert typed(*command.split(), at=own) == (2, "", says)


def test_no_line_is_wider_than_the_terminal(demo: Path) -> None:
    for command in ("specs", "specs start", "specs --all", "timeline --all", "compare start", "compare donor-head",
                    "plan", "plan show half-millimetre-pistons", "compare --change third-head",
                    "timeline --part pistons-2", "timeline --fact bore", "timeline --since third-head"):  # fmt: skip
        wide = [line for line in typed(*command.split(), at=demo).out.splitlines() if len(line) > 80]
        assert not wide, command


@pytest.fixture(scope="module")
def whole_life(demo: Path) -> str:
    return typed("timeline", at=demo).out


def test_the_timeline_says_of_a_run_where_and_how_its_figures_were_read(whole_life: str) -> None:
    run = whole_life.partition("Baseline on the dynamometer\n")[2].splitlines()
    assert run[:3] == [
        "    at greatest power, 5400 rpm, as observed:",
        "    power: 49.8 ± 1.1 kW",
        "    brake mean effective pressure: 6.96 ± 0.16 bar",
    ]


def test_the_timeline_of_a_life_says_once_what_its_short_verdict_means(whole_life: str) -> None:
    assert "real if published\n" in whole_life
    assert whole_life.count("real if published: only if the figures hold that were published, assumed or") == 1


@pytest.mark.parametrize(("no_colour", "begins"), [("", b"\x1b[1mGarden twin"), ("1", b"Garden twin")])
def test_colour_is_for_terminals_that_want_it(twin: Path, no_colour: str, begins: bytes) -> None:
    try:
        reader, writer = pty.openpty()
    except OSError:
        pytest.skip("this machine lends no terminals")
    started("logbook specs", twin, stdout=writer, env={"NO_COLOR": no_colour})
    assert os.read(reader, 200).startswith(begins)


def test_a_document_that_takes_long_says_so_on_a_terminal_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal(StringIO):
        def isatty(self) -> bool:
            return True

    for stream, told in ((Terminal(), "Setting …\n"), (StringIO(), "")):
        monkeypatch.setattr(sys, "stderr", stream)
        say_to_who_waits("Setting …")
        assert stream.getvalue() == told
