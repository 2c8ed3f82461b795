"""When each cylinder fires: inline, vee and flat.

even_firing_interval                  what the cylinders share evenly
even_firing_angle                     a cylinder by its place in the firing order
pin_split_needed                      what a shared crankpin must be split by for it
firing_angle_of_shared_pin            the second cylinder of a pin that is not split
firing_intervals, evenly_spaced       from the angles, and whether they are even

All angles in degrees of crank after the firing TDC of the cylinder that fires first, 0 to 720.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.specs.possible import above_zero

CYCLE, TURN = 720.0, 360.0
_SAME = 0.5  # deg: what two angles may differ by and be one


def even_firing_interval(*, cylinders: int) -> float:
    """Firing interval of an engine that fires evenly.

    θ = 720 / n

    cylinders [bare]: how many, n.
    Returns [deg]: of crank.
    Validity: four-stroke, each cylinder firing alone; an inline twin on one crankpin too, one on two pins at 180 not.
    Source: [1] Two turns shared by n cylinders; arithmetic.

    >>> [even_firing_interval(cylinders=n) for n in (4, 6, 8, 12)]
    [180.0, 120.0, 90.0, 60.0]
    """
    above_zero(cylinders=cylinders)
    return CYCLE / cylinders


def even_firing_angle(*, place: int, cylinders: int) -> float:
    """Crank angle at which a cylinder reaches its firing TDC, in an engine that fires evenly.

    φ = (k − 1) · 720 / n

    place [bare]: in the firing order, k; 1 fires first.
    cylinders [bare]: how many, n.
    Returns [deg]: of crank after the firing TDC of the first.
    Validity: as even_firing_interval.
    Source: [1] Counting along the firing order; common practice, no source.

    >>> even_firing_angle(place=3, cylinders=4)
    360.0
    """
    if not 1 <= place <= cylinders:
        raise ValueError(f"place {place} of {cylinders} is none in a firing order: check firing_order")
    return (place - 1) * even_firing_interval(cylinders=cylinders)


def pin_split_needed(*, first: float, second: float, bank_angle: float) -> float:
    """How far a crankpin that two banks share must be split for both cylinders to fire where they should.

    δ = φ₂ − φ₁ − β, to the nearest turn

    first [deg]: firing TDC of its cylinder in the bank that leads, φ₁.
    second [deg]: that of its cylinder in the other bank, φ₂.
    bank_angle [deg]: between the banks, β; minus where the other bank leads.
    Returns [deg]: −180 to 180; 0 where the bank angle fits and one plain pin does.
    Validity: two rods on one throw, cylinder axes through the crankshaft's (no offset bank).
    Source: [1] The piston on a throw is at TDC where the throw points along its bank; geometry.

    >>> pin_split_needed(first=0, second=120, bank_angle=90)  # V6
    30.0
    >>> pin_split_needed(first=0, second=90, bank_angle=90)  # V8
    0.0
    """
    return (second - first - bank_angle + TURN / 2) % TURN - TURN / 2


def firing_angle_of_shared_pin(*, first: float, even: float, bank_angle: float) -> float:
    """Crank angle of the second cylinder's firing TDC where both run on one plain crankpin.

    φ₂ = φ₁ + β, in the turn nearest to its even place

    first [deg]: firing TDC of the other cylinder of the pin, φ₁.
    even [deg]: where this one would fire evenly; it says in which of the two turns it fires.
    bank_angle [deg]: between the banks, β; minus where the other bank leads.
    Returns [deg]: of crank, 0 to 720.
    Validity: as pin_split_needed; one bank's throws where it fires evenly.
    Source: [1] As pin_split_needed.

    >>> firing_angle_of_shared_pin(first=0, even=360, bank_angle=45)  # a twin of 45 deg
    405.0
    """
    return (even - pin_split_needed(first=first, second=even, bank_angle=bank_angle)) % CYCLE


def firing_intervals(angles: Sequence[float]) -> tuple[float, ...]:
    """From each firing to the next, the last on to the first of the next cycle.

    θ_k = φ_(k+1) − φ_k

    angles [deg]: firing TDC of each cylinder, in the firing order.
    Returns [deg]: as many as angles; together 720.
    Validity: angles that rise along the firing order.
    Source: [1] Differences; arithmetic.

    >>> firing_intervals([0, 405])
    (405.0, 315.0)
    """
    following = (*angles[1:], angles[0] + CYCLE)
    return tuple(float(after - before) for before, after in zip(angles, following, strict=True))


def evenly_spaced(intervals: Sequence[float]) -> bool:
    """Whether every interval is 720 / n, to half a degree.

    | θ_k − 720 / n | ≤ 0.5

    intervals [deg]: from each firing to the next.
    Returns: yes or no.
    Validity: any.
    Source: [1] The definition; the half degree is that of a degree wheel, common practice, no source.

    >>> evenly_spaced([180, 180, 180, 180]), evenly_spaced([405, 315])
    (True, False)
    """
    return all(abs(each - even_firing_interval(cylinders=len(intervals))) <= _SAME for each in intervals)
