"""Everything that can be worked out, by hand: open this file to see it all.

Name of the spec -> its formulas in the order in which they are tried; the first whose arguments are all known is taken.
The arguments of a formula name what it needs; where a name lives is said by the catalogue.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from inspect import Parameter, signature
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.specs import (
    atmosphere,
    bearings,
    boost,
    bore,
    breathing,
    clearances,
    compression,
    condition,
    correction,
    crowns,
    cutting,
    fasteners,
    flow,
    fuel,
    growth,
    leak_down,
    lift,
    lift_table,
    motion,
    openings,
    power,
    pressures,
    rest,
    swing,
    swing_offset,
    timing,
    valve_to_piston,
    valve_train,
    volumes,
)

Function = Callable[..., float]
Index = Mapping[str, tuple[Function, ...]]

ALL_SPECS: Index = {
    # volumes
    "swept_volume": (volumes.swept_volume,),
    "displacement": (volumes.displacement,),
    "bore_stroke_ratio": (volumes.bore_stroke_ratio,),
    "gasket_volume": (volumes.gasket_volume_of_opening, volumes.gasket_volume_round),
    "deck_clearance": (volumes.deck_clearance_of_stack,),
    "deck_volume": (volumes.deck_volume,),
    "crown_volume": (
        crowns.crown_volume_dished_with_pockets,
        crowns.crown_volume_raised_with_pockets,
        volumes.crown_volume_dished,
        volumes.crown_volume_raised,
    ),
    "crevice_volume": (volumes.crevice_volume,),
    "rest_volume": (rest.rest_volume_of_parts,),
    "clearance_volume": (volumes.clearance_volume, rest.clearance_volume_of_rest),
    "squish_clearance": (volumes.squish_clearance,),
    # compression
    "compression_ratio": (compression.compression_ratio,),
    "mean_compression_ratio": (compression.mean_compression_ratio,),
    "compression_ratio_spread": (compression.compression_ratio_spread,),
    "effective_compression_ratio": (
        compression.effective_compression_ratio_with_offset,
        compression.effective_compression_ratio,
    ),
    # motion
    "rod_ratio": (motion.rod_ratio,),
    "mean_piston_speed": (motion.mean_piston_speed,),
    "greatest_piston_speed": (swing_offset.greatest_piston_speed_with_offset, swing.greatest_piston_speed),
    "greatest_piston_speed_angle": (
        swing_offset.greatest_piston_speed_angle_with_offset,
        swing.greatest_piston_speed_angle,
    ),
    "greatest_piston_acceleration": (
        swing_offset.greatest_piston_acceleration_with_offset,
        swing.greatest_piston_acceleration,
    ),
    "greatest_piston_acceleration_bottom": (
        swing_offset.greatest_piston_acceleration_bottom_with_offset,
        swing.greatest_piston_acceleration_bottom,
    ),
    "tdc_shift": (motion.tdc_shift,),
    "piston_stroke": (motion.piston_stroke,),
    # metal to take off
    "wanted_chamber_volume": (cutting.wanted_chamber_volume,),
    "head_cut_wanted": (cutting.head_cut_wanted,),
    "deck_cut_wanted": (cutting.deck_cut_wanted,),
    "metal_left": (cutting.metal_left,),
    "deck_metal_left": (cutting.deck_metal_left,),
    # bore
    "bore_taper": (bore.bore_taper_of_six, bore.bore_taper_of_four, bore.bore_taper_of_two),
    "bore_ovality": (bore.bore_ovality_of_six, bore.bore_ovality_of_four, bore.bore_ovality_of_two),
    # clearances
    "piston_to_wall": (clearances.piston_to_wall,),
    "piston_to_wall_ratio": (clearances.piston_to_wall_ratio,),
    "top_ring_gap_ratio": (clearances.top_ring_gap_ratio,),
    "second_ring_gap_ratio": (clearances.second_ring_gap_ratio,),
    "top_ring_gap_wanted": (clearances.top_ring_gap_wanted,),
    "second_ring_gap_wanted": (clearances.second_ring_gap_wanted, clearances.second_ring_gap_wanted_of_top),
    "main_bearing_bore": (bearings.main_bearing_bore_of_shells,),
    "rod_bearing_bore": (bearings.rod_bearing_bore_of_shells,),
    "main_bearing_clearance": (bearings.main_bearing_clearance,),
    "rod_bearing_clearance": (bearings.rod_bearing_clearance,),
    "main_bearing_clearance_ratio": (bearings.main_bearing_clearance_ratio,),
    "rod_bearing_clearance_ratio": (bearings.rod_bearing_clearance_ratio,),
    "crank_end_float": (bearings.crank_end_float,),
    "rod_side_clearance": (bearings.rod_side_clearance,),
    # growth with heat and speed
    "piston_to_wall_hot": (growth.piston_to_wall_hot,),
    "top_ring_gap_hot": (growth.top_ring_gap_hot,),
    "rod_heat_growth": (growth.rod_heat_growth,),
    "deck_heat_growth": (growth.deck_heat_growth,),
    "rod_stretch": (growth.rod_stretch,),
    "rod_growth": (growth.rod_growth_of_heat_and_stretch,),
    "squish_clearance_running": (growth.squish_clearance_running,),
    # bolts
    "bolt_stress_area": (fasteners.bolt_stress_area,),
    "bolt_preload": (
        fasteners.bolt_preload_of_stretch,
        fasteners.bolt_preload_of_friction,
        fasteners.bolt_preload_of_nut_factor,
    ),
    "bolt_preload_least": (fasteners.bolt_preload_least,),
    "bolt_preload_most": (fasteners.bolt_preload_most,),
    "bolt_stretch_expected": (fasteners.bolt_stretch_expected,),
    "bolt_proof_share": (fasteners.bolt_proof_share,),
    "bolt_preload_limit": (fasteners.bolt_preload_limit,),
    "bolt_torque_limit": (fasteners.bolt_torque_limit,),
    # camshaft
    "inlet_opens": (timing.inlet_opens_of_lobe, lift_table.inlet_opens_of_table),
    "inlet_closes": (timing.inlet_closes_of_lobe, lift_table.inlet_closes_of_table),
    "exhaust_opens": (timing.exhaust_opens_of_lobe, lift_table.exhaust_opens_of_table),
    "exhaust_closes": (timing.exhaust_closes_of_lobe, lift_table.exhaust_closes_of_table),
    "inlet_lobe_centre": (timing.inlet_lobe_centre, lift_table.inlet_lobe_centre_of_table),
    "exhaust_lobe_centre": (timing.exhaust_lobe_centre, lift_table.exhaust_lobe_centre_of_table),
    "inlet_peak_centre": (lift_table.inlet_peak_centre,),
    "exhaust_peak_centre": (lift_table.exhaust_peak_centre,),
    "inlet_duration": (timing.inlet_duration, lift_table.inlet_duration_of_table, timing.inlet_duration_of_card),
    "exhaust_duration": (
        timing.exhaust_duration,
        lift_table.exhaust_duration_of_table,
        timing.exhaust_duration_of_card,
    ),
    "lobe_separation": (timing.lobe_separation,),
    "valve_overlap": (timing.valve_overlap,),
    "camshaft_advance": (timing.camshaft_advance,),
    "inlet_early": (timing.inlet_early,),
    "exhaust_early": (timing.exhaust_early,),
    # valve lift
    "inlet_valve_lift": (lift.inlet_valve_lift_of_table, valve_train.inlet_valve_lift_of_lobe),
    "exhaust_valve_lift": (lift.exhaust_valve_lift_of_table, valve_train.exhaust_valve_lift_of_lobe),
    "inlet_lift_at_tdc": (lift.inlet_lift_at_tdc,),
    "exhaust_lift_at_tdc": (lift.exhaust_lift_at_tdc,),
    "inlet_lift_area": (lift.inlet_lift_area,),
    "exhaust_lift_area": (lift.exhaust_lift_area,),
    # valve springs
    "spring_seat_load": (valve_train.spring_seat_load,),
    "spring_open_load_inlet": (valve_train.spring_open_load_inlet,),
    "spring_open_load_exhaust": (valve_train.spring_open_load_exhaust,),
    "coil_bind_margin_inlet": (valve_train.coil_bind_margin_inlet,),
    "coil_bind_margin_exhaust": (valve_train.coil_bind_margin_exhaust,),
    # valve and piston
    "valve_to_piston_inlet": (valve_to_piston.valve_to_piston_inlet,),
    "valve_to_piston_inlet_angle": (valve_to_piston.valve_to_piston_inlet_angle,),
    "valve_to_piston_exhaust": (valve_to_piston.valve_to_piston_exhaust,),
    "valve_to_piston_exhaust_angle": (valve_to_piston.valve_to_piston_exhaust_angle,),
    # compression in use
    "pressure_at_inlet_closing": (pressures.pressure_at_inlet_closing,),
    "polytropic_end_pressure": (pressures.polytropic_end_pressure,),
    "polytropic_end_temperature": (pressures.polytropic_end_temperature,),
    "isentropic_end_pressure": (pressures.isentropic_end_pressure,),
    "isentropic_end_temperature": (pressures.isentropic_end_temperature,),
    # breathing
    "inlet_flow_coefficient": (flow.inlet_flow_coefficient_of_tables, flow.inlet_flow_coefficient_of_bench),
    "inlet_flow_at_full_lift": (flow.inlet_flow_at_full_lift,),
    "exhaust_flow_at_full_lift": (flow.exhaust_flow_at_full_lift,),
    "inlet_discharge_coefficient": (flow.inlet_discharge_coefficient,),
    "inlet_curtain_area": (openings.inlet_curtain_area,),
    "inlet_throat_area": (openings.inlet_throat_area,),
    "inlet_valve_area": (openings.inlet_valve_area,),
    "inlet_mach_index": (breathing.inlet_mach_index,),
    "filling_falls_from": (breathing.filling_falls_from,),
    "filling_falls_by": (breathing.filling_falls_by,),
    "inlet_port_velocity": (breathing.inlet_port_velocity,),
    "air_demand": (breathing.air_demand, breathing.air_demand_at_full_filling),
    # boost
    "pressure_ratio": (boost.pressure_ratio, boost.pressure_ratio_from_outside),
    "compressor_outlet_temperature": (boost.compressor_outlet_temperature,),
    "charge_temperature": (boost.charge_temperature,),
    "charge_density_ratio": (boost.charge_density_ratio,),
    # fuel
    "ethanol_mass_share": (fuel.ethanol_mass_share,),
    "stoichiometric_ratio": (fuel.stoichiometric_ratio_of_composition, fuel.stoichiometric_ratio_of_ethanol),
    "lower_heating_value": (fuel.lower_heating_value_of_ethanol,),
    "injector_pressure": (fuel.injector_pressure,),
    "injector_flow_in_use": (fuel.injector_flow_in_use,),
}

#: Worked out from one test, never from the engine as it stands.
OF_A_TEST: Index = {
    "saturation_pressure": (atmosphere.saturation_pressure,),
    "vapour_pressure": (atmosphere.vapour_pressure, atmosphere.vapour_pressure_of_wet_bulb),
    "air_density": (atmosphere.air_density, atmosphere.air_density_dry),
    "standard_atmosphere": (atmosphere.standard_atmosphere,),
    "standard_air_temperature": (atmosphere.standard_air_temperature,),
    "air_flow": (breathing.air_flow_of_filling,),
    "volumetric_efficiency": (breathing.volumetric_efficiency,),
    "air_fuel_ratio": (fuel.air_fuel_ratio, fuel.air_fuel_ratio_of_air_ratio),
    "air_ratio": (fuel.air_ratio,),
    "fuel_flow": (fuel.fuel_flow,),
    "injector_duty": (fuel.injector_duty_of_pulse, fuel.injector_duty_of_demand),
    "cranking_pressure_least": (condition.cranking_pressure_least,),
    "leak_down": (leak_down.leak_down_of_gauges,),
    "leak_down_spread": (leak_down.leak_down_spread,),
    "leak_area": (leak_down.leak_area,),
    "oil_pressure_usual": (condition.oil_pressure_usual,),
    "oil_viscosity_change": (condition.oil_viscosity_change,),
    "oil_consumption": (condition.oil_consumption,),
    "oil_consumption_hourly": (condition.oil_consumption_hourly,),
    "fuel_consumption": (condition.fuel_consumption,),
    "fuel_consumption_hourly": (condition.fuel_consumption_hourly,),
    "power": (power.power_of_torque,),
    "torque": (power.torque_of_power,),
    "brake_mean_effective_pressure": (power.brake_mean_effective_pressure,),
    "specific_output": (power.specific_output,),
    "specific_fuel_consumption": (power.specific_fuel_consumption,),
    "brake_thermal_efficiency": (power.brake_thermal_efficiency,),
    "fuel_delivery": (power.fuel_delivery,),
    "dry_air_pressure": (correction.dry_air_pressure,),
    "correction_iso_1585": (correction.correction_iso_1585,),
    "correction_iso_1585_compression": (correction.correction_iso_1585_compression,),
    "correction_sae_j1349": (correction.correction_sae_j1349,),
    "correction_din_70020": (correction.correction_din_70020,),
    "correction_sae_j607": (correction.correction_sae_j607,),
    "cranking_exponent": (pressures.cranking_exponent,),
}

#: What a card says beside what was measured: the same quantity from published figures alone.
OF_THE_CARD: Mapping[str, str] = {
    "card_inlet_lobe_centre": "inlet_lobe_centre",
    "card_exhaust_lobe_centre": "exhaust_lobe_centre",
    "card_inlet_duration": "inlet_duration",
    "card_exhaust_duration": "exhaust_duration",
}

#: Where engine.yaml says `crevice: counted`.
WITH_CREVICE: Index = {
    **ALL_SPECS,
    "rest_volume": (rest.rest_volume_with_crevice,),
    "clearance_volume": (volumes.clearance_volume_with_crevice, rest.clearance_volume_of_rest),
}


class Formula(NamedTuple):
    """One formula of the index, with the names it needs.

    `every` are wanted at all positions at once, `curves` as the whole curve of a table.
    """

    name: str
    function: Function
    needs: tuple[str, ...]
    every: frozenset[str]
    curves: frozenset[str]


@cache
def formula(name: str, function: Function) -> Formula:
    """A function of the index, read by its signature."""
    needs = signature(function).parameters
    every = frozenset(each for each, parameter in needs.items() if _is_every(parameter))
    curves = frozenset(each for each, parameter in needs.items() if "Curve" in str(parameter.annotation))
    return Formula(name, function, tuple(needs), every, curves)


def _is_every(parameter: Parameter) -> bool:
    return "Every" in str(parameter.annotation) or "Sequence" in str(parameter.annotation)


@cache
def with_conditions(name: str) -> bool:
    """Whether a quantity is told apart by the lift it was read at."""
    return "at_lift" in quantity(name).qualifiers
