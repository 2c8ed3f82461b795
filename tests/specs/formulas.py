"""Every formula of logbook/specs, for the tests that must hold of all of them."""

from __future__ import annotations

from collections.abc import Callable
from inspect import getmembers, isfunction

from hypothesis import strategies as st
from sound_air import AIR_SOUND
from sound_clearances import CLEARANCES_SOUND
from sound_condition import CONDITION_SOUND
from sound_valves import VALVE_SOUND

from logbook.quantity.catalogue import catalogue
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
    knock,
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

_AIR = (atmosphere, flow, openings, breathing, boost, fuel, knock)
_VALVES = (lift_table, lift, valve_train, valve_to_piston, pressures)
_CLEARANCES = (crowns, swing, swing_offset, cutting, bore, clearances, bearings, growth, fasteners)
_RUNNING = (condition, leak_down, power, correction)
MODULES = (volumes, compression, rest, motion, timing, *_RUNNING, *_AIR, *_VALVES, *_CLEARANCES)

FORMULAS: tuple[Callable[..., float], ...] = tuple(
    function
    for module in MODULES
    for name, function in getmembers(module, isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
)

#: Kinds of what a formula takes or gives and no file states.
NOT_IN_THE_CATALOGUE = {
    "crank_angle": "angle", "piston_travel": "length", "piston_travel_with_offset": "length",
    "cylinder_volume": "volume", "piston_speed": "speed", "piston_acceleration": "acceleration",
    "former_compression_height": "length",
    "other_test_pressure": "pressure_difference", "pressure_behind": "pressure_absolute", "mass_share": "share",
    "end_gas_pressure": "pressure_absolute", "end_gas_temperature": "temperature", "ignition_delay": "time",
    "expected_cranking_pressure": "pressure_gauge", "metal_in_oil": "share",
}  # fmt: skip

#: Formulas with constants that have units: a fit, a gas, the air a bench is set to; or whose lists belong together; or
#: whose result is found by a search, no closer than its steps.
#: Their own tests hold them to their figures; the choice of units is declared on their pages.
WITH_UNITS_OF_THEIR_OWN = {
    "saturation_pressure", "vapour_pressure_of_wet_bulb", "air_density", "air_density_dry", "standard_atmosphere",
    "standard_air_temperature",
    "inlet_flow_at_full_lift", "exhaust_flow_at_full_lift", "inlet_flow_coefficient_of_bench",
    "inlet_flow_coefficient_of_tables",
    "inlet_discharge_coefficient", "inlet_mach_index", "inlet_mach_index_at_speed", "filling_falls_from",
    "filling_falls_by", "air_flow_of_opening", "stoichiometric_ratio_of_blend", "ignition_delay", "knock_integral",
    "valve_to_piston_inlet_angle", "valve_to_piston_exhaust_angle", "polytropic_end_pressure",
    "isentropic_end_pressure", "isentropic_end_temperature", "oil_pressure_usual", "correction_iso_1585",
    "correction_iso_1585_compression", "correction_sae_j1349", "correction_din_70020", "correction_sae_j607",
    "lower_heating_value_of_ethanol",
}  # fmt: skip

BASE_UNITS = {
    "length": "m", "area": "m2", "volume": "m3", "angle": "deg", "engine_speed": "1/s", "speed": "m/s",
    "acceleration": "m/s2", "mass": "kg", "force": "N", "torque": "N m", "stress": "Pa", "expansion": "1/K",
    "temperature_difference": "K", "pressure_gauge": "Pa gauge", "pressure_absolute": "Pa absolute",
    "pressure_difference": "Pa", "ratio": "bare",
    "count": "bare", "share": "share", "temperature": "K", "density": "kg/m3", "volume_flow": "m3/s",
    "mass_flow": "kg/s", "time": "s", "spring_rate": "N/m", "lift_area": "m deg",
    "power": "W", "distance": "m", "consumption": "m2", "share_rate": "1/s", "viscosity": "m2/s",
    "specific_output": "W/m3", "specific_consumption": "kg/J", "specific_energy": "J/kg",
}  # fmt: skip


def quantity_given(formula: Callable[..., float]) -> str:
    """The catalogue's name of a formula's result: gasket_volume of gasket_volume_round."""
    name = formula.__name__
    known = [each for each in catalogue() if name == each or name.startswith(each + "_")]
    return max(known, key=len) if known else name


def kind_of(name: str) -> str:
    return NOT_IN_THE_CATALOGUE[name] if name in NOT_IN_THE_CATALOGUE else catalogue()[name].kind


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


#: Inputs of an engine that can be built, whichever are drawn together.
SOUND: dict[str, st.SearchStrategy[float]] = {
    **CLEARANCES_SOUND,
    "bore": _between(0.070, 0.110),
    "stroke": _between(0.050, 0.110),
    "rod_length": _between(0.100, 0.200),
    "deck_height": _between(0.180, 0.300),
    "compression_height": _between(0.025, 0.050),
    "deck_clearance": _between(-0.0009, 0.0030),
    "gasket_thickness": _between(0.0010, 0.0020),
    "gasket_bore": _between(0.071, 0.112),
    "gasket_opening": _between(0.0040, 0.0098),
    "top_land_diameter": _between(0.060, 0.0699),
    "top_land_height": _between(0.002, 0.010),
    "chamber_volume": _between(30e-6, 90e-6),
    "dish_volume": _between(0.0, 20e-6),
    "dome_volume": _between(0.0, 15e-6),
    "crown_volume": _between(-15e-6, 20e-6),
    "gasket_volume": _between(3e-6, 15e-6),
    "deck_volume": _between(-8e-6, 25e-6),
    "crevice_volume": _between(0.0, 3e-6),
    "rest_volume": _between(-5e-6, 40e-6),
    "former_compression_height": _between(0.025, 0.050),
    "swept_volume": _between(200e-6, 1000e-6),
    "clearance_volume": _between(15e-6, 250e-6),
    "compression_ratio": _between(4.0, 25.0),
    "crank_angle": _between(-720.0, 720.0),
    "engine_speed_limit": _between(30.0, 200.0),
    "inlet_opens": _between(-30.0, 80.0),
    "inlet_closes": _between(-30.0, 120.0),
    "exhaust_opens": _between(-30.0, 120.0),
    "exhaust_closes": _between(-30.0, 80.0),
    "inlet_lobe_centre": _between(80.0, 140.0),
    "exhaust_lobe_centre": _between(80.0, 140.0),
    "cranking_pressure": _between(1e5, 5e5),
    **VALVE_SOUND,
    **AIR_SOUND,
    **CONDITION_SOUND,
}
