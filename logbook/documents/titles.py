"""Where names stand in a plot so that none overlaps: pure geometry in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Title:
    """A title over the thin line of its change at x; its text begins at start, in a row counted from the plot upwards.

    row -1: there is no room to name it; it keeps a short stroke at the axis.
    """

    x: float
    width: float
    text: str
    strong: bool
    start: float = 0.0
    row: int = -1


def stacked(titles: Sequence[Title], edge: float, most_rows: int) -> list[Title]:
    """Titles in rows, each beginning at its own line and ending before `edge`, rising to the left like a stair.

    No text meets another or is crossed by another's line. What matters less gives way where there are too many.
    """
    named = sorted(titles, key=lambda title: title.x)
    while (rows := _rows(named, edge)) and max(rows) >= most_rows:
        named.remove(_least(named, rows))
    placed = [replace(title, start=title.x, row=row) for title, row in zip(named, rows, strict=True)]
    return placed + [title for title in titles if title not in named]


def _rows(titles: Sequence[Title], edge: float) -> list[int]:
    """From the right: a text stands above every line it would otherwise cross. Beyond the edge there is no room."""
    rows: list[int] = []
    right: list[Title] = []
    for title in reversed(titles):
        crossed = [row for row, other in zip(rows, right, strict=True) if other.x < title.x + title.width]
        rows.append(max(crossed, default=-1) + 1 if title.x + title.width <= edge + title.width * 0.02 else 99)
        right.append(title)
    return rows[::-1]


def _least(titles: Sequence[Title], rows: Sequence[int]) -> Title:
    """The title to give up: first what has no room at all, then the last that is not strong, then the last."""
    beyond = [title for title, row in zip(titles, rows, strict=True) if row == 99]
    weak = [title for title in titles if not title.strong]
    return (beyond or weak or list(titles))[-1]


def spread_out(levels: Sequence[float], least: float) -> list[float]:
    """The levels, moved up as little as needed to stand at least `least` apart, in their order of height."""
    order = sorted(range(len(levels)), key=lambda index: levels[index])
    moved = list(levels)
    for lower, upper in pairwise(order):
        moved[upper] = max(moved[upper], moved[lower] + least)
    excess = [moved[index] - levels[index] for index in order]
    shift = max(excess, default=0.0) / 2
    return [level - shift for level in moved] if shift else moved
