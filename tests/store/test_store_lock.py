"""One writer at a time; the lock is gone with its holder."""

import subprocess
import sys
from pathlib import Path

import pytest

from logbook.errors import CannotWrite
from logbook.store import git_write
from logbook.store.lock import repository_lock
from logbook.store.repository import open_repository

HOLD = """
import sys; from pathlib import Path
from logbook.store.lock import repository_lock; from logbook.store.repository import open_repository
with repository_lock(open_repository(Path(sys.argv[1]))):
    print("held", flush=True); sys.stdin.read()
"""


def test_a_second_writer_is_told_what_to_do_and_a_killed_one_is_no_obstacle(engine: Path) -> None:
    holder = subprocess.Popen([sys.executable, "-c", HOLD, str(engine)], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    with holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == b"held\n"
        with (
            pytest.raises(CannotWrite, match="wait until it has ended"),
            repository_lock(open_repository(engine), 0.05),
        ):
            pass
        holder.kill()
    assert git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")


def test_a_caller_that_holds_the_lock_may_commit(engine: Path) -> None:
    with repository_lock(open_repository(engine)):
        assert git_write.commit(engine, {"notes/a.yaml": b"a"}, "Note")


def test_two_engines_of_one_repository_share_one_lock(engine: Path) -> None:
    (engine / "second").mkdir()
    assert open_repository(engine / "second").git_dir == open_repository(engine).git_dir
