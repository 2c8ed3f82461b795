"""A believable figure of everything that the formulas of air, flow, boost and fuel ask for."""

from __future__ import annotations

from logbook.quantity.curve import Curve

_CFM = 0.3048**3 / 60

#: A head on the bench, 1 to 11 mm of lift.
BENCH = Curve.through(
    tuple(each * 1e-3 for each in range(12)),
    tuple(each * _CFM for each in (0, 20, 40, 59, 75, 88, 98, 105, 110, 113, 115, 116)),
)

#: A lobe, 120 degrees from its peak to either end.
LOBE = Curve.through((-120.0, -60.0, 0.0, 60.0, 120.0), (0.0001, 0.0053, 0.0106, 0.0053, 0.0001))

AIR_CURVES = {"inlet_flow": BENCH, "exhaust_flow": BENCH, "inlet_lift": LOBE}

AIR_FIGURES = {
    "inlet_lift": "10.60 mm", "inlet_valve_lift": "10.6 mm", "exhaust_valve_lift": "10.3 mm",
    "air_pressure": "100 kPa absolute", "boost_pressure": "0.5 bar gauge",
    "inlet_flow": "116 cfm", "exhaust_flow": "116 cfm", "inlet_valves": "1", "inlet_valve_diameter": "38.5 mm",
    "inlet_port_diameter": "33.5 mm", "inlet_stem_diameter": "7.0 mm", "inlet_seat_width": "1.5 mm",
    "inlet_seat_angle": "45 deg", "inlet_flow_coefficient": "0.33", "volumetric_efficiency": "85 %",
    "air_temperature": "20 degC", "compressor_inlet_pressure": "97 kPa absolute", "compressor_efficiency": "70 %",
    "intercooler_effectiveness": "60 %", "compressor_outlet_temperature": "80 degC", "charge_temperature": "45 degC",
    "fuel_hydrogen": "1.87", "fuel_oxygen": "0.02", "ethanol_content": "5 %", "stoichiometric_ratio": "14.5",
    "lower_heating_value": "43.5 MJ/kg",
    "fuel_pressure": "4.0 bar gauge", "injector_flow": "400 cc/min", "injector_rated_pressure": "3.0 bar",
}  # fmt: skip
