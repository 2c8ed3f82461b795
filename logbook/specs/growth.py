"""How parts grow with heat and stretch with speed, and what that takes from the clearances.

Heat:   piston_to_wall_hot, top_ring_gap_hot, rod_heat_growth, deck_heat_growth
Speed:  rod_stretch
Both:   rod_growth_of_heat_and_stretch, squish_clearance_running

Lengths in m, expansions in 1/K, temperature rises in K above the temperature at which the sizes were measured. Usual
expansions in ppm/K, from memory (handbooks): grey cast iron 10.5 to 11, steel 11.5 to 12, cast aluminium of pistons 19
to 21, of blocks and heads 21 to 23. A figure that is worked out here never stands in the place of a cold one: each has
a name of its own.
"""

from math import pi

from logbook.specs.possible import above_zero


def piston_to_wall_hot(
    *,
    bore: float,
    piston_to_wall: float,
    piston_expansion: float,
    piston_rise: float,
    block_expansion: float,
    block_rise: float,
) -> float:
    """Piston clearance in the bore when both are hot.

    c_h = B (1 + α_b ΔT_b) − (B − c) (1 + α_p ΔT_p)

    bore [m]: diameter of the cylinder, cold, B.
    piston_to_wall [m]: clearance of the whole diameter, cold, c.
    piston_expansion [1/K]: of the piston, α_p.
    piston_rise [K]: of the skirt above the temperature of measuring, ΔT_p.
    block_expansion [1/K]: of the cylinder wall, α_b.
    block_rise [K]: of the cylinder wall above the temperature of measuring, ΔT_b.
    Returns [m]: minus where the piston would be tight.
    Validity: one temperature for the whole skirt, and no oval or barrel ground into it, so no more than a comparison.
        The piston's maker has tried what he prints; his figure wins.
    Source: [1] Linear expansion with heat; any text on strength of materials.

    >>> heat = {"piston_expansion": 20.5e-6, "piston_rise": 180, "block_expansion": 11e-6, "block_rise": 80}
    >>> cold, hot = 0.00035, piston_to_wall_hot(bore=0.1, piston_to_wall=0.00035, **heat)
    >>> round((cold - hot) * 1e3, 2)
    0.28
    """
    above_zero(bore=bore, piston_to_wall=piston_to_wall)
    piston = (bore - piston_to_wall) * (1 + piston_expansion * piston_rise)
    return bore * (1 + block_expansion * block_rise) - piston


def top_ring_gap_hot(
    *,
    bore: float,
    top_ring_gap: float,
    ring_expansion: float,
    ring_rise: float,
    block_expansion: float,
    block_rise: float,
) -> float:
    """End gap of the top ring when ring and cylinder are hot.

    g_h = g − π B (α_r ΔT_r − α_b ΔT_b)

    bore [m]: diameter of the cylinder, cold, B.
    top_ring_gap [m]: end gap with the ring square in the bore, cold, g.
    ring_expansion [1/K]: of the ring, α_r.
    ring_rise [K]: of the ring above the temperature of measuring, ΔT_r.
    block_expansion [1/K]: of the cylinder wall, α_b.
    block_rise [K]: of the cylinder wall above the temperature of measuring, ΔT_b.
    Returns [m]: minus where the ends would meet, and the ring break.
    Validity: one temperature for the whole ring; the ring's maker wins.
    Source: [1] Linear expansion with heat of a girth; any text on strength of materials.

    >>> heat = {"ring_expansion": 11e-6, "ring_rise": 200, "block_expansion": 11e-6, "block_rise": 80}
    >>> round((0.00045 - top_ring_gap_hot(bore=0.1, top_ring_gap=0.00045, **heat)) * 1e3, 4)
    0.4147
    """
    above_zero(bore=bore, top_ring_gap=top_ring_gap)
    return top_ring_gap - pi * bore * (ring_expansion * ring_rise - block_expansion * block_rise)


def rod_heat_growth(*, rod_length: float, rod_expansion: float, rod_rise: float) -> float:
    """Growth of the connecting rod with heat.

    ΔL = α L ΔT

    rod_length [m]: connecting rod, centre to centre, cold, L.
    rod_expansion [1/K]: of the rod, α.
    rod_rise [K]: of the rod above the temperature of measuring, ΔT.
    Returns [m].
    Validity: one temperature for the whole rod.
    Source: [1] Linear expansion with heat; any text on strength of materials.

    >>> round(rod_heat_growth(rod_length=0.230, rod_expansion=23e-6, rod_rise=70) * 1e3, 4)
    0.3703
    """
    above_zero(rod_length=rod_length)
    return rod_length * rod_expansion * rod_rise


def deck_heat_growth(*, deck_height: float, block_expansion: float, block_rise: float) -> float:
    """Growth of the deck height with heat.

    ΔH = α H ΔT

    deck_height [m]: from the centre line of the crankshaft to the deck, cold, H.
    block_expansion [1/K]: of the cylinder block, α.
    block_rise [K]: of the block above the temperature of measuring, ΔT.
    Returns [m].
    Validity: one temperature for the whole block.
    Source: [1] Linear expansion with heat; any text on strength of materials.

    >>> round(deck_heat_growth(deck_height=0.230, block_expansion=23e-6, block_rise=70) * 1e3, 4)
    0.3703
    """
    above_zero(deck_height=deck_height)
    return deck_height * block_expansion * block_rise


def rod_stretch(
    *,
    reciprocating_mass: float,
    greatest_piston_acceleration: float,
    rod_length: float,
    rod_section: float,
    rod_modulus: float,
) -> float:
    """Stretch of the connecting rod at TDC between exhaust and inlet, at the engine speed limit.

    δ = m a L / (A E)

    reciprocating_mass [kg]: piston, rings, pin and small end of one cylinder, m.
    greatest_piston_acceleration [m/s2]: at TDC at the limit, a.
    rod_length [m]: connecting rod, centre to centre, L.
    rod_section [m2]: least section of the shank, A.
    rod_modulus [Pa]: elastic modulus of the rod, E; steel about 205 kN/mm2, aluminium 70.
    Returns [m].
    Validity: the shank as one even bar, its own mass, the eyes and the bend of the crankshaft left out, which all add
        to it: a least.
    Source: [1] Hooke's law of a bar; any text on strength of materials.

    >>> stretch = rod_stretch(
    ...     reciprocating_mass=0.6,
    ...     greatest_piston_acceleration=22700.0,
    ...     rod_length=0.150,
    ...     rod_section=200e-6,
    ...     rod_modulus=205e9,
    ... )
    >>> round(stretch * 1e3, 3)
    0.05
    """
    above_zero(reciprocating_mass=reciprocating_mass, rod_length=rod_length)
    above_zero(rod_section=rod_section, rod_modulus=rod_modulus)
    return reciprocating_mass * greatest_piston_acceleration * rod_length / (rod_section * rod_modulus)


def rod_growth_of_heat_and_stretch(*, rod_heat_growth: float, rod_stretch: float, deck_heat_growth: float) -> float:
    """What growth and stretch of the rod take from the squish, the growth of the block given back.

    g = ΔL + δ − ΔH

    rod_heat_growth [m]: of the rod with heat, ΔL.
    rod_stretch [m]: of the rod at TDC at the limit, δ.
    deck_heat_growth [m]: of the deck height with heat, ΔH.
    Returns [m]: minus where the block grows away from the rod.
    Validity: the rock of the piston and the play in pin and bearings are not in it. An allowance that is stated, as
        builders use one, comes in its place where none of this is known.
    Source: [1] Addition of lengths; common practice, no source.

    >>> growth = rod_growth_of_heat_and_stretch(rod_heat_growth=0.00014, rod_stretch=0.00005, deck_heat_growth=0.00012)
    >>> round(growth * 1e3, 2)
    0.07
    """
    return rod_heat_growth + rod_stretch - deck_heat_growth


def squish_clearance_running(*, squish_clearance: float, rod_growth: float) -> float:
    """Squish clearance (US quench) of the running engine: what is left when the rod has grown and stretched.

    c_r = c_q − g

    squish_clearance [m]: flat to flat, cold and standing still, c_q.
    rod_growth [m]: growth and stretch of the rod against the block, worked out or an allowance, g.
    Returns [m]: minus where the piston would meet the head.
    Validity: never in the place of squish_clearance, to which every rule of thumb belongs; rock of the piston and
        play take more.
    Source: [1] Addition of lengths; common practice, no source.

    >>> round(squish_clearance_running(squish_clearance=0.00100, rod_growth=0.00030) * 1e3, 2)
    0.7
    """
    above_zero(squish_clearance=squish_clearance)
    return squish_clearance - rod_growth
