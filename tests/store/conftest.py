"""Real repositories in temporary folders; nothing of this machine's own git configuration is ever read."""

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from logbook.store import git_write

Git = Callable[..., str]


def forget_this_machine(patch: pytest.MonkeyPatch, home: Path) -> None:
    """No GIT_ variable, no system or global configuration but that of A Owner."""
    for name in [name for name in os.environ if name.startswith(("GIT_", "EMAIL"))]:
        patch.delenv(name)
    patch.setenv("HOME", str(home))
    patch.setenv("XDG_CONFIG_HOME", str(home))
    patch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    patch.setenv("TMPDIR", str(home))  # where a killed writer leaves its scratch repository
    (home / ".gitconfig").write_text("[user]\n\tname = A Owner\n\temail = owner@example.org\n")


@pytest.fixture(autouse=True)
def _home(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    forget_this_machine(monkeypatch, tmp_path_factory.mktemp("home"))


@pytest.fixture
def git() -> Git:
    """The user's own git, in a folder: git(folder, 'add', 'x') gives what it printed."""

    def run(folder: Path, *arguments: str, status: int = 0) -> str:
        done = subprocess.run(["git", *arguments], cwd=folder, capture_output=True, text=True)
        assert done.returncode == status, done.stderr
        return done.stdout

    return run


@pytest.fixture(scope="session")
def first_engine(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Made once and copied for each test, which is quicker."""
    folder = tmp_path_factory.mktemp("first") / "quarry-six"
    with pytest.MonkeyPatch.context() as patch:
        forget_this_machine(patch, tmp_path_factory.mktemp("home"))
        git_write.create(folder)
        start = {
            ".gitignore": (folder / ".gitignore").read_bytes(),
            "engine.yaml": b"format: 1\nname: Quarry six\n",
            "parts/head-a.yaml": b"kind: cylinder_head\n",
            "specs.yaml": b"compression_ratio: 9.2\n",
        }
        assert git_write.commit(folder, start, "Take up the engine")
    return folder


@pytest.fixture
def engine(first_engine: Path, tmp_path: Path) -> Path:
    """A logbook that is a repository of its own, with one commit and nothing edited."""
    return Path(shutil.copytree(first_engine, tmp_path / "quarry-six", symlinks=True))
