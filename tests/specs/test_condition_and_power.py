"""What must be true of condition and power whatever the figures, and what is refused."""

from __future__ import annotations

from math import inf, nan

import pytest
from formulas import SOUND
from hypothesis import assume, given
from hypothesis import strategies as st

from logbook.specs import condition, correction, correction_bounds, leak_down, power
from logbook.specs.validity import outside_validity

DRY, WARM = SOUND["dry_air_pressure"], st.floats(270.0, 320.0)
BY_DRY_AIR = (correction.correction_iso_1585, correction.correction_sae_j1349, correction.correction_sae_j607)


@pytest.mark.parametrize("factor", BY_DRY_AIR, ids=lambda each: each.__name__)
@given(pressure=DRY, temperature=WARM, more=st.floats(1.001, 1.2))
def test_thin_and_warm_air_is_corrected_upwards(factor, pressure: float, temperature: float, more: float) -> None:  # type: ignore[no-untyped-def]
    plain = factor(dry_air_pressure=pressure, air_temperature=temperature)
    assert factor(dry_air_pressure=pressure / more, air_temperature=temperature) > plain
    assert factor(dry_air_pressure=pressure, air_temperature=temperature * more) > plain


@given(pressure=st.floats(90e3, 105e3), temperature=st.floats(288.0, 308.0), vapour=st.floats(0.0, 5000.0))
def test_the_older_standards_flatter(pressure: float, temperature: float, vapour: float) -> None:
    air = {"dry_air_pressure": pressure, "air_temperature": temperature}
    assert correction.correction_sae_j607(**air) > correction.correction_sae_j1349(**air)
    assert correction.dry_air_pressure(air_pressure=pressure + vapour, vapour_pressure=vapour) == pytest.approx(
        pressure
    )


@given(pressure=DRY, temperature=WARM)
def test_j1349_is_the_general_form_with_an_efficiency_of_0_85_to_its_rounding(
    pressure: float, temperature: float
) -> None:
    air = (99e3 / pressure) * ((temperature - 0.15) / 298) ** 0.5
    general = (air - (1 - 0.85)) / 0.85
    given_by = correction.correction_sae_j1349(dry_air_pressure=pressure, air_temperature=temperature)
    assert given_by == pytest.approx(general, abs=0.004 * abs(air - 1) + 1e-12)


@given(q=st.floats(0.01, 0.1))
def test_compression_ignition_has_no_step(q: float) -> None:
    air = {"dry_air_pressure": 90e3, "air_temperature": 303.15}
    one = correction.correction_iso_1585_compression(**air, fuel_delivery=q)
    assert correction.correction_iso_1585_compression(**air, fuel_delivery=q + 1e-9) == pytest.approx(one, abs=1e-7)


@given(torque=SOUND["torque"], speed=SOUND["engine_speed"])
def test_power_and_torque_undo_each_other(torque: float, speed: float) -> None:
    watts = power.power_of_torque(torque=torque, engine_speed=speed)
    assert power.torque_of_power(power=watts, engine_speed=speed) == pytest.approx(torque)


@given(torque=SOUND["torque"], speed=SOUND["engine_speed"], size=SOUND["displacement"])
def test_bmep_and_specific_output_are_one_and_the_same_by_the_speed(torque: float, speed: float, size: float) -> None:
    bmep = power.brake_mean_effective_pressure(torque=torque, displacement=size)
    watts = power.power_of_torque(torque=torque, engine_speed=speed)
    assert power.specific_output(power=watts, displacement=size) == pytest.approx(bmep * speed / 2)


@given(one=st.floats(0.001, 0.95), other=st.floats(0.001, 0.95))
def test_more_leak_down_is_a_larger_leak(one: float, other: float) -> None:
    assume(abs(one - other) > 1e-6)
    tester = {"leak_down_supply": 6e5, "leak_down_orifice": 1e-3, "air_pressure": 1e5}
    less, more = sorted((one, other))
    assert leak_down.leak_area(leak_down=less, **tester) < leak_down.leak_area(leak_down=more, **tester)


def test_a_leak_has_no_step_where_the_air_reaches_the_speed_of_sound() -> None:
    tester = {"leak_down_supply": 6e5, "leak_down_orifice": 1e-3, "air_pressure": 1e5}
    at = 1 - (1e5 / leak_down._CRITICAL - 1e5) / 6e5
    below, above = (leak_down.leak_area(leak_down=at + step, **tester) for step in (-1e-9, 1e-9))
    assert above == pytest.approx(below, rel=1e-6)


@given(supply=SOUND["leak_down_supply"], share=st.floats(0.0, 1.0))
def test_the_gauges_say_what_leaks(supply: float, share: float) -> None:
    shown = leak_down.leak_down_of_gauges(leak_down_supply=supply, leak_down_held=supply * (1 - share))
    assert shown == pytest.approx(share, abs=1e-9)


@given(speed=st.floats(10.0, 100.0))
def test_twice_the_speed_wants_twice_the_oil_pressure(speed: float) -> None:
    once = condition.oil_pressure_usual(engine_speed=speed)
    assert condition.oil_pressure_usual(engine_speed=2 * speed) == pytest.approx(2 * once)


REFUSED = (
    (leak_down.leak_down_of_gauges, {"leak_down_supply": 5e5, "leak_down_held": 6e5}, "which gauge is which"),
    (leak_down.leak_area, {"leak_down": 1.0, "leak_down_supply": 6e5, "leak_down_orifice": 1e-3, "air_pressure": 1e5},
     "leak_down"),
    (correction.dry_air_pressure, {"air_pressure": 1e5, "vapour_pressure": 2e5}, "air_humidity"),
    (correction.correction_iso_1585, {"dry_air_pressure": 0.0, "air_temperature": 298.0}, "dry_air_pressure"),
    (correction.correction_iso_1585, {"dry_air_pressure": 1e5, "air_temperature": nan}, "air_temperature"),
    (condition.wear_rate, {"metal_in_oil": 1e-6, "hours_on_oil": 0.0}, "hours_on_oil"),
    (condition.wear_rate, {"metal_in_oil": -1e-6, "hours_on_oil": 1.0}, "metal_in_oil"),
    (condition.oil_consumption, {"oil_used": -1.0, "distance_run": 1.0}, "oil_used"),
    (power.brake_mean_effective_pressure, {"torque": 100.0, "displacement": 0.0}, "displacement"),
)  # fmt: skip


@pytest.mark.parametrize(("formula", "given_to_it", "says"), REFUSED)
def test_what_cannot_be_is_refused_with_what_to_check(formula, given_to_it: dict[str, float], says: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=says):
        formula(**given_to_it)


def outside(name: str, **air: float) -> str:
    return correction_bounds.OUTSIDE[name](**air)


def test_each_standard_is_flagged_outside_its_own_bounds() -> None:
    mild, thin = {"air_temperature": 298.15, "dry_air_pressure": 99e3}, {"air_temperature": 298.15}
    assert outside("correction_iso_1585", **mild) == outside("correction_sae_j1349", **mild) == ""
    assert outside("correction_sae_j607", **mild) == ""
    assert outside("correction_sae_j1349", **thin, dry_air_pressure=93.5e3) == ""  # 1.07 at 93.456 kPa
    assert "1.07" in outside("correction_sae_j1349", **thin, dry_air_pressure=93.4e3)
    assert "outside" in outside("correction_iso_1585", **thin, dry_air_pressure=93e3)
    assert "outside" in outside("correction_sae_j607", **thin, dry_air_pressure=92e3)
    assert "outside" in outside("correction_din_70020", air_pressure=92e3, air_temperature=298.15)
    assert "15 to 35" in outside("correction_sae_j1349", dry_air_pressure=96e3, air_temperature=283.15)
    assert outside("correction_iso_1585", dry_air_pressure=96e3, air_temperature=283.15) == ""
    few = {"dry_air_pressure": 85e3, "air_temperature": 303.15, "fuel_delivery": 0.065}
    assert "0.9 to 1.1" in outside("correction_iso_1585_compression", **few)


def test_nothing_infinite_comes_out() -> None:
    with pytest.raises(ValueError, match="nothing"):
        condition.fuel_consumption(fuel_used=nan, distance_run=1.0)
    assert condition.fuel_consumption(fuel_used=1.0, distance_run=1e-300) < inf


@pytest.mark.parametrize("name", sorted(correction_bounds.OUTSIDE))
def test_a_correction_outside_its_standard_is_told_where_validity_is_asked(name: str) -> None:
    air = {"air_pressure": 99e3, "dry_air_pressure": 99e3, "air_temperature": 298.15, "fuel_delivery": 50e-6}
    assert outside_validity(name, air) == ()
    thin = {**air, "air_pressure": 60e3, "dry_air_pressure": 60e3}
    assert "outside" in " ".join(outside_validity(name, thin))
