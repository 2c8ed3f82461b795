"""Slips at the keyboard: each gets one plain answer that says what is wrong and what to do, status 2, and no file."""

from __future__ import annotations

import os
import shlex
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from keyboard import Ran, git, typed

OIL = ("work", "--title", "Oil", "--service", "oil")

_SHEET = (Path(__file__).parent / "slips.txt").read_text().split("$ logbook ")[1:]
SLIPS = [(line, says) for line, says in (slip.strip().split("\n") for slip in _SHEET) if not says[0].isdigit()]
FINDINGS = [(line, says) for line, says in (slip.strip().split("\n") for slip in _SHEET) if says[0].isdigit()]

#: What no line of a sheet can hold.
SIGNS = [
    ("two\nlines", "this goes over several lines; write one, and the rest into --note"),
    ("red \x1b[31m", "there is a control character in it; write plain text"),
    ("\udcff", "there are bytes in it that are not UTF-8; type it in a UTF-8 terminal"),
]


def refused(folder: Path, words: Sequence[str]) -> Ran:
    """The answer to a slip, which changed nothing."""
    before = git(folder, "rev-parse", "HEAD")
    ran = typed(*words, at=folder)
    assert (ran.status, ran.out) == (2, "")
    assert git(folder, "rev-parse", "HEAD") == before
    assert git(folder, "status", "--porcelain") == ""
    return ran


@pytest.mark.parametrize(("line", "says"), SLIPS)
def test_a_slip_gets_a_sentence(twin: Path, line: str, says: str) -> None:
    assert refused(twin, shlex.split(line)).told[-1].removeprefix("Error: ") == says


@pytest.mark.parametrize(("line", "says"), FINDINGS)
def test_a_wrong_entry_gets_its_finding_and_is_given_back(twin: Path, line: str, says: str) -> None:
    told, *rest = refused(twin, [*shlex.split(line), "--date", "2024-03-09"]).told
    assert told.split(".yaml:")[-1] == says
    assert any(each.startswith("Nothing was saved. Mend this, or") for each in rest)
    assert "date: 2024-03-09" in rest


@pytest.mark.parametrize(("title", "says"), SIGNS)
def test_signs_that_no_file_and_no_terminal_can_hold(twin: Path, title: str, says: str) -> None:
    ran = refused(twin, [*OIL, "--title", title])
    assert ran.told[-1] == f"Error: Invalid value for '--title': {says}"


def test_several_mistakes_of_a_new_engine_are_told_together(tmp_path: Path) -> None:
    ran = typed("new", "x", "--name", "Rotary", "--cylinders", "17", "--arrangement", "inline", "--counter", "km",
                at=tmp_path)  # fmt: skip
    assert (ran.status, ran.out) == (2, "")
    assert ran.err.endswith("Error: `17` is not among 1 to 16; correct the number\nNothing was made.\n")
    assert not (tmp_path / "x").exists()


def film(place: Path) -> None:
    place.touch()
    os.truncate(place, 2**31)


@pytest.mark.parametrize(
    ("path", "make", "says"),
    [
        ("notes", Path.touch, "is a file where a folder belongs"),
        ("files/film.mov", film, "is larger than 20 MiB"),
        ("parts/head-z.yaml", lambda place: place.symlink_to("/etc/hostname"), "is a symbolic link"),
    ],
)
def test_an_odd_file_stops_a_command_before_it_writes(
    own: Path, path: str, make: Callable[[Path], None], says: str
) -> None:
    (own / path).parent.mkdir(exist_ok=True)
    make(own / path)
    ran = typed(*OIL, "--date", "2024-03-09", at=own)
    assert ran.status == 2
    assert ran.told[0].startswith(f"{path}: {says}; ")
    assert "  - service: oil" in ran.err
    assert typed("check", at=own).out.startswith(f"{path}:1:1: wrong: {says}\n")


@pytest.mark.parametrize(
    ("make_unready", "says"),
    [
        (lambda folder: (folder / ".git/index.lock").touch(), "index.lock is "),
        (lambda folder: git(folder, "checkout", "-q", "--detach"), "no branch checked out (detached head)"),
        (lambda folder: (folder / ".git").rename(folder / "gone"), "is in no git repository; make it one: git init"),
    ],
)
def test_a_git_that_is_not_ready_is_named_and_the_entry_given_back(
    own: Path, make_unready: Callable[[Path], None], says: str
) -> None:
    make_unready(own)
    ran = typed(*OIL, "--date", "2024-03-09", at=own)
    assert (ran.status, ran.out) == (2, "")
    assert says in ran.told[0]
    assert "  - service: oil" in ran.err
    assert not (own / "changes/2024-03-09-oil.yaml").exists()


def test_reading_needs_no_git(own: Path) -> None:
    (own / ".git").rename(own / "gone")
    for command in ("specs", "check", "timeline", "timeline --json", "compare start"):
        assert typed(*command.split(), at=own).status == 0


def test_nobody_begins_no_logbook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "nobody").mkdir()
    monkeypatch.setenv("HOME", str(tmp_path / "nobody"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "nobody"))
    words = "new", "x", "--name", "X", "--cylinders", "1", "--arrangement", "single", "--counter", "h"
    for _ in range(2):  # the same call again gets the same answer: nothing is in the way
        ran = typed(*words, at=tmp_path)
        assert (ran.status, ran.out) == (2, "")
        assert ran.told[0].startswith("Git does not know who writes; tell it once with these two commands:")
        assert not (tmp_path / "x/engine.yaml").exists()
