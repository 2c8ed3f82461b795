"""A slope that one bad reading does not turn, against SciPy and the exact distribution; rows that belong together."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lives import Life

from logbook.judge.trend import _inversions, theil_sen, trends

RUN = (0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0)
READ = (12.0, 11.9, 12.1, 11.8, 11.7, 11.9, 11.5, 11.6, 11.4, 11.5, 11.2, 11.3)


def test_the_slope_and_its_interval_as_scipy_has_them() -> None:
    from scipy.stats import theilslopes

    ours, theirs = theil_sen(RUN, READ), theilslopes(READ, RUN)
    assert ours
    assert ours.slope == pytest.approx(theirs.slope)
    slopes = sorted((b - a) / (y - x) for i, (x, a) in enumerate(zip(RUN, READ, strict=True))
                    for y, b in list(zip(RUN, READ, strict=True))[i + 1 :])  # fmt: skip
    low = [abs(slopes.index(each) - slopes.index(theirs.low_slope)) for each in (ours.low,)]
    assert low[0] <= 2  # SciPy's bounds are by the normal distribution, ours by the exact one


@pytest.mark.parametrize("readings", [5, 6, 8])
def test_orders_by_their_inversions_as_scipy_counts_them(readings: int) -> None:
    from scipy.stats import kendalltau

    counts = _inversions(readings)
    assert sum(counts[:1]) == 1
    order = list(range(readings))
    order[0], order[1] = order[1], order[0]  # one pair the wrong way round
    chance = kendalltau(range(readings), order, method="exact").pvalue
    assert 2 * (counts[0] + counts[1]) / sum(counts) == pytest.approx(chance)


def test_one_bad_reading_does_not_turn_it() -> None:
    good = theil_sen(RUN, READ)
    bad = theil_sen(RUN, (*READ[:-1], 40.0))
    assert good
    assert bad
    assert good.proven
    assert bad.slope == pytest.approx(good.slope, abs=0.03)


def test_of_four_readings_no_trend_is_told() -> None:
    assert theil_sen(RUN[:4], READ[:4]) is None
    assert theil_sen((1.0,) * 6, READ[:6]) is None


def test_five_in_a_row_are_just_enough() -> None:
    slope = theil_sen(RUN[:5], (5.0, 4.0, 3.0, 2.0, 1.0))
    assert slope
    assert (slope.slope, slope.low, slope.high, slope.proven) == (-1.0, -1.0, -1.0, True)


@given(read=st.lists(st.floats(0, 20), min_size=5, max_size=9), scale=st.floats(0.1, 10), shift=st.floats(-5, 5))
def test_it_goes_with_the_units_and_lies_in_its_interval(read: list[float], scale: float, shift: float) -> None:
    run = RUN[: len(read)]
    one, other = theil_sen(run, read), theil_sen([scale * each + shift for each in run], read)
    assert one
    assert other
    assert one.low <= one.slope <= one.high
    assert other.slope * scale == pytest.approx(one.slope, abs=1e-6)


def cranked(life: Life, date: str, hours: float, pressures: str, using: str = "fine") -> Life:
    life.texts[f"tests/{date}-cranked.yaml"] = (
        f"date: {date}\nkind: compression test\nreading: {hours} h\nwith: {using}\noil: dry\n"
        f"values: {{cranking_pressure: {pressures} bar gauge}}\n"
    )
    life.__dict__.pop("book", None)
    return life


def worn(life: Life) -> Life:
    for month in range(1, 7):
        cranked(life, f"2024-{month:02}-10", 10.0 * month, f"12.0 / {12.0 - 0.2 * month:.1f}")
    return life


def test_by_cylinder_over_hours_of_one_gauge() -> None:
    life = cranked(worn(Life(2)), "2024-07-01", 70.0, "9.0 / 9.0", using="coarse")
    steady, falling = trends(life.fold, "cranking_pressure", "fine")
    assert (steady.position, falling.position, falling.over) == ("1", "2", "time")
    assert steady.slope
    assert falling.slope
    assert not steady.slope.proven
    assert falling.slope.slope * 3600 / 1e5 == pytest.approx(-0.02)  # bar in an hour
    assert falling.slope.proven
    other = list(trends(life.fold, "cranking_pressure", "coarse"))
    assert [each.slope for each in other] == [None, None]


def test_a_head_that_is_exchanged_begins_a_new_row() -> None:
    life = worn(Life(2).part("head-a", "cylinder_head")).work("2024-04-01", "fit: head-a", at="35 h")
    assert [len(each.read) for each in trends(life.fold, "cranking_pressure")] == [3, 3]
