"""Valve timing, lift, springs and compression against sources outside the project, each named beside its figure."""

from __future__ import annotations

from math import cos, radians, sqrt

import cantera
import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq, minimize_scalar
from sources import checks

from logbook.quantity.curve import Curve
from logbook.specs import lift, lift_table, pressures, timing, valve_to_piston, valve_train

# a lobe read every ten degrees, its flanks not alike, mm
_AT = tuple(float(at) for at in range(-140, 161, 10))
_LIFTS = (0.05, 0.40, 1.30, 2.45, 3.70, 5.00, 6.20, 7.30, 8.25, 9.05, 9.70, 10.15, 10.43, 10.57, 10.60, 10.58, 10.46,
          10.22, 9.85, 9.33, 8.66, 7.83, 6.87, 5.80, 4.65, 3.48, 2.36, 1.36, 0.58, 0.15, 0.02)  # fmt: skip
LOBE = Curve.through(_AT, tuple(each * 1e-3 for each in _LIFTS))
SMOOTH = PchipInterpolator(_AT, [each * 1e-3 for each in _LIFTS])
EQUATION = "SciPy on the equation itself, an independent computation"
CRANK = {"stroke": 0.079, "rod_length": 0.134}


def crossings(height: float) -> tuple[float, float]:
    return (
        brentq(lambda at: float(SMOOTH(at)) - height, -140, 0),
        brentq(lambda at: float(SMOOTH(at)) - height, 0, 160),
    )


@checks("inlet_opens", "inlet_closes", "exhaust_opens", "exhaust_closes", "inlet_duration", "exhaust_duration",
        "inlet_lobe_centre", "exhaust_lobe_centre", "inlet_peak_centre", "exhaust_peak_centre",
        source=EQUATION, kind="independent computation")  # fmt: skip
@pytest.mark.parametrize("height", [0.0002, 0.00127, 0.005])
def test_events_of_a_lift_table(height: float) -> None:
    rises, falls = crossings(height)
    inlet = {"inlet_lift": LOBE, "checking_lift": height}
    exhaust = {"exhaust_lift": LOBE, "checking_lift": height}
    found = (
        lift_table.inlet_opens_of_table(**inlet, inlet_peak_centre=106),
        lift_table.inlet_closes_of_table(**inlet, inlet_peak_centre=106),
        lift_table.exhaust_opens_of_table(**exhaust, exhaust_peak_centre=108),
        lift_table.exhaust_closes_of_table(**exhaust, exhaust_peak_centre=108),
        lift_table.inlet_duration_of_table(**inlet),
        lift_table.exhaust_duration_of_table(**exhaust),
        lift_table.inlet_lobe_centre_of_table(**inlet, inlet_peak_centre=106),
        lift_table.exhaust_lobe_centre_of_table(**exhaust, exhaust_peak_centre=108),
    )
    middle = (rises + falls) / 2
    wanted = (-106 - rises, 106 + falls - 180, 108 - rises - 180, falls - 108, falls - rises, falls - rises,
              106 + middle, 108 - middle)  # fmt: skip
    assert found == pytest.approx(wanted, abs=1e-6)
    assert lift_table.inlet_peak_centre(**inlet, inlet_lobe_centre=106 + middle) == pytest.approx(106, abs=1e-6)
    assert lift_table.exhaust_peak_centre(**exhaust, exhaust_lobe_centre=108 - middle) == pytest.approx(108, abs=1e-6)


@checks("inlet_lift", "exhaust_lift", source="SciPy, PchipInterpolator through the same points", kind="library")
@pytest.mark.parametrize("angle", [-200.0, -33.3, 0.0, 17.0, 106.0, 240.0, 400.0])
def test_lift_at_any_angle(angle: float) -> None:
    """Beyond the table the lift of its end is taken."""
    inlet, exhaust = (float(SMOOTH(min(max(at, -140), 160))) for at in (angle - 106, angle + 108))
    found = lift.inlet_lift_at(crank_angle=angle, inlet_lift=LOBE, inlet_peak_centre=106)
    assert found == pytest.approx(inlet, abs=1e-12)
    found = lift.exhaust_lift_at(crank_angle=angle, exhaust_lift=LOBE, exhaust_peak_centre=108)
    assert found == pytest.approx(exhaust, abs=1e-12)


@checks("inlet_lift_area", "exhaust_lift_area", "inlet_lift_at_tdc", "exhaust_lift_at_tdc", "inlet_valve_lift",
        "exhaust_valve_lift", source=EQUATION, kind="independent computation")  # fmt: skip
def test_lift_and_its_area() -> None:
    area = float(SMOOTH.integrate(*crossings(0.001)))
    assert lift.inlet_lift_area(inlet_lift=LOBE, checking_lift=0.001) == pytest.approx(area, rel=1e-7)
    assert lift.exhaust_lift_area(exhaust_lift=LOBE, checking_lift=0.001) == pytest.approx(area, rel=1e-7)
    assert lift.inlet_lift_at_tdc(inlet_lift=LOBE, inlet_peak_centre=106) == pytest.approx(float(SMOOTH(-106)))
    assert lift.exhaust_lift_at_tdc(exhaust_lift=LOBE, exhaust_peak_centre=108) == pytest.approx(float(SMOOTH(108)))
    assert (
        lift.inlet_valve_lift_of_table(inlet_lift=LOBE) == lift.exhaust_valve_lift_of_table(exhaust_lift=LOBE) == 0.0106
    )


@checks("valve_to_piston_inlet", "valve_to_piston_inlet_angle", "valve_to_piston_exhaust",
        "valve_to_piston_exhaust_angle", source=EQUATION, kind="independent computation")  # fmt: skip
@pytest.mark.parametrize("centre", [100.0, 106.0, 112.0])
def test_the_valve_over_the_piston_through_the_cycle(centre: float) -> None:
    def gap(angle: float, way: int) -> float:
        turned, throw = radians(angle), CRANK["stroke"] / 2
        down = throw * (1 - cos(turned)) + 0.134 - sqrt(0.134**2 - throw**2 * (1 - cos(turned) ** 2))
        return 0.0048 + down - float(SMOOTH(min(max(angle - way * centre, -140), 160))) * cos(radians(20))

    inlet = minimize_scalar(gap, bounds=(-60, 60), args=(1,), method="bounded", options={"xatol": 1e-9})
    room = {"valve_room_inlet": 0.0048, "inlet_valve_tilt": 20, "inlet_lift": LOBE, "inlet_peak_centre": centre}
    assert valve_to_piston.valve_to_piston_inlet(**room, **CRANK) == pytest.approx(inlet.fun, abs=1e-9)
    assert valve_to_piston.valve_to_piston_inlet_angle(**room, **CRANK) == pytest.approx(inlet.x, abs=1e-3)
    exhaust = minimize_scalar(gap, bounds=(-60, 60), args=(-1,), method="bounded", options={"xatol": 1e-9})
    room = {"valve_room_exhaust": 0.0048, "exhaust_valve_tilt": 20, "exhaust_lift": LOBE, "exhaust_peak_centre": centre}
    assert valve_to_piston.valve_to_piston_exhaust(**room, **CRANK) == pytest.approx(exhaust.fun, abs=1e-9)
    assert valve_to_piston.valve_to_piston_exhaust_angle(**room, **CRANK) == pytest.approx(-exhaust.x, abs=1e-3)


@checks("inlet_closes", "inlet_opens", "exhaust_opens", "exhaust_closes", "camshaft_advance", "inlet_early",
        "exhaust_early", "lobe_separation", "valve_overlap", source="common practice: the arithmetic of a cam card",
        kind="common practice")  # fmt: skip
def test_a_cam_card() -> None:
    """280/280 on a lobe separation of 110, 4 degrees advanced."""
    assert timing.inlet_opens_of_lobe(inlet_duration=280, inlet_lobe_centre=106) == 34
    assert timing.inlet_closes_of_lobe(inlet_duration=280, inlet_lobe_centre=106) == 66
    assert timing.exhaust_opens_of_lobe(exhaust_duration=280, exhaust_lobe_centre=114) == 74
    assert timing.exhaust_closes_of_lobe(exhaust_duration=280, exhaust_lobe_centre=114) == 26
    assert timing.lobe_separation(inlet_lobe_centre=106, exhaust_lobe_centre=114) == 110
    assert timing.valve_overlap(inlet_opens=34, exhaust_closes=26) == 60
    assert timing.camshaft_advance(inlet_lobe_centre=106, exhaust_lobe_centre=114) == 4
    assert timing.inlet_early(card_inlet_lobe_centre=110, inlet_lobe_centre=106) == 4
    assert timing.exhaust_early(card_exhaust_lobe_centre=110, exhaust_lobe_centre=114) == 4


@checks("spring_seat_load", "spring_open_load_inlet", "spring_open_load_exhaust", "coil_bind_margin_inlet",
        "coil_bind_margin_exhaust", source="Hooke's law by pencil", kind="common practice")  # fmt: skip
def test_a_spring() -> None:
    assert valve_train.spring_seat_load(
        spring_rate=30e3, spring_free_height=0.048, spring_installed_height=0.038
    ) == pytest.approx(300)
    loads = {"spring_seat_load": 290, "spring_rate": 31e3}
    assert valve_train.spring_open_load_inlet(**loads, inlet_valve_lift=0.0106) == pytest.approx(618.6)
    assert valve_train.spring_open_load_exhaust(**loads, exhaust_valve_lift=0.01) == pytest.approx(600)
    heights = {"spring_installed_height": 0.038, "spring_coil_bind": 0.0259}
    assert valve_train.coil_bind_margin_inlet(**heights, inlet_valve_lift=0.0106) == pytest.approx(0.0015)
    assert valve_train.coil_bind_margin_exhaust(**heights, exhaust_valve_lift=0.0103) == pytest.approx(0.0018)


@checks("isentropic_end_temperature", "isentropic_end_pressure",
        source="Cantera, air.yaml: NASA polynomials, where ours are the Shomate equations", kind="library")  # fmt: skip
@pytest.mark.parametrize(("kelvin", "pascal", "ratio"), [(290, 100e3, 8), (300, 101325, 8), (330, 180e3, 10)])
def test_isentropic_compression_of_air(kelvin: float, pascal: float, ratio: float) -> None:
    air = cantera.Solution("air.yaml")
    air.TPX = kelvin, pascal, "N2:0.7809, O2:0.2095, AR:0.0096"
    air.SV = air.entropy_mass, air.volume_mass / ratio
    given = {"temperature_at_inlet_closing": kelvin, "effective_compression_ratio": ratio}
    assert pressures.isentropic_end_temperature(**given) == pytest.approx(air.T, rel=0.002)
    end = pressures.isentropic_end_pressure(**given, pressure_at_inlet_closing=pascal)
    assert end == pytest.approx(air.P, rel=0.002)


@checks("isentropic_end_temperature", "isentropic_end_pressure", source="Y. A. Cengel and M. A. Boles, "
        "Thermodynamics, Otto cycle, 8:1 from 17 degC (answers from memory)", kind="from memory")  # fmt: skip
def test_the_otto_cycle_of_a_textbook() -> None:
    given = {"temperature_at_inlet_closing": 290, "effective_compression_ratio": 8}
    assert pressures.isentropic_end_temperature(**given) == pytest.approx(652.4, rel=0.01)
    assert pressures.isentropic_end_pressure(**given, pressure_at_inlet_closing=100e3) == pytest.approx(
        1799.7e3, rel=0.015
    )


@checks("polytropic_end_pressure", "polytropic_end_temperature", "pressure_at_inlet_closing",
        source="the equation alone, worked out apart from the program", kind="independent computation")  # fmt: skip
def test_polytropic_compression() -> None:
    given = {"effective_compression_ratio": 9.5, "compression_exponent": 1.3}
    end = pressures.polytropic_end_pressure(**given, pressure_at_inlet_closing=100e3)
    assert end == pytest.approx(1866.55e3, rel=1e-5)
    hot = pressures.polytropic_end_temperature(**given, temperature_at_inlet_closing=333)
    assert hot == pytest.approx(654.28, abs=0.005)
    assert pressures.pressure_at_inlet_closing(air_pressure=101325, boost_pressure=50e3) == 151325


@checks("cranking_exponent", source="common practice, no source: 7.0 to 8.5 with exponents of 1.20 to 1.30, by pencil",
        kind="common practice")  # fmt: skip
@pytest.mark.parametrize(("ratio", "exponent", "psi"), [(7, 1.2, 137.1), (8, 1.25, 183.0), (8.5, 1.3, 222.7)])
def test_cranking_pressure(ratio: float, exponent: float, psi: float) -> None:
    at = {"air_pressure": 101325, "effective_compression_ratio": ratio}
    expected = pressures.expected_cranking_pressure(**at, cranking_exponent=[exponent, exponent, 0.9])
    assert expected / 6894.757 == pytest.approx(psi, abs=0.06)
    assert pressures.cranking_exponent(**at, cranking_pressure=psi * 6894.757) == pytest.approx(exponent, abs=3e-4)
