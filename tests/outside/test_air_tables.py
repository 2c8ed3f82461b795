"""Air against tables and libraries.

Standard: ASHRAE Handbook of Fundamentals 2017, chapter 1, tables 1 and 3, as psychrolib 2.5.0 holds them in its tests;
US Standard Atmosphere 1976 (from memory). Libraries: psychrolib, CoolProp (IAPWS-95 and the multiparameter equation of
dry air), ambiance.
"""

from __future__ import annotations

import psychrolib
import pytest
from ambiance import Atmosphere
from hypothesis import given
from hypothesis import strategies as st
from sources import checks, coolprop

from logbook.specs import atmosphere

ZERO = 273.15

ASHRAE = {-20: 103.24, -5: 401.74, 5: 872.6, 25: 3169.7, 50: 12351.3, 100: 101418.0}  # degC: Pa


@checks("saturation_pressure", source="ASHRAE Fundamentals 2017, chapter 1, table 3", kind="standard")
@pytest.mark.parametrize("celsius", ASHRAE)
def test_saturation_pressure_of_ashrae(celsius: float) -> None:
    found = atmosphere.saturation_pressure(air_temperature=celsius + ZERO)
    assert found == pytest.approx(ASHRAE[celsius], rel=3e-4)


@checks("saturation_pressure", source="psychrolib 2.5.0, GetSatVapPres", kind="library")
@given(celsius=st.floats(-60, 80))
def test_saturation_pressure_of_psychrolib(celsius: float) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    found = atmosphere.saturation_pressure(air_temperature=celsius + ZERO)
    assert found == pytest.approx(psychrolib.GetSatVapPres(celsius), rel=1e-9)


@checks("saturation_pressure", source="CoolProp 8.0.0, IAPWS-95", kind="library")
@pytest.mark.parametrize("celsius", [1, 15, 25, 40, 60])
def test_saturation_pressure_of_coolprop(celsius: float) -> None:
    other = coolprop("P", "T", celsius + ZERO, "Q", 0, "Water")
    assert atmosphere.saturation_pressure(air_temperature=celsius + ZERO) == pytest.approx(other, rel=5e-4)


@checks("vapour_pressure", source="psychrolib 2.5.0, GetVapPresFromRelHum", kind="library")
@given(celsius=st.floats(-30, 60), humidity=st.floats(0, 1))
def test_vapour_pressure_of_psychrolib(celsius: float, humidity: float) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    most = atmosphere.saturation_pressure(air_temperature=celsius + ZERO)
    found = atmosphere.vapour_pressure(air_humidity=humidity, saturation_pressure=most)
    assert found == pytest.approx(psychrolib.GetVapPresFromRelHum(celsius, humidity), rel=1e-9, abs=1e-9)


@checks("vapour_pressure", source="ASHRAE Fundamentals 2017, chapter 1, example 1", kind="worked example")
def test_vapour_pressure_of_the_handbooks_example() -> None:
    """40 degC, 20 degC wet bulb, 101.325 kPa: humidity ratio 0.0065, relative humidity 14 %."""
    most = atmosphere.saturation_pressure(air_temperature=40 + ZERO)
    vapour = atmosphere.vapour_pressure(air_humidity=0.14, saturation_pressure=most)
    assert 0.62198 * vapour / (101325 - vapour) == pytest.approx(0.0065, abs=1e-4)


@checks("vapour_pressure", source="psychrolib 2.5.0, GetHumRatioFromTWetBulb", kind="library")
@given(dry=st.floats(1, 45), down=st.floats(0, 1), kilopascals=st.floats(80, 105))
def test_vapour_pressure_of_a_wet_bulb(dry: float, down: float, kilopascals: float) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    wet = max(0.1, dry - 0.3 * down * dry)
    water = psychrolib.GetHumRatioFromTWetBulb(dry, wet, 1e3 * kilopascals)
    found = atmosphere.vapour_pressure_of_wet_bulb(
        air_temperature=dry + ZERO, wet_bulb_temperature=wet + ZERO, air_pressure=1e3 * kilopascals
    )
    assert found == pytest.approx(psychrolib.GetVapPresFromHumRatio(water, 1e3 * kilopascals), rel=1e-3)


@checks("vapour_pressure", source="ASHRAE Fundamentals 2017 as psychrolib tests it", kind="standard")
def test_wet_bulbs_of_the_handbook() -> None:
    """30 degC dry, 25 degC wet, 95 461 Pa: 0.0192281 kg of water for each of air; 40 and 20 degC at the sea: 0.0065."""
    for dry, wet, pressure, water, within in ((30, 25, 95461, 0.0192281, 6e-6), (40, 20, 101325, 0.0065, 1e-4)):
        vapour = atmosphere.vapour_pressure_of_wet_bulb(
            air_temperature=dry + ZERO, wet_bulb_temperature=wet + ZERO, air_pressure=pressure
        )
        assert 0.62198 * vapour / (pressure - vapour) == pytest.approx(water, abs=within)


@checks("air_density", source="psychrolib 2.5.0, GetMoistAirDensity", kind="library")
@given(celsius=st.floats(-20, 50), kilopascals=st.floats(70, 105), humidity=st.floats(0.01, 1))
def test_density_of_moist_air(celsius: float, kilopascals: float, humidity: float) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    vapour = psychrolib.GetVapPresFromRelHum(celsius, humidity)
    of_water = psychrolib.GetHumRatioFromVapPres(vapour, 1e3 * kilopascals)
    other = psychrolib.GetMoistAirDensity(celsius, of_water, 1e3 * kilopascals)
    found = atmosphere.air_density(
        air_pressure=1e3 * kilopascals, air_temperature=celsius + ZERO, vapour_pressure=vapour
    )
    assert found == pytest.approx(other, rel=2e-4)


@checks("air_density", source="CoolProp 8.0.0, equation of dry air", kind="library")
@pytest.mark.parametrize(("celsius", "kilopascals"), [(20, 101.325), (0, 100), (35, 95), (60, 250)])
def test_density_of_dry_air(celsius: float, kilopascals: float) -> None:
    other = coolprop("D", "T", celsius + ZERO, "P", 1e3 * kilopascals, "Air")
    found = atmosphere.air_density_dry(air_pressure=1e3 * kilopascals, air_temperature=celsius + ZERO)
    assert found == pytest.approx(other, rel=1e-3)


@checks("standard_atmosphere", source="ASHRAE Fundamentals 2017, chapter 1, table 1", kind="standard")
@pytest.mark.parametrize(("metres", "pascals"), [(500, 95461), (1000, 89875), (4000, 61640)])
def test_pressure_of_the_standard_atmosphere(metres: float, pascals: float) -> None:
    assert atmosphere.standard_atmosphere(altitude=metres) == pytest.approx(pascals, abs=1)


@checks("standard_atmosphere", "standard_air_temperature", source="ambiance 1.3.1", kind="library")
@pytest.mark.parametrize("geometric", [0.0, 1000.0, 2000.0, 3000.0])
def test_standard_atmosphere_of_ambiance(geometric: float) -> None:
    """ambiance takes the surveyor's height; ours the geopotential one, 0.16 m less at 1000 m."""
    there = Atmosphere(geometric)
    height = float(there.H[0])
    assert atmosphere.standard_atmosphere(altitude=height) == pytest.approx(float(there.pressure[0]), rel=2e-6)
    assert atmosphere.standard_air_temperature(altitude=height) == pytest.approx(float(there.temperature[0]), rel=1e-9)


@checks(
    "standard_atmosphere", "standard_air_temperature", "air_density",
    source="US Standard Atmosphere 1976, geometric 1000 and 2000 m", kind="from memory",
)  # fmt: skip
@pytest.mark.parametrize(
    ("geopotential", "kelvin", "pascals", "density"),
    [(999.84, 281.651, 8.9876e4, 1.1117), (1999.37, 275.154, 7.9501e4, 1.0066)],
)
def test_tables_of_1976(geopotential: float, kelvin: float, pascals: float, density: float) -> None:
    pressure = atmosphere.standard_atmosphere(altitude=geopotential)
    temperature = atmosphere.standard_air_temperature(altitude=geopotential)
    assert temperature == pytest.approx(kelvin, abs=2e-3)
    assert pressure == pytest.approx(pascals, abs=1)
    found = atmosphere.air_density_dry(air_pressure=pressure, air_temperature=temperature)
    assert found == pytest.approx(density, abs=1e-4)
