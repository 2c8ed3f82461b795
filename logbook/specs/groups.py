"""How specs are grouped and ordered on a page: a heading, and the names under it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

#: Beside these it is said whether the crevice of the top land is counted.
RATIOS = ("mean_compression_ratio", "compression_ratio", "effective_compression_ratio")

#: The group that `specs` tells surface by surface, with what came off.
METAL = "Metal"

#: How specs are grouped and ordered on a page.
GROUPS: Mapping[str, tuple[str, ...]] = {
    "Size": ("displacement", "swept_volume", "bore_stroke_ratio"),
    "Compression": (
        "mean_compression_ratio",
        "compression_ratio_spread",
        "compression_ratio",
        "effective_compression_ratio",
        "squish_clearance",
    ),
    "Volumes above the piston": (
        "clearance_volume",
        "crown_volume",
        "gasket_volume",
        "deck_volume",
        "crevice_volume",
        "rest_volume",
        "deck_clearance",
    ),
    "Camshaft timing": (
        "inlet_lobe_centre",
        "exhaust_lobe_centre",
        "inlet_duration",
        "exhaust_duration",
        "lobe_separation",
        "valve_overlap",
        "camshaft_advance",
        "inlet_early",
        "exhaust_early",
        "inlet_opens",
        "inlet_closes",
        "exhaust_opens",
        "exhaust_closes",
        "inlet_peak_centre",
        "exhaust_peak_centre",
    ),
    "Valves": (
        "inlet_valve_lift",
        "exhaust_valve_lift",
        "inlet_lift_at_tdc",
        "exhaust_lift_at_tdc",
        "inlet_lift_area",
        "exhaust_lift_area",
        "valve_to_piston_inlet",
        "valve_to_piston_inlet_angle",
        "valve_to_piston_exhaust",
        "valve_to_piston_exhaust_angle",
        "spring_seat_load",
        "spring_open_load_inlet",
        "spring_open_load_exhaust",
        "coil_bind_margin_inlet",
        "coil_bind_margin_exhaust",
    ),
    "Compression in use": (
        "pressure_at_inlet_closing",
        "polytropic_end_pressure",
        "polytropic_end_temperature",
        "isentropic_end_pressure",
        "isentropic_end_temperature",
    ),
    "Metal to take off": ("wanted_chamber_volume", "head_cut_wanted", "deck_cut_wanted"),
    "Breathing": (
        "filling_falls_from",
        "filling_falls_by",
        "inlet_mach_index",
        "inlet_flow_coefficient",
        "inlet_port_velocity",
        "air_demand",
        "inlet_flow_at_full_lift",
        "exhaust_flow_at_full_lift",
        "inlet_discharge_coefficient",
        "inlet_curtain_area",
        "inlet_throat_area",
        "inlet_valve_area",
    ),
    "Boost": ("pressure_ratio", "compressor_outlet_temperature", "charge_temperature", "charge_density_ratio"),
    "Fuel": (
        "stoichiometric_ratio",
        "lower_heating_value",
        "ethanol_mass_share",
        "injector_pressure",
        "injector_flow_in_use",
    ),
    "Motion": (
        "mean_piston_speed",
        "rod_ratio",
        "greatest_piston_speed",
        "greatest_piston_speed_angle",
        "greatest_piston_acceleration",
        "greatest_piston_acceleration_bottom",
        "tdc_shift",
        "piston_stroke",
    ),
    "Pistons and rings": (
        "bore_taper",
        "bore_ovality",
        "piston_to_wall",
        "piston_to_wall_ratio",
        "piston_to_wall_hot",
        "top_ring_gap_ratio",
        "top_ring_gap_wanted",
        "top_ring_gap_hot",
        "second_ring_gap_ratio",
        "second_ring_gap_wanted",
        "squish_clearance_running",
        "rod_growth",
        "rod_heat_growth",
        "rod_stretch",
        "deck_heat_growth",
    ),
    "Bearings": (
        "main_bearing_clearance",
        "main_bearing_clearance_ratio",
        "rod_bearing_clearance",
        "rod_bearing_clearance_ratio",
        "crank_end_float",
        "rod_side_clearance",
        "main_bearing_bore",
        "rod_bearing_bore",
    ),
    "Bolts": (
        "bolt_preload",
        "bolt_preload_least",
        "bolt_preload_most",
        "bolt_stretch_expected",
        "bolt_proof_share",
        "bolt_stress_area",
        "bolt_preload_limit",
        "bolt_torque_limit",
    ),
    METAL: ("metal_left", "deck_metal_left"),
}


def in_page_order(names: Mapping[str, object]) -> tuple[str, ...]:
    """Names in the order of the groups, then the rest."""
    return _in_page_order(tuple(names))


@cache
def _in_page_order(names: tuple[str, ...]) -> tuple[str, ...]:
    grouped = [name for group in GROUPS.values() for name in group]
    return tuple(sorted(names, key=lambda name: (grouped.index(name) if name in grouped else len(grouped), name)))
