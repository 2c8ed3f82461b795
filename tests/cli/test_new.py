"""`logbook new`: from options or from a few questions, the same folder."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from keyboard import git, typed

from logbook.beginning import Answers, engine_text
from logbook.cli import new
from logbook.logbook import Logbook
from logbook.record.read import read_record
from logbook.specs.index import ALL_SPECS

OPTIONS = ("--name", 'The "old" six: № 7', "--number", "0117", "--cylinders", "6", "--arrangement", "vee",
           "--counter", "h", "--show", "imperial", "--words", "us")  # fmt: skip

NEXT = """\
Begun in my six. Next:
  1. cd 'my six'
  2. Complete engine.yaml: numbering, firing order, your instruments.
  3. Describe what is in the engine in parts/, one file for each part.
  4. Say that it is in there:
       logbook work --title "As bought" --fit "block-1 found" ...
  5. logbook specs. How a file is written stands in the README.
"""


def test_a_new_logbook_is_a_repository_with_all_that_is_needed(tmp_path: Path) -> None:
    assert typed("new", "my six", *OPTIONS, at=tmp_path) == (0, NEXT, "")
    folder = tmp_path / "my six"
    book = Logbook.open(folder)
    engine = book.record.engine
    assert (engine.name, engine.engine_number, engine.cylinders) == ('The "old" six: № 7', "0117", 6)
    assert (engine.arrangement, engine.show, engine.words) == ("vee", "imperial", "us")
    assert {name: counter.unit for name, counter in engine.counters.items()} == {"hour meter": "h"}
    assert "burette-50" in engine.instruments
    assert book.findings == ()
    assert git(folder, "log", "--format=%s") == 'Begin the logbook of The "old" six: № 7\n'
    assert git(folder, "ls-files").split() == [".gitignore", "engine.yaml", "specs.yaml"]
    assert git(folder, "status", "--porcelain") == ""
    assert {each.name for each in folder.iterdir() if each.is_dir()} == {
        ".git", "parts", "measurements", "changes", "tests", "plans", "notes", "files",
    }  # fmt: skip


def test_an_engine_of_which_nothing_is_known_prints_no_figures(tmp_path: Path) -> None:
    typed("new", "six", *OPTIONS, at=tmp_path)
    assert typed("specs", at=tmp_path / "six") == (0, f"""\
The "old" six: № 7, 0117
the record has no entries yet

{len(ALL_SPECS)} more cannot be worked out yet: logbook specs --all says what they need.
""", "")  # fmt: skip
    assert typed("timeline", at=tmp_path / "six") == (0, "", "")
    assert typed("check", at=tmp_path / "six").status == 0


def test_questions_ask_what_options_left_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(new, "_somebody_answers", lambda: True)
    ran = CliRunner().invoke(new.command, ["six"], input="Quarry six\n\nsix\n6\nwrong\nvee\nkm\n")
    assert ran.exit_code == 0, ran.output
    assert [line.split("?")[0] for line in ran.output.splitlines() if "?" in line] == [
        "What do you call the engine",
        "Engine number, as it is stamped (may stay empty)",
        "How many cylinders",
        "How many cylinders",
        "How do they stand",
        "How do they stand",
        "What does its counter count",
    ]
    engine = Logbook.open("six").record.engine
    assert (engine.name, engine.engine_number, engine.cylinders, engine.arrangement) == ("Quarry six", None, 6, "vee")


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda place: (place / "six").write_text(""), "six is a file; name a new folder"),
        (lambda place: typed("new", "six", *OPTIONS, at=place),
         "six holds a logbook already; open it with: logbook specs --in six"),
        (lambda place: (place / "engine.yaml").write_text("format: 1\n"),
         "six lies inside the logbook {place}; name a folder outside it"),
    ],
)  # fmt: skip
def test_a_place_that_is_taken(tmp_path: Path, make: object, says: str) -> None:
    make(tmp_path)  # type: ignore[operator]
    ran = typed("new", "six", *OPTIONS, at=tmp_path)
    assert (ran.status, ran.out, ran.told) == (2, "", [says.format(place=tmp_path)])


def test_many_engines_in_one_repository(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    for name in ("four", "six"):
        assert typed("new", name, *OPTIONS, at=tmp_path).status == 0
    assert not (tmp_path / "six/.git").exists()
    assert git(tmp_path, "ls-files").split() == [f"{name}/{file}" for name in ("four", "six")
                                                 for file in (".gitignore", "engine.yaml", "specs.yaml")]  # fmt: skip


@pytest.mark.parametrize("make", ["file", "full"])
def test_the_demonstration_wants_a_folder_of_its_own(tmp_path: Path, make: str) -> None:
    place = tmp_path / "six"
    if make == "full":
        place.mkdir()
        place = place / "mine.txt"
    place.write_text("mine")
    assert typed("demo", "six", at=tmp_path) == (2, "", "six is not an empty folder; name a new one\n")
    assert place.read_text() == "mine"


def test_the_demonstration_mixes_with_nobodys_commits(tmp_path: Path) -> None:
    git(tmp_path, "init", "-q", "-b", "main")
    ran = typed("demo", "six", at=tmp_path)
    assert (ran.status, ran.told) == (2, [f"six lies in the git repository {tmp_path}; name a folder outside it"])


ASKED = [("single", "1"), *((arrangement, str(number)) for arrangement in ("inline", "vee", "flat")
                            for number in range(2, 13))]  # fmt: skip


@pytest.mark.parametrize("show", ["metric", "imperial"])
@pytest.mark.parametrize(("arrangement", "cylinders"), ASKED)
def test_what_stands_there_as_a_remark_is_right_for_the_engine(arrangement: str, cylinders: str, show: str) -> None:
    text = engine_text(Answers("A", "1", cylinders, arrangement, "km", show)).decode()
    keys = "firing_order: [0-9]|banks|bank_angle|numbering"
    record = read_record({"engine.yaml": re.sub(rf"^# (?={keys})", "", text, flags=re.MULTILINE).encode()})
    assert record.findings == ()
    assert ("in" if show == "imperial" else "mm") in record.engine.instruments["caliper"].each.split()
    assert max(map(len, text.splitlines())) <= 120


def test_a_six_has_the_order_of_a_six_and_a_vee_of_eight_none() -> None:
    assert b"# firing_order: 1-5-3-6-2-4 " in engine_text(Answers("A", "1", "6", "inline", "km"))
    assert b"# firing_order: 1-2-3-4-5-6 " in engine_text(Answers("A", "1", "6", "vee", "km"))
    assert b"# firing_order: each cylinder" in engine_text(Answers("A", "1", "8", "vee", "km"))
    assert b"firing_order" not in engine_text(Answers("A", "1", "1", "single", "km"))


@pytest.mark.parametrize(("cylinders", "arrangement"), [("4", "single"), ("1", "vee"), ("1", "flat")])
def test_cylinders_that_cannot_stand_so(tmp_path: Path, cylinders: str, arrangement: str) -> None:
    ran = typed("new", "x", "--name", "A", "--cylinders", cylinders, "--arrangement", arrangement, "--counter", "h",
                at=tmp_path)  # fmt: skip
    assert ran.status == 2
    assert f"is not `{arrangement}`; correct `cylinders` or `arrangement`" in " ".join(ran.err.split())
    assert not (tmp_path / "x").exists()
