"""What is overdue: parts over their life, service that comes round, what was announced; judged at the last entry."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.errors import PointUnknown
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


# as of a point, or of a day or a reading still to come


def driven() -> Life:
    life = serviced("oil: 5000 km or 12 months").work("2023-01-10", "service: oil", at="1000 km")
    return life.work("2023-06-10", "service: wash", "due: look at the belt, after: 2000 km", at="4000 km")


def coming(life: Life, text: str | None = None) -> list[tuple[str, str, float, str]]:
    return [(each.what, each.at, *each.left_exactly) for each in life.book.due(text)]


def test_what_is_left_and_when_it_is_due() -> None:
    assert coming(driven()) == [
        ("oil", "6000 km", 2000, "km"),
        ("oil", "2024-01-10", 214, "day"),
        ("look at the belt", "6000 km", 2000, "km"),
    ]


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("2024-01-09", (1, "day")),
        ("2024-01", (-21, "day")),  # the end of that month
        ("2025-01-10", (-366, "day")),
    ],
)
def test_a_day_to_come_moves_the_days_and_not_the_distance(text: str, left: tuple[int, str]) -> None:
    found = {(what, its): (amount, at) for what, at, amount, its in coming(driven(), text)}
    assert found[("oil", "day")][0] == left[0]
    assert found[("oil", "km")] == (2000, "6000 km")
    (first, *_) = driven().book.due(text)
    assert (first.unit == "months") == (left[0] < 2)  # what is over, or nearest, stands first


def test_a_reading_to_come_moves_the_distance_and_not_the_days() -> None:
    found = {(what, its): amount for what, _, amount, its in coming(driven(), "6500 km")}
    assert found[("oil", "km")] == -500
    assert found[("look at the belt", "km")] == -500
    assert found[("oil", "day")] == 214
    assert coming(driven(), "6500km") == coming(driven(), "6500 km")


def test_a_point_of_the_record_is_judged_from_what_was_done_by_then() -> None:
    assert coming(driven(), "start") == [("oil", "6000 km", 5000, "km"), ("oil", "2024-01-10", 365, "day")]
    assert coming(driven(), "1000 km") == coming(driven(), "start")


@pytest.mark.parametrize("text", ["2010", "2024-02-30", "soon", "900km", "5h"])
def test_what_is_neither_a_point_nor_ahead_is_refused(text: str) -> None:
    with pytest.raises(PointUnknown):
        driven().book.due(text)


def test_a_counter_that_was_reset_shows_when_it_is_due() -> None:
    life = driven().work("2023-07-01", "counter: {odometer: {was: 4500 km, now: 0 km}}", at="4500 km")
    assert ("oil", "1500 km", 1500, "km") in coming(life)
    life.work("2023-08-01", "move: boat, counters: {odometer: {was: 500 km, now: none}}", at="500 km")
    assert ("oil", "true 6000 km", 1000, "km") in coming(life)


def test_the_last_day_of_a_shorter_month() -> None:
    life = serviced("oil: 1 month").work("2023-01-31", "service: oil")
    assert coming(life) == [("oil", "2023-02-28", 28, "day")]
    assert life.book.due("2023-02-28")[0].over == pytest.approx(0)
    assert life.book.due("2023-03-01")[0].over > 0


def test_a_record_without_entries_or_intervals_has_nothing_due() -> None:
    assert Life().book.due() == []
    assert Life().work("2023-01-01", "service: oil").book.due("2030") == []
