"""What must be true of the piston's motion, of cuts and of crowns, whatever the figures."""

from __future__ import annotations

import pytest
from formulas import SOUND
from hypothesis import assume, given
from hypothesis import strategies as st
from lives import EXAMPLE

from logbook.logbook import Logbook
from logbook.specs import compression, crowns, cutting, motion, swing, swing_offset, volumes

MM, CC = 1e-3, 1e-6
CRANK = {"stroke": 88 * MM, "rod_length": 150 * MM}
TURNING = {**CRANK, "engine_speed_limit": 100.0}
crank = st.fixed_dictionaries({name: SOUND[name] for name in ("stroke", "rod_length")})
turning = st.fixed_dictionaries({name: SOUND[name] for name in ("stroke", "rod_length", "engine_speed_limit")})
angles = st.floats(-720, 720)


# the pin offset


@given(size=crank, angle=angles)
def test_without_an_offset_the_offset_crank_is_the_plain_one(size: dict[str, float], angle: float) -> None:
    plain = motion.piston_travel(crank_angle=angle, **size)
    assert motion.piston_travel_with_offset(crank_angle=angle, pin_offset=0.0, **size) == pytest.approx(
        plain, abs=1e-15
    )
    assert motion.piston_stroke(pin_offset=0.0, **size) == pytest.approx(size["stroke"], rel=1e-12)
    assert motion.tdc_shift(pin_offset=0.0, **size) == 0


@given(size=crank, angle=angles, offset=SOUND["pin_offset"])
def test_the_piston_stays_between_its_dead_centres(size: dict[str, float], angle: float, offset: float) -> None:
    travel = motion.piston_travel_with_offset(crank_angle=angle, pin_offset=offset, **size)
    assert -1e-15 <= travel <= motion.piston_stroke(pin_offset=offset, **size) + 1e-15


@given(size=crank, angle=angles, offset=SOUND["pin_offset"])
def test_the_other_side_is_the_same_motion_the_other_way_round(
    size: dict[str, float], angle: float, offset: float
) -> None:
    there = motion.piston_travel_with_offset(crank_angle=angle, pin_offset=offset, **size)
    back = motion.piston_travel_with_offset(crank_angle=-angle, pin_offset=-offset, **size)
    assert back == pytest.approx(there, abs=1e-14)


@given(size=crank, offset=SOUND["pin_offset"])
def test_an_offset_makes_the_way_longer_and_moves_tdc_to_its_side(size: dict[str, float], offset: float) -> None:
    assume(abs(offset) > 1e-4)
    assert motion.piston_stroke(pin_offset=offset, **size) > size["stroke"]
    assert (motion.tdc_shift(pin_offset=offset, **size) > 0) is (offset > 0)


@given(size=turning, angle=st.floats(-150, 150), ratio=st.floats(6, 14))
def test_without_an_offset_speed_and_ratio_are_the_plain_ones(
    size: dict[str, float], angle: float, ratio: float
) -> None:
    still = {name: size[name] for name in ("stroke", "rod_length")}
    speed = swing_offset.piston_speed_with_offset(crank_angle=angle, pin_offset=0.0, **size)
    assert speed == pytest.approx(swing.piston_speed(crank_angle=angle, **size), abs=1e-9)
    assert swing_offset.greatest_piston_speed_with_offset(pin_offset=0.0, **size) == pytest.approx(
        swing.greatest_piston_speed(**size)
    )
    assert swing_offset.greatest_piston_speed_angle_with_offset(pin_offset=0.0, **still) == pytest.approx(
        swing.greatest_piston_speed_angle(**still)
    )
    for plain in (swing.greatest_piston_acceleration, swing.greatest_piston_acceleration_bottom):
        with_offset = getattr(swing_offset, f"{plain.__name__}_with_offset")
        assert with_offset(pin_offset=0.0, **size) == pytest.approx(plain(**size), rel=1e-9)
    pull = swing_offset.piston_acceleration_with_offset(crank_angle=angle, pin_offset=0.0, **size)
    biggest = swing.greatest_piston_acceleration(**size)
    assert pull == pytest.approx(swing.piston_acceleration(crank_angle=angle, **size), abs=1e-9 * biggest)
    valve = {"compression_ratio": ratio, "inlet_closes": angle}
    assert compression.effective_compression_ratio_with_offset(pin_offset=0.0, **valve, **still) == pytest.approx(
        compression.effective_compression_ratio(**valve, **still)
    )


@given(size=crank, offset=SOUND["pin_offset"], closes=st.floats(0, 120), ratio=st.floats(6, 14))
def test_no_effective_ratio_is_above_the_static_one(
    size: dict[str, float], offset: float, closes: float, ratio: float
) -> None:
    found = compression.effective_compression_ratio_with_offset(
        compression_ratio=ratio, inlet_closes=closes, pin_offset=offset, **size
    )
    assert 1 < found <= ratio + 1e-12


def test_an_offset_that_is_stated_moves_the_effective_ratio_and_the_speed() -> None:
    """The crank's own figures rule: 1 mm to the thrust side takes a hundredth of a ratio at 64 degrees."""
    book = Logbook.open(EXAMPLE)
    plain, offset = (book.at("now", said) for said in ((), ["pin_offset=1.0 mm thrust side"]))
    for name in ("effective_compression_ratio", "greatest_piston_speed", "greatest_piston_speed_angle"):
        without, with_it = (at.specs[name].known[0].nominal for at in (plain, offset))
        assert without != with_it
        assert with_it == pytest.approx(without, rel=3e-3)


def test_to_the_thrust_side_the_piston_is_before_the_plain_one_on_its_way_down() -> None:
    """At the throw's upright the piston is past its TDC already."""
    shift = motion.tdc_shift(pin_offset=2 * MM, **CRANK)
    upright = motion.piston_travel_with_offset(crank_angle=shift, pin_offset=2 * MM, **CRANK)
    assert shift > 0
    assert upright > 0


# speed and acceleration


@given(size=turning, angle=angles)
def test_speed_is_even_and_acceleration_alike_on_both_sides_of_tdc(size: dict[str, float], angle: float) -> None:
    greatest_speed = swing.greatest_piston_speed(**size)
    speed = swing.piston_speed(crank_angle=angle, **size)
    assert swing.piston_speed(crank_angle=-angle, **size) == pytest.approx(-speed, abs=1e-9)
    assert abs(speed) <= greatest_speed * (1 + 1e-12)
    acceleration = swing.piston_acceleration(crank_angle=angle, **size)
    assert swing.piston_acceleration(crank_angle=-angle, **size) == pytest.approx(acceleration)
    assert -swing.greatest_piston_acceleration_bottom(**size) * (1 + 1e-9) <= acceleration
    assert acceleration <= swing.greatest_piston_acceleration(**size) * (1 + 1e-12)


@given(size=turning)
def test_speed_grows_with_the_engine_speed_and_acceleration_with_its_square(size: dict[str, float]) -> None:
    twice = size | {"engine_speed_limit": 2 * size["engine_speed_limit"]}
    for peak, power in (
        (swing.greatest_piston_speed, 2),
        (swing.greatest_piston_acceleration, 4),
        (swing.greatest_piston_acceleration_bottom, 4),
    ):
        assert peak(**twice) == pytest.approx(power * peak(**size))


@given(size=turning)
def test_the_peaks_stand_where_every_text_has_them(size: dict[str, float]) -> None:
    assert 45 < swing.greatest_piston_speed_angle(stroke=size["stroke"], rod_length=size["rod_length"]) < 90
    mean = motion.mean_piston_speed(stroke=size["stroke"], engine_speed_limit=size["engine_speed_limit"])
    assert 1.57 * mean < swing.greatest_piston_speed(**size) < 2.3 * mean
    bottom = swing.greatest_piston_acceleration_bottom(**size)
    assert bottom < swing.greatest_piston_acceleration(**size)
    assert bottom >= -swing.piston_acceleration(crank_angle=180.0, **size) * (1 - 1e-12)


def test_with_a_rod_of_twice_the_stroke_or_more_the_lower_peak_is_at_bdc_and_else_beside_it() -> None:
    for rod, at_bdc in ((180 * MM, True), (150 * MM, False)):
        size = TURNING | {"rod_length": rod}
        bottom = -swing.piston_acceleration(crank_angle=180.0, **size)
        assert (swing.greatest_piston_acceleration_bottom(**size) == pytest.approx(bottom, rel=1e-9)) is at_bdc


def test_a_pin_offset_of_a_hundredth_of_the_rod_changes_the_speed_by_less_than_a_hundredth() -> None:
    """What the page of piston_speed says of its validity, by difference of the offset travel."""
    step = 1e-4
    travels = [
        motion.piston_travel_with_offset(crank_angle=75 + way * step, pin_offset=1.5 * MM, **CRANK) for way in (-1, 1)
    ]
    with_offset = (travels[1] - travels[0]) / (2 * step) * 360 * 100.0
    assert with_offset == pytest.approx(swing.greatest_piston_speed(**TURNING), rel=0.01)


@given(size=turning, angle=angles, clearance=SOUND["clearance_volume"], bore=SOUND["bore"])
def test_the_volume_runs_from_the_clearance_to_clearance_and_swept(
    size: dict[str, float], angle: float, clearance: float, bore: float
) -> None:
    size = {"stroke": size["stroke"], "rod_length": size["rod_length"], "bore": bore, "clearance_volume": clearance}
    swept = volumes.swept_volume(bore=bore, stroke=size["stroke"])
    assert motion.cylinder_volume(crank_angle=0, **size) == clearance
    assert motion.cylinder_volume(crank_angle=180, **size) == pytest.approx(clearance + swept)
    volume = motion.cylinder_volume(crank_angle=angle, **size)
    assert clearance * (1 - 1e-12) <= volume <= (clearance + swept) * (1 + 1e-12)


# cuts


@given(
    swept=SOUND["swept_volume"],
    rest=st.floats(-5 * CC, 20 * CC),
    chamber=st.floats(30 * CC, 90 * CC),
    ratio=st.floats(6, 9),
    opening=SOUND["chamber_opening"],
)
def test_the_wanted_chamber_gives_the_wanted_ratio_and_the_cut_the_chamber(
    swept: float, rest: float, chamber: float, ratio: float, opening: float
) -> None:
    assume(swept / (ratio - 1) > rest + 1 * CC)
    wanted = cutting.wanted_chamber_volume(
        wanted_compression_ratio=ratio,
        swept_volume=swept,
        clearance_volume=chamber + rest,
        chamber_volume=chamber,
    )
    assert compression.compression_ratio(swept_volume=swept, clearance_volume=wanted + rest) == pytest.approx(ratio)
    depth = cutting.head_cut_wanted(chamber_volume=chamber, wanted_chamber_volume=wanted, chamber_opening=opening)
    assert chamber - depth * opening == pytest.approx(wanted)
    now = compression.compression_ratio(swept_volume=swept, clearance_volume=chamber + rest)
    assert (depth > 0) is (ratio > now) or depth == pytest.approx(0, abs=1e-9)


@given(bore=SOUND["bore"], less=st.floats(0.1 * CC, 10 * CC), clearance=st.floats(0, 2 * MM))
def test_a_cut_of_the_deck_takes_its_volume_off_the_deck(bore: float, less: float, clearance: float) -> None:
    depth = cutting.deck_cut_wanted(chamber_volume=50 * CC, wanted_chamber_volume=50 * CC - less, bore=bore)
    before = volumes.deck_volume(bore=bore, deck_clearance=clearance)
    assert before - volumes.deck_volume(bore=bore, deck_clearance=clearance - depth) == pytest.approx(less)


@given(dish=SOUND["dish_volume"], dome=SOUND["dome_volume"], pockets=SOUND["valve_pocket_volume"])
def test_valve_pockets_add_whatever_the_crown(dish: float, dome: float, pockets: float) -> None:
    dished = crowns.crown_volume_dished_with_pockets(dish_volume=dish, valve_pocket_volume=pockets)
    raised = crowns.crown_volume_raised_with_pockets(dome_volume=dome, valve_pocket_volume=pockets)
    assert dished - volumes.crown_volume_dished(dish_volume=dish) == pytest.approx(pockets, abs=1e-15)
    assert raised - volumes.crown_volume_raised(dome_volume=dome) == pytest.approx(pockets, abs=1e-15)
