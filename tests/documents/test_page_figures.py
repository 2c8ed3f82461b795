"""Digits, signs and spaces of printed numbers."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.documents import figures
from logbook.documents.figures import MINUS, NO_BREAK, THIN

SIZES = st.floats(min_value=1e-6, max_value=1e6)


@pytest.mark.parametrize(
    ("value", "expanded", "printed"),
    [
        (10.8391, 0.1162, ("10.84", "0.12")),
        (38.04, 0.0996, ("38.04", "0.10")),  # rounds up to the next power of ten: two digits still
        (1599.14, 1.62, (f"1{THIN}599.1", "1.6")),
        (104312.0, 150.0, (f"104{THIN}310", "150")),
        (1599.14, 1234.0, (f"1{THIN}600", f"1{THIN}200")),
        (0.3, 0.02, ("0.300", "0.020")),
        (-0.0004, 0.02, ("0.000", "0.020")),  # no minus before nothing
        (2.675, 0.0, ("2.68", "")),  # half up, as written, not as stored in binary
        (2.675, None, ("2.68", "")),
        (float("nan"), 0.1, ("—", "0.10")),
    ],
)
def test_two_digits_of_the_uncertainty_decide(value: float, expanded: float | None, printed: tuple[str, str]) -> None:
    assert figures.pair(value, expanded) == printed


@pytest.mark.parametrize(
    ("value", "expanded", "printed"),
    [
        (-0.2712, 0.0431, f"{MINUS}0.271"),
        (0.2712, 0.0431, "+0.271"),
        (0.0001, 0.043, "0.000"),
        (-0.0001, 0.043, "0.000"),
    ],
)
def test_a_difference_carries_its_sign(value: float, expanded: float, printed: str) -> None:
    assert figures.difference(value, expanded)[0] == printed


@given(st.floats(min_value=-1e6, max_value=1e6), SIZES)
def test_what_is_printed_is_the_value_to_half_of_its_last_digit(value: float, expanded: float) -> None:
    text, plus_minus = figures.pair(value, expanded)
    back = float(text.replace(MINUS, "-").replace(THIN, ""))
    step = float(plus_minus.replace(THIN, "")) / _two_digits(plus_minus)
    assert math.isclose(back, value, rel_tol=1e-12, abs_tol=0.5 * step * 1.000001)


@given(SIZES)
def test_an_uncertainty_has_two_significant_digits(expanded: float) -> None:
    assert 10 <= _two_digits(figures.pair(0.0, expanded)[1]) <= 99


@given(st.floats(min_value=-1e6, max_value=1e6), SIZES)
def test_value_and_uncertainty_end_at_the_same_place(value: float, expanded: float) -> None:
    text, plus_minus = figures.pair(value, expanded)
    assert figures.places_of(text) == figures.places_of(plus_minus)


def _two_digits(text: str) -> int:
    digits = text.replace(THIN, "").replace(".", "").lstrip("0")
    return int(digits if "." in text else digits[:2])


def test_a_joined_figure_has_no_place_where_a_line_may_end() -> None:
    joined = figures.joined(*figures.pair(1599.14, 1.62), "cc")
    assert joined == f"1{THIN}599.1{NO_BREAK}±{NO_BREAK}1.6{NO_BREAK}cc"
    assert not re.search(r"[ \N{THIN SPACE}]", joined)


@pytest.mark.parametrize(
    ("loose", "together"),
    [
        ("fell 2.1 bar between 96 420 and 104 300 km", "fell 2.1~bar between 96~420 and 104~300~km"),
        ("11.08 ± 0.25; 9 April 2016", "11.08~±~0.25; 9~April 2016"),
        ("82 % at 9.5 °C and 17.9 m/s", "82~% at 9.5~°C and 17.9~m/s"),
        ("casting 214 without a mark", "casting 214 without a mark"),
        ("see 1 May.", "see 1~May."),
    ],
)
def test_numbers_in_sentences_are_kept_together(loose: str, together: str) -> None:
    assert figures.kept_together(loose) == together.replace("~", NO_BREAK)


@pytest.mark.parametrize(
    ("text", "lacks"),
    [
        ("10.84", ""),
        ("8.7", "lacks-1"),
        (f"1{THIN}599", "lacks-point-2"),
        ("—", "lacks-point-2"),
        ("v1.x", "lacks-point-2"),
    ],
)
def test_numbers_say_what_they_lack_to_stand_under_the_point(text: str, lacks: str) -> None:
    assert figures.lacking(text, 2) == lacks
