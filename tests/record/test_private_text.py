"""Text that looks private: every pattern finds its samples, and none finds what a workshop writes every day."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.record.private_text import PATTERNS, Pattern, private_text

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
