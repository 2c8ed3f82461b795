"""Power, its corrections and the condition of an engine against what is printed elsewhere.

Corrections: the standards' own texts were not seen; the figures are of secondary texts, or worked out from them apart
from our code with psychrolib for the water. bmep and consumption: a textbook's examples, from memory. Leak-down: the
circular of the aviation authority that gives the test its orifice.
"""

from __future__ import annotations

import pytest
from sources import checks

from logbook.quantity.units import unit
from logbook.specs import atmosphere, condition, correction, leak_down, power

INCH, PSI = 0.0254, 6894.757293168361


def air(celsius: float, kilopascal: float, humidity: float) -> dict[str, float]:
    """The air of a case as the corrections want it."""
    kelvin = celsius + 273.15
    most = atmosphere.saturation_pressure(air_temperature=kelvin)
    water = atmosphere.vapour_pressure(air_humidity=humidity, saturation_pressure=most)
    dry = correction.dry_air_pressure(air_pressure=kilopascal * 1e3, vapour_pressure=water)
    return {"dry_air_pressure": dry, "air_temperature": kelvin}


#: degC, kPa, humidity; kPa dry; SAE J1349, SAE J607, DIN 70020, ISO 1585. The water by psychrolib 2.5.0.
CASES = (
    (25, 99, 0.0, 99, 1.00000, 1.04005, 1.03193, 1.00000),
    (15.5556, 101.325, 0.0, 101.325, 0.95451, 0.99996, 0.99214, 0.95392),
    (30, 98, 0.5, 95.8770, 1.04862, 1.08289, 1.05116, 1.04964),
    (35, 95, 0.3, 93.3117, 1.09277, 1.12180, 1.09327, 1.09506),
    (20, 100, 0.4, 99.0645, 0.98930, 1.03062, 1.01300, 0.98913),
)


@checks(
    "dry_air_pressure", "correction_sae_j1349", "correction_sae_j607", "correction_din_70020", "correction_iso_1585",
    source="the formulas of secondary texts, worked out apart with psychrolib 2.5.0", kind="independent computation",
)  # fmt: skip
@pytest.mark.parametrize("case", CASES)
def test_five_days_by_four_standards(case: tuple[float, ...]) -> None:
    celsius, kilopascal, humidity, dry, j1349, j607, din, iso = case
    day = air(celsius, kilopascal, humidity)
    assert day["dry_air_pressure"] == pytest.approx(dry * 1e3, abs=1.0)
    assert correction.correction_sae_j1349(**day) == pytest.approx(j1349, abs=2e-5)
    assert correction.correction_sae_j607(**day) == pytest.approx(j607, abs=2e-5)
    assert correction.correction_iso_1585(**day) == pytest.approx(iso, abs=2e-5)
    whole = {"air_pressure": kilopascal * 1e3, "air_temperature": day["air_temperature"]}
    assert correction.correction_din_70020(**whole) == pytest.approx(din, abs=2e-5)


@checks("correction_iso_1585", "correction_sae_j1349",
        source="ISO 1585 and SAE J1349: 25 degC and 99 kPa dry (secondary texts)", kind="standard")  # fmt: skip
def test_nothing_is_corrected_in_the_air_of_the_standard() -> None:
    """A misprint has 505 for 537 under the temperature of J1349, which gives 1.037 here."""
    day = {"dry_air_pressure": 99e3, "air_temperature": 298.15}
    assert correction.correction_iso_1585(**day) == pytest.approx(1, abs=1e-12)
    assert correction.correction_sae_j1349(**day) == pytest.approx(1, abs=1e-12)


@checks("correction_din_70020", source="DIN 70020: reference air of 20 degC and 1013 mbar (secondary texts)",
        kind="standard")  # fmt: skip
def test_nothing_is_corrected_in_the_air_of_the_older_standard() -> None:
    factor = correction.correction_din_70020(air_pressure=101.3e3, air_temperature=293.15)
    assert factor == pytest.approx(1, abs=1e-12)


@checks("correction_sae_j607", source="SAE J607: reference air of 60 degF and 29.92 inHg dry (secondary texts)",
        kind="standard")  # fmt: skip
def test_nothing_is_corrected_at_sixty_degrees_fahrenheit() -> None:
    """Another misprint gives this formula the name of J1349, whose pressure is 29.235 inHg."""
    sixty, inches = unit("degF").to_base(60), unit("inHg").to_base(29.92)
    factor = correction.correction_sae_j607(dry_air_pressure=inches, air_temperature=sixty)
    assert factor == pytest.approx(1, abs=1e-9)
    assert unit("inHg").from_base(99e3) == pytest.approx(29.235, abs=1e-3)


@checks("correction_iso_1585_compression", "fuel_delivery",
        source="ISO 1585: 0.2 at 37.2, 1.2 at 65 mg/l (a maker's manual; from memory)", kind="from memory")  # fmt: skip
@pytest.mark.parametrize(("milligrams", "power_of"), [(37.2, 0.2), (65.0, 1.2), (20.0, 0.2), (80.0, 1.2), (50.0, 0.66)])
def test_compression_ignition_between_its_bounds(milligrams: float, power_of: float) -> None:
    delivered = power.fuel_delivery(fuel_flow=milligrams * 1e-3 * 3e-3 * 50 / 2, engine_speed=50, displacement=3e-3)
    factor = correction.correction_iso_1585_compression(
        dry_air_pressure=90e3, air_temperature=298.15, fuel_delivery=delivered
    )
    assert factor == pytest.approx((99 / 90) ** power_of, abs=1e-4)


@checks("power", source="US Army TM 9-8000, Prony brake: 300 lb at 2 ft, 3000 rpm, 342.55 hp with 6.28 for 2 pi",
        kind="worked example")  # fmt: skip
def test_the_prony_brake() -> None:
    torque, speed = unit("lbf ft").to_base(600), unit("rpm").to_base(3000)
    horses = unit("hp").from_base(power.power_of_torque(torque=torque, engine_speed=speed))
    assert horses == pytest.approx(342.72, abs=0.01)
    assert horses * 6.28 / 6.283185307 == pytest.approx(342.55, abs=0.01)


@checks("power", "torque", "brake_mean_effective_pressure", "specific_output",
        source="W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, example 2-2 (from memory)",
        kind="from memory")  # fmt: skip
def test_an_engine_of_three_litres() -> None:
    watts = power.power_of_torque(torque=205, engine_speed=60)
    assert watts == pytest.approx(77.3e3, rel=1e-3)
    assert power.torque_of_power(power=77.283e3, engine_speed=60) == pytest.approx(205, rel=1e-4)
    assert power.brake_mean_effective_pressure(torque=205, displacement=3e-3) == pytest.approx(859e3, rel=1e-3)
    assert unit("kW/l").from_base(power.specific_output(power=watts, displacement=3e-3)) == pytest.approx(
        25.8, rel=2e-3
    )


@checks("specific_fuel_consumption",
        source="W. W. Pulkrabek, the same, example 2-3 (from memory): 279 g/kWh", kind="from memory")  # fmt: skip
def test_its_fuel() -> None:
    used = power.specific_fuel_consumption(fuel_flow=0.005964, power=77.283e3)
    assert unit("g/kWh").from_base(used) == pytest.approx(279, rel=0.01)


@checks("brake_thermal_efficiency",
        source="W. W. Pulkrabek, the same, example 2-3 (from memory): 30.2 % of 44 MJ/kg, 0.97 of it burnt",
        kind="from memory")  # fmt: skip
def test_its_efficiency() -> None:
    """The book counts the heat that is set free; here the whole of the fuel's counts."""
    used = power.specific_fuel_consumption(fuel_flow=0.005964, power=77.283e3)
    found = power.brake_thermal_efficiency(specific_fuel_consumption=used, lower_heating_value=44e6 * 0.97)
    assert found == pytest.approx(0.302, rel=0.01)


@checks("leak_down", source="FAA AC 43.13-1B, 8-14: 80 psi; 60, 79 and 75 of it", kind="standard")
@pytest.mark.parametrize(("held", "share"), [(60, 0.25), (79, 0.0125), (75, 0.0625), (80, 0.0)])
def test_of_eighty_pounds(held: float, share: float) -> None:
    shown = leak_down.leak_down_of_gauges(leak_down_supply=80 * PSI, leak_down_held=held * PSI)
    assert shown == pytest.approx(share, abs=1e-12)


@checks(
    "leak_area", source="isentropic flow through two equal openings, worked out apart", kind="independent computation"
)
@pytest.mark.parametrize(("held", "area"), [(75, 0.4867), (70, 0.7067), (60, 1.0586), (40, 1.7220)])
def test_a_leak_as_large_as_so_many_orifices(held: float, area: float) -> None:
    orifice = 0.040 * INCH
    found = leak_down.leak_area(
        leak_down=1 - held / 80, leak_down_supply=80 * PSI, leak_down_orifice=orifice, air_pressure=14.696 * PSI
    )
    assert found / (3.141592653589793 / 4 * orifice**2) == pytest.approx(area, abs=1e-4)


@checks("cranking_pressure_least", source="makers' manuals, compression test: 1035 kPa allows 725 kPa at 70 %",
        kind="common practice")  # fmt: skip
def test_seventy_per_cent_of_the_greatest() -> None:
    least = condition.cranking_pressure_least(cranking_pressure=(1035e3, 724.5e3))
    assert least == pytest.approx(0.70, abs=1e-9)


@checks("leak_down_spread", "oil_viscosity_change", "oil_consumption", "oil_consumption_hourly", "fuel_consumption",
        "fuel_consumption_hourly", source="by definition, on paper", kind="independent computation")  # fmt: skip
def test_on_paper() -> None:
    assert leak_down.leak_down_spread(leak_down=(0.06, 0.07, 0.06, 0.24)) == pytest.approx(0.18)
    assert condition.oil_viscosity_change(oil_viscosity=14.1, new_oil_viscosity=15.0) == pytest.approx(-0.06)
    assert condition.oil_consumption(oil_used=1e-3, distance_run=1e6) == pytest.approx(unit("l per 1000 km").to_base(1))
    assert condition.oil_consumption_hourly(oil_used=1e-3, hours_run=36e3) == pytest.approx(unit("l/h").to_base(0.1))
    used = condition.fuel_consumption(fuel_used=unit("US gal").to_base(1), distance_run=unit("mi").to_base(30))
    assert unit("l per 100 km").from_base(used) == pytest.approx(235.215 / 30, rel=1e-5)  # NIST SP 811, B.8
    assert condition.fuel_consumption_hourly(fuel_used=40e-3, hours_run=18e3) == pytest.approx(unit("l/h").to_base(8))


@checks("oil_pressure_usual", source="10 psi for each 1000 rpm", kind="common practice")
def test_ten_pounds_for_a_thousand() -> None:
    rule = condition.oil_pressure_usual(engine_speed=unit("rpm").to_base(3000))
    assert unit("psi gauge").from_base(rule) == pytest.approx(30, rel=0.02)
