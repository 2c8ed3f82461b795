"""What somebody types, and what the program answers: a call of the command in this process, as quick as a function.

ran = typed("specs", "now", at=folder)
assert (ran.status, ran.err) == (0, "")
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
from contextlib import chdir, redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from logbook.cli.main import status


class Ran(NamedTuple):
    """One call: its exit status, and what it wrote to both streams."""

    status: int
    out: str
    err: str

    @property
    def told(self) -> list[str]:
        """What it wrote to the error stream, each sentence on one line again (layout.narrow has broken it)."""
        return self.err.replace("\n  ", " ").splitlines()


def typed(*words: str, at: Path | str = ".") -> Ran:
    """`logbook WORDS`, typed in the folder `at`."""
    out, err = io.StringIO(), io.StringIO()
    with chdir(at), redirect_stdout(out), redirect_stderr(err):
        ended = status(words)
    return Ran(ended, out.getvalue(), err.getvalue())


def started(line: str, at: Path | str = ".", **how: Any) -> subprocess.CompletedProcess[Any]:
    """A line of bash in which `logbook` is a process of its own, where its streams or its environment matter."""
    call = f'logbook() {{ "{sys.executable}" $FLAGS -m logbook "$@"; }}; {line}'
    told = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "encoding": "utf-8", **how}
    told["env"] = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[1]), "FLAGS": "", **told.get("env", {})}
    return subprocess.run(["bash", "-c", call], cwd=at, timeout=60, **told)


def git(folder: Path, *words: str) -> str:
    """What the user's own git prints."""
    return subprocess.run(["git", *words], cwd=folder, capture_output=True, text=True, check=True).stdout


def at_home(patch: pytest.MonkeyPatch, home: Path) -> None:
    """A machine on which git knows A Owner, and nothing else of this machine's own is seen."""
    for name in [name for name in os.environ if name.startswith(("GIT_", "EMAIL"))]:
        patch.delenv(name)
    patch.setenv("HOME", str(home))
    patch.setenv("XDG_CONFIG_HOME", str(home))
    patch.setenv("XDG_CACHE_HOME", str(home / "cache"))
    patch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    (home / ".gitconfig").write_text("[user]\n\tname = A Owner\n\temail = owner@example.org\n")
