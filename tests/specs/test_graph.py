"""The graph: which formula runs, what replaces it, what is missing, and how much is worked out for one question."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

import pytest
from figures_air import AIR_CURVES, AIR_FIGURES
from figures_clearances import CLEARANCE_FIGURES
from figures_valves import VALVE_CURVES, VALVE_FIGURES
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from lives import EXAMPLE, Life

from logbook.logbook import Logbook
from logbook.quantity.catalogue import Quantity, catalogue, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.value import parse_line
from logbook.record.facts import Fact, Statement
from logbook.record.models import Engine
from logbook.specs import compression, motion, timing, volumes
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Graph, Missing, Node
from logbook.specs.index import ALL_SPECS, OF_A_TEST, WITH_CREVICE
from logbook.state.arrangement import Arrangement
from logbook.state.holding import Held, Holding

FOUR = Arrangement.of(Engine(format="1", name="a", cylinders=4, arrangement="inline", main_bearings=5))

#: A believable figure of everything that may be stated and that a formula may ask for.
FIGURES = {
    "bore": "80.27 mm", "stroke": "79.00 mm", "rod_length": "134.00 mm", "deck_height": "206.75 mm",
    "compression_height": "33.20 mm", "deck_clearance": "0.05 mm below", "dish_volume": "5.5 cc",
    "dome_volume": "2.2 cc", "top_land_height": "6.0 mm", "top_land_diameter": "79.70 mm", "chamber_volume": "36.5 cc",
    "gasket_thickness": "0.90 mm", "gasket_bore": "82.0 mm", "gasket_opening": "52.9 cm2", "gasket_volume": "4.8 cc",
    "squish_clearance": "0.95 mm", "inlet_opens": "32 deg before TDC", "inlet_closes": "64 deg after BDC",
    "exhaust_opens": "66 deg before BDC", "exhaust_closes": "30 deg after TDC", "inlet_lobe_centre": "106 deg",
    "exhaust_lobe_centre": "108 deg", "inlet_duration": "276 deg", "exhaust_duration": "276 deg",
    "engine_speed_limit": "6800 rpm", **VALVE_FIGURES, **AIR_FIGURES, **CLEARANCE_FIGURES,
}  # fmt: skip


AT_LIFT, AT_DEPRESSION = (("at_lift", "0.1 mm"),), (("at_depression", "28 inH2O"),)
CURVES = {**VALVE_CURVES, **AIR_CURVES}


@dataclass(frozen=True)
class Shelf:
    """In the place of state.Holding: the same figure at every position, of the basis and sureness that a test wants."""

    held: Mapping[str, Held]
    first: str = "measured"
    assumed: None = None

    def best(self, row: Quantity, position: str, conditions: object = None) -> Held | None:
        return self.held.get(row.name)

    def reading(self, row: Quantity, position: str) -> Held | None:
        return self.held.get(row.name)

    def speaking(self, name: str) -> list[tuple[Fact, tuple[int, int]]]:
        return []

    def all(self, row: Quantity, position: str, conditions: object = None) -> list[Held]:
        return [self.held[row.name]] if row.name in self.held else []


def stated(name: str, basis: str = "measured", standard: float = 1e-9, *, out_of_date: bool = False) -> Held:
    row = quantity(name)
    line = parse_line(FIGURES[name], row)
    qualifiers = AT_LIFT if "at_lift" in row.qualifiers else AT_DEPRESSION if name in AIR_CURVES else ()
    said = Statement("f", ("values",), basis, qualifiers=qualifiers)
    fact = Fact(row, line.positions, True, False, FIGURES[name], said, ("values", name), CURVES.get(name))
    position = line.positions[0]
    assert position is not None
    return Held(fact, Uncertain(position[0].nominal, {name: standard}), out_of_date)


def graph(*known: str, crevice: bool = False, **held: Held) -> Graph:
    shelf = Shelf({**{name: stated(name) for name in known}, **held})
    return Graph(FOUR, cast(Holding, shelf), WITH_CREVICE if crevice else ALL_SPECS)


def node(found: Node | Missing) -> Node:
    assert isinstance(found, Node), found
    return found


def missing(found: Node | Missing) -> Missing:
    assert isinstance(found, Missing), found
    return found


# which formula


def test_of_two_formulas_the_first_that_can_run() -> None:
    both = graph("gasket_opening", "gasket_bore", "gasket_thickness")
    of_opening, round_one = ALL_SPECS["gasket_volume"]
    assert node(both.at("gasket_volume", "1")).formula == of_its(of_opening)
    only_round = graph("gasket_bore", "gasket_thickness")
    assert node(only_round.at("gasket_volume", "1")).formula == of_its(round_one)


def of_its(function: object) -> object:
    from logbook.specs.index import formula

    return formula("gasket_volume", function)  # type: ignore[arg-type]


def test_a_measured_figure_replaces_the_formula_and_the_computed_value_stays_to_be_asked_for() -> None:
    stack = ("deck_height", "stroke", "rod_length", "compression_height")
    it = graph(*stack, "deck_clearance")
    assert node(it.at("deck_clearance", "1")).held is not None
    assert node(it.computed("deck_clearance", "1")).value.nominal == pytest.approx(
        206.75e-3 - 39.5e-3 - 134e-3 - 33.2e-3
    )


@pytest.mark.parametrize(
    ("held", "taken"),
    [
        (stated("deck_clearance", "measured"), True),
        (stated("deck_clearance", "measured", out_of_date=True), False),
        (stated("deck_clearance", "predicted", standard=1e-12), True),
        (stated("deck_clearance", "predicted", standard=1e-3), False),
        (stated("deck_clearance", "published", standard=1e-12), False),
        (stated("deck_clearance", "hearsay", standard=1e-12), False),
    ],
    ids=["measured", "measured, out of date", "predicted, surer", "predicted, less sure", "published", "hearsay"],
)
def test_what_replaces_a_formula_that_can_run(held: Held, taken: bool) -> None:
    it = graph("deck_height", "stroke", "rod_length", "compression_height", deck_clearance=held)
    assert (node(it.at("deck_clearance", "1")).held is not None) == taken


@pytest.mark.parametrize("basis", ["measured", "published", "inferred", "hearsay", "assumed"])
def test_where_no_formula_can_run_any_figure_that_is_no_result_stands_in(basis: str) -> None:
    it = graph(deck_clearance=stated("deck_clearance", basis, out_of_date=True))
    assert node(it.at("deck_clearance", "1")).basis == basis


def test_a_measured_ratio_that_work_has_put_out_of_date_does_not_stand_in() -> None:
    row = quantity("compression_ratio")
    fact = Fact(row, parse_line("9.2", row).positions, True, False, "9.2", Statement("f", ("values",)), ("values",))
    fresh, stale = Held(fact, Uncertain(9.2, {})), Held(fact, Uncertain(9.2, {}), out_of_date=True)
    assert node(graph(compression_ratio=fresh).at("compression_ratio", "1")).value.nominal == 9.2
    assert isinstance(graph(compression_ratio=stale).at("compression_ratio", "1"), Missing)


def test_an_out_of_date_input_marks_all_that_rests_on_it() -> None:
    it = graph("stroke", bore=stated("bore", out_of_date=True))
    assert node(it.at("displacement", "")).out_of_date


def test_the_basis_is_the_weakest_of_what_it_rests_on() -> None:
    it = graph("stroke", bore=stated("bore", "hearsay"))
    assert node(it.at("swept_volume", "1")).basis == "hearsay"


def test_crevice_counted_asks_for_the_top_land() -> None:
    known = ("bore", "stroke", "chamber_volume", "dish_volume", "gasket_bore", "gasket_thickness", "deck_clearance")
    assert isinstance(graph(*known).at("clearance_volume", "1"), Node)
    groups = missing(graph(*known, crevice=True).at("clearance_volume", "1")).groups
    assert set(groups) == {("top_land_diameter",), ("top_land_height",)}
    counted = graph(*known, "top_land_diameter", "top_land_height", crevice=True)
    more = (
        node(counted.at("clearance_volume", "1")).value.nominal
        - node(graph(*known).at("clearance_volume", "1")).value.nominal
    )
    assert more == pytest.approx(node(counted.at("crevice_volume", "1")).value.nominal)


# circles


def lobe_from_duration(*, inlet_duration: float) -> float:
    return inlet_duration / 2


def lobe_from_closing(*, inlet_closes: float) -> float:
    return inlet_closes * 2


def duration_from_lobe(*, inlet_lobe_centre: float) -> float:
    return inlet_lobe_centre * 2


def in_a_circle(*known: str) -> Graph:
    it = graph(*known)
    it.specs = {"inlet_lobe_centre": (lobe_from_duration, lobe_from_closing), "inlet_duration": (duration_from_lobe,)}
    return it


def test_a_name_under_evaluation_is_missing_and_the_next_formula_is_tried() -> None:
    it = in_a_circle("inlet_closes")
    assert node(it.at("inlet_lobe_centre", "")).value.nominal == 128
    assert node(it.at("inlet_duration", "")).value.nominal == 256


def test_what_is_missing_only_on_the_way_is_not_remembered() -> None:
    """Asked first from above, the duration is missing while the lobe centre is worked out; asked itself, it is not."""
    it = in_a_circle("inlet_closes")
    it.at("inlet_lobe_centre", "")
    assert isinstance(it.at("inlet_duration", ""), Node)
    other_way = in_a_circle("inlet_closes")
    assert node(other_way.at("inlet_duration", "")).value.nominal == 256


def test_a_circle_with_nothing_known_ends_and_says_what_would_unlock_it() -> None:
    groups = missing(in_a_circle().at("inlet_lobe_centre", "")).groups
    assert groups == (("inlet_closes", "inlet_duration", "inlet_lobe_centre"),) or len(groups) == 1
    assert {"inlet_closes", "inlet_duration"} <= set(groups[0])


# what is missing


def test_everything_known_gives_a_value() -> None:
    for asked in (*ALL_SPECS, "clearance_volume with crevice"):
        name, _, crevice = asked.partition(" ")
        known = [each for each in FIGURES if each != "dome_volume"]
        assert all(isinstance(each, Node) for each in graph(*known, crevice=bool(crevice)).all(name)), asked


def test_the_figures_above_are_all_that_formulas_ask_for() -> None:
    from logbook.specs.index import formula

    asked = {need for name, some in WITH_CREVICE.items() for function in some for need in formula(name, function).needs}
    assert {name for name in asked if not catalogue()[name].derived_only and not catalogue()[name].result} <= set(
        FIGURES
    )
    assert {*ALL_SPECS, *OF_A_TEST} <= set(catalogue())


@settings(max_examples=250, deadline=None)
@given(st.sampled_from(list(WITH_CREVICE)), st.sets(st.sampled_from(list(FIGURES))), st.booleans(), st.data())
def test_any_one_of_each_group_unlocks_a_spec(name: str, known: set[str], crevice: bool, data: st.DataObject) -> None:
    assume(not {"dish_volume", "dome_volume"} <= known)
    found = graph(*known, crevice=crevice).all(name)
    for each in found:
        if isinstance(each, Missing) and not each.because:
            chosen = {data.draw(st.sampled_from(group)) for group in each.groups}
            assert not chosen & known, "what is known is not missing"
            assert all(isinstance(now, Node) for now in graph(*known, *chosen, crevice=crevice).all(name))
            break


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(list(ALL_SPECS)), st.sets(st.sampled_from(list(FIGURES))), st.data())
def test_leaving_one_group_out_leaves_the_spec_missing(name: str, known: set[str], data: st.DataObject) -> None:
    first = graph(*known).all(name)[0]
    assume(isinstance(first, Missing) and not first.because and len(first.groups) > 1)
    assert isinstance(first, Missing)
    left_out = data.draw(st.integers(0, len(first.groups) - 1))
    others = {name for number, group in enumerate(first.groups) if number != left_out for name in group}
    assume(not others & set(first.groups[left_out]))
    assert isinstance(graph(*known, *others).all(name)[0], Missing)


def test_what_cannot_be_is_said_and_nothing_rests_on_it() -> None:
    """Raised pistons that stand out further than the head has room for."""
    above = Held(stated("deck_clearance").fact, Uncertain(-10e-3, {}))
    known = ("bore", "stroke", "chamber_volume", "dome_volume", "gasket_bore", "gasket_thickness")
    it = graph(*known, deck_clearance=above)
    because = missing(it.at("clearance_volume", "1")).because
    assert because
    assert "room" in because or "clearance volume" in because
    assert missing(it.at("mean_compression_ratio", "")).because == because


# claims


def test_a_claim_is_shown_and_neither_used_nor_fed() -> None:
    life = (
        Life()
        .part("head-a", "cylinder_head")
        .part("block", "block", bore="80 mm")
        .part("crank", "crankshaft", stroke="79 mm")
    )
    life.part("rods", "connecting_rods", rod_length="134 mm").part(
        "cam", "camshaft", "", inlet_closes="50 deg after BDC"
    )
    life.work("2024-01-01", *(f"fit: {part}" for part in ("head-a", "block", "crank", "rods", "cam")))
    life.texts["notes/2024-01-02-said.yaml"] = (
        "date: 2024-01-02\ntitle: said\nfacts:\n"
        "  - {basis: hearsay, source: seller, values: {compression_ratio: 9.2, displacement: 1600 cc}}\n"
    )
    specs = life.at("now").specs
    ratio, effective = specs["compression_ratio"], specs["effective_compression_ratio"]
    assert ratio.known == ()
    assert life.holds("now", "compression_ratio") is None
    assert [(claim.value, claim.basis, claim.source) for claim in ratio.claims] == [(9.2, "hearsay", "seller")]
    assert effective.known == ()
    assert "chamber_volume" in effective.missing
    assert specs["displacement"].known[0].nominal == pytest.approx(1588.4e-6, rel=1e-4)  # worked out, not 1600


def test_a_measured_result_is_no_claim() -> None:
    life = Life().part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a")
    life.measure("2024-01-02", compression_ratio="9.2 / 9.2 / 9.3 / 9.2")
    assert life.at("now").specs["mean_compression_ratio"].known[0].nominal == pytest.approx(9.225)


# one question, and no more work than it takes


@pytest.mark.parametrize(
    ("name", "formulas"),
    [("displacement", 5), ("rod_ratio", 4), ("mean_piston_speed", 1), ("squish_clearance", 4), ("valve_overlap", 1)],
)
def test_only_what_is_needed_is_worked_out(name: str, formulas: int) -> None:
    it = graph(*(each for each in FIGURES if each not in ("dome_volume", "squish_clearance")))
    it.all(name)
    assert it.evaluated == formulas
    it.all(name)
    assert it.evaluated == formulas, "asked again, it is remembered"


def test_a_configuration_works_nothing_out_until_it_is_asked() -> None:
    at = Logbook.open(EXAMPLE).at("now")
    assert at.graph.evaluated == 0
    _ = at.specs["displacement"]
    assert at.graph.evaluated == 5


# the same figures as the plain functions give


def test_the_graph_gives_what_the_formulas_give_by_hand() -> None:
    at = Logbook.open(EXAMPLE).at("third-head")
    bores, chambers = (80.268e-3, 80.270e-3, 80.272e-3, 80.270e-3), (37.8e-6, 37.7e-6, 37.9e-6, 37.8e-6)
    ratios = []
    for bore, chamber in zip(bores, chambers, strict=True):
        swept = volumes.swept_volume(bore=bore, stroke=79e-3)
        clearance = volumes.clearance_volume(
            chamber_volume=chamber,
            crown_volume=volumes.crown_volume_raised(dome_volume=2.2e-6),
            gasket_volume=volumes.gasket_volume_of_opening(gasket_opening=52.9e-4, gasket_thickness=0.9e-3),
            deck_volume=volumes.deck_volume(bore=bore, deck_clearance=0.05e-3),
        )
        ratios.append(compression.compression_ratio(swept_volume=swept, clearance_volume=clearance))
    assert [value.nominal for value in at.specs["compression_ratio"].known] == pytest.approx(ratios, rel=1e-12)
    mean = compression.mean_compression_ratio(compression_ratio=ratios)
    assert at.specs["mean_compression_ratio"].known[0].nominal == pytest.approx(mean, rel=1e-12)
    effective = [
        compression.effective_compression_ratio(
            compression_ratio=ratio, stroke=79e-3, rod_length=134e-3, inlet_closes=64
        )
        for ratio in ratios
    ]
    assert [value.nominal for value in at.specs["effective_compression_ratio"].known] == pytest.approx(
        effective, rel=1e-12
    )
    speed = motion.mean_piston_speed(stroke=79e-3, engine_speed_limit=6800 / 60)
    assert at.specs["mean_piston_speed"].known[0].nominal == pytest.approx(speed, rel=1e-12)
    overlap = timing.valve_overlap(inlet_opens=32, exhaust_closes=30)
    assert at.specs["valve_overlap"].known[0].nominal == pytest.approx(overlap, rel=1e-12)


def test_the_uncertainty_is_the_root_sum_of_squares_where_sources_are_independent() -> None:
    it = graph(bore=stated("bore", standard=1e-5), stroke=stated("stroke", standard=2e-5))
    value = node(it.at("swept_volume", "1")).value
    relative = ((2 * 1e-5 / 80.27e-3) ** 2 + (2e-5 / 79e-3) ** 2) ** 0.5
    assert value.standard / value.nominal == pytest.approx(relative, rel=1e-6)


def test_one_gauge_for_all_cylinders_does_not_average_out() -> None:
    it = graph(bore=stated("bore", standard=1e-5), stroke=stated("stroke", standard=0.0))
    one, all_four = node(it.at("swept_volume", "1")).value, node(it.at("displacement", "")).value
    assert all_four.standard == pytest.approx(4 * one.standard)


TIMED = ("inlet_opens", "inlet_closes", "inlet_lobe_centre", "inlet_duration", "inlet_peak_centre", "exhaust_opens",
         "exhaust_closes", "exhaust_lobe_centre", "exhaust_duration", "valve_overlap", "inlet_lift_at_tdc")  # fmt: skip


@pytest.fixture(scope="module")
def as_bought() -> Configuration:
    return Logbook.open(EXAMPLE).at("start")


@settings(max_examples=15, deadline=None)
@given(order=st.permutations(TIMED))
def test_what_stands_on_each_other_comes_out_alike_in_whatever_order_it_is_asked_for(
    as_bought: Configuration, order: list[str]
) -> None:
    """Card and lift table give events, centres and durations from one another."""
    asked = as_bought.graph.with_holding(as_bought.holding)
    found = {name: asked.at(name, "") for name in order}
    for name in TIMED:
        alone, together = as_bought.graph.with_holding(as_bought.holding).at(name, ""), found[name]
        assert isinstance(alone, Node)
        assert isinstance(together, Node)
        assert together.value.nominal == pytest.approx(alone.value.nominal)
        assert together.value.standard == pytest.approx(alone.value.standard)
