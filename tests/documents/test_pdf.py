"""The history as PDF: printed without a warning, the same every time, and asking for nothing that it was not given."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from hashlib import sha256
from io import BytesIO

import bracken
import pytest
from pypdf import PdfReader

from logbook.documents import document, pdf
from logbook.documents.pieces import Asset, Picture
from logbook.errors import CannotRender

THIN = "\N{NARROW NO-BREAK SPACE}"


@pytest.fixture(scope="module")
def printed() -> pdf.Printed:
    return document.history_pdf(bracken.history())


@pytest.fixture(scope="module")
def reader(printed: pdf.Printed) -> PdfReader:
    return PdfReader(BytesIO(printed.data))


@pytest.mark.slow
def test_it_prints_without_a_warning(printed: pdf.Printed, reader: PdfReader) -> None:
    assert printed.warnings == ()
    assert printed.pages == len(reader.pages) > 8


@pytest.mark.slow
def test_figures_can_be_found_as_text(reader: PdfReader) -> None:
    text = " ".join("".join(page.extract_text() for page in reader.pages).replace(THIN, "_").split())
    for wanted in ("1_599.1", "10.84", "± 0.039", "−0.271", "real if the published figures hold"):
        assert wanted in text


@pytest.mark.slow
def test_bookmarks_mirror_the_contents(reader: PdfReader) -> None:
    titles = list(_titles(reader.outline))
    assert titles[:4] == ["Bracken special", "Contents", "How the figures are to be read", "The engine now"]
    assert "Head B, thin gasket, the long camshaft" in titles


@pytest.mark.slow
def test_every_letter_is_in_the_shipped_typeface(reader: PdfReader) -> None:
    used = [font.get_object() for page in reader.pages for font in page["/Resources"]["/Font"].values()]
    fonts = {str(font["/BaseFont"]) for font in used}
    assert fonts
    assert all("Inter" in font for font in fonts), fonts


@pytest.mark.slow
def test_it_says_what_it_is_and_in_what_language(reader: PdfReader) -> None:
    assert reader.metadata is not None
    assert reader.metadata.title == "Bracken special BR-0731: history of an engine"
    assert str(reader.metadata["/CreationDate"]).startswith("D:20200307")
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


@pytest.mark.slow
def test_a_machine_without_fonts_prints_the_same_bytes(printed: pdf.Printed, tmp_path: object) -> None:
    """Without any font the layout library would end the process; the shipped face must be enough, in any time zone."""
    config = f"{tmp_path}/fonts.conf"
    with open(config, "w", encoding="utf-8") as file:
        file.write(f'<?xml version="1.0"?><fontconfig><cachedir>{tmp_path}</cachedir></fontconfig>')
    script = (
        "import bracken; from hashlib import sha256; from logbook.documents.document import history_pdf;"
        "p = history_pdf(bracken.history()); print(p.warnings, sha256(p.data).hexdigest())"
    )
    elsewhere = {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C", "FONTCONFIG_FILE": config}
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path), **elsewhere}
    done = subprocess.run([sys.executable, "-c", script], env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == f"() {sha256(printed.data).hexdigest()}"


@pytest.mark.slow
@pytest.mark.parametrize(
    "html",
    [
        '<img alt="x" src="file:///etc/passwd">',
        '<link rel="attachment" href="file:///etc/passwd">',
        '<link rel="stylesheet" href="https://example.invalid/a.css">',
        '<style>@import url("file:///etc/passwd"); p { background: url("http://example.invalid/a.png") }</style><p>x',
        '<object data="file:///etc/passwd">x</object>',
    ],
)
def test_it_reads_no_file_and_no_network(html: str) -> None:
    printed = pdf.print_page(f"<style>html {{ font-family: Inter }}</style>{html}", {})
    assert b"root:" not in printed.data
    assert b"/EmbeddedFile" not in printed.data
    assert any("disallowed protocol" in warning or "Failed to load" in warning for warning in printed.warnings)


@pytest.mark.slow
def test_a_picture_that_will_not_load_is_reported(printed: pdf.Printed) -> None:
    history = bracken.history()
    cover = replace(history.cover, picture=Picture("asset:files/broken.jpg", "a photograph"))
    assets = {**history.assets, "asset:files/broken.jpg": Asset(b"no", "image/jpeg")}
    broken = replace(history, cover=cover, changes=(), assets=assets)
    assert any("broken.jpg" in warning for warning in document.history_pdf(broken).warnings)


def test_a_missing_system_library_is_one_sentence_with_the_way_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    monkeypatch.setattr("builtins.__import__", _without_pango(__import__))
    with pytest.raises(CannotRender, match=r"apt-get install --no-install-recommends libpango-1\.0-0"):
        pdf.print_page("<p>x", {})


def _without_pango(real: object) -> object:
    def imported(name: str, *more: object) -> object:
        if name.startswith("weasyprint"):
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *more)  # type: ignore[operator]

    return imported


@pytest.mark.slow
def test_a_page_nested_too_deeply_is_refused_with_words() -> None:
    with pytest.raises(CannotRender, match="nested too deeply"):
        pdf.print_page("<div>" * 900 + "x", {})


def _titles(outline: object) -> Iterator[str]:
    for item in outline:  # type: ignore[attr-defined]
        if isinstance(item, list):
            yield from _titles(item)
        else:
            yield str(item.title)
