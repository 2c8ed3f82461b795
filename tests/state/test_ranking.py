"""What comes first is found without ranking everything; it must be what a ranking of everything puts first."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lives import Life

from logbook.quantity.catalogue import quantity
from logbook.record.facts import PREDICTED, PUBLISHED
from logbook.specs.configuration import configuration_after
from logbook.state.holding import Holding

BLOCKS = ("block-a", "block-b")
#: Figures that wear and one that does not, of a part and of what stands together.
SIZES = {"bore": 80.0, "piston_to_wall": 0.05, "chamber_volume": 36.0}

#: What is read at a position: one reading, several, or none.
_READ = {"1": (1,), "2": (2,), "3": (1, 2, 3), "x": ()}
_figures = st.lists(st.sampled_from((*_READ,)), min_size=4, max_size=4).filter(lambda some: {*some} != {"x"})
_measured = st.tuples(
    st.just("measure"),
    st.sampled_from(("block-a", "block-b", "head", "head", "")),
    _figures,
    st.sampled_from(("fine", "coarse", "")),
)
_happenings = st.lists(
    st.one_of(
        _measured,
        _measured,
        st.tuples(st.just("fit"), st.sampled_from(BLOCKS)),
        st.tuples(st.just("bore"), st.sampled_from(BLOCKS)),
        st.tuples(st.sampled_from(("adopt", "correct")), st.integers(0, 20)),
    ),
    min_size=6,
    max_size=12,
)


def life_of(happenings: list[tuple], days: list[int]) -> Life:
    """A life in which these things happen, some of them on one day."""
    life = Life().part("head", "cylinder_head").part("pistons", "pistons")
    for block in BLOCKS:
        life.part(block, "block", bore="80.5 mm")
    life.work("2024-01-01", "fit: head", "fit: pistons", "fit: block-a")
    taken, day = [], 1
    for (what, *of), later in zip(happenings, days, strict=False):
        day += later
        date = f"2024-01-{day:02}"
        if what == "measure":
            part, figures, gauge = of
            name = {"head": "chamber_volume", "": "piston_to_wall"}.get(part, "bore")
            line = " / ".join(", ".join(f"{SIZES[name] + far / 1000:.3f}" for far in _READ[each]) or "x"
                              for each in figures)  # fmt: skip
            life.measure(date, part, gauge, **{name: f"{line} {quantity(name).unit}"})
            taken.append((life.last, name))
        elif what == "fit":
            life.work(date, f"fit: {of[0]}")
        elif what == "bore":
            life.work(date, f"rework: {of[0]}, operation: bored")
        elif taken:
            file, name = taken[of[0] % len(taken)]
            life.work(date, f"{what}: {{{'from' if what == 'adopt' else 'entry'}: {file}, quantity: {name}, why: a}}")
    return life


@settings(max_examples=60, deadline=None)
@given(_happenings, st.lists(st.integers(0, 2), min_size=12, max_size=12))
def test_the_first_is_that_of_all(happenings: list[tuple], days: list[int]) -> None:
    life = life_of(happenings, days)
    for number in range(len(life.fold.states)):
        holding = configuration_after(life.fold, number).holding
        for each in (holding, replace(holding, first=PUBLISHED)):
            _first_of_all(each)


def _first_of_all(holding: Holding) -> None:
    for name in SIZES:
        for position in "1234":
            best, every = holding.best(quantity(name), position), holding.all(quantity(name), position)
            if best is None or best.basis != PREDICTED:
                assert best == (every[0] if every else None), (name, position, holding.state.number)


def test_what_was_taken_of_two_sets_is_told_apart_at_every_position() -> None:
    """Asked for one position after the other, and of one set after the other."""
    life = Life().part("pistons", "pistons")
    for block in BLOCKS:
        life.part(block, "block")
    life.work("2024-01-01", "fit: pistons", "fit: block-a")
    life.measure("2024-01-02", piston_to_wall="0.051 / 0.052 / x / 0.054 mm")
    life.work("2024-01-03", "fit: block-b")
    life.measure("2024-01-04", piston_to_wall="0.061 / 0.062 / 0.063 / x mm")
    life.measure("2024-01-05", piston_to_wall="0.071 / x / x / x mm")
    life.work("2024-01-06", "fit: block-a")
    of_a, of_b = ["0.051", "0.052", "0.0523333", "0.054"], ["0.071", "0.062", "0.063", "0.071"]
    told = [[life.holds(day, "piston_to_wall", each) for each in "1234"] for day in ("2024-01-05", "now")]
    assert told == [of_b, of_a]


@pytest.mark.parametrize(("lift", "value"), [("0.1 mm", 10.0), ("1 mm", 2.0), ("2 mm", None)])
def test_what_was_read_under_other_conditions_is_told_apart_whatever_was_asked_before(
    lift: str, value: float | None
) -> None:
    life = Life().part("camshaft", "camshaft").work("2024-01-01", "fit: camshaft")
    life.measure("2024-01-02", more="at_lift: 0.10 mm\n", inlet_opens="10 deg before TDC")
    life.measure("2024-01-03", more="at_lift: 1.00 mm\n", inlet_opens="2 deg before TDC")
    holding, row = life.at("now").holding, quantity("inlet_opens")
    for asked in ("0.1 mm", "1 mm", "2 mm"):
        holding.best(row, "", (("at_lift", asked),))
    held = holding.best(row, "", (("at_lift", lift),))
    assert (held and held.value.nominal) == value


def test_the_owners_word_comes_before_what_is_nearer_in_time() -> None:
    life = Life().part("block", "block").work("2024-01-01", "fit: block")
    life.measure("2024-01-02", "block", bore="{all: 80.01 mm}")
    adopted = life.last
    life.measure("2024-01-03", "block", bore="{all: 80.02 mm}")
    assert life.holds("now", "bore", "1") == "80.02"
    life.work("2024-01-04", f"adopt: {{from: {adopted}, quantity: bore, why: the surer gauge}}")
    assert life.holds("now", "bore", "1") == "80.01"


@pytest.mark.parametrize("fitted", BLOCKS)
def test_what_was_stated_for_one_combination_of_two_parts_is_of_each_part(fitted: str) -> None:
    """The same combination, another part; and the same part, another combination."""
    life = Life().part("gasket-1", "head_gasket").part("gasket-2", "head_gasket")
    said = "  - {{basis: published, stated_for: {{head_gasket: {}}}, values: {{deck_height: {} mm}}}}\n"
    for block, height in zip(BLOCKS, (220, 230), strict=True):
        other = "".join(said.format(gasket, height + far) for far, gasket in enumerate(("gasket-2", "gasket-1")))
        life.part(block, "block", f"facts:\n{other}")
    life.work("2024-01-01", "fit: gasket-1", f"fit: {fitted}")
    assert life.holds("now", "deck_height") == {"block-a": "221", "block-b": "231"}[fitted]


def test_what_is_fresh_and_far_in_time_comes_before_what_is_near_and_out_of_date() -> None:
    life = Life().part("block", "block").work("2024-01-01", "fit: block")
    life.measure("2024-01-10", "block", bore="{all: 80.0 mm}")
    life.work("2024-01-11", "rework: block, operation: bored")
    life.measure("2024-01-20", "block", bore="{all: 80.5 mm}")
    days = ("2024-01-10", "2024-01-11", "now")
    assert [life.holds(day, "bore", "1") for day in days] == ["80", "80.5 later", "80.5"]


def test_the_surest_is_found_wherever_it_stands_and_of_those_as_sure_the_latest_before() -> None:
    """Three readings are surer than one, at the position where they were taken; another head's say nothing here."""
    life = Life().part("head", "cylinder_head").part("shelf", "cylinder_head").work("2024-01-01", "fit: head")
    life.measure("2024-01-02", "shelf", "fine", chamber_volume="36 / 36, 36, 36, 36 / 36 / 36 cc")
    life.measure("2024-01-03", "head", "fine", chamber_volume="36.1 / 36.1, 36.1, 36.1 / 36.1 / x cc")
    life.measure("2024-01-04", "head", "fine", chamber_volume="36.2, 36.2, 36.2 / 36.2 / 36.2 / 36.2 cc")
    life.measure("2024-01-05", "head", "coarse", chamber_volume="{all: 36.3 cc}")
    life.work("2024-01-18", "service: oil")
    life.measure("2024-01-20", "head", "fine", chamber_volume="{all: 36.4 cc}")
    told = [[life.holds(day, "chamber_volume", each) for each in "1234"] for day in ("2024-01-03", "2024-01-18")]
    assert told == [["36.2 later", "36.1", "36.1", "36.2 later"], ["36.2", "36.1", "36.2", "36.2"]]


def test_a_position_that_is_less_sure_than_its_neighbour_does_not_end_the_search() -> None:
    life = Life().part("head", "cylinder_head").work("2024-01-01", "fit: head")
    life.measure("2024-01-02", "head", "fine", chamber_volume="36.1 / 36.1, 36.1, 36.1 / 36.1 / 36.1 cc")
    life.measure("2024-01-03", "head", "fine", chamber_volume="36.2, 36.2, 36.2 / 36.2 / 36.2 / 36.2 cc")
    assert [life.holds("now", "chamber_volume", each) for each in "1234"] == ["36.2", "36.1", "36.2", "36.2"]
