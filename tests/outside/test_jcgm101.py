"""The linear rule against Monte Carlo after JCGM 101:2008, with the standard library's generator and a fixed seed.

Where the program does not doubt its linear rule, mean, standard uncertainty and interval of the draws are those of the
rule; where they part, it says so (`curved`). Targets of 9.2.2 and 9.2.3 as a public test suite quotes them (read); the
compression ratio of test_ratio_budget.py was drawn two million times apart from the program: 9.6777, 0.05826, and
9.565 to 9.793 for 95 %.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sqrt
from random import Random
from statistics import fmean, quantiles, stdev

import pytest
from sources import checks

from logbook.judge.disagreements import e_n
from logbook.quantity.uncertain import Uncertain, propagate
from logbook.specs.compression import compression_ratio

DRAWS = 100_000
CC = 1e-6


def interval(drawn: list[float]) -> tuple[float, float]:
    """The probabilistically symmetric 95 % interval."""
    cuts = quantiles(drawn, n=40)
    return cuts[0], cuts[-1]


def ratio_of(
    bore: float, stroke: float, chamber: float, gasket_bore: float, thickness: float, deck: float, dish: float
) -> float:
    """The whole way from the bench to the ratio, lengths in cm and volumes in cc."""
    clearance = chamber + dish + pi / 4 * gasket_bore**2 * thickness + pi / 4 * bore**2 * deck
    return compression_ratio(swept_volume=pi / 4 * bore**2 * stroke, clearance_volume=clearance)


@checks("compression_ratio", source="two million draws after JCGM 101:2008, apart from the program",
        kind="independent computation")  # fmt: skip
def test_a_ratio_from_good_measurements() -> None:
    given = {"bore": (10.160, 0.001), "stroke": (8.8392, 0.005), "chamber": (64.0, 0.3), "gasket_bore": (10.414, 0.010),
             "thickness": (0.09906, 0.003), "deck": (0.0635, 0.003), "dish": (5.0, 0.3)}  # fmt: skip
    linear = propagate(ratio_of, {name: Uncertain(value, {name: size}) for name, (value, size) in given.items()})
    chance = Random(20240101)
    drawn = [ratio_of(*(chance.gauss(value, size) for value, size in given.values())) for _ in range(DRAWS)]
    assert not linear.curved
    assert fmean(drawn) == pytest.approx(9.6777, abs=0.0008)
    assert stdev(drawn) == pytest.approx(0.05826, abs=0.0005)
    assert stdev(drawn) == pytest.approx(linear.standard, rel=0.01)
    assert interval(drawn) == pytest.approx((9.565, 9.793), abs=0.002)
    assert interval(drawn) == pytest.approx(
        (linear.nominal - 1.96 * linear.standard, linear.nominal + 1.96 * linear.standard), abs=0.006
    )


@pytest.mark.parametrize(("spread", "doubtful"), [(0.3, False), (3.0, True), (5.0, True)])
def test_the_rule_is_doubted_where_the_draws_part_from_it(spread: float, doubtful: bool) -> None:
    """500 cc over 25 cc, compression ignition: the ratio is the more bent the less is left above the piston."""

    def ratio(*, clearance_volume: float) -> float:
        return compression_ratio(swept_volume=500 * CC, clearance_volume=clearance_volume)

    linear = propagate(ratio, {"clearance_volume": Uncertain(25 * CC, {"clearance": spread * CC})})
    chance = Random(20240102)
    volumes = (chance.gauss(25, spread) for _ in range(DRAWS))
    drawn = [ratio(clearance_volume=volume * CC) for volume in volumes if volume > 5]
    low, high = interval(drawn)
    parts = max(abs(low - linear.nominal + 1.96 * linear.standard), abs(high - linear.nominal - 1.96 * linear.standard))
    assert linear.curved is doubtful
    assert (parts > 0.1 * linear.expanded) is doubtful


def _sum(*, a: float, b: float, c: float, d: float) -> float:
    return a + b + c + d


@pytest.mark.parametrize(
    ("draw", "half"),
    [(lambda chance: chance.gauss(0, 1), 3.92), (lambda chance: chance.uniform(-sqrt(3), sqrt(3)), 3.88)],
    ids=["9.2.2, four normal", "9.2.3, four rectangular"],
)
def test_sums_of_four(draw: Callable[[Random], float], half: float) -> None:
    """Standard uncertainty 2.0 in both; the 95 % interval is ± 3.92 and ± 3.88, and k = 2 covers either."""
    chance = Random(20240103)
    drawn = [_sum(a=draw(chance), b=draw(chance), c=draw(chance), d=draw(chance)) for _ in range(DRAWS)]
    linear = propagate(_sum, {name: Uncertain(0.0, {name: 1.0}) for name in "abcd"})
    assert linear.standard == pytest.approx(2.0)
    assert stdev(drawn) == pytest.approx(2.0, rel=0.01)
    low, high = interval(drawn)
    assert (high - low) / 2 == pytest.approx(half, abs=0.03)
    assert half < linear.expanded


# E_n of ISO 13528:2022, 9.4 (from memory; no published figures at hand)


def test_one_in_twenty_of_what_is_alike_is_beyond_one() -> None:
    """What E_n is made for: with honest uncertainties (k = 2) of one true value, 4.6 % of all pairs are beyond 1."""
    chance = Random(20240104)
    pairs = (
        (Uncertain(chance.gauss(40, 0.3), {"one": 0.3}), Uncertain(chance.gauss(40, 0.4), {"other": 0.4}))
        for _ in range(20_000)
    )
    beyond = sum(e_n(one, other) > 1 for one, other in pairs) / 20_000
    assert beyond == pytest.approx(0.0455, abs=0.005)
