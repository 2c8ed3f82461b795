"""Inputs for the formulas of air, flow, boost, fuel and spark, of an engine that can be built."""

from __future__ import annotations

from hypothesis import strategies as st


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


AIR_SOUND: dict[str, st.SearchStrategy[float]] = {
    "air_temperature": _between(250.0, 320.0),
    "wet_bulb_temperature": _between(275.0, 300.0),
    "air_pressure": _between(70e3, 105e3),
    "air_humidity": _between(0.0, 1.0),
    "air_density": _between(0.8, 1.4),
    "altitude": _between(0.0, 5000.0),
    "saturation_pressure": _between(100.0, 7000.0),
    "vapour_pressure": _between(0.0, 7000.0),
    "inlet_flow": _between(0.01, 0.1),
    "inlet_flow_at_full_lift": _between(0.01, 0.1),
    "inlet_test_pressure": _between(1000.0, 10e3),
    "other_test_pressure": _between(1000.0, 10e3),
    "inlet_valve_lift": _between(0.005, 0.015),
    "valve_lift": _between(0.0, 0.015),
    "inlet_valve_diameter": _between(0.036, 0.050),
    "inlet_port_diameter": _between(0.028, 0.035),
    "inlet_stem_diameter": _between(0.005, 0.009),
    "inlet_seat_width": _between(0.001, 0.003),
    "inlet_seat_angle": _between(20.0, 60.0),
    "inlet_valves": st.sampled_from([1.0, 2.0]),
    "inlet_curtain_area": _between(5e-4, 30e-4),
    "inlet_flow_coefficient": _between(0.25, 0.45),
    "engine_speed": _between(10.0, 200.0),
    "displacement": _between(500e-6, 8000e-6),
    "volumetric_efficiency": _between(0.5, 1.3),
    "air_flow": _between(0.01, 1.0),
    "boost_pressure": _between(0.0, 2e5),
    "compressor_inlet_pressure": _between(60e3, 70e3),
    "pressure_ratio": _between(1.0, 4.0),
    "compressor_efficiency": _between(0.5, 0.8),
    "compressor_outlet_temperature": _between(320.0, 450.0),
    "intercooler_effectiveness": _between(0.0, 1.0),
    "charge_temperature": _between(280.0, 420.0),
    "fuel_hydrogen": _between(1.0, 4.0),
    "fuel_oxygen": _between(0.0, 1.0),
    "ethanol_content": _between(0.0, 1.0),
    "ethanol_mass_share": _between(0.0, 1.0),
    "fuel_flow": _between(0.001, 0.05),
    "fuel_density": _between(700.0, 800.0),
    "air_fuel_ratio": _between(8.0, 20.0),
    "air_ratio": _between(0.6, 1.5),
    "stoichiometric_ratio": _between(6.0, 15.0),
    "fuel_pressure": _between(3e5, 6e5),
    "injector_flow": _between(2e-6, 20e-6),
    "injector_flow_in_use": _between(2e-6, 20e-6),
    "injector_rated_pressure": _between(2.5e5, 4e5),
    "injector_pressure": _between(1e5, 6e5),
    "injectors_fitted": st.sampled_from([4.0, 6.0, 8.0]),
    "injector_open_time": _between(0.001, 0.015),
}
