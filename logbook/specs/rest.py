"""The rest volume: all that is left above the piston at TDC but the chamber and the crown.

From its parts:    rest_volume_of_parts, rest_volume_with_crevice
From a claim:      rest_volume_of_ratio, rest_volume_of_other_pistons
What follows:      clearance_volume_of_rest

It belongs to a block, its crank train and a gasket, not to a head: once known it serves every head and every crown over
them. Lengths in m, volumes in m3; the signs are those of volumes.py.
"""

from math import pi

from logbook.specs.compression import clearance_volume_of_ratio
from logbook.specs.possible import above_zero, some_room


def rest_volume_of_parts(*, gasket_volume: float, deck_volume: float) -> float:
    """Rest volume from the gasket and the deck, the top land crevice left out.

    V_rest = V_gasket + V_deck

    gasket_volume [m3]: opening of the compressed gasket, V_gasket.
    deck_volume [m3]: plus where the crown stays below the deck, minus where it stands above, V_deck.
    Returns [m3]: minus where a proud piston fills more than the gasket leaves.
    Validity: any; goes with clearance_volume, which leaves the crevice out.
    Source: [1] Addition of volumes; common practice, no source.

    >>> round(rest_volume_of_parts(gasket_volume=8.4377e-6, deck_volume=5.1481e-6) * 1e6, 4)
    13.5858
    """
    return gasket_volume + deck_volume


def rest_volume_with_crevice(*, gasket_volume: float, deck_volume: float, crevice_volume: float) -> float:
    """Rest volume from the gasket and the deck, the top land crevice counted.

    V_rest = V_gasket + V_deck + V_crevice

    gasket_volume [m3]: opening of the compressed gasket, V_gasket.
    deck_volume [m3]: plus where the crown stays below the deck, minus where it stands above, V_deck.
    crevice_volume [m3]: the ring of space around the top land, V_crevice.
    Returns [m3].
    Validity: goes with clearance_volume_with_crevice.
    Source: [1] Addition of volumes; common practice, no source.

    >>> rest = rest_volume_with_crevice(gasket_volume=8.4377e-6, deck_volume=5.1481e-6, crevice_volume=1.0245e-6)
    >>> round(rest * 1e6, 4)
    14.6103
    """
    return gasket_volume + deck_volume + crevice_volume


def rest_volume_of_ratio(
    *, swept_volume: float, compression_ratio: float, chamber_volume: float, crown_volume: float
) -> float:
    """Rest volume that a claimed compression ratio leaves for gasket, deck and crevice.

    V_rest = V_s / (ε − 1) − V_chamber − V_crown

    swept_volume [m3]: what the piston sweeps between its dead centres, V_s.
    compression_ratio [bare]: static ratio as it is claimed, ε.
    chamber_volume [m3]: combustion chamber of the head that the claim was stated for, V_chamber.
    crown_volume [m3]: plus of a dish, minus of a raised crown, of the pistons that it was stated for, V_crown.
    Returns [m3].
    Validity: as good as the claim. Near 9:1 a tenth of a ratio is one and a half per cent of the clearance volume.
    Source: [1] The way back from compression_ratio and clearance_volume; common practice, no source.

    >>> rest = rest_volume_of_ratio(
    ...     swept_volume=500e-6, compression_ratio=9.0, chamber_volume=46e-6, crown_volume=11e-6
    ... )
    >>> round(rest * 1e6, 2)
    5.5
    """
    clearance = clearance_volume_of_ratio(swept_volume=swept_volume, compression_ratio=compression_ratio)
    return clearance - chamber_volume - crown_volume


def rest_volume_of_other_pistons(
    *, rest_volume: float, bore: float, compression_height: float, former_compression_height: float
) -> float:
    """Rest volume carried to pistons of another compression height, which stand that much higher or lower.

    V_rest = V_rest,former − π/4 · B² · (h − h_former)

    rest_volume [m3]: with the former pistons, V_rest,former.
    bore [m]: diameter of the cylinder, B.
    compression_height [m]: of the pistons it is wanted for, from the pin's centre to the flat of the crown, h.
    former_compression_height [m]: of the pistons it was found with, h_former.
    Returns [m3].
    Validity: the same block, crankshaft and connecting rods.
    Source: [1] Geometry of a cylinder; common practice, no source.

    >>> rest = rest_volume_of_other_pistons(
    ...     rest_volume=5.5e-6, bore=0.086, compression_height=0.0328, former_compression_height=0.0330
    ... )
    >>> round(rest * 1e6, 3)
    6.662
    """
    above_zero(bore=bore, compression_height=compression_height)
    return rest_volume - pi / 4 * bore**2 * (compression_height - former_compression_height)


def clearance_volume_of_rest(*, chamber_volume: float, crown_volume: float, rest_volume: float) -> float:
    """Clearance volume where the gasket or the deck is not known but what they leave together is.

    V_c = V_chamber + V_crown + V_rest

    chamber_volume [m3]: combustion chamber in the head, by burette, valves and plug fitted, V_chamber.
    crown_volume [m3]: plus of a dish, minus of a raised crown, V_crown.
    rest_volume [m3]: gasket and deck, and the crevice where it counts, V_rest.
    Returns [m3].
    Validity: that of the rest volume.
    Source: [1] Addition of volumes; common practice, no source.

    >>> clearance = clearance_volume_of_rest(chamber_volume=42e-6, crown_volume=11e-6, rest_volume=5.5e-6)
    >>> round(clearance * 1e6, 2)
    58.5
    """
    return some_room(chamber_volume + crown_volume + rest_volume)
