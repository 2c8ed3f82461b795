"""A figure outside what its formula holds for carries a mark and the reason, wherever the page tells it."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.cli.shapes import difference_shape
from logbook.documents.content import History
from logbook.documents.history.fill import history
from logbook.documents.render import history_page
from logbook.judge.compare import compare

REASON = "look for a slip in a volume"


@pytest.fixture(scope="module")
def life() -> Life:
    """Ratios of 28.8 and 30.4, which no engine has: one clearance volume was misread and then measured anew."""
    life = Life(2).part("b", "block", bore="80 mm").part("c", "crankshaft", stroke="99.472 mm")
    life.part("one", "cylinder_head").part("two", "cylinder_head")
    life.work("2024-01-01", "fit: b", "fit: c", "fit: one", build="first")
    life.measure("2024-01-02", clearance_volume="18.0 / 18.1 cc")
    life.work("2024-02-01", "fit: two", build="second")
    return life.measure("2024-02-02", clearance_volume="17.0 / 17.1 cc")


@pytest.fixture(scope="module")
def told(life: Life) -> History:
    return history(life.book)


def test_the_engine_now_says_why(told: History) -> None:
    notes = [row.figure.note for group in told.groups for row in group.rows if "ompression ratio" in row.name]
    assert notes
    assert all(REASON in note and note.startswith("†") for note in notes)


def test_the_cover_marks_it(told: History) -> None:
    ratio = next(row for row in told.cover.figures if row.name.startswith("Compression ratio"))
    assert "outside its validity" in ratio.figure.basis


def test_builds_side_by_side_mark_it_and_say_why_below(told: History) -> None:
    (table,) = told.builds
    ratios = next(row for row in table.rows if row[0].startswith("Compression ratio"))
    assert [cell.endswith("†") for cell in ratios[1:]] == [True, True]
    assert REASON in table.note


def test_a_comparison_and_its_json_say_why(life: Life) -> None:
    found = compare(life.at("first"), life.at("now")).specs["compression_ratio"]
    reasons = difference_shape(found)["outside_validity"]
    assert [len(reasons["from"]), len(reasons["to"])] == [1, 1]
    assert REASON in reasons["to"][0]


def test_the_page_has_the_mark_and_its_key(told: History) -> None:
    page = history_page(told)
    assert REASON in page
    assert '<dt class="hang">†</dt>' in page


def test_the_example_marks_its_mach_index_alone(example: History) -> None:
    marked = [row.name for group in example.groups for row in group.rows if "†" in row.figure.note]
    assert marked == ["Inlet Mach index at the limit, mean"]
