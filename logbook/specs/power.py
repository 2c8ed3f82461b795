"""Torque, power, and what they say of an engine of any size.

From one another:       power_of_torque, torque_of_power
For the size:           brake_mean_effective_pressure, specific_output
For the fuel:           specific_fuel_consumption, brake_thermal_efficiency, fuel_delivery

All of the crankshaft. At the wheels or the hubs they are less by what the gearbox and the axle take, which nobody has
measured with the engine in place: they are not added here.
"""

from math import pi

from logbook.specs.possible import above_zero


def power_of_torque(*, torque: float, engine_speed: float) -> float:
    """Power from torque and the speed at which it was read.

    P = 2 π n T

    torque [N m]: T, at the crankshaft or brought to its speed by the gear.
    engine_speed [1/s]: n.
    Returns [W].
    Validity: exact. In N m and rpm, kW = T n / 9549.3; in lbf ft, hp = T n / 5252.1.
    Source: [1] By definition.

    >>> round(power_of_torque(torque=205, engine_speed=60) / 1e3, 3)
    77.283
    """
    above_zero(torque=torque, engine_speed=engine_speed)
    return 2 * pi * engine_speed * torque


def torque_of_power(*, power: float, engine_speed: float) -> float:
    """Torque from power and the speed at which it was read.

    T = P / (2 π n)

    power [W]: P.
    engine_speed [1/s]: n.
    Returns [N m].
    Validity: exact.
    Source: [1] By definition.

    >>> round(torque_of_power(power=77283, engine_speed=60), 1)
    205.0
    """
    above_zero(power=power, engine_speed=engine_speed)
    return power / (2 * pi * engine_speed)


def brake_mean_effective_pressure(*, torque: float, displacement: float) -> float:
    """Brake mean effective pressure: the torque of an engine, whatever its size.

    p = 4 π T / V_d

    torque [N m]: at the crankshaft, T.
    displacement [m3]: of all cylinders, V_d.
    Returns [Pa].
    Validity: four-stroke engines. Without boost 7 to 14 bar at the best torque; above 16 bar a slip is likely.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.20 (from memory).

    >>> round(brake_mean_effective_pressure(torque=205, displacement=3e-3) / 1e3, 1)
    858.7
    """
    above_zero(torque=torque, displacement=displacement)
    return 4 * pi * torque / displacement


def specific_output(*, power: float, displacement: float) -> float:
    """Power for each litre of displacement.

    P / V_d

    power [W]: P, observed or corrected; two engines only by one standard.
    displacement [m3]: of all cylinders, V_d.
    Returns [W/m3].
    Validity: exact.
    Source: [1] By definition.

    >>> round(specific_output(power=77.283e3, displacement=3e-3) / 1e6, 2)
    25.76
    """
    above_zero(power=power, displacement=displacement)
    return power / displacement


def specific_fuel_consumption(*, fuel_flow: float, power: float) -> float:
    """Fuel for each unit of work at the crankshaft.

    ṁ_f / P

    fuel_flow [kg/s]: ṁ_f.
    power [W]: at the same moment, P, as observed: a corrected power never burnt this fuel.
    Returns [kg/J].
    Validity: exact. Spark ignition at full load about 250 to 320 g/kWh, richer for power or for cooling.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.22 (from memory).

    >>> round(specific_fuel_consumption(fuel_flow=0.005964, power=77.283e3) * 3.6e9, 1)
    277.8
    """
    above_zero(fuel_flow=fuel_flow, power=power)
    return fuel_flow / power


def brake_thermal_efficiency(*, specific_fuel_consumption: float, lower_heating_value: float) -> float:
    """Work at the crankshaft as a share of the heat in the fuel.

    η = 1 / (b · H)

    specific_fuel_consumption [kg/J]: b, of the same fuel.
    lower_heating_value [J/kg]: of the fuel, H, the water left as vapour.
    Returns [share].
    Validity: exact. Spark ignition 0.25 to 0.35 at full load, compression ignition to 0.45; above 0.55 look for
        a slip.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.24 (from memory).

    >>> round(brake_thermal_efficiency(specific_fuel_consumption=277.8 / 3.6e9, lower_heating_value=44e6), 4)
    0.2945
    """
    above_zero(specific_fuel_consumption=specific_fuel_consumption, lower_heating_value=lower_heating_value)
    efficiency = 1 / (specific_fuel_consumption * lower_heating_value)
    if not efficiency < 1:
        raise ValueError(
            f"{100 * efficiency:.4g} % of the heat as work cannot be. Check fuel_flow, power and lower_heating_value"
        )
    return efficiency


def fuel_delivery(*, fuel_flow: float, engine_speed: float, displacement: float) -> float:
    """Fuel of one cycle for each volume of displacement, by which compression ignition is corrected.

    q = 2 ṁ_f / (n V_d)

    fuel_flow [kg/s]: ṁ_f.
    engine_speed [1/s]: n.
    displacement [m3]: of all cylinders, V_d.
    Returns [kg/m3]: 1 kg/m3 is 1000 mg for each litre.
    Validity: four-stroke engines.
    Source: [1] ISO 1585, definition of the fuel delivery parameter (from memory).

    >>> round(fuel_delivery(fuel_flow=0.004, engine_speed=50, displacement=3e-3) * 1e3, 1)
    53.3
    """
    above_zero(fuel_flow=fuel_flow, engine_speed=engine_speed, displacement=displacement)
    return 2 * fuel_flow / (engine_speed * displacement)
