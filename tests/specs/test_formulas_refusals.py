"""What cannot be is refused by the formulas, in one sentence of the trade that says what to check."""

from __future__ import annotations

from collections.abc import Callable
from math import nan

import pytest

from logbook.specs import compression, condition, motion, timing, volumes

MM = 1e-3
CC = 1e-6
CRANK = {"stroke": 88 * MM, "rod_length": 150 * MM}

REFUSED: list[tuple[Callable[..., float], dict[str, object], str]] = [
    (volumes.swept_volume, {"bore": -86 * MM, "stroke": 86 * MM},
     "-86 mm cannot be the bore: it must be above zero. Check bore, its unit and its sign"),
    (volumes.swept_volume, {"bore": 86 * MM, "stroke": 0}, "0 mm cannot be the stroke"),
    (volumes.swept_volume, {"bore": nan, "stroke": 86 * MM}, "nan mm cannot be the bore"),
    (volumes.bore_stroke_ratio, {"bore": 86 * MM, "stroke": 0}, "0 mm cannot be the stroke"),
    (volumes.displacement, {"swept_volume": []},
     "no cylinder has a swept volume. Check swept_volume: at least one is needed"),
    (volumes.gasket_volume_round, {"gasket_bore": 88 * MM, "gasket_thickness": 0},
     "0 mm cannot be the gasket thickness, compressed"),
    (volumes.gasket_volume_of_opening, {"gasket_opening": -1e-4, "gasket_thickness": 1 * MM},
     "-1 cm2 cannot be the gasket opening"),
    (volumes.deck_volume, {"bore": 0, "deck_clearance": 0}, "0 mm cannot be the bore"),
    (volumes.deck_clearance_of_stack,
     {"deck_height": 230 * MM, "stroke": 88 * MM, "rod_length": -1, "compression_height": 35 * MM},
     "-1000 mm cannot be the connecting rod length"),
    (volumes.squish_clearance, {"deck_clearance": -1.3 * MM, "gasket_thickness": 1.2 * MM},
     "the piston would meet the head: it stands 1.3 mm above the deck under a gasket of 1.2 mm. Check deck_clearance"),
    (volumes.crevice_volume, {"bore": 86 * MM, "top_land_diameter": 86.5 * MM, "top_land_height": 6 * MM},
     "a top land of 86.5 mm does not go into a bore of 86 mm. Check top_land_diameter and bore"),
    (volumes.clearance_volume,
     {"chamber_volume": 40 * CC, "crown_volume": -60 * CC, "gasket_volume": 8 * CC, "deck_volume": 2 * CC},
     "the clearance volume comes to -10 cc, which leaves no room above the piston at TDC. Check chamber_volume"),
    (volumes.clearance_volume_with_crevice,
     {"chamber_volume": 40 * CC, "crown_volume": -51 * CC, "gasket_volume": 8 * CC, "deck_volume": 2 * CC,
      "crevice_volume": 1 * CC}, "dome_volume against dish_volume"),
    (compression.compression_ratio, {"swept_volume": 500 * CC, "clearance_volume": 0},
     "0 cc cannot be the clearance volume"),
    (compression.clearance_volume_of_ratio, {"swept_volume": 500 * CC, "compression_ratio": 1},
     "a compression ratio of 1 compresses nothing: it must be above 1. Check compression_ratio"),
    (compression.mean_compression_ratio, {"compression_ratio": ()}, "no cylinder has a compression ratio"),
    (compression.compression_ratio_spread, {"compression_ratio": ()}, "no cylinder has a compression ratio"),
    (compression.effective_compression_ratio, {"compression_ratio": 0.9, "inlet_closes": 60, **CRANK},
     "must be above 1"),
    (compression.effective_compression_ratio, {"compression_ratio": 10, "inlet_closes": 236, **CRANK},
     "inlet closing 236 deg from BDC lies beyond TDC, where nothing is left to compress. Check inlet_closes"),
    (motion.piston_travel, {"crank_angle": 20, "stroke": 88 * MM, "rod_length": 44 * MM},
     "a connecting rod of 44 mm is not longer than the throw of 44 mm, and the crank could not turn. Check rod_length"),
    (motion.rod_ratio, {"stroke": 88 * MM, "rod_length": 40 * MM}, "is not longer than the throw"),
    (motion.mean_piston_speed, {"stroke": 88 * MM, "engine_speed_limit": 0}, "0 rpm cannot be the engine speed limit"),
    (timing.inlet_duration, {"inlet_opens": -100, "inlet_closes": -90},
     "the inlet valve would be open for -10 deg of the 720 of one cycle. Check inlet_opens and inlet_closes"),
    (timing.exhaust_lobe_centre, {"exhaust_opens": 400, "exhaust_closes": 200},
     "the exhaust valve would be open for 780 deg"),
    (condition.cranking_pressure_least, {"cranking_pressure": [0.0, 0.0]}, "no cylinder gave any cranking pressure"),
    (condition.cranking_pressure_least, {"cranking_pressure": []}, "no cylinder has a cranking pressure"),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "given", "words"), REFUSED, ids=lambda each: getattr(each, "__name__", ""))
def test_what_cannot_be_is_refused_in_the_words_of_the_trade(
    formula: Callable[..., float], given: dict[str, object], words: str
) -> None:
    with pytest.raises(ValueError, match="Check ") as refusal:
        formula(**given)
    assert words in str(refusal.value)
