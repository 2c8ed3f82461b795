"""The air around an engine, and the standard atmosphere.

Water in the air:     saturation_pressure, vapour_pressure, vapour_pressure_of_wet_bulb
How heavy it is:      air_density, air_density_dry
Standard atmosphere:  standard_atmosphere (its pressure), standard_air_temperature

Pressures in Pa, absolute: those of a barometer where the engine stands, not reduced to the sea as a weather report
gives them. Temperatures in K. A share of 1 is 100 %.
"""

from math import exp, log

from logbook.specs.possible import above_zero

#: Specific gas constants, J/(kg K): the molar gas constant, exact since 2019, over the molar mass of each.
DRY_AIR = 8.31446261815324 / 28.9645e-3
WATER_VAPOUR = 8.31446261815324 / 18.01528e-3

SEA_PRESSURE = 101_325.0  # Pa
SEA_TEMPERATURE = 288.15  # K
_LAPSE = 0.0065  # K/m
_EXPONENT = 9.80665 / (_LAPSE * 287.05287)  # 5.25588, with the gas constant of the 1976 standard

_WATER_TO_AIR = 18.01528 / 28.9645  # molar masses: 0.62198
_ICE_POINT = 273.16  # K, triple point, where the two formulas for ice and water meet
_OVER_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673)
_OVER_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)


def saturation_pressure(*, air_temperature: float) -> float:
    """Saturation pressure of water vapour: the most that air of this temperature holds.

    over water: ln p_ws = C₁/T + C₂ + C₃ T + C₄ T² + C₅ T³ + C₆ ln T; over ice with seven constants of its own

    air_temperature [K]: T.
    Returns [Pa absolute].
    Validity: −100 °C to 200 °C, over ice below 0.01 °C, over water above. Fitted to measurements: K and Pa only.
    Source: [1] R. W. Hyland and A. Wexler, ASHRAE Transactions 89(2A), 1983, as used in the ASHRAE Handbook of
        Fundamentals, 2017, chapter 1, equations 5 and 6.

    >>> round(saturation_pressure(air_temperature=298.15), 1)
    3169.2
    """
    above_zero(air_temperature=air_temperature)
    temperature = air_temperature
    if not 100 < temperature < 500:
        raise ValueError(
            f"{temperature - 273.15:.5g} degC is no temperature of the air around an engine. Check air_temperature and "
            "its unit"
        )
    if temperature > _ICE_POINT:
        c1, c2, c3, c4, c5, c6 = _OVER_WATER
        power = c1 / temperature + c2 + temperature * (c3 + temperature * (c4 + temperature * c5))
        return exp(power + c6 * log(temperature))
    c1, c2, c3, c4, c5, c6, c7 = _OVER_ICE
    power = c1 / temperature + c2 + temperature * (c3 + temperature * (c4 + temperature * (c5 + temperature * c6)))
    return exp(power + c7 * log(temperature))


def vapour_pressure(*, air_humidity: float, saturation_pressure: float) -> float:
    """Pressure of the water vapour in the air.

    p_v = φ · p_ws

    air_humidity [share]: relative humidity, φ; 1 is 100 %.
    saturation_pressure [Pa absolute]: at the temperature of this air, p_ws.
    Returns [Pa absolute]: what a dry barometer reading has to be lowered by.
    Validity: 0 to 100 %.
    Source: [1] ASHRAE Handbook of Fundamentals, 2017, chapter 1, definition of relative humidity.

    >>> round(vapour_pressure(air_humidity=0.5, saturation_pressure=3169.2), 1)
    1584.6
    """
    above_zero(saturation_pressure=saturation_pressure)
    if not 0 <= air_humidity <= 1:
        raise ValueError(
            f"a relative humidity of {100 * air_humidity:.4g} % cannot be: air holds 0 to 100 %. Check air_humidity"
        )
    return air_humidity * saturation_pressure


def vapour_pressure_of_wet_bulb(*, air_temperature: float, wet_bulb_temperature: float, air_pressure: float) -> float:
    """Pressure of the water vapour in the air, from a dry and a wet thermometer.

    W = ((2501 − 2.326 t*) W_s − 1.006 (t − t*)) / (2501 + 1.86 t − 4.186 t*), p_v = p W / (0.62198 + W)

    air_temperature [K]: of the dry thermometer, T; t = T − 273.15.
    wet_bulb_temperature [K]: of the one in a wet sleeve, ventilated, T*; W_s is the most water at it.
    air_pressure [Pa absolute]: by barometer where the engine stands, p.
    Returns [Pa absolute].
    Validity: the sleeve above freezing, 3 m/s of air over it. The constants are in kJ/kg and °C.
    Source: [1] ASHRAE Handbook of Fundamentals, 2017, chapter 1, equations 20, 33 and 36.

    >>> found = vapour_pressure_of_wet_bulb(air_temperature=303.15, wet_bulb_temperature=298.15, air_pressure=95461)
    >>> round(found)
    2862
    """
    above_zero(air_pressure=air_pressure)
    if not 273.15 < wet_bulb_temperature <= air_temperature:
        raise ValueError(
            f"a wet thermometer at {wet_bulb_temperature - 273.15:.4g} degC beside a dry one at "
            f"{air_temperature - 273.15:.4g} degC cannot be: it shows less, and more than 0 degC. Check "
            "wet_bulb_temperature and air_temperature"
        )
    most = saturation_pressure(air_temperature=wet_bulb_temperature)
    dry, wet = air_temperature - 273.15, wet_bulb_temperature - 273.15
    of_sleeve = _WATER_TO_AIR * most / (air_pressure - most)
    water = ((2501 - 2.326 * wet) * of_sleeve - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)
    if not water >= 0:
        raise ValueError("the wet thermometer is colder than in air without any water. Check wet_bulb_temperature")
    return air_pressure * water / (_WATER_TO_AIR + water)


def air_density(*, air_pressure: float, air_temperature: float, vapour_pressure: float) -> float:
    """Density of moist air.

    ρ = (p − p_v) / (R_a T) + p_v / (R_w T)

    air_pressure [Pa absolute]: by barometer where the engine stands, p.
    air_temperature [K]: T.
    vapour_pressure [Pa absolute]: of the water in it, p_v.
    Returns [kg/m3].
    Validity: ideal gases; within 0.1 % of real air up to 10 bar. R_a 287.06, R_w 461.52 J/(kg K).
    Source: [1] Ideal gas law with the molar gas constant of CODATA 2018, dry air of 28.9645 g/mol (US Standard
        Atmosphere, 1976, 28.9644) and water of 18.01528 g/mol.

    >>> round(air_density(air_pressure=101325, air_temperature=293.15, vapour_pressure=0), 4)
    1.2041
    """
    above_zero(air_pressure=air_pressure, air_temperature=air_temperature)
    if not 0 <= vapour_pressure < air_pressure:
        raise ValueError(
            f"water vapour of {vapour_pressure / 1e3:.4g} kPa does not go into air of {air_pressure / 1e3:.4g} kPa. "
            "Check air_pressure, absolute and not a difference, air_temperature and air_humidity"
        )
    dry = air_pressure - vapour_pressure
    return (dry / DRY_AIR + vapour_pressure / WATER_VAPOUR) / air_temperature


def air_density_dry(*, air_pressure: float, air_temperature: float) -> float:
    """Density of dry air, where the humidity is not known.

    ρ = p / (R_a T)

    air_pressure [Pa absolute]: by barometer where the engine stands, p.
    air_temperature [K]: T.
    Returns [kg/m3].
    Validity: too great by 0.9 % at 20 °C and by 2.1 % at 35 °C where the air is saturated; at usual humidity by half.
    Source: [1] Ideal gas law with the molar gas constant of CODATA 2018 and dry air of 28.9645 g/mol.

    >>> round(air_density_dry(air_pressure=101325, air_temperature=288.15), 4)
    1.225
    """
    return air_density(air_pressure=air_pressure, air_temperature=air_temperature, vapour_pressure=0.0)


def standard_atmosphere(*, altitude: float) -> float:
    """Pressure of the standard atmosphere, for where nobody read a barometer.

    p = 101 325 Pa · (1 − 0.0065 H / 288.15)^5.25588

    altitude [m]: geopotential height above the sea, H; up to 3000 m the surveyor's height is within 1.5 m of it.
    Returns [Pa absolute].
    Validity: −5000 m to 11 000 m. The weather moves a barometer by 5 % about it, so a reading always comes before it.
    Source: [1] US Standard Atmosphere, 1976, and ISO 2533:1975 (from memory).

    >>> round(standard_atmosphere(altitude=1000), 1)
    89874.6
    """
    share = standard_air_temperature(altitude=altitude) / SEA_TEMPERATURE
    return SEA_PRESSURE * float(share**_EXPONENT)


def standard_air_temperature(*, altitude: float) -> float:
    """Air temperature of the standard atmosphere.

    T = 288.15 K − 0.0065 K/m · H

    altitude [m]: geopotential height above the sea, H.
    Returns [K].
    Validity: −5000 m to 11 000 m.
    Source: [1] US Standard Atmosphere, 1976, and ISO 2533:1975 (from memory).

    >>> round(standard_air_temperature(altitude=1000), 2)
    281.65
    """
    if not -5000 <= altitude <= 11_000:
        raise ValueError(f"{altitude:.6g} m is outside the lowest layer of the standard atmosphere. Check altitude")
    return SEA_TEMPERATURE - _LAPSE * altitude
