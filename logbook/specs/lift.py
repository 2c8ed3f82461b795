"""How far a valve opens by its lift table.

Greatest lift: inlet_valve_lift_of_table, exhaust_valve_lift_of_table
At an angle:   inlet_lift_at, exhaust_lift_at
Lift at TDC:   inlet_lift_at_tdc, exhaust_lift_at_tdc
Area:          inlet_lift_area, exhaust_lift_area

The table is the curve of lift_table.py: lift in m over degrees of crank from the lobe centre near the peak.
"""

from logbook.quantity.curve import Curve
from logbook.specs.crossing import falls_through, rises_through


def inlet_valve_lift_of_table(*, inlet_lift: Curve) -> float:
    """Greatest inlet valve lift, from the lift table.

    h_max

    inlet_lift [m]: of the valve, over degrees of crank.
    Returns [m].
    Validity: as read; between two readings the peak may be a little higher.
    Source: [1] The greatest of a table; common practice, no source.

    >>> inlet_valve_lift_of_table(inlet_lift=Curve.through((-60, 0, 60), (0.001, 0.010, 0.001)))
    0.01
    """
    return inlet_lift.top


def exhaust_valve_lift_of_table(*, exhaust_lift: Curve) -> float:
    """Greatest exhaust valve lift, from the lift table.

    h_max

    exhaust_lift [m]: of the valve, over degrees of crank.
    Returns [m].
    Validity: as read; between two readings the peak may be a little higher.
    Source: [1] The greatest of a table; common practice, no source.

    >>> exhaust_valve_lift_of_table(exhaust_lift=Curve.through((-60, 0, 60), (0.001, 0.010, 0.001)))
    0.01
    """
    return exhaust_lift.top


def inlet_lift_at(*, crank_angle: float, inlet_lift: Curve, inlet_peak_centre: float) -> float:
    """Inlet valve lift at a crank angle.

    h(θ − PC)

    crank_angle [deg]: after the TDC of the overlap, θ, before it minus.
    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    Returns [m].
    Validity: beyond the table the lift of its end is taken.
    Source: [1] The lift table; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> inlet_lift_at(crank_angle=105, inlet_lift=half_cosine, inlet_peak_centre=105)
    0.01
    """
    return inlet_lift.value(crank_angle - inlet_peak_centre)


def exhaust_lift_at(*, crank_angle: float, exhaust_lift: Curve, exhaust_peak_centre: float) -> float:
    """Exhaust valve lift at a crank angle.

    h(θ + PC)

    crank_angle [deg]: after the TDC of the overlap, θ, before it minus.
    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    Returns [m].
    Validity: beyond the table the lift of its end is taken.
    Source: [1] The lift table; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> exhaust_lift_at(crank_angle=-110, exhaust_lift=half_cosine, exhaust_peak_centre=110)
    0.01
    """
    return exhaust_lift.value(crank_angle + exhaust_peak_centre)


def inlet_lift_at_tdc(*, inlet_lift: Curve, inlet_peak_centre: float) -> float:
    """Inlet valve lift at the TDC of the overlap: a check of the timing that needs no degree wheel.

    h(−PC)

    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    Returns [m]: more where the camshaft is advanced.
    Validity: beyond the table the lift of its end is taken.
    Source: [1] Common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> inlet_lift_at_tdc(inlet_lift=half_cosine, inlet_peak_centre=60)
    0.005
    """
    return inlet_lift.value(-inlet_peak_centre)


def exhaust_lift_at_tdc(*, exhaust_lift: Curve, exhaust_peak_centre: float) -> float:
    """Exhaust valve lift at the TDC of the overlap: a check of the timing that needs no degree wheel.

    h(PC)

    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    Returns [m]: less where the camshaft is advanced.
    Validity: beyond the table the lift of its end is taken.
    Source: [1] Common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> exhaust_lift_at_tdc(exhaust_lift=half_cosine, exhaust_peak_centre=60)
    0.005
    """
    return exhaust_lift.value(exhaust_peak_centre)


def inlet_lift_area(*, inlet_lift: Curve, checking_lift: float) -> float:
    """Area under the inlet lift curve, from opening to closing at the checking lift.

    A = ∫ h dφ, from φ_o to φ_c

    inlet_lift [m]: of the valve, over degrees of crank.
    checking_lift [m]: the lift at which the valve counts as open; all of the lift counts, not what is above this.
    Returns [m deg]: metres by degrees of crank.
    Validity: within the table; compares camshafts in one engine, valve size and port left aside.
    Source: [1] The integral itself; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(inlet_lift_area(inlet_lift=half_cosine, checking_lift=0.0001) * 1e3)
    1250
    """
    return _area(inlet_lift, checking_lift)


def exhaust_lift_area(*, exhaust_lift: Curve, checking_lift: float) -> float:
    """Area under the exhaust lift curve, from opening to closing at the checking lift.

    A = ∫ h dφ, from φ_o to φ_c

    exhaust_lift [m]: of the valve, over degrees of crank.
    checking_lift [m]: the lift at which the valve counts as open; all of the lift counts, not what is above this.
    Returns [m deg]: metres by degrees of crank.
    Validity: within the table; compares camshafts in one engine, valve size and port left aside.
    Source: [1] The integral itself; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(exhaust_lift_area(exhaust_lift=half_cosine, checking_lift=0.0001) * 1e3)
    1250
    """
    return _area(exhaust_lift, checking_lift)


def _area(lift: Curve, height: float) -> float:
    return lift.area(rises_through(lift, height), falls_through(lift, height))
