"""As of when something is judged: a point of the record, or a day or a reading that still lies ahead of it."""

from __future__ import annotations

import re
from datetime import date
from typing import NamedTuple

from logbook.errors import PointUnknown
from logbook.record.when import Amount, NotThat, parse_amount, parse_date
from logbook.state.fold import Life
from logbook.state.points import find_point
from logbook.state.states import State

_READING = re.compile(r"([0-9]{1,9}(?:\.[0-9]{1,6})?) ?(km|mi|h)")
_DATE = re.compile(r"[0-9]{4}(-[0-9]{2}){0,2}")


class AsOf(NamedTuple):
    """The engine after entry `number`, run on to a day or a reading if these lie later."""

    number: int
    state: State
    day: date

    def shown(self, kind: str, ahead: float) -> tuple[float | None, bool]:
        """What a counter shows `ahead` [m or s] from now, and whether it is only the engine's own total; base units."""
        running = next((each for each in self.state.counters.running.values() if each.kind == kind), None)
        if running and running.last is not None:
            return running.last + ahead, False
        total = self.state.counters.totals.of(kind)
        return (None if total is None else total + ahead), True


def as_of(life: Life, text: str | None = None) -> AsOf | None:
    """The last entry, a point of the record, or what lies ahead; None where the record has no entries.

    PointUnknown where `text` is none of these.
    """
    if not life.states:
        return None
    last = _after(life, len(life.states) - 1)
    if text is None or text.strip() == "now":
        return last
    return (
        _a_day(life, last, text.strip())
        or _a_reading(last, text.strip())
        or _after(life, find_point(life, text).number)
    )


def _after(life: Life, number: int) -> AsOf:
    return AsOf(number, life.after(number), life.record.entries[number].says.date.first)


def _a_day(life: Life, last: AsOf, text: str) -> AsOf | None:
    """The end of a day, of a month or of a year; the engine as its last entry before that left it."""
    if not _DATE.fullmatch(text):
        return None
    try:
        day = parse_date(text).last
    except NotThat as problem:
        raise PointUnknown(f"`{text}` is no day: {problem.says}; {problem.mend}") from None
    return _after(life, find_point(life, text).number)._replace(day=day)


def _a_reading(last: AsOf, text: str) -> AsOf | None:
    """What the counter will show some day; None where it has shown it already."""
    found = _READING.fullmatch(text)
    if not found:
        return None
    amount = parse_amount(f"{found[1]} {found[2]}")
    counters = last.state.counters
    if any(each.kind == amount.kind for each in counters.running.values()) and _is_ahead(last, amount):
        read, _ = counters.read((amount,))
        return last._replace(state=last.state._replace(counters=read))
    return None


def _is_ahead(last: AsOf, amount: Amount) -> bool:
    shown = [each.last for each in last.state.counters.running.values() if each.kind == amount.kind]
    return all(each is None or amount.base > each for each in shown)
