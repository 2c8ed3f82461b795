"""Killed at any moment, the record is as before or as after, and the next command finishes what was begun.

`strace` kills the writer, or the git that it has started, just before its Nth call of one kind.
"""

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from struck import Work, struck, write

from logbook.errors import CannotWrite
from logbook.store import disk, files, git_read, git_write, journal

pytestmark = pytest.mark.slow
Git = Callable[..., str]

WRITER = """
import sys
from pathlib import Path
from logbook.store import git_write
print("ready", flush=True)
changes = {"engine.yaml": b"by hand", "specs.yaml": b"after", "notes/new.yaml": b"new", "parts/head-a.yaml": None}
git_write.commit(Path(sys.argv[1]), changes, "Second")
"""
# engine.yaml was edited by hand before the command and stays so whatever happens
BEFORE = {
    "engine.yaml": b"by hand",
    "parts/head-a.yaml": b"kind: cylinder_head\n",
    "specs.yaml": b"compression_ratio: 9.2\n",
}
AFTER = {"engine.yaml": b"by hand", "notes/new.yaml": b"new", "specs.yaml": b"after"}


@pytest.fixture
def begun(engine: Path, git: Git) -> Path:
    """A hand edit of ours to be saved, and a file of the user's staged beside it."""
    (engine / "engine.yaml").write_bytes(b"by hand")
    (engine / "README.md").write_text("his")
    git(engine, "add", "README.md")
    return engine


def on_disk(folder: Path) -> dict[str, bytes]:
    return {path: data for path, data in files.read_public(folder).items() if path != ".gitignore"}


def clear_locks_as_told(folder: Path) -> int:
    """Do what the message says until it says no more: delete git's lock. Returns how many there were."""
    for cleared in range(5):
        try:
            journal.finish_interrupted(folder)
            return cleared
        except CannotWrite as error:
            (lock,) = (lock for lock in (folder / ".git").rglob("*.lock") if str(lock) in str(error))
            lock.unlink()
    raise AssertionError("there is no end to the locks")


def is_whole(folder: Path, git: Git) -> None:
    """The promise: before or after, on the disk and in git alike; git finds nothing wrong; the next command works."""
    clear_locks_as_told(folder)
    written = [one.subject for one in git_read.history(folder)]
    after = written == ["Take up the engine", "Second"]
    assert after or written == ["Take up the engine"]
    assert on_disk(folder) == (AFTER if after else BEFORE)
    assert not journal.finish_interrupted(folder)
    expected = "A  README.md\n" if after else "A  README.md\n M engine.yaml\n"
    for lock in (folder / ".git").rglob("*.lock"):
        if lock.name != "logbook.lock":
            lock.unlink()
    assert sorted(git(folder, "status", "--porcelain").splitlines()) == sorted(expected.splitlines())
    git(folder, "fsck", "--strict")
    git_write.commit(folder, {"engine.yaml": b"by hand", "notes/next.yaml": b"next"}, "Next")
    assert not list(folder.rglob(f"*{disk.TEMPORARY}"))
    git(folder, "commit", "-q", "-m", "His")
    assert git(folder, "show", "--format=", "--name-only", "HEAD").split() == ["README.md"]
    assert git(folder, "status", "--porcelain") == ""


def run_killed(folder: Path, call: str, number: int, *only: str, work: Work = write) -> int:
    """Let the work run under strace and die before the call; its exit status."""
    ended = struck(work, folder, call, number, "signal=SIGKILL", *only)
    assert "Traceback" not in ended.said or "CannotWrite" in ended.said or "CannotRead" in ended.said, ended.said
    return ended.status


WRITER_DIES = [
    *(("rename", number) for number in range(1, 4)),
    *(("fsync", number) for number in range(1, 9)),
    *(("unlink", number) for number in range(1, 8, 2)),
    *(("write", number) for number in range(4, 17, 4)),
]


@pytest.mark.parametrize(("call", "number"), WRITER_DIES)
def test_the_writer_dies(begun: Path, git: Git, call: str, number: int) -> None:
    status = run_killed(begun, call, number)
    assert status in (0, -signal.SIGKILL)
    is_whole(begun, git)


def test_the_kills_above_do_kill_and_do_so_on_both_sides(begun: Path, git: Git) -> None:
    """Otherwise the table could go stale: the first rename is the journal's, the last write comes after the change."""
    assert run_killed(begun, "rename", 1) != 0
    assert len(git_read.history(begun)) == 1
    assert run_killed(begun, "rename", 2) != 0
    assert len(git_read.history(begun)) == 2
    assert (begun / ".git" / "logbook-journal.json").exists()
    is_whole(begun, git)


GIT_DIES = [
    ("fsync", 1, ()),
    ("rename", 1, ()),
    ("openat", 1, (".git/refs/heads/main.lock",)),
    ("write", 1, (".git/refs/heads/main.lock",)),
    ("fsync", 1, (".git/refs/heads/main.lock",)),
    ("rename", 1, (".git/refs/heads/main.lock",)),
    ("openat", 1, (".git/index.lock",)),
    ("write", 1, (".git/index.lock",)),
    ("fsync", 1, (".git/index.lock",)),
    ("rename", 1, (".git/index.lock",)),
]


@pytest.mark.parametrize(("call", "number", "paths"), GIT_DIES)
def test_the_git_that_it_started_dies(begun: Path, git: Git, call: str, number: int, paths: tuple[str, ...]) -> None:
    only = [part for path in paths for part in ("-P", str(begun / path))]
    run_killed(begun, call, number, "-f", *only)
    is_whole(begun, git)


@pytest.mark.parametrize("moment", range(4))
def test_everything_dies_at_once(begun: Path, git: Git, moment: int) -> None:
    """As when the power fails: the writer and its git together, some milliseconds after the start."""
    writer = subprocess.Popen(
        [sys.executable, "-c", WRITER, str(begun)],
        stdout=subprocess.PIPE,
        start_new_session=True,
        stderr=subprocess.DEVNULL,
    )
    with writer:
        assert writer.stdout is not None
        writer.stdout.readline()
        try:
            writer.wait(timeout=0.02 + moment * 0.05)
        except subprocess.TimeoutExpired:
            os.killpg(writer.pid, signal.SIGKILL)
    is_whole(begun, git)


def test_work_done_by_hand_after_the_kill_is_kept(begun: Path, git: Git, monkeypatch: pytest.MonkeyPatch) -> None:
    """Died with the branch moved and no file in place; then the user edits one of these files."""
    with monkeypatch.context() as patch:
        patch.setattr(git_write, "settle", _die)
        with pytest.raises(KeyboardInterrupt):
            git_write.commit(begun, {"parts/head-a.yaml": b"ours", "notes/new.yaml": b"new"}, "Second")
    (begun / "parts" / "head-a.yaml").write_bytes(b"by hand, later")
    assert "has been finished" in str(journal.finish_interrupted(begun))
    assert (begun / "parts" / "head-a.yaml").read_bytes() == b"by hand, later"
    assert (begun / "notes" / "new.yaml").read_bytes() == b"new"
    assert git_read.status(begun) == ["engine.yaml", "parts/head-a.yaml"]


def test_a_commit_of_the_users_after_the_kill_is_kept(begun: Path, git: Git, monkeypatch: pytest.MonkeyPatch) -> None:
    """Died before the branch moved; the user committed something else meanwhile: the unfinished change is dropped."""
    with monkeypatch.context() as patch:
        patch.setattr(git_write, "move_branch", _die)
        with pytest.raises(KeyboardInterrupt):
            git_write.commit(begun, {"notes/new.yaml": b"new"}, "Second")
    git(begun, "commit", "-q", "-m", "His")
    assert "dropped" in str(journal.finish_interrupted(begun))
    assert [one.subject for one in git_read.history(begun)] == ["Take up the engine", "His"]
    assert not (begun / "notes" / "new.yaml").exists()
    assert not list(begun.rglob(f"*{disk.TEMPORARY}"))


def test_a_kill_before_the_branch_moved_is_rolled_forward(
    begun: Path, git: Git, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(git_write, "move_branch", _die)
        with pytest.raises(KeyboardInterrupt):
            git_write.commit(begun, {"notes/new.yaml": b"new"}, "Second")
    assert "has been finished" in str(journal.finish_interrupted(begun))
    assert (begun / "notes" / "new.yaml").read_bytes() == b"new"
    assert sorted(git(begun, "status", "--porcelain").splitlines()) == [" M engine.yaml", "A  README.md"]


def test_an_unfinished_commit_that_git_has_thrown_away_is_dropped(
    begun: Path, git: Git, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(git_write, "move_branch", _die)
        with pytest.raises(KeyboardInterrupt):
            git_write.commit(begun, {"notes/new.yaml": b"new"}, "Second")
    git(begun, "gc", "-q", "--prune=now")
    assert "dropped" in str(journal.finish_interrupted(begun))
    assert not (begun / "notes" / "new.yaml").exists()


def _die(*arguments: object, **options: object) -> None:
    raise KeyboardInterrupt
