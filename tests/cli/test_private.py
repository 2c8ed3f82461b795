"""private/: saved by the same command into a repository of its own, and in no public history."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from keyboard import git, typed

from logbook.logbook import Logbook
from logbook.saving import save
from logbook.store import git_write
from logbook.store.disk import size

COSTS = "entry,amount,currency\n2024-03-02-head-b-on,129.50,EUR\nchanges/2024-01-06-bought,900,EUR\n"


def keep(folder: Path, path: str, text: str = "a secret") -> None:
    (folder / "private" / path).parent.mkdir(parents=True, exist_ok=True)
    (folder / "private" / path).write_text(text)


def kept(folder: Path) -> list[str]:
    return git(folder / "private", "ls-tree", "-r", "--name-only", "HEAD").splitlines()


def test_what_is_private_is_saved_alone(own: Path) -> None:
    head = git(own, "rev-parse", "HEAD")
    keep(own, "costs.csv", COSTS)
    keep(own, "receipts/parts/seller's letter.txt")
    keep(own, ".hidden")
    ran = typed("save", at=own)
    commit = git(own / "private", "rev-parse", "HEAD")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out == f"Saved 2 private files as commit {commit[:10]} of private/ alone.\nNothing else has changed.\n"
    assert (git(own, "rev-parse", "HEAD"), git(own, "status", "--porcelain")) == (head, "")
    assert kept(own) == ["costs.csv", "receipts/parts/seller's letter.txt"]
    assert git(own / "private", "log", "-1", "--format=%an|%B").rstrip() == "A Owner|Save what is private"
    assert git(own / "private", "status", "--porcelain", "--untracked-files=no") == ""
    assert typed("save", at=own).out == "Nothing has changed since the last save.\n"
    assert typed("check", at=own).status == 0


def test_each_goes_into_its_own_history(own: Path) -> None:
    keep(own, "costs.csv", COSTS)
    typed("save", at=own)
    (own / "private/costs.csv").unlink()
    keep(own, "who.txt")
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-knock.yaml").write_text("date: 2024-03-09\ntitle: Knock\n")
    assert typed("save", "--title", "Knock", at=own).status == 0
    assert (kept(own), git(own / "private", "log", "-1", "--format=%s")) == (["who.txt"], "Knock\n")
    assert git(own, "show", "--format=", "--name-only", "HEAD").split() == ["notes/2024-03-09-knock.yaml", "specs.yaml"]
    assert "private" not in git(own, "log", "--all", "--name-only", "--format=")


def test_nothing_that_is_worked_out_depends_on_it(own: Path) -> None:
    keep(own, "costs.csv", COSTS)
    keep(own, "parts/head-z.yaml", "kind: cylinder_head\nwhat: hidden\n")
    typed("save", at=own)
    before = (own / "specs.yaml").read_bytes(), Logbook.open(own).fingerprint
    shutil.rmtree(own / "private")
    assert typed("save", at=own).out == "Nothing has changed since the last save.\n"
    assert ((own / "specs.yaml").read_bytes(), Logbook.open(own).fingerprint) == before


def test_the_text_of_what_is_private_is_never_looked_at(own: Path) -> None:
    keep(own, "who.txt", "jo@example.org, tel. 0170 1234567, paid 685 EUR")
    assert typed("check", at=own).out == "Nothing to say: the record reads well.\n"


def test_an_undo_leaves_it(own: Path) -> None:
    keep(own, "who.txt")
    typed("work", "--title", "Oil", "--service", "oil", "--date", "2024-03-09", at=own)
    typed("undo", at=own)
    assert ((own / "private/who.txt").read_text(), kept(own)) == ("a secret", ["who.txt"])


def test_the_name_set_for_the_engine_alone_signs_both(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    git(own, "config", "user.name", "B Builder")
    keep(own, "who.txt")
    typed("save", at=own)
    assert git(own / "private", "log", "-1", "--format=%an") == "B Builder\n"


def test_a_beginning_that_was_interrupted_is_begun_again(own: Path) -> None:
    keep(own, "who.txt")
    (own / "private/.git").mkdir()
    (own / "private/.git/HEAD").write_text("ref: refs/heads/main\n")
    assert typed("save", at=own).status == 0
    assert kept(own) == ["who.txt"]


def test_killed_between_the_two_commits_the_next_save_does_the_rest(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    keep(own, "who.txt")

    def die(*arguments: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr("logbook.upkeep.private_saved", die)
        ran = typed("work", "--title", "Oil", "--service", "oil", "--date", "2024-03-09", at=own)
    assert ran.status == 2
    assert git(own, "log", "-1", "--format=%s") == "Oil\n"
    with monkeypatch.context() as patch:
        patch.setattr(git_write, "move_branch", die)
        typed("save", at=own)
    assert typed("save", at=own).status == 0
    assert kept(own) == ["who.txt"]
    assert not (own / "private/.git/logbook-journal.json").exists()


def _link(private: Path) -> None:
    (private / "link.txt").symlink_to("/etc/hostname")


def _folder_link(private: Path) -> None:
    (private / "link").symlink_to("/etc")


def _elsewhere(private: Path) -> None:
    (private / ".git").write_text("gitdir: /tmp\n")


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (_link, "private/link.txt: cannot be read (it is a symbolic link)"),
        (_folder_link, "private/link: cannot be read (it is a symbolic link)"),
        (_elsewhere, "leads to a repository elsewhere"),
    ],
)
def test_what_cannot_be_saved_is_told_and_stops_nothing_public(
    own: Path, spoil: Callable[[Path], None], says: str
) -> None:
    keep(own, "who.txt")
    spoil(own / "private")
    ran = typed("work", "--title", "Oil", "--service", "oil", "--date", "2024-03-09", at=own)
    told = ran.out.replace("\n  ", " ")
    assert ran.status == 1
    assert told.startswith("private/ could not be saved: ")
    assert says in told
    assert "Saved changes/2024-03-09-oil.yaml as commit" in told
    assert git(own, "status", "--porcelain") == ""


def test_a_private_that_is_a_link_is_the_owners_own_affair(own: Path, tmp_path: Path) -> None:
    (tmp_path / "vault").mkdir()
    (tmp_path / "vault/costs.csv").write_text("nonsense")
    (own / "private").symlink_to(tmp_path / "vault")
    assert typed("save", at=own).out == "Nothing has changed since the last save.\n"
    assert typed("check", at=own).status == 0
    assert sorted(path.name for path in (tmp_path / "vault").iterdir()) == ["costs.csv"]


def test_the_owners_lines_of_gitignore_are_kept(own: Path) -> None:
    (own / ".gitignore").write_text("*.log\n!keep.log")
    git(own, "commit", "-qam", "Mine")
    keep(own, "who.txt")
    ran = typed("save", at=own)
    assert "Saved .gitignore as commit" in ran.out
    assert (own / ".gitignore").read_text() == "*.log\n!keep.log\n/private/\n"
    assert git(own, "status", "--porcelain", "--untracked-files=all") == ""


@pytest.mark.parametrize("line", ["/private/", "private", "private/", "/private"])
def test_a_gitignore_that_does_is_left_alone(own: Path, line: str) -> None:
    (own / ".gitignore").write_text(f"*.log\n{line}\n")
    save(own)
    assert (own / ".gitignore").read_text() == f"*.log\n{line}\n"


def test_a_folder_without_gitignore_gets_one(own: Path) -> None:
    (own / ".gitignore").unlink()
    save(own)
    assert "/private/\n" in (own / ".gitignore").read_text()
    assert git(own, "status", "--porcelain") == ""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("what,price\n", ["1:1: the first line must name the columns"]),
        (COSTS + "2024-09-09-nothing,5,EUR\n", ["4:1: there is no entry 2024-09-09-nothing"]),
        (COSTS + "2024-01-06-bought,12,50,EUR\n", ["4:1: there are 4 columns, not 3"]),
        (COSTS + "2024-01-06-bought,about 5,EUR\n\n", ["4:19: `about 5` is no amount"]),
        (COSTS + f"2024-01-06-bought,{'9' * 400},EUR\n", [f"4:19: `{'9' * 20}…` is no amount"]),
        (COSTS + f"{'x' * 200_000},5,EUR\n", ["4:1: there are 1 columns, not 3"]),
        (COSTS + "2024-01-06-bought,5,euro\n", ["4:21: `euro` is no currency"]),
        (b"\xff".decode("latin-1"), ["1:1: the first line must name the columns"]),
        (COSTS, []),
    ],
)
def test_costs_are_looked_at_by_check_only(own: Path, text: str, told: list[str]) -> None:
    keep(own, "costs.csv", text)
    assert typed("save", at=own).status == 0
    ran = typed("check", at=own)
    assert ran.status == int(bool(told))
    found = [line for line in ran.out.replace("\n  ", " ").splitlines() if line.startswith("private/costs.csv")]
    assert [line.removeprefix("private/costs.csv:").replace("doubtful: ", "").split("   ")[0] for line in found] == told


def test_costs_that_are_not_utf_8(own: Path) -> None:
    keep(own, "costs.csv")
    (own / "private/costs.csv").write_bytes(b"\xff\xfe")
    assert "private/costs.csv:1:1: doubtful: the file is not UTF-8" in typed("check", at=own).out
    assert size(own / "private/costs.csv") == 2
