"""Inputs for the formulas of motion, cutting, bores, clearances, growth and bolts, of an engine that can be built."""

from __future__ import annotations

from hypothesis import strategies as st


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


_BORES = {
    f"bore_{height}_{way}": _between(0.0798, 0.0802)
    for height in ("top", "middle", "bottom")
    for way in ("along", "across")
}
_EXPANSIONS = {f"{part}_expansion": _between(8e-6, 25e-6) for part in ("piston", "block", "rod", "ring")}
_RISES = {f"{part}_rise": _between(0.0, 200.0) for part in ("piston", "block", "rod", "ring")}

CLEARANCES_SOUND: dict[str, st.SearchStrategy[float]] = {
    **_BORES, **_EXPANSIONS, **_RISES,
    "pin_offset": _between(-0.002, 0.002),
    "valve_pocket_volume": _between(0.0, 5e-6),
    "wanted_compression_ratio": _between(1.2, 1.7),  # low, so that any clearance volume of the others leaves a chamber
    "wanted_chamber_volume": _between(20e-6, 80e-6),
    "chamber_opening": _between(0.0030, 0.0060),
    **{f"{deck}metal_{what}": _between(0.0, 0.002) for deck in ("", "deck_") for what in ("limit", "removed")},
    "piston_diameter": _between(0.0650, 0.0699),
    "piston_to_wall": _between(2e-5, 2e-4),
    "top_ring_gap": _between(2e-4, 1e-3),
    "second_ring_gap": _between(2e-4, 1e-3),
    "top_ring_gap_rule": _between(0.003, 0.007),
    "second_ring_gap_rule": _between(0.003, 0.008),
    "top_ring_gap_wanted": _between(2e-4, 8e-4),
    "main_housing_bore": _between(0.060, 0.070),
    "main_shell_thickness": _between(0.0015, 0.0025),
    "rod_housing_bore": _between(0.055, 0.060),
    "rod_shell_thickness": _between(0.0012, 0.0020),
    "main_bearing_bore": _between(0.055, 0.066),
    "main_journal_diameter": _between(0.045, 0.0549),
    "main_bearing_clearance": _between(2e-5, 1e-4),
    "rod_bearing_bore": _between(0.050, 0.057),
    "rod_journal_diameter": _between(0.040, 0.0499),
    "rod_bearing_clearance": _between(2e-5, 1e-4),
    "thrust_journal_width": _between(0.0301, 0.0310),
    "thrust_bearing_width": _between(0.0290, 0.0300),
    "crankpin_width": _between(0.050, 0.060),
    "big_end_width": _between(0.002, 0.003),  # narrow, so that any number of them goes on one pin
    "reciprocating_mass": _between(0.2, 1.5),
    "greatest_piston_acceleration": _between(3e3, 5e4),
    "rod_section": _between(1e-4, 5e-4),
    "rod_modulus": _between(70e9, 210e9),
    "rod_heat_growth": _between(0.0, 5e-4),
    "rod_stretch": _between(0.0, 2e-4),
    "deck_heat_growth": _between(0.0, 5e-4),
    "squish_clearance": _between(5e-4, 3e-3),
    "rod_growth": _between(-2e-4, 6e-4),
    "bolt_diameter": _between(0.006, 0.016),
    "bolt_pitch": _between(0.00075, 0.0015),
    "bolt_loaded_length": _between(0.02, 0.2),
    "bolt_head_diameter": _between(0.008, 0.022),
    "bolt_strength": _between(4e8, 1.4e9),
    "bolt_modulus": _between(1.0e11, 2.1e11),
    "nut_factor": _between(0.1, 0.3),
    "thread_friction": _between(0.06, 0.2),
    "head_friction": _between(0.06, 0.2),
    "tightening_factor": _between(1.0, 2.5),
    "bolt_torque": _between(5.0, 150.0),
    "bolt_stretch": _between(2e-5, 3e-4),
    "bolt_stress_area": _between(2e-5, 2e-4),
    "bolt_preload": _between(5e3, 8e4),
    "bolt_preload_limit": _between(5e3, 8e4),
}  # fmt: skip
