"""What must be true of bores, clearances, growth and bolts, whatever the figures; and what they refuse."""

from __future__ import annotations

from collections.abc import Callable
from inspect import signature

import pytest
from formulas import SOUND
from hypothesis import given
from hypothesis import strategies as st

from logbook.specs import bearings, bore, clearances, cutting, fasteners, growth, motion, swing
from logbook.specs.index import ALL_SPECS
from logbook.specs.validity import outside_validity

MM = 1e-3
SIX = [f"bore_{height}_{way}" for height in ("top", "middle", "bottom") for way in ("along", "across")]
FOUR = [name for name in SIX if "middle" not in name]
readings = st.fixed_dictionaries({name: SOUND[name] for name in SIX})


# bores


@given(read=readings)
def test_taper_and_ovality_of_more_readings_are_never_less(read: dict[str, float]) -> None:
    four = {name: read[name] for name in FOUR}
    across = {name: read[name] for name in ("bore_top_across", "bore_bottom_across")}
    top = {name: read[name] for name in ("bore_top_along", "bore_top_across")}
    assert bore.bore_taper_of_six(**read) >= bore.bore_taper_of_four(**four) >= bore.bore_taper_of_two(**across) >= 0
    assert bore.bore_ovality_of_six(**read) >= bore.bore_ovality_of_four(**four) >= bore.bore_ovality_of_two(**top) >= 0


@given(size=st.floats(0.07, 0.1), taper=st.floats(0, 1e-4), oval=st.floats(0, 1e-4))
def test_a_cone_has_its_taper_and_an_ellipse_its_ovality(size: float, taper: float, oval: float) -> None:
    share = {"top": 1.0, "middle": 0.5, "bottom": 0.0}
    cone = {
        f"bore_{height}_{way}": size + part * taper for height, part in share.items() for way in ("along", "across")
    }
    ellipse = {name: size + oval * name.endswith("across") for name in SIX}
    assert bore.bore_taper_of_six(**cone) == pytest.approx(taper, abs=1e-15)
    assert bore.bore_ovality_of_six(**cone) == 0
    assert bore.bore_ovality_of_six(**ellipse) == pytest.approx(oval, abs=1e-15)
    assert bore.bore_taper_of_six(**ellipse) == 0


@given(read=readings)
def test_turned_by_a_quarter_a_bore_is_as_oval_and_as_tapered(read: dict[str, float]) -> None:
    swap = {"along": "across", "across": "along"}
    turned = {name: read[name.rpartition("_")[0] + "_" + swap[name.rpartition("_")[2]]] for name in SIX}
    assert bore.bore_ovality_of_six(**turned) == bore.bore_ovality_of_six(**read)
    assert bore.bore_taper_of_six(**turned) == bore.bore_taper_of_six(**read)


# clearances


@pytest.mark.parametrize(
    ("formula", "outer", "inner"),
    [
        (clearances.piston_to_wall, "bore", "piston_diameter"),
        (bearings.main_bearing_clearance, "main_bearing_bore", "main_journal_diameter"),
        (bearings.rod_bearing_clearance, "rod_bearing_bore", "rod_journal_diameter"),
        (bearings.crank_end_float, "thrust_journal_width", "thrust_bearing_width"),
    ],
    ids=lambda each: getattr(each, "__name__", each),
)
def test_a_clearance_grows_with_what_is_around_and_falls_with_what_is_within(
    formula: Callable[..., float], outer: str, inner: str
) -> None:
    before = formula(**{outer: 60.05 * MM, inner: 60.00 * MM})
    assert before == pytest.approx(0.05 * MM)
    assert formula(**{outer: 60.06 * MM, inner: 60.00 * MM}) - before == pytest.approx(0.01 * MM)
    assert formula(**{outer: 60.05 * MM, inner: 60.01 * MM}) - before == pytest.approx(-0.01 * MM)
    with pytest.raises(ValueError, match=f"Check {inner} against {outer}"):
        formula(**{outer: 60.00 * MM, inner: 60.00 * MM})


@given(housing=SOUND["main_housing_bore"], wall=SOUND["main_shell_thickness"], journal=st.floats(0.03, 0.05))
def test_thicker_shells_take_twice_their_growth_from_the_clearance(housing: float, wall: float, journal: float) -> None:
    def clearance(shell: float) -> float:
        inside = bearings.main_bearing_bore_of_shells(main_housing_bore=housing, main_shell_thickness=shell)
        return bearings.main_bearing_clearance(main_bearing_bore=inside, main_journal_diameter=journal)

    assert clearance(wall) - clearance(wall + 0.01 * MM) == pytest.approx(0.02 * MM)


@given(wide=SOUND["bore"], rule=SOUND["top_ring_gap_rule"])
def test_a_ring_gapped_by_the_rule_has_the_ratio_of_the_rule(wide: float, rule: float) -> None:
    gap = clearances.top_ring_gap_wanted(bore=wide, top_ring_gap_rule=rule)
    assert clearances.top_ring_gap_ratio(top_ring_gap=gap, bore=wide) == pytest.approx(rule)
    assert clearances.second_ring_gap_wanted_of_top(top_ring_gap_wanted=gap) > gap


def test_a_second_rod_on_the_pin_takes_its_width() -> None:
    one = bearings.rod_side_clearance(crankpin_width=48.3 * MM, big_end_width=[24 * MM])
    two = bearings.rod_side_clearance(crankpin_width=48.3 * MM, big_end_width=[24 * MM, 24 * MM])
    assert one - two == pytest.approx(24 * MM)


# growth


HEAT = {"piston_expansion": 20e-6, "piston_rise": 150.0, "block_expansion": 11e-6, "block_rise": 80.0}
RING = {"ring_expansion": 11e-6, "ring_rise": 200.0, "block_expansion": 11e-6, "block_rise": 80.0}


@given(wide=SOUND["bore"], gap=SOUND["piston_to_wall"], ring=SOUND["top_ring_gap"])
def test_cold_parts_have_their_cold_clearances(wide: float, gap: float, ring: float) -> None:
    cold = dict.fromkeys(("piston_rise", "block_rise"), 0.0)
    assert growth.piston_to_wall_hot(bore=wide, piston_to_wall=gap, **HEAT | cold) == pytest.approx(gap)
    ring_cold = dict.fromkeys(("ring_rise", "block_rise"), 0.0)
    assert growth.top_ring_gap_hot(bore=wide, top_ring_gap=ring, **RING | ring_cold) == pytest.approx(ring)


@pytest.mark.parametrize(("what", "wider"), [("piston_rise", False), ("block_rise", True), ("piston_expansion", False)])
def test_a_hot_piston_closes_the_clearance_and_a_hot_block_opens_it(what: str, wider: bool) -> None:
    before = growth.piston_to_wall_hot(bore=86 * MM, piston_to_wall=0.05 * MM, **HEAT)
    after = growth.piston_to_wall_hot(bore=86 * MM, piston_to_wall=0.05 * MM, **HEAT | {what: 1.1 * HEAT[what]})
    assert (after > before) is wider


@given(gap=SOUND["top_ring_gap"], wide=SOUND["bore"])
def test_ring_and_bore_of_one_metal_and_one_heat_keep_their_gap(gap: float, wide: float) -> None:
    alike = RING | {"ring_rise": 80.0}
    assert growth.top_ring_gap_hot(bore=wide, top_ring_gap=gap, **alike) == pytest.approx(gap)


@given(squish=SOUND["squish_clearance"], allowance=SOUND["rod_growth"])
def test_rod_growth_comes_off_the_squish_once(squish: float, allowance: float) -> None:
    running = growth.squish_clearance_running(squish_clearance=squish, rod_growth=allowance)
    assert squish - running == pytest.approx(allowance, abs=1e-15)


def test_a_rod_stretches_with_the_square_of_the_engine_speed() -> None:
    rod = {"reciprocating_mass": 0.6, "rod_length": 0.15, "rod_section": 2e-4, "rod_modulus": 205e9}

    def stretch(speed: float) -> float:
        pull = swing.greatest_piston_acceleration(stroke=0.088, rod_length=0.15, engine_speed_limit=speed)
        return growth.rod_stretch(greatest_piston_acceleration=pull, **rod)

    assert stretch(120.0) == pytest.approx(1.44 * stretch(100.0))


# bolts


BOLT = {"bolt_diameter": 10 * MM, "bolt_pitch": 1.5 * MM}
RUBBING = {**BOLT, "bolt_head_diameter": 13 * MM, "thread_friction": 0.12, "head_friction": 0.12}
LONG = {**BOLT, "bolt_loaded_length": 60 * MM, "bolt_modulus": 205e9}


@given(preload=SOUND["bolt_preload"])
def test_preload_and_stretch_undo_each_other(preload: float) -> None:
    stretch = fasteners.bolt_stretch_expected(bolt_preload=preload, **LONG)
    assert fasteners.bolt_preload_of_stretch(bolt_stretch=stretch, **LONG) == pytest.approx(preload)


@given(preload=SOUND["bolt_preload"], factor=SOUND["tightening_factor"])
def test_the_scatter_is_as_wide_as_its_factor_around_the_preload(preload: float, factor: float) -> None:
    least = fasteners.bolt_preload_least(bolt_preload=preload, tightening_factor=factor)
    most = fasteners.bolt_preload_most(bolt_preload=preload, tightening_factor=factor)
    assert most / least == pytest.approx(factor)
    assert (least + most) / 2 == pytest.approx(preload)


def test_torque_for_the_limit_gives_the_preload_of_the_limit() -> None:
    limit = fasteners.bolt_preload_limit(bolt_strength=640e6, thread_friction=0.12, **BOLT)
    torque = fasteners.bolt_torque_limit(bolt_preload_limit=limit, **RUBBING)
    assert fasteners.bolt_preload_of_friction(bolt_torque=torque, **RUBBING) == pytest.approx(limit)
    area = fasteners.bolt_stress_area(**BOLT)
    assert 0.6 < fasteners.bolt_proof_share(bolt_preload=limit, bolt_stress_area=area, bolt_strength=640e6) < 0.9


@pytest.mark.parametrize("what", ["thread_friction", "head_friction"])
def test_more_friction_clamps_less_at_the_same_torque(what: str) -> None:
    before = fasteners.bolt_preload_of_friction(bolt_torque=50.0, **RUBBING)
    assert fasteners.bolt_preload_of_friction(bolt_torque=50.0, **RUBBING | {what: 0.15}) < before


def test_a_dry_factor_used_with_oil_overstretches_by_two_thirds() -> None:
    dry, oiled = (
        fasteners.bolt_preload_of_nut_factor(bolt_torque=50.0, bolt_diameter=10 * MM, nut_factor=factor)
        for factor in (0.20, 0.12)
    )
    assert oiled / dry == pytest.approx(5 / 3)


# what cannot be

REFUSED: list[tuple[Callable[..., float], dict[str, object], str]] = [
    (motion.piston_travel_with_offset,
     {"crank_angle": 20, "stroke": 88 * MM, "rod_length": 50 * MM, "pin_offset": 7 * MM},
     "with a gudgeon pin 7 mm off its axis a connecting rod of 50 mm could not pass the throw of 44 mm. Check pin_off"),
    (swing.piston_speed, {"crank_angle": 20, "stroke": 88 * MM, "rod_length": 40 * MM, "engine_speed_limit": 100},
     "is not longer than the throw"),
    (motion.cylinder_volume,
     {"crank_angle": 20, "bore": 86 * MM, "stroke": 88 * MM, "rod_length": 150 * MM, "clearance_volume": -1e-6},
     "-1 cc cannot be the clearance volume"),
    (cutting.wanted_chamber_volume,
     {"wanted_compression_ratio": 12, "swept_volume": 500e-6, "clearance_volume": 90e-6, "chamber_volume": 40e-6},
     "no chamber gives a compression ratio of 12: gasket, deck and crown alone leave 50 cc. Check wanted_compression"),
    (cutting.head_cut_wanted, {"chamber_volume": 4e-5, "wanted_chamber_volume": 3e-5, "chamber_opening": 0},
     "0 cm2 cannot be the chamber opening"),
    (bore.bore_taper_of_two, {"bore_top_across": 80 * MM, "bore_bottom_across": 0}, "0 mm cannot be the bore"),
    (clearances.piston_to_wall, {"bore": 80 * MM, "piston_diameter": 80.02 * MM},
     "what is 80.02 mm does not go into 80 mm with any clearance. Check piston_diameter against bore"),
    (bearings.main_bearing_bore_of_shells, {"main_housing_bore": 60 * MM, "main_shell_thickness": 30 * MM},
     "two shells of 30 mm fill a housing of 60 mm. Check main_shell_thickness and main_housing_bore"),
    (bearings.rod_side_clearance, {"crankpin_width": 30 * MM, "big_end_width": []},
     "no cylinder has a big-end width"),
    (bearings.rod_side_clearance, {"crankpin_width": 30 * MM, "big_end_width": [16 * MM, 16 * MM]},
     "what is 32 mm does not go into 30 mm with any clearance. Check big_end_width against crankpin_width"),
    (fasteners.bolt_stress_area, {"bolt_diameter": 1 * MM, "bolt_pitch": 14 * MM},
     "a pitch of 14 mm leaves nothing of a bolt of 1 mm. Check bolt_pitch, which is from thread to thread"),
    (fasteners.bolt_preload_least, {"bolt_preload": 3e4, "tightening_factor": 0.3},
     "a tightening factor of 0.3 would make the greatest preload less than the least. Check tightening_factor"),
    (fasteners.bolt_preload_of_nut_factor, {"bolt_torque": 50, "bolt_diameter": 10 * MM, "nut_factor": 0},
     "0 cannot be the nut factor"),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "given_", "words"), REFUSED, ids=lambda each: getattr(each, "__name__", ""))
def test_what_cannot_be_is_refused_in_the_words_of_the_trade(
    formula: Callable[..., float], given_: dict[str, object], words: str
) -> None:
    with pytest.raises(ValueError, match="Check ") as refusal:
        formula(**given_)
    assert words in str(refusal.value)


# outside the validity


@pytest.mark.parametrize(
    ("name", "needs", "inside", "outside", "words"),
    [
        ("head_cut_wanted", ("wanted_chamber_volume", "chamber_opening"), 0.9 * MM, 1.2 * MM, "sloping walls"),
        ("bolt_proof_share", ("bolt_stress_area",), 0.75, 1.05, "yields"),
        ("squish_clearance_running", ("rod_growth",), 0.6 * MM, -0.1 * MM, "meet the head"),
        ("piston_to_wall_hot", ("piston_rise",), 0.02 * MM, -0.01 * MM, "tight"),
        ("top_ring_gap_hot", ("ring_rise",), 0.1 * MM, -0.05 * MM, "ends of the ring"),
    ],
)
def test_a_case_outside_the_validity_gets_its_reason(
    name: str, needs: tuple[str, ...], inside: float, outside: float, words: str
) -> None:
    given_ = dict.fromkeys(needs, 1.0)
    assert outside_validity(name, given_ | {"result": inside}) == ()
    (reason,) = outside_validity(name, given_ | {"result": outside})
    assert words in reason
    (formula,) = ALL_SPECS[name]
    assert {*needs} <= {*signature(formula).parameters}, "the graph gives a rule what the formula asked for"
