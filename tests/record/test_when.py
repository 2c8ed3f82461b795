"""Dates and readings as people know them."""

from __future__ import annotations

from contextlib import suppress
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.record.when import NotThat, parse_amount, parse_date, parse_reading, parse_time


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2024-03-09", date(2024, 3, 9), date(2024, 3, 9)),
        ("2024-02", date(2024, 2, 1), date(2024, 2, 29)),
        ("1998", date(1998, 1, 1), date(1998, 12, 31)),
        ("about 1998-07", date(1998, 7, 1), date(1998, 7, 31)),
        ("0001-12", date(1, 12, 1), date(1, 12, 31)),
    ],
)
def test_a_date_is_every_day_that_it_can_mean(text: str, first: date, last: date) -> None:
    when = parse_date(text)
    assert (when.first, when.last, str(when)) == (first, last, text)
    assert when.exact == (first == last)


@pytest.mark.parametrize("text", ["", "2024-2-3", "2024-13", "2023-02-29", "0000", "24-02-03", "2024-02-03 "])
def test_what_is_no_day(text: str) -> None:
    with pytest.raises(NotThat):
        parse_date(text)


def test_a_time_of_day() -> None:
    assert parse_time("07:05") == time(7, 5)
    for text in ("7:05", "24:00", "12:60", "12.30"):
        with pytest.raises(NotThat):
            parse_time(text)


@pytest.mark.parametrize(
    ("text", "metres", "seconds"),
    [
        ("61204 km", 61204e3, None),
        ("about 38000 mi", 38000 * 1609.344, None),  # the international mile, exact
        ("61204 km, 12.5 h", 61204e3, 45000),
        ("12.5 h", None, 45000),
        ("unknown", None, None),
    ],
)
def test_a_reading_names_its_counter_by_its_unit(text: str, metres: float | None, seconds: float | None) -> None:
    shown = {amount.kind: amount.base for amount in parse_reading(text)}
    assert shown.get("distance") == (pytest.approx(metres) if metres else None)
    assert shown.get("time") == (pytest.approx(seconds) if seconds else None)


NO_READING = ["61 204 km", "61k km", "61204 m", "61204km", "-5 km", "km", "1 km 2 h", "9" * 400 + " km"]


@pytest.mark.parametrize("text", NO_READING)
def test_what_is_no_reading(text: str) -> None:
    with pytest.raises(NotThat):
        parse_reading(text)


@given(st.text(max_size=30) | st.from_regex(r"(about )?[0-9]{1,400}(\.[0-9]+)? (km|mi|h)", fullmatch=True))
def test_no_text_raises_anything_else(text: str) -> None:
    for parse in (parse_date, parse_time, parse_reading, parse_amount):
        with suppress(NotThat):
            parse(text)


@given(st.integers(0, 10**7), st.sampled_from(["km", "mi", "h"]), st.sampled_from(["", "about ", "at least "]))
def test_a_reading_prints_as_it_was_written(number: int, unit: str, hedge: str) -> None:
    assert str(parse_amount(f"{hedge}{number} {unit}")) == f"{hedge}{number} {unit}"
