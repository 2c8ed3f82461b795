"""Dates and readings as people know them: exact, or only about right.

A date may be a day, a month, a year or `about` one; it is kept with its first and last possible day. A reading names
its counter by its unit; distance and hours stand side by side and are never turned into each other.
"""

from __future__ import annotations

import re
from datetime import date, time, timedelta
from typing import NamedTuple

from logbook.quantity.units import unit

_DATE = re.compile(r"(about )?([0-9]{4})(?:-([0-9]{2}))?(?:-([0-9]{2}))?")
_READING = re.compile(r"(about |at least )?([0-9]{1,9}(?:\.[0-9]{1,6})?) (km|mi|h)")
_TIME = re.compile(r"([01]\d|2[0-3]):([0-5]\d)")


class NotThat(ValueError):
    """What is wrong with a date or reading, and what to write instead."""

    def __init__(self, says: str, mend: str) -> None:
        super().__init__(says)
        self.says, self.mend = says, mend


class When(NamedTuple):
    """A date as written, with the first and the last day it can mean."""

    text: str
    first: date
    last: date

    @property
    def exact(self) -> bool:
        return self.first == self.last

    def __str__(self) -> str:
        return self.text


class Amount(NamedTuple):
    """What one counter showed: base value (m or s), its unit and whether it is only about or at least that."""

    base: float
    unit: str
    hedge: str = ""

    @property
    def kind(self) -> str:
        return unit(self.unit).kind

    def __str__(self) -> str:
        return f"{self.hedge}{unit(self.unit).from_base(self.base):.10g} {self.unit}"


Reading = tuple[Amount, ...]


def parse_date(text: str) -> When:
    """`2024-03-09`, `2024-03`, `2024`, each also with `about `; NotThat otherwise."""
    found = _DATE.fullmatch(text)
    if not found:
        raise NotThat(
            f"`{text}` is not a date", "write year-month-day, for example 2024-03-09, or less if less is known"
        )
    year, month, day = int(found[2]), found[3], found[4]
    try:
        first = date(year, int(month or 1), int(day or 1))
        last_month = int(month or 12)
        last = first if day else _last_day(year, last_month)
    except ValueError:
        raise NotThat(f"there is no day {text}", "correct the month or the day") from None
    return When(text, first, last)


def _last_day(year: int, month: int) -> date:
    """The day before the next month begins."""
    return date(year + month // 12, month % 12 + 1, 1) - timedelta(days=1) if (year, month) != (9999, 12) else date.max


def parse_time(text: str) -> time:
    """`14:30`; NotThat otherwise."""
    found = _TIME.fullmatch(text)
    if not found:
        raise NotThat(f"`{text}` is not a time of day", "write hours and minutes, for example 14:30")
    return time(int(found[1]), int(found[2]))


def parse_reading(text: str) -> Reading:
    """`61204 km`, `61204 km, 12.5 h`, `about 61000 mi`, `unknown` (an empty tuple); NotThat otherwise."""
    if text == "unknown":
        return ()
    amounts = tuple(parse_amount(each.strip()) for each in text.split(", "))
    units = [amount.kind for amount in amounts]
    if len(set(units)) < len(units):
        raise NotThat(f"`{text}` gives one counter twice", "keep one reading for each counter")
    return amounts


def parse_amount(text: str) -> Amount:
    """One reading of one counter."""
    found = _READING.fullmatch(text)
    if not found:
        raise NotThat(
            f"`{text}` is not a reading",
            "write a number without commas or spaces and its unit, km, mi or h, "
            "for example 61204 km or 12.5 h; unknown if nobody knows",
        )
    return Amount(unit(found[3]).to_base(float(found[2])), found[3], found[1] or "")
