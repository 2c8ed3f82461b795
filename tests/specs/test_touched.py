"""A configuration takes over what no entry between touches; each spec and each effect is that of evaluating it all."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.judge.compare import Difference
from logbook.judge.timeline import BELIEF, WORK, changed, how_told, timeline
from logbook.logbook import Logbook
from logbook.record.read import read_record
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.dependence import names_under
from logbook.specs.inference import _DECK_AND_GASKET, REST
from logbook.specs.results import Spec, Value
from logbook.specs.touched import touched
from logbook.state.fold import Life as Fold
from logbook.state.fold import live
from tests.lives import EXAMPLE, Life, alone


def figure(value: Value | None) -> object:
    """All of a value; to ten digits, for a duration may be had from its events or they from it, as was asked first."""
    if value is None:
        return None
    terms = sorted((key, f"{term:.6g}") for key, term in value.terms.items() if abs(term) > 1e-9 * abs(value.nominal))
    return (f"{value.nominal:.10g}", f"{value.expanded:.10g}", terms, value.basis, value.out_of_date, value.doubtful,
            value.unmeasured, value.outside)  # fmt: skip


def told(spec: Spec) -> object:
    return ([figure(value) for value in spec.values], spec.missing, spec.missing_any, spec.because, spec.conditions,
            spec.claims)  # fmt: skip


def effect(differences: Mapping[str, Difference]) -> object:
    """The specs that changed, and at which positions to what."""
    return {name: ([figure(value) for value in (*each.before, *each.after)], each.verdicts)
            for name, each in differences.items()}  # fmt: skip


def in_full(life: Fold, number: int) -> object:
    """What an entry did, both sides worked out from nothing."""
    sides = {WORK: ((number - 1, None), (number, None)), BELIEF: ((number, number), (number, number + 1))}
    told_as = how_told(life.record.entries[number])
    return effect(changed(*(alone(life, *each) for each in sides[told_as]))) if told_as in sides else {}


def every_spec_is_that_of(at: Configuration, other: Configuration) -> None:
    for name in at.specs:
        assert told(at.specs[name]) == told(other.specs[name]), (name, at.state.number, at.holding.known)


# the example


def test_the_effect_of_every_entry_of_the_example_is_that_of_evaluating_all() -> None:
    life = Logbook.open(EXAMPLE).life
    effects = [effect(each.effect) for each in timeline(life)]
    apart = live(Logbook.open(EXAMPLE).record)
    assert effects == [in_full(apart, number) for number in range(len(apart.states))]
    assert sum(map(bool, effects)) > 15


# random lives

_DAYS = 27
_FITTED = ("block-a", "head-a", "pistons-1", "gasket-1", "cam", "crank", "rods")
_EXCHANGED = ("block-b", "head-b", "pistons-2", "gasket-2", "dizzy", *_FITTED[:4])
_READ = {
    "bore": "block-a", "chamber_volume": "head-a", "deck_height": "block-a", "compression_height": "pistons-2",
    "deck_clearance": "", "piston_diameter": "pistons-1", "valve_lash_inlet": "cam", "chamber_opening": "head-b",
    "gasket_thickness": "gasket-2", "inlet_opens": "", "inlet_closes": "", "squish_clearance": "",
    "valve_room_inlet": "", "stroke": "head-a",
}  # fmt: skip
_SIZE = {
    "bore": "80.0{} mm", "chamber_volume": "36.{} cc", "deck_height": "220.{} mm", "compression_height": "38.{} mm",
    "deck_clearance": "0.{}5 mm below", "piston_diameter": "79.9{} mm", "valve_lash_inlet": "0.2{} mm",
    "chamber_opening": "46.{} cm2", "gasket_thickness": "1.{} mm", "inlet_opens": "1{} deg before TDC",
    "inlet_closes": "5{} deg after BDC", "squish_clearance": "1.{} mm", "valve_room_inlet": "3.{} mm",
    "stroke": "79.{} mm",
}  # fmt: skip
_SAID = ("compression_ratio: 9.{}", "bore: 80.5{} mm", "displacement: 160{} cc")
_ALONE = ("inlet_opens", "inlet_closes", "stroke")
_step = st.one_of(
    st.tuples(st.just("measure"), st.sampled_from((*_READ,)), st.integers(0, 9)),
    st.tuples(st.just("measure"), st.sampled_from(("bore", "chamber_volume", "deck_clearance")), st.integers(0, 9)),
    st.tuples(st.just("fit"), st.sampled_from(_EXCHANGED), st.just(0)),
    st.tuples(st.just("rework"), st.sampled_from(("block-a bored", "block-a decked", "head-a surface milled")),
              st.integers(0, 2)),
    st.tuples(st.just("remove"), st.sampled_from(_EXCHANGED), st.just(0)),
    st.tuples(st.sampled_from(("correct", "adopt")), st.just(""), st.integers(0, 20)),
    st.tuples(st.just("note"), st.sampled_from(_SAID), st.integers(0, 9)),
    st.tuples(st.just("set"), st.sampled_from(("inlet_opens", "inlet_closes")), st.integers(0, 9)),
    st.tuples(st.just("service"), st.just(""), st.just(0)),
)  # fmt: skip


def begun() -> Life:
    """Two cylinders with published figures, some of them for one combination alone, and a claimed ratio."""
    life = Life(2)
    for block, more in (("block-a", ""), ("block-b", "0")):
        life.part(block, "block", bore=f"80.{more}1 mm", deck_height="220.0 mm")
    life.texts["parts/block-a.yaml"] += (
        "  - {basis: hearsay, stated_for: {cylinder_head: head-b}, values: {compression_ratio: 9.1}}\n"
        "  - {basis: published, stated_for: {ignition: dizzy}, values: {gasket_thickness: 1.1 mm}}\n"
    )
    life.part("crank", "crankshaft", stroke="79 mm").part("rods", "connecting_rods", rod_length="{all: 140 mm}")
    for number in (1, 2):
        life.part(f"pistons-{number}", "pistons", dish_volume=f"{number} cc", compression_height=f"40.{number} mm")
        life.part(f"gasket-{number}", "head_gasket", gasket_thickness=f"1.{number} mm", gasket_bore="82 mm")
    life.part("head-a", "cylinder_head", chamber_volume="36.2 cc").part("head-b", "cylinder_head")
    life.part("dizzy", "ignition")
    life.part("cam", "camshaft", inlet_lift="").texts["parts/cam.yaml"] = (
        "kind: camshaft\nwhat: a\nfacts:\n  - {basis: published, at_lift: 0.10 mm, values: "
        "{inlet_opens: 12 deg before TDC, inlet_closes: 52 deg after BDC, exhaust_opens: 50 deg before BDC,"
        " exhaust_closes: 14 deg after TDC}}\n"
    )
    return life.work("2024-01-01", *(f"fit: {part}" for part in _FITTED))


def lived(steps: list[tuple[str, str, int]], days: list[int]) -> Life:
    """A life in which these things happen, several of them on one day."""
    life, day, taken = begun(), 1, []
    for (what, of, figure), later in zip(steps, days, strict=False):
        day = min(day + later, _DAYS)
        date = f"2024-01-{day:02}"
        if what == "measure":
            text = _SIZE[of].format(figure)
            lift = "at_lift: 0.10 mm\n" if of in ("inlet_opens", "inlet_closes") else ""
            life.measure(date, _READ[of], "fine" if figure % 2 else "coarse", lift,
                         **{of: text if of in _ALONE else f"{{all: {text}}}"})  # fmt: skip
            taken.append((life.last, of))
        elif what == "rework":
            part, operation = of.split(" ", 1)
            life.work(date, f"rework: {part}, operation: {operation}" + (f", depth: 0.{figure} mm" if figure else ""))
        elif what in ("correct", "adopt") and taken:
            file, name = taken[figure % len(taken)]
            life.work(date, f"{what}: {{{'from' if what == 'adopt' else 'entry'}: {file}, quantity: {name}, why: a}}")
        elif what == "note":
            said = f"facts:\n  - {{basis: hearsay, values: {{{of.format(figure)}}}}}\n"
            life._write(life._next("notes", date), f"date: {date}\ntitle: a\n{said}")
        elif what == "set":
            life.work(date, f"set: {{{of}: {_SIZE[of].format(figure)}}}, at_lift: 0.10 mm")
        else:
            life.work(date, "service: oil" if what not in ("fit", "remove") else f"{what}: {of}")
    return life


@settings(max_examples=25, deadline=None)
@given(st.lists(_step, min_size=3, max_size=9), st.lists(st.integers(0, 3), min_size=9, max_size=9), st.data())
def test_whatever_happens_each_effect_and_each_spec_is_that_of_evaluating_all(
    steps: list[tuple[str, str, int]], days: list[int], data: st.DataObject
) -> None:
    life = lived(steps, days).fold
    effects = [effect(each.effect) for each in timeline(life)]
    assert effects == [in_full(life, number) for number in range(len(effects))]
    points = st.tuples(st.integers(-1, len(effects) - 1), st.none() | st.integers(0, len(effects)))
    for number, known in data.draw(st.lists(points, min_size=2, max_size=3)):
        every_spec_is_that_of(configuration_after(life, number, known=known), alone(life, number, known))


# what is taken over, and what is not


def formulas_run(at: Configuration) -> int:
    """How many formulas run where every spec is asked for."""
    dict(at.specs.items())
    return at.graph.evaluated


def test_an_entry_costs_what_it_touches() -> None:
    life = begun().work("2024-01-02", "service: oil").measure("2024-01-03", "head-a", chamber_volume="{all: 36 cc}")
    fold = life.fold
    first, serviced, measured = (
        formulas_run(configuration_after(fold, number, known=number + 1)) for number in range(3)
    )
    assert [first, serviced] == [formulas_run(alone(fold, 0, 1)), 0]
    assert 0 < measured < formulas_run(alone(fold, 2, 3)) / 2


def test_what_wears_is_told_as_it_stood_nearest_in_time() -> None:
    """Each service is nearer to one of two readings of the bore, or of the piston, than to the other."""
    life = begun()
    for day, size in ((3, "80.02"), (14, "80.04"), (21, "80.05")):
        life.measure(f"2024-01-{day:02}", "block-a", bore=f"{{all: {size} mm}}")
    for day in (5, 8, 10, 17, 19, 25):
        life.work(f"2024-01-{day:02}", "rework: head-a, operation: surface milled")
    fold = life.fold
    assert [effect(each.effect) for each in timeline(fold)] == [in_full(fold, n) for n in range(len(fold.states))]
    for number in (*range(len(fold.states)), 0, 8, 3):
        every_spec_is_that_of(configuration_after(fold, number), alone(fold, number))


@pytest.mark.parametrize(
    ("step", "names"),
    [
        ("service: oil", set()),
        ("fit: gasket-2", {"gasket_thickness", "squish_clearance", "compression_ratio"}),
        ("rework: block-a, operation: bored", {"bore", "displacement"}),
        ("set: {inlet_opens: 12 deg before TDC}, at_lift: 0.10 mm", {"inlet_opens", "valve_overlap"}),
    ],
)
def test_what_an_entry_touches(step: str, names: set[str]) -> None:
    fold = begun().work("2024-01-02", step).fold
    found = touched(*(alone(fold, number).holding for number in (0, 1)))
    assert found >= names
    assert "rod_ratio" not in found
    assert bool(found) == bool(names)


def test_what_wears_is_touched_where_another_day_is_nearer_and_only_there() -> None:
    life = begun().measure("2024-01-03", "block-a", bore="{all: 80.02 mm}")
    for day in (4, 12, 13):
        life.work(f"2024-01-{day:02}", "service: oil")
    life.measure("2024-01-20", "block-a", bore="{all: 80.04 mm}")
    holdings = [alone(life.fold, number).holding for number in range(len(life.fold.states))]
    assert ["bore" in touched(*holdings[at : at + 2]) for at in (1, 2, 3)] == [False, True, False]


def test_work_on_deck_and_gasket_touches_the_rest_volume_that_a_claim_leaves() -> None:
    """It decides whether a claim still serves, beside what the rest volume is worked out from."""
    assert names_under(REST) >= _DECK_AND_GASKET


def test_two_readings_of_one_record_share_nothing() -> None:
    texts = {file: text.encode() for file, text in begun().texts.items()}
    first, second = (live(read_record(texts)) for _ in range(2))
    dict(configuration_after(first, 0).specs.items())
    assert not configuration_after(second, 0).graph._known
