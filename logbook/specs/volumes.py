"""Volumes and clearances of one cylinder, and the capacity of the engine.

Swept:      swept_volume, displacement, bore_stroke_ratio
Gasket:     gasket_volume_of_opening, gasket_volume_round
Crown:      crown_volume_dished, crown_volume_raised
Deck:       deck_volume, deck_clearance_of_stack, squish_clearance
Crevice:    crevice_volume
Clearance:  clearance_volume, clearance_volume_with_crevice

Signs: deck clearance is plus where the flat of the crown stays below the deck; crown volume is plus for a dish, which
adds to the clearance volume, and minus for a raised crown. Lengths in m, areas in m2, volumes in m3.
"""

from math import pi

from logbook.specs.every import Every
from logbook.specs.possible import above_zero, some_cylinder, some_room


def swept_volume(*, bore: float, stroke: float) -> float:
    """Swept volume of one cylinder.

    V_s = π/4 · B² · S

    bore [m]: diameter of the cylinder, B; of a worn one the mean of several readings.
    stroke [m]: way of the piston between its dead centres, S.
    Returns [m3].
    Validity: any round cylinder; with the gudgeon pin offset the stroke is a little over twice the throw.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 2.2 (from memory).

    >>> round(swept_volume(bore=0.086, stroke=0.086) * 1e6, 2)
    499.56
    """
    above_zero(bore=bore, stroke=stroke)
    return pi / 4 * bore**2 * stroke


def displacement(*, swept_volume: Every) -> float:
    """Engine capacity (US displacement): the swept volumes of all cylinders together.

    V_d = Σ V_s

    swept_volume [m3]: swept volume of every cylinder, V_s.
    Returns [m3].
    Validity: each cylinder counts with its own bore; a class rule or a tax paper may round bore and stroke first.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 2.2 (from memory).

    >>> round(displacement(swept_volume=[499.56e-6] * 4) * 1e6, 1)
    1998.2
    """
    some_cylinder(swept_volume=swept_volume)
    return sum(swept_volume)


def bore_stroke_ratio(*, bore: float, stroke: float) -> float:
    """Bore to stroke ratio: above 1 oversquare (short stroke), below 1 undersquare (long stroke).

    B / S

    bore [m]: diameter of the cylinder, B.
    stroke [m]: way of the piston between its dead centres, S.
    Returns [bare].
    Validity: any; some texts print the inverse, stroke to bore.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 2.2 (from memory).

    >>> round(bore_stroke_ratio(bore=0.1016, stroke=0.088392), 4)
    1.1494
    """
    above_zero(bore=bore, stroke=stroke)
    return bore / stroke


def gasket_volume_of_opening(*, gasket_opening: float, gasket_thickness: float) -> float:
    """Gasket volume from the measured area of an opening of any shape.

    V_g = A_g · t

    gasket_opening [m2]: area of the opening over one cylinder, A_g, by planimeter or squared paper.
    gasket_thickness [m]: thickness as compressed, t; best from the used gasket, near the fire ring.
    Returns [m3].
    Validity: the thickness of a new gasket gives too much volume; an opening that the chamber or the deck covers in
        part counts only as far as it is open.
    Source: [1] Geometry of a prism; common practice, no source.

    >>> round(gasket_volume_of_opening(gasket_opening=81.6814e-4, gasket_thickness=0.001) * 1e6, 4)
    8.1681
    """
    above_zero(gasket_opening=gasket_opening, gasket_thickness=gasket_thickness)
    return gasket_opening * gasket_thickness


def gasket_volume_round(*, gasket_bore: float, gasket_thickness: float) -> float:
    """Gasket volume of a round opening.

    V_g = π/4 · D_g² · t

    gasket_bore [m]: diameter of the opening in the gasket, D_g; not the bore of the cylinder, which is smaller.
    gasket_thickness [m]: thickness as compressed, t.
    Returns [m3].
    Validity: round openings only; one cut to the chamber's shape needs its area, see gasket_volume_of_opening.
    Source: [1] Geometry of a cylinder; common practice, no source.

    >>> round(gasket_volume_round(gasket_bore=0.10414, gasket_thickness=0.0009906) * 1e6, 4)
    8.4377
    """
    above_zero(gasket_bore=gasket_bore, gasket_thickness=gasket_thickness)
    return pi / 4 * gasket_bore**2 * gasket_thickness


def crown_volume_dished(*, dish_volume: float) -> float:
    """Crown volume of a dished piston, valve pockets included: it adds to the clearance volume.

    V_crown = + V_dish

    dish_volume [m3]: all that lies below the flat of the crown, V_dish, less what stands above it; 0 of a flat crown.
    Returns [m3]: plus, the dish adds.
    Validity: any; a dish entered as a dome moves the clearance volume by twice its size.
    Source: [1] Sign convention of this program; trade sheets differ.

    >>> crown_volume_dished(dish_volume=5.0e-6) > 0
    True
    """
    return dish_volume


def crown_volume_raised(*, dome_volume: float) -> float:
    """Crown volume of a raised crown (US dome): it takes from the clearance volume.

    V_crown = − V_dome

    dome_volume [m3]: all that stands above the flat of the crown, V_dome, less the valve pockets.
    Returns [m3]: minus, the dome takes away.
    Validity: any; a dome entered as a dish moves the clearance volume by twice its size.
    Source: [1] Sign convention of this program; trade sheets differ.

    >>> round(crown_volume_raised(dome_volume=7.963e-6) * 1e6, 3)
    -7.963
    """
    return -dome_volume


def deck_volume(*, bore: float, deck_clearance: float) -> float:
    """Deck volume: the disc between the flat of the crown at TDC and the deck.

    V_deck = π/4 · B² · c

    bore [m]: diameter of the cylinder, B.
    deck_clearance [m]: from deck to the flat of the crown at TDC, c; plus below the deck, minus above it.
    Returns [m3]: minus where the piston stands proud.
    Validity: the piston upright in its bore; some sheets use the opposite sign of the clearance.
    Source: [1] Geometry of a cylinder; common practice, no source.

    >>> round(deck_volume(bore=0.1016, deck_clearance=0.000635) * 1e6, 4)
    5.1481
    """
    above_zero(bore=bore)
    return pi / 4 * bore**2 * deck_clearance


def deck_clearance_of_stack(
    *, deck_height: float, stroke: float, rod_length: float, compression_height: float
) -> float:
    """Deck clearance from the stack of throw, rod and piston, where none was measured.

    c = H − (S/2 + L + h)

    deck_height [m]: from the centre line of the crankshaft to the deck, H.
    stroke [m]: way of the piston between its dead centres, S.
    rod_length [m]: connecting rod, centre to centre, L.
    compression_height [m]: from the gudgeon pin's centre to the flat of the crown (not to the top of a dome), h.
    Returns [m]: plus below the deck, minus above it.
    Validity: no pin offset, no play in bearings and pin; four tolerances add up, so a dial indicator on the crown is
        better.
    Source: [1] Addition of lengths; common practice, no source.

    >>> stack = deck_clearance_of_stack(
    ...     deck_height=9.025 * 0.0254,
    ...     stroke=3.480 * 0.0254,
    ...     rod_length=6.000 * 0.0254,
    ...     compression_height=1.260 * 0.0254,
    ... )
    >>> round(stack / 0.0254, 4)
    0.025
    """
    above_zero(deck_height=deck_height, stroke=stroke, rod_length=rod_length, compression_height=compression_height)
    return deck_height - (stroke / 2 + rod_length + compression_height)


def squish_clearance(*, deck_clearance: float, gasket_thickness: float) -> float:
    """Squish clearance (US quench): from the flat of the crown at TDC to the flat of the head.

    c_q = c + t

    deck_clearance [m]: from deck to the flat of the crown at TDC, c; plus below the deck, minus above it.
    gasket_thickness [m]: thickness as compressed, t.
    Returns [m].
    Validity: flat to flat, cold and standing still; stretch of the rod, rock of the piston and growth with heat take
        from it. Not for a squish band that is stepped.
    Source: [1] Addition of lengths; common practice, no source.

    >>> round(squish_clearance(deck_clearance=0.000635, gasket_thickness=0.0009906) * 1e3, 4)
    1.6256
    """
    above_zero(gasket_thickness=gasket_thickness)
    clearance = deck_clearance + gasket_thickness
    if not clearance > 0:
        raise ValueError(
            f"the piston would meet the head: it stands {-1e3 * deck_clearance:.4g} mm above the deck under a "
            f"gasket of {1e3 * gasket_thickness:.4g} mm. Check deck_clearance, above or below, and gasket_thickness"
        )
    return clearance


def crevice_volume(*, bore: float, top_land_diameter: float, top_land_height: float) -> float:
    """Top land crevice: the ring of space around the piston above its first ring.

    V_cr = π/4 · (B² − D_l²) · h_l

    bore [m]: diameter of the cylinder, B.
    top_land_diameter [m]: diameter of the piston above the first ring, D_l.
    top_land_height [m]: from the edge of the crown to the top of the first ring, h_l.
    Returns [m3].
    Validity: cold sizes; a ratio with the crevice and one without differ by about 0.1, so never mix them.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 8.6, on crevices (from memory).

    >>> round(crevice_volume(bore=0.1016, top_land_diameter=0.100584, top_land_height=0.00635) * 1e6, 4)
    1.0245
    """
    above_zero(bore=bore, top_land_diameter=top_land_diameter, top_land_height=top_land_height)
    if top_land_diameter > bore:
        raise ValueError(
            f"a top land of {1e3 * top_land_diameter:.5g} mm does not go into a bore of {1e3 * bore:.5g} mm. "
            "Check top_land_diameter and bore"
        )
    return pi / 4 * (bore**2 - top_land_diameter**2) * top_land_height


def clearance_volume(*, chamber_volume: float, crown_volume: float, gasket_volume: float, deck_volume: float) -> float:
    """Clearance volume: all that is left above the piston at TDC, the top land crevice left out.

    V_c = V_chamber + V_crown + V_gasket + V_deck

    chamber_volume [m3]: combustion chamber in the head, by burette, valves and plug fitted, V_chamber.
    crown_volume [m3]: plus of a dish, minus of a raised crown, V_crown.
    gasket_volume [m3]: opening of the compressed gasket, V_gasket.
    deck_volume [m3]: plus where the crown stays below the deck, minus where it stands above, V_deck.
    Returns [m3].
    Validity: valve pockets count once, in the crown volume.
    Source: [1] Addition of volumes; common practice, no source.

    >>> rest = clearance_volume(
    ...     chamber_volume=64.0e-6, crown_volume=5.0e-6, gasket_volume=8.4377e-6, deck_volume=5.1481e-6
    ... )
    >>> round(rest * 1e6, 4)
    82.5858
    """
    return some_room(chamber_volume + crown_volume + gasket_volume + deck_volume)


def clearance_volume_with_crevice(
    *, chamber_volume: float, crown_volume: float, gasket_volume: float, deck_volume: float, crevice_volume: float
) -> float:
    """Clearance volume, the top land crevice counted.

    V_c = V_chamber + V_crown + V_gasket + V_deck + V_crevice

    chamber_volume [m3]: combustion chamber in the head, by burette, valves and plug fitted, V_chamber.
    crown_volume [m3]: plus of a dish, minus of a raised crown, V_crown; measured with the land sealed.
    gasket_volume [m3]: opening of the compressed gasket, V_gasket.
    deck_volume [m3]: plus where the crown stays below the deck, minus where it stands above, V_deck.
    crevice_volume [m3]: the ring of space around the top land, V_crevice.
    Returns [m3].
    Validity: a crown measured in the bore with no grease in the land holds the crevice already: it would count twice.
    Source: [1] Addition of volumes; common practice, no source.

    >>> rest = clearance_volume_with_crevice(
    ...     chamber_volume=64.0e-6,
    ...     crown_volume=5.0e-6,
    ...     gasket_volume=8.4377e-6,
    ...     deck_volume=5.1481e-6,
    ...     crevice_volume=1.0245e-6,
    ... )
    >>> round(rest * 1e6, 4)
    83.6103
    """
    return some_room(chamber_volume + crown_volume + gasket_volume + deck_volume + crevice_volume)
