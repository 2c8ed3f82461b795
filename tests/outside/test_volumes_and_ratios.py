"""Volumes of one cylinder against SciPy's integrals over the same shapes, and what is said over all cylinders.

None of these has a printed figure; the shapes are integrated slice by slice, which knows none of the formulas.
"""

from __future__ import annotations

from math import pi, sqrt
from statistics import fmean

import numpy
import pint
import pytest
from scipy.integrate import quad
from sources import checks

from logbook.specs.compression import compression_ratio_spread, mean_compression_ratio
from logbook.specs.rest import clearance_volume_of_rest, rest_volume_of_parts, rest_volume_with_crevice
from logbook.specs.volumes import (
    bore_stroke_ratio,
    clearance_volume,
    clearance_volume_with_crevice,
    crevice_volume,
    crown_volume_dished,
    deck_volume,
    gasket_volume_of_opening,
    gasket_volume_round,
    swept_volume,
)

MM = 1e-3
BORE, STROKE, GASKET_BORE, THICKNESS, DECK = 101.6 * MM, 88.392 * MM, 104.14 * MM, 0.9906 * MM, 0.635 * MM
LAND, LAND_HEIGHT = 100.584 * MM, 6.35 * MM
#: A chamber as a cone and a dish as a bowl, both narrower than the bore.
CONE, CONE_HEIGHT, BOWL, BOWL_DEPTH = 45 * MM, 30 * MM, 200 * MM, 3 * MM
SLICES = "SciPy: the shape integrated in slices"


def oval(across: float, along: float) -> float:
    """Area of an ellipse with these diameters, strip by strip."""
    half, other = across / 2, along / 2
    return float(quad(lambda x: 2 * other * sqrt(1 - (x / half) ** 2), -half, half, epsrel=1e-12)[0])


def section(height: float) -> float:
    """Area of the room above the piston, at a height above the flat of its crown at TDC, without the crevice."""
    if height < 0:  # the dish, a bowl of a ball
        deep = height + BOWL_DEPTH
        return pi * (2 * BOWL * deep - deep**2)
    if height < DECK:
        return oval(BORE, BORE)
    if height < DECK + THICKNESS:
        return oval(GASKET_BORE, GASKET_BORE)
    return pi * (CONE * (1 - (height - DECK - THICKNESS) / CONE_HEIGHT)) ** 2


def room(low: float, high: float) -> float:
    return float(quad(section, low, high, epsrel=1e-12)[0])


def ring() -> float:
    return LAND_HEIGHT * float(quad(lambda radius: 2 * pi * radius, LAND / 2, BORE / 2)[0])


@checks("swept_volume", "deck_volume", "gasket_volume", source=SLICES, kind="independent computation")
def test_discs_are_their_slices() -> None:
    disc = oval(BORE, BORE)
    assert swept_volume(bore=BORE, stroke=STROKE) == pytest.approx(disc * STROKE, rel=1e-9)
    assert deck_volume(bore=BORE, deck_clearance=DECK) == pytest.approx(disc * DECK, rel=1e-9)
    found = gasket_volume_round(gasket_bore=GASKET_BORE, gasket_thickness=THICKNESS)
    assert found == pytest.approx(oval(GASKET_BORE, GASKET_BORE) * THICKNESS, rel=1e-9)


@checks("gasket_volume", source=SLICES, kind="independent computation")
def test_an_oval_opening_lies_between_the_round_ones_of_its_two_diameters() -> None:
    found = gasket_volume_of_opening(gasket_opening=oval(104 * MM, 100 * MM), gasket_thickness=THICKNESS)
    narrow, wide = (gasket_volume_round(gasket_bore=each * MM, gasket_thickness=THICKNESS) for each in (100, 104))
    assert found == pytest.approx(sqrt(narrow * wide), rel=1e-9)


@checks(
    "crevice_volume", source="SciPy: the ring around the top land, integrated outwards", kind="independent computation"
)
def test_the_crevice_is_the_ring_around_the_land() -> None:
    found = crevice_volume(bore=BORE, top_land_diameter=LAND, top_land_height=LAND_HEIGHT)
    assert found == pytest.approx(ring(), rel=1e-9)


@checks("clearance_volume", "rest_volume", source="SciPy: the room from the dish to the roof, integrated upwards",
        kind="independent computation")  # fmt: skip
def test_the_parts_make_up_the_room_above_the_piston() -> None:
    roof = DECK + THICKNESS
    chamber, dish = room(roof, roof + CONE_HEIGHT), room(-BOWL_DEPTH, 0)
    crown = crown_volume_dished(dish_volume=dish)
    between = {
        "gasket_volume": gasket_volume_round(gasket_bore=GASKET_BORE, gasket_thickness=THICKNESS),
        "deck_volume": deck_volume(bore=BORE, deck_clearance=DECK),
    }
    whole = sum(room(*part) for part in ((-BOWL_DEPTH, 0), (0, DECK), (DECK, roof), (roof, roof + CONE_HEIGHT)))
    land = crevice_volume(bore=BORE, top_land_diameter=LAND, top_land_height=LAND_HEIGHT)
    rest = rest_volume_of_parts(**between)
    assert rest == pytest.approx(whole - chamber - dish, rel=1e-9)
    assert rest_volume_with_crevice(crevice_volume=land, **between) == pytest.approx(rest + ring(), rel=1e-9)
    head_and_crown = {"chamber_volume": chamber, "crown_volume": crown}
    assert clearance_volume(**head_and_crown, **between) == pytest.approx(whole, rel=1e-9)
    assert clearance_volume_of_rest(**head_and_crown, rest_volume=rest) == pytest.approx(whole, rel=1e-9)
    found = clearance_volume_with_crevice(**head_and_crown, **between, crevice_volume=land)
    assert found == pytest.approx(whole + ring(), rel=1e-9)


@checks(
    "bore_stroke_ratio", source="pint, the bore in inches and the stroke in millimetres", kind="independent computation"
)
def test_an_oversquare_engine_by_pint() -> None:
    bore, stroke = pint.Quantity("4.000 in"), pint.Quantity("88.392 mm")
    found = bore_stroke_ratio(bore=bore.to("m").magnitude, stroke=stroke.to("m").magnitude)
    assert found == pytest.approx((bore / stroke).to("").magnitude, rel=1e-12)
    assert found > 1


@checks("mean_compression_ratio", source="statistics.fmean", kind="independent computation")
@checks("compression_ratio_spread", source="NumPy, ptp", kind="independent computation")
@pytest.mark.parametrize("ratios", [[9.31], [9.2, 9.3, 9.15, 9.27], [8.7, 9.0, 9.7, 9.0, 8.3, 8.1]])
def test_mean_and_spread_over_the_cylinders(ratios: list[float]) -> None:
    assert mean_compression_ratio(compression_ratio=ratios) == pytest.approx(fmean(ratios), rel=1e-14)
    assert compression_ratio_spread(compression_ratio=ratios) == pytest.approx(float(numpy.ptp(ratios)), abs=1e-14)
