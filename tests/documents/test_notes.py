"""Notes from anybody's folder: what is printed, and what must never be."""

from __future__ import annotations

import re
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.documents.notes import MOST_BYTES, Notes

ALLOWED_ADDRESS = re.compile(r'(?:href="(?:https?:|mailto:|#fn)|src="asset:files/)')


def test_markdown_is_set_with_headings_below_the_documents_own() -> None:
    html = Notes().html("# Head\n\n**bold** and\n\n| a | b |\n|---|--:|\n| 1 | 2 |\n\n- one\n")
    assert "<h4>Head</h4>" in html
    assert "<strong>bold</strong>" in html
    assert 'style="text-align:right"' in html.replace(": ", ":")
    assert "<li>one</li>" in html


def test_an_empty_note_is_nothing() -> None:
    assert Notes().html(" \n") == ""


def test_raw_html_comes_out_as_the_text_it_was() -> None:
    html = Notes().html('gap <0.30 mm <script>alert(1)</script> <b onclick="x">bold</b>')
    assert "<script" not in html
    assert "<b " not in html
    assert "&lt;script&gt;" in html
    assert "&lt;0.30" in html


def test_only_pictures_of_the_record_are_shown() -> None:
    html = Notes({"files/bore.jpg"}).html(
        "![bore](files/bore.jpg) ![out](../x.jpg) ![file](file:///etc/passwd) ![web](https://e.example/x.png) "
        "![ours](asset:fonts/Inter-Regular.otf) ![other](files/other.jpg)"
    )
    assert re.findall(r'src="([^"]*)"', html) == ["asset:files/bore.jpg"]
    assert 'alt="other"' in html


def test_only_web_and_mail_are_linked() -> None:
    html = Notes().html(
        "[a](https://e.example/) [b](mailto:a@e.example) "
        "[c](javascript:1) [d](file:///x) [e](parts/x.yaml) <JaVaScript:1>"
    )
    assert re.findall(r'href="([^"]*)"', html) == ["https://e.example/", "mailto:a@e.example"]


def test_footnotes_of_two_notes_do_not_share_an_id() -> None:
    notes = Notes()
    html = notes.html("a[^1]\n\n[^1]: first") + notes.html("b[^1]\n\n[^1]: second")
    ids = re.findall(r'id="([^"]*)"', html)
    assert len(ids) == len(set(ids)) == 4
    assert all(f'href="#{name}"' in html for name in ids)


def test_the_same_notes_give_the_same_html() -> None:
    def once() -> list[str]:
        notes = Notes()
        return [notes.html(text) for text in ("a[^1]\n\n[^1]: x", "# b", "c[^1]\n\n[^1]: y")]

    assert once() == once()


@pytest.mark.parametrize(
    "text",
    ["x" * (MOST_BYTES + 1), "[" * 5000, "![a](" * 5000, "<a " * 5000, "> " * 200 + "x", "- " * 200 + "x",
     "\n".join("    " * depth + "- x" for depth in range(300))],
    ids=["long", "brackets", "pictures", "tags", "quotes", "lists on a line", "lists"],
)  # fmt: skip
def test_what_the_reader_would_choke_on_is_printed_as_typed(text: str) -> None:
    start = time.process_time()
    assert Notes().html(text).startswith("<pre>")
    assert time.process_time() - start < 1  # the unguarded reader needs from three seconds to forever


@given(st.text(max_size=300))
def test_nothing_typed_makes_a_foreign_address_or_a_script(text: str) -> None:
    html = Notes({"files/a.jpg"}).html(text)
    assert "<script" not in html
    assert "<iframe" not in html
    assert all(ALLOWED_ADDRESS.match(found) for found in re.findall(r'(?:href|src)="[^"]*"', html))


def test_numbers_in_a_note_stay_on_one_line() -> None:
    assert "13.9\N{NO-BREAK SPACE}bar" in Notes().html("Held 13.9 bar.")
