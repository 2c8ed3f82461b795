"""Bolts against VDI 2230, ISO 898-1, ASME B1.1 and a textbook, compared no closer than these are printed."""

from __future__ import annotations

from math import pi, sqrt, tan
from statistics import mean, stdev

import pytest
from sources import checks

from logbook.specs.fasteners import (
    bolt_preload_least,
    bolt_preload_limit,
    bolt_preload_most,
    bolt_preload_of_friction,
    bolt_preload_of_nut_factor,
    bolt_preload_of_stretch,
    bolt_proof_share,
    bolt_stress_area,
    bolt_stretch_expected,
    bolt_torque_limit,
)

MM, MM2, INCH, POUND, KN = 1e-3, 1e-6, 0.0254, 4.4482216152605, 1e3
VDI = "VDI 2230, 2001 and 2003, table of assembly preload and torque, in a fastener maker's catalogue (read)"
SHIGLEY = "R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th edition"
STRENGTH_8_8 = 640e6

#: Class 8.8, fine threads: diameter, pitch and rubbing diameter in mm; friction -> preload in kN, torque in N m.
TABLE = [
    (8, 1.00, 10.315, {0.10: (20.7, 22.8), 0.12: (20.2, 26.1), 0.14: (19.7, 29.2)}),
    (10, 1.25, 12.815, {0.10: (32.4, 44), 0.12: (31.6, 51), 0.14: (30.8, 57)}),
    (12, 1.25, 15.065, {0.10: (49.1, 79), 0.12: (48.0, 90), 0.14: (46.8, 101)}),
    (14, 1.50, 17.57, {0.10: (66.4, 124), 0.12: (64.8, 142), 0.14: (63.2, 159)}),
]
ROWS = [(d, p, head, mu, *row) for d, p, head, found in TABLE for mu, row in found.items()]


@pytest.mark.parametrize(("diameter", "pitch", "head", "friction", "preload", "torque"), ROWS)
@checks("bolt_preload_limit", "bolt_torque_limit", "bolt_preload", source=VDI, kind="standard")
def test_the_table_of_vdi_2230(
    diameter: float, pitch: float, head: float, friction: float, preload: float, torque: float
) -> None:
    """Preloads within 0.3 %, torques within 1.5 %: the table rounds, and has its own rubbing diameters."""
    bolt = {"bolt_diameter": diameter * MM, "bolt_pitch": pitch * MM}
    limit = bolt_preload_limit(bolt_strength=STRENGTH_8_8, thread_friction=friction, **bolt)
    assert limit == pytest.approx(preload * KN, rel=0.003)
    rubbing = {**bolt, "bolt_head_diameter": head * MM, "thread_friction": friction, "head_friction": friction}
    assert bolt_torque_limit(bolt_preload_limit=limit, **rubbing) == pytest.approx(torque, rel=0.015)
    assert bolt_preload_of_friction(bolt_torque=torque, **rubbing) == pytest.approx(preload * KN, rel=0.015)


@pytest.mark.parametrize(
    ("diameter", "pitch", "area"),
    [(6, 1.0, 20.1), (8, 1.25, 36.6), (10, 1.5, 58.0), (12, 1.75, 84.3), (10, 1.25, 61.2)],
)
@checks("bolt_stress_area", source="ISO 898-1, tables of stress areas (from memory)", kind="from memory")
def test_stress_areas_of_iso_898(diameter: float, pitch: float, area: float) -> None:
    found = bolt_stress_area(bolt_diameter=diameter * MM, bolt_pitch=pitch * MM)
    assert found == pytest.approx(area * MM2, abs=0.05 * MM2)


@pytest.mark.parametrize(
    ("diameter", "threads", "area"),
    [(3 / 8, 16, 0.0775), (7 / 16, 14, 0.1063), (1 / 2, 13, 0.1419), (1 / 2, 20, 0.1599), (3 / 4, 16, 0.373)],
)
@checks("bolt_stress_area", source="ASME B1.1, tables of stress areas (from memory)", kind="from memory")
def test_stress_areas_of_asme_b1_1(diameter: float, threads: float, area: float) -> None:
    """Not met, by 0.5 to 1.5 %: the American standard reckons with a root cut deeper, 0.9743 P for 0.9382 P."""
    found = bolt_stress_area(bolt_diameter=diameter * INCH, bolt_pitch=INCH / threads) / INCH**2
    assert pi / 4 * (diameter - 0.9743 / threads) ** 2 == pytest.approx(area, abs=0.0001 if area < 0.3 else 0.0005)
    assert 1.005 < found / area < 1.015


@checks("bolt_preload", source=f"{SHIGLEY}, example 8-3 (3750 lbf in from memory)", kind="from memory")
def test_the_torque_of_the_textbooks_bolt_by_the_nut_factor() -> None:
    """3/4 in 16 UNF, 25 kip, K = 0.2: 3750 lbf in."""
    preload = bolt_preload_of_nut_factor(bolt_torque=3750 * POUND * INCH, bolt_diameter=0.75 * INCH, nut_factor=0.2)
    assert preload == pytest.approx(25e3 * POUND)


@checks(
    "bolt_preload", source=f"{SHIGLEY}, equation 8-26 and example 8-3 (3551 lbf in from memory)", kind="from memory"
)
def test_the_long_form_of_the_textbook_agrees_with_vdi_2230() -> None:
    """f = f_c = 0.15, collar 1.25 d: 3551 lbf in for 25 kip by the exact screw; VDI 2230's form within 0.1 %."""
    mean_diameter, rise, lean = 0.7094, 0.02804, pi / 6
    secant = 1 / sqrt(1 - (tan(lean) / sqrt(1 + tan(lean) ** 2)) ** 2)
    screw = (rise + 0.15 * secant) / (1 - 0.15 * rise * secant)
    torque = 25e3 * (mean_diameter / 2 * screw + 0.15 * 1.25 * 0.75 / 2)
    assert torque == pytest.approx(3551, abs=1)
    preload = bolt_preload_of_friction(
        bolt_torque=torque * POUND * INCH,
        bolt_diameter=0.75 * INCH,
        bolt_pitch=INCH / 16,
        bolt_head_diameter=1.25 * 0.75 * INCH,
        thread_friction=0.15,
        head_friction=0.15,
    )
    assert preload == pytest.approx(25e3 * POUND, rel=0.001)


@checks("bolt_proof_share", source=f"{SHIGLEY}, example 8-3: 25 kip on 0.373 sq in is 67.02 kpsi (read)",
        kind="textbook")  # fmt: skip
def test_the_stress_of_the_textbooks_bolt() -> None:
    share = bolt_proof_share(
        bolt_preload=25e3 * POUND, bolt_stress_area=0.373 * INCH**2, bolt_strength=1e3 * POUND / INCH**2
    )
    assert share == pytest.approx(67.02, abs=0.01)


@checks("bolt_preload_least", "bolt_preload_most", source=f"{SHIGLEY}, table 8-14 (read)", kind="textbook")
def test_ten_oiled_bolts_at_one_torque_lie_within_the_scatter_of_their_own_factor() -> None:
    """Ten bolts at 90 N m: mean 34.18 kN, standard deviation 2.88 kN, 8.4 %."""
    found = [30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5]
    assert (mean(found), stdev(found)) == (pytest.approx(34.18), pytest.approx(2.8813, abs=1e-3))
    factor = max(found) / min(found)
    assert factor < 1.4  # VDI 2230 takes 1.4 to 1.6 for a torque wrench
    for wider in (1.4, 1.6):
        assert bolt_preload_least(bolt_preload=mean(found), tightening_factor=wider) < min(found)
    assert bolt_preload_most(bolt_preload=mean(found), tightening_factor=1.6) > max(found)
    middle = (max(found) + min(found)) / 2
    assert bolt_preload_least(bolt_preload=middle, tightening_factor=factor) == pytest.approx(min(found))
    assert bolt_preload_most(bolt_preload=middle, tightening_factor=factor) == pytest.approx(max(found))


@checks("bolt_stretch_expected", "bolt_preload",
        source="usual stretch of rod bolts, 0.0045 to 0.006 in (trade, read); Hooke's law by hand",
        kind="common practice")  # fmt: skip
def test_a_rod_bolt_at_half_its_strength_stretches_as_such_bolts_do() -> None:
    """3/8 in 24, 1.6 in under load, half of 180 ksi."""
    bolt = {"bolt_diameter": 0.375 * INCH, "bolt_pitch": INCH / 24, "bolt_loaded_length": 1.6 * INCH}
    area = bolt_stress_area(bolt_diameter=0.375 * INCH, bolt_pitch=INCH / 24)
    preload = 0.5 * 180e3 * POUND / INCH**2 * area
    stretch = bolt_stretch_expected(bolt_preload=preload, bolt_modulus=205e9, **bolt)
    assert 0.0045 < stretch / INCH < 0.006
    assert stretch == pytest.approx(0.5 * 180e3 * POUND / INCH**2 / 205e9 * 1.6 * INCH)
    assert bolt_preload_of_stretch(bolt_stretch=stretch, bolt_modulus=205e9, **bolt) == pytest.approx(preload)
