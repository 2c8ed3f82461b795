"""Gives a repository of our own making its own name to commit under, where the user has given git none."""

from __future__ import annotations

from pathlib import Path

from logbook.errors import CannotWrite
from logbook.store.git_run import clearly
from logbook.store.repository import open_repository
from logbook.store.staging import run_live


def introduce(folder: Path, name: str, email: str) -> None:
    """Set user.name and user.email in this repository's own configuration. Raises CannotWrite."""
    with clearly(CannotWrite, f"No name could be set in {folder}"):
        repository = open_repository(folder)
        run_live(repository, "config", "--local", "user.name", name)
        run_live(repository, "config", "--local", "user.email", email)
