"""Killed in the middle of an undo, or of a save that has two repositories to write in: as before or as after."""

import shutil
import signal
from collections.abc import Callable
from pathlib import Path

import pytest
from keyboard import at_home
from struck import save_all, take_back
from test_store_kill import clear_locks_as_told, run_killed

from logbook.saving import save
from logbook.store import disk, files, git_read
from logbook.undo import undo

pytestmark = pytest.mark.slow
Git = Callable[..., str]

KILLED = (0, -signal.SIGKILL)
MOMENTS = [("rename", number) for number in range(1, 4)] + [("fsync", number) for number in (2, 6)]
MOMENTS += [("unlink", number) for number in (3, 5)]


def saved(folder: Path, text: bytes) -> None:
    """One file changed and one made."""
    (folder / "notes").mkdir(exist_ok=True)
    (folder / "parts" / "head-a.yaml").write_bytes(text)
    (folder / "notes" / "new.yaml").write_bytes(text)


@pytest.fixture(scope="session")
def twice_saved(first_engine: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, bytes]]:
    """An engine whose newest change is there to be undone, and what stood in its files before that."""
    place = tmp_path_factory.mktemp("twice")
    engine = Path(shutil.copytree(first_engine, place / "engine", symlinks=True))
    with pytest.MonkeyPatch.context() as patch:
        at_home(patch, tmp_path_factory.mktemp("home"))
        save(engine, "Whole specs", even_so="it is a test")
        before = files.read_public(engine)
        saved(engine, b"changed")
        save(engine, "Second", even_so="it is a test")
    return engine, before


@pytest.mark.parametrize(("call", "number"), MOMENTS)
def test_an_undo_dies(
    twice_saved: tuple[Path, dict[str, bytes]], tmp_path: Path, git: Git, call: str, number: int
) -> None:
    engine, before = Path(shutil.copytree(twice_saved[0], tmp_path / "engine", symlinks=True)), twice_saved[1]
    after = files.read_public(engine)
    assert run_killed(engine, call, number, work=take_back) in KILLED
    clear_locks_as_told(engine)
    undone = git_read.history(engine)[-1].subject == "Undo: Second"
    if call == "rename":  # the first is the journal's, the others come after the change: the moments are not stale
        assert undone == (number > 1)
    assert files.read_public(engine) == (before if undone else after)
    assert git(engine, "status", "--porcelain") == ""
    assert git(engine, "fsck", "--strict", "--no-dangling") == ""
    if not undone:
        undo(engine)
    assert files.read_public(engine) == before
    assert not list(engine.rglob(f"*{disk.TEMPORARY}"))


@pytest.mark.parametrize(("call", "number"), [*MOMENTS, ("rename", 4), ("fsync", 12), ("unlink", 11)])
def test_a_save_into_two_repositories_dies(engine: Path, git: Git, call: str, number: int) -> None:
    (engine / "private").mkdir()
    (engine / "private" / "who.txt").write_text("a secret")
    saved(engine, b"changed")
    assert run_killed(engine, call, number, work=save_all) in KILLED
    clear_locks_as_told(engine)
    save(engine, "Second", even_so="it is a test")
    assert (engine / "private" / "who.txt").read_text() == "a secret"
    assert git_read.text_at(engine, "HEAD", "notes/new.yaml") == b"changed"
    assert git(engine / "private", "show", "HEAD:who.txt") == "a secret"
    for folder in (engine, engine / "private"):
        assert git(folder, "status", "--porcelain") == ""
        assert git(folder, "fsck", "--strict", "--no-dangling") == ""
        assert not (folder / ".git" / "logbook-journal.json").exists()
    assert "private" not in git(engine, "log", "--name-only", "--format=")
