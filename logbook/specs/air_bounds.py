"""Where a case of air, flow or fuel lies outside what its formula holds for: the reason, or ''."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from logbook.quantity.curve import Curve

_LITTLE = 1e-5  # m: a dial's last digit is no lift beyond the bench


def _fast_port(result: float) -> str:
    return "above half the speed of sound the air's density is no longer constant" if result > 171 else ""


def _more_than_full(result: float) -> str:
    return "more than 130 % of the air outside is boost, or a mistake in the air flow" if result > 1.3 else ""


def _more_than_ideal(result: float) -> str:
    return "a discharge coefficient above 1 refers to a wrong area" if result > 1 else ""


_EXPANDS = "above a tenth of the air's pressure the air expands in the port"


def _hard_test(inlet_test_pressure: float) -> str:
    return _EXPANDS if inlet_test_pressure > 10_000 else ""


def _hard_exhaust_test(exhaust_test_pressure: float) -> str:
    return _EXPANDS if exhaust_test_pressure > 10_000 else ""


def _beyond(lift: float, flow: Curve) -> str:
    read = flow.at[-1]
    return (
        ""
        if lift <= read + _LITTLE
        else f"the flow was read up to {1e3 * read:.4g} mm of lift and is taken to stay so to {1e3 * lift:.4g} mm"
    )


def _beyond_the_inlet_bench(inlet_flow: Curve, inlet_valve_lift: float) -> str:
    return _beyond(inlet_valve_lift, inlet_flow)


def _beyond_the_bench(inlet_flow: Curve, inlet_lift: Curve) -> str:
    return _beyond(inlet_lift.top, inlet_flow)


def _beyond_the_exhaust_bench(exhaust_flow: Curve, exhaust_valve_lift: float) -> str:
    return _beyond(exhaust_valve_lift, exhaust_flow)


def _choking(result: float) -> str:
    return "above 0.6 filling falls fast, and the index says no longer by how much" if result > 0.6 else ""


def _no_air_around_an_engine(air_temperature: float) -> str:
    inside = 173.15 <= air_temperature <= 473.15
    return "" if inside else "the pressure of water vapour is fitted from -100 to 200 degC"


def _dense(air_pressure: float) -> str:
    return "above 10 bar air is no ideal gas within 0.1 %" if air_pressure > 10e5 else ""


def _hot_compressor(pressure_ratio: float) -> str:
    return "above a ratio of 8 air heats over 1.5 % less than a constant gamma says" if pressure_ratio > 8 else ""


def _hard_injector(injector_pressure: float, injector_rated_pressure: float) -> str:
    hard = injector_pressure > 2 * injector_rated_pressure
    return "beyond twice its rated pressure a port injector may not open" if hard else ""


def _nearly_always_open(result: float) -> str:
    return "above 85 to 90 % an injector is no longer governed, by common practice" if result > 0.85 else ""


OUTSIDE: Mapping[str, tuple[Callable[..., str], ...]] = {
    "saturation_pressure": (_no_air_around_an_engine,),
    "air_density": (_dense,),
    "inlet_port_velocity": (_fast_port,),
    "inlet_mach_index": (_choking,),
    "volumetric_efficiency": (_more_than_full,),
    "inlet_discharge_coefficient": (_more_than_ideal,),
    "inlet_flow_at_full_lift": (_hard_test, _beyond_the_inlet_bench),
    "exhaust_flow_at_full_lift": (_hard_exhaust_test, _beyond_the_exhaust_bench),
    "inlet_flow_coefficient": (_hard_test, _beyond_the_inlet_bench, _beyond_the_bench),
    "compressor_outlet_temperature": (_hot_compressor,),
    "injector_flow_in_use": (_hard_injector,),
    "injector_duty": (_nearly_always_open,),
}
