"""How fast the piston moves and how hard it is pulled, at any crank angle and at the peaks.

Speed:         piston_speed, greatest_piston_speed, greatest_piston_speed_angle
Acceleration:  piston_acceleration, greatest_piston_acceleration, greatest_piston_acceleration_bottom

The gudgeon pin on the cylinder's axis and that axis through the crank's; the crank turning evenly. Lengths in m, angles
in degrees of crank, engine speed in revolutions per second, speed in m/s, acceleration in m/s2.
"""

from math import cos, pi, radians, sin, sqrt

from logbook.quantity.search import crossing, greatest
from logbook.specs.possible import above_zero, throw_of


def piston_speed(*, crank_angle: float, stroke: float, rod_length: float, engine_speed_limit: float) -> float:
    """Piston speed at a crank angle, at the engine speed limit.

    v = ω r sin θ [1 + cos θ / √(R² − sin² θ)], with r = S/2, R = L/r, ω = 2π n

    crank_angle [deg]: after TDC, θ; before TDC minus.
    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    Returns [m/s]: plus away from the head.
    Validity: no pin offset; one of a hundredth of the rod's length changes it by less than a hundredth.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.11 (from memory).
    Source: [2] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, equation 2-5 (from
        memory).

    >>> speed = piston_speed(crank_angle=20, stroke=0.086026, rod_length=0.166, engine_speed_limit=60)
    >>> round(speed, 2)
    6.9
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    throw, angle = throw_of(stroke, rod_length), radians(crank_angle)
    lean = sqrt((rod_length / throw) ** 2 - sin(angle) ** 2)
    return 2 * pi * engine_speed_limit * throw * sin(angle) * (1 + cos(angle) / lean)


def greatest_piston_speed_angle(*, stroke: float, rod_length: float) -> float:
    """Crank angle at which the piston is fastest, by search.

    θ where the acceleration passes through nought between TDC and 90°

    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    Returns [deg]: after TDC, and as much before it; below 90.
    Validity: no pin offset; does not depend on the engine speed.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.11 (from memory), searched.

    >>> round(greatest_piston_speed_angle(stroke=0.089, rod_length=0.1524), 3)
    74.867
    """
    throw = throw_of(stroke, rod_length)
    return crossing(lambda angle: _pull(throw, rod_length, radians(angle)), 0.0, 90.0)


def greatest_piston_speed(*, stroke: float, rod_length: float, engine_speed_limit: float) -> float:
    """Greatest piston speed of a turn at the engine speed limit, by search.

    v at the angle of greatest_piston_speed_angle

    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    Returns [m/s].
    Validity: no pin offset; the speed of the crank taken as steady over the turn.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 2.11 (from memory), searched.

    >>> round(greatest_piston_speed(stroke=0.089, rod_length=0.1524, engine_speed_limit=100), 3)
    29.135
    """
    angle = greatest_piston_speed_angle(stroke=stroke, rod_length=rod_length)
    return piston_speed(crank_angle=angle, stroke=stroke, rod_length=rod_length, engine_speed_limit=engine_speed_limit)


def piston_acceleration(*, crank_angle: float, stroke: float, rod_length: float, engine_speed_limit: float) -> float:
    """Piston acceleration at a crank angle, at the engine speed limit.

    a = r ω² [cos θ + λ (cos 2θ + λ² sin⁴ θ) / (1 − λ² sin² θ)^(3/2)], with r = S/2, λ = r/L, ω = 2π n

    crank_angle [deg]: after TDC, θ; before TDC minus.
    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    Returns [m/s2]: plus away from the head; r ω² (1 + λ) at TDC, − r ω² (1 − λ) at BDC.
    Validity: no pin offset; the whole expression and not the trade's two terms, which agree with it at the dead
        centres only.
    Source: [1] Second derivative of piston_travel; any text on dynamics of machines (from memory).

    >>> at_tdc = piston_acceleration(crank_angle=0, stroke=0.089, rod_length=0.1524, engine_speed_limit=100)
    >>> round(at_tdc, 1)
    22697.6
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    return (2 * pi * engine_speed_limit) ** 2 * _pull(throw_of(stroke, rod_length), rod_length, radians(crank_angle))


def greatest_piston_acceleration(*, stroke: float, rod_length: float, engine_speed_limit: float) -> float:
    """Greatest piston acceleration in the upper half of the turn at the engine speed limit: at TDC.

    a = r ω² (1 + λ), with r = S/2, λ = r/L, ω = 2π n

    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    Returns [m/s2].
    Validity: no pin offset; what pulls on the rod and its bolts at the end of the exhaust stroke, where no gas pressure
        holds against it.
    Source: [1] Second derivative of piston_travel; any text on dynamics of machines (from memory).

    >>> round(greatest_piston_acceleration(stroke=0.089, rod_length=0.1524, engine_speed_limit=100), 1)
    22697.6
    """
    return piston_acceleration(
        crank_angle=0.0, stroke=stroke, rod_length=rod_length, engine_speed_limit=engine_speed_limit
    )


def greatest_piston_acceleration_bottom(*, stroke: float, rod_length: float, engine_speed_limit: float) -> float:
    """Greatest piston acceleration towards the head, in the lower half of the turn, by search.

    greatest − a between 90° and 180°

    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    Returns [m/s2]: a size, without its sign.
    Validity: no pin offset; at BDC itself only where the rod is twice the stroke or longer, with a shorter one
        before and after it.
    Source: [1] Second derivative of piston_travel; any text on dynamics of machines (from memory), searched.

    >>> round(greatest_piston_acceleration_bottom(stroke=0.089, rod_length=0.1524, engine_speed_limit=100), -1)
    12540.0
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    throw = throw_of(stroke, rod_length)
    most = greatest(lambda angle: -_pull(throw, rod_length, radians(angle)), 90.0, 180.0)
    return (2 * pi * engine_speed_limit) ** 2 * most


def _pull(throw: float, rod_length: float, angle: float) -> float:
    """Second derivative of the travel over the angle of the throw [rad]."""
    share, across = throw / rod_length, sin(angle)
    swing = share * (cos(2 * angle) + share**2 * across**4) / sqrt(1 - (share * across) ** 2) ** 3
    return throw * (cos(angle) + swing)
