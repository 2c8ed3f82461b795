"""The demonstration: its commits are the same wherever it is made, and what its entries cost is kept apart."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from keyboard import at_home, git, typed
from lives import EXAMPLE

from logbook import demo as demonstration

COSTS = "private/costs.csv"


def ids(folder: Path) -> list[str]:
    return git(folder, "log", "--reverse", "--format=%H").split()


def test_sixteen_commits_with_the_same_ids_whoever_makes_them_and_where(
    demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of the second one only the beginning, which is enough: every later id rests on it."""
    at_home(monkeypatch, tmp_path)
    (tmp_path / ".gitconfig").write_text("[user]\n\tname = B Builder\n[init]\n\tdefaultBranch = other\n")
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    monkeypatch.setattr(demonstration, "LIFE", demonstration.LIFE[:2])
    assert typed("demo", str(tmp_path / "elsewhere")).status == 0
    assert len(ids(demo)) == 16
    assert ids(tmp_path / "elsewhere") == ids(demo)[:2]
    private = ids(tmp_path / "elsewhere" / "private")
    assert private == ids(demo / "private")[:2]


def test_the_costs_are_in_a_repository_of_their_own_as_they_were_spent(demo: Path) -> None:
    assert "private" not in git(demo, "log", "--all", "--name-only", "--format=")
    assert "/private/" in git(demo, "show", f"{ids(demo)[0]}:.gitignore").splitlines()
    assert git(demo, "status", "--porcelain", "--untracked-files=all") == ""
    bought, tuned, *_, last = ids(demo / "private")
    assert git(demo / "private", "show", f"{tuned}:costs.csv").splitlines()[1:] == [
        "changes/2016-04-09-bought-running,450.00,EUR",
        "tests/2016-05-21-baseline,120.00,EUR",
    ]
    assert git(demo / "private", "show", f"{last}:costs.csv") == (EXAMPLE / COSTS).read_text()
    assert git(demo / "private", "log", "-1", "--format=%as %an %s", bought) == (
        "2016-04-09 owner (demonstration) Bought running, still in the lorry\n"
    )


def test_what_it_all_cost(demo: Path) -> None:
    """The invented sum."""
    lines = list(csv.DictReader((demo / COSTS).read_text().splitlines()))
    assert sum(float(line["amount"]) for line in lines) == pytest.approx(3230)


def test_the_check_has_no_word_about_them(demo: Path) -> None:
    ran = typed("check", at=demo)
    assert "private" not in ran.out
    assert "costs" not in ran.out
