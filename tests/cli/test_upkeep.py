"""After the program was renewed: its figures in a commit of their own; and the advice that only `check` gives."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import pytest
from keyboard import git, typed

from logbook import __version__
from logbook.store import files

SHEET = "measurements/2024-01-13-on-the-bench.yaml"


def by_an_older_program(folder: Path) -> bytes:
    """As if version 0.0.9 had worked out another ratio and had not known another spec. Gives what stands there now."""
    now = (folder / "specs.yaml").read_bytes()
    text = (
        now.decode()
        .replace(f"engine-logbook {__version__}", "engine-logbook 0.0.9")
        .replace("unit: cc", "unit: ccm", 1)
    )
    (folder / "specs.yaml").write_text(re.sub(r"  mean_compression_ratio:\n(    .*\n)+", "", text))
    git(folder, "commit", "-qam", "As it was")
    return now


def test_an_upgrade_is_told_apart_from_a_change(own: Path) -> None:
    now = by_an_older_program(own)
    sheet = own / SHEET
    sheet.write_text(sheet.read_text().replace("26.0 / 26.1", "25.0 / 25.1"))
    ran = typed("save", at=own)
    assert ran.status == 0, ran.err
    subject = f"Recompute the specs with engine-logbook {__version__}: 2 specs changed, no fact changed"
    assert " ".join(ran.out.split()).startswith(f"{subject}: commit ")
    assert git(own, "log", "-2", "--format=%s").splitlines() == ["On the bench", subject]
    assert git(own, "show", "--format=", "--name-only", "HEAD~1").split() == ["specs.yaml"]
    assert git(own, "show", "HEAD~1:specs.yaml").encode() == now
    assert git(own, "show", "--format=", "--name-only", "HEAD").split() == [SHEET, "specs.yaml"]
    assert git(own, "status", "--porcelain") == ""
    fingerprints = git(own, "log", "-3", "--format=%(trailers:key=Record-Fingerprint,valueonly)").split()
    assert f"record_fingerprint: {fingerprints[1]}" in git(own, "show", "HEAD~1:specs.yaml")


def test_an_upgrade_alone_and_then_nothing(own: Path) -> None:
    text = (own / "specs.yaml").read_text()
    (own / "specs.yaml").write_text(text.replace("formulas: 1\n", "formulas: 0\n"))
    assert "formulas: 0" in (own / "specs.yaml").read_text()
    git(own, "commit", "-qam", "As it was")
    ran = typed("save", at=own)
    assert "no spec changed, no fact changed" in " ".join(ran.out.split())
    assert ran.out.endswith("Nothing else has changed.\n")
    assert (own / "specs.yaml").read_text() == text
    assert typed("save", at=own).out == "Nothing has changed since the last save.\n"


def test_a_save_that_is_refused_recomputes_nothing(own: Path) -> None:
    by_an_older_program(own)
    head = git(own, "rev-parse", "HEAD")
    (own / "parts/head-c.yaml").write_text("kind: nonsense\n")
    assert typed("save", at=own).status == 2
    assert git(own, "rev-parse", "HEAD") == head


CONFLICT = b"program: x\n<<<<<<< HEAD\nspecs: a\n=======\nspecs: b\n>>>>>>> other\n"


@pytest.mark.parametrize(
    ("stands", "line", "says"),
    [
        (CONFLICT, 2, "two versions stand between the marks of a merge;"),
        (b"spoilt", 1, "another version of the program worked it out"),
    ],
)
def test_a_spoilt_specs_file_is_a_note_and_save_mends_it(own: Path, stands: bytes, line: int, says: str) -> None:
    whole = (own / "specs.yaml").read_bytes()
    (own / "specs.yaml").write_bytes(stands)
    ran = typed("check", at=own)
    assert (ran.status, ran.out.startswith(f"specs.yaml:{line}:1: note: {says}")) == (0, True), ran.out
    assert "logbook save mends it" in ran.out
    assert typed("save", at=own).status == 0
    assert (own / "specs.yaml").read_bytes() == whole
    assert typed("check", at=own).out == "Nothing to say: the record reads well.\n"


def test_a_conflict_that_was_committed_is_mended_too(own: Path) -> None:
    whole = (own / "specs.yaml").read_bytes()
    (own / "specs.yaml").write_bytes(CONFLICT)
    git(own, "commit", "-qam", "Merged in a hurry")
    assert typed("save", at=own).status == 0
    assert (git(own, "show", "HEAD:specs.yaml").encode(), git(own, "status", "--porcelain")) == (whole, "")


def test_a_hand_edit_not_saved_yet_makes_it_stale(own: Path) -> None:
    sheet = own / SHEET
    sheet.write_text(sheet.read_text().replace("26.0 / 26.1", "25.0 / 25.1"))
    assert (
        "specs.yaml:1:1: note: it was worked out before the files beside it were edited\n" in typed("check", at=own).out
    )
    typed("save", at=own)
    assert typed("check", at=own).out == "Nothing to say: the record reads well.\n"


def test_no_second_copy(own: Path) -> None:
    git(own, "remote", "remove", "backup")
    ran = typed("check", at=own)
    assert ran.status == 0
    assert "engine.yaml:1:1: note: there is no second copy:" in ran.out
    (own / ".git").rename(own / ".not-git")
    assert "in no git repository: what is overwritten is lost" in " ".join(typed("check", at=own).out.split())


def photograph(where: bool, pixels: int = 8) -> bytes:
    from PIL import Image

    picture, remarks = Image.new("RGB", (pixels, pixels)), Image.Exif()
    remarks[0x010F] = "a camera"
    if where:
        remarks.get_ifd(0x8825)[1] = "N"
    out = BytesIO()
    picture.save(out, "JPEG", exif=remarks)
    return out.getvalue()


def test_advice_on_photographs(own: Path) -> None:
    pictures = {"at-home.JPG": photograph(True), "quiet.jpg": photograph(False), "broken.jpg": b"\xff\xd8\xff\xe1\0",
                "huge.png": b"\0" * (8 * 2**20 + 1), "table.csv": b"\0" * 9}  # fmt: skip
    (own / "files").mkdir()
    for name, data in pictures.items():
        (own / "files" / name).write_bytes(data)
    typed("save", at=own)
    told = [line for line in typed("check", at=own).out.splitlines() if line.startswith("files/")]
    assert told == [
        "files/at-home.JPG:1:1: note: this photograph tells where it was taken (GPS",
        "files/huge.png:1:1: note: this picture has 8 MiB, and git keeps it for ever",
    ]


def test_private_text_is_told_at_save_and_saved(own: Path) -> None:
    (own / "notes").mkdir()
    (own / "notes/2024-03-09-seller.yaml").write_text("date: 2024-03-09\ntitle: Ask jo@example.org\n")
    ran = typed("save", at=own)
    assert ran.status == 1
    assert "notes/2024-03-09-seller.yaml:2:12: doubtful: `jo@example.org` looks like an" in ran.out
    assert git(own, "status", "--porcelain") == ""
    assert typed("check", at=own).status == 1


def test_check_starts_no_git(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*arguments: object, **more: object) -> None:
        raise AssertionError("git was started")

    monkeypatch.setattr("logbook.store.git_run.run", never)
    assert typed("check", at=own).status == 0
    assert files.read_public(own)
