"""Where the piston is, at any crank angle.

Position:    rod_ratio, piston_travel, piston_travel_with_offset, cylinder_volume, cylinder_volume_with_offset
Pin offset:  tdc_shift, piston_stroke
Speed:       mean_piston_speed; at any crank angle and its peaks in swing.py

Without a pin offset the gudgeon pin is on the cylinder's axis and that axis goes through the crank's. Lengths in m,
angles in degrees of crank, engine speed in revolutions per second, speed in m/s.
"""

from math import asin, cos, degrees, pi, radians, sin, sqrt

from logbook.specs.possible import above_zero, throw_of


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
    throw_of(stroke, rod_length)
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
    throw = throw_of(stroke, rod_length)
    angle = radians(crank_angle)
    return throw * (1 - cos(angle)) + rod_length - sqrt(rod_length**2 - (throw * sin(angle)) ** 2)


def piston_travel_with_offset(*, crank_angle: float, stroke: float, rod_length: float, pin_offset: float) -> float:
    """Piston travel from TDC at a crank angle, the gudgeon pin offset.

    x = √((L + r)² − e²) − r cos φ − √(L² − (r sin φ + e)²), with φ = θ − arcsin(e / (L + r)) and r = S/2

    crank_angle [deg]: after the piston's own TDC, θ, where its stop is found; before it minus.
    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    pin_offset [m]: of the pin from the cylinder's axis, e; plus to the thrust side, which the piston leans on in the
        power stroke, minus to the other.
    Returns [m]: 0 at TDC; a little more than the stroke at BDC.
    Validity: for an offset of the cylinder's axis alike, which moves the pin the other way; no play, no stretch.
    Source: [1] Geometry of the offset slider-crank; independent of any text.

    >>> crank = {"stroke": 0.080, "rod_length": 0.140}
    >>> round(piston_travel_with_offset(crank_angle=90, pin_offset=0.001, **crank) * 1e3, 4)
    45.9129
    """
    throw = throw_of(stroke, rod_length, pin_offset)
    angle = radians(crank_angle) - asin(pin_offset / (rod_length + throw))
    highest = sqrt((rod_length + throw) ** 2 - pin_offset**2)
    return highest - throw * cos(angle) - sqrt(rod_length**2 - (throw * sin(angle) + pin_offset) ** 2)


def tdc_shift(*, stroke: float, rod_length: float, pin_offset: float) -> float:
    """How far from the throw's upright the piston has its TDC, the gudgeon pin offset.

    δ = arcsin(e / (L + r)), with r = S/2

    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    pin_offset [m]: of the pin from the cylinder's axis, e; plus to the thrust side.
    Returns [deg]: plus where the piston is at TDC before the throw stands upright.
    Validity: what a piston stop and a degree wheel find is the piston's TDC already.
    Source: [1] Geometry of the offset slider-crank; independent of any text.

    >>> round(tdc_shift(stroke=0.080, rod_length=0.140, pin_offset=0.001), 6)
    0.318312
    """
    throw = throw_of(stroke, rod_length, pin_offset)
    return degrees(asin(pin_offset / (rod_length + throw)))


def piston_stroke(*, stroke: float, rod_length: float, pin_offset: float) -> float:
    """Way of the piston between its dead centres, the gudgeon pin offset.

    √((L + r)² − e²) − √((L − r)² − e²), with r = S/2

    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    pin_offset [m]: of the pin from the cylinder's axis, e; the side does not matter.
    Returns [m]: a little over twice the throw.
    Validity: the swept volume is worked out from the stroke as stated; the difference is some millionths of it.
    Source: [1] Geometry of the offset slider-crank; independent of any text.

    >>> round(piston_stroke(stroke=0.080, rod_length=0.140, pin_offset=0.001) * 1e3, 6)
    80.002222
    """
    throw = throw_of(stroke, rod_length, pin_offset)
    return sqrt((rod_length + throw) ** 2 - pin_offset**2) - sqrt((rod_length - throw) ** 2 - pin_offset**2)


def cylinder_volume(
    *, crank_angle: float, bore: float, stroke: float, rod_length: float, clearance_volume: float
) -> float:
    """Volume above the piston at a crank angle.

    V = V_c + π/4 · B² · x

    crank_angle [deg]: after TDC, θ; before TDC minus.
    bore [m]: diameter of the cylinder, B.
    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    clearance_volume [m3]: what is left above the piston at TDC, V_c.
    Returns [m3]: the clearance volume at TDC, that and the swept volume at BDC.
    Validity: as piston_travel, which gives x.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equations 2.4 to 2.6 (from memory).
    Source: [2] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, equation 2-14 and
        example 2-1 (from memory).

    >>> book = {"bore": 0.086026, "stroke": 0.086026, "rod_length": 0.166, "clearance_volume": 58.8235e-6}
    >>> round(cylinder_volume(crank_angle=20, **book) * 1e6, 1)
    77.7
    """
    above_zero(bore=bore, clearance_volume=clearance_volume)
    travel = piston_travel(crank_angle=crank_angle, stroke=stroke, rod_length=rod_length)
    return clearance_volume + pi / 4 * bore**2 * travel


def cylinder_volume_with_offset(
    *, crank_angle: float, bore: float, stroke: float, rod_length: float, clearance_volume: float, pin_offset: float
) -> float:
    """Volume above the piston at a crank angle, the gudgeon pin offset.

    V = V_c + π/4 · B² · x

    crank_angle [deg]: after the piston's own TDC, θ; before it minus.
    bore [m]: diameter of the cylinder, B.
    stroke [m]: twice the throw of the crankshaft, S.
    rod_length [m]: connecting rod, centre to centre, L.
    clearance_volume [m3]: what is left above the piston at its TDC, V_c.
    pin_offset [m]: of the pin from the cylinder's axis; plus to the thrust side.
    Returns [m3]: the clearance volume at TDC.
    Validity: as piston_travel_with_offset, which gives x.
    Source: [1] As cylinder_volume, by piston_travel_with_offset; independent of any text.

    >>> crank = {"stroke": 0.080, "rod_length": 0.140, "bore": 0.080, "clearance_volume": 50e-6}
    >>> round(cylinder_volume_with_offset(crank_angle=90, pin_offset=0.001, **crank) * 1e6, 2)
    280.78
    """
    above_zero(bore=bore, clearance_volume=clearance_volume)
    crank = {"stroke": stroke, "rod_length": rod_length, "pin_offset": pin_offset}
    return clearance_volume + pi / 4 * bore**2 * piston_travel_with_offset(crank_angle=crank_angle, **crank)


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
