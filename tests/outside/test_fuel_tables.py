"""Fuel against tables and Cantera.

Textbook: J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, appendix D (from memory). Library: Cantera 3.2.0
with its gri30 mechanism. Where the trade alone has a figure it says 'common practice'.
"""

from __future__ import annotations

import cantera
import pytest
from sources import checks

from logbook.specs import fuel

HEYWOOD = [  # name, hydrogen and oxygen for each carbon, ratio as printed
    ("iso-octane", 18 / 8, 0, 15.13),
    ("petrol CH1.87", 1.87, 0, 14.6),
    ("methanol", 4, 1, 6.47),
    ("ethanol", 3, 0.5, 9.00),
    ("methane", 4, 0, 17.23),
    ("propane", 8 / 3, 0, 15.67),
    ("toluene", 8 / 7, 0, 13.50),
]


@checks("stoichiometric_ratio", source="Heywood 1988, appendix D (from memory)", kind="from memory")
@pytest.mark.parametrize(("name", "hydrogen", "oxygen", "printed"), HEYWOOD, ids=[row[0] for row in HEYWOOD])
def test_ratios_of_the_textbook(name: str, hydrogen: float, oxygen: float, printed: float) -> None:
    found = fuel.stoichiometric_ratio_of_composition(fuel_hydrogen=hydrogen, fuel_oxygen=oxygen)
    assert found == pytest.approx(printed, abs=0.012)


@checks("stoichiometric_ratio", source="Cantera 3.2.0, gri30, stoich_air_fuel_ratio", kind="library")
@pytest.mark.parametrize(
    ("species", "hydrogen", "oxygen"), [("CH4", 4, 0), ("C3H8", 8 / 3, 0), ("CH3OH", 4, 1), ("C2H6", 3, 0)]
)
def test_ratios_of_cantera(species: str, hydrogen: float, oxygen: float) -> None:
    air = {"O2": 0.2095, "N2": 0.7808, "AR": 0.0093, "CO2": 0.0004}
    other = cantera.Solution("gri30.yaml").stoich_air_fuel_ratio(species, air)
    found = fuel.stoichiometric_ratio_of_composition(fuel_hydrogen=hydrogen, fuel_oxygen=oxygen)
    assert found == pytest.approx(other, rel=3e-4)


@checks(
    "stoichiometric_ratio", "ethanol_mass_share", source="E10 14.0 and E85 9.8 of the trade", kind="common practice"
)
@pytest.mark.parametrize(("by_volume", "by_mass", "ratio"), [(0.10, 0.10528, 14.01), (0.85, 0.8572, 9.80)])
def test_pump_fuels(by_volume: float, by_mass: float, ratio: float) -> None:
    share = fuel.ethanol_mass_share(ethanol_content=by_volume)
    assert share == pytest.approx(by_mass, abs=5e-5)
    assert fuel.stoichiometric_ratio_of_ethanol(ethanol_mass_share=share) == pytest.approx(ratio, abs=0.006)


@checks("stoichiometric_ratio", source="Cantera 3.2.0, a mixture of two fuels", kind="library")
def test_a_blend_by_mass_as_cantera_mixes_it() -> None:
    """Methanol in propane stands for any two fuels: Cantera wants of the mixture what its parts want together."""
    gas = cantera.Solution("gri30.yaml")
    air = {"O2": 0.2095, "N2": 0.7808, "AR": 0.0093, "CO2": 0.0004}
    moles = {
        name: share / gas.molecular_weights[gas.species_index(name)] for name, share in (("CH3OH", 0.3), ("C3H8", 0.7))
    }
    other = gas.stoich_air_fuel_ratio(moles, air)
    ratios = (gas.stoich_air_fuel_ratio("CH3OH", air), gas.stoich_air_fuel_ratio("C3H8", air))
    found = fuel.stoichiometric_ratio_of_blend(stoichiometric_ratio=ratios, mass_share=(0.3, 0.7))
    assert found == pytest.approx(other, rel=1e-9)


#: Fuel, its atoms of carbon, hydrogen and oxygen, its enthalpy of formation (kJ/mol), and the heating value in MJ/kg.
HEATS = [
    ("iso-octane", (8, 18, 0), -259.16, 44.34),
    ("methanol", (1, 4, 1), -238.40, 19.93),
    ("methane", (1, 4, 0), -74.6, 50.03),
    ("propane", (3, 8, 0), -104.7, 46.35),
    ("hydrogen", (0, 2, 0), 0.0, 119.95),
    ("ethanol", (2, 6, 1), -277.60, 26.80),
]


@checks("lower_heating_value",
        source="Hess's law with the standard enthalpies of formation, CO2 -393.51 and H2O -241.83 kJ/mol",
        kind="independent computation")  # fmt: skip
@pytest.mark.parametrize(("name", "atoms", "formation", "printed"), HEATS, ids=[row[0] for row in HEATS])
def test_the_heats_that_the_page_names(
    name: str, atoms: tuple[int, int, int], formation: float, printed: float
) -> None:
    carbon, hydrogen, oxygen = atoms
    mass = 12.011 * carbon + 1.008 * hydrogen + 15.999 * oxygen
    heat = 393.51 * carbon + 241.83 * hydrogen / 2 + formation
    assert heat / mass == pytest.approx(printed, abs=0.03)
    page = " ".join((fuel.lower_heating_value_of_ethanol.__doc__ or "").split())
    assert (f"w · {printed:.2f}" if name == "ethanol" else f"{name} {printed:.2f}") in page


@checks("lower_heating_value", source="Cantera 3.2.0, gri30, enthalpies of burning at 25 degC", kind="library")
def test_the_heat_of_methane_as_cantera_burns_it() -> None:
    gas = cantera.Solution("gri30.yaml")
    heats = {}
    for name in ("CH4", "O2", "CO2", "H2O"):
        gas.TPX = 298.15, cantera.one_atm, {name: 1}
        heats[name] = gas.enthalpy_mole
    freed = heats["CH4"] + 2 * heats["O2"] - heats["CO2"] - 2 * heats["H2O"]
    each = freed / gas.molecular_weights[gas.species_index("CH4")] / 1e6
    assert each == pytest.approx(50.03, abs=0.01)


@checks(
    "lower_heating_value",
    source="Heywood 1988, appendix D (from memory): petrol 44.0, ethanol 26.9",
    kind="from memory",
)
@pytest.mark.parametrize(("share", "printed"), [(0, 44.0), (1, 26.9)])
def test_the_heat_of_petrol_and_of_ethanol(share: float, printed: float) -> None:
    found = fuel.lower_heating_value_of_ethanol(ethanol_mass_share=share)
    assert found / 1e6 == pytest.approx(printed, rel=4e-3)


@checks("air_ratio", "air_fuel_ratio", source="Cantera 3.2.0, equivalence_ratio", kind="library")
@pytest.mark.parametrize("phi", [0.7, 1.0, 1.25])
def test_lambda_is_one_over_canteras_equivalence_ratio(phi: float) -> None:
    gas = cantera.Solution("gri30.yaml")
    air = {"O2": 0.21, "N2": 0.79}
    gas.set_equivalence_ratio(phi, "CH4", air)
    of_fuel = float(gas["CH4"].Y[0])
    mixture = fuel.air_fuel_ratio(air_flow=1 - of_fuel, fuel_flow=of_fuel)
    stoichiometric = gas.stoich_air_fuel_ratio("CH4", air)
    found = fuel.air_ratio(air_fuel_ratio=mixture, stoichiometric_ratio=stoichiometric)
    assert found == pytest.approx(1 / phi, rel=1e-9)


@checks("fuel_flow", source="1 kg of petrol on 14.6 kg of air", kind="common practice")
def test_fuel_of_an_air_flow() -> None:
    found = fuel.fuel_flow(air_flow=14.6, air_ratio=1, stoichiometric_ratio=14.6)
    assert found == pytest.approx(1)


@checks("injector_flow_in_use", source="3 to 4 bar and 43.5 to 58 psi, a factor of 1.155", kind="common practice")
@pytest.mark.parametrize(("rated", "used"), [(3e5, 4e5), (43.5 * 6894.757, 58 * 6894.757)])
def test_an_injector_at_a_higher_pressure(rated: float, used: float) -> None:
    found = fuel.injector_flow_in_use(injector_flow=1, injector_rated_pressure=rated, injector_pressure=used)
    assert found == pytest.approx(1.1547, abs=5e-5)


@checks("injector_pressure", source="3 bar of rail against 0.7 bar of boost", kind="common practice")
def test_boost_takes_from_the_pressure_across() -> None:
    assert fuel.injector_pressure(fuel_pressure=3e5, boost_pressure=0.7e5) == pytest.approx(2.3e5)


@checks("injector_duty", source="12 ms at 6000 rpm, 60 %", kind="common practice")
def test_duty_of_a_pulse() -> None:
    assert fuel.injector_duty_of_pulse(injector_open_time=12e-3, engine_speed=100) == pytest.approx(0.60)


@checks("injector_duty", source="400 hp, 0.50 lb/hp h, eight injectors at 85 %: 29.4 lb/h each", kind="common practice")
def test_duty_of_a_demand() -> None:
    """The size the trade asks for at 85 % gives 85 % back. 0.745 g/cc."""
    pound, density = 0.45359237, 745.0
    each = 29.4118 * pound / 3600 / density
    whole = 400 * 0.50 * pound / 3600
    found = fuel.injector_duty_of_demand(
        fuel_flow=whole, fuel_density=density, injector_flow_in_use=each, injectors_fitted=8
    )
    assert found == pytest.approx(0.85, abs=1e-5)
