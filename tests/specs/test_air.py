"""What must be true of air, flow, boost, fuel and knock whatever the figures, and what is refused."""

from __future__ import annotations

from collections.abc import Callable
from math import nan, pi, radians, sin, tan

import pytest
from formulas import SOUND
from hypothesis import assume, given
from hypothesis import strategies as st
from lives import Life

from logbook.quantity.curve import Curve
from logbook.specs import atmosphere, boost, breathing, flow, fuel, knock, openings

MM = 1e-3
ZERO = 273.15
WATER = 249.08891
VALVE = {
    "inlet_valve_diameter": 40 * MM, "inlet_seat_width": 1.5 * MM, "inlet_seat_angle": 45.0,
    "inlet_port_diameter": 35 * MM, "inlet_stem_diameter": 7 * MM, "inlet_valves": 1.0,
}  # fmt: skip
FILLING = {
    "bore": 86 * MM, "stroke": 86 * MM, "inlet_valve_diameter": 40 * MM, "inlet_valves": 1.0,
    "inlet_flow_coefficient": 0.35,
}  # fmt: skip
KNOCK = {
    "compression_ratio": 10.0, "stroke": 80 * MM, "rod_length": 140 * MM, "inlet_closes": 50.0,
    "pressure_at_inlet_closing": 1e5, "charge_temperature": 330.0, "compression_exponent": 1.35,
    "octane_number": 95.0, "engine_speed": 40.0,
}  # fmt: skip
READ = Curve.through(tuple(each * MM for each in (0, 2, 4, 6, 8, 10)), (0.0, 0.018, 0.034, 0.045, 0.051, 0.053))


# the air of the day


@given(one=st.floats(-60, 100), other=st.floats(-60, 100))
def test_warmer_air_holds_more_water(one: float, other: float) -> None:
    assume(abs(one - other) > 1e-3)
    cold, warm = sorted((one, other))
    less = atmosphere.saturation_pressure(air_temperature=cold + ZERO)
    assert less < atmosphere.saturation_pressure(air_temperature=warm + ZERO)


def test_a_dry_sleeve_is_air_full_of_water() -> None:
    most = atmosphere.saturation_pressure(air_temperature=293.15)
    air = {"air_temperature": 293.15, "air_pressure": 1e5}
    assert atmosphere.vapour_pressure_of_wet_bulb(**air, wet_bulb_temperature=293.15) == pytest.approx(most)
    assert atmosphere.vapour_pressure_of_wet_bulb(**air, wet_bulb_temperature=288.15) < most


def test_ice_and_water_meet() -> None:
    below = atmosphere.saturation_pressure(air_temperature=273.16)
    assert atmosphere.saturation_pressure(air_temperature=273.16 + 1e-9) == pytest.approx(below, rel=1e-4)
    assert below == pytest.approx(611.657, rel=1e-4)


@given(humidity=SOUND["air_humidity"], pressure=SOUND["air_pressure"], temperature=SOUND["air_temperature"])
def test_moist_air_is_lighter_than_dry_air(humidity: float, pressure: float, temperature: float) -> None:
    most = atmosphere.saturation_pressure(air_temperature=temperature)
    vapour = atmosphere.vapour_pressure(air_humidity=humidity, saturation_pressure=most)
    air = {"air_pressure": pressure, "air_temperature": temperature}
    moist = atmosphere.air_density(**air, vapour_pressure=vapour)
    assert moist <= atmosphere.air_density_dry(**air)
    assert atmosphere.air_density_dry(**air) < 1.12 * moist


@given(low=st.floats(-1000, 10000), more=st.floats(1, 1000))
def test_higher_up_the_air_is_thinner_and_colder(low: float, more: float) -> None:
    there = atmosphere.standard_atmosphere(altitude=low + more)
    assert there < atmosphere.standard_atmosphere(altitude=low)
    colder = atmosphere.standard_air_temperature(altitude=low) - atmosphere.standard_air_temperature(
        altitude=low + more
    )
    assert colder == pytest.approx(0.0065 * more, rel=1e-6)


# flow and openings


@given(flow_read=SOUND["inlet_flow"], one=SOUND["inlet_test_pressure"], other=SOUND["inlet_test_pressure"])
def test_to_another_test_pressure_and_back(flow_read: float, one: float, other: float) -> None:
    there = flow.inlet_flow_at_other_pressure(inlet_flow=flow_read, inlet_test_pressure=one, other_test_pressure=other)
    back = flow.inlet_flow_at_other_pressure(inlet_flow=there, inlet_test_pressure=other, other_test_pressure=one)
    assert back == pytest.approx(flow_read)
    assert (there > flow_read) is (other > one) or other == pytest.approx(one)


def coefficient(**changed: object) -> float:
    given = {"inlet_flow": READ, "inlet_valve_lift": 9 * MM, "inlet_valve_diameter": 40 * MM, "inlet_valves": 1.0,
             "inlet_test_pressure": 28 * WATER}  # fmt: skip
    return flow.inlet_flow_coefficient_of_bench(**{**given, **changed})  # type: ignore[arg-type]


@given(inches=st.floats(3, 40))
def test_the_test_pressure_does_not_change_the_coefficient(inches: float) -> None:
    brought = READ.scaled((inches / 28) ** 0.5)
    assert coefficient(inlet_flow=brought, inlet_test_pressure=inches * WATER) == pytest.approx(coefficient())


@given(one=st.floats(2 * MM, 15 * MM), other=st.floats(2 * MM, 15 * MM))
def test_more_lift_raises_the_mean_coefficient(one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert coefficient(inlet_valve_lift=less) <= coefficient(inlet_valve_lift=more) * (1 + 1e-12)


def test_a_mean_lies_between_the_least_and_the_greatest() -> None:
    at_full_lift = READ.value(9 * MM) / (pi / 4 * (40 * MM) ** 2 * (2 * 28 * WATER / flow.BENCH_AIR) ** 0.5)
    assert 0.4 * at_full_lift < coefficient() < at_full_lift


def test_a_lift_table_of_the_usual_shape_gives_what_the_usual_shape_does() -> None:
    from math import cos

    angles = tuple(float(each) for each in range(-120, 121, 5))
    lifts = tuple(9 * MM * max(cos(pi / 2 * each / 120), 0.0) ** 1.2 for each in angles)
    given = {"inlet_valve_diameter": 40 * MM, "inlet_valves": 1.0, "inlet_test_pressure": 28 * WATER}
    of_table = flow.inlet_flow_coefficient_of_tables(inlet_flow=READ, inlet_lift=Curve.through(angles, lifts), **given)
    assert of_table == pytest.approx(coefficient(), rel=1e-3)


def opening(lift: float, **changed: float) -> float:
    return openings.inlet_valve_area_at_lift(valve_lift=lift, **{**VALVE, **changed})


@given(angle=st.floats(20, 60), width=st.floats(0.5 * MM, 3 * MM))
def test_no_step_where_the_first_stage_of_a_valve_ends(angle: float, width: float) -> None:
    end = width / (sin(radians(angle)) * sin(radians(90 - angle)))
    seat = {"inlet_seat_angle": angle, "inlet_seat_width": width}
    assert opening(end * (1 - 1e-9), **seat) == pytest.approx(opening(end * (1 + 1e-9), **seat), rel=1e-6)


def test_no_step_where_the_throat_takes_over() -> None:
    throat = openings.inlet_throat_area(inlet_port_diameter=35 * MM, inlet_stem_diameter=7 * MM, inlet_valves=1.0)
    mean, width = 38.5 * MM, 1.5 * MM
    last = ((throat / (pi * mean)) ** 2 - width**2) ** 0.5 + width * tan(radians(45))
    assert last / MM == pytest.approx(8.98759, abs=1e-5)
    assert opening(last * (1 - 1e-9)) == pytest.approx(throat, rel=1e-6)
    assert opening(last * (1 + 1e-6)) == throat


@given(one=st.floats(0, 15 * MM), other=st.floats(0, 15 * MM))
def test_more_lift_never_closes_a_valve(one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert 0 <= opening(less) <= opening(more)


def test_two_valves_are_two_openings() -> None:
    assert opening(5 * MM, inlet_valves=2.0) == pytest.approx(2 * opening(5 * MM))


# breathing


@given(speed=SOUND["engine_speed"], factor=st.floats(0.5, 2))
def test_the_mach_index_goes_with_the_speed(speed: float, factor: float) -> None:
    there = breathing.inlet_mach_index_at_speed(engine_speed=factor * speed, **FILLING)
    assert there == pytest.approx(factor * breathing.inlet_mach_index_at_speed(engine_speed=speed, **FILLING))


@pytest.mark.parametrize(
    ("what", "raises"),
    [("bore", False), ("stroke", False), ("inlet_valve_diameter", True), ("inlet_valves", True),
     ("inlet_flow_coefficient", True)],
)  # fmt: skip
def test_what_moves_the_band_up(what: str, raises: bool) -> None:
    more = {**FILLING, what: FILLING[what] * 1.1}
    assert (breathing.filling_falls_from(**more) > breathing.filling_falls_from(**FILLING)) is raises
    assert breathing.filling_falls_by(**more) > breathing.filling_falls_from(**more)


def test_two_small_valves_of_the_same_area_breathe_alike() -> None:
    pair = {**FILLING, "inlet_valves": 2.0, "inlet_valve_diameter": 40 * MM / 2**0.5}
    assert breathing.filling_falls_from(**pair) == pytest.approx(breathing.filling_falls_from(**FILLING))


@given(share=SOUND["volumetric_efficiency"], speed=SOUND["engine_speed"], density=SOUND["air_density"])
def test_filling_and_air_flow_undo_each_other(share: float, speed: float, density: float) -> None:
    air = {"air_density": density, "displacement": 2e-3, "engine_speed": speed}
    drawn = breathing.air_flow_of_filling(**air, volumetric_efficiency=share)
    assert breathing.volumetric_efficiency(air_flow=drawn, **air) == pytest.approx(share)
    full = breathing.air_demand_at_full_filling(displacement=2e-3, engine_speed_limit=speed)
    assert drawn == pytest.approx(share * full * density)


# boost


@given(ratio=st.floats(1, 5), efficiency=st.floats(0.3, 1))
def test_a_better_compressor_heats_less_and_none_cools(ratio: float, efficiency: float) -> None:
    air = {"air_temperature": 293.15, "pressure_ratio": ratio}
    heated = boost.compressor_outlet_temperature(**air, compressor_efficiency=efficiency)
    assert heated >= boost.compressor_outlet_temperature(**air, compressor_efficiency=1) >= 293.15
    assert (
        boost.compressor_outlet_temperature(air_temperature=293.15, pressure_ratio=1, compressor_efficiency=0.7)
        == 293.15
    )


@given(effectiveness=SOUND["intercooler_effectiveness"])
def test_an_intercooler_comes_between_the_air_and_the_compressor(effectiveness: float) -> None:
    charge = boost.charge_temperature(
        compressor_outlet_temperature=400, intercooler_effectiveness=effectiveness, air_temperature=293
    )
    assert 293 - 1e-9 <= charge <= 400


def test_cooling_wins_density() -> None:
    air = {"boost_pressure": 7e4, "air_pressure": 1e5, "air_temperature": 293.0}
    hot = boost.charge_density_ratio(**air, charge_temperature=370)
    assert hot < boost.charge_density_ratio(**air, charge_temperature=320) < 1.7


@given(share=SOUND["intercooler_effectiveness"])
def test_without_boost_nothing_is_won(share: float) -> None:
    air = {"boost_pressure": 0.0, "air_pressure": 84e3}
    assert boost.pressure_ratio_from_outside(**air) == 1
    assert boost.charge_density_ratio(**air, air_temperature=300, charge_temperature=300) == 1


# fuel


@given(one=st.floats(0, 1), other=st.floats(0, 1))
def test_more_ethanol_wants_less_air(one: float, other: float) -> None:
    assume(abs(one - other) > 1e-6)
    less, more = (fuel.ethanol_mass_share(ethanol_content=each) for each in sorted((one, other)))
    assert less < more
    assert fuel.stoichiometric_ratio_of_ethanol(ethanol_mass_share=less) > fuel.stoichiometric_ratio_of_ethanol(
        ethanol_mass_share=more
    )


def test_petrol_and_ethanol_alone_are_themselves() -> None:
    assert fuel.ethanol_mass_share(ethanol_content=0) == 0
    assert fuel.ethanol_mass_share(ethanol_content=1) == 1
    assert fuel.stoichiometric_ratio_of_ethanol(ethanol_mass_share=0) == fuel.PETROL_RATIO


@given(air_ratio=SOUND["air_ratio"], ratio=SOUND["stoichiometric_ratio"], air=SOUND["air_flow"])
def test_lambda_ratio_and_fuel_undo_each_other(air_ratio: float, ratio: float, air: float) -> None:
    wanted = fuel.fuel_flow(air_flow=air, air_ratio=air_ratio, stoichiometric_ratio=ratio)
    by_mass = fuel.air_fuel_ratio(air_flow=air, fuel_flow=wanted)
    assert by_mass == pytest.approx(fuel.air_fuel_ratio_of_air_ratio(air_ratio=air_ratio, stoichiometric_ratio=ratio))
    assert fuel.air_ratio(air_fuel_ratio=by_mass, stoichiometric_ratio=ratio) == pytest.approx(air_ratio)


@given(rated=SOUND["injector_rated_pressure"], used=SOUND["injector_pressure"], size=SOUND["injector_flow"])
def test_an_injector_back_at_its_rated_pressure(rated: float, used: float, size: float) -> None:
    there = fuel.injector_flow_in_use(injector_flow=size, injector_rated_pressure=rated, injector_pressure=used)
    back = fuel.injector_flow_in_use(injector_flow=there, injector_rated_pressure=used, injector_pressure=rated)
    assert back == pytest.approx(size)


# knock


def index(**changed: float) -> float:
    return knock.knock_integral(**{**KNOCK, **changed})


@given(factor=st.floats(0.5, 4))
def test_twice_the_speed_halves_the_time(factor: float) -> None:
    assert index(engine_speed=40 * factor) == pytest.approx(index() / factor)


@pytest.mark.parametrize(
    ("what", "more", "raises"),
    [("compression_ratio", 1, True), ("charge_temperature", 10, True), ("pressure_at_inlet_closing", 1e4, True),
     ("octane_number", 3, False), ("inlet_closes", 10, False)],
)  # fmt: skip
def test_what_brings_knock_nearer(what: str, more: float, raises: bool) -> None:
    assert (index(**{what: KNOCK[what] + more}) > index()) is raises


def test_hardly_compressed_it_is_time_over_delay() -> None:
    """At a ratio of next to 1 the state stays: the integral is half a turn over the delay."""
    still = index(compression_ratio=1 + 1e-9, inlet_closes=0.0)
    delay = knock.ignition_delay(end_gas_pressure=1e5, end_gas_temperature=330, octane_number=95)
    assert still == pytest.approx(0.5 / 40 / delay, rel=1e-6)


def test_a_motored_stroke_worked_out_once() -> None:
    turned = {"compression_ratio": 12.0, "rod_length": 140 * MM, "inlet_closes": 0.0, "octane_number": 90.0,
              "pressure_at_inlet_closing": 101325.0, "charge_temperature": 350.0}  # fmt: skip
    assert index(**turned, engine_speed=1000 / 60) == pytest.approx(0.644503, abs=5e-6)
    assert index(**turned, engine_speed=3000 / 60) == pytest.approx(0.214834, abs=5e-6)


# what cannot be

REFUSED: list[tuple[Callable[..., float], dict[str, object], str]] = [
    (atmosphere.saturation_pressure, {"air_temperature": 20.0}, "no temperature of the air around an engine"),
    (atmosphere.saturation_pressure, {"air_temperature": nan}, "Check air_temperature"),
    (atmosphere.vapour_pressure, {"air_humidity": 3.0, "saturation_pressure": 3000.0},
     "a relative humidity of 300 % cannot be: air holds 0 to 100 %. Check air_humidity"),
    (atmosphere.vapour_pressure_of_wet_bulb,
     {"air_temperature": 293, "wet_bulb_temperature": 295, "air_pressure": 1e5}, "it shows less"),
    (atmosphere.vapour_pressure_of_wet_bulb,
     {"air_temperature": 320, "wet_bulb_temperature": 274, "air_pressure": 1e5}, "without any water"),
    (atmosphere.air_density, {"air_pressure": 2e3, "air_temperature": 293, "vapour_pressure": 2300},
     "water vapour of 2.3 kPa does not go into air of 2 kPa"),
    (atmosphere.standard_atmosphere, {"altitude": 20000}, "outside the lowest layer"),
    (flow.inlet_flow_at_other_pressure, {"inlet_flow": 1, "inlet_test_pressure": 0, "other_test_pressure": 1},
     "0 inH2O cannot be the test pressure of the inlet flow"),
    (openings.inlet_throat_area, {"inlet_port_diameter": 6 * MM, "inlet_stem_diameter": 7 * MM, "inlet_valves": 1},
     "a valve stem of 7 mm does not leave a port of 6 mm open"),
    (opening, {"lift": 1 * MM, "inlet_seat_angle": 90}, "a seat of 90 deg closes nothing"),
    (opening, {"lift": -1 * MM}, "Check valve_lift"),
    (opening, {"lift": 1 * MM, "inlet_seat_width": 21 * MM}, "wider than the valve"),
    (openings.air_flow_of_opening,
     {"inlet_valve_area": 1, "inlet_discharge_coefficient": 1, "air_pressure": 1e5, "air_temperature": 293,
      "pressure_behind": 2e5}, "from the higher to the lower pressure"),
    (breathing.filling_falls_from, {**FILLING, "inlet_valve_diameter": 90 * MM},
     "an inlet valve of 90 mm does not go into a bore of 86 mm"),
    (breathing.inlet_mach_index, {**FILLING, "engine_speed_limit": 0}, "0 rpm cannot be the engine speed limit"),
    (boost.pressure_ratio_from_outside, {"boost_pressure": -2e4, "air_pressure": 1e5},
     "a pressure ratio of 0.8 compresses nothing"),
    (boost.pressure_ratio, {"boost_pressure": 1e5, "air_pressure": 1e5, "compressor_inlet_pressure": 1.5e5},
     "150 kPa before the compressor is more than the 100 kPa of the air outside"),
    (boost.compressor_outlet_temperature,
     {"air_temperature": 293, "pressure_ratio": 0.7, "compressor_efficiency": 0.7}, "not the boost on the gauge"),
    (boost.compressor_outlet_temperature,
     {"air_temperature": 293, "pressure_ratio": 1.7, "compressor_efficiency": 70}, "a compressor efficiency of 7000 %"),
    (boost.charge_temperature,
     {"compressor_outlet_temperature": 400, "intercooler_effectiveness": 1.2, "air_temperature": 293},
     "an intercooler of 120 % effectiveness"),
    (fuel.stoichiometric_ratio_of_composition, {"fuel_hydrogen": 0, "fuel_oxygen": 3}, "burns nothing"),
    (fuel.stoichiometric_ratio_of_blend, {"stoichiometric_ratio": [9, 14.6], "mass_share": [0.85, 0.85]},
     "make 100 %, not 170 %"),
    (fuel.stoichiometric_ratio_of_blend, {"stoichiometric_ratio": [9], "mass_share": []}, "a share for each"),
    (fuel.ethanol_mass_share, {"ethanol_content": 10}, "1000 % of ethanol cannot be"),
    (fuel.injector_pressure, {"fuel_pressure": 1e5, "boost_pressure": 2e5}, "a rail of 1 bar sprays nothing"),
    (fuel.injector_flow_in_use, {"injector_flow": 1, "injector_rated_pressure": 0, "injector_pressure": 1},
     "cannot be the pressure at which the injector is rated"),
    (knock.ignition_delay, {"end_gas_pressure": 1e5, "end_gas_temperature": 60, "octane_number": 95},
     "no charge is as cold as that"),
    (knock.knock_integral, {**KNOCK, "compression_ratio": 1}, "nothing would be compressed"),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "figures", "words"), REFUSED, ids=lambda each: getattr(each, "__name__", ""))
def test_what_cannot_be_is_refused(formula: Callable[..., float], figures: dict[str, object], words: str) -> None:
    with pytest.raises(ValueError, match="Check ") as refusal:
        formula(**figures)
    assert words in str(refusal.value)


def test_humidity_of_300_percent_is_a_finding_at_its_line() -> None:
    engine = Life()
    engine.measure("2020-01-02", air_humidity="300 %")
    (found,) = [each for each in engine.book.findings if "humidity" in each.says]
    assert (found.file, found.line) == ("measurements/2020-01-02-001.yaml", 2)
    assert "0 to 100 %" in found.says
