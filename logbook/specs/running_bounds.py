"""Where a figure of compression, of condition or of power lies outside what its formula holds for: see validity.py."""

from __future__ import annotations

from collections.abc import Callable, Mapping

_LOWEST_RATIO, _HIGHEST_RATIO = 4.0, 25.0
_USUAL_EXPONENTS = (1.25, 1.35)  # 1.30 ± 0.05 of running spark-ignition engines
_COLDEST, _HOTTEST = 200.0, 2000.0  # K, of the heat capacities of air
_RELIEF = 6e5  # Pa gauge, where relief valves open at the latest, as a rule
_UNBLOWN = 16e5  # Pa


def _no_engine(result: float) -> str:
    inside = _LOWEST_RATIO <= result <= _HIGHEST_RATIO
    return "" if inside else "no engine of this kind has a ratio below 4 or above 25: look for a slip in a volume"


def _other_exponent(compression_exponent: float) -> str:
    low, high = _USUAL_EXPONENTS
    inside = low <= round(compression_exponent, 9) <= high
    return "" if inside else f"{low} to {high} holds for the exponent of running spark-ignition engines"


def _out_of_range(temperature_at_inlet_closing: float, result: float) -> str:
    inside = _COLDEST <= temperature_at_inlet_closing and result <= _HOTTEST
    return "" if inside else "the heat capacities of air are fitted from 200 to 2000 K"


def _too_cold(temperature_at_inlet_closing: float) -> str:
    inside = _COLDEST <= temperature_at_inlet_closing
    return "" if inside else "the heat capacities of air are fitted from 200 to 2000 K"


def _leaking(result: float) -> str:
    return "below 1 the air went out or did not come in: leaks, or a throttle that was shut" if result < 1 else ""


def _beyond_the_relief_valve(result: float) -> str:
    return (
        "relief valves open at 3 to 6 bar, so no pressure rises with the speed beyond that" if result > _RELIEF else ""
    )


def _blown(result: float) -> str:
    return "more than 16 bar takes boost, or a slip in torque or displacement" if result > _UNBLOWN else ""


def _too_good(result: float) -> str:
    return "no piston engine makes more than 55 % of its fuel's heat into work" if result > 0.55 else ""


OUTSIDE: Mapping[str, tuple[Callable[..., str], ...]] = {
    "compression_ratio": (_no_engine,),
    "polytropic_end_pressure": (_other_exponent,),
    "polytropic_end_temperature": (_other_exponent,),
    "isentropic_end_pressure": (_too_cold,),
    "isentropic_end_temperature": (_out_of_range,),
    "cranking_exponent": (_leaking,),
    "oil_pressure_usual": (_beyond_the_relief_valve,),
    "brake_mean_effective_pressure": (_blown,),
    "brake_thermal_efficiency": (_too_good,),
}
