"""Reading an engine folder that may be a stranger's, and replacing files whole."""

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import CannotRead, CannotWrite, NotALogbook
from logbook.store import disk, files


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    place = tmp_path / "engine"
    for name in (
        "engine.yaml",
        "specs.yaml",
        "parts/head-a.yaml",
        "tests/2024-03-09-run.yaml",
        "tests/2024-03-09-run.csv",
        "log/fuel.csv",
        "files/photos/p12.jpg",
        "private/costs.csv",
        "private/owner.yaml",
    ):
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        (place / name).write_text(name)
    return place


def test_the_folder_is_found_from_inside_it(folder: Path) -> None:
    assert files.find_folder(folder / "files" / "photos") == folder
    assert files.find_folder(folder) == folder


def test_no_folder_is_found_where_none_is(tmp_path: Path) -> None:
    with pytest.raises(NotALogbook, match=r"no engine\.yaml .* or in any folder above"):
        files.find_folder(tmp_path)
    with pytest.raises(NotALogbook, match="does not exist"):
        files.find_folder(tmp_path / "nowhere")


def test_the_texts_are_the_record_and_nothing_else(folder: Path) -> None:
    texts = files.read_texts(folder)
    assert list(texts) == [
        "engine.yaml",
        "log/fuel.csv",
        "parts/head-a.yaml",
        "tests/2024-03-09-run.csv",
        "tests/2024-03-09-run.yaml",
    ]
    assert texts["log/fuel.csv"] == b"log/fuel.csv"


def test_public_is_everything_but_private(folder: Path) -> None:
    public = set(files.read_public(folder))
    assert {"specs.yaml", "files/photos/p12.jpg"} <= public
    assert not any(path.startswith("private") for path in public)


@pytest.mark.parametrize(
    "name", [".hidden.yaml", "head-a.yaml~", "#head-a.yaml#", "head-a.yaml.bak", ".head-a.yaml.swp"]
)
def test_what_an_editor_leaves_is_ignored(folder: Path, name: str) -> None:
    (folder / "parts" / name).write_text("half an entry")
    assert f"parts/{name}" not in files.read_texts(folder)
    assert files.survey(folder).misplaced == ()


def test_a_misplaced_entry_is_named(folder: Path) -> None:
    for name in ("head-b.yaml", "parts/head-c.yml", "parts/old/head-d.yaml", "Changes/2024-01-01-x.yaml"):
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text("kind: cylinder_head")
    assert files.survey(folder).misplaced == (
        "Changes/2024-01-01-x.yaml",
        "head-b.yaml",
        "parts/head-c.yml",
        "parts/old/head-d.yaml",
    )


def test_another_engine_inside_is_not_ours(folder: Path) -> None:
    (folder / "other").mkdir()
    (folder / "other" / "engine.yaml").write_text("format: 1")
    assert files.survey(folder).misplaced == ()


def test_a_bad_encoding_is_left_to_the_record(folder: Path) -> None:
    (folder / "parts" / "head-a.yaml").write_bytes(b"\xff\xfe")
    assert files.read_texts(folder)["parts/head-a.yaml"] == b"\xff\xfe"


def _link(folder: Path, outside: Path) -> str:
    (folder / "parts" / "evil.yaml").symlink_to(outside)
    return "parts/evil.yaml: is a symbolic link"


def _link_to_nowhere(folder: Path, outside: Path) -> str:
    (folder / "parts" / "evil.yaml").symlink_to("nowhere")
    return "parts/evil.yaml: is a symbolic link"


def _linked_place(folder: Path, outside: Path) -> str:
    (folder / "changes").symlink_to(outside.parent)
    return "changes: is a symbolic link"


def _linked_engine(folder: Path, outside: Path) -> str:
    (folder / "engine.yaml").unlink()
    (folder / "engine.yaml").symlink_to(outside)
    return "engine.yaml: is a symbolic link"


def _pipe(folder: Path, outside: Path) -> str:
    os.mkfifo(folder / "parts" / "evil.yaml")
    return "parts/evil.yaml: is not a plain file"


def _giant(folder: Path, outside: Path) -> str:
    with (folder / "parts" / "evil.yaml").open("wb") as stream:
        stream.truncate(files.MOST_TEXT + 1)
    return "parts/evil.yaml: is larger than 1 MiB"


def _bad_name(folder: Path, outside: Path) -> str:
    (folder / "parts" / "ev\nil.yaml").write_text("x")
    return r"parts/ev\nil.yaml: has a name"


def _name_of_bytes(folder: Path, outside: Path) -> str:
    with open(os.fsencode(folder) + b"/parts/ev\xff.yaml", "w"):
        return r"parts/ev\\udcff.yaml: has a name"


@pytest.mark.parametrize(
    "trap", [_link, _link_to_nowhere, _linked_place, _linked_engine, _pipe, _giant, _bad_name, _name_of_bytes]
)
def test_a_trap_is_named_and_never_sprung(folder: Path, tmp_path: Path, trap: object) -> None:
    outside = tmp_path / "outside" / "secret.yaml"
    outside.parent.mkdir()
    outside.write_text("secret")
    says = trap(folder, outside)  # type: ignore[operator]
    problems: list[files.Problem] = []
    texts = files.read_texts(folder, problems.append)
    assert [str(problem)[: len(says)] for problem in problems] == [says]
    assert b"secret" not in texts.values()
    assert "tests/2024-03-09-run.yaml" in texts
    with pytest.raises(CannotRead):
        files.read_texts(folder)


def test_a_file_is_read_on_request(folder: Path) -> None:
    assert files.read_file(folder, "files/photos/p12.jpg") == b"files/photos/p12.jpg"


@pytest.mark.parametrize(
    "path", ["../x", "/etc/passwd", "files/../../x", "", ".git/config", "a//b", "private/owner.yaml", "a\nb"]
)
def test_a_path_that_leads_out_is_refused(folder: Path, path: str) -> None:
    with pytest.raises(CannotRead):
        files.read_file(folder, path)
    with pytest.raises(CannotWrite):
        files.write_texts(folder, {path: b"x"})


def test_a_linked_folder_on_the_way_is_refused(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (folder / "notes").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(CannotWrite, match="notes is a symbolic link"):
        files.write_texts(folder, {"notes/x.yaml": b"x"})
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_writing_makes_folders_keeps_modes_and_leaves_nothing_behind(folder: Path) -> None:
    (folder / "engine.yaml").chmod(0o640)
    files.write_texts(folder, {"engine.yaml": b"new", "notes/2024-01-01-x.yaml": b"note"})
    assert (folder / "engine.yaml").read_bytes() == b"new"
    assert (folder / "engine.yaml").stat().st_mode & 0o777 == 0o640
    assert (folder / "notes" / "2024-01-01-x.yaml").read_bytes() == b"note"
    assert not list(folder.rglob(f"*{disk.TEMPORARY}"))


def test_a_full_disk_replaces_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    synced = []

    def full(handle: int) -> None:
        synced.append(handle)
        if len(synced) > 1:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite, match="No space left"):
        files.write_texts(folder, {"engine.yaml": b"new", "parts/head-a.yaml": b"new"})
    assert (folder / "engine.yaml").read_bytes() == b"engine.yaml"
    assert not list(folder.rglob(f"*{disk.TEMPORARY}"))


_segment = st.text(st.sampled_from("ab./\\\n\x00~é "), max_size=6)


@given(st.lists(_segment, max_size=4).map("/".join))
def test_a_path_that_passes_stays_inside(path: str) -> None:
    try:
        safe = files.check_path(path)
    except CannotRead:
        return
    root = Path("/engine")
    assert os.path.normpath(root / safe) == str(root / safe)
    assert (root / safe).is_relative_to(root)
    assert root / safe != root
