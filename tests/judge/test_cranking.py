"""Compression tests foretold from the first with the same gauge: how the wrong sign of a crown shows itself.

The expected figures of the example are worked out by hand from p + 1 bar = ratio^n, n = 1.256 of the first test
(11.9 bar at 7.66): 14.0 bar with the crown's sign wrong, 15.8 with it right, 14.5 and 14.1 of the two later heads.
"""

from __future__ import annotations

import re

import pytest
from lives import EXAMPLE

from logbook.judge import cranking
from logbook.judge.cranking import foretold
from logbook.logbook import Logbook

TEXTS = dict(Logbook.open(EXAMPLE).record.texts)
SPRING_2017 = "tests/2017-04-22-compression.yaml"


def upto(day: str, *changed: tuple[str, str, str]) -> Logbook:
    """The example as its record stood at the end of a day, with (file, text, other text) exchanged."""
    dated = {file: re.search(r"\d{4}-\d\d-\d\d", file) for file in TEXTS}
    texts = {file: TEXTS[file] for file, found in dated.items() if found is None or found[0] <= day}
    for file, old, new in changed:
        assert texts[file].decode().count(old) == 1, (file, old)
        texts[file] = texts[file].decode().replace(old, new).encode()
    return Logbook.of_texts(texts)


def bars(book: Logbook, *, then: bool = False) -> list[float]:
    return [round(each.mean.nominal / 1e5, 1) for each in foretold(book.life, then=then)]


def test_the_example_as_known_now_and_as_known_then() -> None:
    book = Logbook.open(EXAMPLE)
    assert bars(book) == [15.8, 14.5, 14.1]
    assert bars(book, then=True) == [14.0, 14.5, 14.1]
    assert not list(cranking.tests_are_as_foretold(book.life))


def test_a_crown_with_the_wrong_sign_shows_itself_in_the_next_test() -> None:
    (found,) = foretold(upto("2017-04-22").life)
    assert found.departs
    assert found.as_if_turned
    assert found.as_if == pytest.approx(9.39, abs=0.01)  # 16.6 bar absolute, to the power of 1/1.256
    (finding,) = cranking.tests_are_as_foretold(upto("2017-04-22").life)
    assert str(finding).startswith(f"{SPRING_2017}:10:")
    assert "15.6 bar gauge in the mean where 14.0 ± 0.5" in finding.says
    assert "9.39 and not 8.65, and as if the crowns had the other sign" in finding.says
    assert finding.level == "note"


def test_the_crown_is_not_named_where_its_sign_does_not_explain_it() -> None:
    low = (SPRING_2017, "15.6 / 15.7 / 15.5 / 15.7", "12.6 / 12.7 / 12.5 / 12.7")
    (finding,) = cranking.tests_are_as_foretold(upto("2017-04-22", low).life)
    assert "crown" not in finding.says
    assert "leakage" in finding.mend


@pytest.mark.parametrize(("old", "new"), [("with: gauge-1", "with: another gauge"), ("oil: dry", "oil: with damp oil")])
def test_nothing_is_carried_to_another_gauge_or_to_other_oil(old: str, new: str) -> None:
    assert not list(foretold(upto("2017-04-22", (SPRING_2017, old, new)).life))


def test_a_barometer_that_was_read_counts_and_takes_the_doubt_of_the_air_away() -> None:
    files = ("tests/2016-04-09-compression-dry.yaml", SPRING_2017)
    read = [(file, "plugs: all out}", "plugs: all out, pressure: 98 kPa absolute}") for file in files]
    (plain,), (with_air,) = foretold(upto("2017-04-22").life), foretold(upto("2017-04-22", *read).life)
    assert with_air.mean.nominal != plain.mean.nominal
    assert with_air.mean.nominal == pytest.approx(plain.mean.nominal, rel=0.005)  # the same air cancels nearly
    assert with_air.mean.standard < plain.mean.standard


def test_without_figures_for_the_ratio_nothing_is_foretold() -> None:
    texts = {file: data for file, data in TEXTS.items() if file == "engine.yaml" or file.startswith("tests/")}
    assert not list(foretold(Logbook.of_texts(texts).life))
