"""The shape of a worn or new bore, from readings at named heights and in two directions.

Taper:    bore_taper_of_six, bore_taper_of_four, bore_taper_of_two
Ovality:  bore_ovality_of_six, bore_ovality_of_four, bore_ovality_of_two

The readings stand under `bore` in a measurement: top along, top across, middle along, ... along and across the
crankshaft. Lengths in m. Both figures are ranges, so what is smaller than the error of a reading says nothing yet.
"""

from logbook.specs.possible import above_zero


def bore_taper_of_six(
    *,
    bore_top_along: float,
    bore_top_across: float,
    bore_middle_along: float,
    bore_middle_across: float,
    bore_bottom_along: float,
    bore_bottom_across: float,
) -> float:
    """Taper of a bore: how far its diameter differs between heights, in the worse of the two directions.

    greatest − least of top, middle and bottom; along or across, whichever is more

    bore_top_along [m]: at the top of the ring travel, along the crankshaft.
    bore_top_across [m]: at the top of the ring travel, across it, where the piston leans.
    bore_middle_along [m]: half way down, along.
    bore_middle_across [m]: half way down, across.
    bore_bottom_along [m]: at the bottom of the ring travel, along.
    bore_bottom_across [m]: at the bottom of the ring travel, across.
    Returns [m]: never below 0.
    Validity: any; barrel and waist count as taper too. The maker's limit decides.
    Source: [1] Range of readings; common practice, no source.

    >>> mm = {"top_along": 80.03, "top_across": 80.05, "middle_along": 80.01, "middle_across": 80.02}
    >>> mm |= {"bottom_along": 80.00, "bottom_across": 80.01}
    >>> round(bore_taper_of_six(**{f"bore_{where}": 1e-3 * size for where, size in mm.items()}) * 1e3, 3)
    0.04
    """
    along = (bore_top_along, bore_middle_along, bore_bottom_along)
    across = (bore_top_across, bore_middle_across, bore_bottom_across)
    above_zero(bore=min(*along, *across))
    return max(max(along) - min(along), max(across) - min(across))


def bore_taper_of_four(
    *, bore_top_along: float, bore_top_across: float, bore_bottom_along: float, bore_bottom_across: float
) -> float:
    """Taper of a bore from top and bottom alone.

    | top − bottom |; along or across, whichever is more

    bore_top_along [m]: at the top of the ring travel, along the crankshaft.
    bore_top_across [m]: at the top of the ring travel, across it.
    bore_bottom_along [m]: at the bottom of the ring travel, along.
    bore_bottom_across [m]: at the bottom of the ring travel, across.
    Returns [m]: never below 0.
    Validity: blind to a barrel or a waist, which the middle would show.
    Source: [1] Range of readings; common practice, no source.

    >>> mm = {"top_along": 80.03, "top_across": 80.05, "bottom_along": 80.00, "bottom_across": 80.01}
    >>> round(bore_taper_of_four(**{f"bore_{where}": 1e-3 * size for where, size in mm.items()}) * 1e3, 3)
    0.04
    """
    above_zero(bore=min(bore_top_along, bore_top_across, bore_bottom_along, bore_bottom_across))
    return max(abs(bore_top_along - bore_bottom_along), abs(bore_top_across - bore_bottom_across))


def bore_taper_of_two(*, bore_top_across: float, bore_bottom_across: float) -> float:
    """Taper of a bore from two readings across the crankshaft, where it wears most.

    | top − bottom |

    bore_top_across [m]: at the top of the ring travel, across the crankshaft.
    bore_bottom_across [m]: at the bottom of the ring travel, across.
    Returns [m]: never below 0.
    Validity: one direction only.
    Source: [1] Range of readings; common practice, no source.

    >>> round(bore_taper_of_two(bore_top_across=0.08005, bore_bottom_across=0.08001) * 1e3, 3)
    0.04
    """
    above_zero(bore=min(bore_top_across, bore_bottom_across))
    return abs(bore_top_across - bore_bottom_across)


def bore_ovality_of_six(
    *,
    bore_top_along: float,
    bore_top_across: float,
    bore_middle_along: float,
    bore_middle_across: float,
    bore_bottom_along: float,
    bore_bottom_across: float,
) -> float:
    """Ovality (US out-of-round) of a bore: the difference of its diameters across and along, at the worst height.

    | across − along |; at the top, in the middle or at the bottom, whichever is most

    bore_top_along [m]: at the top of the ring travel, along the crankshaft.
    bore_top_across [m]: at the top of the ring travel, across it, where the piston leans.
    bore_middle_along [m]: half way down, along.
    bore_middle_across [m]: half way down, across.
    bore_bottom_along [m]: at the bottom of the ring travel, along.
    bore_bottom_across [m]: at the bottom of the ring travel, across.
    Returns [m]: never below 0.
    Validity: a difference of two diameters: blind to an oval that stands at 45° and to three lobes. The maker's limit
        decides.
    Source: [1] Range of readings; common practice, no source.

    >>> mm = {"top_along": 80.03, "top_across": 80.05, "middle_along": 80.01, "middle_across": 80.02}
    >>> mm |= {"bottom_along": 80.00, "bottom_across": 80.01}
    >>> round(bore_ovality_of_six(**{f"bore_{where}": 1e-3 * size for where, size in mm.items()}) * 1e3, 3)
    0.02
    """
    above_zero(bore=min(bore_middle_along, bore_middle_across))
    ends = bore_ovality_of_four(
        bore_top_along=bore_top_along,
        bore_top_across=bore_top_across,
        bore_bottom_along=bore_bottom_along,
        bore_bottom_across=bore_bottom_across,
    )
    return max(ends, abs(bore_middle_across - bore_middle_along))


def bore_ovality_of_four(
    *, bore_top_along: float, bore_top_across: float, bore_bottom_along: float, bore_bottom_across: float
) -> float:
    """Ovality of a bore from top and bottom alone.

    | across − along |; at the top or at the bottom, whichever is more

    bore_top_along [m]: at the top of the ring travel, along the crankshaft.
    bore_top_across [m]: at the top of the ring travel, across it.
    bore_bottom_along [m]: at the bottom of the ring travel, along.
    bore_bottom_across [m]: at the bottom of the ring travel, across.
    Returns [m]: never below 0.
    Validity: a difference of two diameters: blind to an oval that stands at 45° and to three lobes.
    Source: [1] Range of readings; common practice, no source.

    >>> mm = {"top_along": 80.03, "top_across": 80.05, "bottom_along": 80.00, "bottom_across": 80.01}
    >>> round(bore_ovality_of_four(**{f"bore_{where}": 1e-3 * size for where, size in mm.items()}) * 1e3, 3)
    0.02
    """
    above_zero(bore=min(bore_top_along, bore_top_across, bore_bottom_along, bore_bottom_across))
    return max(abs(bore_top_across - bore_top_along), abs(bore_bottom_across - bore_bottom_along))


def bore_ovality_of_two(*, bore_top_along: float, bore_top_across: float) -> float:
    """Ovality of a bore from two readings at the top, where it wears most.

    | across − along |

    bore_top_along [m]: at the top of the ring travel, along the crankshaft.
    bore_top_across [m]: at the top of the ring travel, across it.
    Returns [m]: never below 0.
    Validity: one height only.
    Source: [1] Range of readings; common practice, no source.

    >>> round(bore_ovality_of_two(bore_top_along=0.08003, bore_top_across=0.08005) * 1e3, 3)
    0.02
    """
    above_zero(bore=min(bore_top_along, bore_top_across))
    return abs(bore_top_across - bore_top_along)
