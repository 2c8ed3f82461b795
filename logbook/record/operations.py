"""What work on a part puts out of date: the table of operations.

In: nothing. Out: OPERATIONS, DONE_TO and SURFACES. A rework names one of these operations; a figure of the quantities
beside it, taken before the work, no longer tells the truth after it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

#: Operations of a rework, and the quantities each puts out of date on the part itself and where that part is fitted.
OPERATIONS: Mapping[str, tuple[str, ...]] = {
    "surface milled": (
        "chamber_volume",
        "chamber_opening",
        "head_thickness",
        "metal_removed",
        "valve_room_inlet",
        "valve_room_exhaust",
        "valve_to_piston_inlet",
        "valve_to_piston_exhaust",
    ),
    "decked": (
        "deck_height",
        "deck_metal_removed",
        "deck_clearance",
        "squish_clearance",
        "valve_room_inlet",
        "valve_room_exhaust",
        "valve_to_piston_inlet",
        "valve_to_piston_exhaust",
    ),
    "bored": ("bore", "top_ring_gap", "second_ring_gap", "piston_to_wall"),
    "honed": ("bore", "top_ring_gap", "second_ring_gap", "piston_to_wall"),
    "bored and honed": ("bore", "top_ring_gap", "second_ring_gap", "piston_to_wall"),
    "ported": (
        "inlet_port_diameter",
        "exhaust_port_diameter",
        "inlet_flow",
        "exhaust_flow",
        "inlet_flow_coefficient",
    ),
    "seats cut": (
        "chamber_volume",
        "inlet_flow",
        "exhaust_flow",
        "inlet_flow_coefficient",
        "inlet_seat_width",
        "inlet_seat_angle",
        "valve_room_inlet",
        "valve_room_exhaust",
        "valve_to_piston_inlet",
        "valve_to_piston_exhaust",
        "spring_installed_height",
        "valve_lash_inlet",
        "valve_lash_exhaust",
    ),
    "valves replaced": (
        "chamber_volume",
        "inlet_flow",
        "exhaust_flow",
        "inlet_flow_coefficient",
        "inlet_stem_diameter",
        "inlet_valve_diameter",
        "exhaust_valve_diameter",
        "valve_room_inlet",
        "valve_room_exhaust",
        "valve_to_piston_inlet",
        "valve_to_piston_exhaust",
        "spring_installed_height",
        "valve_lash_inlet",
        "valve_lash_exhaust",
    ),
    "chamber reworked": ("chamber_volume", "chamber_opening"),
    "crown machined": (
        "dish_volume",
        "dome_volume",
        "valve_pocket_volume",
        "compression_height",
        "deck_clearance",
        "squish_clearance",
        "valve_room_inlet",
        "valve_room_exhaust",
        "valve_to_piston_inlet",
        "valve_to_piston_exhaust",
    ),
    "cam reground": (
        "inlet_opens",
        "inlet_closes",
        "exhaust_opens",
        "exhaust_closes",
        "inlet_lobe_centre",
        "exhaust_lobe_centre",
        "inlet_duration",
        "exhaust_duration",
        "inlet_valve_lift",
        "exhaust_valve_lift",
        "inlet_lift",
        "exhaust_lift",
        "inlet_lobe_lift",
        "exhaust_lobe_lift",
        "inlet_peak_centre",
        "exhaust_peak_centre",
        "inlet_lift_at_tdc",
        "exhaust_lift_at_tdc",
        "spring_open_load_inlet",
        "spring_open_load_exhaust",
        "valve_lash_inlet",
        "valve_lash_exhaust",
        "valve_to_piston_inlet",
        "valve_to_piston_exhaust",
    ),
    "journals ground": (
        "main_journal_diameter",
        "rod_journal_diameter",
        "main_bearing_bore",
        "rod_bearing_bore",
        "main_bearing_clearance",
        "rod_bearing_clearance",
        "stroke",
    ),
    "journals polished": (
        "main_journal_diameter",
        "rod_journal_diameter",
        "main_bearing_clearance",
        "rod_bearing_clearance",
    ),
    "springs replaced": (
        "spring_seat_load",
        "spring_rate",
        "spring_installed_height",
        "spring_coil_bind",
        "spring_free_height",
        "spring_open_load_inlet",
        "spring_open_load_exhaust",
    ),
    "gasket changed": ("gasket_thickness", "gasket_bore", "gasket_opening"),
}


_WITH_PORTS = ("cylinder_head", "block")  # the block of a side-valve engine
_WITH_LOBES = ("camshaft", "inlet_camshaft", "exhaust_camshaft")
_WITH_A_FACE = (*_WITH_PORTS, "inlet_manifold", "exhaust_manifold", "carburettor", "turbocharger", "supercharger",
                "flywheel", "oil_pump", "water_pump", "timing_drive")  # fmt: skip
_WITH_A_BORE = (*_WITH_PORTS, "connecting_rods", "pistons", "carburettor", "inlet_manifold", "oil_pump", "water_pump")
_WITH_JOURNALS = ("crankshaft", *_WITH_LOBES)

#: The kinds of part that each operation can be done to. A part of the kind `other` may have anything.
DONE_TO: Mapping[str, tuple[str, ...]] = {
    "surface milled": _WITH_A_FACE,
    "decked": ("block",),
    "bored": _WITH_A_BORE,
    "honed": _WITH_A_BORE,
    "bored and honed": _WITH_A_BORE,
    "ported": (*_WITH_PORTS, "inlet_manifold", "exhaust_manifold", "carburettor", "turbocharger", "supercharger"),
    "seats cut": _WITH_PORTS,
    "valves replaced": _WITH_PORTS,
    "chamber reworked": _WITH_PORTS,
    "crown machined": ("pistons",),
    "cam reground": _WITH_LOBES,
    "journals ground": _WITH_JOURNALS,
    "journals polished": _WITH_JOURNALS,
    "springs replaced": (*_WITH_PORTS, "valve_springs"),
    "gasket changed": (*_WITH_PORTS, "head_gasket"),
}


class SurfaceCut(NamedTuple):
    """A surface that is cut: the operation that does it, the sum of its cuts, the most that may come off, and the spec
    that says what is left."""

    name: str
    operation: str
    removed: str
    limit: str
    left: str


#: By kind of part.
SURFACES: Mapping[str, SurfaceCut] = {
    "cylinder_head": SurfaceCut("joint face", "surface milled", "metal_removed", "metal_limit", "metal_left"),
    "block": SurfaceCut("deck", "decked", "deck_metal_removed", "deck_metal_limit", "deck_metal_left"),
}
