"""True distance through counters that are replaced, reset, left behind or only about right."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.record.when import parse_reading
from logbook.state.counters import DISTANCE, HOURS, Counters

NEW = Counters.of({"odometer": "km", "hour meter": "h"})


def read(counters: Counters, text: str) -> Counters:
    after, complaints = counters.read(parse_reading(text))
    assert complaints == ()
    return after


def changed(counters: Counters, name: str, was: str, now: str) -> Counters:
    after, complaint = counters.changed(name, was, now)
    assert complaint is None
    return after


def km(counters: Counters) -> float | None:
    total = counters.totals.of(DISTANCE)
    return None if total is None else round(total / 1000, 6)


def test_distance_goes_on_through_a_new_counter_and_a_move() -> None:
    counters = read(NEW, "109000 km")
    counters = changed(counters, "odometer", "109950 km", "0 km")
    assert km(counters) == 109950
    counters = read(counters, "2690 km")
    assert km(counters) == 112640
    counters = changed(counters, "odometer", "2690 km", "none")
    counters = changed(counters, "hour meter", "none", "0 h")
    counters = read(counters, "41.6 h")
    assert (km(counters), counters.totals.of(HOURS)) == (112640, pytest.approx(41.6 * 3600))


def test_hours_are_never_distance() -> None:
    counters = read(NEW, "12 h")
    assert counters.totals.of(DISTANCE) is None


def test_a_counter_that_had_run_in_another_car_counts_from_what_it_shows() -> None:
    counters = changed(read(NEW, "50000 km"), "odometer", "50010 km", "none")
    counters = read(changed(counters, "odometer", "none", "98000 km"), "98005 km")
    assert km(counters) == 50015


@pytest.mark.parametrize(
    ("before", "reading", "says"),
    [
        ("61300 km", "60900 km", "the odometer shows 60900 km after it had shown 61300 km"),
        ("61300 km", "38000 mi", None),  # 61155 km would be less; said in the unit that was read
        ("about 61300 km", "61290 km", None),
        ("61300 km", "about 61000 km", None),
    ],
)
def test_running_backwards_is_told_only_of_exact_readings(before: str, reading: str, says: str | None) -> None:
    counters, complaints = read(NEW, before).read(parse_reading(reading))
    if reading.endswith("mi"):
        assert complaints == ("the odometer shows 38000 mi after it had shown 38090.05408 mi",)
    else:
        assert complaints == ((says,) if says else ())
    assert counters.totals.of(DISTANCE) == read(NEW, before).totals.of(DISTANCE)


@pytest.mark.parametrize(
    ("name", "was", "now", "says"),
    [
        ("speedo", "1 km", "0 km", "`speedo` is not among the counters of engine.yaml"),
        ("odometer", "12 h", "0 h", "`12 h` is no reading of the odometer"),
        ("odometer", "none", "0 h", "`0 h` is no reading of the odometer"),
        ("odometer", "10 km", "0 km", "the odometer shows 10 km after it had shown 100 km"),
    ],
)
def test_changes_of_counter_that_cannot_be(name: str, was: str, now: str, says: str) -> None:
    counters = read(NEW, "100 km")
    assert counters.changed(name, was, now) == (counters, says)


def test_a_counter_that_was_never_read_can_be_replaced() -> None:
    assert km(changed(NEW, "odometer", "98211 km", "12 km")) == 98211


def test_with_no_counter_left_a_reading_is_told() -> None:
    counters = changed(read(NEW, "100 km"), "odometer", "100 km", "none")
    assert counters.read(parse_reading("110 km"))[1] == ("`110 km` is given, but no such counter is on the engine now",)


EVENT = st.one_of(
    st.tuples(st.just("drive"), st.integers(0, 5000)),
    st.tuples(st.just("about"), st.integers(-3000, 3000)),
    st.tuples(st.just("replace"), st.integers(0, 90000)),
    st.tuples(st.just("another car"), st.integers(0, 90000)),
)


@given(st.integers(0, 200000), st.lists(EVENT, max_size=25))
def test_true_distance_never_falls_and_is_the_sum_of_the_pieces(first: int, events: list[tuple[str, int]]) -> None:
    counters = read(NEW, f"{first} km")
    pieces, shown = [(first, first)], first  # what each counter showed first and last
    before = first
    for kind, number in events:
        if kind == "drive":
            shown += number
            counters = read(counters, f"{shown} km")
        elif kind == "about":
            counters = read(counters, f"about {max(shown + number, 0)} km")
            shown = max(shown, shown + number)  # taken at its word where it says more
        elif kind == "replace":
            counters = changed(counters, "odometer", f"{shown} km", f"{number} km")
            pieces.append((number, number))
            shown = number
        else:
            counters = changed(counters, "odometer", f"{shown} km", "none")
            counters = changed(counters, "odometer", "none", f"{number} km")
            pieces.append((number, number))
            shown = number
        pieces[-1] = (pieces[-1][0], shown)
        total = km(counters)
        assert total is not None
        assert total >= before
        before = total
    assert km(counters) == first + sum(last - start for start, last in pieces)
    assert [(round(each.first or 0) // 1000, round(each.last or 0) // 1000) for each in counters.sections] == pieces
