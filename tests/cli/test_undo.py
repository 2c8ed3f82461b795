"""`undo`: one more commit that takes back the newest change; nothing that was typed is lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from keyboard import git, typed

from logbook.logbook import Logbook
from logbook.saving import save
from logbook.store import files
from logbook.store.fingerprint import folder_fingerprint

SHEET = "measurements/2024-01-13-on-the-bench.yaml"
OIL = "work", "--title", "Oil", "--service", "oil", "--date", "2024-03-09"


def trailer(folder: Path, key: str, commit: str = "HEAD") -> str:
    return git(folder, "log", "-1", f"--format=%(trailers:key={key},valueonly)", commit).strip()


def head(folder: Path) -> str:
    return git(folder, "rev-parse", "HEAD").strip()


def amend(folder: Path, old: str, new: str) -> None:
    sheet = folder / SHEET
    assert old in sheet.read_text()
    sheet.write_text(sheet.read_text().replace(old, new))


def test_what_a_change_made_is_removed_and_what_it_changed_goes_back(own: Path) -> None:
    before, ratio = files.read_public(own), Logbook.open(own).at().specs["mean_compression_ratio"].values
    amend(own, "26.0 / 26.1", "25.0 / 25.1")
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-knock.yaml").write_text("date: 2024-03-09\ntitle: Knock\n")
    (own / "parts/head-c.yaml").write_text("kind: cylinder_head\nwhat: a third head\n")
    assert typed("save", at=own).status == 0
    change, its_fingerprint = head(own), folder_fingerprint(own)
    ran = typed("undo", at=own)
    assert (ran.status, ran.err) == (0, "")
    assert f"Nothing is lost. What was taken back: git show {change[:10]}\n" in ran.out
    assert "  compression ratio, mean of the cylinders\n" in ran.out
    assert files.read_public(own) == before
    assert Logbook.open(own).at().specs["mean_compression_ratio"].values == ratio
    assert (trailer(own, "Undoes"), trailer(own, "Record-Fingerprint")) == (change, folder_fingerprint(own))
    assert its_fingerprint == trailer(own, "Record-Fingerprint", change)
    assert git(own, "status", "--porcelain") == ""
    assert "Knock" in git(own, "show", f"{change}:notes/2024-03-09-knock.yaml")


def test_a_file_that_the_change_deleted_comes_back(own: Path) -> None:
    before = files.read_public(own)
    (own / "changes/2024-03-02-head-b-on.yaml").unlink()
    typed("save", at=own)
    typed("undo", at=own)
    assert files.read_public(own) == before


def test_undoing_twice_goes_one_further_back_and_an_undo_is_not_undone(own: Path) -> None:
    before, ids = files.read_public(own), []
    for number in (1, 2, 3):
        typed(*OIL, at=own)
        ids.append(head(own))
        if number == 2:
            typed("undo", at=own)
    for _ in range(2):
        assert typed("undo", at=own).status == 0
    assert files.read_public(own) == before
    undone = git(own, "log", "--format=%(trailers:key=Undoes,valueonly)").split()
    assert undone == [ids[0], ids[2], ids[1]]


def test_there_is_an_end(own: Path) -> None:
    changes = int(git(own, "rev-list", "--count", "HEAD"))
    for _ in range(changes - 1):
        assert typed("undo", at=own).status == 0
    last, ran = head(own), typed("undo", at=own)
    assert (ran.status, ran.out) == (2, "")
    assert "began this logbook: there is nothing before it to go back to." in ran.told[0]
    assert head(own) == last


def test_a_later_edit_by_hand_refuses_and_shows_both(own: Path) -> None:
    amend(own, "26.0 / 26.1", "25.0 / 25.1")
    typed("save", at=own)
    amend(own, "25.0 / 25.1", "24.0 / 24.1")
    last, edited = head(own), (own / SHEET).read_bytes()
    ran = typed("undo", at=own)
    assert (ran.status, ran.out) == (2, "")
    shown = " ".join(ran.err.split())
    assert f"'On the bench' cannot be taken back: what it wrote was edited since. Nothing was written. {SHEET}" in shown
    assert "- - {part: head-b, with: burette, values: {chamber_volume: 25.0 / 25.1 cc}}" in shown
    assert "+ - {part: head-b, with: burette, values: {chamber_volume: 24.0 / 24.1 cc}}" in shown
    assert (head(own), (own / SHEET).read_bytes()) == (last, edited)
    assert typed("save", at=own).status == 0
    assert typed("undo", at=own).status == 0
    assert "25.0 / 25.1" in (own / SHEET).read_text()


@pytest.mark.parametrize(
    ("later", "shown"),
    [
        (lambda sheet: sheet.unlink(), "+ (deleted)"),
        (lambda sheet: sheet.write_bytes(b"\0"), "(not a text)"),
        (lambda sheet: sheet.write_bytes(sheet.read_bytes().replace(b"\n", b"\r\n")), "(its line ends only)"),
        (lambda sheet: sheet.write_text("".join(f"line {number}\n" for number in range(39))), "… and 37 more lines"),
    ],
)
def test_how_a_later_edit_is_shown(own: Path, later: object, shown: str) -> None:
    amend(own, "26.0 / 26.1", "25.0 / 25.1")
    typed("save", at=own)
    assert callable(later)
    later(own / SHEET)
    ran = typed("undo", at=own)
    assert ran.status == 2
    assert f"  {shown}\n" in ran.err, ran.err


def test_an_edit_of_another_file_stays_unsaved(own: Path) -> None:
    typed(*OIL, at=own)
    amend(own, "26.0 / 26.1", "25.0 / 25.1")
    edited = (own / SHEET).read_bytes()
    ran = typed("undo", at=own)
    assert (ran.status, ran.err) == (0, "")
    assert f"Edited by hand, not saved, and left as it is: {SHEET}" in " ".join(ran.out.split())
    assert git(own, "status", "--porcelain") == f" M {SHEET}\n"
    assert (own / SHEET).read_bytes() == edited


def test_a_file_put_back_by_hand_already_is_no_later_edit(own: Path) -> None:
    was = (own / SHEET).read_bytes()
    amend(own, "26.0 / 26.1", "25.0 / 25.1")
    typed("save", at=own)
    (own / SHEET).write_bytes(was)
    assert typed("undo", at=own).status == 0
    assert (git(own, "status", "--porcelain"), (own / SHEET).read_bytes()) == ("", was)


def test_a_commit_of_the_users_is_a_change_too_and_other_files_are_none(own: Path) -> None:
    before = files.read_public(own)
    (own / "parts/head-c.yaml").write_text("kind: cylinder_head\nwhat: a third head\n")
    (own / "letter.txt").write_text("to the shop")
    git(own, "add", "parts", "letter.txt")
    git(own, "commit", "-qm", "By hand")
    (own / "letter.txt").write_text("to the shop, again")
    git(own, "commit", "-qam", "Only the letter")
    assert "Took back 'By hand' (parts/head-c.yaml)" in typed("undo", at=own).out
    assert files.read_public(own) == before
    assert git(own, "ls-files", "letter.txt") == "letter.txt\n"


def test_a_merge_is_left_to_git(own: Path) -> None:
    git(own, "checkout", "-qb", "other")
    typed(*OIL, at=own)
    git(own, "checkout", "-q", "main")
    git(own, "commit", "-q", "--allow-empty", "-m", "Meanwhile")
    git(own, "merge", "-q", "--no-ff", "-m", "Two lines", "other")
    last, ran = head(own), typed("undo", at=own)
    assert (ran.status, head(own)) == (2, last)
    assert f"git revert -m 1 {last[:10]}" in " ".join(ran.err.split())


def test_an_engine_in_a_shops_repository_undoes_its_own_changes_only(tmp_path: Path, own: Path) -> None:
    shop = tmp_path / "shop"
    shop.mkdir()
    git(shop, "init", "-qb", "main")
    for name in ("a", "b"):
        (shop / name).mkdir()
        for path, data in files.read_public(own).items():
            (shop / name / path).parent.mkdir(exist_ok=True)
            (shop / name / path).write_bytes(data)
        save(shop / name, f"Engine {name}")
    typed(*OIL, at=shop / "a")
    typed(*OIL, at=shop / "b")
    assert typed("undo", at=shop / "a").status == 0
    assert not (shop / "a/changes/2024-03-09-oil.yaml").exists()
    assert (shop / "b/changes/2024-03-09-oil.yaml").exists()
    assert git(shop, "status", "--porcelain") == ""


def test_specs_that_were_only_worked_out_anew_are_no_change(own: Path) -> None:
    before = files.read_public(own)
    typed(*OIL, at=own)
    change = head(own)
    (own / "specs.yaml").write_text("spoilt")
    git(own, "commit", "-qam", "Spoil")
    assert typed("save", at=own).status == 0
    assert typed("undo", at=own).status == 0
    assert (trailer(own, "Undoes"), files.read_public(own)) == (change, before)
