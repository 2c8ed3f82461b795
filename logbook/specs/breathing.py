"""How well an engine fills over its speed.

Inlet Mach index:  inlet_mach_index, inlet_mach_index_at_speed
Its band:          filling_falls_from (0.5), filling_falls_by (0.6)
Port:              inlet_port_velocity, inlet_port_velocity_at_speed
Air:               air_demand, air_demand_at_full_filling, air_flow_of_filling, volumetric_efficiency

Engine speed in revolutions per second, lengths in m, volumes in m3, speeds in m/s. Four-stroke: each cylinder fills
once in two turns.
"""

from math import sqrt

from logbook.specs.atmosphere import DRY_AIR
from logbook.specs.possible import above_zero

SOUND = sqrt(1.4 * DRY_AIR * 293.15)  # m/s, 343.2 in dry air of 20 °C
BEGINS, FAST = 0.5, 0.6  # the band of the inlet Mach index in which filling falls


def inlet_mach_index(
    *,
    bore: float,
    stroke: float,
    engine_speed_limit: float,
    inlet_valve_diameter: float,
    inlet_valves: float,
    inlet_flow_coefficient: float,
) -> float:
    """Inlet Mach index at the engine speed limit, after Taylor, with air of 20 °C.

    Z = (B² / n D²) · 2 S N / (C̄ a)

    bore [m]: B.
    stroke [m]: S.
    engine_speed_limit [1/s]: N.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    inlet_flow_coefficient [bare]: by valve head area, mean while the valve is open, C̄; not that of one lift.
    Returns [bare].
    Validity: empirical. Filling falls from 0.5 to 0.6 on, a band and no limit: best power lies above it, at 0.65 to
        0.75 in ordinary engines. The speed of sound a is 343.2 m/s; in air of 50 °C it is 5 % more and Z 5 % less.
    Source: [1] C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (from memory):
        0.6.
    Source: [2] J. C. Livengood and J. D. Stanitz, NACA TN 915, 1943 (from memory).
    Source: [3] JSME Mechanical Engineering Dictionary, entry 11:1002813: 0.5, with the mean area while open. The
        sources do not agree, so both stand as a band.

    >>> z = inlet_mach_index(bore=0.086, stroke=0.086, engine_speed_limit=60, inlet_valve_diameter=0.040,
    ...     inlet_valves=1, inlet_flow_coefficient=0.35)
    >>> round(z, 4)
    0.3971
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    return inlet_mach_index_at_speed(
        engine_speed=engine_speed_limit,
        bore=bore,
        stroke=stroke,
        inlet_valve_diameter=inlet_valve_diameter,
        inlet_valves=inlet_valves,
        inlet_flow_coefficient=inlet_flow_coefficient,
    )


def inlet_mach_index_at_speed(
    *,
    engine_speed: float,
    bore: float,
    stroke: float,
    inlet_valve_diameter: float,
    inlet_valves: float,
    inlet_flow_coefficient: float,
) -> float:
    """Inlet Mach index at any engine speed, after Taylor, with air of 20 °C.

    Z = (B² / n D²) · 2 S N / (C̄ a)

    engine_speed [1/s]: N.
    bore [m]: B.
    stroke [m]: S.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    inlet_flow_coefficient [bare]: by valve head area, mean while the valve is open, C̄.
    Returns [bare].
    Validity: as of inlet_mach_index: empirical, a band from 0.5 to 0.6 and no limit.
    Source: [1] C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (from memory).

    >>> z = inlet_mach_index_at_speed(engine_speed=60, bore=0.086, stroke=0.086, inlet_valve_diameter=0.040,
    ...     inlet_valves=1, inlet_flow_coefficient=0.35)
    >>> round(z, 4)
    0.3971
    """
    return engine_speed * _index_of_a_turn(bore, stroke, inlet_valve_diameter, inlet_valves, inlet_flow_coefficient)


def filling_falls_from(
    *,
    bore: float,
    stroke: float,
    inlet_valve_diameter: float,
    inlet_valves: float,
    inlet_flow_coefficient: float,
) -> float:
    """Engine speed at which the inlet Mach index is 0.5, with air of 20 °C: from here on filling begins to fall.

    N = 0.5 · C̄ a n D² / (2 S B²)

    bore [m]: B.
    stroke [m]: S.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    inlet_flow_coefficient [bare]: by valve head area, mean while the valve is open, C̄.
    Returns [1/s].
    Validity: the lower end of a band, empirical, whose upper end is filling_falls_by; no limit of speed.
    Source: [1] JSME Mechanical Engineering Dictionary, entry 11:1002813: 0.5.
    Source: [2] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.2 (from memory): 0.5.

    >>> speed = filling_falls_from(bore=0.086, stroke=0.086, inlet_valve_diameter=0.040, inlet_valves=1,
    ...     inlet_flow_coefficient=0.35)
    >>> round(speed * 60)
    4533
    """
    return BEGINS / _index_of_a_turn(bore, stroke, inlet_valve_diameter, inlet_valves, inlet_flow_coefficient)


def filling_falls_by(
    *,
    bore: float,
    stroke: float,
    inlet_valve_diameter: float,
    inlet_valves: float,
    inlet_flow_coefficient: float,
) -> float:
    """Engine speed at which the inlet Mach index is 0.6, with air of 20 °C: by then filling falls fast.

    N = 0.6 · C̄ a n D² / (2 S B²)

    bore [m]: B.
    stroke [m]: S.
    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    inlet_flow_coefficient [bare]: by valve head area, mean while the valve is open, C̄.
    Returns [1/s].
    Validity: the upper end of a band, empirical, whose lower end is filling_falls_from; no limit of speed.
    Source: [1] C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (from memory):
        0.6.

    >>> speed = filling_falls_by(bore=0.1016, stroke=0.089, inlet_valve_diameter=0.0493, inlet_valves=1,
    ...     inlet_flow_coefficient=0.35)
    >>> round(speed * 60)
    5721
    """
    return FAST / _index_of_a_turn(bore, stroke, inlet_valve_diameter, inlet_valves, inlet_flow_coefficient)


def inlet_port_velocity(*, bore: float, stroke: float, engine_speed_limit: float, inlet_port_diameter: float) -> float:
    """Mean inlet port velocity over the inlet stroke, at the engine speed limit.

    v = 2 S N · B² / D_p²

    bore [m]: B.
    stroke [m]: S.
    engine_speed_limit [1/s]: N.
    inlet_port_diameter [m]: least diameter of the port, D_p; of several ports the diameter of one as large as all.
    Returns [m/s].
    Validity: a mean over the stroke, air of constant density: below half the speed of sound. The greatest is about
        1.6 times as much. At best power 75 to 100 m/s are usual, a rule of thumb.
    Source: [1] Continuity; the usual range is common practice, no source.

    >>> speed = inlet_port_velocity(bore=0.1016, stroke=0.089, engine_speed_limit=100, inlet_port_diameter=0.038)
    >>> round(speed, 3)
    127.245
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    return inlet_port_velocity_at_speed(
        engine_speed=engine_speed_limit, bore=bore, stroke=stroke, inlet_port_diameter=inlet_port_diameter
    )


def inlet_port_velocity_at_speed(
    *, engine_speed: float, bore: float, stroke: float, inlet_port_diameter: float
) -> float:
    """Mean inlet port velocity over the inlet stroke, at any engine speed.

    v = 2 S N · B² / D_p²

    engine_speed [1/s]: N.
    bore [m]: B.
    stroke [m]: S.
    inlet_port_diameter [m]: least diameter of the port, D_p; of several ports the diameter of one as large as all.
    Returns [m/s].
    Validity: as of inlet_port_velocity.
    Source: [1] Continuity; common practice, no source.

    >>> speed = inlet_port_velocity_at_speed(engine_speed=100, bore=0.1016, stroke=0.089, inlet_port_diameter=0.038)
    >>> round(speed, 3)
    127.245
    """
    above_zero(bore=bore, stroke=stroke, inlet_port_diameter=inlet_port_diameter)
    return 2 * stroke * engine_speed * (bore / inlet_port_diameter) ** 2


def volumetric_efficiency(*, air_flow: float, air_density: float, displacement: float, engine_speed: float) -> float:
    """Volumetric efficiency of a four-stroke engine, against the air OUTSIDE.

    η_v = ṁ / (ρ V_d N / 2)

    air_flow [kg/s]: air drawn in, ṁ.
    air_density [kg/m3]: of the air outside, ρ; against that in the manifold it would be another figure.
    displacement [m3]: engine capacity, V_d.
    engine_speed [1/s]: N.
    Returns [share]: 0.75 to 1.05 without boost, to 1.2 with tuned pipes; above that boost or a mistake.
    Validity: four-stroke.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.27 (from memory).

    >>> share = volumetric_efficiency(air_flow=0.12041, air_density=1.2041, displacement=0.002, engine_speed=100)
    >>> round(share, 4)
    1.0
    """
    above_zero(air_flow=air_flow, air_density=air_density, displacement=displacement, engine_speed=engine_speed)
    return air_flow / (air_density * displacement * engine_speed / 2)


def air_demand(*, displacement: float, engine_speed_limit: float, volumetric_efficiency: float) -> float:
    """Air demand at the engine speed limit, as a volume of the air outside.

    Q = η_v V_d N / 2

    displacement [m3]: engine capacity, V_d.
    engine_speed_limit [1/s]: N.
    volumetric_efficiency [share]: against the air outside, η_v.
    Returns [m3/s].
    Validity: four-stroke. A volume: at the density of the air outside, whichever it is. In cubic inches and cubic feet
        a minute it is capacity by rpm over 3456.
    Source: [1] Two turns for each filling; common practice, no source.

    >>> air_demand(displacement=0.002, engine_speed_limit=100, volumetric_efficiency=0.85)
    0.085
    """
    above_zero(volumetric_efficiency=volumetric_efficiency)
    full = air_demand_at_full_filling(displacement=displacement, engine_speed_limit=engine_speed_limit)
    return volumetric_efficiency * full


def air_demand_at_full_filling(*, displacement: float, engine_speed_limit: float) -> float:
    """Air demand at the engine speed limit if every cylinder filled completely.

    Q = V_d N / 2

    displacement [m3]: engine capacity, V_d.
    engine_speed_limit [1/s]: N.
    Returns [m3/s].
    Validity: four-stroke, at 100 % volumetric efficiency; without boost an engine seldom draws as much.
    Source: [1] Two turns for each filling; common practice, no source.

    >>> air_demand_at_full_filling(displacement=0.002, engine_speed_limit=100)
    0.1
    """
    above_zero(displacement=displacement, engine_speed_limit=engine_speed_limit)
    return displacement * engine_speed_limit / 2


def air_flow_of_filling(
    *, displacement: float, engine_speed: float, volumetric_efficiency: float, air_density: float
) -> float:
    """Air mass flow of a four-stroke engine from its filling.

    ṁ = η_v ρ V_d N / 2

    displacement [m3]: engine capacity, V_d.
    engine_speed [1/s]: N.
    volumetric_efficiency [share]: against the air outside, η_v.
    air_density [kg/m3]: of the air outside, ρ.
    Returns [kg/s].
    Validity: four-stroke; the inverse of volumetric_efficiency.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.27 (from memory).

    >>> flow = air_flow_of_filling(displacement=0.002, engine_speed=100, volumetric_efficiency=1, air_density=1.2041)
    >>> round(flow, 5)
    0.12041
    """
    above_zero(engine_speed=engine_speed, volumetric_efficiency=volumetric_efficiency, air_density=air_density)
    above_zero(displacement=displacement)
    return volumetric_efficiency * air_density * displacement * engine_speed / 2


def _index_of_a_turn(bore: float, stroke: float, valve: float, valves: float, coefficient: float) -> float:
    """The inlet Mach index for each revolution in a second."""
    above_zero(bore=bore, stroke=stroke, inlet_valve_diameter=valve, inlet_valves=valves)
    above_zero(inlet_flow_coefficient=coefficient)
    if valve >= bore:
        raise ValueError(
            f"an inlet valve of {1e3 * valve:.4g} mm does not go into a bore of {1e3 * bore:.4g} mm. Check "
            "inlet_valve_diameter and bore"
        )
    return 2 * stroke * bore**2 / (valves * valve**2 * coefficient * SOUND)
