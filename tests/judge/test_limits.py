"""Limits: which rules hold, the guard band, what would settle it, what was accepted and until when, what check says."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lives import EXAMPLE, Life

from logbook.judge.bounds import OUTSIDE, UNDECIDED, WITHIN, parse_bound, standing
from logbook.judge.limit_rules import RULES
from logbook.judge.limits import Judged, limits_of
from logbook.judge.settling import settles
from logbook.logbook import Logbook
from logbook.quantity.catalogue import catalogue, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.value import ValueProblem

GAUGES = """\
instruments:
  blades: {what: feeler blades, each: 0.10 mm}
  dial: {what: dial indicator, each: 0.02 mm}
"""


def engine(*limits: str, **valve_to_piston: str) -> Life:
    """A four with a measured valve-to-piston clearance, and `limits:` of the owner's."""
    listed = "".join(f"  - {{{each}}}\n" for each in limits)
    life = Life(more=f"limits:\n{listed}" if limits else "")
    life.texts["engine.yaml"] = (
        life.texts["engine.yaml"].split("instruments:")[0] + GAUGES + (f"limits:\n{listed}" if limits else "")
    )
    for kind in ("block", "crankshaft", "connecting_rods", "pistons", "cylinder_head", "head_gasket", "camshaft"):
        life.part(f"{kind}-1", kind)
    life.work("2024-01-01", *(f"fit: {kind}-1" for kind in ("block", "crankshaft", "connecting_rods", "pistons")))
    life.work("2024-01-02", *(f"fit: {kind}-1" for kind in ("cylinder_head", "head_gasket", "camshaft")))
    return life


def with_inlet(life: Life, text: str, using: str = "dial", date: str = "2024-01-03") -> Life:
    return life.measure(date, using=using, valve_to_piston_inlet=text)


def of(life: Life, limit: str, point: str = "now") -> list[Judged]:
    return [each for each in life.book.at(point).limits if each.limit.id == limit]


def said(life: Life) -> list[tuple[str, str]]:
    """Level and words of the findings about a limit."""
    return [(each.level, each.says) for each in life.book.findings if "its limit" in each.says]


# the rules


def test_every_rule_can_be_read_and_names_what_there_is() -> None:
    assert len({rule.id for rule in RULES}) == len(RULES)
    for rule in RULES:
        assert rule.spec in catalogue()
        assert len({option.source for option in rule.options}) == len(rule.options)
        for option in rule.options:
            assert option.source
            assert option.low or option.high
            for text in filter(None, (option.low, option.high)):
                parse_bound(text, quantity(rule.spec))


def test_a_bound_is_an_amount_or_a_multiple_with_an_amount_beside_it() -> None:
    row = quantity("top_ring_gap")
    assert parse_bound("0.36 mm", row).amount == pytest.approx(0.36e-3)
    assert parse_bound("2 thou", row).amount == pytest.approx(50.8e-6)
    assert parse_bound("0.0045 bore", row).at(Uncertain(0.080)).nominal == pytest.approx(0.36e-3)
    assert parse_bound("0.0010 bore - 0.013 mm", row).at(Uncertain(0.050)).nominal == pytest.approx(0.037e-3)
    assert parse_bound("1.5 x bore + 1 mm", row).at(Uncertain(0.1, {"a": 0.001})).terms == {"a": 0.0015}


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ("0.0045 boar", "write `bore`"),
        ("2 chamber_volume", "take a figure of the same kind, or write an amount"),
        ("2.0 ± 0.1 mm", "write one number and its unit, without ±"),
        ("2.0 / 2.1 mm", "write one number and its unit, without ±"),
        ("2.0", "mm"),
        ("2.0 cc", "mm"),
        ("", ""),
    ],
)
def test_a_bound_that_is_none_says_what_to_write(text: str, mend: str) -> None:
    with pytest.raises(ValueProblem) as told:
        parse_bound(text, quantity("top_ring_gap"))
    assert mend in f"{told.value.says} {told.value.mend}"


def test_the_owner_overrules_by_id_and_switches_off_and_chooses() -> None:
    mine = (
        "id: inlet-valve-to-piston, min: 1.8 mm, rule: my manual",
        "id: squish-least, off: yes",
        'id: exhaust-valve-to-piston, choose: "cam supplier\'s sheet"',
        "id: class-size, spec: displacement, max: 1600 cc, rule: class rule",
    )
    held = {limit.id: limit for limit in limits_of(engine(*mine).book.record.engine)}
    assert (held["inlet-valve-to-piston"].low, held["inlet-valve-to-piston"].source) == ("1.8 mm", "my manual")
    assert held["inlet-valve-to-piston"].danger  # the caution stays, whoever sets the limit
    assert "squish-least" not in held
    assert (held["exhaust-valve-to-piston"].low, held["exhaust-valve-to-piston"].source) == (
        "0.060 in",
        "cam supplier's sheet",
    )
    assert held["exhaust-valve-to-piston"].others[0].source == "common practice, no source"
    assert held["class-size"].high == "1600 cc"


def test_a_limit_of_the_owners_comes_before_a_rule_of_thumb_on_its_own_side() -> None:
    life = engine("id: mine, spec: crank_end_float, max: 0.30 mm, rule: manual")
    held = [
        (each.id, each.low, each.high) for each in limits_of(life.book.record.engine) if each.spec == "crank_end_float"
    ]
    assert held == [("crank-end-float", "0.10 mm", None), ("mine", None, "0.30 mm")]
    both = engine("id: mine, spec: crank_end_float, min: 0.05 mm, max: 0.30 mm, rule: manual")
    assert [each.id for each in limits_of(both.book.record.engine) if each.spec == "crank_end_float"] == ["mine"]


def test_a_blown_engine_takes_the_wider_ring_gap() -> None:
    def least(life: Life) -> list[str | None]:
        life.part("rings-1", "piston_rings").work("2024-01-05", "fit: rings-1")
        life.measure("2024-01-06", "block-1", using="dial", bore="{all: 80.0 mm}")
        life.measure("2024-01-07", using="dial", top_ring_gap="0.40 / 0.40 / 0.40 / 0.40 mm")
        return list({each.limit.low for each in of(life, "top-ring-gap")})

    assert least(engine()) == ["0.0040 bore"]
    blown = engine().part("turbo", "turbocharger").work("2024-01-04", "fit: turbo")
    assert least(blown) == ["0.0050 bore"]


# the verdict

finite = st.floats(-100, 100)
spread = st.floats(0.001, 10)


@given(finite, spread, finite, st.floats(0.001, 50))
def test_one_verdict_at_each_place_and_they_come_in_order(
    value: float, standard: float, low: float, width: float
) -> None:
    found = standing(Uncertain(value, {"a": standard}), Uncertain(low), Uncertain(low + width))
    inside = min(value - low, low + width - value)
    assert found.verdict == (
        WITHIN
        if inside >= 2 * standard * (1 - 1e-9)
        else OUTSIDE
        if inside <= -2 * standard * (1 - 1e-9)
        else UNDECIDED
    )
    assert 0 <= found.likely <= 1
    if found.verdict == OUTSIDE:
        assert found.likely < 0.03
    if found.verdict == WITHIN:
        assert found.likely > 0.95


@given(finite, spread, st.floats(0.1, 3))
def test_what_value_and_bound_share_cancels(value: float, standard: float, times: float) -> None:
    """A bound that is a multiple of the value itself moves with it."""
    its = Uncertain(value, {"a": standard})
    bound = parse_bound("1 bore", quantity("bore")).at(its)
    assert standing(its, bound, None).margin.standard == 0
    assert standing(its, bound, None).verdict == WITHIN
    other = Uncertain(times * value, {"a": times * standard})
    assert standing(its, other, None).margin.standard == pytest.approx(abs(1 - times) * standard, abs=1e-9)


def test_a_value_without_an_error_is_within_or_outside() -> None:
    verdicts = [standing(Uncertain(value), Uncertain(2.0), None).verdict for value in (1.999, 2.0, 2.001)]
    assert verdicts == [OUTSIDE, WITHIN, WITHIN]


# a figure of an engine


@pytest.mark.parametrize(
    ("text", "using", "verdict", "level"),
    [
        ("{all: 2.50 mm}", "dial", WITHIN, None),
        ("{all: 1.90 mm}", "dial", OUTSIDE, "doubtful"),
        ("{all: 2.05 mm}", "blades", UNDECIDED, "note"),
        ("{all: 2.05 mm}", "dial", WITHIN, None),
    ],
)
def test_the_instrument_decides_what_is_proven(text: str, using: str, verdict: str, level: str | None) -> None:
    life = with_inlet(engine(), text, using)
    assert {each.verdict for each in of(life, "inlet-valve-to-piston")} == {verdict}
    assert [each[0] for each in said(life)] == ([level] if level else [])


def test_a_finding_stands_at_the_line_of_the_figure_and_says_all_of_it() -> None:
    life = with_inlet(engine(), "1.90 / 1.95 / 2.50 / x mm")
    (finding,) = (each for each in life.book.findings if "its limit" in each.says)
    assert finding.file == f"{life.last}.yaml"
    assert "valve_to_piston_inlet" in life.texts[finding.file].splitlines()[finding.line - 1]
    assert finding.says == (
        "inlet valve to piston, least of cylinders 1 and 2, at worst 1.900 ± 0.020 mm, is outside its limit, "
        "at least 2.0 mm (common practice, no source)"
    )
    assert "accept: {limit: inlet-valve-to-piston, why: …}" in finding.mend
    assert "2.5 mm (magazine)" in finding.mend
    assert finding.mend.endswith("the maker's manual comes first")


def test_far_beyond_a_limit_the_farthest_is_the_worst() -> None:
    """Each of them is as unlikely as the others to be within, to the last digit of a computer's number."""
    life = with_inlet(engine(), "1.50 / 1.40 / 1.20 / 1.30 mm")
    assert [each.standing.likely for each in of(life, "inlet-valve-to-piston")] == [0.0] * 4
    ((_, says),) = said(life)
    assert "at worst 1.200 ± 0.020 mm" in says


def test_what_was_not_taken_is_not_judged() -> None:
    life = with_inlet(engine(), "2.50 / x / x / x mm")
    assert [each.position for each in of(life, "inlet-valve-to-piston")] == ["1"]


def test_chambers_taken_one_by_one_have_a_spread_and_those_known_for_all_have_none() -> None:
    life = engine().measure(
        "2024-01-03", "cylinder_head-1", using="dial", chamber_volume="38.0 / 38.5 / 38.0 / 39.5 ± 0.1 cc"
    )
    (spread_of,) = of(life, "chamber-spread")
    assert spread_of.value.nominal == pytest.approx(1.5e-6)
    life = engine().measure("2024-01-03", "cylinder_head-1", chamber_volume="{all: 38.0 ± 0.1 cc}")
    assert of(life, "chamber-spread") == []


# what would settle it


def test_it_says_which_instrument_would_settle_it() -> None:
    life = with_inlet(engine(), "2.5 mm / x / x / x", "dial", date="2023-12-31")
    with_inlet(life, "2.05 / x / x / x mm", "blades")
    (each,) = (each for each in of(life, "inlet-valve-to-piston") if each.verdict == UNDECIDED)
    told = settles(life.book.at("now"), each)
    assert told.startswith("knowing the inlet valve to piston, least, to ± 0.0")
    assert told.endswith("mm would settle it (the dial is as good or the mean of 4 readings with the blades)")


def test_where_nobody_has_measured_it_says_what_to_measure() -> None:
    """The figure of a formula: squish from a published gasket and a measured deck."""
    life = engine().part("thin", "head_gasket", gasket_thickness="0.90 mm").work("2024-01-03", "fit: thin")
    life.measure("2024-01-04", using="dial", deck_clearance="0.04 / 0.04 / 0.04 / 0.04 mm below")
    each = of(life, "squish-least")[0]
    assert each.verdict == UNDECIDED
    assert "knowing the gasket thickness, compressed, to ± 0.03" in settles(life.book.at("now"), each)
    assert "measure it" in settles(life.book.at("now"), each)
    ((level, says),) = said(life)
    assert level == "note"
    assert says.startswith("squish clearance of cylinders 1, 2, 3 and 4, at worst 0.940 ± 0.054 mm, is not proven")


def test_what_lies_on_the_limit_is_settled_by_nothing() -> None:
    life = with_inlet(engine(), "2.00 / x / x / x mm", "blades")
    (each,) = of(life, "inlet-valve-to-piston")
    assert settles(life.book.at("now"), each).startswith("it lies on the limit itself")


def test_no_reading_is_asked_for_that_nobody_can_take() -> None:
    """Two chambers bring half of the error each, and the margin is what the other leaves: nothing, or a round-off."""
    life = engine()
    burette = "  burette: {what: a, each: 0.20 ml, common: 0.05 ml}\n"
    life.texts["engine.yaml"] = life.texts["engine.yaml"].replace("  dial:", f"{burette}  dial:")
    life.measure("2024-01-04", "cylinder_head-1", "burette", chamber_volume="60.6 / 60.4 / 60.2 / 59.4 cc")
    (each,) = of(life, "chamber-spread")
    assert each.verdict == UNDECIDED
    told = settles(life.book.at("now"), each)
    assert told == "no single reading settles it: take combustion chamber volume better"


@given(st.floats(2.012, 2.095))
def test_a_reading_as_good_as_it_says_does_settle_it(nominal: float) -> None:
    """The amount that is asked for is enough, and one a tenth worse is not."""
    life = with_inlet(engine(), f"{nominal:.4f} / x / x / x mm", "blades")
    (each,) = of(life, "inlet-valve-to-piston")
    told = settles(life.book.at("now"), each)
    wanted = float(told.split("± ")[1].split(" mm")[0])
    verdicts = [
        standing(Uncertain(each.value.nominal, {"a": size * wanted * 1e-3 / 2}), each.low, each.high).verdict
        for size in (1.0, 1.2)
    ]
    assert verdicts == [WITHIN, UNDECIDED]


# accepted


def accepting(value: str = "1.90 mm") -> Life:
    life = with_inlet(engine(), "1.90 / x / x / x mm")
    return life.work("2024-01-04", f"accept: {{limit: inlet-valve-to-piston, value: {value}, why: short runs}}")


def test_what_was_accepted_stands_beside_it_and_is_only_a_note() -> None:
    life = accepting()
    (each,) = of(life, "inlet-valve-to-piston")
    assert (each.verdict, each.in_force) == (OUTSIDE, True)
    ((level, says),) = said(life)
    assert level == "note"
    assert says.endswith("accepted 2024-01-04 (1.90 mm): short runs")
    assert not of(life, "inlet-valve-to-piston", "2024-01-03")[0].in_force  # not yet


@pytest.mark.parametrize(
    ("step", "ended"),
    [
        ("rework: cylinder_head-1, operation: surface milled", "cylinder_head-1: surface milled since"),
        ("rework: pistons-1, operation: crown machined", "pistons-1: crown machined since"),
        ("rework: cylinder_head-1, operation: ported", ""),  # touches nothing of it
    ],
)
def test_it_ends_when_a_part_is_worked_on(step: str, ended: str) -> None:
    life = accepting().work("2024-02-01", step)
    with_inlet(life, "1.80 / x / x / x mm" if ended else "1.90 / x / x / x mm", date="2024-02-02")
    (each,) = of(life, "inlet-valve-to-piston")
    assert each.accepted
    assert each.accepted.ended == ended
    assert [level for level, _ in said(life)] == ["doubtful" if ended else "note"]


def test_it_ends_when_a_part_is_exchanged_and_wakes_when_it_is_back() -> None:
    life = accepting().part("head-b", "cylinder_head").work("2024-02-01", "fit: head-b")
    with_inlet(life, "1.85 / x / x / x mm", date="2024-02-02")
    (each,) = of(life, "inlet-valve-to-piston")
    assert each.accepted
    assert each.accepted.ended == "cylinder_head-1 is no longer in the engine"
    assert "has ended" in said(life)[0][1]
    life.work("2024-03-01", "fit: cylinder_head-1")
    assert of(life, "inlet-valve-to-piston")[0].in_force


def test_it_does_not_cover_what_is_proven_worse() -> None:
    life = accepting("1.95 mm")
    (each,) = of(life, "inlet-valve-to-piston")
    assert each.accepted
    assert each.accepted.ended == "it is further outside than the 1.95 mm that was accepted"
    assert of(accepting("1.91 mm"), "inlet-valve-to-piston")[0].in_force  # inside the error of the reading


def test_a_limit_can_be_accepted_by_the_name_of_its_quantity() -> None:
    life = with_inlet(engine(), "1.90 / x / x / x mm")
    life.work("2024-01-04", "accept: {limit: valve_to_piston_inlet, why: short runs}")
    assert of(life, "inlet-valve-to-piston")[0].in_force


def test_on_a_vee_the_other_banks_head_is_another_matter() -> None:
    """An acceptance of one bank's cylinders does not end when the head of the other is exchanged."""
    life = Life(4, "vee", "instruments:\n  dial: {what: dial, each: 0.02 mm}\n")
    life.texts["engine.yaml"] = life.texts["engine.yaml"].split("instruments:")[0] + GAUGES
    for part, kind in (
        ("head-1", "cylinder_head"),
        ("head-2", "cylinder_head"),
        ("head-3", "cylinder_head"),
        ("head-4", "cylinder_head"),
    ):
        life.part(part, kind)
    for kind in ("block", "crankshaft", "connecting_rods", "pistons", "head_gasket", "camshaft"):
        life.part(f"{kind}-1", kind).work("2024-01-01", f"fit: {kind}-1")
    life.work("2024-01-02", "fit: head-1, at: bank 1", "fit: head-2, at: bank 2")
    with_inlet(life, "1.90 / 2.50 / 1.90 / 2.50 mm")
    life.work("2024-01-04", "accept: {limit: inlet-valve-to-piston, why: short runs}")
    life.work("2024-02-01", "fit: head-3, at: bank 2")
    assert [(each.position, each.in_force) for each in of(life, "inlet-valve-to-piston")] == [("1", True), ("3", True)]
    life.work("2024-03-01", "fit: head-4, at: bank 1")
    with_inlet(life, "1.90 / x / 1.90 / x mm", date="2024-03-02")
    assert not any(each.in_force for each in of(life, "inlet-valve-to-piston"))


# the example engine


def test_the_examples_inlet_is_outside_the_rule_and_accepted_by_its_owner() -> None:
    book = Logbook.open(EXAMPLE)
    told = {each.limit.id: each for each in book.at("donor-head").limits if each.position in ("", "1")}
    inlet, exhaust = told["inlet-valve-to-piston"], told["exhaust-valve-to-piston"]
    assert (inlet.verdict, inlet.in_force) == (OUTSIDE, True)
    assert inlet.value.nominal == pytest.approx(1.9e-3)
    assert inlet.accepted
    assert "6800" in inlet.accepted.why
    assert exhaust.verdict == WITHIN
    third = {each.limit.id: each.verdict for each in book.at("third-head").limits}
    assert third["inlet-valve-to-piston"] == WITHIN  # the third head is not milled


def test_a_plan_is_judged_like_any_point() -> None:
    book = Logbook.open(EXAMPLE)
    planned = {each.limit.id: each for each in book.at("plan:half-millimetre-pistons").limits}
    assert planned["class-size"].verdict == OUTSIDE
    assert planned["class-size"].accepted is None
