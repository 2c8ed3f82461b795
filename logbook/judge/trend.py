"""Which way a reading goes over distance or hours: a slope that one bad reading does not turn, with its interval.

The slope is the median of the slopes of all pairs (Theil 1950, Sen 1968); its interval holds 95 % by the exact
distribution of Kendall's S without ties. Of fewer than five readings no such interval exists: no trend is told then.
Only readings of one instrument, one quantity and the same conditions are set in one row, since the parts that they
speak for were last exchanged or worked on.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations
from math import factorial
from statistics import median
from typing import NamedTuple

from logbook.quantity.stated import Stated
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.state.counters import DISTANCE, HOURS
from logbook.state.fold import Life

FEWEST = 5  # of four readings even a row without exception has a chance of 1 in 12
_CONFIDENCE = 0.95

#: What a reading of a kind speaks for: exchanged or worked on, a new row begins.
_SPEAKS_FOR = frozenset({
    "block", "crankshaft", "connecting_rods", "pistons", "piston_rings", "cylinder_head", "head_gasket", "camshaft",
    "inlet_camshaft", "exhaust_camshaft", "inlet_valves", "exhaust_valves", "main_bearings", "rod_bearings", "oil_pump",
})  # fmt: skip


class Slope(NamedTuple):
    """Of readings over a run: the slope, and the interval that holds it with 95 %."""

    slope: float
    low: float
    high: float
    readings: int

    @property
    def proven(self) -> bool:
        """Whether it goes one way: the interval leaves zero out."""
        return self.low > 0 or self.high < 0


class Trend(NamedTuple):
    """One position's readings since a moment, over distance (m) or hours (s); `slope` None where there are too few."""

    name: str
    position: str
    instrument: str
    over: str
    run: tuple[float, ...]
    read: tuple[float, ...]
    slope: Slope | None


def theil_sen(run: Sequence[float], read: Sequence[float]) -> Slope | None:
    """The robust slope of readings over a run; None of fewer than five, or where all were read at one point.

    Readings at one point of the run give no slope among themselves, and the interval is then only about right.

    Source: H. Theil, 1950; P. K. Sen, 1968; the bounds as in M. Hollander and D. A. Wolfe, Nonparametric Statistical
    Methods, chapter 9 (from memory).
    """
    pairs = list(zip(run, read, strict=True))
    slopes = sorted((b[1] - a[1]) / (b[0] - a[0]) for a, b in combinations(sorted(pairs), 2) if b[0] != a[0])
    if len(pairs) < FEWEST or not slopes:
        return None
    left_out = min(_left_out(len(pairs)), (len(slopes) - 1) // 2)
    return Slope(median(slopes), slopes[left_out], slopes[-1 - left_out], len(pairs))


@cache
def _left_out(readings: int) -> int:
    """How many slopes are left out at each end, so that what lies between holds the true one with 95 %."""
    tail, total, left_out = 0, factorial(readings), 0
    for count in _inversions(readings):
        tail += count
        if tail / total > (1 - _CONFIDENCE) / 2:
            return max(left_out - 1, 0)
        left_out += 1
    return 0


@cache
def _inversions(readings: int) -> tuple[int, ...]:
    """In how many orders of so many readings 0, 1, 2, … pairs stand the wrong way round."""
    if readings < 2:
        return (1,)
    before = _inversions(readings - 1)
    return tuple(
        sum(before[max(0, k - readings + 1) : k + 1]) for k in range(readings * (readings - 1) // 2 + 1)
    )  # fmt: skip


def trends(life: Life, name: str, instrument: str | None = None) -> Iterator[Trend]:
    """Every trend of what tests read of a quantity since the last work on what the reading speaks for.

    One for each instrument, conditions and position.
    """
    first = last_work(life)
    rows: dict[tuple[str, tuple[tuple[str, str], ...]], list[tuple[int, Fact]]] = {}
    for number, entry in enumerate(life.record.entries):
        if number >= first and isinstance(entry.says, model.Test):
            for fact in entry.facts:
                if fact.name == name and not fact.unknown and instrument in (None, fact.stated.instrument or ""):
                    rows.setdefault((fact.stated.instrument or "", fact.stated.qualifiers), []).append((number, fact))
    for (its, _), taken in rows.items():
        for index, position in enumerate(life.arrangement.positions(taken[0][1].row.place)):
            yield _of_position(life, name, its, taken, index, position)


def _of_position(
    life: Life, name: str, instrument: str, taken: list[tuple[int, Fact]], index: int, position: str
) -> Trend:
    read = [(number, _mean(each)) for number, fact in taken if (each := fact.at(index))]
    over = _over(life, [number for number, _ in read])
    known = [(run, value) for number, value in read if (run := life.after(number).counters.totals.of(over)) is not None]
    ran, values = tuple(run for run, _ in known), tuple(value for _, value in known)
    return Trend(name, position, instrument, over, ran, values, theil_sen(ran, values))


def _mean(several: Sequence[Stated]) -> float:
    return sum(stated.nominal for stated in several) / len(several)


def _over(life: Life, numbers: Sequence[int]) -> str:
    """The counter that tells most of these readings; hours where both do: they are never turned into each other."""
    told = {kind: sum(life.after(number).counters.totals.of(kind) is not None for number in numbers)
            for kind in (HOURS, DISTANCE)}  # fmt: skip
    return max(told, key=lambda kind: told[kind])


def last_work(life: Life) -> int:
    """The number of the last entry that exchanged or worked on what a reading speaks for; 0 where none did."""
    kinds = life.record.parts
    fitted = (fitting.since[0] for fitting in life.after(len(life.states) - 1).fitted.values()
              if fitting.kind in _SPEAKS_FOR)  # fmt: skip
    cut = (each.moment[0] for each in life.reworks
           if not each.adjusted and each.part in kinds and kinds[each.part].kind in _SPEAKS_FOR)  # fmt: skip
    return max((0, *fitted, *cut)) if life.states else 0
