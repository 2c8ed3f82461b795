"""What a table that reads well may still hold: what cannot have been read, and columns that nothing reads."""

from __future__ import annotations

import pytest
from lives import Life

TUNE = "set: {distributor: a}, tables: {ignition_advance: files/map.csv}"


def told(table: str, kind: str = "dynamometer") -> list[str]:
    life = Life()
    life.texts["tests/2024-02-01-run.csv"] = table
    life.texts["tests/2024-02-01-run.yaml"] = f"date: 2024-02-01\nkind: {kind}\ndata: 2024-02-01-run.csv\n"
    return [str(each).removeprefix("tests/2024-02-01-run.csv:") for each in life.book.findings
            if each.file.endswith(".csv")]  # fmt: skip


def test_a_run_that_can_be_has_no_finding() -> None:
    assert told("engine_speed rpm,torque N m,air_ratio,fuel_flow kg/h\n2000,88,0.9,4.1\n2500,x,x,x\n") == []


@pytest.mark.parametrize(
    ("row", "place", "says"),
    [
        ("0,88,4.1", "2:1", "engine speed of 0 rpm is no reading: it is above 0"),
        ("-2000,88,4.1", "2:1", "engine speed of -2000 rpm is no reading: it is above 0"),
        ("2000, -88,4.1", "2:7", "torque of -88 N m is no reading: it is above 0"),
        ("2000,0.0,4.1", "2:6", "torque of 0.0 N m is no reading: it is above 0"),
        ("2000,88,0", "2:9", "fuel mass flow of 0 kg/h is no reading: it is above 0"),
    ],
)
def test_what_cannot_have_been_read_is_told_at_its_cell(row: str, place: str, says: str) -> None:
    (finding,) = told(f"engine_speed rpm,torque N m,fuel_flow kg/h\n{row}\n")
    assert finding == f"{place}: wrong: {says}; correct it, or write x where nothing was taken"


@pytest.mark.parametrize(
    ("head", "finding"),
    [
        ("torqe N m", "`torqe` is no quantity that is known here: nothing reads this column; did you mean torque?"),
        (
            "intake_flow cfm",
            "`intake_flow` is no quantity that is known here: nothing reads this column; write `inlet_flow`",
        ),
        (
            "lambda",
            "`lambda` is no quantity that is known here: nothing reads this column; it is kept and printed as it "
            "stands",
        ),
        (
            "mean_piston_speed m/s",
            "`mean_piston_speed` is worked out and never read: nothing reads this column; it is kept and printed as it "
            "stands",
        ),
    ],
)
def test_a_column_that_nothing_reads_is_told_at_its_head(head: str, finding: str) -> None:
    assert told(f"engine_speed rpm,power kW,{head}\n2000,20,1\n") == [f"1:27: note: {finding}"]


def test_rows_of_no_speed_and_no_lift_are_read_by_nothing() -> None:
    (finding,) = told("torque N m,power kW\n88,20\n")
    assert finding == (
        "1:1: note: nothing says at which engine speed or valve lift these rows were read, so nothing reads them; "
        "name that column `engine_speed rpm` or `valve_lift mm`, or leave them as they stand"
    )


def test_no_engine_runs_at_no_speed() -> None:
    assert told("ignition_advance deg,0,1000\n20,-5,10\n") == [
        "1:22: wrong: no engine runs at 0 rpm; correct the engine speed"
    ]


def test_an_advance_before_the_engine_turns_is_a_setting() -> None:
    """Of a tune a table may begin at rest, and its own columns are its own affair."""
    life = Life().part("d", "distributor").work("2024-01-01", "fit: d", "tune: map, tables: {advance: files/map.csv}")
    life.texts["files/map.csv"] = "engine_speed rpm,vacuum_can\n0,10\n1000,12\n"
    assert [str(each) for each in life.book.findings if each.file.startswith("files/")] == []
