"""Pressure and temperature of compression, cranked and running.

Cranked:    cranking_exponent            what a compression test says of the engine, by which another is foreseen
            expected_cranking_pressure   of the same engine with the same gauge, at another effective ratio
Running:    pressure_at_inlet_closing    with boost
            polytropic_end_pressure, polytropic_end_temperature   with the exponent that is stated
            isentropic_end_pressure, isentropic_end_temperature   of dry air, its heat capacity as it is at each heat
Cycle:      ideal_efficiency             of the air-standard cycle

Pressures in Pa, absolute but for the gauge's own; temperatures in K. What is compressed counts from inlet closing, so
the effective ratio belongs here and never the static one.
"""

from math import log

from logbook.specs.air_entropy import entropy
from logbook.specs.every import Every
from logbook.specs.possible import above_zero, some_cylinder

_AIR = 1.4  # ratio of the heat capacities of cold air: nothing compresses more steeply
_VACUUM = 20e3  # Pa: no engine draws its charge from less, so what is below was read against the air around


def cranking_exponent(*, cranking_pressure: float, air_pressure: float, effective_compression_ratio: float) -> float:
    """Exponent of a compression test: how steeply this engine, cranked, raises the pressure.

    n = ln((p_g + p_a) / p_a) / ln ε_eff

    cranking_pressure [Pa gauge]: p_g, above the air around.
    air_pressure [Pa absolute]: of the air around, p_a, absolute.
    effective_compression_ratio [bare]: from inlet closing on, ε_eff, at the lift of its event.
    Returns [bare]: 1.2 to 1.3 of a sound engine; it falls with leakage, with cold and with a slow starter.
    Validity: throttle open, one gauge, one checking lift; a figure of this engine and never of another.
    Source: [1] Polytropic compression; that it is carried from test to test is common practice, no source.

    >>> round(cranking_exponent(cranking_pressure=11.9e5, air_pressure=1e5, effective_compression_ratio=7.66), 3)
    1.256
    """
    above_zero(cranking_pressure=cranking_pressure, air_pressure=air_pressure)
    if not effective_compression_ratio > 1:
        raise ValueError(
            f"an effective ratio of {effective_compression_ratio:.4g} compresses nothing. Check inlet_closes"
        )
    exponent = log((cranking_pressure + air_pressure) / air_pressure) / log(effective_compression_ratio)
    if exponent > _AIR:
        raise ValueError(
            f"a cranking pressure of {cranking_pressure / 1e5:.4g} bar gauge is more than an effective ratio of "
            f"{effective_compression_ratio:.3g} can give without any loss (exponent {exponent:.3g}, at most {_AIR}). "
            "Check cranking_pressure, gauge and not absolute, its unit, and what the ratio rests on"
        )
    return exponent


def expected_cranking_pressure(
    *, cranking_exponent: Every, air_pressure: float, effective_compression_ratio: float
) -> float:
    """Cranking pressure to expect at another effective ratio of the same engine, with the same gauge.

    p_g = p_a · (ε_eff^n − 1), n the median of the cylinders of the earlier test

    cranking_exponent [bare]: of every cylinder in the earlier test, n; the median leaves an odd cylinder aside.
    air_pressure [Pa absolute]: of the air around, p_a, absolute.
    effective_compression_ratio [bare]: from inlet closing on, ε_eff, at the same checking lift as in that test.
    Returns [Pa gauge].
    Validity: the same engine, gauge, starter, oil and throttle. Anything else makes it a guess.
    Source: [1] Polytropic compression; that it is carried from test to test is common practice, no source.

    >>> found = expected_cranking_pressure(
    ...     cranking_exponent=[1.256], air_pressure=1e5, effective_compression_ratio=8.88)
    >>> round(found / 1e5, 1)
    14.5
    """
    some_cylinder(cranking_exponent=cranking_exponent)
    above_zero(air_pressure=air_pressure, effective_compression_ratio=effective_compression_ratio)
    in_order = sorted(cranking_exponent)
    middle, odd = divmod(len(in_order), 2)
    median = in_order[middle] if odd else (in_order[middle - 1] + in_order[middle]) / 2
    return float(air_pressure * (effective_compression_ratio**median - 1))


def pressure_at_inlet_closing(*, air_pressure: float, boost_pressure: float) -> float:
    """Cylinder pressure at inlet closing of a boosted engine, taken as that of its manifold.

    p₁ = p_a + p_boost

    air_pressure [Pa absolute]: of the air around, p_a, absolute.
    boost_pressure [Pa gauge]: of the manifold, above the air around.
    Returns [Pa absolute]: of the cylinder.
    Validity: the column in the port neither rams nor throttles; a few per cent either way at speed. An estimate.
    Source: [1] The two kinds of pressure; that the cylinder follows the manifold is common practice, no source.

    >>> round(pressure_at_inlet_closing(air_pressure=101325, boost_pressure=0.7e5))
    171325
    """
    above_zero(air_pressure=air_pressure)
    return air_pressure + boost_pressure


def polytropic_end_pressure(
    *, pressure_at_inlet_closing: float, effective_compression_ratio: float, compression_exponent: float
) -> float:
    """Pressure at the end of compression, polytropic.

    p₂ = p₁ · ε_eff^n

    pressure_at_inlet_closing [Pa absolute]: in the cylinder, p₁; with boost that of the manifold.
    effective_compression_ratio [bare]: from inlet closing on, ε_eff.
    compression_exponent [bare]: n, about 1.30 of a running spark-ignition engine.
    Returns [Pa absolute]: of the cylinder, without combustion.
    Validity: n from 1.0 to 1.4; 1.30 ± 0.05 holds for running spark-ignition engines (from memory). An estimate.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 9.2.2 (from memory).

    >>> round(polytropic_end_pressure(
    ...     pressure_at_inlet_closing=100e3, effective_compression_ratio=8, compression_exponent=1.35) / 1e3, 2)
    1656.42
    """
    _absolute(pressure_at_inlet_closing)
    return float(pressure_at_inlet_closing * _compressed(effective_compression_ratio) ** _steep(compression_exponent))


def polytropic_end_temperature(
    *, temperature_at_inlet_closing: float, effective_compression_ratio: float, compression_exponent: float
) -> float:
    """Temperature at the end of compression, polytropic.

    T₂ = T₁ · ε_eff^(n − 1)

    temperature_at_inlet_closing [K]: in the cylinder, T₁: above that of the manifold by what walls and residual give.
    effective_compression_ratio [bare]: from inlet closing on, ε_eff.
    compression_exponent [bare]: n, about 1.30 of a running spark-ignition engine.
    Returns [K]: of the whole charge, without combustion.
    Validity: n from 1.0 to 1.4. An estimate: T₁ is rarely known better than to 20 K.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 9.2.2 (from memory).

    >>> round(polytropic_end_temperature(
    ...     temperature_at_inlet_closing=300, effective_compression_ratio=8, compression_exponent=1.35), 2)
    621.16
    """
    above_zero(temperature_at_inlet_closing=temperature_at_inlet_closing)
    power = _steep(compression_exponent) - 1
    return float(temperature_at_inlet_closing * _compressed(effective_compression_ratio) ** power)


def isentropic_end_temperature(*, temperature_at_inlet_closing: float, effective_compression_ratio: float) -> float:
    """Temperature at the end of compression without loss of heat: dry air with its real heat capacity.

    s°(T₂) − R ln T₂ = s°(T₁) − R ln T₁ + R ln ε_eff, solved for T₂

    temperature_at_inlet_closing [K]: in the cylinder, T₁.
    effective_compression_ratio [bare]: from inlet closing on, ε_eff.
    Returns [K]: the upper bound of air; a charge with fuel in it stays some 50 to 100 K cooler.
    Validity: ideal gas, air, 200 to 2000 K. With a heat capacity that does not change, 2 % too hot at 8:1.
    Source: [1] NIST Chemistry WebBook, Shomate equations of nitrogen, oxygen and argon (from memory), after M. W.
        Chase, NIST-JANAF Thermochemical Tables, 4th edition, 1998.

    >>> round(isentropic_end_temperature(temperature_at_inlet_closing=290, effective_compression_ratio=8))
    652
    """
    above_zero(temperature_at_inlet_closing=temperature_at_inlet_closing)
    start = temperature_at_inlet_closing
    wanted = entropy(start) - log(start) + log(_compressed(effective_compression_ratio))
    low, high = start, float(start * effective_compression_ratio**_STEEPEST)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if entropy(middle) - log(middle) < wanted else (low, middle)
    return (low + high) / 2


def isentropic_end_pressure(
    *,
    pressure_at_inlet_closing: float,
    temperature_at_inlet_closing: float,
    effective_compression_ratio: float,
) -> float:
    """Pressure at the end of compression without loss of heat: dry air with its real heat capacity.

    p₂ = p₁ · ε_eff · T₂ / T₁

    pressure_at_inlet_closing [Pa absolute]: in the cylinder, p₁; with boost that of the manifold.
    temperature_at_inlet_closing [K]: in the cylinder, T₁.
    effective_compression_ratio [bare]: from inlet closing on, ε_eff.
    Returns [Pa absolute]: of the cylinder, without combustion; the upper bound.
    Validity: as isentropic_end_temperature, ideal gas.
    Source: [1] The ideal gas law over isentropic_end_temperature.

    >>> round(isentropic_end_pressure(pressure_at_inlet_closing=100e3, temperature_at_inlet_closing=290,
    ...     effective_compression_ratio=8) / 1e3, -1)
    1800.0
    """
    _absolute(pressure_at_inlet_closing)
    end = isentropic_end_temperature(
        temperature_at_inlet_closing=temperature_at_inlet_closing,
        effective_compression_ratio=effective_compression_ratio,
    )
    return pressure_at_inlet_closing * effective_compression_ratio * end / temperature_at_inlet_closing


def ideal_efficiency(*, mean_compression_ratio: float) -> float:
    """Efficiency of the air-standard Otto cycle: by how much a change of the ratio can help at most.

    η = 1 − ε^(1 − γ), γ = 1.4

    mean_compression_ratio [bare]: static ratio, ε, mean of the cylinders.
    Returns [share]: far above what an engine reaches; only its change means anything, about 3 % a unit near 10.
    Validity: cold air, no loss of heat, combustion at once. An estimate of a gain and never of a power.
    Source: [1] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, section 3-2 (from
        memory).

    >>> round(ideal_efficiency(mean_compression_ratio=8), 4)
    0.5647
    """
    return 1 - float(_compressed(mean_compression_ratio) ** (1 - _AIR))


_STEEPEST = 5 / 3 - 1  # of a gas of single atoms: hotter than that no gas comes out
_HALVINGS = 60


def _compressed(ratio: float) -> float:
    """The ratio handed back, refused where it would compress nothing."""
    if not ratio > 1:
        raise ValueError(f"a ratio of {ratio:.4g} compresses nothing: it must be above 1. Check inlet_closes")
    return ratio


def _steep(exponent: float) -> float:
    """The exponent handed back, refused where no charge is compressed like that."""
    if not 1 <= exponent <= _AIR:
        raise ValueError(
            f"no charge is compressed with an exponent of {exponent:.4g}: it lies between 1 (all heat lost) and {_AIR} "
            "(none lost, cold air). Check compression_exponent"
        )
    return exponent


def _absolute(pressure: float) -> None:
    """Refuse a pressure that can only have been read against the air around."""
    above_zero(pressure_at_inlet_closing=pressure)
    if pressure < _VACUUM:
        raise ValueError(
            f"{pressure / 1e3:.4g} kPa absolute is less than any engine draws its charge from. Check "
            "pressure_at_inlet_closing: absolute, that is the gauge's reading and the pressure of the air around"
        )
