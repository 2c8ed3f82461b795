"""Valve timing, from the four events as they are read off a degree wheel.

Durations:     inlet_duration, exhaust_duration
Lobe centres:  inlet_lobe_centre, exhaust_lobe_centre, lobe_separation
Overlap:       valve_overlap

Signs: inlet opens plus before TDC, inlet closes plus after BDC, exhaust opens plus before BDC, exhaust closes plus
after TDC; minus is the other side of that dead centre. All angles in degrees of crank, only the lobe separation in
degrees of camshaft. Every figure holds at the one lift at which its events were checked; events at different lifts are
never mixed.
"""


def inlet_duration(*, inlet_opens: float, inlet_closes: float) -> float:
    """Inlet duration (US intake duration): how long the inlet valve is open.

    D_i = IVO + 180° + IVC

    inlet_opens [deg]: IVO, plus before TDC.
    inlet_closes [deg]: IVC, plus after BDC, at the same lift.
    Returns [deg]: of crank.
    Validity: at the checking lift of the events; at the seat it is 20 to 60 degrees longer than at 1.27 mm, 0.050 in.
    Source: [1] TM 9-8000, Principles of Automotive Vehicles, US Army, on valve timing, figures 2-54 and 2-55.

    >>> inlet_duration(inlet_opens=34, inlet_closes=66)
    280
    """
    return _open_at_all("inlet", inlet_opens + 180 + inlet_closes)


def exhaust_duration(*, exhaust_opens: float, exhaust_closes: float) -> float:
    """Exhaust duration: how long the exhaust valve is open.

    D_e = EVO + 180° + EVC

    exhaust_opens [deg]: EVO, plus before BDC.
    exhaust_closes [deg]: EVC, plus after TDC, at the same lift.
    Returns [deg]: of crank.
    Validity: at the checking lift of the events.
    Source: [1] TM 9-8000, Principles of Automotive Vehicles, US Army, on valve timing, figures 2-54 and 2-55.

    >>> exhaust_duration(exhaust_opens=74, exhaust_closes=26)
    280
    """
    return _open_at_all("exhaust", exhaust_opens + 180 + exhaust_closes)


def inlet_lobe_centre(*, inlet_opens: float, inlet_closes: float) -> float:
    """Inlet lobe centre (US intake centerline), after TDC: midway between opening and closing.

    ICL = (180° + IVC − IVO) / 2

    inlet_opens [deg]: IVO, plus before TDC.
    inlet_closes [deg]: IVC, plus after BDC, at the same lift.
    Returns [deg]: of crank, plus after TDC. Less is an advanced camshaft.
    Validity: of a lobe with unlike flanks this is not the angle of greatest lift.
    Source: [1] Midpoint of an arc; common practice, no source.

    >>> inlet_lobe_centre(inlet_opens=34, inlet_closes=66)
    106.0
    """
    return inlet_duration(inlet_opens=inlet_opens, inlet_closes=inlet_closes) / 2 - inlet_opens


def exhaust_lobe_centre(*, exhaust_opens: float, exhaust_closes: float) -> float:
    """Exhaust lobe centre (US exhaust centerline), before TDC: midway between opening and closing.

    ECL = (180° + EVO − EVC) / 2

    exhaust_opens [deg]: EVO, plus before BDC.
    exhaust_closes [deg]: EVC, plus after TDC, at the same lift.
    Returns [deg]: of crank, plus before TDC. More is an advanced camshaft.
    Validity: of a lobe with unlike flanks this is not the angle of greatest lift.
    Source: [1] Midpoint of an arc; common practice, no source.

    >>> exhaust_lobe_centre(exhaust_opens=74, exhaust_closes=26)
    114.0
    """
    return exhaust_duration(exhaust_opens=exhaust_opens, exhaust_closes=exhaust_closes) / 2 - exhaust_closes


def lobe_separation(*, inlet_lobe_centre: float, exhaust_lobe_centre: float) -> float:
    """Lobe separation, in degrees of CAMSHAFT: between the inlet and the exhaust lobe of one cylinder.

    LSA = (ICL + ECL) / 2

    inlet_lobe_centre [deg]: ICL, of crank, plus after TDC.
    exhaust_lobe_centre [deg]: ECL, of crank, plus before TDC.
    Returns [deg]: of camshaft: 110 of camshaft are 220 of crank.
    Validity: ground into a single camshaft; with two it changes as they are timed.
    Source: [1] Half of the angle at the crank; common practice, no source.

    >>> lobe_separation(inlet_lobe_centre=106, exhaust_lobe_centre=114)
    110.0
    """
    return (inlet_lobe_centre + exhaust_lobe_centre) / 2


def valve_overlap(*, inlet_opens: float, exhaust_closes: float) -> float:
    """Valve overlap: how long both valves are open around TDC.

    IVO + EVC

    inlet_opens [deg]: IVO, plus before TDC.
    exhaust_closes [deg]: EVC, plus after TDC, at the same lift.
    Returns [deg]: of crank. Minus where the exhaust closes before the inlet opens.
    Validity: at the checking lift of the events; at 1.27 mm (0.050 in) it is often minus, at the seat seldom.
    Source: [1] TM 9-8000, Principles of Automotive Vehicles, US Army, paragraph on valve overlap, figure 2-55.

    >>> valve_overlap(inlet_opens=28, exhaust_closes=45)
    73
    """
    return inlet_opens + exhaust_closes


def _open_at_all(valve: str, duration: float) -> float:
    """The duration handed back, refused where the valve would not open or never close."""
    if not 0 < duration < 720:
        raise ValueError(
            f"the {valve} valve would be open for {duration:.4g} deg of the 720 of one cycle. Check {valve}_opens and "
            f"{valve}_closes: which dead centre, before or after"
        )
    return duration
