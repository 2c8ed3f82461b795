"""Verdicts of a difference, claims beside what was worked out, and what else two points differ in."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lives import Life

from logbook.judge.compare import AMENDED, IF_PUBLISHED, REAL, SAME, WITHIN, difference, verdict
from logbook.judge.reconcile import e_n, reconcile
from logbook.record.finding import NOTE, Finding
from logbook.specs.results import Value


def value(nominal: float, basis: str = "measured", **terms: float) -> Value:
    unmeasured = frozenset() if basis == "measured" else frozenset(terms)
    return Value(nominal, terms, basis, {basis: 1.0}, False, False, unmeasured)


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        (value(9.0, a=0.1), value(9.0, a=0.1), SAME),
        (value(9.0, a=0.1), value(9.3, a=0.1), REAL),  # all that is unsure is shared
        (value(9.0, a=0.1), value(9.2, b=0.1), WITHIN),
        (value(9.0, a=0.1), value(9.4, b=0.1), REAL),
        (value(9.0), value(9.3), REAL),
        (value(9.0, a=1e-17), value(9.0 + 4e-15, b=1e-17), SAME),  # added up in another order
        (value(9.0, a=0.1), value(9.0, b=0.1), WITHIN),
        (value(9.0, "published", a=0.1), value(9.4, "published", b=0.1), IF_PUBLISHED),
        (value(9.0, a=0.11), value(9.4, "published", b=0.1), REAL),  # under half of the variance
        (value(9.0, a=0.1), value(9.4, "published", b=0.11), IF_PUBLISHED),
        (value(9.0, **{"x|1": 0.1}), value(9.4, **{"x|2": 0.1}), AMENDED),
        (value(9.0, **{"x|1": 0.1}), value(9.4, **{"y|2": 0.1}), REAL),
    ],
)
def test_a_verdict_in_words(before: Value, after: Value, said: str) -> None:
    assert verdict(before, after) == said


@given(st.floats(1, 20), st.floats(1, 20), st.floats(0, 1), st.floats(0, 1))
def test_a_verdict_does_not_depend_on_the_direction(first: float, second: float, common: float, own: float) -> None:
    a, b = value(first, common=common, a=own), value(second, common=common, b=own)
    assert verdict(a, b) == verdict(b, a)


def heads() -> Life:
    life = Life(2).part("head-a", "cylinder_head").part("head-b", "cylinder_head").part("gasket", "head_gasket")
    life.part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    life.part("pistons", "pistons", dish_volume="5.0 cc")
    fits = [f"fit: {part}" for part in ("head-a", "gasket", "block", "crank", "pistons")]
    life.work("2024-01-01", *fits, "set: {main_jet: 135}", "tune: one, state: in use")
    life.measure("2024-01-02", "gasket", gasket_bore="{all: 82 mm}", gasket_thickness="1.2 mm")
    life.measure("2024-01-03", deck_clearance="{all: 0.3 mm below}")
    life.measure("2024-01-04", "head-a", using="fine", chamber_volume="36.0 / 36.0 cc")
    life.measure("2024-01-05", "head-b", using="fine", chamber_volume="38.0 / 36.0 cc")
    life.work("2024-02-01", "fit: head-b", "set: {main_jet: 140}", "tune: one, state: withdrawn")
    return life


def test_two_points_side_by_side() -> None:
    both = heads().book.compare("2024-01-05", "now")
    assert (both.off, both.on) == (("head-a",), ("head-b",))
    assert both.settings == {"main_jet": ("135", "140"), "tune": ("one", None)}
    assert [(each.name, each.before, each.after) for each in both.facts] == [
        ("chamber_volume", "36.0 / 36.0 cc", "38.0 / 36.0 cc")
    ]
    assert both.specs["compression_ratio"].verdicts == (REAL, WITHIN)
    assert both.specs["displacement"].verdicts == (SAME,)
    assert not both.specs["displacement"].changed


def test_a_value_on_one_side_only_is_a_change_without_a_verdict() -> None:
    life = heads().work("2024-03-01", "remove: head-b")
    ratio = life.book.compare("2024-02-01", "now").specs["compression_ratio"]
    assert ratio.changed
    assert (ratio.verdicts, ratio.differences) == ((None, None), (None, None))


def test_an_engine_file_with_another_number_of_cylinders_can_still_be_compared() -> None:
    """What `save` does when somebody corrects the number of cylinders."""
    two, four = Life(2).part("block", "block", bore="80 mm"), Life(4).part("block", "block", bore="80 mm")
    for life in (two, four):
        life.part("crank", "crankshaft", stroke="79 mm").work("2024-01-01", "fit: block", "fit: crank")
    both = difference(two.at("now").specs["swept_volume"], four.at("now").specs["swept_volume"])
    assert both.positions == ("1", "2", "3", "4")
    assert both.verdicts == (SAME, SAME, None, None)


def claiming(ratio: str) -> Life:
    life = heads()
    life.texts["notes/2024-01-06-said.yaml"] = (
        "date: 2024-01-06\ntitle: said\nfacts:\n"
        f"  - {{basis: hearsay, source: seller, values: {{compression_ratio: {ratio}}}}}\n"
    )
    return life


def doubts(life: Life) -> list[Finding]:
    """What is wrong or doubtful; its chambers are uneven, which is worth a note."""
    return [finding for finding in life.book.findings if finding.level != NOTE]


def test_a_claim_that_agrees_says_so_and_is_no_finding() -> None:
    life = claiming("9.1")
    at = life.at("2024-01-06")
    (told,) = reconcile(at, at.specs["compression_ratio"])
    assert told.agrees
    assert told.sentence.startswith("the quoted 9.1 (seller) agrees with the 9")
    assert doubts(life) == []


def test_a_claim_that_does_not_agree_is_told_in_cubic_centimetres() -> None:
    life = claiming("11.0")
    at = life.at("2024-01-06")
    (told,) = reconcile(at, at.specs["compression_ratio"])
    swept = at.specs["swept_volume"].known[0].nominal
    needed = swept / (11.0 - 1) - at.specs["clearance_volume"].known[0].nominal
    assert told.sentence.endswith(f"it needs {-needed * 1e6:.1f} cc less above each piston than was found")
    (finding,) = doubts(life)
    assert (finding.file, finding.line, finding.level) == ("notes/2024-01-06-said.yaml", 4, "doubtful")


def test_a_claim_without_figures_to_hold_it_against_is_no_finding() -> None:
    life = claiming("11.0").work("2024-01-07", "remove: pistons")
    assert reconcile(life.at("2024-01-07"), life.at("2024-01-07").specs["compression_ratio"]) == []


def test_e_n_is_the_difference_over_both_errors() -> None:
    """ISO 13528:2022, 9.4 (from memory): 0.5 against 0.3 and 0.4 lies just at the border."""
    assert e_n(0.5, 0.3, 0.4) == pytest.approx(1.0)


def test_what_is_predicted_of_one_head_stands_together() -> None:
    life = Life(6, "vee").part("b", "block", bore="80 mm")
    for name in ("left", "right"):
        life.part(name, "cylinder_head").measure("2024-01-01", name, chamber_volume="40 / 41 / 42 cc")
        life.measure("2024-01-01", name, chamber_opening="{all: 50 cm2}")
    life.work("2024-01-02", "fit: b", "fit: left, at: bank 1", "fit: right, at: bank 2")
    life.work("2024-02-01", "rework: left, operation: surface milled, depth: 0.20 mm")
    told = {fact.name: fact.after for fact in life.book.compare("2024-01-02", "now").facts}
    assert told["chamber_volume"] == (
        "39.00 / 40.00 / 41.00 cc predicted of cylinders 1, 3 and 5; 40 / 41 / 42 cc of cylinders 2, 4 and 6"
    )


def test_of_a_line_that_holds_at_some_positions_only_just_these_figures_are_told() -> None:
    life = Life(3).part("b", "block", bore="80 mm").part("head", "cylinder_head").part("other", "cylinder_head")
    life.work("2024-01-01", "fit: b", "fit: other")
    life.measure("2024-01-02", "head", chamber_volume="40.1(1) / 41.0(1) / 42.0(1) cc")
    first = life.last
    life.measure("2024-01-03", "head", chamber_volume="x / x / 43.2 cc")
    life.work("2024-01-04", f"correct: {{entry: {first}, quantity: chamber_volume, position: 3, why: a slip}}")
    life.work("2024-01-05", "fit: head")
    told = {fact.name: fact.after for fact in life.book.compare("2024-01-01", "now").facts}
    assert told["chamber_volume"] == "40.1(1) / 41.0(1) cc of cylinders 1 and 2; 43.2 cc of cylinder 3"


def test_what_a_plan_takes_for_granted_of_one_head_is_told_as_it_was_written() -> None:
    life = Life(4, "vee").part("b", "block", bore="80 mm")
    for name in ("left", "right"):
        life.part(name, "cylinder_head").measure("2024-01-01", name, chamber_volume="40 / 41 cc")
    life.work("2024-01-02", "fit: b", "fit: left, at: bank 1", "fit: right, at: bank 2")
    life.texts["plans/less.yaml"] = (
        "title: a\ndate: 2024-02-01\nfrom: now\nwork:\n"
        "  - {rework: left, operation: surface milled, depth: 0.20 mm, to: {chamber_volume: 38.1 / 38.6 cc}}\n"
    )
    told = {fact.name: fact.after for fact in life.book.compare("now", "plan:less").facts}
    assert told["chamber_volume"] == ("38.1 / 38.6 cc assumed of cylinders 1 and 3; 40 / 41 cc of cylinders 2 and 4")
