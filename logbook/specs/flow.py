"""What a flow bench says of a port and its valve.

To another test pressure:  inlet_flow_at_other_pressure, inlet_flow_at_full_lift, exhaust_flow_at_full_lift
Coefficients:              inlet_flow_coefficient_of_bench (by valve head area), inlet_discharge_coefficient (by
                           curtain area)

A coefficient says nothing without the area it refers to. Flow in m3/s as the bench shows it, lift and diameters in m,
areas in m2, pressures in Pa.
"""

from itertools import pairwise
from math import cos, pi, sqrt

from logbook.specs.every import Every
from logbook.specs.possible import above_zero

USUAL_TEST_PRESSURE = 28 * 249.08891  # Pa: 28 inches of water, the inch of 1000 kg/m3
BENCH_AIR = 1.2041  # kg/m3: dry air of 20 °C and 101.325 kPa, to which benches are set
_PLACES = 60  # of the half opening at which the coefficient is taken


def inlet_flow_at_other_pressure(*, inlet_flow: float, test_pressure: float, other_test_pressure: float) -> float:
    """Flow of a bench brought to another test pressure.

    Q₂ = Q₁ √(Δp₂ / Δp₁)

    inlet_flow [m3/s]: read on the bench, Q₁.
    test_pressure [Pa]: below the air outside, at which it was read, Δp₁.
    other_test_pressure [Pa]: the one it is brought to, Δp₂.
    Returns [m3/s].
    Validity: up to a tenth of the air's pressure, 40 inches of water, where 1 to 4 % are lost to expansion; fair as
        long as the port does not separate at one and not at the other. 10 to 28 inches of water: 1.673.
    Source: [1] Bernoulli's equation of a flow of constant density; common practice, no source.

    >>> round(inlet_flow_at_other_pressure(inlet_flow=1, test_pressure=2490.9, other_test_pressure=6974.5), 4)
    1.6733
    """
    above_zero(test_pressure=test_pressure)
    if not other_test_pressure > 0:
        raise ValueError("a flow is brought to a test pressure above zero. Check other_test_pressure")
    return inlet_flow * sqrt(other_test_pressure / test_pressure)


def inlet_flow_at_full_lift(
    *, inlet_flow: Every, tested_lift: Every, inlet_valve_lift: float, test_pressure: float
) -> float:
    """Inlet flow at the greatest lift that the camshaft gives, brought to 28 inches of water.

    Q(L_max) · √(28 inH2O / Δp), straight between the lifts that were read

    inlet_flow [m3/s]: at every lift that was read, Q.
    tested_lift [m]: these lifts, rising.
    inlet_valve_lift [m]: greatest lift of the valve, L_max.
    test_pressure [Pa]: of the bench, Δp.
    Returns [m3/s].
    Validity: beyond the greatest lift that was read the flow is taken to stay as it was there. One bench, one
        method: numbers of two benches differ by several per cent.
    Source: [1] Bernoulli's equation of a flow of constant density; common practice, no source.

    >>> flow = inlet_flow_at_full_lift(inlet_flow=[0.02, 0.03], tested_lift=[0.005, 0.009], inlet_valve_lift=0.007,
    ...     test_pressure=28 * 249.08891)
    >>> round(flow, 4)
    0.025
    """
    above_zero(inlet_valve_lift=inlet_valve_lift)
    flow = _flow_at(inlet_valve_lift, inlet_flow, tested_lift)
    return inlet_flow_at_other_pressure(
        inlet_flow=flow, test_pressure=test_pressure, other_test_pressure=USUAL_TEST_PRESSURE
    )


def exhaust_flow_at_full_lift(
    *, exhaust_flow: Every, tested_lift: Every, exhaust_valve_lift: float, test_pressure: float
) -> float:
    """Exhaust flow at the greatest lift that the camshaft gives, brought to 28 inches of water.

    Q(L_max) · √(28 inH2O / Δp), straight between the lifts that were read

    exhaust_flow [m3/s]: at every lift that was read, Q.
    tested_lift [m]: these lifts, rising.
    exhaust_valve_lift [m]: greatest lift of the valve, L_max.
    test_pressure [Pa]: of the bench, Δp.
    Returns [m3/s].
    Validity: as of inlet_flow_at_full_lift; with or without a stub of pipe is another method.
    Source: [1] Bernoulli's equation of a flow of constant density; common practice, no source.

    >>> flow = exhaust_flow_at_full_lift(exhaust_flow=[0.02, 0.03], tested_lift=[0.005, 0.009],
    ...     exhaust_valve_lift=0.012, test_pressure=28 * 249.08891)
    >>> round(flow, 4)
    0.03
    """
    above_zero(exhaust_valve_lift=exhaust_valve_lift)
    flow = _flow_at(exhaust_valve_lift, exhaust_flow, tested_lift)
    return inlet_flow_at_other_pressure(
        inlet_flow=flow, test_pressure=test_pressure, other_test_pressure=USUAL_TEST_PRESSURE
    )


def inlet_flow_coefficient_of_bench(
    *,
    inlet_flow: Every,
    tested_lift: Every,
    inlet_valve_lift: float,
    inlet_valve_diameter: float,
    inlet_valves: float,
    test_pressure: float,
) -> float:
    """Mean inlet flow coefficient while the valve is open, by the area of the valve heads.

    C̄ = mean over the opening of Q(L) / (n π/4 D² · √(2 Δp / ρ)), with L = L_max cos(π/2 · angle from the lobe's
    centre / half the duration)

    inlet_flow [m3/s]: at every lift that was read, Q; nothing at lift 0.
    tested_lift [m]: these lifts, rising.
    inlet_valve_lift [m]: greatest lift of the valve, L_max.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n; all of them open on the bench.
    test_pressure [Pa]: of the bench, Δp.
    Returns [bare].
    Validity: a bench set to air of 20 °C and 101.325 kPa, ρ 1.2041 kg/m3: 5 % of that are 2.5 % here. The lift curve
        is a cosine, empirical: of two invented camshafts given degree by degree the mean came within 3 %.
    Source: [1] C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (from
        memory), for the mean; the shape of the lift curve is common practice, no source.

    >>> c = inlet_flow_coefficient_of_bench(inlet_flow=[0.01, 0.02, 0.03], tested_lift=[0.002, 0.004, 0.006],
    ...     inlet_valve_lift=0.006, inlet_valve_diameter=0.038, inlet_valves=1, test_pressure=6974.5)
    >>> round(c, 4)
    0.1565
    """
    above_zero(inlet_valve_lift=inlet_valve_lift, test_pressure=test_pressure)
    ideal = _heads(inlet_valve_diameter, inlet_valves) * sqrt(2 * test_pressure / BENCH_AIR)
    lifts = (inlet_valve_lift * cos(pi / 2 * place / _PLACES) for place in range(_PLACES + 1))
    flows = [_flow_at(lift, inlet_flow, tested_lift) for lift in lifts]
    return sum((one + other) / 2 for one, other in pairwise(flows)) / _PLACES / ideal


def inlet_discharge_coefficient(*, inlet_flow_at_full_lift: float, inlet_curtain_area: float) -> float:
    """Inlet discharge coefficient at full lift, by curtain area.

    C_D = Q / (A_c √(2 Δp / ρ)), at 28 inches of water

    inlet_flow_at_full_lift [m3/s]: brought to 28 inches of water, Q.
    inlet_curtain_area [m2]: at full lift, A_c.
    Returns [bare].
    Validity: a bench set to air of 20 °C and 101.325 kPa. Above 1 the reference area is wrong.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3 (from memory).

    >>> round(inlet_discharge_coefficient(inlet_flow_at_full_lift=0.0425, inlet_curtain_area=9.0e-4), 3)
    0.439
    """
    above_zero(inlet_flow_at_full_lift=inlet_flow_at_full_lift, inlet_curtain_area=inlet_curtain_area)
    return inlet_flow_at_full_lift / (inlet_curtain_area * sqrt(2 * USUAL_TEST_PRESSURE / BENCH_AIR))


def _flow_at(lift: float, flows: Every, lifts: Every) -> float:
    """Straight between what was read, from nothing at lift 0; beyond the last lift as it was there."""
    if not flows or len(flows) != len(lifts):
        raise ValueError(
            "the flow test gives no flow for each of its lifts. Check the columns valve_lift and inlet_flow"
        )
    points = [(0.0, 0.0), *zip(lifts, flows, strict=True)]
    for (low, less), (high, more) in pairwise(points):
        if not high > low:
            raise ValueError("the lifts of the flow test do not rise. Check its column valve_lift")
        if lift <= high:
            return less + (more - less) * (lift - low) / (high - low)
    return points[-1][1]


def _heads(diameter: float, valves: float) -> float:
    above_zero(inlet_valve_diameter=diameter, inlet_valves=valves)
    return valves * pi / 4 * diameter**2
