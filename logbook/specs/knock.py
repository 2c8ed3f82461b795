"""Knock, as an index between builds of ONE engine on ONE fuel, and never as a verdict.

ignition_delay  of an end gas held at one state
knock_integral  over the compression stroke

Pressures in Pa absolute, temperatures in K, times in s, angles in degrees of crank. The integral is of a motored
engine: without a flame that presses the end gas together it is far below 1 where an engine knocks in earnest. What it
is good for is its ratio between two builds (judge/knock.py), in which much of what is wrong with it cancels.
"""

from math import exp

from logbook.specs.motion import piston_travel
from logbook.specs.possible import above_zero

_ATMOSPHERE = 101_325.0  # Pa
_STEPS = 240  # of the compression stroke, an even number for Simpson's rule


def ignition_delay(*, end_gas_pressure: float, end_gas_temperature: float, octane_number: float) -> float:
    """Delay after which an end gas held at one state ignites by itself.

    τ = 17.68 ms · (ON/100)^3.402 · p^−1.7 · exp(3800 / T), p in atm, T in K

    end_gas_pressure [Pa absolute]: of the unburned gas, p.
    end_gas_temperature [K]: of the unburned gas, T; not the mean of the cylinder.
    octane_number [bare]: ON.
    Returns [s].
    Validity: empirical; primary reference fuels, ON 80 to 100, one engine at about 500 to 3000 rpm. In bar the
        constant is 18.08 ms, in kgf/cm2 18.69 ms: mixing them up is 2 to 6 %.
    Source: [1] A. M. Douaud and P. Eyzat, SAE paper 780080, 1978 (from memory).
    Source: [2] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 9.6 (from memory).

    >>> tau = ignition_delay(end_gas_pressure=20 * 101325, end_gas_temperature=800, octane_number=100)
    >>> round(tau * 1e3, 4)
    12.5496
    """
    above_zero(end_gas_pressure=end_gas_pressure, end_gas_temperature=end_gas_temperature, octane_number=octane_number)
    if end_gas_temperature < 150:
        raise ValueError("no charge is as cold as that. Check end_gas_temperature and its unit")
    pressure = end_gas_pressure / _ATMOSPHERE
    fuel, pressed = float((octane_number / 100) ** 3.402), float(pressure**-1.7)
    return 17.68e-3 * fuel * pressed * exp(3800 / end_gas_temperature)


def knock_integral(
    *,
    compression_ratio: float,
    stroke: float,
    rod_length: float,
    inlet_closes: float,
    pressure_at_inlet_closing: float,
    charge_temperature: float,
    compression_exponent: float,
    octane_number: float,
    engine_speed: float,
) -> float:
    """Knock integral of the motored charge, from inlet closing to TDC.

    ∫ dt / τ, along p Vⁿ

    compression_ratio [bare]: static.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    inlet_closes [deg]: plus after BDC, at the seat.
    pressure_at_inlet_closing [Pa absolute]: p there.
    charge_temperature [K]: there.
    compression_exponent [bare]: n, about 1.35 for air and fuel.
    octane_number [bare]: of the fuel.
    engine_speed [1/s]: of the crank.
    Returns [bare]: an index for the ratio of two builds of one engine, never a limit.
    Validity: empirical, as ignition_delay. The end gas is pressed further by the flame, which is left out here.
    Source: [1] J. C. Livengood and P. C. Wu, 5th Symposium (International) on Combustion, 1955 (from memory).
    Source: [2] A. M. Douaud and P. Eyzat, SAE paper 780080, 1978 (from memory).

    >>> index = knock_integral(compression_ratio=12, stroke=0.080, rod_length=0.140, inlet_closes=0,
    ...     pressure_at_inlet_closing=101325, charge_temperature=350, compression_exponent=1.35, octane_number=90,
    ...     engine_speed=1000 / 60)
    >>> round(index, 4)
    0.6445
    """
    above_zero(engine_speed=engine_speed, pressure_at_inlet_closing=pressure_at_inlet_closing)
    above_zero(charge_temperature=charge_temperature)
    if not compression_ratio > 1 or not -180 < inlet_closes < 180:
        raise ValueError("nothing would be compressed. Check compression_ratio and inlet_closes")

    def volume(angle: float) -> float:
        """Of the swept volume."""
        travel = piston_travel(crank_angle=angle, stroke=stroke, rod_length=rod_length)
        return travel / stroke + 1 / (compression_ratio - 1)

    start = inlet_closes - 180
    closed = volume(start)

    def rate(angle: float) -> float:
        """1 / τ."""
        pressed = closed / volume(angle)
        return 1 / ignition_delay(
            end_gas_pressure=pressure_at_inlet_closing * pressed**compression_exponent,
            end_gas_temperature=charge_temperature * pressed ** (compression_exponent - 1),
            octane_number=octane_number,
        )

    width = -start / _STEPS
    weighted = (rate(start + step * width) * _simpson(step) for step in range(_STEPS + 1))
    return sum(weighted) * width / 3 / (360 * engine_speed)


def _simpson(step: int) -> int:
    return 1 if step in (0, _STEPS) else 4 if step % 2 else 2
