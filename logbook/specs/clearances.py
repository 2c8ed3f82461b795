"""Clearances of pistons and rings in their bores.

Piston:  piston_to_wall, piston_to_wall_ratio
Rings:   top_ring_gap_ratio, second_ring_gap_ratio, top_ring_gap_wanted, second_ring_gap_wanted,
         second_ring_gap_wanted_of_top

Lengths in m. Every clearance is of the whole diameter, not of one side. The maker's figures win over any rule here.
"""

from logbook.specs.possible import above_zero, room_for


def piston_to_wall(*, bore: float, piston_diameter: float) -> float:
    """Piston clearance in the bore (US piston-to-wall clearance), cold.

    c = B − D

    bore [m]: diameter of the cylinder, B.
    piston_diameter [m]: of the piston at the height and in the direction that its maker names, D.
    Returns [m]: of the whole diameter.
    Validity: both at one temperature (100 mm of iron grow 0.017 mm in 15 K); at another height of the skirt, or over a
        coating, it is another figure. The piston's maker says what is wanted.
    Source: [1] Difference of two sizes; common practice, no source.

    >>> round(piston_to_wall(bore=0.080050, piston_diameter=0.080010) * 1e3, 3)
    0.04
    """
    return room_for(bore=bore, piston_diameter=piston_diameter)


def piston_to_wall_ratio(*, piston_to_wall: float, bore: float) -> float:
    """Piston clearance as a share of the bore.

    c / B

    piston_to_wall [m]: clearance of the whole diameter, c.
    bore [m]: diameter of the cylinder, B.
    Returns [bare]: 0.0005 is half a thousandth of the bore.
    Validity: rules of thumb: about 0.0005 cast, 0.0008 to 0.0012 forged; the piston's maker decides.
    Source: [1] Common practice, no source.

    >>> round(piston_to_wall_ratio(piston_to_wall=0.00004, bore=0.08), 6)
    0.0005
    """
    above_zero(piston_to_wall=piston_to_wall, bore=bore)
    return piston_to_wall / bore


def top_ring_gap_ratio(*, top_ring_gap: float, bore: float) -> float:
    """End gap of the top ring as a share of the bore.

    g / B

    top_ring_gap [m]: end gap with the ring square in the bore, g.
    bore [m]: diameter of the cylinder, B.
    Returns [bare]: 0.0045 is four and a half thousandths.
    Validity: below 0.003 the ends may meet when hot and the ring break its land; the ring's maker decides.
    Source: [1] Common practice, no source.

    >>> round(top_ring_gap_ratio(top_ring_gap=0.00036, bore=0.08), 4)
    0.0045
    """
    above_zero(top_ring_gap=top_ring_gap, bore=bore)
    return top_ring_gap / bore


def second_ring_gap_ratio(*, second_ring_gap: float, bore: float) -> float:
    """End gap of the second ring as a share of the bore.

    g₂ / B

    second_ring_gap [m]: end gap with the ring square in the bore, g₂.
    bore [m]: diameter of the cylinder, B.
    Returns [bare].
    Validity: published rules disagree on whether it should be wider or narrower than the top ring's.
    Source: [1] Common practice, no source.

    >>> round(second_ring_gap_ratio(second_ring_gap=0.00040, bore=0.08), 4)
    0.005
    """
    above_zero(second_ring_gap=second_ring_gap, bore=bore)
    return second_ring_gap / bore


def top_ring_gap_wanted(*, bore: float, top_ring_gap_rule: float) -> float:
    """Least end gap of the top ring by the rule that is used, for each bore.

    g = k · B

    bore [m]: diameter of the cylinder, B.
    top_ring_gap_rule [bare]: gap to bore, k: 0.0040 to 0.0045 for the road, 0.0050 with mild boost, 0.0055 to 0.0065
        for racing, as ring makers' tables have it. The tables disagree, so the one that is used is stated.
    Returns [m]: a least; wider costs little.
    Validity: a rule of thumb and no limit; the ring's maker wins.
    Source: [1] Ring makers' tables, two of which were read; the classic 0.004 is common practice, no source.

    >>> round(top_ring_gap_wanted(bore=4.030 * 0.0254, top_ring_gap_rule=0.0045) / 0.0254, 4)
    0.0181
    """
    above_zero(bore=bore, top_ring_gap_rule=top_ring_gap_rule)
    return top_ring_gap_rule * bore


def second_ring_gap_wanted(*, bore: float, second_ring_gap_rule: float) -> float:
    """Least end gap of the second ring by the rule that is used, for each bore.

    g₂ = k₂ · B

    bore [m]: diameter of the cylinder, B.
    second_ring_gap_rule [bare]: gap to bore, k₂; 0.0050 is usual now, an older table has 0.0035.
    Returns [m]: a least.
    Validity: a rule of thumb and no limit; the ring's maker wins.
    Source: [1] Ring makers' tables, two of which were read; they disagree.

    >>> round(second_ring_gap_wanted(bore=4.030 * 0.0254, second_ring_gap_rule=0.0050) / 0.0254, 4)
    0.0202
    """
    above_zero(bore=bore, second_ring_gap_rule=second_ring_gap_rule)
    return second_ring_gap_rule * bore


def second_ring_gap_wanted_of_top(*, top_ring_gap_wanted: float) -> float:
    """Least end gap of the second ring where no rule of its own is stated: a quarter more than the top ring's.

    g₂ = 1.25 · g

    top_ring_gap_wanted [m]: what the rule wants of the top ring, g.
    Returns [m]: a least.
    Validity: a rule of thumb of today; an older table wants LESS than at the top, 0.0035 of the bore. State
        second_ring_gap_rule to use another. The ring's maker wins.
    Source: [1] A ring maker's table (read); an older one disagrees.

    >>> round(second_ring_gap_wanted_of_top(top_ring_gap_wanted=0.00036) * 1e3, 3)
    0.45
    """
    above_zero(top_ring_gap_wanted=top_ring_gap_wanted)
    return 1.25 * top_ring_gap_wanted
