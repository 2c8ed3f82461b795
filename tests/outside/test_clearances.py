"""Bores, clearances and growth against rules and ranges as printed, and against computations of another kind.

For a difference of two sizes no outside authority exists; the figures are pencil work on sizes of printed limits.
"""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
from scipy.integrate import quad
from sources import checks

from logbook.specs.bearings import (
    crank_end_float,
    main_bearing_bore_of_shells,
    main_bearing_clearance,
    main_bearing_clearance_ratio,
    rod_bearing_bore_of_shells,
    rod_bearing_clearance,
    rod_bearing_clearance_ratio,
    rod_side_clearance,
)
from logbook.specs.bore import bore_ovality_of_six, bore_taper_of_six
from logbook.specs.clearances import (
    piston_to_wall,
    piston_to_wall_ratio,
    second_ring_gap_ratio,
    second_ring_gap_wanted,
    second_ring_gap_wanted_of_top,
    top_ring_gap_ratio,
    top_ring_gap_wanted,
)
from logbook.specs.growth import (
    deck_heat_growth,
    piston_to_wall_hot,
    rod_growth_of_heat_and_stretch,
    rod_heat_growth,
    rod_stretch,
    squish_clearance_running,
    top_ring_gap_hot,
)

MM, INCH = 1e-3, 0.0254
RING_TABLE = "a ring maker's table of 2019: 4.030 in gives 0.018 and 0.020 in (read)"
DECIMALS = "decimal arithmetic by the definition; no outside authority"
HANDBOOK = "linear expansion, coefficients from handbooks (from memory); integrated degree by degree with SciPy"


def difference(larger: str, smaller: str) -> float:
    return float(Decimal(larger) - Decimal(smaller)) * MM


@checks(
    "bore_taper",
    "bore_ovality",
    source="NumPy: ranges over the six readings as an array",
    kind="independent computation",
)
def test_taper_and_ovality_as_ranges_of_an_array() -> None:
    generator = np.random.default_rng(7)
    for _ in range(50):
        table = 80 * MM + generator.normal(0, 0.02 * MM, (3, 2))  # heights down, along and across
        read = {
            f"bore_{height}_{way}": float(table[down, side])
            for down, height in enumerate(("top", "middle", "bottom"))
            for side, way in enumerate(("along", "across"))
        }
        assert bore_taper_of_six(**read) == pytest.approx(float(np.ptp(table, axis=0).max()))
        assert bore_ovality_of_six(**read) == pytest.approx(float(np.ptp(table, axis=1).max()))


@checks("piston_to_wall", "main_bearing_clearance", "rod_bearing_clearance", "crank_end_float", "rod_side_clearance",
        source=DECIMALS, kind="independent computation")  # fmt: skip
def test_clearances_are_the_decimal_differences_of_their_sizes() -> None:
    assert piston_to_wall(bore=80.052 * MM, piston_diameter=80.008 * MM) == pytest.approx(
        difference("80.052", "80.008")
    )
    assert main_bearing_clearance(main_bearing_bore=60.043 * MM, main_journal_diameter=59.991 * MM) == pytest.approx(
        difference("60.043", "59.991")
    )
    assert rod_bearing_clearance(rod_bearing_bore=48.041 * MM, rod_journal_diameter=47.994 * MM) == pytest.approx(
        difference("48.041", "47.994")
    )
    assert crank_end_float(thrust_journal_width=30.15 * MM, thrust_bearing_width=30.02 * MM) == pytest.approx(
        difference("30.15", "30.02")
    )
    assert rod_side_clearance(crankpin_width=48.3 * MM, big_end_width=[24.02 * MM, 23.98 * MM]) == pytest.approx(
        difference("48.3", "48.00")
    )


@checks("main_bearing_bore", "rod_bearing_bore", source=DECIMALS, kind="independent computation")
def test_shells_take_their_walls_twice() -> None:
    main = main_bearing_bore_of_shells(main_housing_bore=64.006 * MM, main_shell_thickness=1.982 * MM)
    rod = rod_bearing_bore_of_shells(rod_housing_bore=51.008 * MM, rod_shell_thickness=1.484 * MM)
    assert main == pytest.approx(difference("64.006", "3.964"))
    assert rod == pytest.approx(difference("51.008", "2.968"))


@checks("piston_to_wall_ratio", source="rule of half a thousandth of the bore, cast; common practice, no source",
        kind="common practice")  # fmt: skip
def test_half_a_thousandth_of_four_inches_is_two_thousandths_of_an_inch() -> None:
    assert piston_to_wall_ratio(piston_to_wall=0.002 * INCH, bore=4 * INCH) == pytest.approx(0.0005)


@checks("main_bearing_clearance_ratio", "rod_bearing_clearance_ratio",
        source="rule of one thousandth of the journal, 0.050 mm on 50 mm; common practice, no source",
        kind="common practice")  # fmt: skip
def test_a_thousandth_of_fifty_millimetres_is_fifty_micrometres() -> None:
    assert main_bearing_clearance_ratio(
        main_bearing_clearance=0.05 * MM, main_journal_diameter=50 * MM
    ) == pytest.approx(0.001)
    assert rod_bearing_clearance_ratio(rod_bearing_clearance=0.05 * MM, rod_journal_diameter=50 * MM) == pytest.approx(
        0.001
    )


@checks("top_ring_gap_wanted", "second_ring_gap_wanted", "top_ring_gap_ratio", "second_ring_gap_ratio",
        source=RING_TABLE, kind="worked example")  # fmt: skip
def test_the_gaps_of_a_ring_makers_table() -> None:
    bore = 4.030 * INCH
    top = top_ring_gap_wanted(bore=bore, top_ring_gap_rule=0.0045)
    second = second_ring_gap_wanted(bore=bore, second_ring_gap_rule=0.0050)
    assert top == pytest.approx(0.018 * INCH, abs=0.0005 * INCH)
    assert second == pytest.approx(0.020 * INCH, abs=0.0005 * INCH)
    assert top_ring_gap_ratio(top_ring_gap=0.018 * INCH, bore=bore) == pytest.approx(0.0045, abs=0.0001)
    assert second_ring_gap_ratio(second_ring_gap=0.020 * INCH, bore=bore) == pytest.approx(0.0050, abs=0.0001)


def test_the_rules_for_the_second_ring_disagree() -> None:
    """1.25 of the top ring's of today against 0.0035 of the bore in an older table: noted, not reconciled."""
    top = top_ring_gap_wanted(bore=80 * MM, top_ring_gap_rule=0.0040)
    assert top == pytest.approx(0.32 * MM)
    older = second_ring_gap_wanted(bore=80 * MM, second_ring_gap_rule=0.0035)
    assert older < top < second_ring_gap_wanted_of_top(top_ring_gap_wanted=top)


# growth


def grown(length: float, expansion: float, rise: float) -> float:
    return float(quad(lambda _: length * expansion, 0, rise)[0])


@checks("rod_heat_growth", "deck_heat_growth", source=HANDBOOK, kind="independent computation")
def test_aluminium_of_230_mm_grows_by_three_eighths_of_a_millimetre_in_70_kelvin() -> None:
    rod = rod_heat_growth(rod_length=230 * MM, rod_expansion=23e-6, rod_rise=70)
    deck = deck_heat_growth(deck_height=230 * MM, block_expansion=23e-6, block_rise=70)
    assert rod == deck == pytest.approx(grown(230 * MM, 23e-6, 70)) == pytest.approx(0.3703 * MM, abs=5e-8)


@checks("piston_to_wall_hot", source=HANDBOOK, kind="independent computation")
def test_a_piston_of_100_mm_closes_its_clearance_by_0_28_mm() -> None:
    heat = {"piston_expansion": 20.5e-6, "piston_rise": 180.0, "block_expansion": 11e-6, "block_rise": 80.0}
    hot = piston_to_wall_hot(bore=100 * MM, piston_to_wall=0.4 * MM, **heat)
    closure = grown(99.6 * MM, 20.5e-6, 180) - grown(100 * MM, 11e-6, 80)
    assert 0.4 * MM - hot == pytest.approx(closure)
    assert closure == pytest.approx(0.281 * MM, abs=0.002 * MM)


@checks("top_ring_gap_hot", source=f"{HANDBOOK}; agrees with the rule of 0.004 of the bore",
        kind="independent computation")  # fmt: skip
def test_a_ring_of_100_mm_120_kelvin_hotter_than_its_bore_closes_by_0_41_mm() -> None:
    heat = {"ring_expansion": 11e-6, "ring_rise": 120.0, "block_expansion": 11e-6, "block_rise": 0.0}
    hot = top_ring_gap_hot(bore=100 * MM, top_ring_gap=0.45 * MM, **heat)
    assert 0.45 * MM - hot == pytest.approx(0.4147 * MM, abs=5e-8)
    assert 0.45 * MM - hot == pytest.approx(grown(np.pi * 100 * MM, 11e-6, 120))


@checks("rod_stretch", source="Hooke's law along the rod, summed in slices with NumPy", kind="independent computation")
def test_a_rod_in_slices_stretches_as_a_whole() -> None:
    stress = 0.6 * 22697.63 / 200e-6
    assert rod_stretch(
        reciprocating_mass=0.6,
        greatest_piston_acceleration=22697.63,
        rod_length=152.4 * MM,
        rod_section=200e-6,
        rod_modulus=205e9,
    ) == pytest.approx(float(np.sum(np.full(1000, stress / 205e9 * 152.4 * MM / 1000))))


@checks("rod_growth", "squish_clearance_running", source=DECIMALS, kind="independent computation")
def test_growth_comes_off_the_squish() -> None:
    growth = rod_growth_of_heat_and_stretch(
        rod_heat_growth=0.139 * MM, rod_stretch=0.05 * MM, deck_heat_growth=0.121 * MM
    )
    assert growth == pytest.approx(difference("0.189", "0.121"))
    assert squish_clearance_running(squish_clearance=0.95 * MM, rod_growth=growth) == pytest.approx(
        difference("0.950", "0.068")
    )
