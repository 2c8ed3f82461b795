"""Two tables cell by cell: on one grid, between cells in a straight line, never beyond their ends."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.judge.grids import Grid, grids
from logbook.record.tables import Table, read_table


def table(text: str) -> Table:
    found, findings = read_table(text.encode(), "files/x.csv")
    assert found, findings
    return found


def side_by_side(first: str, second: str) -> list[Grid]:
    return list(grids("ignition", ("a.csv", table(first)), ("b.csv", table(second))))


ONE = "engine_speed rpm,ignition_advance deg\n1000,10\n2000,18\n4000,30\n"


def test_cells_of_one_grid() -> None:
    (grid,) = side_by_side(ONE, "engine_speed rpm,ignition_advance deg\n1000,12\n3000,24\n4000,30\n")
    assert grid.rows == (1000, 2000, 3000, 4000)
    cells = [row[0] for row in grid.cells]
    assert [(cell.before, cell.after, cell.between) for cell in cells] == [
        (10, 12, False), (18, 18, True), (24, 24, True), (30, 30, False)]  # fmt: skip
    assert [cell.change for cell in cells] == [2, 0, 0, 0]
    assert grid.changed


def test_nearer_to_one_cell_the_value_is_nearer_to_that() -> None:
    (grid,) = side_by_side(ONE, "engine_speed rpm,ignition_advance deg\n2000,18\n2500,18\n4000,30\n")
    assert [row[0].before for row in grid.cells] == [18, 21, 30]  # a quarter of the way from 18 to 30


def test_nothing_is_read_beyond_the_end_of_a_table() -> None:
    (grid,) = side_by_side(ONE, "engine_speed rpm,ignition_advance deg\n2000,18\n6000,34\n")
    assert grid.rows == (2000, 4000)


def test_the_same_table_does_not_differ() -> None:
    (grid,) = side_by_side(ONE, ONE)
    assert not grid.changed


def test_rows_that_fall_and_other_units_are_the_same_table() -> None:
    falling = "valve_lift mm,inlet_flow cfm\n2,36\n1,18\n"
    inches = "valve_lift in,inlet_flow cfm\n0.0393700787,18\n0.0787401576,36\n"
    (grid,) = side_by_side(falling, inches)
    assert [cell.change for row in grid.cells for cell in row] == pytest.approx([0, 0], abs=1e-4)
    (grid,) = side_by_side(falling, "valve_lift mm,inlet_flow l/s\n1,8.4951\n2,16.9901\n")
    assert [cell.change for row in grid.cells for cell in row] == pytest.approx([0, 0], abs=1e-3)
    assert grid.inside.unit == "l/s"


def test_a_cell_not_taken_is_silent() -> None:
    (grid,) = side_by_side(ONE, "engine_speed rpm,ignition_advance deg\n1000,12\n2000,x\n4000,30\n")
    assert [row[0].change for row in grid.cells] == [2, None, 0]


TWO = "ignition_advance deg,1000,3000\n20,10,30\n100,8,20\n"


def test_two_dimensions() -> None:
    (grid,) = side_by_side(TWO, "ignition_advance deg,1000,2000,3000\n20,10,20,28\n60,9,20,26\n100,8,14,20\n")
    assert (grid.rows, grid.columns) == ((20, 60, 100), (1000, 2000, 3000))
    middle = grid.cells[1][1]
    assert (middle.before, middle.after, middle.between) == (17, 20, True)  # the mean of 10, 30, 8 and 20
    assert [cell.change for cell in grid.cells[0]] == [0, 0, -2]


@pytest.mark.parametrize(
    ("other", "why"),
    [
        (TWO, "one of them has rows of load and the other has none"),
        ("valve_lift mm,inlet_flow cfm\n1,18\n", "they have no column in common"),
        ("engine_speed rpm,torque N m\n1000,80\n2000,90\n", "they have no column in common"),
        ("engine_speed rpm,ignition_advance deg\n5000,12\n6000,12\n", "they have no stretch in common"),
        (
            "engine_speed rpm,ignition_advance deg\n1000,12\n1000,13\n",
            "a row is there twice or does not say what it is of",
        ),
        (
            "engine_speed rpm,ignition_advance deg\n1000,12\nx,13\n",
            "a row is there twice or does not say what it is of",
        ),
    ],
)
def test_what_cannot_be_set_side_by_side_says_why(other: str, why: str) -> None:
    (grid,) = side_by_side(ONE, other)
    assert grid.why_not == why
    assert grid.changed


@given(st.lists(st.integers(0, 60), min_size=2, max_size=8), st.floats(0, 1))
def test_between_two_cells_a_table_stays_between_them(values: list[int], share: float) -> None:
    rows = "".join(f"{1000 * number},{value}\n" for number, value in enumerate(values, 1))
    at = round(1000 + share * 1000 * (len(values) - 1), 3)
    other = f"engine_speed rpm,ignition_advance deg\n500,0\n{max(at, 500.5)},0\n99999,0\n"
    (grid,) = side_by_side("engine_speed rpm,ignition_advance deg\n" + rows, other)
    cell = next(row[0] for point, row in zip(grid.rows, grid.cells, strict=True) if point == pytest.approx(at))
    left = min(int(at // 1000) - 1, len(values) - 2)
    low, high = sorted(values[left : left + 2])
    assert cell.before is not None
    assert low - 1e-6 <= cell.before <= high + 1e-6
