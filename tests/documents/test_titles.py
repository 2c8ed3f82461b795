"""Titles over a plot: none overlaps another, none is crossed by another's line."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from logbook.documents.titles import Title, spread_out, stacked

EDGE = 160.0
TITLES = st.lists(
    st.builds(
        lambda x, width, strong: Title(x, width, "title", strong),
        st.floats(0, EDGE), st.floats(3, 60), st.booleans(),
    ),
    max_size=25,
)  # fmt: skip


@given(TITLES)
def test_no_title_meets_another(titles: list[Title]) -> None:
    named = [title for title in stacked(titles, EDGE, 6) if title.row >= 0]
    for index, one in enumerate(named):
        for other in named[index + 1 :]:
            apart = one.start + one.width <= other.start or other.start + other.width <= one.start
            assert one.row != other.row or apart


@given(TITLES)
def test_no_line_crosses_a_title(titles: list[Title]) -> None:
    named = [title for title in stacked(titles, EDGE, 6) if title.row >= 0]
    for one in named:
        for other in named:
            crosses = one.x < other.x < one.x + one.width
            assert not crosses or one.row > other.row


@given(TITLES)
def test_every_change_keeps_its_line(titles: list[Title]) -> None:
    assert sorted(title.x for title in stacked(titles, EDGE, 6)) == sorted(title.x for title in titles)
    assert all(title.row < 6 for title in stacked(titles, EDGE, 6))


def test_what_moved_the_figure_is_named_before_what_did_not() -> None:
    titles = [Title(10.0 + index, 50, str(index), strong=index % 5 == 0) for index in range(10)]
    named = {title.text for title in stacked(titles, EDGE, 2) if title.row >= 0}
    assert named == {"0", "5"}


@given(st.lists(st.floats(0, 60), min_size=1, max_size=8))
def test_names_at_lines_ends_stand_apart_in_their_order(levels: list[float]) -> None:
    moved = spread_out(levels, 3.6)
    order = sorted(range(len(levels)), key=lambda index: levels[index])
    assert all(moved[b] - moved[a] >= 3.6 - 1e-9 for a, b in pairwise(order))
