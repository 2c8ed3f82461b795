"""The curve through measured points: through each of them, no bulge between them, and as SciPy has it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator

from logbook.quantity.curve import Curve

heights = st.lists(st.integers(0, 1200).map(lambda hundredth: hundredth / 100), min_size=3, max_size=20)
gaps = st.integers(1, 20)


@st.composite
def points(draw: st.DrawFn) -> tuple[tuple[float, ...], tuple[float, ...]]:
    values = tuple(draw(heights))
    at, place = [], -150.0
    for _ in values:
        at.append(place)
        place += draw(gaps)
    return tuple(at), values


@given(points=points(), share=st.floats(0, 1))
def test_it_is_what_another_computation_gives(
    points: tuple[tuple[float, ...], tuple[float, ...]], share: float
) -> None:
    """SciPy's PchipInterpolator, an independent computation of the same curve."""
    at = points[0][0] + share * (points[0][-1] - points[0][0])
    assert Curve.through(*points).value(at) == pytest.approx(float(PchipInterpolator(*points)(at)), abs=1e-9)


@given(points=points())
def test_it_goes_through_each_point_and_stays_between_neighbours(
    points: tuple[tuple[float, ...], tuple[float, ...]],
) -> None:
    curve = Curve.through(*points)
    for left in range(len(curve.at) - 1):
        low, high = sorted(curve.values[left : left + 2])
        assert curve.value(curve.at[left]) == curve.values[left]
        for share in (0.2, 0.5, 0.9):
            between = curve.value(curve.at[left] + share * (curve.at[left + 1] - curve.at[left]))
            assert low - 1e-9 <= between <= high + 1e-9


@given(points=points(), share=st.floats(0.01, 0.99))
def test_where_it_crosses_a_height_it_has_that_height(
    points: tuple[tuple[float, ...], tuple[float, ...]], share: float
) -> None:
    curve = Curve.through(*points)
    height = share * curve.top
    for found in (curve.before_peak(height), curve.after_peak(height)):
        assert found is None or curve.value(found) == pytest.approx(height, abs=1e-6)
    rises = curve.values[0] < height < curve.top
    assert not rises or curve.before_peak(height) is not None


@given(points=points(), shares=st.tuples(st.floats(0, 1), st.floats(0, 1)))
def test_its_area_is_the_integral(
    points: tuple[tuple[float, ...], tuple[float, ...]], shares: tuple[float, float]
) -> None:
    curve = Curve.through(*points)
    start, end = (curve.at[0] + share * (curve.at[-1] - curve.at[0]) for share in sorted(shares))
    inside = [each for each in curve.at if start < each < end]
    expected = quad(curve.value, start, end, points=inside or None, limit=200)[0]
    assert curve.area(start, end) == pytest.approx(expected, rel=1e-6, abs=1e-6)


@given(points=points())
def test_at_the_height_of_a_point_it_crosses_there(points: tuple[tuple[float, ...], tuple[float, ...]]) -> None:
    """At the peak too, where the curve is level, and at its neighbours."""
    curve, (at, values) = Curve.through(*points), points
    if curve.peak > 0:
        before = (curve.before_peak(values[curve.peak - 1]), curve.before_peak(curve.top))
        assert before == (at[curve.peak - 1], at[curve.peak])
    if curve.peak < len(at) - 1:
        assert curve.after_peak(values[curve.peak + 1]) == at[curve.peak + 1]


def test_two_points_make_a_line() -> None:
    assert Curve.through((0.0, 10.0), (0.0, 5.0)).value(4) == pytest.approx(2)


def test_beyond_its_ends_it_stays() -> None:
    curve = Curve.through((0.0, 10.0, 20.0), (1.0, 5.0, 2.0))
    assert (curve.value(-3), curve.value(25)) == (1.0, 2.0)


def test_raised_and_shifted() -> None:
    curve = Curve.through((0.0, 10.0, 20.0), (1.0, 5.0, 2.0))
    assert curve.raised(0.5).value(7) == pytest.approx(curve.value(7) + 0.5)
    assert curve.shifted(30).value(37) == pytest.approx(curve.value(7))
