"""What must be true of the formulas whatever the figures: inverses, directions, limits, continuity."""

from __future__ import annotations

from itertools import pairwise
from math import fsum, pi

import pytest
from formulas import SOUND
from hypothesis import assume, given
from hypothesis import strategies as st

from logbook.specs import compression, condition, motion, timing, volumes

MM = 1e-3
CC = 1e-6
CRANK = {"stroke": 88 * MM, "rod_length": 150 * MM}
events = st.fixed_dictionaries(
    {name: SOUND[name] for name in ("inlet_opens", "inlet_closes", "exhaust_opens", "exhaust_closes")}
)
several = st.lists(SOUND["compression_ratio"], min_size=1, max_size=16)


# inverses


@given(swept=SOUND["swept_volume"], ratio=SOUND["compression_ratio"])
def test_a_ratio_and_its_clearance_volume_undo_each_other(swept: float, ratio: float) -> None:
    clearance = compression.clearance_volume_of_ratio(swept_volume=swept, compression_ratio=ratio)
    assert compression.compression_ratio(swept_volume=swept, clearance_volume=clearance) == pytest.approx(ratio)


@given(events=events)
def test_durations_and_lobe_centres_give_the_events_back(events: dict[str, float]) -> None:
    inlet = {name: events[name] for name in ("inlet_opens", "inlet_closes")}
    exhaust = {name: events[name] for name in ("exhaust_opens", "exhaust_closes")}
    half, centre = timing.inlet_duration(**inlet) / 2, timing.inlet_lobe_centre(**inlet)
    assert (half - centre, half + centre - 180) == pytest.approx(
        (inlet["inlet_opens"], inlet["inlet_closes"]), abs=1e-9
    )
    half, centre = timing.exhaust_duration(**exhaust) / 2, timing.exhaust_lobe_centre(**exhaust)
    assert (half + centre - 180, half - centre) == pytest.approx(
        (exhaust["exhaust_opens"], exhaust["exhaust_closes"]), abs=1e-9
    )


@given(events=events)
def test_overlap_is_the_mean_duration_less_twice_the_lobe_separation(events: dict[str, float]) -> None:
    timed = _timing(events)
    separation = timed["lobe_separation"]
    mean = (timed["inlet_duration"] + timed["exhaust_duration"]) / 2
    assert timed["valve_overlap"] == pytest.approx(mean - 2 * separation, abs=1e-9)


@given(events=events, advance=st.floats(-12, 12))
def test_advancing_the_camshaft_moves_both_centres_and_nothing_ground_into_it(
    events: dict[str, float], advance: float
) -> None:
    sooner = {"inlet_opens": 1, "inlet_closes": -1, "exhaust_opens": 1, "exhaust_closes": -1}
    before = _timing(events)
    after = _timing({name: angle + advance * sooner[name] for name, angle in events.items()})
    moved = {name: after[name] - before[name] for name in before}
    expected = dict.fromkeys(before, 0.0) | {"inlet_lobe_centre": -advance, "exhaust_lobe_centre": advance}
    assert moved == pytest.approx(expected, abs=1e-9)


def _timing(events: dict[str, float]) -> dict[str, float]:
    inlet = {name: events[name] for name in ("inlet_opens", "inlet_closes")}
    exhaust = {name: events[name] for name in ("exhaust_opens", "exhaust_closes")}
    centres = {
        "inlet_lobe_centre": timing.inlet_lobe_centre(**inlet),
        "exhaust_lobe_centre": timing.exhaust_lobe_centre(**exhaust),
    }
    return {
        **centres,
        "lobe_separation": timing.lobe_separation(**centres),
        "inlet_duration": timing.inlet_duration(**inlet),
        "exhaust_duration": timing.exhaust_duration(**exhaust),
        "valve_overlap": timing.valve_overlap(
            inlet_opens=events["inlet_opens"], exhaust_closes=events["exhaust_closes"]
        ),
    }


# directions


STREET = {
    "bore": 86 * MM, "stroke": 86 * MM, "chamber_volume": 42 * CC, "crown_volume": 5 * CC, "gasket_thickness": 1.2 * MM,
    "gasket_bore": 87.5 * MM, "deck_clearance": 0.3 * MM, "top_land_diameter": 85.4 * MM, "top_land_height": 6 * MM,
}  # fmt: skip


def street_ratio(**changed: float) -> float:
    size = STREET | changed
    return compression.compression_ratio(
        swept_volume=volumes.swept_volume(bore=size["bore"], stroke=size["stroke"]),
        clearance_volume=volumes.clearance_volume_with_crevice(
            chamber_volume=size["chamber_volume"],
            crown_volume=size["crown_volume"],
            gasket_volume=volumes.gasket_volume_round(
                gasket_bore=size["gasket_bore"], gasket_thickness=size["gasket_thickness"]
            ),
            deck_volume=volumes.deck_volume(bore=size["bore"], deck_clearance=size["deck_clearance"]),
            crevice_volume=volumes.crevice_volume(
                bore=size["bore"], top_land_diameter=size["top_land_diameter"], top_land_height=size["top_land_height"]
            ),
        ),
    )


@pytest.mark.parametrize(
    ("what", "more", "raises"),
    [
        ("chamber_volume", 1 * CC, False),
        ("crown_volume", 1 * CC, False),
        ("gasket_thickness", 0.1 * MM, False),
        ("gasket_bore", 1 * MM, False),
        ("deck_clearance", 0.1 * MM, False),
        ("top_land_height", 1 * MM, False),
        ("top_land_diameter", 0.2 * MM, True),
        ("stroke", 1 * MM, True),
        ("bore", 0.5 * MM, True),
    ],
)
def test_the_ratio_moves_as_every_builder_knows(what: str, more: float, raises: bool) -> None:
    assert (street_ratio(**{what: STREET[what] + more}) > street_ratio()) is raises


@given(size=SOUND["dish_volume"])
def test_a_dish_adds_what_a_raised_crown_of_its_size_takes(size: float) -> None:
    assert volumes.crown_volume_dished(dish_volume=size) == size
    assert volumes.crown_volume_raised(dome_volume=size) == -size


@given(clearance=st.floats(0.01 * MM, 2 * MM))
def test_a_proud_piston_takes_the_room_that_one_below_the_deck_leaves(clearance: float) -> None:
    below = volumes.deck_volume(bore=86 * MM, deck_clearance=clearance)
    above = volumes.deck_volume(bore=86 * MM, deck_clearance=-clearance)
    assert below > 0
    assert above == -below


@pytest.mark.parametrize(("what", "falls"), [("stroke", 0.5), ("rod_length", 1.0), ("compression_height", 1.0)])
def test_a_longer_stack_comes_nearer_to_the_deck(what: str, falls: float) -> None:
    stack = {"deck_height": 230 * MM, "stroke": 88 * MM, "rod_length": 150 * MM, "compression_height": 35.5 * MM}
    before = volumes.deck_clearance_of_stack(**stack)
    after = volumes.deck_clearance_of_stack(**stack | {what: stack[what] + MM})
    assert before == pytest.approx(0.5 * MM)
    assert before - after == pytest.approx(falls * MM)


@given(one=st.floats(0, 150), other=st.floats(0, 150))
def test_later_inlet_closing_lowers_the_effective_ratio(one: float, other: float) -> None:
    assume(abs(one - other) > 0.01)
    assert effective(inlet_closes=max(one, other)) < effective(inlet_closes=min(one, other))


def test_a_longer_rod_lowers_the_effective_ratio() -> None:
    assert effective(inlet_closes=60, rod_length=180 * MM) < effective(inlet_closes=60)


def effective(*, inlet_closes: float, **changed: float) -> float:
    size = {"compression_ratio": 10.0, **CRANK, **changed}
    return compression.effective_compression_ratio(inlet_closes=inlet_closes, **size)


@given(ratios=several)
def test_mean_and_spread_of_the_cylinders(ratios: list[float]) -> None:
    mean = compression.mean_compression_ratio(compression_ratio=ratios)
    spread = compression.compression_ratio_spread(compression_ratio=ratios)
    assert min(ratios) - 1e-9 <= mean <= max(ratios) + 1e-9
    assert spread == compression.compression_ratio_spread(compression_ratio=ratios[::-1]) >= 0
    assert spread <= compression.compression_ratio_spread(compression_ratio=[*ratios, 26.0])


@given(pressures=st.lists(SOUND["cranking_pressure"], min_size=1, max_size=16))
def test_the_least_cranking_pressure_is_a_share_of_the_greatest(pressures: list[float]) -> None:
    share = condition.cranking_pressure_least(cranking_pressure=pressures)
    assert 0 < share <= 1
    assert (share == 1) is (len(set(pressures)) == 1)
    assert share * max(pressures) == pytest.approx(min(pressures))


# limits and continuity


@given(angle=st.floats(-720, 720), turns=st.integers(-2, 2))
def test_travel_is_the_same_on_both_sides_and_in_every_turn(angle: float, turns: int) -> None:
    travel = motion.piston_travel(crank_angle=angle, **CRANK)
    assert -1e-15 <= travel <= CRANK["stroke"] + 1e-15
    assert motion.piston_travel(crank_angle=360 * turns - angle, **CRANK) == pytest.approx(travel, abs=1e-12)


def test_travel_runs_from_nothing_to_the_stroke_and_is_past_the_half_at_90_degrees() -> None:
    down = [motion.piston_travel(crank_angle=angle, **CRANK) for angle in range(181)]
    assert down[0] == 0
    assert down[180] == pytest.approx(CRANK["stroke"], rel=1e-12)
    assert all(lower > higher for higher, lower in pairwise(down))
    assert down[90] > CRANK["stroke"] / 2


def test_with_an_endless_rod_the_piston_moves_as_a_sine() -> None:
    travel = motion.piston_travel(crank_angle=60, stroke=88 * MM, rod_length=1e4)
    assert travel == pytest.approx(22 * MM, rel=1e-4)


def test_the_way_of_one_turn_by_the_speed_of_turning_is_the_mean_speed() -> None:
    places = [motion.piston_travel(crank_angle=angle, **CRANK) for angle in range(361)]
    way = sum(abs(there - here) for here, there in pairwise(places))
    assert motion.mean_piston_speed(stroke=CRANK["stroke"], engine_speed_limit=100) == pytest.approx(100 * way)


def test_the_rod_ratio_is_to_the_stroke() -> None:
    assert motion.rod_ratio(**CRANK) == 150 / 88
    assert motion.rod_ratio(stroke=100 * MM, rod_length=200 * MM) == 2


@given(ratio=SOUND["compression_ratio"], closes=st.floats(0, 179))
def test_the_effective_ratio_is_the_static_one_at_bdc_and_falls_alike_to_both_sides(
    ratio: float, closes: float
) -> None:
    assert effective(inlet_closes=0, compression_ratio=ratio) == pytest.approx(ratio, rel=1e-12)
    after = effective(inlet_closes=closes, compression_ratio=ratio)
    assert after == pytest.approx(effective(inlet_closes=-closes, compression_ratio=ratio))
    assert 1 <= after <= ratio * (1 + 1e-12)


@given(closes=st.floats(-170, 170))
def test_a_hundredth_of_a_degree_never_makes_a_jump(closes: float) -> None:
    assert effective(inlet_closes=closes + 0.01) == pytest.approx(effective(inlet_closes=closes), abs=0.002)


def test_a_land_as_wide_as_the_bore_leaves_no_crevice() -> None:
    assert volumes.crevice_volume(bore=86 * MM, top_land_diameter=86 * MM, top_land_height=6 * MM) == 0


def test_a_thin_crevice_is_its_girth_by_its_gap_by_its_height() -> None:
    volume = volumes.crevice_volume(bore=86 * MM, top_land_diameter=85.998 * MM, top_land_height=6 * MM)
    assert volume == pytest.approx(pi * 86 * MM * 0.001 * MM * 6 * MM, rel=1e-4)


def test_round_and_measured_openings_agree() -> None:
    round_one = volumes.gasket_volume_round(gasket_bore=88 * MM, gasket_thickness=1.2 * MM)
    area = pi * (44 * MM) ** 2
    assert volumes.gasket_volume_of_opening(gasket_opening=area, gasket_thickness=1.2 * MM) == pytest.approx(round_one)


@given(swept=st.lists(SOUND["swept_volume"], min_size=1, max_size=16))
def test_capacity_counts_every_cylinder(swept: list[float]) -> None:
    assert volumes.displacement(swept_volume=swept) == pytest.approx(fsum(swept))


def test_squish_is_deck_and_gasket_together() -> None:
    assert volumes.squish_clearance(deck_clearance=-0.2 * MM, gasket_thickness=1.2 * MM) == pytest.approx(1.0 * MM)


def test_oversquare_is_above_one() -> None:
    assert volumes.bore_stroke_ratio(bore=90 * MM, stroke=75 * MM) == pytest.approx(1.2)
