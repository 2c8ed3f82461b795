"""When a valve opens and closes by its lift table: events, durations and lobe centres at any checking lift.

Events:        inlet_opens_of_table, inlet_closes_of_table, exhaust_opens_of_table, exhaust_closes_of_table
Durations:     inlet_duration_of_table, exhaust_duration_of_table
Lobe centres:  inlet_lobe_centre_of_table, exhaust_lobe_centre_of_table, by mid-points at the checking lift
               inlet_peak_centre, exhaust_peak_centre, the way back: where the table itself stands

A table is a curve of valve lift over degrees of crank from the lobe centre near the peak, plus on the closing side; the
peak centre says where that stands, plus after TDC for the inlet and plus before TDC for the exhaust. Between the
readings the curve is the monotone one of quantity/curve.py. Signs of events are those of timing.py; lifts in m.
"""

from logbook.quantity.curve import Curve
from logbook.specs.crossing import falls_through, rises_through


def inlet_opens_of_table(*, inlet_lift: Curve, inlet_peak_centre: float, checking_lift: float) -> float:
    """Inlet opens, from the lift table.

    IVO = −(PC + φ_o), with φ_o the table's angle where the lift rises through h

    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    checking_lift [m]: h.
    Returns [deg]: of crank, plus before TDC.
    Validity: within the table; near the seat a few hundredths of lift are many degrees, so it holds at this lift alone.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3, names the events (from
        memory).

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(inlet_opens_of_table(inlet_lift=half_cosine, inlet_peak_centre=105, checking_lift=0.005), 6)
    -45.0
    """
    return -(inlet_peak_centre + rises_through(inlet_lift, checking_lift))


def inlet_closes_of_table(*, inlet_lift: Curve, inlet_peak_centre: float, checking_lift: float) -> float:
    """Inlet closes, from the lift table.

    IVC = PC + φ_c − 180°, with φ_c the table's angle where the lift falls through h

    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    checking_lift [m]: h.
    Returns [deg]: of crank, plus after BDC.
    Validity: within the table; holds at this lift alone.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3, names the events (from
        memory).

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(inlet_closes_of_table(inlet_lift=half_cosine, inlet_peak_centre=105, checking_lift=0.005), 6)
    -15.0
    """
    return inlet_peak_centre + falls_through(inlet_lift, checking_lift) - 180


def exhaust_opens_of_table(*, exhaust_lift: Curve, exhaust_peak_centre: float, checking_lift: float) -> float:
    """Exhaust opens, from the lift table.

    EVO = PC − φ_o − 180°, with φ_o the table's angle where the lift rises through h

    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    checking_lift [m]: h.
    Returns [deg]: of crank, plus before BDC.
    Validity: within the table; holds at this lift alone.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3, names the events (from
        memory).

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(exhaust_opens_of_table(exhaust_lift=half_cosine, exhaust_peak_centre=110, checking_lift=0.005), 6)
    -10.0
    """
    return exhaust_peak_centre - rises_through(exhaust_lift, checking_lift) - 180


def exhaust_closes_of_table(*, exhaust_lift: Curve, exhaust_peak_centre: float, checking_lift: float) -> float:
    """Exhaust closes, from the lift table.

    EVC = φ_c − PC, with φ_c the table's angle where the lift falls through h

    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    checking_lift [m]: h.
    Returns [deg]: of crank, plus after TDC.
    Validity: within the table; holds at this lift alone.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3, names the events (from
        memory).

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(exhaust_closes_of_table(exhaust_lift=half_cosine, exhaust_peak_centre=110, checking_lift=0.005), 6)
    -50.0
    """
    return falls_through(exhaust_lift, checking_lift) - exhaust_peak_centre


def inlet_duration_of_table(*, inlet_lift: Curve, checking_lift: float) -> float:
    """Inlet duration at a checking lift, from the lift table.

    D_i = φ_c − φ_o

    inlet_lift [m]: of the valve, over degrees of crank.
    checking_lift [m]: h, at which the curve is cut.
    Returns [deg]: of crank.
    Validity: within the table; less at a greater lift.
    Source: [1] The width of a curve; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(inlet_duration_of_table(inlet_lift=half_cosine, checking_lift=0.005), 6)
    120.0
    """
    return falls_through(inlet_lift, checking_lift) - rises_through(inlet_lift, checking_lift)


def exhaust_duration_of_table(*, exhaust_lift: Curve, checking_lift: float) -> float:
    """Exhaust duration at a checking lift, from the lift table.

    D_e = φ_c − φ_o

    exhaust_lift [m]: of the valve, over degrees of crank.
    checking_lift [m]: h, at which the curve is cut.
    Returns [deg]: of crank.
    Validity: within the table; less at a greater lift.
    Source: [1] The width of a curve; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(exhaust_duration_of_table(exhaust_lift=half_cosine, checking_lift=0.005), 6)
    120.0
    """
    return falls_through(exhaust_lift, checking_lift) - rises_through(exhaust_lift, checking_lift)


def inlet_lobe_centre_of_table(*, inlet_lift: Curve, inlet_peak_centre: float, checking_lift: float) -> float:
    """Inlet lobe centre at a checking lift, by mid-points of the lift table.

    ICL = PC + (φ_o + φ_c) / 2

    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    inlet_peak_centre [deg]: where that stands, PC, of crank, plus after TDC.
    checking_lift [m]: h.
    Returns [deg]: of crank, plus after TDC.
    Validity: of a lobe with unlike flanks it wanders with the lift, and is not the angle of greatest lift.
    Source: [1] Mid-points of equal lift on both flanks; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(inlet_lobe_centre_of_table(inlet_lift=half_cosine, inlet_peak_centre=105, checking_lift=0.002), 6)
    105.0
    """
    return inlet_peak_centre + _middle(inlet_lift, checking_lift)


def exhaust_lobe_centre_of_table(*, exhaust_lift: Curve, exhaust_peak_centre: float, checking_lift: float) -> float:
    """Exhaust lobe centre at a checking lift, by mid-points of the lift table.

    ECL = PC − (φ_o + φ_c) / 2

    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    exhaust_peak_centre [deg]: where that stands, PC, of crank, plus before TDC.
    checking_lift [m]: h.
    Returns [deg]: of crank, plus before TDC.
    Validity: of a lobe with unlike flanks it wanders with the lift, and is not the angle of greatest lift.
    Source: [1] Mid-points of equal lift on both flanks; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(exhaust_lobe_centre_of_table(exhaust_lift=half_cosine, exhaust_peak_centre=110, checking_lift=0.002), 6)
    110.0
    """
    return exhaust_peak_centre - _middle(exhaust_lift, checking_lift)


def inlet_peak_centre(*, inlet_lift: Curve, inlet_lobe_centre: float, checking_lift: float) -> float:
    """Where the inlet lift table stands in the engine, from the lobe centre at the checking lift.

    PC = ICL − (φ_o + φ_c) / 2

    inlet_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    inlet_lobe_centre [deg]: as installed, ICL, of crank, plus after TDC, at the checking lift.
    checking_lift [m]: h, the lift of that lobe centre.
    Returns [deg]: of crank, plus after TDC. Of a lobe with like flanks it is the lobe centre itself.
    Validity: the table is of this camshaft; the inverse of inlet_lobe_centre_of_table.
    Source: [1] Mid-points of equal lift on both flanks; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(inlet_peak_centre(inlet_lift=half_cosine, inlet_lobe_centre=105, checking_lift=0.002), 6)
    105.0
    """
    return inlet_lobe_centre - _middle(inlet_lift, checking_lift)


def exhaust_peak_centre(*, exhaust_lift: Curve, exhaust_lobe_centre: float, checking_lift: float) -> float:
    """Where the exhaust lift table stands in the engine, from the lobe centre at the checking lift.

    PC = ECL + (φ_o + φ_c) / 2

    exhaust_lift [m]: of the valve, over degrees of crank from the lobe centre near the peak.
    exhaust_lobe_centre [deg]: as installed, ECL, of crank, plus before TDC, at the checking lift.
    checking_lift [m]: h, the lift of that lobe centre.
    Returns [deg]: of crank, plus before TDC. Of a lobe with like flanks it is the lobe centre itself.
    Validity: the table is of this camshaft; the inverse of exhaust_lobe_centre_of_table.
    Source: [1] Mid-points of equal lift on both flanks; common practice, no source.

    >>> half_cosine = Curve.through((-120, -60, 0, 60, 120), (0, 0.005, 0.010, 0.005, 0))
    >>> round(exhaust_peak_centre(exhaust_lift=half_cosine, exhaust_lobe_centre=110, checking_lift=0.002), 6)
    110.0
    """
    return exhaust_lobe_centre + _middle(exhaust_lift, checking_lift)


def _middle(lift: Curve, height: float) -> float:
    return (rises_through(lift, height) + falls_through(lift, height)) / 2
