"""One commit of our own paths or nothing, beside a user who works with git himself."""

import os
import subprocess
import sys
from collections.abc import Callable
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

from logbook.errors import CannotRead, CannotWrite
from logbook.store import disk, fingerprint, git_read, git_write, identity

Git = Callable[..., str]


def subjects(folder: Path) -> list[str]:
    return [written.subject for written in git_read.history(folder)]


def test_the_first_commit_of_a_new_folder(tmp_path: Path, git: Git) -> None:
    folder = tmp_path / "deep" / "engine"
    assert git_write.create(folder)
    assert not git_write.create(folder)
    assert (folder / ".gitignore").read_text() == "/private/\n.*.logbook-new\n"
    (folder / "engine.yaml").write_text("format: 1")
    number = git_write.commit(folder, git_read.edited(folder), "Take up the engine")
    assert git(folder, "log", "--format=%H %D").split() == [number, "HEAD", "->", "main"]
    assert git(folder, "status", "--porcelain") == ""
    assert list((folder / ".git" / "hooks").glob("*")) == []


def test_a_new_engine_in_a_shops_repository_makes_no_other(tmp_path: Path, git: Git) -> None:
    git(tmp_path, "init", "-q", "-b", "shop")
    assert not git_write.create(tmp_path / "engines" / "six")
    assert git_write.commit(tmp_path / "engines" / "six", {"engine.yaml": b"six"}, "Six")
    assert git(tmp_path, "ls-files").split() == ["engines/six/engine.yaml"]
    assert not (tmp_path / "engines" / "six" / ".git").exists()


def test_what_a_command_writes_is_on_the_disk_in_the_commit_and_in_the_index(engine: Path, git: Git) -> None:
    assert git_write.commit(engine, {"notes/a.yaml": b"one\r\n", "parts/head-a.yaml": None}, "Work")
    assert (engine / "notes" / "a.yaml").read_bytes() == b"one\r\n"
    assert not (engine / "parts" / "head-a.yaml").exists()
    assert git(engine, "status", "--porcelain") == ""
    assert git(engine, "fsck", "--strict") == ""
    assert not (engine / ".git" / "logbook-journal.json").exists()


def test_a_hand_edit_is_saved_as_it_stands(engine: Path, git: Git) -> None:
    (engine / "engine.yaml").write_bytes(b"edited")
    before = (engine / "engine.yaml").stat()
    assert git_write.commit(engine, {**git_read.edited(engine), "specs.yaml": b"new"}, "Save")
    assert (engine / "engine.yaml").stat().st_ino == before.st_ino
    assert (engine / "specs.yaml").read_bytes() == b"new"
    assert git(engine, "status", "--porcelain") == ""


def test_nothing_to_change_is_no_commit_but_a_spoilt_specs_file_is_put_right(engine: Path) -> None:
    (engine / "specs.yaml").write_text("<<<<<<< HEAD")
    assert git_write.commit(engine, {"specs.yaml": b"compression_ratio: 9.2\n"}, "Save") is None
    assert (engine / "specs.yaml").read_bytes() == b"compression_ratio: 9.2\n"
    assert subjects(engine) == ["Take up the engine"]
    assert git_write.commit(engine, {}, "Save") is None


def test_a_spoilt_specs_file_goes_into_the_next_commit_mended(engine: Path, git: Git) -> None:
    (engine / "specs.yaml").write_text("<<<<<<< HEAD")
    assert git_write.commit(engine, {"specs.yaml": b"compression_ratio: 9.2\n", "notes/a.yaml": b"a"}, "Note")
    assert git(engine, "status", "--porcelain") == ""


def test_the_fingerprint_is_that_of_the_commit_not_of_the_disk(engine: Path, tmp_path: Path, git: Git) -> None:
    (engine / "engine.yaml").write_text("half an edit")
    assert git_write.commit(engine, {"notes/a.yaml": b"one"}, "Note\n\nwith body", trailers={"Undoes": "x"})
    trailers = git_read.history(engine)[-1].trailers
    git(tmp_path, "clone", "-q", str(engine), "copy")
    assert trailers == {"Undoes": "x", "Record-Fingerprint": fingerprint.folder_fingerprint(tmp_path / "copy")}
    assert git_read.status(engine) == ["engine.yaml"]


def test_what_the_user_has_staged_stays_staged(engine: Path, git: Git) -> None:
    (engine / "README.md").write_text("his")
    git(engine, "add", "README.md")
    git(engine, "mv", "engine.yaml", "renamed.txt")
    git(engine, "restore", "--staged", "engine.yaml", "renamed.txt")
    os.rename(engine / "renamed.txt", engine / "engine.yaml")
    assert git_write.commit(engine, {"notes/a.yaml": b"one"}, "Ours")
    assert git(engine, "status", "--porcelain") == "A  README.md\n"
    git(engine, "commit", "-q", "-m", "His")
    assert git(engine, "show", "HEAD", "--format=", "--name-only").split() == ["README.md"]
    assert git(engine, "show", "HEAD:notes/a.yaml") == "one"


def test_our_path_staged_with_other_content_is_refused_by_name(engine: Path, git: Git) -> None:
    (engine / "engine.yaml").write_text("staged")
    git(engine, "add", "engine.yaml")
    (engine / "engine.yaml").write_text("edited again")
    with pytest.raises(CannotWrite, match=r"other content .*: engine\.yaml; .* git restore --staged engine\.yaml"):
        git_write.commit(engine, {"engine.yaml": b"edited again", "notes/a.yaml": b"a"}, "Save")
    assert git(engine, "show", ":engine.yaml") == "staged"
    assert not (engine / "notes").exists()
    assert subjects(engine) == ["Take up the engine"]


def test_our_path_staged_as_it_is_to_be_written_is_fine(engine: Path, git: Git) -> None:
    (engine / "engine.yaml").write_text("staged")
    (engine / "parts" / "new.yaml").write_text("new")
    git(engine, "add", "engine.yaml")
    git(engine, "add", "-N", "parts/new.yaml")
    assert git_write.commit(engine, git_read.edited(engine), "Save")
    assert git(engine, "status", "--porcelain") == ""


def test_a_staged_deletion_of_our_path_is_refused(engine: Path, git: Git) -> None:
    git(engine, "rm", "-q", "--cached", "engine.yaml")
    with pytest.raises(CannotWrite, match="Staged in git"):
        git_write.commit(engine, {"engine.yaml": b"new"}, "Save", seen={"engine.yaml": b"new"})


def test_somebodys_work_on_the_disk_is_never_overwritten(engine: Path) -> None:
    (engine / "engine.yaml").write_text("work of an evening")
    (engine / "notes").mkdir()
    (engine / "notes" / "a.yaml").write_text("already here")
    (engine / "parts" / "head-a.yaml").unlink()
    for path, says in (
        ("engine.yaml", "edited by hand and not saved"),
        ("notes/a.yaml", "edited by hand"),
        ("parts/head-a.yaml", "deleted by hand"),
    ):
        with pytest.raises(CannotWrite, match=f"{path} has been {says}"):
            git_write.commit(engine, {path: b"ours"}, "Ours")
    with pytest.raises(CannotWrite, match="edited by hand"):
        git_write.commit(engine, {"engine.yaml": None}, "Ours")
    assert (engine / "engine.yaml").read_text() == "work of an evening"


def test_what_the_caller_has_read_may_be_replaced(engine: Path) -> None:
    (engine / "engine.yaml").write_text("by hand")
    assert git_write.commit(engine, {"engine.yaml": b"by hand, and more"}, "Edit", seen={"engine.yaml": b"by hand"})
    assert (engine / "engine.yaml").read_bytes() == b"by hand, and more"


def test_the_work_tree_can_be_left_alone(engine: Path, git: Git) -> None:
    (engine / "engine.yaml").write_text("by hand")
    assert git_write.commit(engine, {"engine.yaml": b"other"}, "Only in git", write_files=False)
    assert (engine / "engine.yaml").read_text() == "by hand"
    assert git(engine, "show", "HEAD:engine.yaml") == "other"


def test_the_executable_bit_of_the_last_commit_is_kept(engine: Path, git: Git) -> None:
    git(engine, "update-index", "--chmod=+x", "engine.yaml")
    git(engine, "commit", "-q", "-m", "odd")
    (engine / "engine.yaml").chmod(0o755)
    assert git_write.commit(engine, {"engine.yaml": b"new"}, "New")
    assert git(engine, "ls-tree", "HEAD", "engine.yaml").startswith("100755")
    assert git(engine, "status", "--porcelain") == ""


def test_a_link_in_the_last_commit_is_refused(engine: Path, git: Git) -> None:
    (engine / "parts" / "link.yaml").symlink_to("head-a.yaml")
    git(engine, "add", ".")
    git(engine, "commit", "-q", "-m", "link")
    with pytest.raises(CannotWrite, match="is a link or a folder"):
        git_write.commit(engine, {"parts/link.yaml": b"x"}, "X")


@pytest.mark.parametrize("path", ["../x", "/tmp/x", ".git/config", "private/costs.csv", "a\nb"])
def test_a_path_that_leads_out_is_never_committed(engine: Path, path: str) -> None:
    with pytest.raises(CannotRead):
        git_write.commit(engine, {path: b"x"}, "X")


@pytest.mark.parametrize("message", ["", "  \n", "a\0b"])
def test_a_commit_needs_a_message(engine: Path, message: str) -> None:
    with pytest.raises(CannotWrite, match="needs a message"):
        git_write.commit(engine, {"notes/a.yaml": b"a"}, message)


def test_dates_are_kept_with_their_zone(engine: Path, git: Git) -> None:
    day = datetime(1998, 7, 4, 9, 30, tzinfo=timezone(timedelta(hours=-5, minutes=-30)))
    git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note", author_date=day)
    assert git(engine, "log", "-1", "--format=%aI %cI").split() == ["1998-07-04T09:30:00-05:30"] * 2


def _detach(engine: Path, git: Git) -> None:
    git(engine, "switch", "-q", "--detach")


def _merge(engine: Path, git: Git) -> None:
    git(engine, "switch", "-q", "-c", "side")
    git(engine, "commit", "-q", "--allow-empty", "-m", "side")
    git(engine, "switch", "-q", "main")
    git(engine, "merge", "-q", "--no-ff", "--no-commit", "side")


def _conflict(engine: Path, git: Git, command: str) -> None:
    git(engine, "switch", "-q", "-c", "side")
    for branch in ("side", "main"):
        git(engine, "switch", "-q", branch)
        (engine / "README.md").write_text(branch)
        git(engine, "add", ".")
        git(engine, "commit", "-q", "-m", branch)
    git(engine, command, "side", status=1)


def _pick(engine: Path, git: Git) -> None:
    _conflict(engine, git, "cherry-pick")


def _rebase(engine: Path, git: Git) -> None:
    _conflict(engine, git, "rebase")


def _index_lock(engine: Path, git: Git) -> None:
    (engine / ".git" / "index.lock").touch()
    os.utime(engine / ".git" / "index.lock", (0, 0))


def _branch_lock(engine: Path, git: Git) -> None:
    (engine / ".git" / "refs" / "heads" / "main.lock").touch()


def _nobody(engine: Path, git: Git) -> None:
    (Path.home() / ".gitconfig").unlink()


def _bare_setting(engine: Path, git: Git) -> None:
    git(engine, "config", "core.bare", "true")


def _worktree_setting(engine: Path, git: Git) -> None:
    git(engine, "config", "core.worktree", "/elsewhere")


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (_detach, "no branch checked out .* git switch main"),
        (_merge, "A merge is in progress .* git merge --abort"),
        (_pick, "A cherry-pick is in progress"),
        (_rebase, "detached head|A rebase is in progress"),
        (_index_lock, r"index\.lock is \d+ days old: .* delete that file"),
        (_branch_lock, r"main\.lock is .* old"),
        (_nobody, r"git config --global user\.name .*\n  git config --global user\.email"),
        (_bare_setting, "git config core.bare false"),
        (_worktree_setting, "git config --unset core.worktree"),
    ],
)
def test_a_repository_that_is_not_ready_is_one_sentence(engine: Path, git: Git, spoil: object, says: str) -> None:
    spoil(engine, git)  # type: ignore[operator]
    head, index = git(engine, "rev-parse", "HEAD"), git(engine, "--no-optional-locks", "ls-files", "-s")
    with pytest.raises(CannotWrite, match=says) as caught:
        git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")
    _, *commands = str(caught.value).splitlines()  # one sentence; commands to copy stand on lines of their own
    assert all(line.startswith("  git ") for line in commands)
    assert not (engine / "notes").exists()
    assert git(engine, "rev-parse", "HEAD") == head
    assert git(engine, "--no-optional-locks", "ls-files", "-s") == index


def test_a_lock_of_gits_is_never_deleted(engine: Path, git: Git) -> None:
    _index_lock(engine, git)
    with pytest.raises(CannotWrite):
        git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")
    assert (engine / ".git" / "index.lock").exists()


@pytest.mark.skipif(os.name == "nt" or os.geteuid() != 0, reason="only root can give a folder away")
def test_another_users_repository_is_read_but_not_written_unless_trusted(engine: Path, git: Git) -> None:
    for place in (engine, engine / ".git"):
        os.chown(place, 12345, 12345)
    assert len(git_read.history(engine)) == 1
    with pytest.raises(CannotWrite, match=r"dubious ownership.*safe\.directory"):
        git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")
    git(engine.parent, "config", "--global", "--add", "safe.directory", str(engine))
    assert git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")


def test_identity_may_be_the_repositorys_own_or_the_environments(
    engine: Path, git: Git, monkeypatch: pytest.MonkeyPatch
) -> None:
    git(engine, "config", "user.name", "Shop <one>")
    git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")
    monkeypatch.setenv("GIT_AUTHOR_NAME", "Apprentice é")
    git_write.commit(engine, {"notes/b.yaml": b"b"}, "Note")
    assert git(engine, "log", "-2", "--format=%an,%cn").split("\n")[:2] == [
        "Apprentice é,Shop one",
        "Shop one,Shop one",
    ]


def test_somebody_else_who_commits_at_the_same_moment_wins(
    engine: Path, git: Git, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = git_write.write_journal

    def commits_first(repository: object, entry: object) -> None:
        git(engine, "commit", "-q", "--allow-empty", "-m", "His")
        real(repository, entry)  # type: ignore[arg-type]

    monkeypatch.setattr(git_write, "write_journal", commits_first)
    with pytest.raises(CannotWrite, match=r"Somebody else committed .* Run this again"):
        git_write.commit(engine, {"notes/a.yaml": b"a", "engine.yaml": b"new"}, "Ours")
    monkeypatch.undo()
    assert subjects(engine) == ["Take up the engine", "His"]
    assert git(engine, "status", "--porcelain") == ""
    assert not list(engine.rglob(f"*{disk.TEMPORARY}"))


def test_two_writers_at_once_both_end_up_in_the_history(engine: Path, git: Git) -> None:
    program = """
import sys; from pathlib import Path; from logbook.store import git_write
for number in range(4): git_write.commit(Path(sys.argv[1]), {f"notes/{sys.argv[2]}-{number}.yaml": b"x"}, sys.argv[2])
"""
    writers = [subprocess.Popen([sys.executable, "-c", program, str(engine), name]) for name in ("a", "b")]
    assert [writer.wait(timeout=60) for writer in writers] == [0, 0]
    assert sorted(subjects(engine)[1:]) == ["a"] * 4 + ["b"] * 4
    assert git(engine, "status", "--porcelain") == ""


def test_a_full_disk_leaves_the_record_as_it_was(engine: Path, git: Git, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as disk_full:  # the name to commit under must stay known
        disk_full.setattr(os, "fsync", full)
        with pytest.raises(CannotWrite, match=r"Nothing was written .* No space left"):
            git_write.commit(engine, {"notes/a.yaml": b"a", "engine.yaml": b"new"}, "Ours")
    assert git(engine, "status", "--porcelain") == ""
    assert not list(engine.rglob(f"*{disk.TEMPORARY}"))
    assert git_write.commit(engine, {"engine.yaml": b"new"}, "Again")


def test_without_git_nothing_is_written_and_a_sentence_says_so(engine: Path, tmp_path: Path) -> None:
    program = """
import sys; from pathlib import Path; from logbook.errors import LogbookError; from logbook.store import git_write
try: git_write.commit(Path(sys.argv[1]), {"notes/a.yaml": b"x"}, "Note")
except LogbookError as error: print(type(error).__name__, error)
"""
    environment = {**os.environ, "PATH": str(tmp_path)}
    printed = subprocess.run(
        [sys.executable, "-c", program, str(engine)], env=environment, capture_output=True, text=True, check=True
    )
    assert printed.stdout.startswith("CannotWrite Nothing was written")
    assert "git was not found; install it" in printed.stdout
    assert not (engine / "notes").exists()


def test_a_split_index_is_kept_right(engine: Path, git: Git) -> None:
    git(engine, "update-index", "--split-index")
    git(engine, "config", "core.splitIndex", "true")
    assert git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")
    assert git(engine, "status", "--porcelain") == ""


def test_the_reflog_tells_of_it(engine: Path, git: Git) -> None:
    git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")
    assert len(git(engine, "reflog", "HEAD").splitlines()) == 2
    assert len(git(engine, "reflog", "main").splitlines()) == 2


def test_reading_plain_files_imports_no_git() -> None:
    program = """
import sys; from logbook.store import files, fingerprint, git_read, git_write, journal, lock
assert not {"git", "filelock"} & set(sys.modules), "imported too early"
"""
    subprocess.run([sys.executable, "-c", program], check=True)


def test_a_name_that_git_cannot_print_as_a_person_is_refused(engine: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(identity, "run_live", lambda *_, **__: b"nonsense")
    with pytest.raises(CannotWrite, match="not usable"):
        git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")


def test_private_files_never_come_into_the_public_history(engine: Path) -> None:
    (engine / "private").mkdir()
    (engine / "private" / "costs.csv").write_text("entry,amount,currency")
    assert git_read.status(engine) == []
    with pytest.raises(CannotWrite, match="must not come into the public one"):
        git_write.commit(engine / "private", {"costs.csv": b"x"}, "Costs")


def test_a_staged_specs_file_is_no_obstacle(engine: Path, git: Git) -> None:
    (engine / "specs.yaml").write_text("stale")
    git(engine, "add", "specs.yaml")
    assert git_write.commit(engine, {"specs.yaml": b"fresh", "notes/a.yaml": b"a"}, "Note")
    assert git(engine, "status", "--porcelain") == ""


@pytest.mark.parametrize("trap", [Path.symlink_to, lambda place, _: os.mkfifo(place), lambda place, _: place.mkdir()])
def test_a_trap_in_a_files_place_is_refused(engine: Path, tmp_path: Path, trap: Callable[[Path, Path], None]) -> None:
    (engine / "parts" / "head-a.yaml").unlink()
    trap(engine / "parts" / "head-a.yaml", tmp_path / "elsewhere")
    with pytest.raises(CannotWrite, match=r"head-a\.yaml: it is"):
        git_write.commit(engine, {"parts/head-a.yaml": b"x"}, "X")
    assert not (tmp_path / "elsewhere").exists()
