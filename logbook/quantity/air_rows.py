"""Catalogue rows for air, flow, boost, fuel and spark."""

from logbook.quantity.catalogue import BANK, CYLINDER, Quantity

_HEAD = ("cylinder_head",)
_BENCH = ("at_depression",)


def _length(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "length", "mm", low=low, high=high, imperial="in", **more)  # type: ignore[arg-type]


def _area(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "area", "cm2", low=low, high=high, imperial="sq in", **more)  # type: ignore[arg-type]


def _ratio(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "ratio", "", low=low, high=high, **more)  # type: ignore[arg-type]


def _share(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "share", "%", low=low, high=high, **more)  # type: ignore[arg-type]


def _temperature(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "temperature", "degC", low=low, high=high, imperial="degF", **more)  # type: ignore[arg-type]


def _absolute(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "pressure_absolute", "kPa absolute", low=low, high=high, **more)  # type: ignore[arg-type]


def _drop(name: str, uk: str, us: str, unit: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "pressure_difference", unit, low=low, high=high, **more)  # type: ignore[arg-type]


def _mass_flow(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "mass_flow", "kg/h", low=low, high=high, imperial="lb/h", **more)  # type: ignore[arg-type]


def _speed_of_engine(name: str, uk: str, us: str) -> Quantity:
    return Quantity(name, uk, us, "engine_speed", "rpm", CYLINDER, low=100, high=40000, derived_only=True)


# fmt: off
AIR_ROWS: tuple[Quantity, ...] = (
    # the air of the day
    _temperature("air_temperature", "air temperature", "air temperature", -50, 80, spread=2, event=True),
    _temperature("wet_bulb_temperature", "wet bulb temperature", "wet bulb temperature", -20, 60, spread=1,
                 event=True),
    _absolute("air_pressure", "air pressure, by barometer where the engine stands",
              "air pressure, by barometer where the engine stands", 50, 110, spread=1, imperial="inHg", event=True),
    _share("air_humidity", "relative humidity of the air", "relative humidity of the air", 0, 100, spread=10,
           event=True),
    Quantity("altitude", "altitude above the sea", "altitude above sea level", "length", "m", low=0, high=6000,
             spread=100, imperial="ft", event=True),
    _absolute("saturation_pressure", "saturation pressure of water vapour", "saturation pressure of water vapor",
              0.0001, 110, derived_only=True),
    _absolute("vapour_pressure", "pressure of the water vapour in the air", "pressure of the water vapor in the air",
              0, 60, derived_only=True),
    Quantity("air_density", "air density", "air density", "density", "kg/m3", low=0.4, high=2, derived_only=True),
    _absolute("standard_atmosphere", "air pressure of the standard atmosphere",
              "air pressure of the standard atmosphere", 20, 130, derived_only=True),
    _temperature("standard_air_temperature", "air temperature of the standard atmosphere",
                 "air temperature of the standard atmosphere", -60, 60, derived_only=True),
    # the flow bench
    Quantity("inlet_flow", "inlet flow on the bench", "intake flow on the bench", "volume_flow", "cfm", BANK, _HEAD,
             1, 3000, 5, qualifiers=_BENCH),
    Quantity("exhaust_flow", "exhaust flow on the bench", "exhaust flow on the bench", "volume_flow", "cfm", BANK,
             _HEAD, 1, 3000, 5, qualifiers=_BENCH),
    _drop("inlet_test_pressure", "test pressure of the inlet flow", "test pressure of the intake flow", "inH2O", 0.5,
          70, place=BANK, derived_only=True),
    _drop("exhaust_test_pressure", "test pressure of the exhaust flow", "test pressure of the exhaust flow", "inH2O",
          0.5, 70, place=BANK, derived_only=True),
    Quantity("inlet_flow_at_full_lift", "inlet flow at full valve lift, brought to 28 inH2O",
             "intake flow at full valve lift, brought to 28 inH2O", "volume_flow", "cfm", BANK, low=1, high=3000,
             derived_only=True),
    Quantity("exhaust_flow_at_full_lift", "exhaust flow at full valve lift, brought to 28 inH2O",
             "exhaust flow at full valve lift, brought to 28 inH2O", "volume_flow", "cfm", BANK, low=1, high=3000,
             derived_only=True),
    _ratio("inlet_flow_coefficient", "inlet flow coefficient by valve head area, mean while the valve is open",
           "intake flow coefficient by valve head area, mean while the valve is open", 0.1, 0.8, place=CYLINDER,
           owner=("cylinder_head", "camshaft|inlet_camshaft"), spread=0.1, card=True),
    _ratio("inlet_discharge_coefficient", "inlet discharge coefficient by curtain area, at full valve lift",
           "intake discharge coefficient by curtain area, at full valve lift", 0.1, 1, place=CYLINDER,
           derived_only=True),
    # valve and port areas
    Quantity("inlet_valves", "inlet valves of one cylinder", "intake valves per cylinder", "count", "", low=1, high=3),
    _length("inlet_stem_diameter", "inlet valve stem diameter", "intake valve stem diameter", 3, 40, place=CYLINDER,
            owner=_HEAD, spread=0.1),
    _length("inlet_seat_width", "inlet valve seat width", "intake valve seat width", 0.3, 15, place=CYLINDER,
            owner=_HEAD, spread=0.4),
    Quantity("inlet_seat_angle", "inlet valve seat angle, to the plane of the head",
             "intake valve seat angle, to the plane of the head", "angle", "deg", CYLINDER, _HEAD, 10, 70, 1),
    _length("valve_lift", "valve lift", "valve lift", 0, 60, derived_only=True),
    _area("inlet_curtain_area", "inlet curtain area at full lift", "intake curtain area at full lift", 0.5, 5000,
          place=CYLINDER, derived_only=True),
    _area("inlet_throat_area", "inlet throat area, stem taken off", "intake throat area, less the stem", 0.5, 5000,
          place=CYLINDER, derived_only=True),
    _area("inlet_valve_area", "inlet valve's least open area at full lift",
          "intake valve's least open area at full lift", 0.05, 5000, place=CYLINDER, derived_only=True),
    # breathing
    Quantity("inlet_port_velocity", "mean inlet port velocity at the limit", "mean intake port velocity at the limit",
             "speed", "m/s", CYLINDER, low=5, high=300, imperial="ft/s", derived_only=True),
    _ratio("inlet_mach_index", "inlet Mach index at the limit", "intake Mach index at the limit", 0.02, 2,
           place=CYLINDER, derived_only=True),
    _speed_of_engine("filling_falls_from", "engine speed from which filling falls, inlet Mach index 0.5",
                     "engine speed from which filling falls, intake Mach index 0.5"),
    _speed_of_engine("filling_falls_by", "engine speed by which filling falls fast, inlet Mach index 0.6",
                     "engine speed by which filling falls fast, intake Mach index 0.6"),
    _share("volumetric_efficiency", "volumetric efficiency, against the air outside",
           "volumetric efficiency, against the air outside", 20, 300, spread=10),
    Quantity("air_demand", "air demand at the limit", "air demand at the limit", "volume_flow", "m3/h", low=1,
             high=200000, imperial="cfm", derived_only=True),
    _mass_flow("air_flow", "air mass flow", "air mass flow", 1, 100000, event=True),
    Quantity("engine_speed", "engine speed", "engine speed", "engine_speed", "rpm", low=50, high=25000, event=True),
    # boost
    Quantity("boost_pressure", "boost pressure", "boost pressure", "pressure_gauge", "bar gauge", low=0, high=6,
             spread=0.1, imperial="psi gauge"),
    _absolute("compressor_inlet_pressure", "pressure before the compressor", "pressure before the compressor", 30,
              110, spread=2),
    _share("compressor_efficiency", "compressor efficiency, isentropic", "compressor efficiency, isentropic", 20, 90,
           owner=("turbocharger|supercharger",), spread=10),
    _share("intercooler_effectiveness", "intercooler effectiveness", "intercooler effectiveness", 0, 100, spread=15),
    _ratio("pressure_ratio", "pressure ratio of the compressor", "pressure ratio of the compressor", 1, 8,
           derived_only=True),
    _temperature("compressor_outlet_temperature", "temperature behind the compressor",
                 "temperature after the compressor", -40, 400, spread=10),
    _temperature("charge_temperature", "charge temperature, in the inlet manifold",
                 "charge temperature, in the intake manifold", -40, 300, spread=10, wears=True),
    _ratio("charge_density_ratio", "density of the charge to that of the air outside",
           "density of the charge to that of the air outside", 0.3, 8, derived_only=True),
    # fuel
    _ratio("fuel_hydrogen", "hydrogen atoms of the fuel for each of carbon",
           "hydrogen atoms of the fuel for each of carbon", 0, 4, spread=0.05),
    _ratio("fuel_oxygen", "oxygen atoms of the fuel for each of carbon",
           "oxygen atoms of the fuel for each of carbon", 0, 2, spread=0.02),
    _share("ethanol_content", "ethanol in the fuel, by volume", "ethanol in the fuel, by volume", 0, 100, spread=2),
    _share("ethanol_mass_share", "ethanol in the fuel, by mass", "ethanol in the fuel, by mass", 0, 100,
           derived_only=True),
    Quantity("fuel_density", "fuel density", "fuel density", "density", "g/cc", low=0.6, high=1.0, spread=0.02),
    _ratio("stoichiometric_ratio", "stoichiometric air to fuel ratio, by mass",
           "stoichiometric air to fuel ratio, by mass", 4, 40, spread=0.2),
    Quantity("lower_heating_value", "lower heating value of the fuel", "lower heating value of the fuel",
             "specific_energy", "MJ/kg", low=10, high=125, spread=0.6, imperial="Btu/lb"),
    _ratio("air_fuel_ratio", "air to fuel ratio, by mass", "air to fuel ratio, by mass", 3, 60, spread=0.3,
           event=True),
    _ratio("air_ratio", "air ratio (lambda)", "air ratio (lambda)", 0.4, 5, spread=0.02, event=True),
    _mass_flow("fuel_flow", "fuel mass flow", "fuel mass flow", 0.1, 10000, event=True),
    # injectors
    Quantity("injectors_fitted", "injectors of the engine", "injectors of the engine", "count", "", low=1, high=48,
             owner=("injectors",)),
    Quantity("injector_flow", "injector flow, held open at its rated pressure",
             "injector flow, held open at its rated pressure", "volume_flow", "cc/min", owner=("injectors",), low=20,
             high=5000, spread=10),
    _drop("injector_rated_pressure", "pressure at which the injector is rated",
          "pressure at which the injector is rated", "bar", 0.5, 500, spread=0.05, owner=("injectors",),
          imperial="psi"),
    Quantity("fuel_pressure", "fuel rail pressure", "fuel rail pressure", "pressure_gauge", "bar gauge", low=0.1,
             high=400, spread=0.1, imperial="psi gauge"),
    _drop("injector_pressure", "pressure across the injector", "pressure across the injector", "bar", 0.1, 500,
          imperial="psi", derived_only=True),
    Quantity("injector_flow_in_use", "injector flow at the pressure in use",
             "injector flow at the pressure in use", "volume_flow", "cc/min", low=10, high=5000, derived_only=True),
    Quantity("injector_open_time", "injector pulse", "injector pulse width", "time", "ms", low=0.1, high=100,
             spread=0.1, event=True),
    Quantity("injector_dead_time", "injector dead time", "injector dead time", "time", "ms", low=0, high=5,
             spread=0.4, owner=("injectors",)),
    _share("injector_duty", "injector duty", "injector duty cycle", 0, 150, derived_only=True),
    # spark
    _ratio("octane_number", "octane number of the fuel (RON)", "octane number of the fuel (RON)", 60, 130, spread=1),
    Quantity("ignition_advance", "ignition advance, before TDC", "ignition advance, before TDC", "angle", "deg",
             low=0, high=70, spread=2, event=True),
    _ratio("knock_integral", "knock integral, against the same engine only",
           "knock integral, against the same engine only", 0, 10, derived_only=True),
)
# fmt: on
