"""What a figure has become by work of known depth, or with one part of its set exchanged: predicted, until measured.

Pure arithmetic on uncertain numbers. Two tables: CUT says what a cut of a known depth does to a figure; CARRIED says
which dimension of an exchanged part carries over into a figure of the assembled engine, and how much of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import pi

from logbook.quantity.uncertain import Uncertain, propagate

#: Asks for another figure at the same position, None where nothing is known.
Look = Callable[[str], Uncertain | None]
Rule = Callable[[Uncertain, Uncertain, Look], Uncertain | None]

#: A chamber's opening against the bore's area, where the opening was never measured: a wide mark (expanded, k = 2).
#: Common practice, no source.
OPENING_SHARE, OPENING_SHARE_SPREAD = 0.93, 0.15
OPENING_ASSUMED = "chamber opening as a share of the bore"  # the source of error of what rests on it


def chamber_after_milling(*, chamber_volume: float, chamber_opening: float, depth: float) -> float:
    """Chamber volume once the joint face has been milled: V − A·t [m3], of V [m3], A [m2], t [m].

    Validity: cuts of up to about 1 mm; a chamber whose walls slope loses a little less (about 1 % of the loss at
    0.5 mm for a spherical cap).
    Source: geometry.
    """
    return chamber_volume - chamber_opening * depth


def _less(before: Uncertain, depth: Uncertain, look: Look) -> Uncertain:
    return before - depth


def _more(before: Uncertain, depth: Uncertain, look: Look) -> Uncertain:
    return before - Uncertain(-depth.nominal, {key: -term for key, term in depth.terms.items()})


def _chamber(before: Uncertain, depth: Uncertain, look: Look) -> Uncertain | None:
    opening = look("chamber_opening") or _opening_of_bore(look("bore"))
    if opening is None:
        return None
    arguments = {"chamber_volume": before, "chamber_opening": opening, "depth": depth}
    return propagate(chamber_after_milling, arguments)


def _opening_of_bore(bore: Uncertain | None) -> Uncertain | None:
    if bore is None:
        return None
    share = Uncertain(OPENING_SHARE, {OPENING_ASSUMED: OPENING_SHARE_SPREAD / 2})
    return propagate(lambda bore, share: share * pi / 4 * bore**2, {"bore": bore, "share": share})


_CLOSER = {"valve_to_piston_inlet": _less, "valve_to_piston_exhaust": _less}

#: (operation, quantity) -> what a cut of known depth makes of the figure. What stands here for no pair is only known to
#: be out of date.
CUT: Mapping[tuple[str, str], Rule] = {
    ("surface milled", "chamber_volume"): _chamber,
    ("surface milled", "head_thickness"): _less,
    ("surface milled", "metal_removed"): _more,
    **{("surface milled", name): rule for name, rule in _CLOSER.items()},
    ("decked", "deck_height"): _less,
    ("decked", "deck_metal_removed"): _more,
    ("decked", "deck_clearance"): _less,
    ("decked", "squish_clearance"): _less,
    **{("decked", name): rule for name, rule in _CLOSER.items()},
}

#: What a rule looks up beside the figure and the depth.
CUT_BY: Mapping[str, tuple[str, ...]] = {"chamber_volume": ("chamber_opening", "bore")}

#: Quantity of a set -> kind of the exchanged part -> (its dimension, how much of a greater dimension is added).
CARRIED: Mapping[str, Mapping[str, tuple[str, float]]] = {
    "deck_clearance": {
        "block": ("deck_height", 1.0),
        "crankshaft": ("stroke", -0.5),
        "connecting_rods": ("rod_length", -1.0),
        "pistons": ("compression_height", -1.0),
    },
    "squish_clearance": {"head_gasket": ("gasket_thickness", 1.0), "pistons": ("compression_height", -1.0)},
    "valve_to_piston_inlet": {"head_gasket": ("gasket_thickness", 1.0)},
    "valve_to_piston_exhaust": {"head_gasket": ("gasket_thickness", 1.0)},
}


def carried(figure: Uncertain, was: Uncertain, now: Uncertain, share: float) -> Uncertain:
    """A figure of a set once one of its parts is exchanged: figure + share·(now − was), what they share cancelling."""
    step = now - was
    added = Uncertain(-share * step.nominal, {key: -share * term for key, term in step.terms.items()})
    return figure - added
