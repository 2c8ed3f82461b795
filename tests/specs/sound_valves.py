"""Inputs for the formulas of valve timing, lift, springs and compression in use, of an engine that can be built."""

from __future__ import annotations

from hypothesis import strategies as st

from logbook.quantity.curve import Curve


def _between(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_subnormal=False)


@st.composite
def lifts(draw: st.DrawFn) -> Curve:
    """A lobe from closed to closed, its flanks not alike, as it would be read every ten degrees or so."""
    top, opening, closing = draw(_between(0.008, 0.013)), draw(st.integers(11, 15)), draw(st.integers(11, 15))
    rises = [top * (1 - (step / opening) ** 2) ** 2 for step in range(-opening, 1)]
    falls = [top * (1 - (step / closing) ** 2) ** 2 for step in range(1, closing + 1)]
    return Curve.through(tuple(10.0 * step for step in range(-opening, closing + 1)), (*rises, *falls))


LIFTS = {"inlet_lift": lifts(), "exhaust_lift": lifts()}

VALVE_SOUND: dict[str, st.SearchStrategy[float]] = {
    "inlet_duration": _between(200.0, 320.0),
    "exhaust_duration": _between(200.0, 320.0),
    "card_inlet_duration": _between(200.0, 320.0),
    "card_exhaust_duration": _between(200.0, 320.0),
    "card_inlet_lobe_centre": _between(95.0, 120.0),
    "card_exhaust_lobe_centre": _between(95.0, 120.0),
    "inlet_peak_centre": _between(95.0, 120.0),
    "exhaust_peak_centre": _between(95.0, 120.0),
    "checking_lift": _between(0.0002, 0.004),
    "inlet_lobe_lift": _between(0.005, 0.010),
    "exhaust_lobe_lift": _between(0.005, 0.010),
    "rocker_ratio": _between(1.0, 1.8),
    "valve_lash_inlet": _between(0.0, 0.0005),
    "valve_lash_exhaust": _between(0.0, 0.0005),
    "inlet_valve_lift": _between(0.007, 0.013),
    "exhaust_valve_lift": _between(0.007, 0.013),
    "spring_rate": _between(10e3, 80e3),
    "spring_seat_load": _between(200.0, 900.0),
    "spring_free_height": _between(0.046, 0.060),
    "spring_installed_height": _between(0.038, 0.045),
    "spring_coil_bind": _between(0.020, 0.030),
    "valve_room_inlet": _between(0.002, 0.012),
    "valve_room_exhaust": _between(0.002, 0.012),
    "inlet_valve_tilt": _between(0.0, 40.0),
    "exhaust_valve_tilt": _between(0.0, 40.0),
    "air_pressure": _between(80e3, 105e3),
    "boost_pressure": _between(0.0, 1.5e5),
    "effective_compression_ratio": _between(5.0, 12.0),
    "mean_compression_ratio": _between(6.0, 14.0),
    "cranking_exponent": _between(1.1, 1.35),
    "compression_exponent": _between(1.15, 1.4),
    "pressure_at_inlet_closing": _between(50e3, 250e3),
    "temperature_at_inlet_closing": _between(280.0, 400.0),
}
