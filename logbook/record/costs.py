"""private/costs.csv: what an entry or a part cost, a line each: `entry,amount,currency`. No spec rests on it."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from decimal import Decimal
from typing import NamedTuple

from logbook.record.finding import DOUBTFUL, Finding
from logbook.record.record import Record

HEAD = ["entry", "amount", "currency"]
_AMOUNT = re.compile(r"-?[0-9]{1,12}(?:\.[0-9]{1,4})?")  # what nobody pays is a slip; so a sum stays exact
_SHOWN = 20
_CURRENCY = re.compile(r"[A-Z]{3}")


class Cost(NamedTuple):
    """One line: an entry's or a part's file without its ending, an amount, a currency."""

    of: str
    amount: Decimal
    currency: str


def costs(data: bytes, record: Record) -> Iterator[Cost]:
    """The lines that can be read; of the others `costs_can_be_read` tells."""
    for line in data.decode("utf-8-sig", "replace").splitlines()[1:]:
        cells = _cells(line)
        if any(cells) and not any(_wrong(cells, line, record)):
            yield Cost(cells[0], Decimal(cells[1]), cells[2])


def _cells(line: str) -> list[str]:
    try:
        return [cell.strip() for cell in next(csv.reader([line]), [])]
    except csv.Error:  # a cell longer than any line that was written by hand
        return [line]


def costs_can_be_read(file: str, data: bytes, record: Record) -> Iterator[Finding]:
    """A finding for each line that names no entry, no amount or no currency."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        yield Finding(file, 1, 1, DOUBTFUL, "the file is not UTF-8", "save it as UTF-8")
        return
    for number, line in enumerate(text.splitlines(), 1):
        cells = _cells(line)
        if number == 1 and cells != HEAD:
            yield Finding(file, 1, 1, DOUBTFUL, "the first line must name the columns", "write entry,amount,currency")
        elif number > 1 and any(cells):
            yield from (Finding(file, number, *rest) for rest in _wrong(cells, line, record))


def _wrong(cells: list[str], line: str, record: Record) -> Iterator[tuple[int, str, str, str]]:
    if len(cells) != len(HEAD):
        yield 1, DOUBTFUL, f"there are {len(cells)} columns, not 3", "write entry,amount,currency, with a decimal point"
        return
    entry, amount, currency = cells
    known = record.entry(entry) is not None or entry.removeprefix("parts/").removesuffix(".yaml") in record.parts
    if not known and not record.unreadable(entry):
        mend = "write an entry's file name, such as 2024-03-02-head-b-on, or a part's, such as parts/head-b"
        yield 1, DOUBTFUL, f"there is no entry {entry}", mend
    if not _AMOUNT.fullmatch(amount):
        shown = amount if len(amount) <= _SHOWN else f"{amount[:_SHOWN]}…"
        yield line.find(",") + 2, DOUBTFUL, f"`{shown}` is no amount", "write a number, such as 129.50"
    if not _CURRENCY.fullmatch(currency):
        column = line.rfind(",") + 2
        yield column, DOUBTFUL, f"`{currency}` is no currency", "write its three capital letters, such as EUR"
