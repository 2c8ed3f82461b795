"""Crowns whose valve pockets were measured apart from their dish or dome: see volumes.py for the others.

crown_volume_dished_with_pockets, crown_volume_raised_with_pockets

Plus for what adds to the clearance volume, minus for what takes from it. Volumes in m3.
"""


def crown_volume_dished_with_pockets(*, dish_volume: float, valve_pocket_volume: float) -> float:
    """Crown volume of a dished or flat piston whose valve pockets were measured apart.

    V_crown = + V_dish + V_pockets

    dish_volume [m3]: the dish alone, V_dish; 0 of a flat crown.
    valve_pocket_volume [m3]: all valve pockets of one crown, V_pockets, not in the dish's figure.
    Returns [m3]: plus, both add.
    Validity: pockets that a burette filled with the dish are in its figure already: leave valve_pocket_volume out.
    Source: [1] Addition of volumes; common practice, no source.

    >>> round(crown_volume_dished_with_pockets(dish_volume=5.0e-6, valve_pocket_volume=1.6e-6) * 1e6, 1)
    6.6
    """
    return dish_volume + valve_pocket_volume


def crown_volume_raised_with_pockets(*, dome_volume: float, valve_pocket_volume: float) -> float:
    """Crown volume of a raised crown (US dome) whose valve pockets were measured apart.

    V_crown = − V_dome + V_pockets

    dome_volume [m3]: the dome as if no pocket were cut, V_dome.
    valve_pocket_volume [m3]: all valve pockets of one crown, V_pockets, not taken off the dome's figure.
    Returns [m3]: minus where the dome takes more than the pockets give back.
    Validity: a dome that was measured by filling the bore above it has its pockets in the figure already: leave
        valve_pocket_volume out.
    Source: [1] Addition of volumes; common practice, no source.

    >>> round(crown_volume_raised_with_pockets(dome_volume=7.9e-6, valve_pocket_volume=1.6e-6) * 1e6, 1)
    -6.3
    """
    return valve_pocket_volume - dome_volume
