"""What combinations share: each value is the one that it would be alone, whatever was asked of whom before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.judge.combine import Combination
from logbook.logbook import Logbook
from logbook.quantity.catalogue import PART_KINDS, quantity
from logbook.quantity.stated import Stated
from logbook.record.facts import ASSUMED, Fact, Statement
from logbook.specs.configuration import Configuration
from logbook.specs.dependence import depending_on, kinds_under
from logbook.specs.graph import Node
from logbook.specs.index import ALL_SPECS
from logbook.specs.results import Spec
from tests.lives import EXAMPLE, Life

#: Everything of the example that there are several of, some of it as it stood.
SHELF = {
    "cylinder_head": ["head-a", "head-b@2017-05-01", "head-b"],
    "pistons": ["pistons-1", "pistons-2", "pistons-3"],
    "head_gasket": ["gasket-1", "gasket-2"],
    "camshaft": ["camshaft-1", "camshaft-2"],
    "valve_springs": ["springs-1", "springs-2"],
    "main_bearings": ["main-shells-1", "main-shells-2"],
}


@pytest.fixture(scope="module")
def book() -> Logbook:
    return Logbook.open(EXAMPLE)


def alone(each: Combination) -> Configuration:
    """The same engine, with nothing known beforehand."""
    return Configuration(each.at.life, each.at.point, each.at.state, each.at.holding)


def told(spec: Spec) -> object:
    """All of it, figures to ten digits: a duration may be had from its events or they from it, whichever came first."""
    figures = [(f"{v.nominal:.10g}", f"{v.expanded:.10g}", v.basis, v.out_of_date, v.doubtful, v.unmeasured, v.outside)
               for v in spec.known]  # fmt: skip
    return figures, [v is None for v in spec.values], spec.missing, spec.missing_any, spec.because, spec.claims


@settings(max_examples=8)
@given(data=st.data())
def test_every_spec_of_every_combination_is_what_it_is_alone(book: Logbook, data: st.DataObject) -> None:
    kinds = data.draw(st.lists(st.sampled_from(sorted(SHELF)), min_size=1, max_size=3, unique=True))
    found = book.combine({kind: SHELF[kind] for kind in kinds})
    for _ in range(4):
        each = data.draw(st.sampled_from(found))
        names = data.draw(st.permutations(sorted(ALL_SPECS)))[:40]
        apart = alone(each)
        for name in names:
            assert told(each.specs[name]) == told(apart.specs[name]), (name, dict(each.parts))


def test_what_cannot_tell_the_combinations_apart_is_worked_out_once(book: Logbook) -> None:
    found = book.combine({"cylinder_head": SHELF["cylinder_head"], "pistons": SHELF["pistons"]})
    assert len(found) == 9
    assert asked(found, "rod_ratio") == 4, "once a cylinder, for nine combinations"
    assert asked(found, "crown_volume") == 3 * 4, "once a cylinder for each set of pistons"


def asked(found: Sequence[Combination], name: str) -> int:
    """How many formulas run when each is asked for a spec."""
    before = sum(each.at.graph.evaluated for each in found)
    assert all(each.specs[name].known for each in found)
    return sum(each.at.graph.evaluated for each in found) - before


def test_a_spec_rests_on_the_owners_of_all_that_it_may_come_from() -> None:
    for name in ALL_SPECS:
        below = [each for each in ALL_SPECS if name in depending_on(each)]
        for each in below:
            owners = {kind for owner in quantity(each).owner for kind in owner.split("|")}
            assert owners & set(PART_KINDS) <= kinds_under(name), each


def test_a_claim_that_was_stated_for_a_part_is_not_shared_beyond_it() -> None:
    """The part owns nothing that the ratio is worked out from: only the claim names it."""
    life = Life(2).part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    life.texts["parts/block.yaml"] += (
        "  - {basis: hearsay, stated_for: {cylinder_head: head-a, ignition: dizzy}, values: {compression_ratio: 9.0}}\n"
    )
    for part, kind in (("dizzy", "ignition"), ("mapped", "ignition"), ("gasket", "head_gasket")):
        life.part(part, kind)
    for head in ("head-a", "head-b"):
        life.part(head, "cylinder_head", chamber_volume="{all: 36 cc}")
    life.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "gasket", "head-a", "dizzy")))
    found = life.book.combine({"cylinder_head": ["head-a", "head-b"], "ignition": ["dizzy", "mapped"]})
    claimed = [bool(each.specs["compression_ratio"].claims) for each in found]
    assert claimed == [True, False, False, False]
    assert claimed == [bool(alone(each).specs["compression_ratio"].claims) for each in found]


def test_no_figure_that_was_stated_for_a_part_is_shared_beyond_it() -> None:
    """Neither a claim of another result, nor a height of the block that holds with one ignition alone."""
    life = Life(2).part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    life.texts["parts/block.yaml"] += (
        "  - {basis: hearsay, stated_for: {ignition: dizzy}, values: {displacement: 800 cc, deck_height: 200 mm}}\n"
    )
    life.part("dizzy", "ignition").part("mapped", "ignition")
    life.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "dizzy")))
    found = life.book.combine({"ignition": ["dizzy", "mapped"]})
    assert [bool(each.specs["displacement"].claims) for each in found] == [True, False]
    assert [isinstance(each.at.graph.at("deck_height", "1"), Node) for each in found] == [True, False]


def test_a_figure_that_stands_in_the_file_of_another_part_is_not_shared_beyond_it() -> None:
    """A slip that check tells of; until it is mended the figure holds with the head alone."""
    life = Life(2).part("block", "block", bore="80 mm").part("crank", "crankshaft")
    life.part("head-a", "cylinder_head", stroke="79 mm").part("head-b", "cylinder_head")
    life.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "head-a")))
    found = life.book.combine({"cylinder_head": ["head-a", "head-b"]})
    assert [bool(each.specs["displacement"].known) for each in found] == [True, False]


def test_a_figure_that_a_cut_or_an_exchange_foresees_rests_on_what_foresees_it() -> None:
    assert "chamber_volume" in depending_on("bore"), "the opening of a chamber that was milled is a share of the bore's"
    assert "compression_ratio" in depending_on("chamber_opening")
    assert "valve_to_piston_inlet" in depending_on("gasket_thickness")


@pytest.mark.parametrize("name", ["gasket_thickness", "bore", "chamber_opening", "inlet_closes", "pin_offset"])
def test_what_does_not_depend_on_a_changed_figure_stays_as_it_is(book: Logbook, name: str) -> None:
    """On paper: the figure is supposed to be another one; of the chamber, milled, only the cut tells what is left."""
    at = book.at("now")
    row = quantity(name)
    length = Stated(0.07 if row.kind == "length" else 62.0 if row.kind == "angle" else 4.5e-3, 1e-6, 1e-6)
    fact = Fact(row, ((length,),), True, False, "", Statement("plans/x.yaml", (), ASSUMED), ())
    changed = replace(at.holding, assumed={name: fact})
    before, after = at.graph.with_holding(at.holding), at.graph.with_holding(changed)
    apart = [each for each in ALL_SPECS if before.all(each) != after.all(each)]
    assert set(apart) <= depending_on(name)
    assert apart or name not in at.graph.specs
