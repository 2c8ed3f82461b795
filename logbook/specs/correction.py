"""Power brought to the air of a standard: the factor by which an observed power or torque is multiplied, once.

The water taken off:      dry_air_pressure
By standards in force:    correction_iso_1585, correction_sae_j1349;
                          compression ignition: correction_iso_1585_compression
By standards withdrawn:   correction_din_70020, correction_sae_j607

They differ by up to 5 % for one and the same run, as much as a real gain: a corrected power without the name of its
standard says nothing. None is for an engine whose boost is controlled, since that makes up for the air by itself; none
is for a power that is corrected already. The texts of the standards were not seen; the formulas are those that
secondary texts agree on, and two of the misprints among these are known:

- SAE J1349 in inHg and degF with 505 under the temperature, which gives 1.037 at the reference itself: it is 537.
- The formula of J607 under the name of J1349, with 29.92 inHg and without friction: J1349 has 99 kPa, 29.235 inHg, dry.

Pressures in Pa absolute, by barometer where the engine stands and not reduced to the sea; temperatures in K, of the air
that the engine draws in. The standards count the temperature as degC and 273.
"""

from math import sqrt

from logbook.specs.possible import above_zero

REFERENCE = 99_000.0  # Pa, dry: ISO 1585 and SAE J1349, at 25 degC
DIN_REFERENCE = 101_300.0  # Pa, all of the air, at 20 degC
J607_REFERENCE = 29.92 * 3386.388640341  # Pa, dry: 29.92 inHg, at 60 degF
_J607_TEMPERATURE = 519.67 / 1.8  # K
_DEGREES = 0.15  # the standards add 273 to degC
_FRICTION = 0.180  # SAE J1349: the share of the indicated power that friction takes and weather does not change


def dry_air_pressure(*, air_pressure: float, vapour_pressure: float) -> float:
    """Pressure of the air without that of the water in it, which burns nothing.

    p_d = p − p_v

    air_pressure [Pa absolute]: by barometer where the engine stands, p.
    vapour_pressure [Pa absolute]: of the water in this air, p_v.
    Returns [Pa absolute].
    Validity: exact (Dalton's law).
    Source: [1] ISO 1585 and SAE J1349, definition of the dry barometric pressure (secondary texts).

    >>> round(dry_air_pressure(air_pressure=98000, vapour_pressure=2123.02), 1)
    95877.0
    """
    above_zero(air_pressure=air_pressure)
    if not 0 <= vapour_pressure < air_pressure:
        raise ValueError(
            f"water vapour of {vapour_pressure / 1e3:.4g} kPa does not go into air of {air_pressure / 1e3:.4g} kPa. "
            "Check air_pressure, absolute and not a difference, air_temperature and air_humidity"
        )
    return air_pressure - vapour_pressure


def correction_iso_1585(*, dry_air_pressure: float, air_temperature: float) -> float:
    """Correction to ISO 1585 of spark ignition without boost; the same in UN R85 and 80/1269/EEC.

    α = (99 kPa / p_d)^1.2 · (T / 298)^0.6

    dry_air_pressure [Pa absolute]: p_d.
    air_temperature [K]: T.
    Returns [bare].
    Validity: spark ignition, full load, without controlled boost; 0.93 to 1.07. Outside them the standard wants the
        observed power with its air beside it. In kPa and K only.
    Source: [1] ISO 1585 as quoted in secondary texts; bounds from memory.

    >>> round(correction_iso_1585(dry_air_pressure=95877.0, air_temperature=303.15), 5)
    1.04964
    """
    above_zero(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature)
    pressure: float = (REFERENCE / dry_air_pressure) ** 1.2
    temperature: float = ((air_temperature - _DEGREES) / 298) ** 0.6
    return pressure * temperature


def correction_iso_1585_compression(*, dry_air_pressure: float, air_temperature: float, fuel_delivery: float) -> float:
    """Correction to ISO 1585 of compression ignition without boost.

    α = f_a^f_m, f_a = (99 kPa / p_d) · (T / 298)^0.7; f_m = 0.036 q − 1.14, q in mg/l, within 0.2 and 1.2

    dry_air_pressure [Pa absolute]: p_d.
    air_temperature [K]: T.
    fuel_delivery [kg/m3]: fuel of one cycle for each volume of displacement, q.
    Returns [bare].
    Validity: compression ignition without boost, full load; 0.9 to 1.1. In kPa, K and mg/l only.
    Source: [1] ISO 1585 as quoted in an engine maker's manual; 0.2 and 1.2 from memory.

    >>> round(correction_iso_1585_compression(dry_air_pressure=95000, air_temperature=303.15, fuel_delivery=0.05), 4)
    1.0355
    """
    above_zero(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature, fuel_delivery=fuel_delivery)
    air: float = REFERENCE / dry_air_pressure * ((air_temperature - _DEGREES) / 298) ** 0.7
    corrected: float = air ** min(max(36 * fuel_delivery - 1.14, 0.2), 1.2)
    return corrected


def correction_sae_j1349(*, dry_air_pressure: float, air_temperature: float) -> float:
    """Correction to SAE J1349 of spark ignition without boost.

    1.180 (99 kPa / p_d) √(T / 298) − 0.180

    dry_air_pressure [Pa absolute]: p_d.
    air_temperature [K]: T.
    Returns [bare].
    Validity: spark ignition, full load, without controlled boost; 0.93 to 1.07, air of 15 to 35 °C and 90 to 105 kPa
        dry. As printed in June 1990, with a mechanical efficiency of 0.85; later editions, which measure the friction,
        are not claimed. In kPa and K only.
    Source: [1] SAE J1349, June 1990, as quoted in secondary texts; bounds from memory.

    >>> round(correction_sae_j1349(dry_air_pressure=95877.0, air_temperature=303.15), 5)
    1.04862
    """
    above_zero(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature)
    air = REFERENCE / dry_air_pressure * sqrt((air_temperature - _DEGREES) / 298)
    return (1 + _FRICTION) * air - _FRICTION


def correction_din_70020(*, air_pressure: float, air_temperature: float) -> float:
    """Correction to DIN 70020, withdrawn: the whole of the barometer, with the water in it.

    (101.3 kPa / p) √(T / 293)

    air_pressure [Pa absolute]: by barometer where the engine stands, p; the standard asks for no humidity.
    air_temperature [K]: T.
    Returns [bare]: at the reference of ISO 1585 3.2 % more than that gives.
    Validity: spark ignition, full load, without controlled boost. Its own bounds were not seen; those of its
        successors, 0.93 to 1.07, are applied. In kPa and K only.
    Source: [1] DIN 70020 as quoted in secondary texts.

    >>> round(correction_din_70020(air_pressure=98000, air_temperature=303.15), 5)
    1.05116
    """
    above_zero(air_pressure=air_pressure, air_temperature=air_temperature)
    return DIN_REFERENCE / air_pressure * sqrt((air_temperature - _DEGREES) / 293)


def correction_sae_j607(*, dry_air_pressure: float, air_temperature: float) -> float:
    """Correction to SAE J607, withdrawn, and still on sheets as 'standard' or STD.

    (29.92 inHg / p_d) √((t + 459.67) / 519.67), t in °F

    dry_air_pressure [Pa absolute]: p_d.
    air_temperature [K]: T.
    Returns [bare]: 4 to 5 % more than SAE J1349 gives for the same run.
    Validity: spark ignition, full load, without controlled boost. Its own bounds were not seen; those of its
        successor, 0.93 to 1.07 counted from its own 1.04 at 25 °C and 99 kPa, are applied. In inHg and °F only.
    Source: [1] SAE J607 as quoted in a mailing list of 1995.

    >>> round(correction_sae_j607(dry_air_pressure=95877.0, air_temperature=303.15), 5)
    1.08289
    """
    above_zero(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature)
    return J607_REFERENCE / dry_air_pressure * sqrt(air_temperature / _J607_TEMPERATURE)
