"""Compressors against CoolProp and a textbook; knock against its own second form.

Y. A. Cengel and M. A. Boles, Thermodynamics: the compressor of 0.2 kg/s, 58.0 kW (from memory). CoolProp 8.0.0: real
air.
"""

from __future__ import annotations

from math import exp

import pytest
from scipy.integrate import quad
from sources import checks, coolprop

from logbook.specs import boost, knock
from logbook.specs.motion import piston_travel

ATMOSPHERE = 101_325.0


def behind(temperature: float, pressure: float, ratio: float, efficiency: float) -> float:
    """Temperature behind a compressor of real air, K."""
    before = coolprop("H", "T", temperature, "P", pressure, "Air")
    entropy = coolprop("S", "T", temperature, "P", pressure, "Air")
    ideal = coolprop("H", "S", entropy, "P", ratio * pressure, "Air")
    after = before + (ideal - before) / efficiency
    return coolprop("T", "H", after, "P", ratio * pressure, "Air")


@checks("compressor_outlet_temperature", source="CoolProp 8.0.0, equation of dry air", kind="library")
@pytest.mark.parametrize(("ratio", "efficiency"), [(1.4, 0.65), (1.7, 0.70), (2.2, 0.75), (3.0, 0.72)])
def test_temperature_behind_a_compressor_of_real_air(ratio: float, efficiency: float) -> None:
    other = behind(298.15, 100e3, ratio, efficiency)
    found = boost.compressor_outlet_temperature(
        air_temperature=298.15, pressure_ratio=ratio, compressor_efficiency=efficiency
    )
    assert found - 298.15 == pytest.approx(other - 298.15, rel=0.01)


@checks("compressor_outlet_temperature", source="Cengel and Boles, 285 K, 100 to 800 kPa, 80 %", kind="textbook")
def test_the_textbooks_compressor() -> None:
    """569.5 K by the book's table of air; ours has heat capacities that do not change, and is 4.6 K above."""
    found = boost.compressor_outlet_temperature(air_temperature=285, pressure_ratio=8, compressor_efficiency=0.80)
    assert found == pytest.approx(574.08, abs=0.01)
    assert found - 569.5 == pytest.approx(4.6, abs=0.1)


@checks("charge_density_ratio", source="CoolProp 8.0.0, density of dry air", kind="library")
def test_density_won() -> None:
    outlet = boost.compressor_outlet_temperature(air_temperature=298.15, pressure_ratio=1.7, compressor_efficiency=0.7)
    before = coolprop("D", "T", 298.15, "P", 100e3, "Air")
    after = coolprop("D", "T", outlet, "P", 170e3, "Air")
    found = boost.charge_density_ratio(
        boost_pressure=70e3, air_pressure=100e3, air_temperature=298.15, charge_temperature=outlet
    )
    assert found == pytest.approx(after / before, rel=2e-3)


@checks("pressure_ratio", source="0.7 bar of boost at the sea is 1.7", kind="common practice")
def test_boost_on_the_gauge_is_no_ratio() -> None:
    found = boost.pressure_ratio_from_outside(boost_pressure=0.7e5, air_pressure=ATMOSPHERE)
    assert found == pytest.approx(1.69, abs=0.005)
    assert boost.pressure_ratio(boost_pressure=0.7e5, air_pressure=84e3, compressor_inlet_pressure=84e3) > found


@checks("charge_temperature", source="a 70 % intercooler takes 70 % of the rise above the air", kind="common practice")
def test_charge_behind_an_intercooler() -> None:
    found = boost.charge_temperature(
        compressor_outlet_temperature=373.15, intercooler_effectiveness=0.7, air_temperature=293.15
    )
    assert found - 273.15 == pytest.approx(44.0)


# knock


def second_form(pressure: float, temperature: float, octane: float) -> float:
    """The other way in which the correlation is printed: s, kgf/cm2 (from memory)."""
    return 0.01869 * (octane / 100) ** 3.4017 * (pressure / 98_066.5) ** -1.7 * exp(3800 / temperature)


@checks("ignition_delay", source="Douaud and Eyzat 1978, in kgf/cm2 and s (from memory)", kind="from memory")
@pytest.mark.parametrize(("atm", "kelvin", "octane"), [(20, 800, 100), (20, 800, 95), (40, 850, 95), (50, 900, 98)])
def test_both_printed_forms_agree(atm: float, kelvin: float, octane: float) -> None:
    found = knock.ignition_delay(end_gas_pressure=atm * ATMOSPHERE, end_gas_temperature=kelvin, octane_number=octane)
    assert found == pytest.approx(second_form(atm * ATMOSPHERE, kelvin, octane), rel=1e-4)


@checks("knock_integral", source="SciPy quad over the second form", kind="independent computation")
@pytest.mark.parametrize("closes", [0.0, 50.0, 70.0])
def test_the_integral_of_scipy(closes: float) -> None:
    stroke, rod, ratio, exponent, speed = 0.080, 0.140, 11.0, 1.33, 40.0

    def volume(angle: float) -> float:
        return piston_travel(crank_angle=angle, stroke=stroke, rod_length=rod) / stroke + 1 / (ratio - 1)

    def rate(angle: float) -> float:
        pressed = volume(closes - 180) / volume(angle)
        return 1 / second_form(95e3 * pressed**exponent, 340 * pressed ** (exponent - 1), 95) / (360 * speed)

    other, _ = quad(rate, closes - 180, 0)
    found = knock.knock_integral(
        compression_ratio=ratio, stroke=stroke, rod_length=rod, inlet_closes=closes, pressure_at_inlet_closing=95e3,
        charge_temperature=340, compression_exponent=exponent, octane_number=95, engine_speed=speed,
    )  # fmt: skip
    assert found == pytest.approx(other, rel=1e-4)
