"""How a value came about: every formula has its page, every input its line, shares and what to measure next add up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import isclose

import pytest
from lives import EXAMPLE, Life

from logbook.logbook import Logbook
from logbook.quantity.catalogue import catalogue
from logbook.quantity.uncertain import Uncertain, propagate
from logbook.record.facts import MEASURED
from logbook.specs import node as nodes
from logbook.specs import validity
from logbook.specs.better import next_measurement
from logbook.specs.configuration import Configuration
from logbook.specs.curves import CURVES, curve_values
from logbook.specs.dependence import depending_on
from logbook.specs.explain import (
    CannotExplain,
    CurveExplanation,
    Explanation,
    Input,
    explain,
    formula_pages,
    overview,
    pages_of,
)
from logbook.specs.graph import Missing, Node
from logbook.specs.index import ALL_SPECS, OF_A_TEST, WITH_CREVICE, formula


@pytest.fixture(scope="module")
def at() -> Configuration:
    return Logbook.open(EXAMPLE).at("now")


def explained(at: Configuration, name: str, cylinder: str | None = None) -> Explanation:
    found = explain(at, name, cylinder)
    assert isinstance(found, Explanation)
    return found


def every_input(inputs: tuple[Input, ...]) -> Iterator[Input]:
    for each in inputs:
        yield each
        yield from every_input(each.inputs)


# the page


def test_every_formula_has_a_whole_page() -> None:
    for name in (*ALL_SPECS, *OF_A_TEST, *CURVES):
        for page in pages_of(name):
            assert page.title, name
            assert page.equation, name
            assert page.returns, name
            assert page.validity, name
            assert all(source.startswith("[") for source in page.sources), name
            assert page.sources, name


def test_a_page_tells_every_argument() -> None:
    for name in ALL_SPECS:
        for function, page in zip(ALL_SPECS[name], pages_of(name)[: len(ALL_SPECS[name])], strict=True):
            assert tuple(argument for argument, _ in page.arguments) == formula(name, function).needs, name


def test_a_formula_is_found_by_its_own_name() -> None:
    assert [page.function for page in formula_pages("gasket_volume_round")] == ["gasket_volume_round"]


def test_what_is_only_measured_has_no_formula() -> None:
    with pytest.raises(CannotExplain, match="`bore` is measured or stated"):
        formula_pages("bore")


# inputs


def test_every_stated_input_leads_to_its_line(at: Configuration) -> None:
    found = explained(at, "compression_ratio", "3")
    texts = at.life.record.texts
    assert found.root is not None
    stated = [each for each in every_input((found.root,)) if each.where]
    assert len(stated) == 7
    for each in stated:
        assert each.where is not None
        line = texts[each.where.file].decode().splitlines()[each.where.line - 1]
        assert f"{each.row.name}:" in line


def test_a_fact_is_told_once(at: Configuration) -> None:
    found = explained(at, "compression_ratio")
    assert found.root is not None
    bores = [each for each in every_input((found.root,)) if each.row.name == "bore"]
    assert [each.above for each in bores] == [False, True]


def test_the_cylinder_that_is_asked_for(at: Configuration) -> None:
    third = explained(at, "compression_ratio", "3")
    assert third.node is not None
    assert third.node.value == at.graph.at("compression_ratio", "3").value  # type: ignore[union-attr]
    with pytest.raises(CannotExplain, match="no cylinder 9; this engine has 1 to 4"):
        explain(at, "compression_ratio", "9")
    with pytest.raises(CannotExplain, match="leave --cylinder out"):
        explain(at, "displacement", "1")


def test_from_the_front_door(at: Configuration) -> None:
    assert at.explain("displacement") == explain(at, "displacement")


def test_an_unknown_name_gets_the_nearest() -> None:
    with pytest.raises(CannotExplain, match="did you mean compression_ratio"):
        explain(Logbook.open(EXAMPLE).at("now"), "compresion_ratio")


# shares, and what to measure next


@pytest.mark.parametrize("name", ["compression_ratio", "displacement", "squish_clearance", "valve_overlap"])
def test_shares_add_up_to_all(at: Configuration, name: str) -> None:
    assert isclose(sum(each.share for each in explained(at, name).shares), 1)


def test_what_is_said_to_halve_the_uncertainty_halves_it(at: Configuration) -> None:
    """Worked through the formulas again with the better figures, not through the shares."""
    for name in ("compression_ratio", "squish_clearance", "swept_volume", "clearance_volume"):
        found = explained(at, name)
        assert found.node is not None
        assert found.next is not None
        for better in [(each,) for each in found.next.single] or [found.next.together]:
            factor = {each.row.name: each.wanted / each.now for each in better}
            assert better
            assert _again(found.node, factor) == pytest.approx(found.node.value.standard / 2, rel=0.02)


def _again(node: Node, factor: dict[str, float]) -> float:
    return _bettered(node, factor).value.standard


def _bettered(node: Node, factor: dict[str, float]) -> Node:
    if node.formula is None:
        by = factor.get(node.name, 1.0)
        terms = {key: by * term for key, term in node.value.terms.items()}
        return node._replace(value=node.value._replace(terms=terms))
    inputs = {name: tuple(_bettered(each, factor) for each in some) for name, some in node.inputs.items()}
    return node._replace(value=propagate(node.formula.function, {name: some[0].value for name, some in inputs.items()}))


def test_where_one_alone_cannot_halve_it_the_fewest_are_named(at: Configuration) -> None:
    found = explained(at, "compression_ratio").next
    assert found is not None
    assert found.single == ()
    shares = [each.share for each in found.together]
    assert sum(shares) > 0.75 > sum(shares[:-1])


def test_what_counts_alike_is_named_in_the_order_of_the_formula() -> None:
    """Not by a last digit, which is another on another day."""
    chamber, dish = (
        Node(name, "1", Uncertain(1.0, {name: term}), MEASURED, None)
        for name, term in (("chamber_volume", 1.0), ("dish_volume", 1.0 + 1e-13))
    )
    value = Uncertain(2.0, {**chamber.value.terms, **dish.value.terms})
    inputs = {"chamber_volume": (chamber,), "dish_volume": (dish,)}
    found = next_measurement(Life().book.record, Node("clearance_volume", "1", value, MEASURED, None, inputs=inputs))
    assert [each.row.name for each in found.together] == ["chamber_volume", "dish_volume"]


def test_a_better_instrument_of_the_record_is_named() -> None:
    life = Life(1, "single").part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a")
    life.measure("2024-01-02", "head-a", using="fine", chamber_volume="35 cc")
    life.measure("2024-01-03", "head-a", using="coarse", chamber_volume="35.2 cc")
    life.work("2024-01-04", "rework: head-a, operation: surface milled")
    life.measure("2024-01-05", "head-a", using="coarse", chamber_volume="34 cc")
    found = explained(life.at("now"), "chamber_volume").next
    assert found is not None
    assert found.single[0].instruments == ("fine",)
    assert found.single[0].readings == 4
    assert found.single[0].wanted == pytest.approx(found.single[0].now / 2)


# what is missing


def test_what_would_unlock_it() -> None:
    life = Life(1, "single").part("b", "block", bore="80 mm").work("2024-01-01", "fit: b")
    found = explained(life.at("now"), "swept_volume")
    assert found.node is None
    assert found.missing is not None
    assert found.missing.groups == (("stroke",),)
    assert found.pages


def test_the_measurement_that_unlocks_most_unlocks_as_many() -> None:
    life = Life(1, "single").part("b", "block", bore="80 mm").part("c", "crankshaft")
    life.work("2024-01-01", "fit: b", "fit: c")
    found = overview(life.at("now"))
    name, many = found.unlocks[0]
    assert name == "stroke"
    life.part("c", "crankshaft", stroke="70 mm")
    after = overview(life.at("now"))
    assert len(after.known) == len(found.known) + many


# curves


def test_a_curve_passes_through_what_is_worked_out_as_one_figure(at: Configuration) -> None:
    points = curve_values(at, "piston_travel", "1")
    assert not isinstance(points, Missing)
    by_angle = {round(each.at): each.value for each in points}
    assert by_angle[0].nominal == pytest.approx(0, abs=1e-15)
    assert by_angle[180].nominal == pytest.approx(0.079)
    assert by_angle[180].standard == pytest.approx(0.00001)  # the stroke's own


def test_a_curve_that_lacks_something_says_what(at: Configuration) -> None:
    missing = curve_values(at, "piston_travel_with_offset", "1")
    assert isinstance(missing, Missing)
    assert missing.groups == (("pin_offset",),)


@pytest.mark.parametrize("name", CURVES)
def test_every_curve_has_its_rows_and_its_range(name: str) -> None:
    curve = CURVES[name]
    assert {name, curve.over} <= set(catalogue())
    assert curve.over in formula(name, curve.function).needs
    assert curve.places[0] == curve.low
    assert curve.places[-1] == pytest.approx(curve.high)


def test_a_curve_takes_the_offset_of_the_pin_where_it_is_known(at: Configuration) -> None:
    said = Logbook.given(["cylinders=1", "stroke=80 mm", "rod_length=140 mm", "pin_offset=1 mm thrust side"])
    shown = curve_values(said, "piston_acceleration", "1")
    assert isinstance(shown, Missing)
    assert shown.groups == (("engine_speed_limit",),)
    for name in ("piston_speed", "piston_acceleration", "cylinder_volume"):
        curve = CURVES[name]
        assert curve.offset
        assert {*formula(name, curve.offset).needs} == {*formula(name, curve.function).needs, "pin_offset"}
        assert len(pages_of(name)) == 2


def test_a_curve_is_explained_with_its_inputs(at: Configuration) -> None:
    found = explain(at, "piston_speed", "2")
    assert isinstance(found, CurveExplanation)
    assert {each.row.name for each in found.inputs} == {"stroke", "rod_length", "engine_speed_limit"}


# validity


def test_outside_its_validity_a_value_is_given_with_the_reason_and_carries_it_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rules = {"swept_volume": (lambda bore, result: f"a bore of {1e3 * bore:.0f} mm gives {1e6 * result:.0f} cc",)}
    monkeypatch.setattr(validity, "OUTSIDE", rules)
    monkeypatch.setattr(nodes, "OUTSIDE", rules)
    life = Life(2).part("b", "block", bore="80 mm").part("c", "crankshaft", stroke="70 mm")
    at = life.work("2024-01-01", "fit: b", "fit: c").at("now")
    reason = ("a bore of 80 mm gives 352 cc",)
    assert at.specs["swept_volume"].outside == reason
    assert at.specs["displacement"].outside == reason
    assert at.specs["displacement"].values[0] is not None
    assert at.specs["bore_stroke_ratio"].outside == ()


def test_rules_of_validity_name_what_their_formulas_have() -> None:
    for name, rules in validity.OUTSIDE.items():
        functions = (*ALL_SPECS.get(name, ()), *OF_A_TEST.get(name, ()), *WITH_CREVICE.get(name, ()))
        needs = [{*formula(name, function).needs, "result"} for function in functions]
        for rule in rules:
            assert any(validity._names(rule) <= each for each in needs), (name, rule)


# only what depends on a changed fact is worked out again


@pytest.mark.parametrize("figure", ["gasket_thickness=1.1 mm", "inlet_lobe_centre=107 deg", "bore=80.5 mm"])
def test_after_one_changed_fact_only_what_depends_on_it_is_evaluated(at: Configuration, figure: str) -> None:
    before = Configuration(at.life, at.point, at.state, at.holding)
    for name in ALL_SPECS:
        before.graph.all(name)
    changed = replace(at.holding, assumed=Logbook.open(EXAMPLE).at("now", [figure]).holding.assumed)
    kept = before.graph.kept_without(depending_on(figure.partition("=")[0]))
    after = Configuration(at.life, at.point, at.state, changed, kept)
    fresh = Configuration(at.life, at.point, at.state, changed)
    for name in ALL_SPECS:
        assert nominals(after.graph.all(name)) == nominals(fresh.graph.all(name)), name
    assert nominals(after.graph.all("effective_compression_ratio")) != nominals(
        before.graph.all("effective_compression_ratio")
    )
    assert 0 < after.graph.evaluated < 0.7 * fresh.graph.evaluated


def nominals(found: tuple[Node | Missing, ...]) -> list[object]:
    """To ten digits: a figure may be had two ways, whichever is asked for first."""
    return [f"{node.value.nominal:.10g}" if isinstance(node, Node) else node for node in found]
