"""How near each valve comes to the piston, over the cycle.

valve_to_piston_inlet, valve_to_piston_exhaust               the least clearance
valve_to_piston_inlet_angle, valve_to_piston_exhaust_angle   where it is
valve_to_piston_inlet_at, valve_to_piston_exhaust_at         at one crank angle

All along the bore, in m; angles in degrees of crank, plus after TDC for the inlet and plus before it for the exhaust.
"""

from __future__ import annotations

from functools import lru_cache
from math import cos, radians
from typing import NamedTuple

from logbook.quantity.curve import Curve
from logbook.specs.motion import piston_travel

_FURTHEST = 90.0  # degrees from TDC: beyond, the piston runs away from any valve
_STEPS = 18  # of 10 degrees, to find the valley; then it is divided
_DIVISIONS = 35
_GOLDEN = 0.6180339887498949


def valve_to_piston_inlet(
    *,
    valve_room_inlet: float,
    inlet_valve_tilt: float,
    inlet_lift: Curve,
    inlet_peak_centre: float,
    stroke: float,
    rod_length: float,
) -> float:
    """Least clearance of the inlet valve over the piston, along the bore.

    min over θ of h₀ + x(θ) − h(θ − PC) · cos α

    valve_room_inlet [m]: at TDC with the valve closed, along the bore, h₀.
    inlet_valve_tilt [deg]: of the valve to the bore, α.
    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak, h.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    Returns [m]: minus where they meet.
    Validity: cold and turned by hand, from 90 degrees before TDC to 90 after it: no stretch, no float of the valve, no
        play. Published least figures for a running engine differ: 1.5 to 2.5 mm for the inlet.
    Source: [1] Geometry; common practice, no source.

    >>> lift = Curve.through((-140, -100, -50, 0, 50, 100, 140), (0, 0.003, 0.008, 0.0106, 0.008, 0.003, 0))
    >>> least = valve_to_piston_inlet(valve_room_inlet=0.0045, inlet_valve_tilt=15, inlet_lift=lift,
    ...     inlet_peak_centre=106, stroke=0.079, rod_length=0.134)
    >>> round(least * 1e3, 2)
    1.88
    """
    gap = _Gap(valve_room_inlet, inlet_valve_tilt, inlet_lift, inlet_peak_centre, stroke, rod_length)
    return gap.at(_nearest(gap))


def valve_to_piston_inlet_angle(
    *,
    valve_room_inlet: float,
    inlet_valve_tilt: float,
    inlet_lift: Curve,
    inlet_peak_centre: float,
    stroke: float,
    rod_length: float,
) -> float:
    """Crank angle at which the inlet valve is nearest to the piston.

    the θ of min over θ of h₀ + x(θ) − h(θ − PC) · cos α

    valve_room_inlet [m]: at TDC with the valve closed, along the bore, h₀: it moves nothing but the clearance.
    inlet_valve_tilt [deg]: of the valve to the bore, α.
    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak, h.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    Returns [deg]: of crank, plus after TDC; usually 5 to 15, where the measuring is worth while.
    Validity: as valve_to_piston_inlet.
    Source: [1] Geometry; common practice, no source.

    >>> lift = Curve.through((-140, -100, -50, 0, 50, 100, 140), (0, 0.003, 0.008, 0.0106, 0.008, 0.003, 0))
    >>> angle = valve_to_piston_inlet_angle(valve_room_inlet=0.0045, inlet_valve_tilt=15, inlet_lift=lift,
    ...     inlet_peak_centre=106, stroke=0.079, rod_length=0.134)
    >>> round(angle)
    5
    """
    return _nearest(_Gap(valve_room_inlet, inlet_valve_tilt, inlet_lift, inlet_peak_centre, stroke, rod_length))


def valve_to_piston_exhaust(
    *,
    valve_room_exhaust: float,
    exhaust_valve_tilt: float,
    exhaust_lift: Curve,
    exhaust_peak_centre: float,
    stroke: float,
    rod_length: float,
) -> float:
    """Least clearance of the exhaust valve over the piston, along the bore.

    min over θ of h₀ + x(θ) − h(θ + PC) · cos α

    valve_room_exhaust [m]: at TDC with the valve closed, along the bore, h₀.
    exhaust_valve_tilt [deg]: of the valve to the bore, α.
    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak, h.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    Returns [m]: minus where they meet.
    Validity: cold and turned by hand, from 90 degrees before TDC to 90 after it: no stretch, no float of the valve, no
        play. Published least figures for a running engine differ: 2.0 to 2.5 mm for the exhaust.
    Source: [1] Geometry; common practice, no source.

    >>> lift = Curve.through((-140, -100, -50, 0, 50, 100, 140), (0, 0.003, 0.008, 0.0106, 0.008, 0.003, 0))
    >>> least = valve_to_piston_exhaust(valve_room_exhaust=0.0045, exhaust_valve_tilt=15, exhaust_lift=lift,
    ...     exhaust_peak_centre=106, stroke=0.079, rod_length=0.134)
    >>> round(least * 1e3, 2)
    1.88
    """
    gap = _Gap(valve_room_exhaust, exhaust_valve_tilt, exhaust_lift, -exhaust_peak_centre, stroke, rod_length)
    return gap.at(_nearest(gap))


def valve_to_piston_exhaust_angle(
    *,
    valve_room_exhaust: float,
    exhaust_valve_tilt: float,
    exhaust_lift: Curve,
    exhaust_peak_centre: float,
    stroke: float,
    rod_length: float,
) -> float:
    """Crank angle at which the exhaust valve is nearest to the piston.

    the θ of min over θ of h₀ + x(θ) − h(θ + PC) · cos α

    valve_room_exhaust [m]: at TDC with the valve closed, along the bore, h₀: it moves nothing but the clearance.
    exhaust_valve_tilt [deg]: of the valve to the bore, α.
    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak, h.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    Returns [deg]: of crank, plus before TDC; usually 5 to 15, where the measuring is worth while.
    Validity: as valve_to_piston_exhaust.
    Source: [1] Geometry; common practice, no source.

    >>> lift = Curve.through((-140, -100, -50, 0, 50, 100, 140), (0, 0.003, 0.008, 0.0106, 0.008, 0.003, 0))
    >>> angle = valve_to_piston_exhaust_angle(valve_room_exhaust=0.0045, exhaust_valve_tilt=15, exhaust_lift=lift,
    ...     exhaust_peak_centre=106, stroke=0.079, rod_length=0.134)
    >>> round(angle)
    5
    """
    return -_nearest(
        _Gap(valve_room_exhaust, exhaust_valve_tilt, exhaust_lift, -exhaust_peak_centre, stroke, rod_length)
    )


def valve_to_piston_inlet_at(
    *,
    crank_angle: float,
    valve_room_inlet: float,
    inlet_valve_tilt: float,
    inlet_lift: Curve,
    inlet_peak_centre: float,
    stroke: float,
    rod_length: float,
) -> float:
    """Clearance of the inlet valve over the piston at a crank angle, along the bore.

    h₀ + x(θ) − h(θ − PC) · cos α

    crank_angle [deg]: after the TDC of the overlap, θ, before it minus.
    valve_room_inlet [m]: at TDC with the valve closed, along the bore, h₀.
    inlet_valve_tilt [deg]: of the valve to the bore, α.
    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak, h.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    Returns [m].
    Validity: as valve_to_piston_inlet.
    Source: [1] Geometry; common practice, no source.

    >>> lift = Curve.through((-140, -100, -50, 0, 50, 100, 140), (0, 0.003, 0.008, 0.0106, 0.008, 0.003, 0))
    >>> gap = valve_to_piston_inlet_at(crank_angle=-34, valve_room_inlet=0.0045, inlet_valve_tilt=0, inlet_lift=lift,
    ...     inlet_peak_centre=106, stroke=0.079, rod_length=0.134)
    >>> round(gap * 1e3, 2)
    13.09
    """
    gap = _Gap(valve_room_inlet, inlet_valve_tilt, inlet_lift, inlet_peak_centre, stroke, rod_length)
    return gap.at(crank_angle)


def valve_to_piston_exhaust_at(
    *,
    crank_angle: float,
    valve_room_exhaust: float,
    exhaust_valve_tilt: float,
    exhaust_lift: Curve,
    exhaust_peak_centre: float,
    stroke: float,
    rod_length: float,
) -> float:
    """Clearance of the exhaust valve over the piston at a crank angle, along the bore.

    h₀ + x(θ) − h(θ + PC) · cos α

    crank_angle [deg]: after the TDC of the overlap, θ, before it minus.
    valve_room_exhaust [m]: at TDC with the valve closed, along the bore, h₀.
    exhaust_valve_tilt [deg]: of the valve to the bore, α.
    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak, h.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    stroke [m]: way of the piston between its dead centres.
    rod_length [m]: connecting rod, centre to centre.
    Returns [m].
    Validity: as valve_to_piston_exhaust.
    Source: [1] Geometry; common practice, no source.

    >>> lift = Curve.through((-140, -100, -50, 0, 50, 100, 140), (0, 0.003, 0.008, 0.0106, 0.008, 0.003, 0))
    >>> gap = valve_to_piston_exhaust_at(crank_angle=34, valve_room_exhaust=0.0045, exhaust_valve_tilt=0,
    ...     exhaust_lift=lift, exhaust_peak_centre=106, stroke=0.079, rod_length=0.134)
    >>> round(gap * 1e3, 2)
    13.09
    """
    gap = _Gap(valve_room_exhaust, exhaust_valve_tilt, exhaust_lift, -exhaust_peak_centre, stroke, rod_length)
    return gap.at(crank_angle)


class _Gap(NamedTuple):
    """Valve over piston: room and tilt, the lift with its centre after TDC, the crank."""

    room: float
    tilt: float
    lift: Curve
    centre: float
    stroke: float
    rod_length: float

    def at(self, crank_angle: float) -> float:
        travel = piston_travel(crank_angle=crank_angle, stroke=self.stroke, rod_length=self.rod_length)
        return self.room + travel - self.lift.value(crank_angle - self.centre) * cos(radians(self.tilt))


def _nearest(gap: _Gap) -> float:
    """Where the gap is least, degrees after TDC; the room moves it nowhere, so cylinders share the search."""
    return _valley(gap._replace(room=0.0))


@lru_cache(maxsize=512)
def _valley(gap: _Gap) -> float:
    """The lowest of coarse steps, then its valley by golden section."""
    width = 2 * _FURTHEST / _STEPS
    lowest = min((-_FURTHEST + number * width for number in range(_STEPS + 1)), key=gap.at)
    low, high = lowest - width, lowest + width
    left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_left, at_right = gap.at(left), gap.at(right)
    for _ in range(_DIVISIONS):
        if at_left < at_right:
            high, right, at_right = right, left, at_left
            left = high - _GOLDEN * (high - low)
            at_left = gap.at(left)
        else:
            low, left, at_left = left, right, at_right
            right = low + _GOLDEN * (high - low)
            at_right = gap.at(right)
    return (low + high) / 2
