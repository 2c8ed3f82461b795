"""How the piston moves and is pulled where its gudgeon pin stands off the cylinder's axis; without it see swing.py.

Speed:         piston_speed_with_offset, greatest_piston_speed_with_offset, greatest_piston_speed_angle_with_offset
Acceleration:  piston_acceleration_with_offset, greatest_piston_acceleration_with_offset,
               greatest_piston_acceleration_bottom_with_offset

The way down and the way up are then unlike. Lengths in m, angles in degrees of crank after the piston's own TDC, engine
speed in revolutions per second, speed in m/s, acceleration in m/s2.
"""

from math import asin, cos, degrees, pi, radians, sin, sqrt

from logbook.quantity.search import crossing, greatest
from logbook.specs.possible import above_zero, throw_of


def piston_speed_with_offset(
    *, crank_angle: float, stroke: float, rod_length: float, engine_speed_limit: float, pin_offset: float
) -> float:
    """Piston speed at a crank angle, at the engine speed limit, the gudgeon pin offset.

    v = ω [r sin φ + s r cos φ / √(L² − s²)], with s = r sin φ + e, φ = θ − arcsin(e / (L + r)), r = S/2, ω = 2π n

    crank_angle [deg]: after the piston's own TDC, θ; before TDC minus.
    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    pin_offset [m]: of the pin from the cylinder's axis, e; plus to the thrust side.
    Returns [m/s]: plus away from the head.
    Validity: the speed of the crank taken as steady over the turn; no play, no stretch.
    Source: [1] First derivative of piston_travel_with_offset; independent of any text.

    >>> crank = {"stroke": 0.080, "rod_length": 0.140, "engine_speed_limit": 100}
    >>> round(piston_speed_with_offset(crank_angle=90, pin_offset=0.001, **crank), 3)
    25.175
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    throw = throw_of(stroke, rod_length, pin_offset)
    angle = radians(crank_angle) - asin(pin_offset / (rod_length + throw))
    aside = throw * sin(angle) + pin_offset
    swing = aside * throw * cos(angle) / sqrt(rod_length**2 - aside**2)
    return 2 * pi * engine_speed_limit * (throw * sin(angle) + swing)


def greatest_piston_speed_angle_with_offset(*, stroke: float, rod_length: float, pin_offset: float) -> float:
    """Crank angle at which the piston is fastest on its way down, by search, the gudgeon pin offset.

    θ where rod and throw stand nearly square: the derivative of the speed passes through nought between TDC and 90°

    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    pin_offset [m]: of the pin from the cylinder's axis, e; plus to the thrust side.
    Returns [deg]: after the piston's own TDC; on its way up it is that of the other side, before TDC.
    Validity: does not depend on the engine speed; no play, no stretch.
    Source: [1] Second derivative of piston_travel_with_offset, searched; independent of any text.

    >>> round(greatest_piston_speed_angle_with_offset(stroke=0.089, rod_length=0.1524, pin_offset=0.0), 3)
    74.867
    """
    throw = throw_of(stroke, rod_length, pin_offset)
    shift = degrees(asin(pin_offset / (rod_length + throw)))
    return crossing(lambda angle: _pull(throw, rod_length, pin_offset, radians(angle)), 0.0, 120.0) + shift


def greatest_piston_speed_with_offset(
    *, stroke: float, rod_length: float, engine_speed_limit: float, pin_offset: float
) -> float:
    """Greatest piston speed of a turn at the engine speed limit, by search, the gudgeon pin offset.

    the greater of v on the way down and on the way up, where rod and throw stand nearly square

    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    pin_offset [m]: of the pin from the cylinder's axis, e; the side does not matter.
    Returns [m/s].
    Validity: the speed of the crank taken as steady over the turn; no play, no stretch.
    Source: [1] Second derivative of piston_travel_with_offset, searched; independent of any text.

    >>> crank = {"stroke": 0.089, "rod_length": 0.1524, "engine_speed_limit": 100}
    >>> round(greatest_piston_speed_with_offset(pin_offset=0.0, **crank), 3)
    29.135
    """
    crank = {"stroke": stroke, "rod_length": rod_length}
    return max(
        piston_speed_with_offset(
            crank_angle=greatest_piston_speed_angle_with_offset(pin_offset=side, **crank),
            engine_speed_limit=engine_speed_limit,
            pin_offset=side,
            **crank,
        )
        for side in (pin_offset, -pin_offset)
    )


def piston_acceleration_with_offset(
    *, crank_angle: float, stroke: float, rod_length: float, engine_speed_limit: float, pin_offset: float
) -> float:
    """Piston acceleration at a crank angle, at the engine speed limit, the gudgeon pin offset.

    a = ω² [r cos φ + (r² cos² φ − s r sin φ) / √(L² − s²) + s² r² cos² φ / (L² − s²)^(3/2)], with s = r sin φ + e,
    φ = θ − arcsin(e / (L + r)), r = S/2, ω = 2π n

    crank_angle [deg]: after the piston's own TDC, θ; before TDC minus.
    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    pin_offset [m]: of the pin from the cylinder's axis, e; plus to the thrust side.
    Returns [m/s2]: plus away from the head.
    Validity: the speed of the crank taken as steady over the turn; no play, no stretch.
    Source: [1] Second derivative of piston_travel_with_offset; independent of any text.

    >>> crank = {"stroke": 0.080, "rod_length": 0.140, "engine_speed_limit": 100}
    >>> round(piston_acceleration_with_offset(crank_angle=90, pin_offset=0.001, **crank), 0)
    -4749.0
    """
    above_zero(engine_speed_limit=engine_speed_limit)
    throw = throw_of(stroke, rod_length, pin_offset)
    angle = radians(crank_angle) - asin(pin_offset / (rod_length + throw))
    return (2 * pi * engine_speed_limit) ** 2 * _pull(throw, rod_length, pin_offset, angle)


def greatest_piston_acceleration_with_offset(
    *, stroke: float, rod_length: float, engine_speed_limit: float, pin_offset: float
) -> float:
    """Greatest piston acceleration in the upper half of the turn at the engine speed limit, the gudgeon pin offset.

    greatest a within 30° of TDC, by search

    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    pin_offset [m]: of the pin from the cylinder's axis, e; the side does not matter.
    Returns [m/s2].
    Validity: what pulls on the rod and its bolts at the end of the exhaust stroke, where no gas pressure holds against
        it.
    Source: [1] Second derivative of piston_travel_with_offset, searched; independent of any text.

    >>> crank = {"stroke": 0.089, "rod_length": 0.1524, "engine_speed_limit": 100}
    >>> round(greatest_piston_acceleration_with_offset(pin_offset=0.0, **crank), 1)
    22697.6
    """
    return _greatest(1, -30.0, 30.0, stroke, rod_length, engine_speed_limit, pin_offset)


def greatest_piston_acceleration_bottom_with_offset(
    *, stroke: float, rod_length: float, engine_speed_limit: float, pin_offset: float
) -> float:
    """Greatest piston acceleration towards the head, in the lower half of the turn, the gudgeon pin offset.

    the greatest − a on the way down and on the way up, by search

    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    pin_offset [m]: of the pin from the cylinder's axis, e; the side does not matter.
    Returns [m/s2]: a size, without its sign.
    Validity: the speed of the crank taken as steady over the turn; no play, no stretch.
    Source: [1] Second derivative of piston_travel_with_offset, searched; independent of any text.

    >>> crank = {"stroke": 0.089, "rod_length": 0.1524, "engine_speed_limit": 100}
    >>> round(greatest_piston_acceleration_bottom_with_offset(pin_offset=0.0, **crank), -1)
    12540.0
    """
    halves = ((90.0, 180.0), (180.0, 270.0))
    return max(_greatest(-1, *half, stroke, rod_length, engine_speed_limit, pin_offset) for half in halves)


def _greatest(
    way: int, low: float, high: float, stroke: float, rod_length: float, engine_speed_limit: float, pin_offset: float
) -> float:
    """The greatest acceleration one way, between two angles."""
    crank = {"stroke": stroke, "rod_length": rod_length, "pin_offset": pin_offset}
    turning = {"engine_speed_limit": engine_speed_limit, **crank}
    return greatest(lambda angle: way * piston_acceleration_with_offset(crank_angle=angle, **turning), low, high)


def _pull(throw: float, rod_length: float, pin_offset: float, angle: float) -> float:
    """Second derivative of the travel over the angle of the throw [rad] from its upright."""
    aside, up = throw * sin(angle) + pin_offset, throw * cos(angle)
    lean = sqrt(rod_length**2 - aside**2)
    return up + (up**2 - aside * throw * sin(angle)) / lean + (aside * up) ** 2 / lean**3
