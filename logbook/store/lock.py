"""One writer at a time in one git repository.

The lock is the system's own on `.git/logbook.lock`: it is free again the moment its holder ends, however it ends, and
the file that stays behind means nothing. Git's own locks are another matter: see `refuse_git_locks`.
"""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import CannotWrite
from logbook.store.repository import Repository

if TYPE_CHECKING:
    from filelock import BaseFileLock

SECONDS = 5.0


@contextmanager
def repository_lock(repository: Repository, seconds: float = SECONDS) -> Iterator[None]:
    """Hold the lock for the block; a block inside a block of the same thread is fine. Raises CannotWrite."""
    from filelock import Timeout

    file = repository.git_dir / "logbook.lock"
    lock = _lock(file)
    try:
        lock.acquire(timeout=seconds)
    except Timeout as error:
        raise CannotWrite(
            f"Another logbook command has been writing in {repository.root} for more than {seconds:g} s; "
            "wait until it has ended and run this again"
        ) from error
    except OSError as error:
        raise CannotWrite(f"{file} cannot be locked ({error.strerror}); mend the folder's permissions") from error
    try:
        yield
    finally:
        lock.release()


@cache
def _lock(file: Path) -> "BaseFileLock":
    from filelock import FileLock

    return FileLock(file)


def refuse_git_locks(repository: Repository, branch: str) -> None:
    """Raise CannotWrite for a lock that another git holds or a killed one left. None is ever deleted here."""
    for name in ("index.lock", "HEAD.lock", "packed-refs.lock", f"{branch}.lock"):
        file = repository.git_dir / name
        try:
            age = time.time() - file.lstat().st_mtime
        except OSError:
            continue
        raise CannotWrite(
            f"Git's lock {file} is {_age(age)} old: another git is at work here, or one was killed. "
            "Wait for it to end; if none is running, delete that file and run this again"
        )


def _age(seconds: float) -> str:
    for size, unit in ((86400, "day"), (3600, "hour"), (60, "minute"), (1, "second")):
        if seconds >= size:
            number = int(seconds // size)
            return f"{number} {unit}{'s' if number > 1 else ''}"
    return "less than a second"
