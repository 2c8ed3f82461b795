"""Where names stand in a plot so that none overlaps: pure geometry in millimetres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

_NO_ROOM = 99


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
    unnamed: list[Title] = []
    while (rows := _rows(named, edge)) and max(rows) >= most_rows:
        unnamed.append(named.pop(_least(named, rows)))
    return [replace(title, start=title.x, row=row) for title, row in zip(named, rows, strict=True)] + unnamed


def _rows(titles: Sequence[Title], edge: float) -> list[int]:
    """From the right: a text stands above every line it would otherwise cross. Beyond the edge there is no room."""
    rows: list[int] = []
    for index, title in reversed(list(enumerate(titles))):
        end = title.x + title.width
        lines = zip(titles[index + 1 :], reversed(rows), strict=True)
        above = max((row for other, row in lines if other.x < end and row < _NO_ROOM), default=-1) + 1
        rows.append(above if end <= edge else _NO_ROOM)
    return rows[::-1]


def _least(titles: Sequence[Title], rows: Sequence[int]) -> int:
    """Which title to give up: one that has no room at all, then the last that is not strong, then the last."""
    beyond = [index for index, row in enumerate(rows) if row >= _NO_ROOM]
    weak = [index for index, title in enumerate(titles) if not title.strong]
    return (beyond or weak or [len(titles) - 1])[-1]


def spread_out(levels: Sequence[float], least: float) -> list[float]:
    """The levels, moved up as little as needed to stand at least `least` apart, in their order of height."""
    order = sorted(range(len(levels)), key=lambda index: levels[index])
    moved = list(levels)
    for lower, upper in pairwise(order):
        moved[upper] = max(moved[upper], moved[lower] + least)
    excess = [moved[index] - levels[index] for index in order]
    shift = max(excess, default=0.0) / 2
    return [level - shift for level in moved] if shift else moved
