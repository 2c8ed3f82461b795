"""Valve timing, from the four events as they are read off a degree wheel.

Durations:     inlet_duration, exhaust_duration, and as on the card: inlet_duration_of_card, exhaust_duration_of_card
Lobe centres:  inlet_lobe_centre, exhaust_lobe_centre, lobe_separation
Overlap:       valve_overlap
The way back:  inlet_opens_of_lobe, inlet_closes_of_lobe, exhaust_opens_of_lobe, exhaust_closes_of_lobe
Installed:     camshaft_advance, and against its card: inlet_early, exhaust_early

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


def inlet_duration_of_card(*, card_inlet_duration: float) -> float:
    """Inlet duration as the card has it: turning the camshaft moves its events and leaves their distance.

    D_i = D_i of the card

    card_inlet_duration [deg]: of crank, or from the card's two events.
    Returns [deg]: of crank.
    Validity: at the checking lift of the card, lash as on the card: more lash shortens it.
    Source: [1] Common practice, no source.

    >>> inlet_duration_of_card(card_inlet_duration=276)
    276
    """
    return _open_at_all("inlet", card_inlet_duration)


def exhaust_duration_of_card(*, card_exhaust_duration: float) -> float:
    """Exhaust duration as the card has it: turning the camshaft moves its events and leaves their distance.

    D_e = D_e of the card

    card_exhaust_duration [deg]: of crank, or from the card's two events.
    Returns [deg]: of crank.
    Validity: at the checking lift of the card, lash as on the card: more lash shortens it.
    Source: [1] Common practice, no source.

    >>> exhaust_duration_of_card(card_exhaust_duration=276)
    276
    """
    return _open_at_all("exhaust", card_exhaust_duration)


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


def inlet_opens_of_lobe(*, inlet_duration: float, inlet_lobe_centre: float) -> float:
    """Inlet opens, from the duration and the lobe centre.

    IVO = D_i / 2 − ICL

    inlet_duration [deg]: D_i, of crank, at one checking lift.
    inlet_lobe_centre [deg]: ICL, of crank, plus after TDC, midway between the events at that lift.
    Returns [deg]: of crank, plus before TDC.
    Validity: at the checking lift of the duration; a lobe centre taken near the peak of a lobe with unlike flanks does
        not belong to it.
    Source: [1] The inverse of inlet_duration and inlet_lobe_centre; common practice, no source.

    >>> inlet_opens_of_lobe(inlet_duration=280, inlet_lobe_centre=106)
    34.0
    """
    return _open_at_all("inlet", inlet_duration) / 2 - inlet_lobe_centre


def inlet_closes_of_lobe(*, inlet_duration: float, inlet_lobe_centre: float) -> float:
    """Inlet closes, from the duration and the lobe centre.

    IVC = D_i / 2 + ICL − 180°

    inlet_duration [deg]: D_i, of crank, at one checking lift.
    inlet_lobe_centre [deg]: ICL, of crank, plus after TDC, midway between the events at that lift.
    Returns [deg]: of crank, plus after BDC.
    Validity: at the checking lift of the duration; a lobe centre taken near the peak of a lobe with unlike flanks does
        not belong to it.
    Source: [1] The inverse of inlet_duration and inlet_lobe_centre; common practice, no source.

    >>> inlet_closes_of_lobe(inlet_duration=280, inlet_lobe_centre=106)
    66.0
    """
    return _open_at_all("inlet", inlet_duration) / 2 + inlet_lobe_centre - 180


def exhaust_opens_of_lobe(*, exhaust_duration: float, exhaust_lobe_centre: float) -> float:
    """Exhaust opens, from the duration and the lobe centre.

    EVO = D_e / 2 + ECL − 180°

    exhaust_duration [deg]: D_e, of crank, at one checking lift.
    exhaust_lobe_centre [deg]: ECL, of crank, plus before TDC, midway between the events at that lift.
    Returns [deg]: of crank, plus before BDC.
    Validity: at the checking lift of the duration; a lobe centre taken near the peak of a lobe with unlike flanks does
        not belong to it.
    Source: [1] The inverse of exhaust_duration and exhaust_lobe_centre; common practice, no source.

    >>> exhaust_opens_of_lobe(exhaust_duration=280, exhaust_lobe_centre=114)
    74.0
    """
    return _open_at_all("exhaust", exhaust_duration) / 2 + exhaust_lobe_centre - 180


def exhaust_closes_of_lobe(*, exhaust_duration: float, exhaust_lobe_centre: float) -> float:
    """Exhaust closes, from the duration and the lobe centre.

    EVC = D_e / 2 − ECL

    exhaust_duration [deg]: D_e, of crank, at one checking lift.
    exhaust_lobe_centre [deg]: ECL, of crank, plus before TDC, midway between the events at that lift.
    Returns [deg]: of crank, plus after TDC.
    Validity: at the checking lift of the duration; a lobe centre taken near the peak of a lobe with unlike flanks does
        not belong to it.
    Source: [1] The inverse of exhaust_duration and exhaust_lobe_centre; common practice, no source.

    >>> exhaust_closes_of_lobe(exhaust_duration=280, exhaust_lobe_centre=114)
    26.0
    """
    return _open_at_all("exhaust", exhaust_duration) / 2 - exhaust_lobe_centre


def camshaft_advance(*, inlet_lobe_centre: float, exhaust_lobe_centre: float) -> float:
    """Camshaft advance: how far the lobes stand before the place that is even about TDC.

    (ECL − ICL) / 2 = LSA − ICL

    inlet_lobe_centre [deg]: ICL, of crank, plus after TDC.
    exhaust_lobe_centre [deg]: ECL, of crank, plus before TDC.
    Returns [deg]: of crank; plus is early, minus late. What is ground into the camshaft is in it, so it must not be
        added once more.
    Validity: a single camshaft: early makes all four events earlier, moves torque down the range and brings the inlet
        valve nearer to the piston. With two camshafts it says only how they stand to each other.
    Source: [1] Common practice, no source.

    >>> camshaft_advance(inlet_lobe_centre=106, exhaust_lobe_centre=114)
    4.0
    """
    return (exhaust_lobe_centre - inlet_lobe_centre) / 2


def inlet_early(*, card_inlet_lobe_centre: float, inlet_lobe_centre: float) -> float:
    """How far the inlet camshaft stands ahead of its card.

    ICL of the card − ICL

    card_inlet_lobe_centre [deg]: of crank, plus after TDC, as the card has it, or midway between the card's events.
    inlet_lobe_centre [deg]: ICL as installed, at the same checking lift.
    Returns [deg]: of crank; plus is early (advanced), minus late (retarded).
    Validity: both at one checking lift. Of a single camshaft it must be the same for the exhaust.
    Source: [1] Common practice, no source.

    >>> inlet_early(card_inlet_lobe_centre=106, inlet_lobe_centre=110)
    -4
    """
    return card_inlet_lobe_centre - inlet_lobe_centre


def exhaust_early(*, exhaust_lobe_centre: float, card_exhaust_lobe_centre: float) -> float:
    """How far the exhaust camshaft stands ahead of its card.

    ECL − ECL of the card

    exhaust_lobe_centre [deg]: ECL as installed, of crank, plus before TDC.
    card_exhaust_lobe_centre [deg]: as the card has it, or midway between the card's events, at the same checking lift.
    Returns [deg]: of crank; plus is early (advanced), minus late (retarded).
    Validity: both at one checking lift. Of a single camshaft it must be the same for the inlet.
    Source: [1] Common practice, no source.

    >>> exhaust_early(exhaust_lobe_centre=104, card_exhaust_lobe_centre=108)
    -4
    """
    return exhaust_lobe_centre - card_exhaust_lobe_centre


def _open_at_all(valve: str, duration: float) -> float:
    """The duration handed back, refused where the valve would not open or never close."""
    if not 0 < duration < 720:
        raise ValueError(
            f"the {valve} valve would be open for {duration:.4g} deg of the 720 of one cycle. Check {valve}_opens and "
            f"{valve}_closes: which dead centre, before or after"
        )
    return duration
