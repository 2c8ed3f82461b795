"""What the trade says of a two-litre four, 500 cc a cylinder: its ratios, and its heads. Common practice, no source.

The quoted figures do not all agree with one rest volume (gasket, deck, crevice): with 5.4 cc they are met in direction,
and in size within 0.3 of a ratio. A dish of '14 to 15 cc' is taken in its middle.
"""

from __future__ import annotations

from itertools import combinations

import pytest
from sources import checks

from logbook.specs.breathing import filling_falls_from, inlet_mach_index_at_speed
from logbook.specs.compression import compression_ratio
from logbook.specs.volumes import clearance_volume, crown_volume_dished

CC = 1e-6
REST = 5.4
QUOTED = {  # (dish cc, chamber cc): ratio
    (11.0, 48.0): 8.7,
    (11.0, 46.0): 9.0,
    (11.0, 42.0): 9.7,
    (14.5, 42.0): 9.0,
    (14.5, 46.0): 8.3,
    (14.5, 48.0): 8.1,
}


def ratio(dish: float, chamber: float) -> float:
    clearance = clearance_volume(
        chamber_volume=chamber * CC,
        crown_volume=crown_volume_dished(dish_volume=dish * CC),
        gasket_volume=REST * CC,
        deck_volume=0,
    )
    return compression_ratio(swept_volume=500 * CC, clearance_volume=clearance)


@checks("compression_ratio", "clearance_volume", source="ratios that the trade quotes for a two-litre four",
        kind="common practice")  # fmt: skip
@pytest.mark.parametrize(("dish", "chamber"), QUOTED)
def test_size_within_three_tenths_of_a_ratio(dish: float, chamber: float) -> None:
    assert ratio(dish, chamber) == pytest.approx(QUOTED[dish, chamber], abs=0.3)


@pytest.mark.parametrize(
    ("one", "other"),
    [pair for pair in combinations(QUOTED, 2) if pair[0][0] == pair[1][0] or pair[0][1] == pair[1][1]],
)
def test_smaller_chamber_or_shallower_dish_raises_the_ratio_as_quoted(
    one: tuple[float, float], other: tuple[float, float]
) -> None:
    """Of two builds that share the piston or the head, the higher quoted ratio is the higher worked one."""
    assert (ratio(*one) > ratio(*other)) is (QUOTED[one] > QUOTED[other])


# of two heads that differ in inlet valve and port, the larger gains only from about 5,000 rpm up

SMALL, LARGE = 42e-3, 46e-3  # inlet valve heads in m; these sizes, bore, stroke and coefficient are the test's own
TWO_LITRE = {"bore": 86e-3, "stroke": 86e-3, "inlet_valves": 1.0, "inlet_flow_coefficient": 0.35}


def index(valve: float, rpm: float) -> float:
    return inlet_mach_index_at_speed(engine_speed=rpm / 60, inlet_valve_diameter=valve, **TWO_LITRE)


@checks("filling_falls_from", "inlet_mach_index", source="what the trade says of two heads of a two-litre four",
        kind="common practice")  # fmt: skip
def test_the_larger_valve_gains_from_about_five_thousand_on() -> None:
    """Common practice, no source. Up to there both fill freely; from there on only the larger one does."""
    falls = {valve: 60 * filling_falls_from(inlet_valve_diameter=valve, **TWO_LITRE) for valve in (SMALL, LARGE)}
    assert 4300 < falls[SMALL] < 5700 < falls[LARGE] < 7000
    assert index(SMALL, 2000) < 0.25, "at 2,000 neither is anywhere near the band"
    assert index(SMALL, 5200) > 0.5 > index(LARGE, 5200)
    assert index(LARGE, 8000) > 0.6, "at 8,000 the larger one is beyond it too: they have parted long before"
