"""Text that looks private: every pattern finds its samples, and none finds what a workshop writes every day."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.record.private_text import PATTERNS, Pattern, nothing_looks_private, private_text
from logbook.record.read import read_record

EXAMPLE = Path(__file__).parents[2] / "example_engine"


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.what)
def test_a_pattern_finds_its_samples(pattern: Pattern) -> None:
    for sample in pattern.samples:
        assert pattern.what in [suspect.what for suspect in private_text(sample)], sample


@pytest.mark.parametrize("innocent", [text for pattern in PATTERNS for text in pattern.innocent])
def test_no_pattern_finds_what_is_innocent(innocent: str) -> None:
    assert list(private_text(innocent)) == []


def test_the_example_holds_nothing_private() -> None:
    for file in EXAMPLE.rglob("*.yaml"):
        assert list(private_text(file.read_text(encoding="utf-8"))) == [], file


def test_the_engines_own_number_may_stand() -> None:
    text = "chassis 1M8GDM9AXKP042788"
    assert list(private_text(text, frozenset({"1M8GDM9AXKP042788"}))) == []


def test_line_and_column_are_those_of_the_text() -> None:
    (suspect,) = private_text("title: a\nnote: ask jo@example.org\n")
    assert (suspect.line, suspect.column, suspect.text) == (2, 11, "jo@example.org")


@pytest.mark.parametrize("letter", ["a", "1", "A1", "+1 ", "1.", "a.", "@a", "1,", "reg. ", "reg. A", "DE89 "])
def test_a_giant_line_holds_nobody_up(letter: str) -> None:
    """A file of a quarter mebibyte on one line: it would take hours if a pattern began again at each place."""
    list(private_text(letter * (2**18 // len(letter))))


ENGINE = "format: 1\nname: {}\nengine_number: {}\ncylinders: 4\narrangement: inline\n"


def found(name: str, number: str, note: str) -> list[str]:
    texts = {"engine.yaml": ENGINE.format(name, number).encode(), "notes/2024-01-01-a.yaml": note.encode()}
    return [str(finding) for finding in nothing_looks_private(read_record(texts))]


def test_the_finding_stands_where_the_text_stands() -> None:
    note = "date: 2024-01-01\ntitle: Who sold it\nnote: |\n  Ask jo@example.org about it.\n"
    (told,) = found("Six", "Q6", note)
    assert told == (
        "notes/2024-01-01-a.yaml:4:7: doubtful: `jo@example.org` looks like an e-mail address: everybody who gets a "
        "copy can read it; move it to private/, which is never committed here"
    )


def test_the_engines_own_number_and_name_may_stand_in_any_file() -> None:
    own = "1M8GDM9AXKP042788"
    assert found("The \u00a3500 special", own, f"title: The \u00a3500 special\nnote: {own}\n") == []
    assert len(found("Six", "Q6", f"note: {own}\n")) == 1
    assert len(found("500", "7", "note: paid \u00a3500\n")) == 1


def test_a_file_that_cannot_be_read_is_looked_through_all_the_same() -> None:
    texts = {"engine.yaml": b"\xff\nnote: jo@example.org\n", "log/fuel.csv": b"by jo@example.org"}
    told = [(each.file, each.line, each.column) for each in nothing_looks_private(read_record(texts))]
    assert told == [("engine.yaml", 2, 7), ("log/fuel.csv", 1, 4)]
