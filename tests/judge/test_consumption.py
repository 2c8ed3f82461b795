"""Oil and fuel from their logs: from full mark to full mark, strictly, each mistake at its line and column."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.judge.consumption import consumption, read_log, used
from logbook.quantity.units import unit

OIL, FUEL = "log/oil.csv", "log/fuel.csv"


def log(*lines: str) -> bytes:
    return "\n".join(("date,reading,volume,level", *lines)).encode()


def rates(file: str, over: str, *lines: str) -> list[float]:
    fills, findings = read_log(file, log(*lines))
    assert findings == ()
    return [each.rate for each in used(file, fills, over)]


def test_from_full_tank_to_full_tank() -> None:
    found = rates(FUEL, "distance", "2024-01-01,1000 km,50 l,full", "2024-01-05,1200 km,10 l,part",
                  "2024-01-09,1500 km,30 l,full", "2024-01-20,2000 km,50 l,full")  # fmt: skip
    assert [unit("l per 100 km").from_base(each) for each in found] == pytest.approx([8.0, 10.0])


def test_oil_that_is_changed_is_not_used() -> None:
    found = rates(OIL, "distance", "2024-01-01,1000 km,0.5 l,full", "2024-02-01,3000 km,0.5 l,full",
                  "2024-02-02,3000 km,4.5 l,changed", "2024-03-01,5000 km,1.0 l,full")  # fmt: skip
    assert [unit("l per 1000 km").from_base(each) for each in found] == pytest.approx([0.25, 0.5])


def test_hours_and_distance_are_never_turned_into_each_other() -> None:
    lines = (
        '2024-01-01,"1000 km, 10 h",50 l,full',
        '2024-01-09,"1500 km, 15 h",40 l,full',
        "2024-02-01,20 h,40 l,full",
    )
    assert [unit("l/h").from_base(each) for each in rates(FUEL, "time", *lines)] == pytest.approx([8.0, 8.0])
    assert len(rates(FUEL, "distance", *lines)) == 1


def test_a_new_counter_begins_anew_and_says_so_by_a_part_fill() -> None:
    lines = ("2024-01-01,99000 km,50 l,full", "2024-01-09,10 km,40 l,part", "2024-02-01,410 km,40 l,full",
             "2024-02-09,910 km,40 l,full")  # fmt: skip
    assert [unit("l per 100 km").from_base(each) for each in rates(FUEL, "distance", *lines)] == pytest.approx([8.0])


@pytest.mark.parametrize(
    ("line", "column", "says"),
    [
        ("2024-02-30,1000 km,50 l,full", 1, "there is no day"),
        ("2024-02-10,1000,50 l,full", 12, "is not a reading"),
        ("2024-02-10,1000 km,50,full", 20, "unit"),
        ("2024-02-10,1000 km,-5 l,full", 20, "fills nothing in"),
        ("2024-02-10,1000 km,5 l,changed", 24, "is no level of this log"),
        ("2024-02-10,1000 km,5 l", 1, "3 cells"),
        ("2024-02-10,1000 km,5,5 l,full", 1, "5 cells"),
    ],
)
def test_a_mistake_is_told_at_its_line_and_column(line: str, column: int, says: str) -> None:
    fills, (finding,) = read_log(FUEL, log("2024-01-01,900 km,50 l,full", line))
    assert len(fills) == 1
    assert (finding.file, finding.line, finding.column, finding.level) == (FUEL, 3, column, "wrong")
    assert says in finding.says
    assert finding.mend


def test_what_runs_backwards_is_told() -> None:
    _, (finding,) = read_log(FUEL, log("2024-01-01,900 km,50 l,full", "2024-01-02,800 km,50 l,full"))
    assert "shows less" in finding.says
    _, (day,) = read_log(FUEL, log("2024-01-09,900 km,50 l,full", "2024-01-02,950 km,50 l,full"))
    assert "stands behind" in day.says


def test_the_record_tells_both_logs_and_a_strange_one() -> None:
    life = Life()
    life.texts[OIL] = log("2024-01-01,1000 km,0.5 l,full", "2024-02-01,3000 km,0.5 l,full").decode()
    life.texts["log/tyres.csv"] = "a,b\n"
    told = consumption(life.book.record)
    assert [round(each.volume * 1e3, 3) for each in told[OIL]] == [0.5]
    assert told[FUEL] == ()
    assert ["this log is not read"] == [each.says for each in life.book.findings if each.file.startswith("log/")]
