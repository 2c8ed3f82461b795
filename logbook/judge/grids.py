"""Two tables cell by cell: ignition, fuel, flow. Laid on one grid of all their points, as far as both reach.

A cell that one of them does not hold is read between its neighbours, in a straight line along each axis, and marked;
beyond the end of a table nothing is read. In: tables as record/tables.py reads them. Out: plain rows of cells.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from logbook.quantity.units import unit
from logbook.record.tables import Head, Table

RPM, LOAD = Head("engine_speed", "rpm"), Head("load", "")


class Cell(NamedTuple):
    """One cell of both tables, in the unit of the later; None where a table does not reach.

    `between`: at least one of them was read between its own cells.
    """

    before: float | None
    after: float | None
    between: bool = False

    @property
    def change(self) -> float | None:
        """Later less earlier; None where one of them is silent."""
        return None if self.before is None or self.after is None else self.after - self.before


class Grid(NamedTuple):
    """What two tables say, cell by cell.

    `inside` is what the cells hold, `down` what each row stands for, `across` what each column does (None: a table of
    one dimension, with one column). `why_not`: why they cannot be compared; then there are no cells.
    """

    name: str
    before: str | None
    after: str | None
    inside: Head
    down: Head = RPM
    across: Head | None = None
    rows: tuple[float, ...] = ()
    columns: tuple[float, ...] = ()
    cells: tuple[tuple[Cell, ...], ...] = ()
    why_not: str = ""

    @property
    def changed(self) -> bool:
        """Whether a cell differs, or the tables cannot be compared."""
        return bool(self.why_not) or any(cell.change for row in self.cells for cell in row)


class _Axis(NamedTuple):
    """The points of a table along one direction, rising."""

    points: tuple[float, ...]

    def places(self, at: float) -> list[tuple[int, float]]:
        """The points that count at a place, with their weights; empty beyond the ends."""
        if not self.points[0] <= at <= self.points[-1]:
            return []
        for near in (right := bisect_left(self.points, at), right - 1):
            if near >= 0 and _one_point(self.points[near], at):
                return [(near, 1.0)]
        share = (at - self.points[right - 1]) / (self.points[right] - self.points[right - 1])
        return [(right - 1, 1.0 - share), (right, share)]


class _Surface(NamedTuple):
    """One column of a table, or a table of two dimensions, as values over two axes."""

    down: _Axis
    across: _Axis
    values: tuple[tuple[float | None, ...], ...]

    def at(self, row: float, column: float) -> tuple[float | None, bool]:
        """The value at a place, and whether it was read between cells."""
        corners = [(i, j, a * b) for i, a in self.down.places(row) for j, b in self.across.places(column)]
        known = [(self.values[i][j], weight) for i, j, weight in corners]
        if not known or any(value is None for value, _ in known):
            return None, False
        return sum((value or 0.0) * weight for value, weight in known), len(known) > 1


def grids(name: str, before: tuple[str, Table], after: tuple[str, Table]) -> Iterator[Grid]:
    """Each column of two tables, given with their paths: one grid for a table of two dimensions."""
    (path_a, a), (path_b, b) = before, after
    if bool(a.across) != bool(b.across):
        yield Grid(name, path_a, path_b, b.heads[0], why_not="one of them has rows of load and the other has none")
        return
    pairs = _columns(a, b)
    if not pairs:
        yield Grid(name, path_a, path_b, b.heads[-1], why_not="they have no column in common")
    for one, other in pairs:
        yield _grid(name, (path_a, a, one), (path_b, b, other))


def _columns(a: Table, b: Table) -> list[tuple[int, int]]:
    """The columns that both have, by their names; the first is the axis of both."""
    if a.across:
        return [(0, 0)] if a.heads[0].name == b.heads[0].name else []
    names = [head.name for head in a.heads]
    if names[0] != b.heads[0].name:
        return []
    return [(names.index(head.name), number) for number, head in enumerate(b.heads) if number and head.name in names]


def _grid(name: str, before: tuple[str, Table, int], after: tuple[str, Table, int]) -> Grid:
    (path_a, a, one), (path_b, b, other) = before, after
    inside = b.heads[other]
    down, across = (LOAD, RPM) if b.across else (b.heads[0], None)
    try:
        first, second = _surface(a, one, inside, b.heads[0]), _surface(b, other, inside, b.heads[0])
    except _Unruly as unruly:
        return Grid(name, path_a, path_b, inside, why_not=str(unruly))
    rows = _common(first.down, second.down)
    columns = _common(first.across, second.across)
    cells = tuple(tuple(_cell(first, second, row, column) for column in columns) for row in rows)
    why = "" if rows and columns else "they have no stretch in common"
    return Grid(name, path_a, path_b, inside, down, across, rows, columns, cells, why)


def _cell(first: _Surface, second: _Surface, row: float, column: float) -> Cell:
    (was, read), (now, guessed) = first.at(row, column), second.at(row, column)
    return Cell(was, now, read or guessed)


def _common(first: _Axis, second: _Axis) -> tuple[float, ...]:
    """The points of both where both reach."""
    low, high = max(first.points[0], second.points[0]), min(first.points[-1], second.points[-1])
    points: list[float] = []
    for point in sorted(point for point in {*first.points, *second.points} if low <= point <= high):
        if not points or not _one_point(points[-1], point):
            points.append(point)
    return tuple(points)


def _one_point(one: float, other: float) -> bool:
    """Whether two points are one, but for what turning units has left."""
    return abs(one - other) <= 1e-6 * max(1.0, abs(one))


class _Unruly(Exception):
    """An axis that does not rise or fall from row to row, or that is not taken everywhere."""


def _surface(table: Table, column: int, inside: Head, down: Head) -> _Surface:
    """The values in the units of `inside` and `down`, its axes rising."""
    own = table.heads[column]
    axis = [cell and _in(down, table.heads[0], cell.value) for cell in table.column(0)]
    if table.across:
        axis = [cell and cell.value for cell in table.column(0)]
        across = [cell.value for cell in table.across]
        values = [[cell and _in(inside, own, cell.value) for cell in row[1:]] for row in table.rows]
    else:
        across, values = [0.0], [[cell and _in(inside, own, cell.value)] for cell in table.column(column)]
    order, along = _rising(axis), _rising(across)
    return _Surface(
        _Axis(tuple(axis[index] or 0.0 for index in order)),
        _Axis(tuple(across[index] for index in along)),
        tuple(tuple(values[index][place] for place in along) for index in order),
    )


def _rising(points: Sequence[float | None]) -> list[int]:
    """The places of an axis in rising order; _Unruly where it stands still or has a gap."""
    known = [point for point in points if point is not None]
    order = sorted(range(len(known)), key=known.__getitem__)
    if len(known) < len(points) or any(known[left] == known[right] for left, right in pairwise(order)):
        raise _Unruly("a row is there twice or does not say what it is of")
    return order


def _in(wanted: Head, own: Head, value: float) -> float:
    """A value in another unit of its kind."""
    if wanted.unit == own.unit or not (wanted.unit and own.unit):
        return value
    return unit(wanted.unit).from_base(unit(own.unit).to_base(value))
