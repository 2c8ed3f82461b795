"""Catalogue rows for what a test of condition, of power or of oil tells."""

from logbook.quantity.catalogue import CYLINDER, Quantity


def _share(name: str, uk: str, us: str, low: float, high: float) -> Quantity:
    return Quantity(name, uk, us, "share", "%", low=low, high=high, derived_only=True)


def _correction(name: str, of: str) -> Quantity:
    words = f"correction of power to {of}"
    return Quantity(name, words, words, "ratio", "", low=0.7, high=1.5, derived_only=True)


# fmt: off
CONDITION_ROWS: tuple[Quantity, ...] = (
    # leak-down
    Quantity("leak_down_supply", "leak-down supply pressure, before the orifice",
             "leak-down supply pressure, before the orifice", "pressure_gauge", "bar gauge", low=0.5, high=15,
             spread=0.1, imperial="psi gauge", event=True),
    Quantity("leak_down_held", "pressure that a cylinder holds, behind the orifice",
             "pressure that a cylinder holds, after the orifice", "pressure_gauge", "bar gauge", CYLINDER, low=0,
             high=15, spread=0.1, imperial="psi gauge", event=True),
    Quantity("leak_down_orifice", "orifice of the leak-down tester, diameter",
             "orifice of the leak-down tester, diameter", "length", "mm", low=0.3, high=5, spread=0.02, imperial="in",
             event=True),
    Quantity("leak_area", "area of the leaks of a cylinder", "area of the leaks of a cylinder", "area", "mm2", CYLINDER,
             low=0, high=500, imperial="sq in", derived_only=True),
    _share("leak_down_spread", "leak-down, most less least", "leak-down, most less least", 0, 100),
    # oil
    Quantity("oil_pressure_usual", "oil pressure by the rule of thumb, hot", "oil pressure by the rule of thumb, hot",
             "pressure_gauge", "bar gauge", low=0, high=20, imperial="psi gauge", derived_only=True),
    Quantity("hours_on_oil", "hours on this oil", "hours on this oil", "time", "h", low=0, high=2000, spread=1,
             event=True),
    Quantity("wear_rate", "metal in the oil for each hour on it", "metal in the oil per hour on it", "share_rate",
             "mg/kg/h", low=0, high=100, derived_only=True),
    Quantity("oil_viscosity", "viscosity of the oil at 100 degC", "viscosity of the oil at 100 degC", "viscosity",
             "cSt", low=1, high=60, spread=0.3, event=True),
    Quantity("new_oil_viscosity", "viscosity of the oil when new, at 100 degC",
             "viscosity of the oil when new, at 100 degC", "viscosity", "cSt", low=1, high=60, spread=0.3, event=True),
    _share("oil_viscosity_change", "change of the oil's viscosity", "change of the oil's viscosity", -90, 200),
    # what is used up, by the logs
    Quantity("oil_used", "oil used", "oil used", "volume", "l", low=0, high=1000, derived_only=True),
    Quantity("fuel_used", "fuel used", "fuel used", "volume", "l", low=0, high=100000, derived_only=True),
    Quantity("distance_run", "distance run", "distance run", "distance", "km", low=0, high=1000000, imperial="mi",
             derived_only=True),
    Quantity("hours_run", "hours run", "hours run", "time", "h", low=0, high=100000, derived_only=True),
    Quantity("oil_consumption", "oil consumption over distance", "oil consumption over distance", "consumption",
             "l per 1000 km", low=0, high=10, derived_only=True),
    Quantity("oil_consumption_hourly", "oil consumption over hours", "oil consumption over hours", "volume_flow", "l/h",
             low=0, high=10, derived_only=True),
    Quantity("fuel_consumption", "fuel consumption over distance", "fuel consumption over distance", "consumption",
             "l per 100 km", low=0.5, high=300, derived_only=True),
    Quantity("fuel_consumption_hourly", "fuel consumption over hours", "fuel consumption over hours", "volume_flow",
             "l/h", low=0.1, high=2000, derived_only=True),
    # power
    Quantity("brake_mean_effective_pressure", "brake mean effective pressure", "brake mean effective pressure",
             "pressure_difference", "bar", low=0.3, high=60, imperial="psi", derived_only=True),
    Quantity("specific_output", "specific output", "specific output", "specific_output", "kW/l", low=1, high=500,
             imperial="hp/cu in", derived_only=True),
    Quantity("specific_fuel_consumption", "specific fuel consumption", "brake specific fuel consumption",
             "specific_consumption", "g/kWh", low=100, high=2000, imperial="lb/hp h", derived_only=True),
    Quantity("brake_thermal_efficiency", "brake thermal efficiency", "brake thermal efficiency", "share", "%", low=5,
             high=55, derived_only=True),
    Quantity("dry_air_pressure", "air pressure less that of the water in it",
             "air pressure less that of the water in it",
             "pressure_absolute", "kPa absolute", low=40, high=110, imperial="inHg", derived_only=True),
    Quantity("fuel_delivery", "fuel for each litre of displacement and cycle",
             "fuel per liter of displacement and cycle", "density", "mg/l", low=5, high=300, derived_only=True),
    _correction("correction_iso_1585", "ISO 1585"),
    _correction("correction_iso_1585_compression", "ISO 1585, compression ignition"),
    _correction("correction_sae_j1349", "SAE J1349"),
    _correction("correction_din_70020", "DIN 70020"),
    _correction("correction_sae_j607", "SAE J607, withdrawn"),
)
# fmt: on
