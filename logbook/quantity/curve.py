"""A curve through measured points, without a bulge between them that no point shows.

Piecewise cubic with the slopes of Fritsch and Butland: it rises where the points rise and falls where they fall, so a
valve lift read every ten degrees has no second peak. F. N. Fritsch and J. Butland, A Method for Constructing Local
Monotone Piecewise Cubic Interpolants, SIAM Journal on Scientific and Statistical Computing 5, 1984 (from memory).
"""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise
from typing import NamedTuple

from logbook.quantity.search import crossing


class Curve(NamedTuple):
    """Points, rising in `at`, with the slope in each. Two points or more."""

    at: tuple[float, ...]
    values: tuple[float, ...]
    slopes: tuple[float, ...]

    @classmethod
    def through(cls, at: tuple[float, ...], values: tuple[float, ...]) -> Curve:
        """The curve through these points."""
        return cls(at, values, _slopes(at, values))

    @property
    def peak(self) -> int:
        """The index of the greatest value, the first of equal ones."""
        return self.values.index(max(self.values))

    @property
    def top(self) -> float:
        """The greatest value: between points the curve never rises above them."""
        return max(self.values)

    def value(self, at: float) -> float:
        """The value there; before the first and after the last point it stays as it is at that point."""
        points = self.at
        if not points[0] < at < points[-1]:
            return self.values[0] if at <= points[0] else self.values[-1]
        left = bisect_right(points, at) - 1
        return self._inside(left, (at - points[left]) / (points[left + 1] - points[left]))

    def raised(self, by: float) -> Curve:
        """The same curve, higher by so much; raised, it carries on in a line at each end down to where it ended."""
        points = list(zip(self.at, (value + by for value in self.values), self.slopes, strict=True))
        first, last = points[0], points[-1]
        if by > 0 and first[2] > 0:
            points.insert(0, (first[0] - by / first[2], first[1] - by, first[2]))
        if by > 0 and last[2] < 0:
            points.append((last[0] - by / last[2], last[1] - by, last[2]))
        at, values, slopes = zip(*points, strict=True)
        return Curve(at, values, slopes)

    def scaled(self, by: float) -> Curve:
        """The same curve, higher by that factor."""
        return Curve(self.at, tuple(by * value for value in self.values), tuple(by * slope for slope in self.slopes))

    def shifted(self, by: float) -> Curve:
        """The same curve, later by so much."""
        return self._replace(at=tuple(each + by for each in self.at))

    def before_peak(self, value: float) -> float | None:
        """Where the curve rises through a value for the last time before its peak; None where it never does."""
        return next((self._crossing(left, value) for left in range(self.peak - 1, -1, -1)
                     if self.values[left] <= value <= self.values[left + 1]), None)  # fmt: skip

    def after_peak(self, value: float) -> float | None:
        """Where the curve falls through a value for the first time after its peak; None where it never does."""
        return next((self._crossing(left, value) for left in range(self.peak, len(self.at) - 1)
                     if self.values[left] >= value >= self.values[left + 1]), None)  # fmt: skip

    def area(self, start: float, end: float) -> float:
        """The integral between two places within the points; each piece is a cubic, for which Simpson is exact."""
        within = (each for each in self.at if start < each < end)
        return sum((right - left) / 6 * (self.value(left) + 4 * self.value((left + right) / 2) + self.value(right))
                   for left, right in pairwise((start, *within, end)))  # fmt: skip

    def _inside(self, left: int, share: float) -> float:
        """The cubic of Hermite between two points, at a share of the way."""
        (at, values, slopes), right, other = self, left + 1, 1 - share
        return (
            values[left] * other * other * (1 + 2 * share)
            + values[right] * share * share * (1 + 2 * other)
            + (at[right] - at[left]) * share * other * (slopes[left] * other - slopes[right] * share)
        )

    def _crossing(self, left: int, value: float) -> float:
        """Where the curve takes a value between two points that hold it between them."""
        if value in self.values[left : left + 2]:
            share = 1.0 if value == self.values[left + 1] else 0.0
        else:
            share = crossing(lambda share: self._inside(left, share) - value, 0.0, 1.0)
        return self.at[left] + share * (self.at[left + 1] - self.at[left])


def _slopes(at: tuple[float, ...], values: tuple[float, ...]) -> tuple[float, ...]:
    widths = [right - left for left, right in pairwise(at)]
    steps = [(right - left) / width for (left, right), width in zip(pairwise(values), widths, strict=True)]
    if len(steps) == 1:
        return (steps[0], steps[0])
    inner = [_inner(*pair) for pair in zip(pairwise(widths), pairwise(steps), strict=True)]
    return (_end(widths[0], widths[1], steps[0], steps[1]), *inner, _end(widths[-1], widths[-2], steps[-1], steps[-2]))


def _inner(widths: tuple[float, float], steps: tuple[float, float]) -> float:
    """Weighted harmonic mean of the steps on both sides; level where they turn."""
    if steps[0] * steps[1] <= 0:
        return 0.0
    first, second = 2 * widths[1] + widths[0], widths[1] + 2 * widths[0]
    return (first + second) / (first / steps[0] + second / steps[1])


def _end(width: float, next_width: float, step: float, next_step: float) -> float:
    """Slope in an end point, of three points, held back so that the curve does not turn."""
    slope = ((2 * width + next_width) * step - width * next_step) / (width + next_width)
    if slope * step <= 0:
        return 0.0
    return 3 * step if step * next_step < 0 and abs(slope) > 3 * abs(step) else slope
