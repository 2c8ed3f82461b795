"""A disk that fails in the middle of a commit, or is full, and two writers at once: the record stays whole.

`strace` lets the Nth call of one kind fail, in the writer alone or in the git that it starts too.
"""

import errno
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from struck import started, struck, write_or_say_why
from test_store_kill import begun, is_whole

from logbook.store import git_read, journal

__all__ = ["begun"]  # a fixture of the other file's
pytestmark = pytest.mark.slow
Git = Callable[..., str]


def written(folder: Path) -> bool:
    return len(git_read.history(folder)) == 2


# one call fails

FAILS = [
    *(("fsync", number) for number in range(1, 9)),
    *(("rename", number) for number in range(1, 4)),
    *(("unlink", number) for number in (1, 3, 5, 7)),
    *(("write", number) for number in (1, 2, 3, 5, 8, 12, 15)),
]
GIT_FAILS = [*(("write", number) for number in (1, 2, 3)), ("fsync", 1), ("rename", 1), ("link", 1), ("unlink", 1)]


def write(folder: Path, call: str, number: int, fault: str, *more: str) -> int:
    """Let the writer run with a call that fails; its exit status."""
    ended = struck(write_or_say_why, folder, call, number, f"error={fault}", *more)
    assert ended.status in (0, 3), ended.said
    return ended.status


def with_faults(calls: Sequence[tuple[str, int]]) -> list[tuple[str, int, str]]:
    """Every call with a full disk, every other with a broken one, every third interrupted: a minute, not three."""
    return [(*call, fault) for fault, step in (("ENOSPC", 1), ("EIO", 2), ("EINTR", 3)) for call in calls[::step]]


@pytest.mark.parametrize(("call", "number", "fault"), with_faults(FAILS))
def test_a_call_of_the_writer_fails(begun: Path, git: Git, call: str, number: int, fault: str) -> None:
    status = write(begun, call, number, fault)
    if status == 0:
        assert written(begun)
    is_whole(begun, git)


@pytest.mark.parametrize(("call", "number", "fault"), with_faults(GIT_FAILS))
def test_a_call_of_its_git_fails(begun: Path, git: Git, call: str, number: int, fault: str) -> None:
    status = write(begun, call, number, fault, "-f")
    if status == 0:
        assert written(begun)
    is_whole(begun, git)


def test_the_faults_above_do_strike_and_do_so_on_both_sides(begun: Path, git: Git) -> None:
    """Otherwise the tables could go stale: before the branch moves nothing is written, after it all of it will be."""
    assert (write(begun, "rename", 1, "ENOSPC"), written(begun)) == (3, False)
    assert (write(begun, "rename", 2, "EIO"), written(begun)) == (3, True)
    assert "has been finished" in str(journal.finish_interrupted(begun))
    is_whole(begun, git)


# a full disk


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of four MiB in memory, gone after the test."""
    place = tmp_path / "small"
    place.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4m,nr_inodes=4096", "none", str(place)],
                             capture_output=True, check=False)  # fmt: skip
    if mounted.returncode:
        pytest.skip(f"no small disk can be mounted here: {mounted.stderr.decode().strip()}")
    try:
        yield place
    finally:
        subprocess.run(["umount", "--lazy", str(place)], check=True)


def fill(disk: Path, leave: int) -> Path:
    """All of it but `leave` blocks of 4 KiB, as another program's download would."""
    ballast = disk / "ballast"
    with ballast.open("wb", buffering=0) as stream:
        try:
            while stream.write(b"\0" * 4096):
                pass
        except OSError as full:
            if full.errno != errno.ENOSPC:
                raise
        stream.truncate(max(stream.tell() - leave * 4096, 0))
    return ballast


@pytest.mark.parametrize("leave", [0, 1, 2, 4, 8, 12, 16, 32])
def test_a_disk_that_is_full_to_the_last_blocks(small_disk: Path, begun: Path, git: Git, leave: int) -> None:
    folder = small_disk / "engine"
    subprocess.run(["cp", "-a", str(begun), str(folder)], check=True)
    ballast = fill(small_disk, leave)
    status, said = started(write_or_say_why, folder)
    assert status in (0, 3), said
    assert (status == 0) <= written(folder)
    if leave == 0:
        assert (status, written(folder)) == (3, False)
    if leave >= 32:
        assert (status, written(folder)) == (0, True)
    ballast.unlink()
    is_whole(folder, git)


# two at once

SAVE = """
import sys
from pathlib import Path
from logbook.logbook import Logbook
from logbook.saving import save
folder, name = Path(sys.argv[1]), sys.argv[2]
print("ready", flush=True); sys.stdin.readline()
(folder / "private" / name).write_text(name)
saved = save(folder, name, even_so="it is a test")
sys.exit(0 if saved.unsaved is None else 5)
"""


def test_two_processes_that_save_private_papers_at_once(engine: Path, git: Git) -> None:
    """Both papers are in its history, each commit on top of the other, and nothing of them in the public one."""
    (engine / "private").mkdir()
    (engine / "private" / "first.txt").write_text("before both")
    names = ["costs.txt", "who.txt"]
    writers = [subprocess.Popen([sys.executable, "-c", SAVE, str(engine), name], stdin=subprocess.PIPE,
                                stdout=subprocess.PIPE) for name in names]  # fmt: skip
    for writer in writers:
        assert writer.stdout is not None
        assert writer.stdout.readline() == b"ready\n"
    for writer in writers:
        assert writer.stdin is not None
        writer.stdin.write(b"now\n")
        writer.stdin.flush()
    assert [writer.communicate(timeout=60) and writer.returncode for writer in writers] == [0, 0]
    private = engine / "private"
    assert git(private, "ls-tree", "-r", "--name-only", "HEAD").split() == ["costs.txt", "first.txt", "who.txt"]
    assert git(private, "status", "--porcelain") == ""
    for folder in (engine, private):
        git(folder, "fsck", "--strict")
        assert not (folder / ".git" / "logbook-journal.json").exists()
    assert "private" not in git(engine, "log", "--name-only", "--format=")
    commits = git(private, "log", "--format=%s").split()
    assert set(commits) <= set(names)
    assert git(private, "log", "--merges", "--format=%s") == ""
