"""Believable figures of one engine for what clearances, growth, cuts and bolts ask for, and formulas of motion."""

CLEARANCE_FIGURES = {
    "valve_pocket_volume": "1.2 cc", "pin_offset": "1.0 mm thrust side", "wanted_compression_ratio": "11.5",
    "metal_limit": "0.80 mm", "metal_removed": "0.30 mm",
    "deck_metal_limit": "0.50 mm", "deck_metal_removed": "0.20 mm",
    "chamber_opening": "48.0 cm2", "bore_top_along": "80.28 mm", "bore_top_across": "80.29 mm",
    "bore_middle_along": "80.27 mm", "bore_middle_across": "80.28 mm", "bore_bottom_along": "80.26 mm",
    "bore_bottom_across": "80.27 mm", "piston_diameter": "80.21 mm", "piston_to_wall": "0.06 mm",
    "top_ring_gap": "0.36 mm", "second_ring_gap": "0.45 mm", "top_ring_gap_rule": "0.0045",
    "second_ring_gap_rule": "0.0055", "main_housing_bore": "58.00 mm", "main_shell_thickness": "1.98 mm",
    "rod_housing_bore": "51.00 mm", "rod_shell_thickness": "1.48 mm", "main_bearing_bore": "54.04 mm",
    "main_journal_diameter": "53.99 mm", "rod_bearing_bore": "48.04 mm", "rod_journal_diameter": "47.99 mm",
    "main_bearing_clearance": "0.05 mm", "rod_bearing_clearance": "0.05 mm", "crank_end_float": "0.14 mm",
    "thrust_journal_width": "30.15 mm", "thrust_bearing_width": "30.00 mm", "crankpin_width": "26.20 mm",
    "big_end_width": "26.00 mm", "rod_side_clearance": "0.20 mm", "piston_expansion": "20.5 ppm/K",
    "block_expansion": "11.0 ppm/K", "rod_expansion": "11.5 ppm/K", "ring_expansion": "11.0 ppm/K",
    "piston_rise": "150 K difference", "block_rise": "80 K difference", "rod_rise": "90 K difference",
    "ring_rise": "180 K difference", "reciprocating_mass": "480 g", "rod_section": "180 mm2",
    "rod_modulus": "205000 N/mm2", "rod_growth": "0.10 mm", "bolt_diameter": "10.00 mm", "bolt_pitch": "1.50 mm",
    "bolt_loaded_length": "90.0 mm", "bolt_head_diameter": "13.0 mm", "bolt_strength": "940 N/mm2",
    "bolt_modulus": "205000 N/mm2", "nut_factor": "0.18", "thread_friction": "0.12", "head_friction": "0.12",
    "tightening_factor": "1.5", "bolt_torque": "60 N m", "bolt_stretch": "0.25 mm",
}  # fmt: skip
