"""Tables and tests side by side, as lines: readable without colour; the accent only repeats what the figures say."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from logbook.cli import layout
from logbook.cli.effects import effect_lines
from logbook.cli.figures import condition, figure, joined, name_of, signed, unit_of
from logbook.cli.whose import Whose
from logbook.judge.grids import Cell, Grid
from logbook.judge.nearest_tests import Near, Pair
from logbook.judge.power_runs import spread_words
from logbook.judge.torque_over_speed import SCATTER, Stretch, Torque
from logbook.quantity.catalogue import catalogue, quantity
from logbook.quantity.units import unit
from logbook.record.models import Engine
from logbook.record.tables import Head

_SAME, _SILENT, _BETWEEN = ".", "-", "~"
LEGEND = f"{_SAME} the same, {_SILENT} one of them does not say, {_BETWEEN} read between two cells of its table."


# tables


def table_lines(grids: Sequence[Grid], engine: Engine, whose: Whose) -> Iterator[str]:
    """Every table that differs, cell by cell."""
    for grid in grids:
        yield from _grid(grid, engine, whose)
    if any(not grid.why_not for grid in grids):
        yield from layout.wrapped(LEGEND, indent=2)


def _grid(grid: Grid, engine: Engine, whose: Whose) -> Iterator[str]:
    yield from layout.wrapped(f"{grid.name}: {' → '.join(whose.both(grid.before, grid.after))}", 2, hanging=4)
    if grid.why_not:
        yield from layout.wrapped(f"not set side by side: {grid.why_not}", 6)
    elif grid.across is None:
        yield from _one_way(grid, engine, whose)
    else:
        yield from _two_ways(grid, engine)


def column_name(head: Head, engine: Engine) -> str:
    """`ignition advance, deg`: the catalogue's word where it has one."""
    row = catalogue().get(head.name)
    name = name_of(row, engine) if row else head.name.replace("_", " ")
    return f"{name}, {head.unit}" if head.unit else name


def _one_way(grid: Grid, engine: Engine, whose: Whose) -> Iterator[str]:
    """Points across, both tables and their difference below each other."""
    yield from layout.wrapped(f"{column_name(grid.inside, engine)}, over {column_name(grid.down, engine)}", 6)
    cells = [row[0] for row in grid.cells]
    lines = [
        ("", [_short(point) for point in grid.rows]),
        (whose.columns[0], [_figure(cell.before, cell) for cell in cells]),
        (whose.columns[1], [_figure(cell.after, cell) for cell in cells]),
        (whose.columns[2], [change(cell) for cell in cells]),
    ]
    yield from _in_columns(lines, accent=whose.columns[2])


def _two_ways(grid: Grid, engine: Engine) -> Iterator[str]:
    """The change of every cell, and in full the cells that rise and fall the most."""
    assert grid.across is not None  # asked before
    says = f"change of {column_name(grid.inside, engine)}; {grid.down.name} down, {column_name(grid.across, engine)}"
    yield from layout.wrapped(f"{says} across", 6)
    rows = [(_short(row), list(map(change, cells))) for row, cells in zip(grid.rows, grid.cells, strict=True)]
    yield from _in_columns([("", list(map(_short, grid.columns))), *rows])
    yield from _extremes(grid)


def _extremes(grid: Grid) -> Iterator[str]:
    changes = [(cell.change, row, column, cell) for row, cells in zip(grid.rows, grid.cells, strict=True)
               for column, cell in zip(grid.columns, cells, strict=True) if cell.change]  # fmt: skip
    rising, falling = max(changes, key=_size, default=None), min(changes, key=_size, default=None)
    for word, found in (("most up", rising), ("most down", falling)):
        if found and (found[0] > 0) == (word == "most up"):
            _, row, column, cell = found
            pair = f"{_short(cell.before or 0)} → {_short(cell.after or 0)}"
            yield f"      {word}: {pair} at {_short(row)}, {_short(column)}"


def _size(found: tuple[float, float, float, Cell]) -> float:
    return found[0]


def _in_columns(lines: Sequence[tuple[str, list[str]]], accent: str = "") -> Iterator[str]:
    """Rows of cells of one width, as many columns as fit on a line."""
    label = max(len(name) for name, _ in lines)
    width = max((len(text) for _, texts in lines for text in texts), default=0) + 2
    many = max(1, (layout.WIDTH - 6 - label) // width)
    for start in range(0, len(lines[0][1]), many):
        for name, texts in lines:
            row = "".join(text.rjust(width) for text in texts[start : start + many])
            yield f"      {name:<{label}}" + (layout.accent(row) if accent and name == accent else row)


def change(cell: Cell) -> str:
    """`+2`, `-1.5`, `.` where nothing differs, `-` where one of them is silent."""
    delta = cell.change
    if delta is None:
        return _SILENT
    text = f"{delta:+.4g}" if abs(delta) > 1e-9 else _SAME
    return text + (_BETWEEN if cell.between and text != _SAME else "")


def _figure(value: float | None, cell: Cell) -> str:
    return _SILENT if value is None else _short(value) + (_BETWEEN if cell.between else "")


def _short(value: float) -> str:
    return f"{value:.5g}"


# tests


def test_lines(pairs: Iterable[Pair], engine: Engine, whose: Whose) -> Iterator[str]:
    """Every kind of test that both sides have; what only one has, in a line."""
    pairs = tuple(pairs)
    for pair in pairs:
        if pair.told:
            yield from _pair(pair, engine, whose)
    for pair in pairs:
        if pair.told is None:
            side = whose.only[0 if pair.before else 1]
            yield from layout.wrapped(f"{named(pair, engine)}: only {side} was tested with these parts", 2, hanging=4)


def named(pair: Pair, engine: Engine) -> str:
    """`cranking pressure, oil dry`."""
    under = (condition(name, text, engine.show) for name, text in pair.conditions.items())
    return ", ".join((name_of(quantity(pair.name), engine), *under))


def _pair(pair: Pair, engine: Engine, whose: Whose) -> Iterator[str]:
    assert pair.told is not None  # asked before
    words = named(pair, engine)
    yield from effect_lines([replace(pair.told, row=pair.told.row._replace(uk=words, us=words))], engine, 2, whose)
    yield from _tested((pair.before, pair.after), whose)
    if pair.unlike:
        yield from layout.wrapped(f"not alike: {'; '.join(pair.unlike)}", 6, hanging=2)


def _tested(nears: tuple[Near | None, Near | None], whose: Whose) -> Iterator[str]:
    """Each test by its day and title, and what was different in the engine when it was made."""
    for mark, near in zip(whose.marks, nears, strict=True):
        if near:
            besides = f"; tested with {', '.join(near.besides)}" if near.besides else ""
            yield from layout.wrapped(f"{mark}{near.entry.says.date} {near.entry.title}{besides}", 6, hanging=2)


# torque over speed


def torque_lines(told: Torque, engine: Engine, whose: Whose) -> Iterator[str]:
    """Both runs by one standard, speed by speed; the stretches in words; the sheets beside it."""
    if told.why_not:
        yield from layout.wrapped(f"the runs are not set side by side: {told.why_not}", 2, hanging=2)
    else:
        row = quantity("torque")
        yield f"  torque, {unit_of(row, engine)}, by {told.standard}"
        yield from _in_columns(list(_torque_table(told, engine, whose)), accent=whose.columns[2])
        yield from (line for each in told.stretches for line in layout.wrapped(stretch_words(each), 6, hanging=2))
    for text in power_words(told, engine):
        yield from layout.wrapped(text, 6, hanging=2)
    spread = spread_words((told.runs.first, told.runs.second))
    if spread:
        yield from layout.wrapped(spread, 6, hanging=2)
    yield from _tested((told.before, told.after), whose)
    if told.unlike:
        yield from layout.wrapped(f"not alike: {'; '.join(told.unlike)}", 6, hanging=2)


def _torque_table(told: Torque, engine: Engine, whose: Whose) -> Iterator[tuple[str, list[str]]]:
    row = quantity("torque")
    yield "rpm", [f"{point.speed * 60:.5g}" for point in told.points]
    yield whose.columns[0], [figure(row, point.before, engine.show)[0] for point in told.points]
    yield whose.columns[1], [figure(row, point.after, engine.show)[0] for point in told.points]
    yield whose.columns[2], [signed(row, point.difference, engine.show)[0] for point in told.points]
    yield "±", [signed(row, point.difference, engine.show)[1] for point in told.points]


def stretch_words(each: Stretch) -> str:
    """`better from 2500 to 4500 rpm, by 3.4 to 4.9 %`."""
    low, high = (f"{speed * 60:.5g}" for speed in (each.low, each.high))
    where = f"at {low} rpm" if low == high else f"from {low} to {high} rpm"
    if each.verdict == SCATTER:
        return f"{SCATTER} {where}"
    least, most = (f"{abs(share) * 100:.1f}" for share in (each.least, each.most))
    return f"{each.verdict} {where}, by {least if least == most else f'{least} to {most}'} %"


def power_words(told: Torque, engine: Engine) -> Iterator[str]:
    """The greatest power: by one standard, and sheet against sheet, which need not be alike."""
    row, runs = quantity("power"), told.runs
    its = unit_of(row, engine)
    if told.standard:
        yield f"greatest power {joined(*signed(row, runs.by_standard[told.standard], engine.show), its)}"
    if runs.sheets is not None:
        names = f"{runs.first.sheet_standard or 'not said'} and {runs.second.sheet_standard or 'not said'}"
        how = f"both {runs.first.sheet_standard}" if runs.alike else f"not alike: {names}"
        yield f"sheet against sheet {runs.sheets / unit(its).size(1.0):+.1f} {its} ({how})"
