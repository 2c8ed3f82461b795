"""Oil and fuel used, from log/oil.csv and log/fuel.csv: one line for each top-up or fill-up.

    date,reading,volume,level
    2024-03-09,61520 km,0.5 l,full
    2024-04-02,62410 km,1.0 l,full

`level` is `full` (up to the mark, the tank to the brim) or `part`; in oil.csv also `changed` for an oil change, which
is no use of oil. What is used runs from one full mark to the next, over distance or over hours as the log's own
readings tell: one is never turned into the other.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import NamedTuple

from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record.finding import WRONG, Finding
from logbook.record.record import Record
from logbook.record.when import NotThat, Reading, When, parse_date, parse_reading
from logbook.specs import condition
from logbook.state.counters import DISTANCE, HOURS, KINDS

HEAD = ("date", "reading", "volume", "level")
FULL, PART, CHANGED = "full", "part", "changed"
LOGS: Mapping[str, tuple[str, ...]] = {"log/oil.csv": (FULL, PART, CHANGED), "log/fuel.csv": (FULL, PART)}


class Fill(NamedTuple):
    """One line of a log; volume in m3."""

    line: int
    date: When
    reading: Reading
    volume: float
    level: str

    def shows(self, kind: str) -> float | None:
        """What the counter of that kind showed, None where it was not read."""
        return next((amount.base for amount in self.reading if amount.kind == kind), None)


class Used(NamedTuple):
    """What went from one full mark to the next. Base units; `rate` in m3/m over a distance, in m3/s over hours."""

    since: When
    until: When
    volume: float
    run: float
    over: str
    rate: float


def read_log(file: str, data: bytes) -> tuple[tuple[Fill, ...], tuple[Finding, ...]]:
    """The lines that read well, and what is wrong with the others, each at its line and column."""
    try:
        lines = data.decode("utf-8-sig").splitlines()
    except UnicodeDecodeError:
        return (), (Finding(file, 1, 1, WRONG, "this is no text in UTF-8", "save it as CSV in UTF-8"),)
    if not lines or _cells(lines[0]) != list(HEAD):
        says = "the first line must name the columns"
        return (), (Finding(file, 1, 1, WRONG, says, f"write {','.join(HEAD)}"),)
    read = [_line(file, number, line) for number, line in enumerate(lines[1:], 2) if line.strip()]
    fills = tuple(each for each in read if isinstance(each, Fill))
    findings = [each for each in read if isinstance(each, Finding)]
    return fills, (*findings, *_backwards(file, fills))


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in next(csv.reader([line]), [])]


def _line(file: str, number: int, line: str) -> Fill | Finding:
    cells = _cells(line)
    if len(cells) != len(HEAD):
        mend = f'write {",".join(HEAD)}; two counters of one reading in quotes: "61204 km, 12.5 h"'
        return Finding(file, number, 1, WRONG, f"this line has {len(cells)} cells, not {len(HEAD)}", mend)
    at = 0
    try:
        date = parse_date(cells[0])
        at = 1
        reading = parse_reading(cells[1])
        at = 2
        volume = parse_measure(cells[2], "volume")[0]
    except (NotThat, ValueProblem) as problem:
        return Finding(file, number, _column(line, cells[at]), WRONG, problem.says, problem.mend)
    if volume <= 0:
        says = f"`{cells[2]}` fills nothing in"
        return Finding(file, number, _column(line, cells[2]), WRONG, says, "write what was filled in, above zero")
    if cells[3] not in LOGS[file]:
        says, mend = f"`{cells[3]}` is no level of this log", f"write {' or '.join(LOGS[file])}"
        return Finding(file, number, _column(line, cells[3]), WRONG, says, mend)
    return Fill(number, date, reading, volume, cells[3])


def _column(line: str, cell: str) -> int:
    return max(line.find(cell), 0) + 1


def _backwards(file: str, fills: tuple[Fill, ...]) -> Iterator[Finding]:
    """Lines out of order: a counter that shows less than in the line before, or an earlier day."""
    for before, after in pairwise(fills):
        if after.date.last < before.date.first:
            says = f"{after.date} stands behind {before.date}"
            yield Finding(file, after.line, 1, WRONG, says, "keep the lines in the order of their days")
        for kind in KINDS:
            was, now = before.shows(kind), after.shows(kind)
            if was is not None and now is not None and now < was:
                says = "the counter shows less than in the line before"
                mend = "correct the reading; after a counter was replaced, say the first fill is `part` and go on"
                if after.level != PART:
                    yield Finding(file, after.line, len(after.date.text) + 2, WRONG, says, mend)


def used(file: str, fills: tuple[Fill, ...], over: str) -> tuple[Used, ...]:
    """What was used between each two full marks, over distance or hours; nothing across a change or a lost reading."""
    return tuple(_between(file, fills, over))


def _between(file: str, fills: tuple[Fill, ...], over: str) -> Iterator[Used]:
    start: tuple[When, float] | None = None
    volume = 0.0
    last: float | None = None
    for fill in fills:
        shows = fill.shows(over)
        if shows is not None and last is not None and shows < last:
            start = None  # another counter: the run between the two is not known
        last = shows if shows is not None else last
        if fill.level == CHANGED:
            start, volume = (None, 0.0) if shows is None else ((fill.date, shows), 0.0)
            continue
        volume += fill.volume
        if fill.level == FULL:
            if start and shows is not None and shows > start[1]:
                yield _used(file, start, fill.date, volume, shows, over)
            start, volume = (None if shows is None else (fill.date, shows)), 0.0


def _used(file: str, start: tuple[When, float], until: When, volume: float, shows: float, over: str) -> Used:
    run = shows - start[1]
    if file == "log/oil.csv":
        rate = (condition.oil_consumption(oil_used=volume, distance_run=run) if over == DISTANCE
                else condition.oil_consumption_hourly(oil_used=volume, hours_run=run))  # fmt: skip
    else:
        rate = (condition.fuel_consumption(fuel_used=volume, distance_run=run) if over == DISTANCE
                else condition.fuel_consumption_hourly(fuel_used=volume, hours_run=run))  # fmt: skip
    return Used(start[0], until, volume, run, over, rate)


def consumption(record: Record) -> Mapping[str, tuple[Used, ...]]:
    """What each log tells, over distance and over hours, in the order of its lines."""
    found = {}
    for file in LOGS:
        fills, _ = read_log(file, record.texts[file]) if file in record.texts else ((), ())
        found[file] = (*used(file, fills, DISTANCE), *used(file, fills, HOURS))
    return found


def logs_can_be_read(record: Record) -> Iterator[Finding]:
    """What is wrong in the logs, and files of log/ that are none of them."""
    for file, data in record.texts.items():
        if file in LOGS:
            yield from read_log(file, data)[1]
        elif file.startswith("log/"):
            yield Finding(file, 1, 1, WRONG, "this log is not read", f"the logs are {' and '.join(LOGS)}")
