"""What is kept of a folder between two commands counts for just those bytes and just this program."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from logbook.store import disk, kept

TEXTS = {"engine.yaml": b"format: 1\n", "parts/block-1.yaml": b"kind: block\n"}


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache/engine-logbook"


@pytest.fixture
def folder(tmp_path: Path, cache: Path) -> Path:
    """An engine folder of which something is kept."""
    (tmp_path / "engine").mkdir()
    kept.keep(tmp_path / "engine", kept.mark(TEXTS), b"read")
    assert kept.take_up(tmp_path / "engine", kept.mark(TEXTS)) == b"read"
    return tmp_path / "engine"


def the_file(cache: Path) -> Path:
    (file,) = cache.iterdir()
    return file


@pytest.mark.parametrize(
    "texts",
    [
        {**TEXTS, "engine.yaml": b"format: 2\n"},
        {**TEXTS, "parts/block-2.yaml": b""},
        {"engine.yaml": TEXTS["engine.yaml"]},
        {"engine.yaml": TEXTS["engine.yaml"], "parts/block-2.yaml": TEXTS["parts/block-1.yaml"]},
        {},
    ],
)
def test_other_texts_are_read_anew(folder: Path, texts: dict[str, bytes]) -> None:
    assert kept.take_up(folder, kept.mark(texts)) is None


def test_the_order_of_the_files_does_not_matter(folder: Path) -> None:
    assert kept.take_up(folder, kept.mark(dict(reversed(TEXTS.items())))) == b"read"


def test_another_program_reads_anew(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(kept._PROGRAM, tmp_path / "program")
    monkeypatch.setattr(kept, "_PROGRAM", tmp_path / "program")
    assert kept.take_up(folder, kept.mark(TEXTS)) == b"read"  # copied, but not changed
    with open(tmp_path / "program/record/facts.py", "a") as file:
        file.write("# better\n")
    assert kept.take_up(folder, kept.mark(TEXTS)) is None


def test_a_folder_is_known_by_what_it_is(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    assert kept.take_up(tmp_path / "other", kept.mark(TEXTS)) is None
    folder.rename(tmp_path / "renamed")
    assert kept.take_up(tmp_path / "renamed", kept.mark(TEXTS)) == b"read"


def test_what_was_kept_last_counts(folder: Path, cache: Path) -> None:
    kept.keep(folder, kept.mark({}), b"read later")
    assert kept.take_up(folder, kept.mark({})) == b"read later"
    assert kept.take_up(folder, kept.mark(TEXTS)) is None
    assert the_file(cache).stat().st_mode & 0o777 == 0o600


def test_what_would_not_be_taken_up_is_not_kept(folder: Path, cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept, "_MOST", 100)
    kept.keep(folder, kept.mark({}), bytes(100))
    assert the_file(cache).stat().st_size < 100
    assert kept.take_up(folder, kept.mark(TEXTS)) == b"read"


@pytest.mark.parametrize("place", [0, 31, 32, 35])
def test_a_bit_that_fell_over_is_noticed(folder: Path, cache: Path, place: int) -> None:
    data = bytearray(the_file(cache).read_bytes())
    data[place] ^= 1
    the_file(cache).write_bytes(data)
    assert kept.take_up(folder, kept.mark(TEXTS)) is None


@pytest.mark.parametrize("length", [0, 1, 32, 35])
def test_so_is_an_end_that_is_missing(folder: Path, cache: Path, length: int) -> None:
    os.truncate(the_file(cache), length)
    assert kept.take_up(folder, kept.mark(TEXTS)) is None


def test_a_link_is_not_followed(folder: Path, cache: Path, tmp_path: Path) -> None:
    file = the_file(cache)
    file.rename(tmp_path / "elsewhere")
    file.symlink_to(tmp_path / "elsewhere")
    assert kept.take_up(folder, kept.mark(TEXTS)) is None


def test_where_others_may_write_nothing_is_kept_or_believed(folder: Path, cache: Path) -> None:
    cache.chmod(0o777)
    assert kept.take_up(folder, kept.mark(TEXTS)) is None
    the_file(cache).unlink()
    kept.keep(folder, kept.mark(TEXTS), b"read")
    assert list(cache.iterdir()) == []


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="nobody owns anything here")
def test_what_another_user_keeps_is_his(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    other = os.getuid() + 1
    monkeypatch.setattr(os, "getuid", lambda: other)
    assert kept.take_up(folder, kept.mark(TEXTS)) is None


@pytest.mark.parametrize("place", ["/dev/null", "/proc/nowhere"])
def test_where_nothing_can_be_kept_it_goes_without(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, place: str) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", place)
    kept.keep(tmp_path, kept.mark(TEXTS), b"read")
    assert kept.take_up(tmp_path, kept.mark(TEXTS)) is None


def test_where_nobodys_home_is_known_nothing_is_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: Path("~/.cache/engine-logbook"))
    kept.keep(tmp_path, kept.mark(TEXTS), b"read")
    assert kept.take_up(tmp_path, kept.mark(TEXTS)) is None
    assert list(tmp_path.iterdir()) == []


def test_of_many_folders_the_last_are_kept(tmp_path: Path, cache: Path) -> None:
    folders = [tmp_path / f"engine-{number}" for number in range(kept._MOST_FOLDERS + 3)]
    for number, folder in enumerate(folders):
        folder.mkdir()
        kept.keep(folder, kept.mark(TEXTS), b"read")
        os.utime(kept._place(folder), (number, number))
    assert len(list(cache.iterdir())) == kept._MOST_FOLDERS
    assert [kept.take_up(folder, kept.mark(TEXTS)) for folder in folders[:4]] == [None, None, None, b"read"]


def test_room_is_made_of_our_own_files_only(tmp_path: Path, cache: Path) -> None:
    """Of a command that was killed too; but not of what somebody else put there, which does not stop it either."""
    cache.mkdir(mode=0o700, parents=True)
    (cache / "a-folder").mkdir()
    (cache / "a-1").symlink_to(tmp_path / "nowhere")
    (cache / "notes.txt").write_text("mine")
    for name in ("notes.txt", "a-folder"):
        os.utime(cache / name, (0, 0))
    for number in range(kept._MOST_FOLDERS):
        (cache / f"a-{number:x}0").write_text("kept")
    (cache / f".a-2.17{disk.TEMPORARY}").write_text("half")
    os.utime(cache / f".a-2.17{disk.TEMPORARY}", (0, 0))
    kept.keep(tmp_path, kept.mark(TEXTS), b"read")
    left = {file.name for file in cache.iterdir()}
    assert {"a-folder", "a-1", "notes.txt", kept._place(tmp_path).name} <= left
    assert len(left) == kept._MOST_FOLDERS + 3
    assert f".a-2.17{disk.TEMPORARY}" not in left
