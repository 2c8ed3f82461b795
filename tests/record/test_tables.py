"""Tables as CSV: what reads well, and where and how each bad cell is told."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.record.finding import WRONG
from logbook.record.tables import Head, read_table

TORQUE = b"engine_speed rpm,torque N m\n2000,88\n2500,94.5\n3000,x\n"


def test_a_table_of_one_dimension() -> None:
    table, findings = read_table(TORQUE, "tests/a.csv")
    assert findings == ()
    assert table is not None
    assert table.heads == (Head("engine_speed", "rpm"), Head("torque", "N m"))
    assert [cell and cell.value for cell in table.column(1)] == [88.0, 94.5, None]
    assert [cell and cell.text for cell in table.column(0)] == ["2000", "2500", "3000"]
    assert table.across == ()


def test_a_table_of_two_dimensions() -> None:
    table, findings = read_table(b"ignition_advance deg,1000,2000\n20,14,20\n100,10,x\n", "files/a.csv")
    assert findings == ()
    assert table is not None
    assert table.heads == (Head("ignition_advance", "deg"),)
    assert [cell.value for cell in table.across] == [1000.0, 2000.0]
    assert [[cell and cell.value for cell in row] for row in table.rows] == [[20.0, 14.0, 20.0], [100.0, 10.0, None]]


@pytest.mark.parametrize("data", [TORQUE.replace(b"\n", b"\r\n"), b"\xef\xbb\xbf" + TORQUE, TORQUE + b"\n \n"])
def test_what_spreadsheets_add_does_no_harm(data: bytes) -> None:
    assert read_table(data, "a.csv")[0] == read_table(TORQUE, "a.csv")[0]


def test_a_quantity_without_a_unit_and_a_name_of_ones_own_are_written_bare() -> None:
    table, findings = read_table(b"valve_lift mm,lambda,compression_ratio\n1,0.88,9.2\n", "a.csv")
    assert findings == ()
    assert table is not None
    assert [head.unit for head in table.heads] == ["mm", "", ""]


@pytest.mark.parametrize(
    ("data", "line", "column", "says"),
    [
        (b"", 1, 1, "the table is empty"),
        (b"\xff\xfe", 1, 1, "this is no text in UTF-8"),
        (b"engine_speed rpm,torque N m\n", 1, 1, "there is no row of numbers below the first row"),
        (b"engine_speed rpm;torque N m\n2000;88\n", 1, 17, "the cells are separated by ;"),
        (b"engine_speed rpm,torque\n2000,88\n", 1, 18, "`torque` has no unit"),
        (b"engine_speed rpm,torque Nm\n2000,88\n", 1, 25, "'Nm' is not a unit that is known here"),
        (b"engine_speed rpm,torque bar\n2000,88\n", 1, 25, "`torque` is not read in bar"),
        (b"engine_speed rpm, Torque N m\n2000,88\n", 1, 19, "`Torque N m` does not name a column"),
        (b"a,b,a\n1,2,3\n", 1, 5, "two columns are named `a`"),
        (TORQUE + b"3500,88,5\n", 5, 1, "this row has 3 cells, the first row 2"),
        (TORQUE + b"3500\n", 5, 1, "this row has 1 cell, the first row 2"),
        (TORQUE + b"3500, 8k\n", 5, 7, "`8k` is not a number"),
        (TORQUE + b"3500,1e3\n", 5, 6, "`1e3` is not a number"),
        (TORQUE + b"3500,\n", 5, 6, "there is nothing in this cell"),
        (TORQUE + b"\n4000,90\n", 5, 1, "this row has 1 cell, the first row 2"),
        (TORQUE + b'3500,"88"\n', 5, 6, '`"88"` is not a number'),
    ],
)
def test_a_bad_cell_is_told_at_its_place(data: bytes, line: int, column: int, says: str) -> None:
    table, findings = read_table(data, "tests/a.csv")
    assert table is None
    assert [(each.file, each.line, each.column, each.level, each.says) for each in findings] == [
        ("tests/a.csv", line, column, WRONG, says)
    ]
    assert findings[0].mend


def test_every_bad_row_is_told_but_not_a_thousand_of_them() -> None:
    _, findings = read_table(TORQUE + b"a,b\n" * 1000, "a.csv")
    assert [each.line for each in findings] == list(range(5, 25))


NUMBERS = st.decimals(-(10**6), 10**6, allow_nan=False, allow_infinity=False, places=3).map(lambda each: f"{each:f}")


@given(st.lists(st.tuples(NUMBERS, NUMBERS | st.just("x")), min_size=1, max_size=20))
def test_numbers_come_back_as_they_were_written(rows: list[tuple[str, str]]) -> None:
    table, findings = read_table(("a,b\n" + "\n".join(map(",".join, rows))).encode(), "a.csv")
    assert findings == ()
    assert table is not None
    assert [tuple(cell.text if cell else "x" for cell in row) for row in table.rows] == rows


@given(st.binary(max_size=200) | st.text(alphabet='ax,;.-1\n "', max_size=60).map(str.encode))
def test_any_bytes_are_a_table_or_are_told(data: bytes) -> None:
    table, findings = read_table(data, "a.csv")
    assert (table is None) == bool(findings)
    assert all(each.line >= 1 and each.column >= 1 and each.mend for each in findings)
