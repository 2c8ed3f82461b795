"""What a test of the engine's condition tells.

cranking_pressure_least  of a compression test: how far the worst cylinder falls behind the best
oil_pressure_usual       the rule of thumb that an oil pressure is set beside
wear_rate                of an oil analysis: a metal for each hour on the oil
oil_viscosity_change     of an oil analysis: thinned by fuel, thickened by heat
oil_consumption, oil_consumption_hourly, fuel_consumption, fuel_consumption_hourly
                         what is used up between two fills, over distance or over hours: one is never turned into the
                         other

Pressures in Pa, gauge: above that of the air around. A leak-down has a file of its own, leak_down.py.
"""

from logbook.specs.every import Every
from logbook.specs.possible import above_zero, some_cylinder

_BAR_FOR_A_THOUSAND = 0.7e5 / (1000 / 60)  # Pa for each turn in a second


def cranking_pressure_least(*, cranking_pressure: Every) -> float:
    """Least cranking pressure of a compression test, as a share of the greatest.

    least p / greatest p

    cranking_pressure [Pa gauge]: of every cylinder, p, in one test: one gauge, one state of the engine, all dry or
        all with oil.
    Returns [share]: 1 where all are alike.
    Validity: gauge pressures, as the trade compares them; of absolute pressures the share is greater.
    Source: [1] Common practice, no source.

    >>> round(cranking_pressure_least(cranking_pressure=[12.0e5, 11.4e5, 12.0e5, 9.0e5]), 3)
    0.75
    """
    some_cylinder(cranking_pressure=cranking_pressure)
    greatest = max(cranking_pressure)
    if not greatest > 0:
        raise ValueError("no cylinder gave any cranking pressure, so none can be compared. Check cranking_pressure")
    return min(cranking_pressure) / greatest


def oil_pressure_usual(*, engine_speed: float) -> float:
    """Oil pressure that the rule of thumb wants of a hot engine at a speed.

    0.7 bar for each 1000 rpm

    engine_speed [1/s]: at which the pressure was read.
    Returns [Pa gauge]: the maker's figure comes first.
    Validity: hot, plain bearings, up to the relief valve, which opens at 3 to 6 bar as a rule. In rpm and bar only.
    Source: [1] Common practice, no source (10 psi for each 1000 rpm).

    >>> round(oil_pressure_usual(engine_speed=50) / 1e5, 2)
    2.1
    """
    above_zero(engine_speed=engine_speed)
    return _BAR_FOR_A_THOUSAND * engine_speed


def wear_rate(*, metal_in_oil: float, hours_on_oil: float) -> float:
    """Metal that an engine gives to its oil in an hour.

    w / t

    metal_in_oil [share]: of mass, w, less what the oil had when new.
    hours_on_oil [s]: since this oil was filled in, t.
    Returns [1/s]: of mass; 1 mg/kg/h is a millionth for each hour.
    Validity: of the oil as it was filled: what was topped up since thins the metal, and the filter holds what is larger
        than some micrometres. To be set beside the same engine's earlier analyses, not beside another's.
    Source: [1] By definition.

    >>> round(wear_rate(metal_in_oil=31e-6, hours_on_oil=16.8 * 3600) * 3600e6, 3)
    1.845
    """
    above_zero(hours_on_oil=hours_on_oil)
    if not 0 <= metal_in_oil <= 1:
        raise ValueError("a metal has a share of 0 to 100 % in its oil. Check metal_in_oil and its unit")
    return metal_in_oil / hours_on_oil


def oil_viscosity_change(*, oil_viscosity: float, new_oil_viscosity: float) -> float:
    """How far the oil's viscosity has gone from what it was when new.

    ν / ν_new − 1

    oil_viscosity [m2/s]: of the used oil, ν.
    new_oil_viscosity [m2/s]: of the same oil when new, ν_new, at the same temperature.
    Returns [share]: negative where it has become thinner, by fuel in it as a rule.
    Validity: exact; both at one temperature.
    Source: [1] By definition.

    >>> round(oil_viscosity_change(oil_viscosity=14.1e-6, new_oil_viscosity=15.0e-6), 3)
    -0.06
    """
    above_zero(oil_viscosity=oil_viscosity, new_oil_viscosity=new_oil_viscosity)
    return oil_viscosity / new_oil_viscosity - 1


def oil_consumption(*, oil_used: float, distance_run: float) -> float:
    """Oil used over a distance.

    V / s

    oil_used [m3]: topped up from one full mark to another, V.
    distance_run [m]: between the two, s.
    Returns [m2]: 1 l on 1000 km is 10⁻⁹ m2.
    Validity: exact from full mark to full mark; half a litre of the dipstick's range goes unseen otherwise.
    Source: [1] By definition.

    >>> round(oil_consumption(oil_used=0.5e-3, distance_run=2000e3) * 1e9, 3)
    0.25
    """
    return _over("oil_used", oil_used, distance_run=distance_run)


def oil_consumption_hourly(*, oil_used: float, hours_run: float) -> float:
    """Oil used in an hour of running.

    V / t

    oil_used [m3]: topped up from one full mark to another, V.
    hours_run [s]: between the two, t.
    Returns [m3/s].
    Validity: exact from full mark to full mark.
    Source: [1] By definition.

    >>> round(oil_consumption_hourly(oil_used=0.5e-3, hours_run=10 * 3600) * 3600e3, 3)
    0.05
    """
    return _over("oil_used", oil_used, hours_run=hours_run)


def fuel_consumption(*, fuel_used: float, distance_run: float) -> float:
    """Fuel used over a distance.

    V / s

    fuel_used [m3]: filled in from one full tank to another, V.
    distance_run [m]: between the two, s.
    Returns [m2]: 1 l on 100 km is 10⁻⁸ m2; 2.352e-6 over it is the miles on a US gallon, 2.825e-6 those on an imperial.
    Validity: exact from full tank to full tank.
    Source: [1] By definition.

    >>> round(fuel_consumption(fuel_used=40e-3, distance_run=500e3) * 1e8, 3)
    8.0
    """
    return _over("fuel_used", fuel_used, distance_run=distance_run)


def fuel_consumption_hourly(*, fuel_used: float, hours_run: float) -> float:
    """Fuel used in an hour of running.

    V / t

    fuel_used [m3]: filled in from one full tank to another, V.
    hours_run [s]: between the two, t.
    Returns [m3/s].
    Validity: exact from full tank to full tank.
    Source: [1] By definition.

    >>> round(fuel_consumption_hourly(fuel_used=40e-3, hours_run=5 * 3600) * 3600e3, 3)
    8.0
    """
    return _over("fuel_used", fuel_used, hours_run=hours_run)


def _over(what: str, used: float, **run: float) -> float:
    """What was used over how far the engine ran."""
    above_zero(**run)
    if not used >= 0:
        raise ValueError(f"nothing runs out of an engine backwards. Check {what}: it cannot be negative")
    (far,) = run.values()
    return used / far
