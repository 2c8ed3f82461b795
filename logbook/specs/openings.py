"""How far inlet valves open, and what passes.

Open areas:               inlet_curtain_area, inlet_throat_area, inlet_valve_area, inlet_valve_area_at_lift
Flow through an opening:  air_flow_of_opening

Lengths in m, areas in m2 of all inlet valves of one cylinder together, pressures in Pa, temperatures in K.
"""

from math import cos, pi, radians, sin, sqrt, tan

from logbook.specs.atmosphere import DRY_AIR
from logbook.specs.possible import above_zero

_GAMMA = 1.4


def inlet_curtain_area(*, inlet_valve_diameter: float, inlet_valve_lift: float, inlet_valves: float) -> float:
    """Curtain area of the inlet valves at full lift.

    A_c = n π D L

    inlet_valve_diameter [m]: of the head of one valve, D.
    inlet_valve_lift [m]: greatest lift, L.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    Returns [m2].
    Validity: a reference, not an opening: air passes the seat's face aslant (inlet_valve_area). From L = D/4 on it is
        more than the head's own area.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3 (from memory).

    >>> round(inlet_curtain_area(inlet_valve_diameter=0.040, inlet_valve_lift=0.010, inlet_valves=1) * 1e6, 3)
    1256.637
    """
    above_zero(inlet_valve_diameter=inlet_valve_diameter, inlet_valve_lift=inlet_valve_lift, inlet_valves=inlet_valves)
    return inlet_valves * pi * inlet_valve_diameter * inlet_valve_lift


def inlet_throat_area(*, inlet_port_diameter: float, inlet_stem_diameter: float, inlet_valves: float) -> float:
    """Throat area of the inlet valves, stem taken off.

    A_t = n π/4 (D_p² − D_s²)

    inlet_port_diameter [m]: least diameter under one valve, D_p.
    inlet_stem_diameter [m]: of its stem, D_s.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    Returns [m2].
    Validity: a round throat for each valve.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 6.9 (from memory).

    >>> area = inlet_throat_area(inlet_port_diameter=0.035, inlet_stem_diameter=0.007, inlet_valves=1)
    >>> round(area * 1e6, 3)
    923.628
    """
    above_zero(inlet_stem_diameter=inlet_stem_diameter, inlet_valves=inlet_valves)
    if not inlet_port_diameter > inlet_stem_diameter:
        raise ValueError(
            f"a valve stem of {1e3 * inlet_stem_diameter:.4g} mm does not leave a port of "
            f"{1e3 * inlet_port_diameter:.4g} mm open. Check inlet_stem_diameter and inlet_port_diameter"
        )
    return inlet_valves * pi / 4 * (inlet_port_diameter**2 - inlet_stem_diameter**2)


def inlet_valve_area(
    *,
    inlet_valve_lift: float,
    inlet_valve_diameter: float,
    inlet_seat_width: float,
    inlet_seat_angle: float,
    inlet_port_diameter: float,
    inlet_stem_diameter: float,
    inlet_valves: float,
) -> float:
    """Least open area of the inlet valves at full lift.

    π L cos β (D − 2 w + L/2 sin 2β), then π D_m √((L − w tan β)² + w²), then π/4 (D_p² − D_s²), times n

    inlet_valve_lift [m]: greatest lift, L.
    inlet_valve_diameter [m]: of the head of one valve, D; D_m = D − w.
    inlet_seat_width [m]: along the plane of the head, w.
    inlet_seat_angle [deg]: between the seat and the plane of the head, β.
    inlet_port_diameter [m]: least diameter under one valve, D_p.
    inlet_stem_diameter [m]: of its stem, D_s.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    Returns [m2].
    Validity: geometry of the least section; the stream is narrower still (inlet_discharge_coefficient).
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equations 6.7 to 6.9 (from memory).

    >>> area = inlet_valve_area(inlet_valve_lift=0.005, inlet_valve_diameter=0.040, inlet_seat_width=0.0015,
    ...     inlet_seat_angle=45, inlet_port_diameter=0.035, inlet_stem_diameter=0.007, inlet_valves=1)
    >>> round(area * 1e6, 3)
    460.569
    """
    above_zero(inlet_valve_lift=inlet_valve_lift)
    return inlet_valve_area_at_lift(
        valve_lift=inlet_valve_lift,
        inlet_valve_diameter=inlet_valve_diameter,
        inlet_seat_width=inlet_seat_width,
        inlet_seat_angle=inlet_seat_angle,
        inlet_port_diameter=inlet_port_diameter,
        inlet_stem_diameter=inlet_stem_diameter,
        inlet_valves=inlet_valves,
    )


def inlet_valve_area_at_lift(
    *,
    valve_lift: float,
    inlet_valve_diameter: float,
    inlet_seat_width: float,
    inlet_seat_angle: float,
    inlet_port_diameter: float,
    inlet_stem_diameter: float,
    inlet_valves: float,
) -> float:
    """Least open area of the inlet valves at any lift.

    π L cos β (D − 2 w + L/2 sin 2β), then π D_m √((L − w tan β)² + w²), then π/4 (D_p² − D_s²), times n

    valve_lift [m]: L, from 0 on.
    inlet_valve_diameter [m]: of the head of one valve, D; D_m = D − w.
    inlet_seat_width [m]: along the plane of the head, w.
    inlet_seat_angle [deg]: between the seat and the plane of the head, β.
    inlet_port_diameter [m]: least diameter under one valve, D_p.
    inlet_stem_diameter [m]: of its stem, D_s.
    inlet_valves [bare]: inlet valves of one cylinder, n.
    Returns [m2]: without a step where one stage follows the other.
    Validity: geometry of the least section; the first stage ends at L = w / (sin β cos β).
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equations 6.7 to 6.9 (from memory).

    >>> area = inlet_valve_area_at_lift(valve_lift=0.001, inlet_valve_diameter=0.040, inlet_seat_width=0.0015,
    ...     inlet_seat_angle=45, inlet_port_diameter=0.035, inlet_stem_diameter=0.007, inlet_valves=1)
    >>> round(area * 1e6, 3)
    83.304
    """
    above_zero(inlet_seat_width=inlet_seat_width)
    if not 0 < inlet_seat_angle < 90:
        raise ValueError(f"a seat of {inlet_seat_angle:.4g} deg closes nothing. Check inlet_seat_angle: 30 or 45, as a "
                         "rule, to the plane of the head")  # fmt: skip
    if not inlet_valve_diameter > 2 * inlet_seat_width:
        raise ValueError("the seat is wider than the valve. Check inlet_seat_width and inlet_valve_diameter")
    if not valve_lift >= 0:
        raise ValueError("a valve is not lifted by less than nothing. Check valve_lift")
    throat = inlet_throat_area(
        inlet_port_diameter=inlet_port_diameter, inlet_stem_diameter=inlet_stem_diameter, inlet_valves=inlet_valves
    )
    angle, width = radians(inlet_seat_angle), inlet_seat_width
    if valve_lift * sin(angle) * cos(angle) <= width:
        cone = inlet_valve_diameter - 2 * width + valve_lift / 2 * sin(2 * angle)
        opening = pi * valve_lift * cos(angle) * cone
    else:
        opening = pi * (inlet_valve_diameter - width) * sqrt((valve_lift - width * tan(angle)) ** 2 + width**2)
    return min(inlet_valves * opening, throat)


def air_flow_of_opening(
    *,
    inlet_valve_area: float,
    inlet_discharge_coefficient: float,
    air_pressure: float,
    air_temperature: float,
    pressure_behind: float,
) -> float:
    """Air mass flow through an opening from a pressure before it to one behind it; not more than at the speed of sound.

    ṁ = C_D A p₀ / √(R T₀) · x^(1/γ) √(2γ/(γ−1) (1 − x^((γ−1)/γ))), x = p/p₀, but not below (2/(γ+1))^(γ/(γ−1))

    inlet_valve_area [m2]: of the opening, A, which the coefficient has to refer to.
    inlet_discharge_coefficient [bare]: C_D.
    air_pressure [Pa absolute]: before the opening, at rest, p₀.
    air_temperature [K]: before the opening, at rest, T₀.
    pressure_behind [Pa absolute]: p.
    Returns [kg/s].
    Validity: steady flow of dry air, γ 1.4, R 287.06 J/(kg K). Choked below 0.528 of the pressure before it.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, appendix C (from memory).

    >>> flow = air_flow_of_opening(inlet_valve_area=1e-4, inlet_discharge_coefficient=1, air_pressure=101325,
    ...     air_temperature=293.15, pressure_behind=50000)
    >>> round(flow, 6)
    0.023917
    """
    above_zero(inlet_valve_area=inlet_valve_area, air_pressure=air_pressure, air_temperature=air_temperature)
    if not 0 <= pressure_behind <= air_pressure:
        raise ValueError(
            "air flows from the higher to the lower pressure. Check air_pressure and pressure_behind: both absolute"
        )
    critical: float = (2 / (_GAMMA + 1)) ** (_GAMMA / (_GAMMA - 1))
    ratio = max(pressure_behind / air_pressure, critical)
    function: float = ratio ** (1 / _GAMMA) * sqrt(2 * _GAMMA / (_GAMMA - 1) * (1 - ratio ** ((_GAMMA - 1) / _GAMMA)))
    size = inlet_discharge_coefficient * inlet_valve_area
    return size * air_pressure / sqrt(DRY_AIR * air_temperature) * function
