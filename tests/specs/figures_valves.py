"""A believable figure of everything that the formulas of valves and compression ask for."""

from __future__ import annotations

from logbook.quantity.curve import Curve

_FLANK = (10.60, 10.57, 10.43, 10.15, 9.70, 9.09, 8.30, 7.34, 6.25, 5.04, 3.76, 2.50, 1.34, 0.44, 0.10)
_AT = (*range(0, 140, 10), 138)

#: A lobe with like flanks, 138 degrees from its peak to either end.
LOBE = Curve.through(
    (*(-float(at) for at in _AT[:0:-1]), *map(float, _AT)), tuple(lift * 1e-3 for lift in (*_FLANK[:0:-1], *_FLANK))
)

#: Quantities that are stated as a table, with its curve; as a figure it is the greatest value.
VALVE_CURVES = {"inlet_lift": LOBE, "exhaust_lift": LOBE}

VALVE_FIGURES = {
    "inlet_lift": "10.60 mm", "exhaust_lift": "10.60 mm", "checking_lift": "0.10 mm", "inlet_peak_centre": "106 deg",
    "exhaust_peak_centre": "108 deg", "card_inlet_lobe_centre": "106 deg", "card_exhaust_lobe_centre": "108 deg",
    "card_inlet_duration": "276 deg", "card_exhaust_duration": "276 deg", "inlet_lobe_lift": "7.27 mm",
    "exhaust_lobe_lift": "7.10 mm", "rocker_ratio": "1.50", "valve_lash_inlet": "0.30 mm",
    "valve_lash_exhaust": "0.35 mm", "inlet_valve_lift": "10.6 mm", "exhaust_valve_lift": "10.3 mm",
    "spring_rate": "31.0 N/mm", "spring_free_height": "47.4 mm", "spring_installed_height": "38.0 mm",
    "spring_coil_bind": "25.9 mm", "spring_seat_load": "290 N", "valve_room_inlet": "4.5 mm",
    "valve_room_exhaust": "5.0 mm", "inlet_valve_tilt": "20 deg", "exhaust_valve_tilt": "20 deg",
    "inlet_lift_at_tdc": "2.9 mm", "exhaust_lift_at_tdc": "2.7 mm", "spring_open_load_inlet": "619 N",
    "spring_open_load_exhaust": "609 N", "valve_to_piston_inlet": "1.9 mm", "valve_to_piston_exhaust": "2.6 mm",
    "pressure_at_inlet_closing": "100 kPa absolute", "temperature_at_inlet_closing": "60 degC",
    "compression_exponent": "1.30", "air_pressure": "100 kPa absolute", "boost_pressure": "0.5 bar gauge",
}  # fmt: skip
