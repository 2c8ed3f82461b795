"""How the piston moves, gudgeon pin on the cylinder's axis and that axis through the crank's.

rod_ratio          rod length to stroke
piston_travel      distance of the piston from TDC
mean_piston_speed  over a whole turn

Lengths in m, angles in degrees of crank, engine speed in revolutions per second, speed in m/s.
"""

from math import cos, radians, sin, sqrt

from logbook.specs.possible import above_zero


def rod_ratio(*, rod_length: float, stroke: float) -> float:
    """Rod ratio as the trade says it: length of the rod to STROKE (not to the throw, as many textbooks have it).

    L / S

    rod_length [m]: connecting rod, centre to centre, L.
    stroke [m]: way of the piston between its dead centres, S.
    Returns [bare]: half of the textbook's ratio of rod to throw.
    Validity: above 0.5, or the crank could not turn.
    Source: [1] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, section 2-1, there
        to the throw (from memory).

    >>> round(rod_ratio(rod_length=0.166, stroke=0.086026), 3)
    1.93
    """
    _throw(stroke, rod_length)
    return rod_length / stroke


def piston_travel(*, crank_angle: float, stroke: float, rod_length: float) -> float:
    """Piston travel: distance of the piston from TDC at a crank angle.

    x = r (1 − cos θ) + L − √(L² − r² sin² θ), with r = S/2

    crank_angle [deg]: after TDC, θ; any number of turns, before TDC minus.
    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    Returns [m]: 0 at TDC, the stroke at BDC.
    Validity: no offset of the gudgeon pin or the cylinder's axis, no play, no stretch.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equations 2.4 to 2.6 (from memory).
    Source: [2] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, section 2-1 (from
        memory).

    >>> round(piston_travel(crank_angle=246, stroke=0.088392, rod_length=0.14478) * 1e3, 4)
    67.9158
    """
    throw = _throw(stroke, rod_length)
    angle = radians(crank_angle)
    return throw * (1 - cos(angle)) + rod_length - sqrt(rod_length**2 - (throw * sin(angle)) ** 2)


def mean_piston_speed(*, stroke: float, engine_speed_limit: float) -> float:
    """Mean piston speed at the engine speed limit.

    v = 2 · S · n

    stroke [m]: way of the piston between its dead centres, S.
    engine_speed_limit [1/s]: revolutions of the crank in a second, n.
    Returns [m/s].
    Validity: the mean of a whole turn, two strokes; the greatest speed is about 1.6 times as much.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 2.2 (from memory).

    At 6000 rpm, which is 100 turns a second:

    >>> round(mean_piston_speed(stroke=0.089, engine_speed_limit=100), 2)
    17.8
    """
    above_zero(stroke=stroke, engine_speed_limit=engine_speed_limit)
    return 2 * stroke * engine_speed_limit


def _throw(stroke: float, rod_length: float) -> float:
    """Half the stroke, refused where the rod is too short for the crank to turn."""
    above_zero(stroke=stroke, rod_length=rod_length)
    throw = stroke / 2
    if rod_length <= throw:
        raise ValueError(
            f"a connecting rod of {1e3 * rod_length:.5g} mm is not longer than the throw of {1e3 * throw:.5g} mm, "
            "and the crank could not turn. Check rod_length, centre to centre, and stroke"
        )
    return throw
