"""Where a case of air, flow or fuel lies outside what its formula holds for: the reason, or ''."""

from __future__ import annotations

from collections.abc import Callable, Mapping


def _fast_port(result: float) -> str:
    return "above half the speed of sound the air's density is no longer constant" if result > 171 else ""


def _more_than_full(result: float) -> str:
    return "more than 130 % of the air outside is boost, or a mistake in the air flow" if result > 1.3 else ""


def _more_than_ideal(result: float) -> str:
    return "a discharge coefficient above 1 refers to a wrong area" if result > 1 else ""


def _hard_test(inlet_test_pressure: float) -> str:
    return "above a tenth of the air's pressure the air expands in the port" if inlet_test_pressure > 10_000 else ""


def _nearly_always_open(result: float) -> str:
    return "above 85 to 90 % an injector is no longer governed, by common practice" if result > 0.85 else ""


OUTSIDE: Mapping[str, tuple[Callable[..., str], ...]] = {
    "inlet_port_velocity": (_fast_port,),
    "volumetric_efficiency": (_more_than_full,),
    "inlet_discharge_coefficient": (_more_than_ideal,),
    "inlet_flow_at_full_lift": (_hard_test,),
    "injector_duty": (_nearly_always_open,),
}
