"""Stands here so that every test finds lives.py and keyboard.py, and so that the demonstration is made once for all."""

from __future__ import annotations

import gc
import os
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import settings
from keyboard import at_home, typed

gc.set_threshold(100_000, 50, 50)  # a run is short, and most of what it makes lives to its end
settings.register_profile("untimed", deadline=None, max_examples=60)  # a busy machine must not fail a property
settings.load_profile("untimed")


@pytest.fixture(scope="session", autouse=True)
def _a_cache_of_its_own(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What the commands keep between two calls is kept nowhere in this machine's own cache."""
    os.environ["XDG_CACHE_HOME"] = str(tmp_path_factory.mktemp("cache"))


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example engine as a logbook with its commits, shared by all workers: to be read, or copied."""
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "demonstration"
    with FileLock(f"{folder}.lock"):
        if not folder.exists():
            begun = folder.with_name("begun")
            with pytest.MonkeyPatch.context() as patch:
                at_home(patch, tmp_path_factory.mktemp("home"))
                assert typed("demo", str(begun)).status == 0
            begun.rename(folder)
    return folder
