"""Catalogue rows for the piston's motion, metal to take off, bores, clearances, growth with heat, and bolts."""

from logbook.quantity.catalogue import CYLINDER, MAIN_JOURNAL, ROD_JOURNAL, Quantity

_TOP_END = ("block", "crankshaft", "connecting_rods", "pistons", "cylinder_head", "head_gasket")
_BOLTS = ("bolts",)


def _length(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "length", "mm", low=low, high=high, imperial="in", **more)  # type: ignore[arg-type]


def _reading(height: str, way: str) -> Quantity:
    words = f"bore, {height}, {way} the crankshaft"
    return _length(f"bore_{height}_{way}", words, words, 25, 1000, place=CYLINDER, owner=("block",), derived_only=True,
                   reading=("bore", f"{height} {way}"))  # fmt: skip


def _ratio(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "ratio", "", low=low, high=high, **more)  # type: ignore[arg-type]


def _force(name: str, words: str, **more: object) -> Quantity:
    return Quantity(name, words, words, "force", "kN", low=0.1, high=5000, imperial="lbf", **more)  # type: ignore[arg-type]


def _stress(name: str, words: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, words, words, "stress", "N/mm2", low=low, high=high, imperial="ksi", **more)  # type: ignore[arg-type]


def _expansion(of: str, words: str, owner: str) -> Quantity:
    says = f"expansion with heat, {words}"
    return Quantity(f"{of}_expansion", says, says, "expansion", "ppm/K", owner=(owner,), low=3, high=30, spread=2,
                    imperial="ppm/degF")  # fmt: skip


def _rise(of: str, words: str) -> Quantity:
    says = f"temperature rise from cold, {words}"
    return Quantity(f"{of}_rise", says, says, "temperature_difference", "K difference", low=0, high=500, spread=40,
                    imperial="degF difference")  # fmt: skip


# fmt: off
CLEARANCE_ROWS: tuple[Quantity, ...] = (
    # the piston and how it moves
    Quantity("valve_pocket_volume", "valve pockets, not in the crown's figure",
             "valve reliefs, not in the crown's figure", "volume", "cc", CYLINDER, ("pistons",), 0, 100, 0.5),
    _length("pin_offset", "gudgeon pin offset", "wrist pin offset", -10, 10, place=CYLINDER, owner=("pistons",),
            spread=0.1, sides=("thrust side", "other side")),
    Quantity("tdc_shift", "TDC of the piston against that of the throw", "TDC of the piston against that of the throw",
             "angle", "deg", CYLINDER, low=-10, high=10, sides=("before TDC", "after TDC"), derived_only=True),
    _length("piston_stroke", "way of the piston, gudgeon pin offset", "travel of the piston, wrist pin offset", 20,
            3000,
            place=CYLINDER, derived_only=True),
    Quantity("greatest_piston_speed", "greatest piston speed at the limit", "greatest piston speed at the limit",
             "speed", "m/s", CYLINDER, low=1, high=60, imperial="ft/min", derived_only=True),
    Quantity("greatest_piston_speed_angle", "crank angle of the greatest piston speed, after TDC",
             "crank angle of the greatest piston speed, after TDC", "angle", "deg", CYLINDER, low=45, high=90,
             derived_only=True),
    Quantity("greatest_piston_acceleration", "greatest piston acceleration at the limit, at TDC",
             "greatest piston acceleration at the limit, at TDC", "acceleration", "m/s2", CYLINDER, low=1, high=200000,
             imperial="ft/s2", derived_only=True),
    Quantity("greatest_piston_acceleration_bottom", "greatest piston acceleration at the limit, near BDC",
             "greatest piston acceleration at the limit, near BDC", "acceleration", "m/s2", CYLINDER, low=1,
             high=200000, imperial="ft/s2", derived_only=True),
    # metal to take off for a wanted ratio
    _ratio("wanted_compression_ratio", "compression ratio wanted", "compression ratio wanted", 4, 25),
    Quantity("wanted_chamber_volume", "chamber volume for the wanted ratio", "chamber volume for the wanted ratio",
             "volume", "cc", CYLINDER, low=1, high=2000, derived_only=True),
    _length("head_cut_wanted", "depth to take off the head for the wanted ratio",
            "depth to take off the head for the wanted ratio", -20, 20, place=CYLINDER, derived_only=True),
    _length("deck_cut_wanted", "depth to take off the deck for the wanted ratio",
            "depth to take off the deck for the wanted ratio", -20, 20, place=CYLINDER, derived_only=True),
    # the bore at its heights and in its two directions
    *(_reading(height, way) for height in ("top", "middle", "bottom") for way in ("along", "across")),
    _length("bore_taper", "bore taper", "bore taper", 0, 2, place=CYLINDER, derived_only=True),
    _length("bore_ovality", "bore ovality", "bore out-of-round", 0, 2, place=CYLINDER, derived_only=True),
    # piston and rings
    _length("piston_to_wall", "piston clearance in the bore", "piston-to-wall clearance", 0.005, 2, place=CYLINDER,
            owner=("block", "pistons"), spread=0.03, wears=True),
    _ratio("piston_to_wall_ratio", "piston clearance to bore", "piston-to-wall clearance to bore", 0.0001, 0.02,
           place=CYLINDER, derived_only=True),
    _ratio("top_ring_gap_ratio", "top ring end gap to bore", "top ring end gap to bore", 0.0005, 0.05, place=CYLINDER,
           derived_only=True),
    _ratio("second_ring_gap_ratio", "second ring end gap to bore", "second ring end gap to bore", 0.0005, 0.05,
           place=CYLINDER, derived_only=True),
    _ratio("top_ring_gap_rule", "rule used for the top ring, gap to bore", "rule used for the top ring, gap to bore",
           0.002, 0.012),
    _ratio("second_ring_gap_rule", "rule used for the second ring, gap to bore",
           "rule used for the second ring, gap to bore", 0.002, 0.015),
    _length("top_ring_gap_wanted", "top ring end gap by the rule used", "top ring end gap by the rule used", 0.05, 8,
            place=CYLINDER, derived_only=True),
    _length("second_ring_gap_wanted", "second ring end gap by the rule used", "second ring end gap by the rule used",
            0.05, 8, place=CYLINDER, derived_only=True),
    # bearings
    _length("main_housing_bore", "main bearing housing, no shells in", "main bearing housing bore", 15, 600,
            place=MAIN_JOURNAL, owner=("block",), spread=0.02),
    _length("main_shell_thickness", "main shell wall", "main bearing wall", 0.5, 20, place=MAIN_JOURNAL,
            owner=("main_bearings",), spread=0.01, wears=True),
    _length("rod_housing_bore", "big-end housing, no shells in", "rod housing bore", 15, 600, place=ROD_JOURNAL,
            owner=("connecting_rods",), spread=0.02),
    _length("rod_shell_thickness", "big-end shell wall", "rod bearing wall", 0.5, 20, place=ROD_JOURNAL,
            owner=("rod_bearings",), spread=0.01, wears=True),
    _length("main_bearing_clearance", "main bearing clearance", "main bearing oil clearance", 0.005, 1,
            place=MAIN_JOURNAL, owner=("block", "crankshaft", "main_bearings"), spread=0.03, wears=True),
    _length("rod_bearing_clearance", "big-end clearance", "rod bearing oil clearance", 0.005, 1, place=ROD_JOURNAL,
            owner=("connecting_rods", "crankshaft", "rod_bearings"), spread=0.03, wears=True),
    _ratio("main_bearing_clearance_ratio", "main bearing clearance to journal", "main bearing oil clearance to journal",
           0.0001, 0.02, place=MAIN_JOURNAL, derived_only=True),
    _ratio("rod_bearing_clearance_ratio", "big-end clearance to crankpin", "rod bearing oil clearance to journal",
           0.0001, 0.02, place=ROD_JOURNAL, derived_only=True),
    _length("thrust_journal_width", "thrust journal width", "thrust journal width", 5, 400, owner=("crankshaft",),
            spread=0.03, wears=True),
    _length("thrust_bearing_width", "thrust bearing width, over its faces", "thrust bearing width, over its faces", 5,
            400, owner=("main_bearings",), spread=0.03, wears=True),
    _length("crankpin_width", "crankpin width", "rod journal width", 5, 400, place=ROD_JOURNAL, owner=("crankshaft",),
            spread=0.05),
    _length("big_end_width", "big-end width", "rod big-end width", 5, 200, place=CYLINDER, owner=("connecting_rods",),
            spread=0.05),
    _length("rod_side_clearance", "connecting rod side clearance", "rod side clearance", 0.02, 5, place=ROD_JOURNAL,
            owner=("connecting_rods", "crankshaft"), spread=0.1, wears=True),
    # growth with heat, stretch with speed
    _expansion("piston", "piston", "pistons"),
    _expansion("block", "cylinder block", "block"),
    _expansion("rod", "connecting rod", "connecting_rods"),
    _expansion("ring", "piston ring", "piston_rings"),
    _rise("piston", "piston"),
    _rise("block", "cylinder block"),
    _rise("rod", "connecting rod"),
    _rise("ring", "top ring"),
    _length("piston_to_wall_hot", "piston clearance in the bore, hot", "piston-to-wall clearance, hot", -2, 2,
            place=CYLINDER, derived_only=True),
    _length("top_ring_gap_hot", "top ring end gap, hot", "top ring end gap, hot", -5, 8, place=CYLINDER,
            derived_only=True),
    _length("rod_heat_growth", "growth of the connecting rod with heat", "rod growth with heat", 0, 20, place=CYLINDER,
            derived_only=True),
    _length("deck_heat_growth", "growth of the deck height with heat", "growth of the deck height with heat", 0, 20,
            place=CYLINDER, derived_only=True),
    Quantity("reciprocating_mass", "reciprocating mass of one cylinder", "reciprocating mass of one cylinder", "mass",
             "g", CYLINDER, ("connecting_rods", "pistons"), 20, 500000, 10, "lb"),
    Quantity("rod_section", "least section of the connecting rod", "least section of the rod", "area", "mm2", CYLINDER,
             ("connecting_rods",), 20, 100000, 10, "sq in"),
    _stress("rod_modulus", "elastic modulus of the connecting rod", 50000, 250000, owner=("connecting_rods",),
            spread=10000),
    _length("rod_stretch", "stretch of the connecting rod at TDC, at the limit", "rod stretch at TDC, at the limit",
            0, 10,
            place=CYLINDER, derived_only=True),
    _length("rod_growth", "allowance for rod growth and stretch", "allowance for rod growth and stretch", 0, 20,
            place=CYLINDER, owner=("connecting_rods",), spread=0.1),
    _length("squish_clearance_running", "squish clearance, running: less rod growth",
            "quench clearance, running: less rod growth", -5, 30, place=CYLINDER, owner=_TOP_END, derived_only=True),
    # one set of bolts
    _length("bolt_diameter", "bolt, nominal diameter", "bolt, nominal diameter", 3, 100, owner=_BOLTS, spread=0.02),
    _length("bolt_pitch", "bolt, thread pitch", "bolt, thread pitch", 0.3, 8, owner=_BOLTS, spread=0.002),
    _length("bolt_loaded_length", "bolt, length under load", "bolt, length under load", 5, 1500, owner=_BOLTS,
            spread=1),
    _length("bolt_head_diameter", "bolt, mean diameter of rubbing under the head",
            "bolt, mean diameter of rubbing under the head", 4, 150, owner=_BOLTS, spread=0.5),
    _stress("bolt_strength", "bolt, 0.2 % proof stress", 100, 2500, owner=_BOLTS, spread=20),
    _stress("bolt_modulus", "bolt, elastic modulus", 50000, 250000, owner=_BOLTS, spread=6000),
    _ratio("nut_factor", "nut factor", "nut factor", 0.05, 0.6, owner=_BOLTS, spread=0.06),
    _ratio("thread_friction", "friction in the thread", "friction in the thread", 0.03, 0.5, owner=_BOLTS, spread=0.04),
    _ratio("head_friction", "friction under the bolt head", "friction under the bolt head", 0.03, 0.5, owner=_BOLTS,
           spread=0.04),
    _ratio("tightening_factor", "tightening factor, greatest preload to least",
           "tightening factor, greatest preload to least", 1, 4, owner=_BOLTS, spread=0.2),
    Quantity("bolt_torque", "bolt, tightening torque", "bolt, tightening torque", "torque", "N m", owner=_BOLTS,
             low=0.5,
             high=5000, spread=3, imperial="lbf ft"),
    _length("bolt_stretch", "bolt stretch, measured", "bolt stretch, measured", 0.005, 10, owner=_BOLTS, spread=0.02),
    _length("bolt_stretch_expected", "bolt stretch under its preload", "bolt stretch under its preload", 0.005, 10,
            owner=_BOLTS, derived_only=True),
    Quantity("bolt_stress_area", "bolt, stress area", "bolt, stress area", "area", "mm2", owner=_BOLTS, low=3,
             high=8000,
             imperial="sq in", derived_only=True),
    _force("bolt_preload", "bolt preload", owner=_BOLTS, derived_only=True),
    _force("bolt_preload_least", "bolt preload, least of the scatter", owner=_BOLTS, derived_only=True),
    _force("bolt_preload_most", "bolt preload, greatest of the scatter", owner=_BOLTS, derived_only=True),
    Quantity("bolt_proof_share", "bolt preload as a share of the proof load",
             "bolt preload as a share of the proof load",
             "share", "%", owner=_BOLTS, low=1, high=150, derived_only=True),
    _force("bolt_preload_limit", "bolt preload at nine tenths of yield", owner=_BOLTS, derived_only=True),
    Quantity("bolt_torque_limit", "bolt, torque for nine tenths of yield", "bolt, torque for nine tenths of yield",
             "torque", "N m", owner=_BOLTS, low=0.5, high=5000, imperial="lbf ft", derived_only=True),
)
# fmt: on
