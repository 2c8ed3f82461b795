"""Valves, ports and breathing against what is printed of them.

Taylor's band: C. F. Taylor 0.6, J. B. Heywood 0.5 (both from memory), JSME Mechanical Engineering Dictionary 11:1002813
0.5. Libraries: CoolProp 8.0.0 for the speed of sound, SciPy 1.17 for a mean. An invented engine with its lift tables:
an independent computation by trapezoids, degree by degree.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sqrt

import numpy
import pytest
from scipy.integrate import quad
from sources import checks, coolprop

from logbook.quantity.curve import Curve
from logbook.specs import breathing, flow, openings

MM, CFM, WATER = 1e-3, 1 / 2118.88, 249.08891
STREET = {"bore": 86 * MM, "stroke": 86 * MM, "inlet_valve_diameter": 40 * MM, "inlet_valves": 1}
LARGE = {"bore": 101.6 * MM, "stroke": 89 * MM, "inlet_valve_diameter": 49.3 * MM, "inlet_valves": 1}

# inlet Mach index


@checks("inlet_mach_index", source="CoolProp 8.0.0, speed of sound of dry air at 20 degC", kind="library")
def test_the_mach_index_counts_with_the_speed_of_sound_of_real_air() -> None:
    """Written out as Taylor has it, with the library's speed of sound: 343.344 m/s, ours 343.24."""
    sound = coolprop("A", "T", 293.15, "P", 101325, "Air")
    piston_speed = 2 * 0.086 * 60
    other = (86 / 40) ** 2 * piston_speed / (0.35 * sound)
    found = breathing.inlet_mach_index(**STREET, engine_speed_limit=60, inlet_flow_coefficient=0.35)
    assert found == pytest.approx(other, rel=1e-3)
    assert found == pytest.approx(0.3971, abs=5e-4)


@checks("filling_falls_by", source="Taylor 0.6: 5720 rpm of a 101.6 by 89 mm engine (from memory)", kind="from memory")
def test_taylors_six_tenths() -> None:
    found = breathing.filling_falls_by(**LARGE, inlet_flow_coefficient=0.35)
    assert found * 60 == pytest.approx(5720, abs=2)
    speed = {"engine_speed_limit": found, "inlet_flow_coefficient": 0.35}
    assert breathing.inlet_mach_index(**LARGE, **speed) == pytest.approx(0.6)


@checks("filling_falls_from", source="JSME Mechanical Engineering Dictionary 11:1002813, 0.5", kind="textbook")
def test_half_of_the_dictionary() -> None:
    found = breathing.filling_falls_from(**LARGE, inlet_flow_coefficient=0.35)
    speed = {"engine_speed_limit": found, "inlet_flow_coefficient": 0.35}
    assert breathing.inlet_mach_index(**LARGE, **speed) == pytest.approx(0.5)
    assert 5 * breathing.filling_falls_by(**LARGE, inlet_flow_coefficient=0.35) == pytest.approx(6 * found)


@checks(
    "inlet_mach_index", source="lecture ME 417, BUET 2018: the inlet chokes on the mean at Z = 0.58", kind="textbook"
)
def test_the_knee_lies_where_the_mean_flow_chokes() -> None:
    """At Z = (2/2.4)^3 = 0.5787 the mean flow through the valve is that of a choked nozzle: within the band."""
    choked = openings.air_flow_of_opening(
        inlet_valve_area=1, inlet_discharge_coefficient=1, air_pressure=101325, air_temperature=293.15,
        pressure_behind=0,
    )  # fmt: skip
    density = 101325 / (287.057 * 293.15)
    z = choked / (density * breathing.SOUND)
    assert z == pytest.approx(0.578704, abs=1e-5)
    assert breathing.BEGINS < z < breathing.FAST


@checks("inlet_port_velocity", source="a piston pushes its area through the port's", kind="independent computation")
def test_port_velocity() -> None:
    """17.8 m/s of mean piston speed over 101.6 mm into 38 mm."""
    found = breathing.inlet_port_velocity(
        bore=101.6 * MM, stroke=89 * MM, engine_speed_limit=100, inlet_port_diameter=38 * MM
    )
    assert found == pytest.approx(17.8 * (pi * 50.8**2) / (pi * 19**2), rel=1e-9)


# air


@checks(
    "air_demand", source="cubic inches by rpm over 3456, 350 in3 at 6000 and 85 %: 516.5 cfm", kind="common practice"
)
def test_air_demand_of_the_trade() -> None:
    found = breathing.air_demand(displacement=350 * 0.0254**3, engine_speed_limit=100, volumetric_efficiency=0.85)
    assert found / (0.3048**3 / 60) == pytest.approx(516.493, abs=1e-3)


@checks("volumetric_efficiency", source="Pulkrabek 1997, example 2-3: 84.7 % (from memory)", kind="from memory")
def test_the_textbooks_filling() -> None:
    """One cylinder of 500 cc: air of 85 kPa and 60 degC in 558.82 cc; the book rounds the mass up to 0.00050 kg."""
    mass = 85e3 * 558.82e-6 / (287 * 333)
    found = breathing.volumetric_efficiency(air_flow=mass, air_density=1.181, displacement=500e-6, engine_speed=2)
    assert found == pytest.approx(0.8417, abs=1e-4)
    assert found == pytest.approx(0.847, abs=0.006)


@checks("air_flow", source="2.0 l at 6000 rpm, 1.2041 kg/m3: 0.12041 kg/s", kind="independent computation")
def test_air_of_a_two_litre() -> None:
    found = breathing.air_flow_of_filling(
        displacement=2e-3, engine_speed=100, volumetric_efficiency=1, air_density=1.2041
    )
    assert found == pytest.approx(0.12041)


# openings


@checks("inlet_curtain_area", source="a quarter of the diameter opens the head's own area", kind="common practice")
def test_curtain_at_a_quarter() -> None:
    found = openings.inlet_curtain_area(inlet_valve_diameter=40 * MM, inlet_valve_lift=10 * MM, inlet_valves=1)
    assert found == pytest.approx(pi * (20 * MM) ** 2)


VALVE = {
    "inlet_valve_diameter": 40 * MM, "inlet_seat_width": 1.5 * MM, "inlet_seat_angle": 45,
    "inlet_port_diameter": 35 * MM, "inlet_stem_diameter": 7 * MM, "inlet_valves": 1,
}  # fmt: skip


@checks(
    "inlet_valve_area",
    "inlet_throat_area",
    source="Heywood 1988, equations 6.7 to 6.9 (from memory)",
    kind="from memory",
)
@pytest.mark.parametrize(
    ("lift", "printed"), [(1, 83.304), (3, 256.576), (5, 460.569), (8, 806.846), (9, 923.628), (12, 923.628)]
)
def test_the_three_stages(lift: float, printed: float) -> None:
    assert openings.inlet_valve_area(inlet_valve_lift=lift * MM, **VALVE) * 1e6 == pytest.approx(printed, abs=5e-4)


# flow bench

LIFTS = tuple(each * MM for each in range(12))
#: Invented: a head of 37 mm inlet valves and two of 38.5 mm, cfm at 28 inches of water over 1 to 11 mm.
HEADS = {
    "as bought": (37.0, (18, 36, 52, 64, 73, 79, 83, 86, 88, 89, 89)),
    "donor": (38.5, (19, 38, 56, 71, 84, 94, 102, 108, 112, 115, 117)),
    "third": (38.5, (20, 40, 59, 75, 88, 98, 105, 110, 113, 115, 116)),
}
#: Invented: lift in mm every 10 degrees from the lobe's centre; the last at half the duration.
CAMS = {
    "short": (122, (9.20, 9.16, 9.00, 8.67, 8.16, 7.46, 6.57, 5.51, 4.33, 3.08, 1.85, 0.79, 0.14, 0.10)),
    "long": (138, (10.60, 10.57, 10.43, 10.15, 9.70, 9.09, 8.30, 7.34, 6.25, 5.04, 3.76, 2.50, 1.34, 0.44, 0.10)),
}
#: Head, camshaft, bore in mm; mean coefficient and the speeds of both ends, by trapezoids, worked out by hand.
BUILDS = [
    ("as bought", "short", 80.03, 0.269, 3745, 4494),
    ("as bought", "short", 80.27, 0.269, 3722, 4467),
    ("donor", "long", 80.27, 0.320, 4799, 5758),
    ("third", "long", 80.27, 0.326, 4880, 5856),
]


def bench(head: str) -> Curve:
    return Curve.through(LIFTS, (0.0, *(each * CFM for each in HEADS[head][1])))


def lobe(cam: str) -> Curve:
    half, lifts = CAMS[cam]
    angles = [*(10.0 * each for each in range(len(lifts) - 1)), float(half)]
    both = [*((-at, lift * MM) for at, lift in zip(angles, lifts, strict=True)),
            *((at, lift * MM) for at, lift in zip(angles[1:], lifts[1:], strict=True))]  # fmt: skip
    both.sort()
    return Curve.through(*map(tuple, zip(*both, strict=True)))


def by_trapezoids(head: str, cam: str) -> float:
    """Mean coefficient over the opening as NumPy has it, straight between the points of both tables."""
    diameter, flows = HEADS[head]
    half, lifts = CAMS[cam]
    angles = [*(10.0 * each for each in range(len(lifts) - 1)), float(half)]
    through = numpy.interp(lifts, range(12), (0, *flows)) * CFM
    ideal = pi / 4 * (diameter * MM) ** 2 * sqrt(2 * 28 * WATER / 1.204)
    area = sum(
        (one + other) / 2 * (b - a) for (one, other), (a, b) in zip(pairwise(through), pairwise(angles), strict=True)
    )
    return float(area / half / ideal)


@checks("inlet_flow_coefficient", source="NumPy, trapezoids over two invented tables", kind="independent computation")
@pytest.mark.parametrize(("head", "cam", "bore", "mean", "low", "high"), BUILDS)
def test_mean_coefficient_over_the_lobe(head: str, cam: str, bore: float, mean: float, low: int, high: int) -> None:
    assert by_trapezoids(head, cam) == pytest.approx(mean, abs=1e-3)
    given = {"inlet_valve_diameter": HEADS[head][0] * MM, "inlet_valves": 1, "inlet_test_pressure": 28 * WATER}
    found = flow.inlet_flow_coefficient_of_tables(inlet_flow=bench(head), inlet_lift=lobe(cam), **given)
    assert found == pytest.approx(by_trapezoids(head, cam), rel=5e-3)
    usual = flow.inlet_flow_coefficient_of_bench(inlet_flow=bench(head), inlet_valve_lift=CAMS[cam][1][0] * MM, **given)
    assert usual == pytest.approx(found, rel=0.01)


@checks("filling_falls_from", "filling_falls_by", source="the same, by hand", kind="independent computation")
@pytest.mark.parametrize(("head", "cam", "bore", "mean", "low", "high"), BUILDS)
def test_the_band_of_four_builds(head: str, cam: str, bore: float, mean: float, low: int, high: int) -> None:
    size = {"bore": bore * MM, "stroke": 79 * MM, "inlet_valve_diameter": HEADS[head][0] * MM, "inlet_valves": 1}
    coefficient = by_trapezoids(head, cam)
    begins = breathing.filling_falls_from(**size, inlet_flow_coefficient=coefficient)
    fast = breathing.filling_falls_by(**size, inlet_flow_coefficient=coefficient)
    assert (begins * 60, fast * 60) == pytest.approx((low, high), abs=12)


@checks("inlet_flow_at_full_lift", source="10 to 28 inches of water, a factor of 1.673", kind="common practice")
@pytest.mark.parametrize(("inches", "factor"), [(10, 1.67332), (25, 1.05830), (28, 1), (3, 3.05505)])
def test_to_28_inches(inches: float, factor: float) -> None:
    found = flow.inlet_flow_at_full_lift(
        inlet_flow=bench("third"), inlet_valve_lift=11 * MM, inlet_test_pressure=inches * WATER
    )
    assert found / CFM == pytest.approx(116 * factor, rel=1e-5)


@checks("exhaust_flow_at_full_lift", source="28 to 10 inches of water, a factor of 0.598", kind="common practice")
def test_exhaust_to_28_inches() -> None:
    found = flow.exhaust_flow_at_full_lift(
        exhaust_flow=bench("third"), exhaust_valve_lift=11 * MM, exhaust_test_pressure=10 * WATER
    )
    back = flow.inlet_flow_at_other_pressure(
        inlet_flow=found, inlet_test_pressure=28 * WATER, other_test_pressure=10 * WATER
    )
    assert back / CFM == pytest.approx(116)
    assert back / found == pytest.approx(0.59761, abs=5e-6)


@checks("inlet_discharge_coefficient", source="107.6 m/s at 28 inches of water, 1.20 kg/m3", kind="common practice")
def test_a_perfect_opening_has_a_coefficient_of_one() -> None:
    """The trade's 146 cfm a square inch (incompressible, from memory); 147.1 with the inch of water of 4 degC."""
    area = 0.0254**2
    found = flow.inlet_discharge_coefficient(inlet_flow_at_full_lift=146 * CFM, inlet_curtain_area=area)
    assert found == pytest.approx(1, abs=0.01)


@checks(
    "inlet_discharge_coefficient", source="NACA Report 1135, critical ratio 0.52828 (from memory)", kind="from memory"
)
def test_flow_through_an_opening() -> None:
    """Chokes at 0.52828, where the flow function is 0.68473; mass within 4 % of the bench's arithmetic at 28 inches."""
    given = {"inlet_valve_area": 1, "inlet_discharge_coefficient": 1, "air_pressure": 101325, "air_temperature": 293.15}
    choked = openings.air_flow_of_opening(**given, pressure_behind=0.52828 * 101325)
    assert choked == pytest.approx(openings.air_flow_of_opening(**given, pressure_behind=0), rel=1e-6)
    assert choked * sqrt(287.057 * 293.15) / 101325 == pytest.approx(0.68473, abs=1e-5)
    bench_speed = sqrt(2 * 28 * WATER / 1.2041)
    found = openings.air_flow_of_opening(**given, pressure_behind=101325 - 28 * WATER)
    assert found / (1.2041 * bench_speed) == pytest.approx(0.963, abs=5e-3)


@checks("inlet_flow_coefficient", source="SciPy quad over a straight table", kind="independent computation")
def test_mean_of_a_straight_table() -> None:
    straight = Curve.through((0.0, 6 * MM, 12 * MM), (0.0, 0.03, 0.06))
    share, _ = quad(lambda x: cos(pi / 2 * x) ** 1.2, 0, 1)
    found = flow.inlet_flow_coefficient_of_bench(
        inlet_flow=straight, inlet_valve_lift=12 * MM, inlet_valve_diameter=40 * MM, inlet_valves=1,
        inlet_test_pressure=28 * WATER,
    )  # fmt: skip
    assert found == pytest.approx(0.06 * share / (pi / 4 * 0.040**2 * sqrt(2 * 28 * WATER / 1.2041)), rel=1e-4)
