"""Rules of thumb as data: the limits that the program brings along. Open this file to see them all.

Each is general, and the maker's manual comes before all of them. Every one can be overruled in engine.yaml, `limits:`,
by its id: given another amount, switched off, or, where published rules conflict, another of them chosen by its name.
A bound is an amount (`0.90 mm`) or a multiple of another figure, with an amount more or less beside it
(`0.0010 main_journal_diameter + 0.013 mm`). A source is named by its sort; 'common practice' has none.
"""

from __future__ import annotations

from typing import NamedTuple

RULE, NOTE, GUIDE = "rule", "note", "guide"


class Option(NamedTuple):
    """One published form of a rule. `boosted`: meant for an engine with a turbocharger or supercharger."""

    source: str
    low: str | None = None
    high: str | None = None
    boosted: bool = False


class Rule(NamedTuple):
    """A limit of one quantity; the first option that suits the engine holds until the owner chooses another.

    `danger`: beyond it the engine or a person can come to harm. `weight`: RULE, beyond it something is doubtful; NOTE,
    worth a note; GUIDE, no finding at all, only shown. `spread`: of the greatest less the least of the positions.
    `of_test`: judged in each test, not in the engine as it stands.
    """

    id: str
    spec: str
    options: tuple[Option, ...]
    remark: str = ""
    danger: bool = False
    weight: str = RULE
    spread: bool = False
    of_test: bool = False


#: Quantities of which a limit of the owner's own guards the engine too.
HARMFUL = (
    "compression_ratio",
    "mean_compression_ratio",
    "effective_compression_ratio",
    "engine_speed_limit",
    "metal_left",
    "deck_metal_left",
)

PRACTICE = "common practice, no source"

RULES: tuple[Rule, ...] = (
    # crankshaft, bores and rings
    Rule("main-bearing-clearance", "main_bearing_clearance", (
        Option("bearing makers' advice", "0.0010 main_journal_diameter - 0.013 mm",
               "0.0010 main_journal_diameter + 0.013 mm"),
        Option("common practice, the wider band", "0.00075 main_journal_diameter", "0.0015 main_journal_diameter"),
    ), "the one that takes the thrust may have 0.013 mm more", danger=True),
    Rule("rod-bearing-clearance", "rod_bearing_clearance", (
        Option("bearing makers' advice", "0.0010 rod_journal_diameter - 0.013 mm",
               "0.0010 rod_journal_diameter + 0.013 mm"),
        Option("bearing makers' advice, with a margin for racing", "0.0010 rod_journal_diameter",
               "0.0010 rod_journal_diameter + 0.026 mm"),
        Option("common practice, the wider band", "0.00075 rod_journal_diameter", "0.0015 rod_journal_diameter"),
    ), danger=True),
    Rule("rod-side-clearance", "rod_side_clearance", (Option(PRACTICE, "0.15 mm", "0.40 mm"),), weight=NOTE),
    Rule("bore-ovality", "bore_ovality", (
        Option("common practice, freshly honed", high="0.013 mm"),
        Option("common practice, worn", high="0.05 mm"),
    ), weight=NOTE),
    Rule("bore-taper", "bore_taper", (
        Option("common practice, freshly honed", high="0.013 mm"),
        Option("common practice, worn", high="0.05 mm"),
    ), weight=NOTE),
    Rule("piston-to-wall", "piston_to_wall", (
        Option("common practice, cast to forged", "0.02 mm", "0.11 mm"),
        Option("common practice, cast", "0.02 mm", "0.04 mm"),
        Option("common practice, forged, much silicon", "0.04 mm", "0.07 mm"),
        Option("common practice, forged, little silicon", "0.07 mm", "0.11 mm"),
    ), "of bores from 75 to 100 mm; a blown engine wants a tenth to a quarter more", danger=True),
    Rule("crank-end-float", "crank_end_float", (
        Option("service data of a production car engine", "0.10 mm", "0.20 mm"),
        Option("service data of an industrial engine", "0.05 mm", "0.38 mm"),
    )),
    Rule("top-ring-gap", "top_ring_gap", (
        Option("ring maker's table, road", "0.0040 bore"),
        Option("piston maker's table, road", "0.0045 bore"),
        Option("piston maker's table, drag and oval racing", "0.0055 bore"),
        Option("piston maker's table, turbocharged", "0.0050 bore", boosted=True),
        Option("piston maker's table, turbocharged racing", "0.0065 bore", boosted=True),
    ), danger=True),
    Rule("second-ring-gap", "second_ring_gap", (
        Option("piston maker's table, wider than the top ring's", "1.25 top_ring_gap"),
        Option("older ring table, narrower than the top ring's", "0.0035 bore"),
    )),
    # above the piston
    Rule("squish-least", "squish_clearance", (
        Option("trade newsletter, steel rods", "0.90 mm"),
        Option("common practice, aluminium rods", "1.3 mm"),
    ), "it grows smaller with rod stretch, piston rock and engine speed", danger=True),
    Rule("squish-most", "squish_clearance", (
        Option("trade newsletter, steel rods", high="1.15 mm"),
        Option("common practice, aluminium rods", high="1.5 mm"),
    ), "wider than that, squish does little", weight=GUIDE),
    Rule("inlet-valve-to-piston", "valve_to_piston_inlet", (
        Option(PRACTICE, "2.0 mm"),
        Option("parts supplier's page", "0.080 in"),
        Option("magazine", "0.100 in"),
        Option("cam supplier's sheet", "0.060 in"),
    ), danger=True),
    Rule("exhaust-valve-to-piston", "valve_to_piston_exhaust", (
        Option(PRACTICE, "2.5 mm"),
        Option("parts supplier's page", "0.080 in"),
        Option("magazine", "0.100 in"),
        Option("cam supplier's sheet", "0.060 in"),
    ), danger=True),
    Rule("inlet-coil-bind", "coil_bind_margin_inlet", (Option(PRACTICE, "1.0 mm"),), danger=True),
    Rule("exhaust-coil-bind", "coil_bind_margin_exhaust", (Option(PRACTICE, "1.0 mm"),), danger=True),
    Rule("injector-duty", "injector_duty", (Option(PRACTICE, high="85 %"),),
         "beyond that the mixture runs lean where it hurts most", danger=True),
    # how well it breathes
    Rule("inlet-mach-index", "inlet_mach_index", (
        Option("textbook on combustion engines, filling falls fast", high="0.6"),
        Option("textbook on combustion engines, filling begins to fall", high="0.5"),
    ), "the cylinders fill worse from there on", weight=GUIDE),
    Rule("inlet-port-velocity", "inlet_port_velocity", (Option("porting shop's page", high="98 m/s"),),
         "the port limits the power from there on", weight=GUIDE),
    # cylinders that should be alike
    Rule("chamber-spread", "chamber_volume", (
        Option("common practice, road", high="1.0 cc"),
        Option("common practice, competition", high="0.5 cc"),
    ), spread=True, weight=NOTE),
    Rule("compression-height-spread", "compression_height", (Option(PRACTICE, high="0.03 mm"),),
         spread=True, weight=NOTE),
    Rule("rod-length-spread", "rod_length", (Option(PRACTICE, high="0.05 mm"),), spread=True, weight=NOTE),
    # what a test tells
    Rule("compression-evenness", "cranking_pressure_least", (
        Option(PRACTICE, "90 %"),
        Option("a maker's procedure", "75 %"),
        Option("another maker's procedure", "70 %"),
    ), of_test=True, weight=NOTE),
    Rule("leakage", "leak_down", (
        Option("common practice, opened up above", high="20 %"),
        Option("common practice, good road engine", high="10 %"),
        Option("common practice, fresh racing engine", high="5 %"),
    ), of_test=True, weight=NOTE),
)  # fmt: skip
