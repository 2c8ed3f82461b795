"""Catalogue rows for what is measured with rule, gauge and burette, and for what follows from it."""

from logbook.quantity.catalogue import BANK, CYLINDER, MAIN_JOURNAL, ROD_JOURNAL, Quantity

_SHORT_MOTOR = ("block", "crankshaft", "connecting_rods", "pistons")
_TOP_END = (*_SHORT_MOTOR, "cylinder_head", "head_gasket")


def _length(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "length", "mm", low=low, high=high, imperial="in", **more)  # type: ignore[arg-type]


def _volume(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "volume", "cc", CYLINDER, low=low, high=high, **more)  # type: ignore[arg-type]


# fmt: off
GEOMETRY_ROWS: tuple[Quantity, ...] = (
    # the short motor
    _length("bore", "bore", "bore", 25, 1000, place=CYLINDER, owner=("block",), spread=0.05, wears=True),
    _length("stroke", "stroke", "stroke", 20, 3000, owner=("crankshaft",), spread=0.05),
    _length("rod_length", "connecting rod length, centre to centre", "rod length, center to center", 40, 5000,
            place=CYLINDER, owner=("connecting_rods",), spread=0.10),
    _length("deck_height", "deck height, crankshaft centre to deck", "deck height", 60, 6000, place=BANK,
            owner=("block",), spread=0.15),
    _length("compression_height", "compression height", "compression height", 10, 1000, place=CYLINDER,
            owner=("pistons",), spread=0.10),
    _length("deck_clearance", "deck clearance", "deck clearance", -10, 50, place=CYLINDER, owner=_SHORT_MOTOR,
            spread=0.15, sides=("below", "above")),
    _volume("dish_volume", "dish volume", "dish volume", 0, 500, owner=("pistons",), spread=0.5),
    _volume("dome_volume", "raised crown volume", "dome volume", 0, 500, owner=("pistons",), spread=0.5),
    _length("top_land_height", "top land height", "top land height", 0.5, 100, place=CYLINDER, owner=("pistons",),
            spread=0.2),
    _length("top_land_diameter", "top land diameter", "top land diameter", 25, 1000, place=CYLINDER,
            owner=("pistons",),
            spread=0.1),
    _length("piston_diameter", "piston diameter at the gauge point", "piston diameter at the gauge point", 25, 1000,
            place=CYLINDER, owner=("pistons",), spread=0.02, wears=True),
    _length("top_ring_gap", "top ring end gap", "top ring end gap", 0.05, 5, place=CYLINDER,
            owner=("block", "piston_rings"), spread=0.05, wears=True),
    _length("second_ring_gap", "second ring end gap", "second ring end gap", 0.05, 5, place=CYLINDER,
            owner=("block", "piston_rings"), spread=0.05, wears=True),
    _length("main_journal_diameter", "main journal diameter", "main journal diameter", 15, 500, place=MAIN_JOURNAL,
            owner=("crankshaft",), spread=0.02, wears=True),
    _length("rod_journal_diameter", "crankpin diameter", "rod journal diameter", 15, 500, place=ROD_JOURNAL,
            owner=("crankshaft",), spread=0.02, wears=True),
    _length("main_bearing_bore", "main bearing bore, shells in", "main bearing inside diameter", 15, 500,
            place=MAIN_JOURNAL, owner=("block", "main_bearings"), spread=0.02, wears=True),
    _length("rod_bearing_bore", "big-end bore, shells in", "rod bearing inside diameter", 15, 500, place=ROD_JOURNAL,
            owner=("connecting_rods", "rod_bearings"), spread=0.02, wears=True),
    _length("crank_end_float", "crankshaft end float", "crankshaft end play", 0, 3, owner=("block", "crankshaft"),
            spread=0.05, wears=True),
    # the head and its gasket
    _volume("chamber_volume", "combustion chamber volume", "chamber volume", 1, 2000, owner=("cylinder_head",),
            spread=1.0),
    Quantity("chamber_opening", "chamber opening at the joint face", "chamber opening at the deck face", "area",
             "cm2",
             CYLINDER, ("cylinder_head",), 2, 5000, 2.0, "sq in"),
    _length("head_thickness", "head thickness", "head thickness", 10, 500, place=BANK, owner=("cylinder_head",),
            spread=0.2),
    _length("gasket_thickness", "gasket thickness, compressed", "gasket thickness, compressed", 0.1, 10, place=BANK,
            owner=("head_gasket",), spread=0.05),
    _length("gasket_free_thickness", "gasket thickness, new", "gasket thickness, new", 0.1, 12, place=BANK,
            owner=("head_gasket",), spread=0.05),
    _length("gasket_bore", "gasket bore", "gasket bore", 25, 1000, place=CYLINDER, owner=("head_gasket",),
            spread=0.5),
    Quantity("gasket_opening", "gasket opening", "gasket opening", "area", "cm2", CYLINDER, ("head_gasket",), 4,
             8000, 1.0,
             "sq in"),
    _length("inlet_valve_diameter", "inlet valve head diameter", "intake valve head diameter", 8, 300, place=CYLINDER,
            owner=("cylinder_head",), spread=0.2),
    _length("exhaust_valve_diameter", "exhaust valve head diameter", "exhaust valve head diameter", 8, 300,
            place=CYLINDER,
            owner=("cylinder_head",), spread=0.2),
    _length("inlet_port_diameter", "inlet port, least diameter", "intake port, least diameter", 5, 300,
            place=CYLINDER,
            owner=("cylinder_head",), spread=0.5),
    _length("exhaust_port_diameter", "exhaust port, least diameter", "exhaust port, least diameter", 5, 300,
            place=CYLINDER, owner=("cylinder_head",), spread=0.5),
    _length("metal_removed", "metal removed so far", "metal removed so far", 0, 20, place=BANK,
            owner=("cylinder_head",),
            spread=0.1),
    _length("metal_limit", "most metal that may come off the joint face", "most metal that may come off the deck face",
            0, 20, place=BANK, owner=("cylinder_head",), spread=0.02),
    _length("deck_metal_removed", "metal removed so far from the deck", "metal removed so far from the deck", 0, 20,
            place=BANK, owner=("block",), spread=0.1),
    _length("deck_metal_limit", "most metal that may come off the deck", "most metal that may come off the deck", 0, 20,
            place=BANK, owner=("block",), spread=0.02),
    _length("metal_left", "metal left to remove from the joint face", "metal left to remove from the deck face",
            -20, 20, place=BANK, derived_only=True),
    _length("deck_metal_left", "metal left to remove from the deck", "metal left to remove from the deck", -20, 20,
            place=BANK, derived_only=True),
    # of a rework: written there as `depth:`
    _length("cut_depth", "depth of the cut", "depth of the cut", 0.001, 20, spread=0.02),
    # what follows
    _volume("swept_volume", "swept volume", "swept volume", 10, 100000, owner=("block", "crankshaft"), result=True),
    Quantity("displacement", "engine capacity", "displacement", "volume", "cc", owner=("block", "crankshaft"), low=10,
             high=2000000, imperial="cu in", result=True),
    Quantity("bore_stroke_ratio", "bore to stroke ratio", "bore to stroke ratio", "ratio", "", CYLINDER, low=0.2,
             high=4,
             derived_only=True),
    _volume("gasket_volume", "gasket volume", "gasket volume", 0.1, 1000, owner=("head_gasket",), spread=0.5),
    _volume("deck_volume", "deck volume", "deck volume", -200, 1000, derived_only=True),
    _volume("crown_volume", "crown volume, dish plus, raised minus", "crown volume, dish plus, dome minus", -500, 500,
            derived_only=True),
    _volume("crevice_volume", "top land crevice", "top land crevice", 0, 50, derived_only=True),
    _volume("rest_volume", "rest volume, gasket and deck", "rest volume, gasket and deck", -100, 1000,
            owner=(*_SHORT_MOTOR, "head_gasket"), derived_only=True),
    _volume("clearance_volume", "clearance volume", "clearance volume", 1, 5000, owner=_TOP_END, result=True),
    Quantity("compression_ratio", "compression ratio", "compression ratio", "ratio", "", CYLINDER, _TOP_END, 4,
             25, 0.3,
             result=True),
    Quantity("mean_compression_ratio", "compression ratio, mean of the cylinders",
             "compression ratio, mean of the cylinders", "ratio", "", low=4, high=25, derived_only=True),
    Quantity("compression_ratio_spread", "compression ratio, greatest less least",
             "compression ratio, greatest less least", "ratio", "", low=0, high=25, derived_only=True),
    _length("squish_clearance", "squish clearance", "quench clearance", 0, 30, place=CYLINDER, owner=_TOP_END,
            spread=0.2),
    Quantity("rod_ratio", "rod ratio, length to stroke", "rod ratio, length to stroke", "ratio", "", CYLINDER,
             low=1.0,
             high=4, derived_only=True),
)
# fmt: on
