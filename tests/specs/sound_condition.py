"""Inputs for the formulas of condition and power, of an engine that can be built."""

from __future__ import annotations

from hypothesis import strategies as st


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


CONDITION_SOUND: dict[str, st.SearchStrategy[float]] = {
    "leak_down": _between(0.0, 0.9),
    "leak_down_supply": _between(5e5, 8e5),
    "leak_down_held": _between(0.5e5, 5e5),
    "leak_down_orifice": _between(0.5e-3, 2e-3),
    "dry_air_pressure": _between(70e3, 105e3),
    "metal_in_oil": _between(0.0, 200e-6),
    "hours_on_oil": _between(3600.0, 1e6),
    "oil_viscosity": _between(5e-6, 25e-6),
    "new_oil_viscosity": _between(5e-6, 25e-6),
    "oil_used": _between(0.0, 5e-3),
    "fuel_used": _between(1e-3, 80e-3),
    "distance_run": _between(10e3, 5e6),
    "hours_run": _between(3600.0, 1e6),
    "torque": _between(20.0, 2000.0),
    "power": _between(5e3, 1e6),
    "engine_speed": _between(10.0, 200.0),
    "displacement": _between(100e-6, 10e-3),
    "fuel_flow": _between(1e-4, 0.05),
    "fuel_delivery": _between(0.01, 0.1),
    "specific_fuel_consumption": _between(50e-9, 300e-9),
    "lower_heating_value": _between(25e6, 50e6),
}
