"""Worked examples from print, each with its source and compared no closer than it is printed.

'(read)': the number was seen in the text named. '(from memory)': the source is named from memory. 'the equation alone':
no outside authority, worked out apart from the program; it guards against change and not against error.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

import pytest
from sources import checks

from logbook.specs.compression import clearance_volume_of_ratio, compression_ratio, effective_compression_ratio
from logbook.specs.motion import mean_piston_speed, piston_travel, rod_ratio
from logbook.specs.timing import (
    exhaust_duration,
    exhaust_lobe_centre,
    inlet_duration,
    inlet_lobe_centre,
    lobe_separation,
    valve_overlap,
)
from logbook.specs.volumes import (
    bore_stroke_ratio,
    clearance_volume,
    clearance_volume_with_crevice,
    crevice_volume,
    crown_volume_dished,
    crown_volume_raised,
    deck_clearance_of_stack,
    deck_volume,
    displacement,
    gasket_volume_of_opening,
    gasket_volume_round,
    squish_clearance,
    swept_volume,
)

INCH, MM, CM = 0.0254, 1e-3, 1e-2
CUBIC_INCH, CC, LITRE = INCH**3, 1e-6, 1e-3
RPM = 1 / 60

NAVEDTRA = "US Navy NAVEDTRA 14264, Construction Mechanic Basic, vol. 1, 1998, chapter 2 (read)"
FAA = "FAA-H-8083-32, Aviation Maintenance Technician Handbook, Powerplant (from memory)"
PULKRABEK = (
    "W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, example 2-1 (from memory)"
)
TM_9_8000 = "US Army TM 9-8000, Principles of Automotive Vehicles, valve timing, figures 2-54 and 2-55 (read)"
EQUATION = "the equation alone, no outside authority"
KIND = {NAVEDTRA: "worked example", TM_9_8000: "worked example", FAA: "from memory", PULKRABEK: "from memory"}


@dataclass(frozen=True)
class Example:
    """What is worked out, as printed; `share` widens the comparison where the text itself rounds on its way.

    specs: those that the printed figure bears out; none where it is the equation alone.
    """

    source: str
    what: str
    printed: str
    worked: Callable[[], float]
    share: float = 0.0
    specs: tuple[str, ...] = ()

    @property
    def half_of_the_last_digit(self) -> float:
        return 0.5 * 10.0 ** int(Decimal(self.printed).as_tuple().exponent)


# the engine of example 2-1: three litres, six cylinders, as wide as long, 3600 rpm
BOOK = {"stroke": 86.026 * MM, "rod_length": 166 * MM}


def book_volume(degrees_after_tdc: float) -> float:
    """Cylinder volume over clearance volume: a valve closing at that angle would trap it."""
    return effective_compression_ratio(compression_ratio=9.5, inlet_closes=degrees_after_tdc - 180, **BOOK)


# a cylinder of 101.6 mm by 88.392 mm (4.000 in by 3.480 in) with all that makes its clearance volume
BORE, STROKE, ROD = 101.60 * MM, 88.392 * MM, 144.78 * MM


def golden_gasket() -> float:
    return gasket_volume_round(gasket_bore=4.100 * INCH, gasket_thickness=0.039 * INCH)


def golden_deck() -> float:
    return deck_volume(bore=BORE, deck_clearance=0.025 * INCH)


def golden_crevice() -> float:
    return crevice_volume(bore=BORE, top_land_diameter=BORE - 1.016 * MM, top_land_height=6.35 * MM)


def golden_clearance(crown: float) -> float:
    return clearance_volume(
        chamber_volume=64.0 * CC, crown_volume=crown, gasket_volume=golden_gasket(), deck_volume=golden_deck()
    )


def golden_clearance_with_crevice(crown: float) -> float:
    return clearance_volume_with_crevice(
        chamber_volume=64.0 * CC,
        crown_volume=crown,
        gasket_volume=golden_gasket(),
        deck_volume=golden_deck(),
        crevice_volume=golden_crevice(),
    )


def golden_ratio(clearance: float) -> float:
    return compression_ratio(swept_volume=swept_volume(bore=BORE, stroke=STROKE), clearance_volume=clearance)


def golden_clearance_of_ratio(ratio: float) -> float:
    return clearance_volume_of_ratio(swept_volume=swept_volume(bore=BORE, stroke=STROKE), compression_ratio=ratio)


DISH = crown_volume_dished(dish_volume=5.0 * CC)
DISH_TAKEN_FOR_A_DOME = crown_volume_raised(dome_volume=5.0 * CC)


def at_inlet_closing(degrees_after_bdc: float) -> float:
    return effective_compression_ratio(
        compression_ratio=10, stroke=STROKE, rod_length=ROD, inlet_closes=degrees_after_bdc
    )


VOLUMES = (
    # this text works with 3.14 and with 3.06 for the square of 1.75
    Example(NAVEDTRA, "3.5 in by 4 in, one cylinder, cubic inches", "38.43",
            lambda: swept_volume(bore=3.5 * INCH, stroke=4 * INCH) / CUBIC_INCH, share=0.002,
            specs=("swept_volume",)),
    Example(NAVEDTRA, "the same, eight cylinders", "307.44",
            lambda: displacement(swept_volume=[swept_volume(bore=3.5 * INCH, stroke=4 * INCH)] * 8) / CUBIC_INCH,
            share=0.002, specs=("displacement",)),
    Example(EQUATION, "the same, one cylinder, unrounded", "38.4845",
            lambda: swept_volume(bore=3.5 * INCH, stroke=4 * INCH) / CUBIC_INCH),
    Example(FAA, "5.5 in by 5.5 in, 14 cylinders, about 1830 cubic inches", "183E+1",
            lambda: displacement(swept_volume=[swept_volume(bore=5.5 * INCH, stroke=5.5 * INCH)] * 14) / CUBIC_INCH,
            specs=("swept_volume", "displacement")),
    Example(PULKRABEK, "bore of a three-litre six, as wide as long, cm", "8.60",
            lambda: (3 * LITRE / 6 / swept_volume(bore=1, stroke=1)) ** (1 / 3) / CM,
            specs=("swept_volume",)),
    Example(PULKRABEK, "and its capacity back from the bore, litres", "3.0",
            lambda: displacement(swept_volume=[swept_volume(bore=8.60 * CM, stroke=8.60 * CM)] * 6) / LITRE,
            specs=("displacement",)),
    Example(EQUATION, "86 mm by 86 mm, one cylinder, cc", "499.557",
            lambda: swept_volume(bore=86 * MM, stroke=86 * MM) / CC),
    Example(EQUATION, "86 mm by 86 mm, four cylinders, cc", "1998.229",
            lambda: displacement(swept_volume=[swept_volume(bore=86 * MM, stroke=86 * MM)] * 4) / CC),
    Example(EQUATION, "4.000 in by 3.480 in, eight cylinders, cubic inches", "349.848",
            lambda: displacement(swept_volume=[swept_volume(bore=4 * INCH, stroke=3.48 * INCH)] * 8) / CUBIC_INCH),
    Example(EQUATION, "the same in cc", "5732.98",
            lambda: displacement(swept_volume=[swept_volume(bore=4 * INCH, stroke=3.48 * INCH)] * 8) / CC),
    Example(EQUATION, "golden case, swept volume, cc", "716.6222", lambda: swept_volume(bore=BORE, stroke=STROKE) / CC),
    Example(EQUATION, "golden case, bore to stroke", "1.1494", lambda: bore_stroke_ratio(bore=BORE, stroke=STROKE)),
    Example(EQUATION, "golden case, gasket, cc", "8.4377", lambda: golden_gasket() / CC),
    Example(EQUATION, "golden case, deck, cc", "5.1481", lambda: golden_deck() / CC),
    Example(EQUATION, "golden case, crevice, cc", "1.0245", lambda: golden_crevice() / CC),
    Example(EQUATION, "golden case, clearance with crevice, cc", "83.6103",
            lambda: golden_clearance_with_crevice(DISH) / CC),
    Example(EQUATION, "golden case, clearance without, cc", "82.5858", lambda: golden_clearance(DISH) / CC),
    Example(EQUATION, "oval gasket opening 104 mm by 100 mm by 1 mm, cc", "8.16814",
            lambda: gasket_volume_of_opening(gasket_opening=81.6814 * CM**2, gasket_thickness=1 * MM) / CC),
    Example(EQUATION, "9.025 in deck height over 3.480, 6.000 and 1.260 in, in", "0.025",
            lambda: deck_clearance_of_stack(deck_height=9.025 * INCH, stroke=3.480 * INCH, rod_length=6.000 * INCH,
                                            compression_height=1.260 * INCH) / INCH),
    Example(EQUATION, "0.025 in below the deck under a gasket of 0.039 in, in", "0.064",
            lambda: squish_clearance(deck_clearance=0.025 * INCH, gasket_thickness=0.039 * INCH) / INCH),
)  # fmt: skip

RATIOS = (
    Example(PULKRABEK, "clearance volume for 9.5:1 in 500 cc, cc", "59",
            lambda: clearance_volume_of_ratio(swept_volume=500 * CC, compression_ratio=9.5) / CC),
    Example(EQUATION, "the same, unrounded", "58.8235",
            lambda: clearance_volume_of_ratio(swept_volume=500 * CC, compression_ratio=9.5) / CC),
    Example(PULKRABEK, "and the ratio back from the 59 cc", "9.5",
            lambda: compression_ratio(swept_volume=500 * CC, clearance_volume=59 * CC), specs=("compression_ratio",)),
    Example(FAA, "140 cubic inches at BDC, 20 at TDC", "7.0",
            lambda: compression_ratio(swept_volume=120 * CUBIC_INCH, clearance_volume=20 * CUBIC_INCH),
            specs=("compression_ratio",)),
    Example(EQUATION, "golden case with crevice", "9.5710", lambda: golden_ratio(golden_clearance_with_crevice(DISH))),
    Example(EQUATION, "golden case without crevice", "9.6773", lambda: golden_ratio(golden_clearance(DISH))),
    Example(EQUATION, "golden case with its dish taken for a dome", "10.735",
            lambda: golden_ratio(golden_clearance_with_crevice(DISH_TAKEN_FOR_A_DOME))),
    Example(EQUATION, "chamber for 10.5:1 in the golden case, cc", "55.8236",
            lambda: 64.0 + (golden_clearance_of_ratio(10.5) - golden_clearance_with_crevice(DISH)) / CC),
    Example(EQUATION, "effective, inlet closes 56 deg after BDC", "8.4962", lambda: at_inlet_closing(56)),
    Example(EQUATION, "effective, inlet closes 66 deg after BDC", "7.9151", lambda: at_inlet_closing(66)),
    Example(EQUATION, "effective, inlet closes 76 deg after BDC", "7.2501", lambda: at_inlet_closing(76)),
    Example(EQUATION, "effective, inlet closes at BDC: the static one", "10.0000000000", lambda: at_inlet_closing(0)),
    Example(EQUATION, "effective, the book's engine, inlet closes 60 deg after BDC", "7.7933",
            lambda: effective_compression_ratio(compression_ratio=9.5, inlet_closes=60, **BOOK)),
)  # fmt: skip

MOTION = (
    Example(PULKRABEK, "rod to throw, twice rod to stroke", "3.86", lambda: 2 * rod_ratio(**BOOK),
            specs=("rod_ratio",)),
    Example(EQUATION, "rod to stroke", "1.930", lambda: rod_ratio(**BOOK)),
    Example(PULKRABEK, "volume over clearance volume at 20 deg after TDC", "1.32", lambda: book_volume(20),
            specs=("effective_compression_ratio",)),
    Example(EQUATION, "the same, unrounded", "1.32084", lambda: book_volume(20)),
    # the book multiplies its rounded 1.32 and 59
    Example(PULKRABEK, "volume at 20 deg after TDC, cc", "77.9",
            lambda: book_volume(20) * clearance_volume_of_ratio(swept_volume=500 * CC, compression_ratio=9.5) / CC,
            share=0.003, specs=("effective_compression_ratio",)),
    Example(EQUATION, "volume over clearance volume at 90 deg", "5.81018", lambda: book_volume(90)),
    Example(EQUATION, "volume over clearance volume at BDC", "9.5000000000", lambda: book_volume(180)),
    # the book's own 0.4 cm is a difference of two rounded lengths and is not compared
    Example(EQUATION, "piston travel at 20 deg after TDC, mm", "3.247",
            lambda: piston_travel(crank_angle=20, **BOOK) / MM),
    Example(EQUATION, "golden case, travel left at 66 deg after BDC, mm", "67.9158",
            lambda: piston_travel(crank_angle=246, stroke=STROKE, rod_length=ROD) / MM),
    Example(PULKRABEK, "mean piston speed at 3600 rpm, m/s", "10.32",
            lambda: mean_piston_speed(stroke=BOOK["stroke"], engine_speed_limit=3600 * RPM),
            specs=("mean_piston_speed",)),
    Example(EQUATION, "stroke 89 mm at 6000 rpm, m/s", "17.800",
            lambda: mean_piston_speed(stroke=89 * MM, engine_speed_limit=6000 * RPM)),
    Example(EQUATION, "stroke 3.5 in at 6000 rpm, ft/min, by stroke times speed over six", "3500.000000",
            lambda: mean_piston_speed(stroke=3.5 * INCH, engine_speed_limit=6000 * RPM) / (12 * INCH * RPM)),
)  # fmt: skip

TIMING = (
    Example(TM_9_8000, "overlap, opens 28 deg before and closes 45 deg after TDC", "73",
            lambda: valve_overlap(inlet_opens=28, exhaust_closes=45), specs=("valve_overlap",)),
    # 71 deg follows if both figures of the manual show one camshaft
    Example(TM_9_8000, "inlet open from 28 deg before TDC to 71 deg after BDC", "279",
            lambda: inlet_duration(inlet_opens=28, inlet_closes=71)),
    Example(EQUATION, "and its lobe centre", "111.5", lambda: inlet_lobe_centre(inlet_opens=28, inlet_closes=71)),
    Example(EQUATION, "280 deg, separation 110, advanced by 4: inlet duration", "280",
            lambda: inlet_duration(inlet_opens=34, inlet_closes=66)),
    Example(EQUATION, "exhaust duration", "280", lambda: exhaust_duration(exhaust_opens=74, exhaust_closes=26)),
    Example(EQUATION, "inlet lobe centre", "106", lambda: inlet_lobe_centre(inlet_opens=34, inlet_closes=66)),
    Example(EQUATION, "exhaust lobe centre", "114", lambda: exhaust_lobe_centre(exhaust_opens=74, exhaust_closes=26)),
    Example(EQUATION, "lobe separation", "110",
            lambda: lobe_separation(inlet_lobe_centre=106, exhaust_lobe_centre=114)),
    Example(EQUATION, "overlap", "60", lambda: valve_overlap(inlet_opens=34, exhaust_closes=26)),
)  # fmt: skip


@pytest.mark.parametrize("example", [*VOLUMES, *RATIOS, *MOTION, *TIMING], ids=lambda each: each.what)
def test_worked_example(example: Example) -> None:
    within = max(example.half_of_the_last_digit, example.share * float(example.printed))
    assert example.worked() == pytest.approx(float(example.printed), abs=within, rel=0), example.source


for each in (*VOLUMES, *RATIOS, *MOTION, *TIMING):
    if each.specs:
        checks(*each.specs, source=each.source, kind=KIND[each.source])(test_worked_example)
