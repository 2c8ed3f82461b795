"""Leak-down: what a two-gauge tester shows, and how large the leaks are behind its orifice.

leak_down_of_gauges  from the two gauges
leak_down_spread     how unlike the cylinders are
leak_area            the size of a cylinder's leaks, which two testers can be compared by

A percentage alone says how a leak compares with the tester's own orifice: two testers with other orifices, or another
supply, show another percentage of the same cylinder. AC 43.13-1B has 80 psi and an orifice of 0.040 in (1.02 mm) for a
bore under 5.00 in (127 mm), of 0.060 in from there on. The piston stands at TDC of its compression stroke and is held
there: the air turns the engine with the force of its pressure on the piston.
"""

from math import pi, sqrt

from logbook.specs.every import Every
from logbook.specs.possible import above_zero, some_cylinder

_GAMMA = 1.4
_CRITICAL = (2 / (_GAMMA + 1)) ** (_GAMMA / (_GAMMA - 1))  # 0.528: the air goes through at the speed of sound below it


def leak_down_of_gauges(*, leak_down_supply: float, leak_down_held: float) -> float:
    """Leak-down of a cylinder, from the two gauges of the tester.

    (p_supply − p_held) / p_supply

    leak_down_supply [Pa gauge]: before the orifice, p_supply, while the air flows.
    leak_down_held [Pa gauge]: behind it, in the cylinder, p_held.
    Returns [share]: 0 where nothing leaks.
    Validity: of one orifice at one supply pressure; the same leak shows another share with other ones. Not a measure
        of the area of the leak: 60 of 80 psi is 25 %, from a leak as large as the orifice itself.
    Source: [1] FAA AC 43.13-1B, chapter 8, 8-14, the differential compression test, as quoted by FAASTeam, 2011.

    >>> round(leak_down_of_gauges(leak_down_supply=80, leak_down_held=60), 4)
    0.25
    """
    above_zero(leak_down_supply=leak_down_supply)
    if not 0 <= leak_down_held <= leak_down_supply:
        raise ValueError(
            "a cylinder holds no more than the supply and no less than nothing. Check leak_down_supply and "
            "leak_down_held, both gauge pressures, and which gauge is which"
        )
    return (leak_down_supply - leak_down_held) / leak_down_supply


def leak_down_spread(*, leak_down: Every) -> float:
    """How unlike the cylinders are in leak-down: the most less the least.

    most − least

    leak_down [share]: of every cylinder, in one test with one tester.
    Returns [share]: in points; an uneven pattern says more than the level.
    Validity: one tester, one supply pressure, one state of warmth.
    Source: [1] Common practice, no source.

    >>> round(leak_down_spread(leak_down=[0.06, 0.07, 0.06, 0.24]), 4)
    0.18
    """
    some_cylinder(leak_down=leak_down)
    return max(leak_down) - min(leak_down)


def leak_area(*, leak_down: float, leak_down_supply: float, leak_down_orifice: float, air_pressure: float) -> float:
    """Area of all the leaks of a cylinder, as one round hole like the tester's.

    A = A_o · p_s ψ(p_h/p_s) / (p_h ψ(p_a/p_h)), with ψ(x) = √(x^(2/γ) − x^((γ+1)/γ)), x not below 0.528

    leak_down [share]: what the tester shows, from which the pressure in the cylinder, p_h, follows.
    leak_down_supply [Pa gauge]: before the orifice, p_s (here and in the equation absolute, by adding p_a).
    leak_down_orifice [m]: its diameter, of the area A_o.
    air_pressure [Pa absolute]: of the air into which it leaks, p_a.
    Returns [m2].
    Validity: steady flow of air as warm as the orifice, γ 1.4, and leaks that let air through as the orifice does: as
        the orifice would stand in their place. Not for a leak-down of 100 %, which no hole of a size gives.
    Source: [1] The two openings in a row, each by the isentropic flow of J. B. Heywood, Internal Combustion Engine
        Fundamentals, 1988, appendix C (from memory).

    >>> area = leak_area(leak_down=0.25, leak_down_supply=551.58e3, leak_down_orifice=1.016e-3, air_pressure=101.325e3)
    >>> round(area * 1e6, 3)
    0.858
    """
    above_zero(leak_down_supply=leak_down_supply, leak_down_orifice=leak_down_orifice, air_pressure=air_pressure)
    if not 0 <= leak_down < 1:
        raise ValueError(f"a leak-down of {100 * leak_down:.4g} % has no leak of a size. Check leak_down: 0 to 99 %")
    supply = leak_down_supply + air_pressure
    held = leak_down_supply * (1 - leak_down) + air_pressure
    orifice = pi / 4 * leak_down_orifice**2
    return orifice * supply * _flow(held / supply) / (held * _flow(air_pressure / held))


def _flow(ratio: float) -> float:
    """How much goes through an opening, by the pressure behind over that before it."""
    within = min(max(ratio, _CRITICAL), 1.0)
    return sqrt(max(within ** (2 / _GAMMA) - within ** ((_GAMMA + 1) / _GAMMA), 0.0))
