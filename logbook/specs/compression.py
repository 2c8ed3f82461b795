"""Compression ratios.

compression_ratio            of one cylinder, from its volumes
clearance_volume_of_ratio    the way back: the clearance volume that a ratio needs
mean_compression_ratio       over the cylinders
compression_ratio_spread     over the cylinders, greatest less least
effective_compression_ratio, effective_compression_ratio_with_offset  from inlet closing on

Volumes in m3, lengths in m, angles in degrees of crank; ratios are bare numbers, 9.2 for 9.2:1.
"""

from logbook.specs.every import Every
from logbook.specs.motion import piston_stroke, piston_travel, piston_travel_with_offset
from logbook.specs.possible import above_zero, some_cylinder


def compression_ratio(*, swept_volume: float, clearance_volume: float) -> float:
    """Compression ratio of one cylinder (static, geometric).

    ε = (V_s + V_c) / V_c

    swept_volume [m3]: what the piston sweeps between its dead centres, V_s.
    clearance_volume [m3]: what is left above the piston at TDC, V_c.
    Returns [bare].
    Validity: geometry only, no valve timing: see effective_compression_ratio. V_s / V_c, which stands in some texts,
        is 1 too small.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 2.2 (from memory).
    Source: [2] FAA-H-8083-32, Aviation Maintenance Technician Handbook, Powerplant, on compression ratio (from
        memory).

    >>> round(compression_ratio(swept_volume=716.6222e-6, clearance_volume=82.5858e-6), 4)
    9.6773
    """
    above_zero(swept_volume=swept_volume, clearance_volume=clearance_volume)
    return (swept_volume + clearance_volume) / clearance_volume


def clearance_volume_of_ratio(*, swept_volume: float, compression_ratio: float) -> float:
    """Clearance volume that a compression ratio needs.

    V_c = V_s / (ε − 1)

    swept_volume [m3]: what the piston sweeps between its dead centres, V_s.
    compression_ratio [bare]: static ratio, ε.
    Returns [m3].
    Validity: a ratio above 1; the inverse of compression_ratio.
    Source: [1] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, example 2-1 (from
        memory).

    >>> round(clearance_volume_of_ratio(swept_volume=500e-6, compression_ratio=9.5) * 1e6, 2)
    58.82
    """
    above_zero(swept_volume=swept_volume)
    return swept_volume / (_above_one(compression_ratio) - 1)


def mean_compression_ratio(*, compression_ratio: Every) -> float:
    """Compression ratio, mean of the cylinders.

    ε̄ = Σ ε / z

    compression_ratio [bare]: static ratio of every cylinder, ε; z of them.
    Returns [bare].
    Validity: any; the mean alone hides an odd chamber, so the spread belongs beside it.
    Source: [1] Arithmetic mean; common practice, no source.

    >>> round(mean_compression_ratio(compression_ratio=[9.2, 9.3, 9.2, 9.3]), 2)
    9.25
    """
    some_cylinder(compression_ratio=compression_ratio)
    return sum(compression_ratio) / len(compression_ratio)


def compression_ratio_spread(*, compression_ratio: Every) -> float:
    """Spread of the compression ratio between the cylinders.

    Δε = greatest ε − least ε

    compression_ratio [bare]: static ratio of every cylinder, ε.
    Returns [bare]: never below 0.
    Validity: any; what is known once for all cylinders (a gasket, a stroke) adds nothing to it.
    Source: [1] Range of a sample; common practice, no source.

    >>> round(compression_ratio_spread(compression_ratio=[9.2, 9.3, 9.15]), 2)
    0.15
    """
    some_cylinder(compression_ratio=compression_ratio)
    return max(compression_ratio) - min(compression_ratio)


def effective_compression_ratio(
    *, compression_ratio: float, stroke: float, rod_length: float, inlet_closes: float
) -> float:
    """Effective compression ratio (trade: dynamic ratio), from the cylinder's volume at inlet closing.

    ε_eff = 1 + (x / S) · (ε − 1), with x the piston travel at 180° + IVC

    compression_ratio [bare]: static ratio, ε.
    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    inlet_closes [deg]: inlet valve closing, IVC; plus after BDC, minus before it, at the lift at which the camshaft
        was checked.
    Returns [bare]: never above the static ratio; equal to it where the valve closes at BDC.
    Validity: holds at the checking lift of inlet_closes and no other, so two ratios at different checking lifts
        cannot be compared. Geometry only, no ram effect. Closing within half a turn of BDC.
    Source: [1] W. W. Pulkrabek, Engineering Fundamentals of the Internal Combustion Engine, 1997, section 3-9 (from
        memory).

    >>> ratio = effective_compression_ratio(compression_ratio=10, stroke=0.088392, rod_length=0.14478, inlet_closes=66)
    >>> round(ratio, 4)
    7.9151
    """
    _before_tdc(inlet_closes)
    left = piston_travel(crank_angle=180 + inlet_closes, stroke=stroke, rod_length=rod_length)
    return 1 + left / stroke * (_above_one(compression_ratio) - 1)


def effective_compression_ratio_with_offset(
    *, compression_ratio: float, stroke: float, rod_length: float, inlet_closes: float, pin_offset: float
) -> float:
    """Effective compression ratio from the cylinder's volume at inlet closing, the gudgeon pin offset.

    ε_eff = 1 + (x / s) · (ε − 1), with x the piston travel at 180° + IVC after the piston's own TDC, s its whole way

    compression_ratio [bare]: static ratio, ε.
    stroke [m]: twice the throw of the crankshaft.
    rod_length [m]: connecting rod, centre to centre, L.
    inlet_closes [deg]: inlet valve closing, IVC; plus after BDC, minus before it, counted from half a turn after the
        piston's TDC, as a piston stop and a degree wheel find it.
    pin_offset [m]: of the pin from the cylinder's axis; plus to the thrust side.
    Returns [bare]: never above the static ratio.
    Validity: holds at the checking lift of inlet_closes and no other. Geometry only, no ram effect. Closing within half
        a turn of BDC.
    Source: [1] As effective_compression_ratio, by piston_travel_with_offset; independent of any text.

    >>> crank = {"stroke": 0.088392, "rod_length": 0.14478, "pin_offset": 0.001}
    >>> ratio = effective_compression_ratio_with_offset(compression_ratio=10, inlet_closes=66, **crank)
    >>> round(ratio, 4)
    7.9045
    """
    _before_tdc(inlet_closes)
    crank = {"stroke": stroke, "rod_length": rod_length, "pin_offset": pin_offset}
    left = piston_travel_with_offset(crank_angle=180 + inlet_closes, **crank)
    return 1 + left / piston_stroke(**crank) * (_above_one(compression_ratio) - 1)


def _before_tdc(inlet_closes: float) -> None:
    if not -180 < inlet_closes < 180:
        raise ValueError(
            f"inlet closing {inlet_closes:.4g} deg from BDC lies beyond TDC, where nothing is left to compress. Check "
            "inlet_closes: degrees of crank, after BDC or before BDC"
        )


def _above_one(ratio: float) -> float:
    """The ratio handed back, refused where it would compress nothing."""
    if not ratio > 1:
        raise ValueError(
            f"a compression ratio of {ratio:.4g} compresses nothing: it must be above 1. Check compression_ratio"
        )
    return ratio
