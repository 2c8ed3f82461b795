"""Torque over speed of two points: from which speed the later is better, by how much, and where that is scatter.

Of each point the power run nearest to it, both brought to one standard; without that nothing is set side by side. Where
only one run was read at a speed, the other is read between its own readings, in a straight line; never beyond its ends.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from logbook.judge.nearest_tests import Near, Window, nearest_of, unlike, whole_lives
from logbook.judge.power_air import SAID
from logbook.judge.power_runs import LIKE_WITH_LIKE, Beside, Run, power_runs, readings, scaled, set_beside
from logbook.quantity.uncertain import Uncertain
from logbook.specs.configuration import Configuration

File = Callable[[str], bytes]

BETTER, WORSE, SCATTER = "better", "worse", "inside the scatter"


class TorquePoint(NamedTuple):
    """Torque of both runs at one speed, by the standard, in base units; `share` of the difference in the first."""

    speed: float
    before: Uncertain
    after: Uncertain
    difference: Uncertain
    share: float
    verdict: str


class Stretch(NamedTuple):
    """Neighbouring speeds of one verdict, with the least and the greatest share of the difference."""

    verdict: str
    low: float
    high: float
    least: float
    most: float


class Torque(NamedTuple):
    """Two runs side by side. `standard` is '' and `why_not` says why, where they cannot be brought to one."""

    before: Near
    after: Near
    runs: Beside
    standard: str
    points: tuple[TorquePoint, ...]
    unlike: tuple[str, ...]
    why_not: str = ""

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """The speeds in groups of one verdict, rising."""
        groups = (list(some) for _, some in groupby(self.points, key=lambda point: point.verdict))
        return tuple(_stretch(some) for some in groups)


def _stretch(some: Sequence[TorquePoint]) -> Stretch:
    shares = sorted((point.share for point in some), key=abs)
    return Stretch(some[0].verdict, some[0].speed, some[-1].speed, shares[0], shares[-1])


def torque_over_speed(
    before: Configuration,
    after: Configuration,
    files: tuple[File, File],
    windows: tuple[Window, Window] | None = None,
) -> Torque | None:
    """The runs nearest to two points; None where one has none, or both have the same, or one is only thought of."""
    if before.point.plan is not None or after.point.plan is not None:
        return None
    low, high = windows or whole_lives(before, after)
    first, second = _near(before, files[0], low), _near(after, files[1], high)
    if first is None or second is None or first[0].entry is second[0].entry:
        return None
    (was, one), (now, other) = first, second
    runs = set_beside(one, other)
    differ = tuple(unlike(was.entry, now.entry, (*SAID, "tune")))
    standard = LIKE_WITH_LIKE if LIKE_WITH_LIKE in runs.by_standard else next(iter(runs.by_standard), "")
    if not standard:
        return Torque(was, now, runs, "", (), differ, runs.why_not)
    curves = [_corrected(at, near, run, file, standard)
              for at, near, run, file in ((before, was, one, files[0]), (after, now, other, files[1]))]  # fmt: skip
    return Torque(was, now, runs, standard, tuple(_points(*curves)), differ)


def _near(at: Configuration, file: File, window: Window) -> tuple[Near, Run] | None:
    runs = {run.number: run for run in power_runs(at.life, file)}
    near = nearest_of(at, runs, window)
    return (near, runs[near.number]) if near else None


Curve = list[tuple[float, Uncertain]]  # speed and torque, rising


def _corrected(at: Configuration, near: Near, run: Run, file: File, standard: str) -> Curve:
    factor = run.corrected[standard].factor
    read = readings(at.life.record, near.entry, file)
    return sorted(((speed, scaled(torque, factor)) for speed, torque, _ in read), key=lambda point: point[0])


def _points(before: Curve, after: Curve) -> Iterator[TorquePoint]:
    low, high = max(before[0][0], after[0][0]), min(before[-1][0], after[-1][0])
    for speed in sorted({speed for speed, _ in (*before, *after)}):
        if low <= speed <= high:
            was, now = _at(before, speed), _at(after, speed)
            delta = now - was
            side = BETTER if delta.nominal > 0 else WORSE
            verdict = side if abs(delta.nominal) > delta.expanded else SCATTER
            yield TorquePoint(speed, was, now, delta, delta.nominal / was.nominal, verdict)


def _at(curve: Curve, speed: float) -> Uncertain:
    """Torque at a speed, between the two readings beside it if it was not read there."""
    right = next(index for index, (each, _) in enumerate(curve) if each >= speed)
    if curve[right][0] == speed:
        return curve[right][1]
    (left_speed, left), (right_speed, torque) = curve[right - 1], curve[right]
    share = (speed - left_speed) / (right_speed - left_speed)
    return _sum(scaled(left, 1 - share), scaled(torque, share))


def _sum(first: Uncertain, second: Uncertain) -> Uncertain:
    keys = dict.fromkeys((*first.terms, *second.terms))
    terms = {key: first.terms.get(key, 0.0) + second.terms.get(key, 0.0) for key in keys}
    return Uncertain(first.nominal + second.nominal, terms)
