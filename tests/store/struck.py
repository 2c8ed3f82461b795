"""A process of the program in which one call is struck: it fails, or it kills, by strace.

struck(write, folder, "rename", 2, "error=EIO")           # the second rename of the writer fails
struck(write, folder, "fsync", 1, "signal=SIGKILL", "-f")  # or that of a git that it starts

The processes come from a server in which the program is loaded already, so each costs a fork and not a start. strace
is attached when the work is about to begin: calls are counted from there. Where strace is not, the test is skipped.
"""

from __future__ import annotations

import ctypes
import multiprocessing
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

import logbook
from logbook.errors import LogbookError
from logbook.saving import save
from logbook.store import git_write
from logbook.undo import undo

Work = Callable[[Path], object]

_LOADED = multiprocessing.get_context("forkserver")
_LOADED.set_forkserver_preload(["pytest", "git.cmd", "logbook.saving", "logbook.undo"])
_LET_ANY_TRACE = (0x59616D61, ctypes.c_ulong(-1))  # prctl(2): PR_SET_PTRACER, PR_SET_PTRACER_ANY


class Ended(NamedTuple):
    """How a process ended: its status, below zero for the signal that killed it, and what it wrote to its streams."""

    status: int
    said: str


# what the processes do


def write(folder: Path) -> None:
    """One file that was edited by hand, one that is generated, one new, one taken away."""
    changes = {"engine.yaml": b"by hand", "specs.yaml": b"after", "notes/new.yaml": b"new", "parts/head-a.yaml": None}
    git_write.commit(folder, changes, "Second")


def write_or_say_why(folder: Path) -> None:
    """Ends with 0 once the change is made, with 3 where it says in a sentence why not; a traceback is a mistake."""
    try:
        write(folder)
    except LogbookError as error:
        sys.exit(3 if str(error) else 4)


def take_back(folder: Path) -> None:
    """An undo."""
    undo(folder)


def save_all(folder: Path) -> None:
    """A save."""
    save(folder, "Second", even_so="it is a test")


# how they are started


def struck(work: Work, folder: Path, call: str, number: int, how: str, *more: str) -> Ended:
    """Let `work` run, and its `number`-th call of one kind be struck; `more` is for strace, '-f' to follow git too."""
    if not _strace_works():
        pytest.skip("strace is not installed or not allowed here")
    strike = ["-e", f"trace={call}", "-e", f"inject={call}:{how}:when={number}"]
    return started(work, folder, ["strace", "-o", os.devnull, *more, *strike])


def started(work: Work, folder: Path, tracer: Sequence[str] = ()) -> Ended:
    """Let `work` run in a process of its own, traced by `tracer`."""
    with tempfile.NamedTemporaryFile() as said:
        arguments = (work, folder, list(tracer), said.name, dict(os.environ), logbook.__file__)
        process = _LOADED.Process(target=_begin, args=arguments)
        process.start()
        process.join(60)
        assert process.exitcode is not None, f"it hangs: {Path(said.name).read_text()}"
        return Ended(process.exitcode, Path(said.name).read_text())


def _begin(work: Work, folder: Path, tracer: list[str], said: str, environment: dict[str, str], program: str) -> None:
    assert program == logbook.__file__  # the server has loaded what is tested
    stream = os.open(said, os.O_WRONLY | os.O_APPEND)
    os.dup2(stream, 1)
    os.dup2(stream, 2)
    os.environ.clear()
    os.environ.update(environment)
    tempfile.tempdir, sys.dont_write_bytecode = None, True
    if tracer:
        _attached(tracer)
    work(folder)


def _attached(tracer: list[str]) -> None:
    """Wait until strace says that it has this process in its hands."""
    ctypes.CDLL(None).prctl(*_LET_ANY_TRACE)
    process = subprocess.Popen([*tracer, "-p", str(os.getpid())], stderr=subprocess.PIPE)
    assert process.stderr is not None
    first = process.stderr.readline()
    assert b" attached" in first, first


@cache
def _strace_works() -> bool:
    return bool(shutil.which("strace")) and started(os.listdir, Path.cwd(), ["strace", "-o", os.devnull]).status == 0
