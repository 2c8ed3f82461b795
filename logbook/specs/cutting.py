"""What must come off the head or the deck for a wanted compression ratio, and what may come off at all.

wanted_chamber_volume  the chamber that gives the ratio, all else as it is
head_cut_wanted        depth off the joint face, from the measured opening of the chamber
deck_cut_wanted        depth off the deck instead, from the bore
metal_left             what the joint face of the head may still lose
deck_metal_left        what the deck of the block may still lose

Volumes in m3, areas in m2, lengths in m; ratios are bare numbers.
"""

from math import pi

from logbook.specs.compression import clearance_volume_of_ratio
from logbook.specs.possible import above_zero


def wanted_chamber_volume(
    *, wanted_compression_ratio: float, swept_volume: float, clearance_volume: float, chamber_volume: float
) -> float:
    """Chamber volume that gives the wanted compression ratio, all else as it is.

    V_w = V_s / (ε_w − 1) − (V_c − V_chamber)

    wanted_compression_ratio [bare]: static ratio that is wanted, ε_w.
    swept_volume [m3]: what the piston sweeps between its dead centres, V_s.
    clearance_volume [m3]: what is left above the piston at TDC now, V_c.
    chamber_volume [m3]: combustion chamber in the head now, V_chamber.
    Returns [m3].
    Validity: geometry only; whether a casting, the fuel and the pressures allow it is for the builder to know.
    Source: [1] The inverse of compression_ratio; common practice, no source.

    >>> chamber = wanted_chamber_volume(
    ...     wanted_compression_ratio=10.5,
    ...     swept_volume=716.6222e-6,
    ...     clearance_volume=83.6103e-6,
    ...     chamber_volume=64.0e-6,
    ... )
    >>> round(chamber * 1e6, 4)
    55.8236
    """
    above_zero(clearance_volume=clearance_volume, chamber_volume=chamber_volume)
    needed = clearance_volume_of_ratio(swept_volume=swept_volume, compression_ratio=wanted_compression_ratio)
    chamber = needed - (clearance_volume - chamber_volume)
    if not chamber > 0:
        raise ValueError(
            f"no chamber gives a compression ratio of {wanted_compression_ratio:.4g}: gasket, deck and crown alone "
            f"leave {1e6 * (clearance_volume - chamber_volume):.4g} cc. Check wanted_compression_ratio, or change the "
            "crown or the gasket"
        )
    return chamber


def head_cut_wanted(*, chamber_volume: float, wanted_chamber_volume: float, chamber_opening: float) -> float:
    """Depth to take off the head's joint face for the wanted compression ratio.

    Δh ≈ (V_chamber − V_w) / A, first order: the walls taken as upright over the depth of the cut

    chamber_volume [m3]: combustion chamber in the head now, V_chamber.
    wanted_chamber_volume [m3]: chamber that the wanted ratio needs, V_w.
    chamber_opening [m2]: measured area of the chamber's opening in the joint face, A.
    Returns [m]: minus where the chamber must grow instead.
    Validity: up to about 1 mm. Where the walls slope inwards the opening shrinks with the cut, so a little less volume
        goes than is reckoned: 1 % for 0.5 mm off a chamber as a bowl of 50 mm radius and 20 mm depth. Cut short,
        measure the chamber again, then cut the rest. The head comes nearer to the crankshaft: mind valves, pushrods,
        the drive of an overhead camshaft and the joint faces of a vee's inlet manifold.
    Source: [1] Volume of a prism; common practice, no source.

    >>> cut = head_cut_wanted(chamber_volume=54.4543e-6, wanted_chamber_volume=51.9647e-6, chamber_opening=50.2655e-4)
    >>> round(cut * 1e3, 3)
    0.495
    """
    above_zero(chamber_volume=chamber_volume, wanted_chamber_volume=wanted_chamber_volume)
    above_zero(chamber_opening=chamber_opening)
    return (chamber_volume - wanted_chamber_volume) / chamber_opening


def deck_cut_wanted(*, chamber_volume: float, wanted_chamber_volume: float, bore: float) -> float:
    """Depth to take off the deck of the block for the wanted compression ratio, the head left as it is.

    Δh = (V_chamber − V_w) / (π/4 · B²)

    chamber_volume [m3]: combustion chamber in the head now, V_chamber.
    wanted_chamber_volume [m3]: chamber that the wanted ratio would need, V_w.
    bore [m]: diameter of the cylinder, B.
    Returns [m]: minus where the deck must grow instead, that is a thicker gasket.
    Validity: exact, walls being upright; the deck clearance and the squish lose as much, so look at both first.
    Source: [1] Volume of a cylinder; common practice, no source.

    >>> round(deck_cut_wanted(chamber_volume=64e-6, wanted_chamber_volume=60e-6, bore=0.1016) * 1e3, 3)
    0.493
    """
    above_zero(chamber_volume=chamber_volume, wanted_chamber_volume=wanted_chamber_volume, bore=bore)
    return (chamber_volume - wanted_chamber_volume) / (pi / 4 * bore**2)


def metal_left(*, metal_limit: float, metal_removed: float) -> float:
    """Metal that may still come off the joint face of the head.

    t_left = t_max − Σt

    metal_limit [m]: most that may come off in the whole life of the head, t_max.
    metal_removed [m]: what has come off so far, in other engines too, Σt.
    Returns [m]: minus where more is gone than may be.
    Validity: every cut is counted; where one is not, less is left than this says. Says nothing of valves that come
        nearer to the pistons.
    Source: [1] What is allowed less what is gone; common practice, no source.

    >>> round(metal_left(metal_limit=0.80e-3, metal_removed=0.50e-3) * 1e3, 3)
    0.3
    """
    return metal_limit - metal_removed


def deck_metal_left(*, deck_metal_limit: float, deck_metal_removed: float) -> float:
    """Metal that may still come off the deck of the block.

    t_left = t_max − Σt

    deck_metal_limit [m]: most that may come off in the whole life of the block, t_max.
    deck_metal_removed [m]: what has come off so far, Σt.
    Returns [m]: minus where more is gone than may be.
    Validity: as metal_left; says nothing of pistons that come to stand proud.
    Source: [1] As metal_left.

    >>> round(deck_metal_left(deck_metal_limit=0.50e-3, deck_metal_removed=0.45e-3) * 1e3, 3)
    0.05
    """
    return deck_metal_limit - deck_metal_removed
