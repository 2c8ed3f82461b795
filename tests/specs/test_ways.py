"""What is missing, way by way: the least sets, and the shorter words of the two."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from logbook.specs.ways import needs, ways

NAMES = "abcde"
groups = st.lists(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True).map(tuple), max_size=5)


def test_a_bolt_is_tightened_in_one_of_three_ways() -> None:
    stretch, torque = ("stretch", "length"), ("torque", "factor")
    by_groups = tuple((one, other) for one in stretch for other in torque)
    assert needs((("diameter",), *by_groups)) == "needs diameter, and either stretch, length; or torque, factor"


def test_what_is_short_enough_stays_as_it_is() -> None:
    assert needs((("bore",), ("stroke", "throw"))) == "needs bore, stroke or throw"
    assert needs(()) == ""


@given(some=groups.map(tuple))
def test_each_way_unlocks_it_and_none_of_its_names_is_idle(some: tuple[tuple[str, ...], ...]) -> None:
    for way in ways(some):
        assert all(set(way) & set(group) for group in some)
        for name in way:
            assert not all((set(way) - {name}) & set(group) for group in some)
