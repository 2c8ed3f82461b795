"""What `compare` prints for programs: its JSON, as the README documents it, and its rows for CSV and Markdown."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from logbook.cli.beside_lines import column_name, named
from logbook.cli.figures import figure, signed, signed_name, unit_of
from logbook.cli.shapes import difference_shape, size, usual
from logbook.judge.beside import Beside
from logbook.judge.compare import Difference
from logbook.judge.grids import Cell, Grid
from logbook.judge.nearest_tests import Near, Pair
from logbook.judge.torque_over_speed import Torque
from logbook.quantity.catalogue import quantity
from logbook.record.models import Engine

Row = tuple[str, ...]


def compare_shape(told: Beside, before: str, after: str) -> dict[str, Any]:
    """`compare` of the documented shape."""
    return {
        "from": before,
        "to": after,
        "engines": {"from": told.before.life.record.engine.name, "to": told.after.life.record.engine.name},
        "parts": {
            "off": list(told.off),
            "on": list(told.on),
            "worked": [
                {"part": each.part, "operation": each.operation, "depth": each.depth or None, "date": each.when or None}
                for each in told.worked
            ],
        },
        "specs": {name: difference_shape(each) for name, each in told.specs.items()},
        "facts": {each.name: {"from": each.before, "to": each.after} for each in told.facts},
        "settings": {name: {"from": was, "to": now} for name, (was, now) in told.settings.items()},
        "tables": [_grid_shape(grid) for grid in told.tables],
        "tests": [_test_shape(pair) for pair in told.tests],
        "torque": _torque_shape(told.torque) if told.torque else None,
        "cautions": list(told.cautions),
    }


def _grid_shape(grid: Grid) -> dict[str, Any]:
    def cells(of: str) -> list[list[Any]]:
        return [[getattr(cell, of) for cell in row] for row in grid.cells]

    return {
        "name": grid.name,
        "inside": grid.inside.name,
        "unit": grid.inside.unit,
        "files": {"from": grid.before, "to": grid.after},
        "down": grid.down.name,
        "rows": list(grid.rows),
        "across": grid.across.name if grid.across else None,
        "columns": list(grid.columns) if grid.across else [],
        "from": cells("before"),
        "to": cells("after"),
        "difference": cells("change"),
        "between": cells("between"),
        "because": grid.why_not,
    }


def _test_shape(pair: Pair) -> dict[str, Any]:
    return {
        "name": pair.name,
        "conditions": dict(pair.conditions),
        "entries": {"from": _id(pair.before), "to": _id(pair.after)},
        "besides": {"from": _besides(pair.before), "to": _besides(pair.after)},
        "unlike": list(pair.unlike),
        **(difference_shape(pair.told) if pair.told else {}),
    }


def _torque_shape(torque: Torque) -> dict[str, Any]:
    row, power = quantity("torque"), quantity("power")
    runs, gain = torque.runs, torque.runs.by_standard.get(torque.standard)
    points = torque.points
    return {
        "standard": torque.standard or None,
        "because": torque.why_not,
        "entries": {"from": torque.before.entry.id, "to": torque.after.entry.id},
        "besides": {"from": list(torque.before.besides), "to": list(torque.after.besides)},
        "unlike": list(torque.unlike),
        "unit": row.unit,
        "rpm": [float(f"{point.speed * 60:.9g}") for point in points],
        "from": [usual(row, point.before.nominal) for point in points],
        "to": [usual(row, point.after.nominal) for point in points],
        "difference": [size(row, point.difference.nominal) for point in points],
        "uncertainty": [size(row, point.difference.expanded) for point in points],
        "verdict": [point.verdict for point in points],
        "power": {
            "unit": power.unit,
            "difference": None if gain is None else size(power, gain.nominal),
            "uncertainty": None if gain is None else size(power, gain.expanded),
            "sheets": None if runs.sheets is None else size(power, runs.sheets),
            "alike": runs.alike,
        },
    }


def _id(near: Near | None) -> str | None:
    return near.entry.id if near else None


def _besides(near: Near | None) -> list[str]:
    return list(near.besides) if near else []


# rows of a table


def spec_rows(differences: Iterable[Difference], engine: Engine, name: str = "") -> Iterator[Row]:
    """A row for each position that has a value on either side."""
    for each in differences:
        for number, position in enumerate(each.positions):
            was, now, delta = each.before[number], each.after[number], each.differences[number]
            if was is None and now is None:
                continue
            change = signed(each.row, delta, engine.show) if delta else ("", "")
            yield (name or signed_name(each.row, engine), position,
                   figure(each.row, was, engine.show)[0] if was else "",
                   figure(each.row, now, engine.show)[0] if now else "",
                   *change, unit_of(each.row, engine), each.verdicts[number] or "")  # fmt: skip


def other_rows(told: Beside, engine: Engine) -> Iterator[Row]:
    """The tests, and the tables cell by cell, in the same columns."""
    for pair in told.tests:
        if pair.told:
            yield from spec_rows([pair.told], engine, named(pair, engine))
    if told.torque:
        yield from _torque_rows(told.torque, engine)
    for grid in told.tables:
        yield from _grid_rows(grid, engine)


def _torque_rows(torque: Torque, engine: Engine) -> Iterator[Row]:
    row = quantity("torque")
    for point in torque.points:
        before, after = (figure(row, side, engine.show)[0] for side in (point.before, point.after))
        change = signed(row, point.difference, engine.show)
        place = f"{point.speed * 60:.5g} rpm"
        yield f"torque by {torque.standard}", place, before, after, *change, unit_of(row, engine), point.verdict


def _grid_rows(grid: Grid, engine: Engine) -> Iterator[Row]:
    for row, cells in zip(grid.rows, grid.cells, strict=True):
        for column, cell in zip(grid.columns, cells, strict=True):
            at = f"{row:g} {grid.down.unit}".strip()
            place = f"{at}, {column:g} {grid.across.unit}" if grid.across else at
            name = column_name(grid.inside, engine).partition(",")[0]
            yield name, place, *_numbers(cell), "", grid.inside.unit, "read between cells" if cell.between else ""


def _numbers(cell: Cell) -> tuple[str, str, str]:
    before, after, delta = ("" if each is None else f"{each:.6g}" for each in (cell.before, cell.after, cell.change))
    return before, after, delta
