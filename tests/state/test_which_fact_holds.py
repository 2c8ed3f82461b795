"""Which fact holds: small lives, each with what must hold at each of its days."""

from __future__ import annotations

import pytest
from lives import Life, told

from logbook.specs.graph import Node

CHAMBERS = "chamber_volume"


def head(**published: str) -> Life:
    """A head on an engine since New Year."""
    return Life().part("head-a", "cylinder_head", **published).work("2024-01-01", "fit: head-a")


def test_as_known_now_in_both_directions_between_two_reworks() -> None:
    life = head()
    life.measure("2024-03-01", "head-a", chamber_volume="{all: 36 cc}")
    life.work("2024-04-01", "rework: head-a, operation: surface milled")
    life.measure("2024-05-01", "head-a", chamber_volume="{all: 34 cc}")
    life.work("2024-06-01", "rework: head-a, operation: seats cut")
    days = ["2024-01-01", "2024-03-01", "2024-04-01", "2024-05-01", "2024-06-01"]
    assert [life.holds(day, CHAMBERS) for day in days] == ["36 later", "36", "34 later", "34", "34 out of date"]


def test_a_stretch_without_a_figure_takes_none_from_the_next_stretch() -> None:
    life = head()
    life.work("2024-04-01", "rework: head-a, operation: surface milled")
    life.measure("2024-05-01", "head-a", chamber_volume="{all: 34 cc}")
    assert [life.holds(day, CHAMBERS) for day in ("2024-01-01", "2024-04-01")] == [None, "34 later"]


def test_a_rework_of_another_part_or_another_figure_touches_nothing() -> None:
    life = head().part("head-b", "cylinder_head")
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
    life.work("2024-03-01", "rework: head-b, operation: surface milled", "rework: head-a, operation: ported")
    assert life.holds("now", CHAMBERS) == "36"


def test_what_a_rework_gives_holds_from_it_on() -> None:
    life = head()
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
    life.work("2024-03-01", "rework: head-a, operation: surface milled, to: {chamber_volume: {all: 34 cc}}")
    assert [life.holds(day, CHAMBERS) for day in ("2024-02-01", "2024-03-01")] == ["36", "34"]


def test_undated_figures_of_a_part_hold_from_the_start_and_until_it_is_worked_on() -> None:
    life = head(chamber_volume="35 cc")
    life.work("2024-03-01", "rework: head-a, operation: surface milled")
    assert [life.holds(day, CHAMBERS) for day in ("start", "2024-03-01")] == ["35", "35 out of date"]


def test_the_order_of_bases() -> None:
    """Measured, then what was measured before the work, then published; hearsay and assumed last."""
    life = head(chamber_volume="35 cc")
    life.part("head-b", "cylinder_head", basis="hearsay", chamber_volume="33 cc")
    assert life.holds("now", CHAMBERS) == "35"
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
    assert life.holds("now", CHAMBERS) == "36"
    life.work("2024-03-01", "rework: head-a, operation: surface milled")
    assert life.holds("now", CHAMBERS) == "36 out of date"
    life.work("2024-04-01", "fit: head-b")
    assert life.holds("now", CHAMBERS) == "33"


@pytest.mark.parametrize("better", ["predicted", "published", "inferred", "hearsay"])
def test_a_stronger_basis_wins_whatever_its_uncertainty(better: str) -> None:
    bases = ["predicted", "published", "inferred", "hearsay", "assumed"]
    worse = bases[bases.index(better) + 1]
    facts = f"facts:\n  - {{basis: {worse}, values: {{stroke: 70.0 ± 0.01 mm}}}}\n"
    facts += f"  - {{basis: {better}, values: {{stroke: 79.0 ± 0.5 mm}}}}\n"
    assert Life().part("crank", "crankshaft", facts).work("2024-01-01", "fit: crank").holds("now", "stroke") == "79"


def test_a_correction_takes_a_figure_back_from_the_day_it_was_written() -> None:
    life = head(chamber_volume="35 cc")
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 63 cc}")
    slip = life.last
    life.measure("2024-03-01", "head-a", head_thickness="90 mm")
    life.work("2024-04-01", f"correct: {{entry: {slip}, part: head-a, quantity: chamber_volume, why: turned round}}")
    for day in ("start", "2024-02-01", "2024-03-01", "now"):
        assert life.holds(day, CHAMBERS) == "35"
    assert life.holds("now", "head_thickness") == "90"
    assert told(life.believed("2024-03-01", known="2024-03-01"), CHAMBERS) == "63"  # what was believed then
    assert told(life.believed("2024-03-01", known="2024-04-01"), CHAMBERS) == "35"


def test_a_correction_touches_only_the_part_it_names() -> None:
    life = head().part("head-b", "cylinder_head")
    life.texts["measurements/2024-02-01-both.yaml"] = (
        "date: 2024-02-01\ntaken:\n  - {part: head-a, values: {chamber_volume: {all: 36 cc}}}\n"
        "  - {part: head-b, values: {chamber_volume: {all: 38 cc}}}\n"
    )
    life.work("2024-04-01", "correct: {entry: 2024-02-01-both, part: head-b, quantity: chamber_volume, why: slip}")
    assert life.holds("now", CHAMBERS) == "36"
    life.work("2024-05-01", "fit: head-b")
    assert life.holds("now", CHAMBERS) is None


def test_a_correction_can_reach_one_position_alone() -> None:
    """It counts as not taken from then on: the mean of the others."""
    life = head().measure("2024-02-01", "head-a", chamber_volume="36 / 63 / 37 / 38 cc")
    slip = life.last
    life.measure("2024-03-01", "head-a", head_thickness="90 mm")
    life.work("2024-04-01", f"correct: {{entry: {slip}, quantity: chamber_volume, position: 2, why: turned round}}")
    assert [life.holds("now", CHAMBERS, each) for each in "1234"] == ["36", "37", "37", "38"]
    assert told(life.believed("2024-03-01", known="2024-03-01"), CHAMBERS, "2") == "63"
    life.work("2024-05-01", f"correct: {{entry: {slip}, quantity: chamber_volume, position: 4, why: too}}")
    assert [life.holds("now", CHAMBERS, each) for each in "1234"] == ["36", "36.5", "37", "36.5"]
    assert life.book.findings == ()


def test_a_line_of_which_every_value_is_a_mistake_holds_no_more() -> None:
    life = head().measure("2024-02-01", "head-a", chamber_volume="36 / 63 / 37 / 38 cc")
    slip = life.last
    for position in "1234":
        step = f"correct: {{entry: {slip}, quantity: chamber_volume, position: {position}, why: wrong head}}"
        life.work(f"2024-04-0{position}", step)
    assert [life.holds("now", CHAMBERS, each) for each in "1234"] == [None] * 4


def test_a_figure_of_a_parts_file_can_be_corrected_too() -> None:
    life = head(chamber_volume="35 cc")
    life.work("2024-04-01", "correct: {entry: parts/head-a, quantity: chamber_volume, why: another engine's sheet}")
    assert life.holds("now", CHAMBERS) is None


def test_what_is_adopted_holds_over_a_surer_figure_until_the_part_is_worked_on() -> None:
    life = head()
    life.measure("2024-02-01", "head-a", using="coarse", chamber_volume="{all: 36 cc}")
    coarse = life.last
    life.measure("2024-03-01", "head-a", using="fine", chamber_volume="{all: 39 cc}")
    assert life.holds("now", CHAMBERS) == "39"
    life.work("2024-04-01", f"adopt: {{quantity: chamber_volume, from: {coarse}, why: the fine one leaked}}")
    assert [life.holds(day, CHAMBERS) for day in ("2024-01-01", "2024-03-01", "now")] == ["36 later", "36", "36"]
    life.work("2024-05-01", "rework: head-a, operation: surface milled")
    life.measure("2024-06-01", "head-a", using="coarse", chamber_volume="{all: 34 cc}")
    assert life.holds("now", CHAMBERS) == "34"


def test_what_is_adopted_for_one_part_says_nothing_of_another() -> None:
    life = head().part("head-b", "cylinder_head")
    life.measure("2024-02-01", "head-a", using="coarse", chamber_volume="{all: 36 cc}")
    of_a = life.last
    life.measure("2024-02-02", "head-b", using="coarse", chamber_volume="{all: 38 cc}")
    of_b = life.last
    life.measure("2024-02-03", "head-a", using="fine", chamber_volume="{all: 36.5 cc}")
    life.measure("2024-02-04", "head-b", using="fine", chamber_volume="{all: 38.5 cc}")
    life.work("2024-03-01", f"adopt: {{quantity: chamber_volume, part: head-a, from: {of_a}, why: a}}")
    life.work("2024-03-02", f"adopt: {{quantity: chamber_volume, part: head-b, from: {of_b}, why: b}}")
    life.work("2024-03-03", "fit: head-b")
    life.work("2024-03-04", "fit: head-a")
    assert [life.holds(day, CHAMBERS) for day in ("2024-03-02", "2024-03-03", "now")] == ["36", "38", "36"]


def test_a_sheet_of_two_parts_can_be_adopted_for_one_of_them() -> None:
    life = head().part("head-b", "cylinder_head")
    life.texts["measurements/2024-02-01-both.yaml"] = (
        "date: 2024-02-01\nwith: coarse\ntaken:\n  - {part: head-a, values: {chamber_volume: {all: 36 cc}}}\n"
        "  - {part: head-b, values: {chamber_volume: {all: 38 cc}}}\n"
    )
    life.measure("2024-02-02", "head-a", using="fine", chamber_volume="{all: 36.5 cc}")
    life.measure("2024-02-03", "head-b", using="fine", chamber_volume="{all: 38.5 cc}")
    life.work("2024-03-01", "adopt: {quantity: chamber_volume, part: head-b, from: 2024-02-01-both, why: a}")
    life.work("2024-03-02", "fit: head-b")
    assert [life.holds(day, CHAMBERS) for day in ("2024-03-01", "now")] == ["36.5", "38"]


def camshaft() -> Life:
    life = Life().part("cam", "camshaft", inlet_lobe_centre="108 deg")
    life.part("cam-2", "camshaft").part("crank", "crankshaft")
    return life.work("2024-01-01", "fit: cam", "fit: crank")


def test_what_is_set_supersedes_what_was_measured_from_here_on() -> None:
    life = camshaft()
    life.measure("2024-02-01", inlet_lobe_centre="110 deg")
    life.work("2024-03-01", "set: {inlet_lobe_centre: 106 deg}")
    days = ["2024-01-01", "2024-02-01", "2024-03-01"]
    assert [life.holds(day, "inlet_lobe_centre") for day in days] == ["110 later", "110", "106"]


def test_what_is_set_sleeps_with_its_parts_and_wakes_with_them() -> None:
    life = camshaft()
    life.work("2024-03-01", "set: {inlet_lobe_centre: 106 deg}")
    life.work("2024-04-01", "fit: cam-2")
    life.work("2024-05-01", "fit: cam")
    days = ["2024-03-01", "2024-04-01", "2024-05-01"]
    assert [life.holds(day, "inlet_lobe_centre") for day in days] == ["106", None, "106"]


def test_turning_the_camshaft_puts_all_its_events_out_of_date_but_not_its_card() -> None:
    life = camshaft()
    life.measure("2024-02-01", inlet_opens="12 deg before TDC", inlet_valve_lift="9.0 mm")
    life.work("2024-03-01", "set: {inlet_lobe_centre: 106 deg}")
    assert life.holds("now", "inlet_opens") == "12 out of date"
    assert life.holds("now", "inlet_valve_lift") == "9"
    assert life.holds("2024-01-01", "inlet_lobe_centre") == "108"  # the card, which no turning makes wrong


def short_motor() -> Life:
    life = Life().part("block", "block").part("crank", "crankshaft").part("rods", "connecting_rods")
    life.part("pistons-1", "pistons").part("pistons-2", "pistons")
    return life.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "rods", "pistons-1")))


def test_a_figure_of_a_set_sleeps_while_one_of_it_is_away_and_wakes_when_all_are_back() -> None:
    life = short_motor()
    life.measure("2024-02-01", deck_clearance="0.30 / 0.31 / 0.32 / 0.33 mm below")
    life.work("2024-03-01", "fit: pistons-2")
    life.work("2024-04-01", "fit: pistons-1")
    life.work("2024-05-01", "remove: rods")
    life.work("2024-06-01", "fit: rods")
    held = [life.holds(f"2024-0{month}-01", "deck_clearance", "2") for month in range(1, 7)]
    assert held == ["0.31 later", "0.31", None, "0.31", None, "0.31"]


def test_a_figure_of_a_set_is_out_of_date_when_one_of_it_was_worked_on() -> None:
    life = short_motor()
    life.measure("2024-02-01", deck_clearance="0.30 / 0.31 / 0.32 / 0.33 mm below")
    life.work("2024-03-01", "rework: block, operation: decked")
    life.work("2024-04-01", "fit: pistons-2")
    life.work("2024-05-01", "rework: pistons-1, operation: crown machined", "fit: pistons-1")
    days = ["2024-03-01", "2024-04-01", "2024-05-01"]
    assert [life.holds(day, "deck_clearance", "1") for day in days] == ["0.3 out of date", None, "0.3 out of date"]


def test_pistons_in_another_order_are_another_set_where_they_changed_places() -> None:
    life = short_motor()
    life.measure("2024-02-01", deck_clearance="0.30 / 0.31 / 0.32 / 0.33 mm below")
    life.work("2024-03-01", "fit: pistons-1, order: B / A / C / D")
    assert [life.holds("now", "deck_clearance", each) for each in "1234"] == [None, None, "0.32", "0.33"]


def test_positions_of_a_part_are_counted_in_its_own_order() -> None:
    life = short_motor()
    life.measure("2024-02-01", "pistons-1", dish_volume="5.1 / 5.2 / 5.3 / 5.4 cc")
    life.work("2024-03-01", "fit: pistons-1, order: B / A / D / C")
    life.work("2024-04-01", "remove: pistons-1", "fit: pistons-1")
    assert [life.holds("2024-02-01", "dish_volume", each) for each in "1234"] == ["5.1", "5.2", "5.3", "5.4"]
    assert [life.holds("2024-03-01", "dish_volume", each) for each in "1234"] == ["5.2", "5.1", "5.4", "5.3"]
    assert [life.holds("now", "dish_volume", each) for each in "1234"] == ["5.1", "5.2", "5.3", "5.4"]


def test_five_pieces_of_which_four_are_fitted() -> None:
    life = Life().part("pistons", "pistons", "pieces: 5\n").work("2024-01-01", "fit: pistons")
    life.measure("2024-02-01", "pistons", dish_volume="5.1 / 5.2 / 5.3 / 5.4 / 5.5 cc")
    life.work("2024-03-01", "fit: pistons, order: A / B / E / D")
    assert [life.holds("2024-02-01", "dish_volume", each) for each in "1234"] == ["5.1", "5.2", "5.3", "5.4"]
    assert [life.holds("now", "dish_volume", each) for each in "1234"] == ["5.1", "5.2", "5.5", "5.4"]
    assert life.book.findings == ()


def test_a_position_that_was_not_taken_keeps_what_was_known_before() -> None:
    life = head()
    life.measure("2024-02-01", "head-a", using="coarse", chamber_volume="36.1 / 36.2 / 36.3 / 36.4 cc")
    life.measure("2024-03-01", "head-a", using="fine", chamber_volume="x / 35.2 / x / x cc")
    assert [life.holds("now", CHAMBERS, each) for each in "1234"] == ["36.1", "35.2", "36.3", "36.4"]


def test_looked_at_and_not_known_is_no_figure() -> None:
    life = head(chamber_volume="35 cc").measure("2024-02-01", "head-a", chamber_volume="unknown")
    assert life.holds("now", CHAMBERS) == "35"
    assert life.book.findings == ()


def test_what_does_not_wear_takes_the_surer_and_among_equals_the_latest() -> None:
    life = head()
    life.measure("2024-02-01", "head-a", using="fine", chamber_volume="{all: 36.1 cc}")
    life.measure("2024-03-01", "head-a", using="coarse", chamber_volume="{all: 37 cc}")
    assert [life.holds(day, CHAMBERS) for day in ("2024-02-01", "2024-03-01")] == ["36.1", "36.1"]
    life.measure("2024-04-01", "head-a", using="fine", chamber_volume="{all: 36.2 cc}")
    days = ["2024-01-01", "2024-02-01", "2024-03-01", "2024-04-01"]
    assert [life.holds(day, CHAMBERS) for day in days] == ["36.1 later", "36.1", "36.1", "36.2"]


def test_what_wears_takes_the_nearest_in_time() -> None:
    life = Life(1, "single").part("block", "block").work("2024-01-01", "fit: block")
    life.measure("2024-02-01", "block", bore="80.00(1) mm")
    for day in ("2024-02-10", "2024-03-20"):
        life.work(day, "service: oil")
    life.measure("2024-04-01", "block", bore="80.1 mm")  # less sure, and nearer to what follows
    life.work("2024-06-01", "service: oil")
    days = ["2024-02-01", "2024-02-10", "2024-03-20", "2024-04-01", "now"]
    assert [life.holds(day, "bore") for day in days] == ["80", "80", "80.1 later", "80.1", "80.1"]


def test_figures_at_another_lift_are_another_figure() -> None:
    life = camshaft()
    low, high = "at_lift: 0.10 mm\n", "at_lift: 1.00 mm\n"
    life.measure("2024-02-01", more=low, inlet_opens="14 deg before TDC", inlet_closes="50 deg after BDC")
    life.measure("2024-02-02", more=high, inlet_opens="2 deg before TDC", exhaust_closes="1 deg after TDC")
    at = life.at("now")
    assert at.graph.conditions == (("at_lift", "0.1 mm"),)
    assert at.specs["valve_overlap"].values == (None,)
    assert at.specs["valve_overlap"].missing == ("exhaust_closes",)
    (duration,) = at.specs["inlet_duration"].known
    assert duration.nominal == pytest.approx(14 + 180 + 50)
    assert at.specs["inlet_duration"].conditions == {"at_lift": "0.1 mm"}
    life.measure("2024-02-03", more="at_lift: 0.1 mm\n", exhaust_closes="12 deg after TDC")  # one spelling of the lift
    assert life.at("now").specs["valve_overlap"].known[0].nominal == pytest.approx(14 + 12)


def test_what_was_stated_for_a_combination_holds_for_that_combination() -> None:
    life = head().part("gasket-1", "head_gasket").part("gasket-2", "head_gasket")
    life.work("2024-01-02", "fit: gasket-1")
    life.texts["notes/2024-01-03-said.yaml"] = (
        "date: 2024-01-03\ntitle: said\nfacts:\n"
        "  - {basis: hearsay, stated_for: {head_gasket: gasket-1}, values: {squish_clearance: 1.5 mm}}\n"
    )
    life.work("2024-02-01", "fit: gasket-2")
    assert [life.holds(day, "squish_clearance", "1") for day in ("2024-01-03", "now")] == ["1.5", None]


def test_a_test_is_an_event_of_its_day_and_holds_nowhere() -> None:
    life = head()
    life.texts["tests/2024-02-01-compression.yaml"] = (
        "date: 2024-02-01\nkind: compression test\noil: dry\nvalues: {cranking_pressure: 12 / 12 / 12 / 12 bar gauge}\n"
    )
    assert life.holds("now", "cranking_pressure") is None


def plan(life: Life, text: str) -> Life:
    life.texts["plans/p.yaml"] = f"title: p\ndate: 2024-06-01\n{text}"
    return life


def test_a_plan_puts_out_of_date_what_it_would_touch() -> None:
    life = head().measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
    plan(life, "work:\n  - {rework: head-a, operation: surface milled}\n")
    assert [life.holds(point, CHAMBERS) for point in ("plan:p", "now")] == ["36 out of date", "36"]


def test_a_plan_stands_on_its_own_point_whatever_happened_later() -> None:
    life = head().measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
    life.work("2024-03-01", "rework: head-a, operation: seats cut").part("head-b", "cylinder_head")
    plan(life, "from: 2024-01-01\nwork:\n  - {rework: head-a, operation: surface milled}\n")
    assert life.holds("plan:p", CHAMBERS) == "36 later out of date"


def test_what_a_plan_assumes_or_sets_overrules_what_was_measured() -> None:
    life = camshaft().measure("2024-02-01", inlet_lobe_centre="110 deg")
    assert plan(life, "assume: {inlet_lobe_centre: 104 deg}\n").holds("plan:p", "inlet_lobe_centre") == "104"
    life = camshaft().measure("2024-02-01", inlet_lobe_centre="110 deg")
    assert plan(life, "work:\n  - set: {inlet_lobe_centre: 102 deg}\n").holds("plan:p", "inlet_lobe_centre") == "102"
    assert life.holds("now", "inlet_lobe_centre") == "110"


def test_a_position_that_was_never_taken_is_as_the_mean_of_the_others_and_less_sure() -> None:
    life = head().measure("2024-02-01", "head-a", using="fine", chamber_volume="36.0 / x / 37.0 / x cc")
    at = life.at("now")
    assert life.holds("now", CHAMBERS, "2") == "36.5"
    taken, inferred = (at.graph.at(CHAMBERS, each) for each in "12")
    assert isinstance(taken, Node)
    assert isinstance(inferred, Node)
    assert (taken.basis, inferred.basis) == ("measured", "inferred")
    assert inferred.value.standard > taken.value.standard
