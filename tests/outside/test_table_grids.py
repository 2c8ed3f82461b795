"""Two tables on a common grid against SciPy, RegularGridInterpolator: linear along both axes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import RegularGridInterpolator

from logbook.judge.grids import grids
from logbook.record.tables import read_table

speeds = st.lists(st.integers(500, 8000), min_size=2, max_size=6, unique=True).map(sorted)
loads = st.lists(st.integers(10, 100), min_size=2, max_size=5, unique=True).map(sorted)


@st.composite
def tables(draw: st.DrawFn) -> tuple[list[int], list[int], list[list[float]]]:
    """Loads, speeds and the advance at each."""
    down, across = draw(loads), draw(speeds)
    cell = st.integers(0, 400).map(lambda tenth: tenth / 10)
    return down, across, [draw(st.lists(cell, min_size=len(across), max_size=len(across))) for _ in down]


def as_csv(table: tuple[list[int], list[int], list[list[float]]]) -> bytes:
    down, across, values = table
    rows = [["ignition_advance deg", *map(str, across)]]
    rows += [[str(load), *map(str, row)] for load, row in zip(down, values, strict=True)]
    return "\n".join(",".join(row) for row in rows).encode()


@given(one=tables(), other=tables())
def test_every_cell_of_both_tables_is_where_scipy_has_it(one, other) -> None:  # type: ignore[no-untyped-def]
    before, after = (read_table(as_csv(each), "a.csv")[0] for each in (one, other))
    assert before
    assert after
    was, now = (RegularGridInterpolator((each[0], each[1]), each[2]) for each in (one, other))
    for grid in grids("ignition", ("a.csv", before), ("b.csv", after)):
        for load, row in zip(grid.rows, grid.cells, strict=True):
            for speed, cell in zip(grid.columns, row, strict=True):
                assert cell.before == pytest.approx(float(was((load, speed))), abs=1e-9)
                assert cell.after == pytest.approx(float(now((load, speed))), abs=1e-9)
                assert cell.change == pytest.approx(float(now((load, speed)) - was((load, speed))), abs=1e-9)
