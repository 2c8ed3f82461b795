"""What is overdue: parts over their life, service that comes round, what was announced; judged at the last entry."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.judge.due import Due, intervals_can_be_read, overdue
from logbook.logbook import Logbook


def serviced(*every: str) -> Life:
    lines = "".join(f"  - {{what: {what}, every: {often}}}\n" for what, often in (each.split(": ") for each in every))
    return Life(more="service:\n" + lines)


def told(life: Life) -> list[str]:
    return [f"{each.what} {each.run:g} of {each.allowed:g} {each.unit}" for each in overdue(life.fold)]


def test_a_part_is_over_the_life_its_maker_gives_it() -> None:
    life = Life().part("springs", "valve_springs", "service_life: 30 h\n")
    life.work("2024-01-01", "fit: springs", at="0 h").work("2024-06-01", "service: wash", at="31.5 h")
    assert told(life) == ["springs 31.5 of 30 h"]
    life.work("2024-06-02", "remove: springs", at="31.5 h")
    assert told(life) == []


def test_service_comes_round_by_distance_and_by_months() -> None:
    life = serviced("oil: 5000 km or 12 months").work("2023-01-10", "service: Oil", at="1000 km")
    life.work("2023-12-09", "service: wash", at="5999 km")
    assert told(life) == []
    life.work("2024-01-09", "service: wash", at="6100 km")
    assert told(life) == ["oil 5100 of 5000 km"]
    life.work("2024-02-10", "service: wash", at="6100 km")
    assert told(life) == ["oil 5100 of 5000 km", "oil 13 of 12 months"]
    life.work("2024-02-11", "service: oil", at="6100 km")
    assert told(life) == []


def test_what_was_never_entered_counts_from_the_beginning_of_the_record() -> None:
    life = serviced("valve lash: 10 h").work("2023-01-10", "service: wash", at="100 h")
    life.work("2023-02-10", "service: wash", at="111 h")
    assert overdue(life.fold) == [Due("valve lash", pytest.approx(11.0), 10.0, "h", None, entered=False)]


def test_what_was_announced_is_due_until_it_is_done() -> None:
    life = Life().work("2023-01-10", "due: retorque head, after: 500 km", at="100 km")
    assert told(life) == []
    life.work("2023-02-10", "service: wash", at="601 km")
    assert told(life) == ["retorque head 501 of 500 km"]
    life.work("2023-02-11", "service: retorque head", at="601 km")
    assert told(life) == []


def test_where_no_counter_tells_nothing_is_judged() -> None:
    life = serviced("oil: 5000 km").work("2020-01-01", "service: oil").work("2024-01-01", "service: wash")
    assert told(life) == []
    assert overdue(Life().fold) == []


def test_an_interval_that_is_none_is_told_at_its_line() -> None:
    life = serviced("oil: 12 months", "lash: often")
    found = list(intervals_can_be_read(life.book.record))
    line = life.texts["engine.yaml"].splitlines().index("  - {what: lash, every: often}") + 1
    assert [(each.file, each.line, each.says) for each in found] == [("engine.yaml", line, "`often` is no interval")]


def test_the_example_owns_up_to_its_springs_once() -> None:
    """The springs' own life and the service interval of valve springs are the same thing."""
    assert [each.what for each in overdue(Logbook.open(EXAMPLE).life)] == ["springs-2"]
