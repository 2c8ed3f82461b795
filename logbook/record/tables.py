"""Tables as CSV: what a test read, what a tune sets. Strict, and every bad cell is told at its line and column.

Of one dimension, the first row names each column with its unit:

    engine_speed rpm,torque N m
    2000,88

Of two, the first cell names what is inside and the other cells of the first row are engine speeds in rpm; each row
begins with its load:

    ignition_advance deg,1000,2000,3000
    20,14,20,26

Below the first row there are numbers only, and `x` where none was taken.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from logbook.quantity.catalogue import catalogue
from logbook.quantity.units import UnknownUnit, unit
from logbook.record.finding import WRONG, Finding

_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]{1,14})?")
_HEAD = re.compile(r"([a-z][a-z0-9_]*)(?: (.+))?")
_NOT_TAKEN = "x"
_MOST_TOLD = 20


class Head(NamedTuple):
    """What a column holds, and in which unit as the table writes it; '' where it is written bare."""

    name: str
    unit: str


class Cell(NamedTuple):
    """A number as written and as it counts, in the column's own unit."""

    text: str
    value: float


class Table(NamedTuple):
    """A table that reads well.

    Of one dimension: a head for each column, and `across` is empty. Of two: one head, of what is inside; `across` are
    the engine speeds and the first cell of each row is its load. None: not taken.
    """

    heads: tuple[Head, ...]
    rows: tuple[tuple[Cell | None, ...], ...]
    across: tuple[Cell, ...] = ()

    def column(self, index: int) -> tuple[Cell | None, ...]:
        """The cells of one column, downwards."""
        return tuple(row[index] for row in self.rows)


class _Wrong(Exception):
    def __init__(self, column: int, says: str, mend: str) -> None:
        super().__init__(says)
        self.column, self.says, self.mend = column, says, mend


def read_table(data: bytes, file: str) -> tuple[Table | None, tuple[Finding, ...]]:
    """The table in these bytes, or None and what is wrong with it."""
    try:
        lines = data.decode("utf-8-sig").splitlines()
    except UnicodeDecodeError:
        return None, (Finding(file, 1, 1, WRONG, "this is no text in UTF-8", "save the table as CSV in UTF-8"),)
    while lines and not lines[-1].strip():
        lines.pop()
    troubles: list[Finding] = []
    table = _table(lines, file, troubles)
    return (None if troubles else table), tuple(troubles[:_MOST_TOLD])


def column_of(data: bytes, line: int, index: int) -> int:
    """The column in which a cell of a table that reads well begins, counted from 1; its line too, the cell from 0."""
    cells = list(_cells(data.decode("utf-8-sig").splitlines()[line - 1]))
    return cells[index][0]


def _table(lines: list[str], file: str, troubles: list[Finding]) -> Table | None:
    try:
        heads, across = _first_row(lines)
    except _Wrong as wrong:
        troubles.append(Finding(file, 1, wrong.column, WRONG, wrong.says, wrong.mend))
        return None
    rows = []
    for number, line in enumerate(lines[1:], 2):
        try:
            rows.append(_row(line, len(across) + 1 if across else len(heads)))
        except _Wrong as wrong:
            troubles.append(Finding(file, number, wrong.column, WRONG, wrong.says, wrong.mend))
    return Table(heads, tuple(rows), across)


def _first_row(lines: list[str]) -> tuple[tuple[Head, ...], tuple[Cell, ...]]:
    if not lines:
        raise _Wrong(1, "the table is empty", "begin it with the names of its columns: engine_speed rpm,torque N m")
    if ";" in lines[0] and "," not in lines[0]:
        raise _Wrong(lines[0].index(";") + 1, "the cells are separated by ;", "separate them by commas, decimals by a "
                     "point")  # fmt: skip
    if len(lines) == 1:
        raise _Wrong(1, "there is no row of numbers below the first row", "add the rows, or remove the file")
    cells = list(_cells(lines[0]))
    if len(cells) > 1 and all(_NUMBER.fullmatch(text) for _, text in cells[1:]):
        return (_head(*cells[0]),), tuple(Cell(text, float(text)) for _, text in cells[1:])
    heads = tuple(_head(*cell) for cell in cells)
    _named_once(heads, cells)
    return heads, ()


def _named_once(heads: tuple[Head, ...], cells: list[tuple[int, str]]) -> None:
    names = [head.name for head in heads]
    for index, name in enumerate(names):
        if name in names[:index]:
            raise _Wrong(cells[index][0], f"two columns are named `{name}`", "give each a name of its own")


def _head(column: int, text: str) -> Head:
    """`torque N m`: a name, and its unit as far as it has one."""
    found = _HEAD.fullmatch(text)
    if not found:
        raise _Wrong(column, f"`{_shown(text)}` does not name a column",
                     "write a name in small letters and its unit: engine_speed rpm")  # fmt: skip
    name, symbol = found[1], found[2] or ""
    row = catalogue().get(name)
    if symbol:
        its = _unit(column + len(name) + 1, symbol)
        if row and row.unit and unit(its).kind != row.kind:
            raise _Wrong(column + len(name) + 1, f"`{name}` is not read in {its}", f"write `{name} {row.unit}`")
        return Head(name, its)
    if row and row.unit:
        raise _Wrong(column, f"`{name}` has no unit", f"write it behind the name: `{name} {row.unit}`")
    return Head(name, "")


def _unit(column: int, symbol: str) -> str:
    try:
        return unit(symbol).symbol
    except UnknownUnit as unknown:
        raise _Wrong(column, unknown.says, unknown.mend) from None


def _row(line: str, wanted: int) -> tuple[Cell | None, ...]:
    cells = list(_cells(line))
    if len(cells) != wanted:
        mend = "write decimals with a point, and x where nothing was taken"
        raise _Wrong(1, f"this row has {len(cells)} {'cell' if len(cells) == 1 else 'cells'}, "
                     f"the first row {wanted}", mend)  # fmt: skip
    return tuple(_cell(*cell) for cell in cells)


def _cell(column: int, text: str) -> Cell | None:
    if text == _NOT_TAKEN:
        return None
    if not _NUMBER.fullmatch(text):
        what = f"`{_shown(text)}` is not a number" if text else "there is nothing in this cell"
        raise _Wrong(column, what, "write digits with a point for decimals, x where nothing was taken")
    return Cell(text, float(text))


def _cells(line: str) -> Iterator[tuple[int, str]]:
    """Each cell with the column that its text begins in, counted from 1."""
    start = 0
    for text in line.split(","):
        yield start + len(text) - len(text.lstrip()) + 1, text.strip()
        start += len(text) + 1


def _shown(text: str) -> str:
    return text if len(text) <= 30 else text[:29] + "…"
