"""What a flow bench says of a port and its valve.

To another test pressure:  inlet_flow_at_other_pressure, inlet_flow_at_full_lift, exhaust_flow_at_full_lift
Coefficients:              inlet_flow_coefficient_of_tables, inlet_flow_coefficient_of_bench (by valve head area),
                           inlet_discharge_coefficient (by curtain area)

A coefficient says nothing without the area it refers to. Flow in m3/s as the bench shows it, lift and diameters in m,
areas in m2, pressures in Pa.
"""

from collections.abc import Iterator
from math import cos, pi, sqrt

from logbook.quantity.curve import Curve
from logbook.specs.possible import above_zero

USUAL_TEST_PRESSURE = 28 * 249.08891  # Pa: 28 inches of water, the inch of 1000 kg/m3
BENCH_AIR = 1.2041  # kg/m3: dry air of 20 °C and 101.325 kPa, to which benches are set
_USUAL_LOBE = 1.2  # exponent of the cosine: a mean lift of 0.60 of the greatest
_PLACES = tuple((place + 0.5) / 100 for place in range(100))  # of the opening, where a mean is taken


def inlet_flow_at_other_pressure(*, inlet_flow: float, inlet_test_pressure: float, other_test_pressure: float) -> float:
    """Flow of a bench brought to another test pressure.

    Q₂ = Q₁ √(Δp₂ / Δp₁)

    inlet_flow [m3/s]: read on the bench, Q₁.
    inlet_test_pressure [Pa]: below the air outside, at which it was read, Δp₁.
    other_test_pressure [Pa]: the one it is brought to, Δp₂.
    Returns [m3/s].
    Validity: up to a tenth of the air's pressure, 40 inches of water, where 1 to 4 % are lost to expansion; fair as
        long as the port does not separate at one and not at the other. 10 to 28 inches of water: 1.673.
    Source: [1] Bernoulli's equation of a flow of constant density; common practice, no source.

    >>> round(inlet_flow_at_other_pressure(inlet_flow=1, inlet_test_pressure=2490.9, other_test_pressure=6974.5), 4)
    1.6733
    """
    above_zero(inlet_test_pressure=inlet_test_pressure)
    if not other_test_pressure > 0:
        raise ValueError("a flow is brought to a test pressure above zero. Check other_test_pressure")
    return inlet_flow * sqrt(other_test_pressure / inlet_test_pressure)


def inlet_flow_at_full_lift(*, inlet_flow: Curve, inlet_valve_lift: float, inlet_test_pressure: float) -> float:
    """Inlet flow at the greatest lift that the camshaft gives, brought to 28 inches of water.

    Q(L_max) · √(28 inH2O / Δp)

    inlet_flow [m3/s]: over the lift, Q; nothing at lift 0.
    inlet_valve_lift [m]: greatest lift of the valve, L_max.
    inlet_test_pressure [Pa]: of the bench, Δp.
    Returns [m3/s].
    Validity: beyond the greatest lift that was read the flow is taken to stay as it was there. One bench, one
        method: numbers of two benches differ by several per cent.
    Source: [1] Bernoulli's equation of a flow of constant density; common practice, no source.

    >>> read = Curve.through((0, 0.004, 0.008), (0, 0.02, 0.03))
    >>> round(inlet_flow_at_full_lift(inlet_flow=read, inlet_valve_lift=0.008, inlet_test_pressure=14 * 249.08891), 4)
    0.0424
    """
    above_zero(inlet_valve_lift=inlet_valve_lift)
    flow = inlet_flow.value(inlet_valve_lift)
    return inlet_flow_at_other_pressure(
        inlet_flow=flow, inlet_test_pressure=inlet_test_pressure, other_test_pressure=USUAL_TEST_PRESSURE
    )


def exhaust_flow_at_full_lift(*, exhaust_flow: Curve, exhaust_valve_lift: float, exhaust_test_pressure: float) -> float:
    """Exhaust flow at the greatest lift that the camshaft gives, brought to 28 inches of water.

    Q(L_max) · √(28 inH2O / Δp)

    exhaust_flow [m3/s]: over the lift, Q; nothing at lift 0.
    exhaust_valve_lift [m]: greatest lift of the valve, L_max.
    exhaust_test_pressure [Pa]: of the bench, Δp.
    Returns [m3/s].
    Validity: as of inlet_flow_at_full_lift; with or without a stub of pipe is another method.
    Source: [1] Bernoulli's equation of a flow of constant density; common practice, no source.

    >>> read = Curve.through((0, 0.004, 0.008), (0, 0.02, 0.03))
    >>> round(exhaust_flow_at_full_lift(exhaust_flow=read, exhaust_valve_lift=0.012, exhaust_test_pressure=6974.5), 4)
    0.03
    """
    above_zero(exhaust_valve_lift=exhaust_valve_lift)
    flow = exhaust_flow.value(exhaust_valve_lift)
    return inlet_flow_at_other_pressure(
        inlet_flow=flow, inlet_test_pressure=exhaust_test_pressure, other_test_pressure=USUAL_TEST_PRESSURE
    )


def inlet_flow_coefficient_of_tables(
    *,
    inlet_flow: Curve,
    inlet_lift: Curve,
    inlet_valve_diameter: float,
    inlet_valves: float,
    inlet_test_pressure: float,
) -> float:
    """Mean inlet flow coefficient while the valve is open, by the area of the valve heads, from both tables.

    C̄ = mean over the lift table of Q(L) / (n π/4 D² · √(2 Δp / ρ))

    inlet_flow [m3/s]: over the lift, Q; nothing at lift 0.
    inlet_lift [m]: of the valve, over degrees of crank, L, closed to closed.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n; all of them open on the bench.
    inlet_test_pressure [Pa]: of the bench, Δp.
    Returns [bare].
    Validity: a bench set to air of 20 °C and 101.325 kPa, ρ 1.2041 kg/m3: 5 % of that are 2.5 % here. Beyond the
        greatest lift that was read the flow is taken to stay as it was there.
    Source: [1] C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (from memory).

    >>> read = Curve.through((0, 0.002, 0.004, 0.006), (0, 0.01, 0.02, 0.03))
    >>> level = Curve.through((-100, 100), (0.006, 0.006))
    >>> c = inlet_flow_coefficient_of_tables(inlet_flow=read, inlet_lift=level, inlet_valve_diameter=0.038,
    ...     inlet_valves=1, inlet_test_pressure=6974.5)
    >>> round(c, 4)
    0.2458
    """
    opens, closes = inlet_lift.at[0], inlet_lift.at[-1]
    lifts = (inlet_lift.value(opens + place * (closes - opens)) for place in _PLACES)
    return _mean_flow(inlet_flow, lifts) / _ideal_flow(inlet_valve_diameter, inlet_valves, inlet_test_pressure)


def inlet_flow_coefficient_of_bench(
    *,
    inlet_flow: Curve,
    inlet_valve_lift: float,
    inlet_valve_diameter: float,
    inlet_valves: float,
    inlet_test_pressure: float,
) -> float:
    """Mean inlet flow coefficient while the valve is open, by the area of the valve heads, without a lift table.

    C̄ = mean over the opening of Q(L) / (n π/4 D² · √(2 Δp / ρ)), with L = L_max cos(π/2 · x)^1.2 from the lobe's centre
    to the seat, x from 0 to 1

    inlet_flow [m3/s]: over the lift, Q; nothing at lift 0.
    inlet_valve_lift [m]: greatest lift of the valve, L_max.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n; all of them open on the bench.
    inlet_test_pressure [Pa]: of the bench, Δp.
    Returns [bare].
    Validity: as of inlet_flow_coefficient_of_tables. The lift curve is a usual one, empirical, its mean 0.60 of its
        greatest lift; the two lift tables of the example give the same mean within 1 %, others may be 5 % off.
    Source: [1] C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (from
        memory), for the mean; the shape of the lift curve is common practice, no source.

    >>> read = Curve.through((0, 0.002, 0.004, 0.006), (0, 0.01, 0.02, 0.03))
    >>> c = inlet_flow_coefficient_of_bench(inlet_flow=read, inlet_valve_lift=0.006, inlet_valve_diameter=0.038,
    ...     inlet_valves=1, inlet_test_pressure=6974.5)
    >>> round(c, 4)
    0.1476
    """
    above_zero(inlet_valve_lift=inlet_valve_lift)
    lifts = (inlet_valve_lift * cos(pi / 2 * place) ** _USUAL_LOBE for place in _PLACES)
    return _mean_flow(inlet_flow, lifts) / _ideal_flow(inlet_valve_diameter, inlet_valves, inlet_test_pressure)


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


def _mean_flow(flow: Curve, lifts: Iterator[float]) -> float:
    return sum(map(flow.value, lifts)) / len(_PLACES)


def _ideal_flow(diameter: float, valves: float, pressure: float) -> float:
    """What would pass the area of the valve heads at the speed that the test pressure gives."""
    above_zero(inlet_valve_diameter=diameter, inlet_valves=valves, inlet_test_pressure=pressure)
    return valves * pi / 4 * diameter**2 * sqrt(2 * pressure / BENCH_AIR)
