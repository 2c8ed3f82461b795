"""A compressor before the engine, and what it makes of the air.

pressure_ratio, pressure_ratio_from_outside   of the compressor
compressor_outlet_temperature                 behind it
charge_temperature                            behind the intercooler
charge_density_ratio                          what is won

A ratio of pressures is one of ABSOLUTE pressures: a boost of 0.7 bar on the gauge at the sea is a ratio of 1.7.
Pressures in Pa, temperatures in K.
"""

from logbook.specs.possible import above_zero

_EXPONENT = 0.4 / 1.4  # (γ − 1) / γ of air


def pressure_ratio(*, boost_pressure: float, air_pressure: float, compressor_inlet_pressure: float) -> float:
    """Pressure ratio of the compressor.

    Π = (p_boost + p_air) / p_1

    boost_pressure [Pa gauge]: behind the compressor, above the air outside, p_boost.
    air_pressure [Pa absolute]: outside, by barometer, p_air.
    compressor_inlet_pressure [Pa absolute]: behind the air filter, p_1.
    Returns [bare].
    Validity: not below 1, where nothing is compressed.
    Source: [1] Definition; common practice, no source.

    >>> ratio = pressure_ratio(boost_pressure=70e3, air_pressure=100e3, compressor_inlet_pressure=97e3)
    >>> round(ratio, 4)
    1.7526
    """
    above_zero(air_pressure=air_pressure, compressor_inlet_pressure=compressor_inlet_pressure)
    if compressor_inlet_pressure > 1.02 * air_pressure:
        raise ValueError(
            f"{compressor_inlet_pressure / 1e3:.4g} kPa before the compressor is more than the "
            f"{air_pressure / 1e3:.4g} kPa of the air outside. Check compressor_inlet_pressure and air_pressure: both "
            "absolute, on one day"
        )
    ratio = (boost_pressure + air_pressure) / compressor_inlet_pressure
    if not ratio >= 1:
        raise ValueError(
            f"a pressure ratio of {ratio:.4g} compresses nothing. Check boost_pressure, above the air outside, and "
            "compressor_inlet_pressure, absolute"
        )
    return ratio


def pressure_ratio_from_outside(*, boost_pressure: float, air_pressure: float) -> float:
    """Pressure ratio of the compressor, where nobody measured before it.

    Π = (p_boost + p_air) / p_air

    boost_pressure [Pa gauge]: behind the compressor, above the air outside, p_boost.
    air_pressure [Pa absolute]: outside, by barometer, p_air.
    Returns [bare].
    Validity: no loss in the air filter; a filter that takes 3 kPa makes the ratio 3 % greater.
    Source: [1] Definition; common practice, no source.

    >>> pressure_ratio_from_outside(boost_pressure=70e3, air_pressure=100e3)
    1.7
    """
    return pressure_ratio(
        boost_pressure=boost_pressure, air_pressure=air_pressure, compressor_inlet_pressure=air_pressure
    )


def compressor_outlet_temperature(
    *, air_temperature: float, pressure_ratio: float, compressor_efficiency: float
) -> float:
    """Temperature behind the compressor.

    T₂ = T₁ + T₁ (Π^((γ−1)/γ) − 1) / η

    air_temperature [K]: before the compressor, T₁.
    pressure_ratio [bare]: of absolute pressures, Π.
    compressor_efficiency [share]: isentropic, η.
    Returns [K].
    Validity: γ 1.4, constant; at a ratio of 8 that is 1.5 % more rise than air has, at 2 less than 0.2 %.
    Source: [1] Y. A. Cengel and M. A. Boles, Thermodynamics, isentropic efficiency of compressors (from memory).

    >>> t = compressor_outlet_temperature(air_temperature=298.15, pressure_ratio=1.7, compressor_efficiency=0.7)
    >>> round(t, 2)
    367.88
    """
    above_zero(air_temperature=air_temperature)
    if not 0 < compressor_efficiency <= 1:
        raise ValueError(
            f"a compressor efficiency of {100 * compressor_efficiency:.4g} % cannot be: 50 to 80 % are usual. Check "
            "compressor_efficiency"
        )
    if not pressure_ratio >= 1:
        raise ValueError(
            f"a pressure ratio of {pressure_ratio:.4g} compresses nothing. Check pressure_ratio: absolute pressures, "
            "not the boost on the gauge"
        )
    rise = float(pressure_ratio**_EXPONENT) - 1
    return air_temperature * (1 + rise / compressor_efficiency)


def charge_temperature(
    *, compressor_outlet_temperature: float, intercooler_effectiveness: float, air_temperature: float
) -> float:
    """Charge temperature behind the intercooler.

    T₃ = T₂ − ε (T₂ − T_air)

    compressor_outlet_temperature [K]: T₂.
    intercooler_effectiveness [share]: ε; 0 without one.
    air_temperature [K]: of what cools it, T_air; with a water-cooled one the water's.
    Returns [K].
    Validity: 0 to 100 %: it never cools below what cools it.
    Source: [1] Definition of the effectiveness of a heat exchanger; common practice, no source.

    >>> charge_temperature(compressor_outlet_temperature=368, intercooler_effectiveness=0.7, air_temperature=298)
    319.0
    """
    above_zero(compressor_outlet_temperature=compressor_outlet_temperature, air_temperature=air_temperature)
    if not 0 <= intercooler_effectiveness <= 1:
        raise ValueError(
            f"an intercooler of {100 * intercooler_effectiveness:.4g} % effectiveness cannot be: 0 to 100 %. Check "
            "intercooler_effectiveness"
        )
    return compressor_outlet_temperature - intercooler_effectiveness * (compressor_outlet_temperature - air_temperature)


def charge_density_ratio(
    *, boost_pressure: float, air_pressure: float, air_temperature: float, charge_temperature: float
) -> float:
    """Density of the charge to that of the air outside.

    ρ₃ / ρ = (p_boost + p_air) / p_air · T_air / T₃

    boost_pressure [Pa gauge]: in the inlet manifold, above the air outside, p_boost.
    air_pressure [Pa absolute]: outside, by barometer, p_air.
    air_temperature [K]: outside, T_air.
    charge_temperature [K]: in the inlet manifold, T₃.
    Returns [bare].
    Validity: ideal gas; the most by which boost can raise torque, friction and knock left aside.
    Source: [1] Ideal gas law.

    >>> ratio = charge_density_ratio(boost_pressure=70e3, air_pressure=100e3, air_temperature=298.15,
    ...     charge_temperature=367.876)
    >>> round(ratio, 5)
    1.37779
    """
    above_zero(air_pressure=air_pressure, air_temperature=air_temperature, charge_temperature=charge_temperature)
    outside = pressure_ratio_from_outside(boost_pressure=boost_pressure, air_pressure=air_pressure)
    return outside * air_temperature / charge_temperature
