"""Guard bands and conformance probabilities against the worked examples of JCGM 106:2012 and the zones of ISO 14253-1.

Both from memory: the texts were not at hand.
"""

from __future__ import annotations

import pytest

from logbook.judge.bounds import OUTSIDE, UNDECIDED, WITHIN, standing
from logbook.quantity.uncertain import Uncertain


def measured(value: float, standard: float) -> Uncertain:
    return Uncertain(value, {"its own": standard})


@pytest.mark.parametrize(
    ("value", "standard", "low", "high", "likely"),
    [
        # 7.3: a Zener diode of -5.47 V, u = 0.05 V, upper limit -5.40 V
        (-5.47, 0.05, None, -5.40, 0.92),
        # 7.3: the burst strength of a metal container, 509.7 kPa, u = 8.6 kPa, lower limit 490 kPa
        (509.7, 8.6, 490.0, None, 0.99),
        # 7.4: kinematic viscosity of a motor oil, 13.6 mm2/s, u = 1.8 mm2/s, limits 12.5 and 16.3 mm2/s
        (13.6, 1.8, 12.5, 16.3, 0.66),
    ],
)
def test_the_conformance_probabilities_of_the_examples(
    value: float, standard: float, low: float | None, high: float | None, likely: float
) -> None:
    bounds = (None if bound is None else Uncertain(bound) for bound in (low, high))
    assert standing(measured(value, standard), *bounds).likely == pytest.approx(likely, abs=0.005)


def test_the_speed_at_which_a_driver_is_fined() -> None:
    """8.3: limit 100 km/h, u = 2 %, fined where it is 99.9 % sure that he drove too fast: from 107 km/h on."""
    sure = [
        speed
        for speed in range(101, 120)
        if standing(measured(speed, 0.02 * speed), None, Uncertain(100)).likely <= 0.001
    ]
    assert sure[0] == 107


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (9.78, OUTSIDE),  # beyond the lower limit by more than U
        (9.80, OUTSIDE),
        (9.82, UNDECIDED),
        (10.18, UNDECIDED),
        (10.20, WITHIN),  # the acceptance zone is the specification less U at both ends
        (10.50, WITHIN),
        (10.80, WITHIN),
        (10.82, UNDECIDED),
        (11.18, UNDECIDED),
        (11.20, OUTSIDE),
    ],
)
def test_the_zones_of_iso_14253(value: float, verdict: str) -> None:
    """Specification 10 to 11, U = 0.2 (k = 2): conforming is proven 10.2 to 10.8, the contrary beyond 9.8 and 11.2."""
    assert standing(measured(value, 0.1), Uncertain(10.0), Uncertain(11.0)).verdict == verdict


def test_a_zone_narrower_than_the_uncertainty_proves_nothing_within() -> None:
    """ISO 14253-1: where 2 U is more than the tolerance, there is no zone in which conformance is proven."""
    verdicts = {standing(measured(10 + step / 50, 0.3), Uncertain(10.0), Uncertain(11.0)).verdict for step in range(51)}
    assert verdicts == {UNDECIDED}
