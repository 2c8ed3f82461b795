"""`logbook report`: where the document comes to lie, what it refuses, and what it does without the PDF library."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from keyboard import Ran, typed
from lives import EXAMPLE

from logbook.documents import pdf, single_page
from logbook.errors import CannotRender
from logbook.logbook import Logbook

ENGINE = "format: 1\nname: Small one\ncylinders: 1\narrangement: single\ncounters: {odometer: km}\n"


@pytest.fixture(autouse=True)
def _no_typeface(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cutting the typeface down to a page takes a second; test_page.py looks after that."""
    monkeypatch.setattr(single_page, "_faces_for", lambda html: {})


def _said(ran: Ran) -> str:
    """What went to the error stream, however it is wrapped."""
    return " ".join(ran.err.split())


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A logbook with nothing in it but its engine.yaml."""
    folder = tmp_path / "garage" / "small"
    (folder / "parts").mkdir(parents=True)
    (folder / "engine.yaml").write_text(ENGINE)
    return folder


@pytest.fixture
def without_library(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing() -> None:
        raise CannotRender(f"the PDF cannot be made: this machine lacks a library; install it with: {pdf.NEEDED}")

    monkeypatch.setattr(pdf, "_library", missing)


def test_it_lies_where_one_stands(small: Path, tmp_path: Path) -> None:
    ran = typed("report", "--html", "--in", str(small), at=tmp_path)
    assert (ran.status, ran.out, ran.err) == (0, "small-one-history.html\n", "")
    assert "Small one" in (tmp_path / "small-one-history.html").read_text()


@pytest.mark.parametrize("inside", ["", "parts"])
def test_it_never_comes_to_lie_in_the_record(small: Path, inside: str) -> None:
    before = sorted(small.rglob("*"))
    ran = typed("report", "--html", at=small / inside)
    assert (ran.status, ran.out) == (0, f"{small.parent / 'small-one-history.html'}\n")
    assert sorted(small.rglob("*")) == before


def test_it_goes_where_it_is_told_and_makes_the_folder(small: Path, tmp_path: Path) -> None:
    out = tmp_path / "papers" / "2024" / "small.html"
    assert typed("report", "history", "--html", "--in", str(small), "--out", str(out)).out == f"{out}\n"
    assert out.is_file()


@pytest.mark.parametrize("name", ["engine.yaml", "parts/block.yaml", ".git/config"])
def test_it_replaces_no_file_of_the_record(small: Path, name: str) -> None:
    file = small / name
    file.parent.mkdir(exist_ok=True)
    file.touch()
    before = file.read_bytes()
    ran = typed("report", "--html", "--out", name, at=small)
    assert (ran.status, ran.out) == (2, "")
    assert "is not overwritten" in _said(ran)
    assert file.read_bytes() == before


def test_a_folder_is_no_file(small: Path, tmp_path: Path) -> None:
    ran = typed("report", "--html", "--in", str(small), "--out", str(tmp_path))
    assert ran.status == 2
    assert "is a folder; name a file in it" in _said(ran)


def test_an_unknown_kind_lists_what_there_is(small: Path) -> None:
    ran = typed("report", "invoice", at=small)
    assert ran.status == 2
    assert "there is no document 'invoice'. There is history: " in _said(ran)


def test_an_engine_that_cannot_be_read_is_not_reported(small: Path) -> None:
    (small / "engine.yaml").write_text("name: [1, 2]\n")
    ran = typed("report", at=small)
    assert (ran.status, ran.out) == (2, "")
    assert "engine.yaml:1:7: wrong:" in _said(ran)


def test_without_the_library_the_page_is_written_and_one_sentence_says_what_to_install(
    small: Path, tmp_path: Path, without_library: None
) -> None:
    ran = typed("report", "--in", str(small), "--out", str(tmp_path / "small.pdf"))
    assert (ran.status, ran.out) == (1, f"{tmp_path / 'small.html'}\n")
    assert f"install it with: {pdf.NEEDED}. The HTML page was written instead" in _said(ran)
    assert not (tmp_path / "small.pdf").exists()
    assert "Small one" in (tmp_path / "small.html").read_text()


def test_a_disk_that_refuses_is_one_sentence(small: Path, tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    ran = typed("report", "--html", "--in", str(small), "--out", str(tmp_path / "file" / "x.html"))
    assert ran.status == 2
    assert "cannot be written" in _said(ran)
    assert "Traceback" not in _said(ran)


def test_a_warning_of_the_library_is_shown(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        "logbook.documents.document.history_pdf", lambda *_, **__: pdf.Printed(b"%PDF", 1, ("no such",))
    )
    ran = typed("report", "--out", "x.pdf", at=small)
    assert (ran.status, ran.err) == (0, "The PDF library says: no such\n")


def test_a_strangers_templates_are_never_used(small: Path) -> None:
    """Nor his style sheets, nor anything else that lies beside the record."""
    for name in ("templates/history.html", "templates/history/cover.html", "templates/page.css", "history.html"):
        (small / name).parent.mkdir(exist_ok=True, parents=True)
        (small / name).write_text("{{ 7 * 7 }} a stranger was here")
    assert typed("report", "--html", "--out", "../x.html", at=small).status == 0
    page = (small.parent / "x.html").read_text()
    assert "a stranger was here" not in page
    assert "The engine now" in page


def test_the_shipped_record_is_opened_and_not_touched(tmp_path: Path) -> None:
    folder = Path(shutil.copytree(EXAMPLE, tmp_path / "example"))
    before = Logbook.open(folder).fingerprint
    assert typed("report", "--html", "--in", str(folder), "--out", str(tmp_path / "x.html")).status == 0
    assert Logbook.open(folder).fingerprint == before


def test_a_part_that_cannot_be_read_is_warned_of_and_the_document_is_written(small: Path, tmp_path: Path) -> None:
    (small / "parts/head-a.yaml").write_text("kind: nonsense\n")
    ran = typed("report", "--html", "--in", str(small), at=tmp_path)
    assert (ran.status, ran.out) == (1, "small-one-history.html\n")
    assert _said(ran) == ("Careful: 2 places in the record cannot be read and count for nothing here: logbook check")
    assert (tmp_path / "small-one-history.html").exists()
