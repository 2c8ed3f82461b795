"""What work of known depth, and the exchange of one part of a set, make of a figure until it is measured again."""

from __future__ import annotations

from math import pi

import pytest
from lives import Life

from logbook.quantity.catalogue import quantity
from logbook.specs.configuration import configuration
from logbook.state.fold import live
from logbook.state.holding import Held
from logbook.state.prediction import OPENING_SHARE, OPENING_SHARE_SPREAD

CC = 1e-6


def held(life: Life, name: str, position: str = "1", point: str = "now") -> Held:
    """What holds for a quantity at a point."""
    found = configuration(live(life.book.record), point).holding.best(quantity(name), position)
    assert found is not None
    return found


def milled(depth: str = "depth: 0.60 ± 0.02 mm", **figures: str) -> Life:
    life = Life().part("head-b", "cylinder_head").part("block-1", "block")
    life.work("2024-01-01", "fit: head-b", "fit: block-1")
    life.measure("2024-02-01", "head-b", chamber_volume="{all: 39.4 ± 0.2 cc}", **figures)
    return life.work("2024-03-01", f"rework: head-b, operation: surface milled, {depth}".rstrip(", "))


def test_a_milled_chamber_is_predicted_from_its_opening() -> None:
    """39.4 cc less 48.2 cm2 by 0.60 mm; the errors of all three count, each by its own partial derivative."""
    found = held(milled(chamber_opening="{all: 48.2 ± 0.5 cm2}"), "chamber_volume")
    assert (found.basis, found.out_of_date) == ("predicted", False)
    assert found.value.nominal == pytest.approx((39.4 - 48.2 * 0.060) * CC)
    by_hand = (0.2**2 + (0.060 * 0.5) ** 2 + (48.2 * 0.002) ** 2) ** 0.5
    assert found.value.expanded == pytest.approx(by_hand * CC, rel=1e-6)


def test_before_the_cut_the_measured_volume_holds() -> None:
    life = milled(chamber_opening="{all: 48.2 ± 0.5 cm2}")
    assert held(life, "chamber_volume", point="2024-02-01").basis == "measured"


def test_what_is_measured_after_the_cut_replaces_the_prediction() -> None:
    life = milled(chamber_opening="{all: 48.2 ± 0.5 cm2}")
    life.measure("2024-04-01", "head-b", chamber_volume="{all: 36.5 cc}")
    assert held(life, "chamber_volume").basis == "measured"


def test_without_the_opening_the_bore_gives_it_with_a_wide_mark() -> None:
    life = milled().measure("2024-02-02", "block-1", bore="{all: 80.00 ± 0.01 mm}")
    found, area = held(life, "chamber_volume"), pi / 4 * 8.0**2
    assert found.value.nominal == pytest.approx((39.4 - OPENING_SHARE * area * 0.060) * CC)
    assert found.value.expanded > OPENING_SHARE_SPREAD * area * 0.060 * CC


def test_a_cut_of_unknown_depth_predicts_nothing() -> None:
    found = held(milled("", chamber_opening="{all: 48.2 cm2}"), "chamber_volume")
    assert (found.basis, found.out_of_date) == ("measured", True)


def test_two_cuts_add_up() -> None:
    life = milled(chamber_opening="{all: 48.2 cm2}")
    life.work("2024-05-01", "rework: head-b, operation: surface milled, depth: 0.10 mm")
    assert held(life, "chamber_volume").value.nominal == pytest.approx((39.4 - 48.2 * 0.070) * CC)


def test_one_cut_of_unknown_kind_among_others_predicts_nothing() -> None:
    life = milled(chamber_opening="{all: 48.2 cm2}")
    life.work("2024-05-01", "rework: head-b, operation: seats cut")
    assert held(life, "chamber_volume").out_of_date


def short_motor() -> Life:
    life = Life()
    for name, kind in (("block-1", "block"), ("crank-1", "crankshaft"), ("rods-1", "connecting_rods")):
        life.part(name, kind)
    life.part("pistons-1", "pistons", compression_height="33.00 ± 0.02 mm")
    life.part("pistons-2", "pistons", compression_height="33.20 ± 0.02 mm")
    life.work("2024-01-01", *(f"fit: {name}" for name in ("block-1", "crank-1", "rods-1", "pistons-1")))
    return life.measure("2024-02-01", deck_clearance="{all: 0.60 ± 0.03 mm below}")


def test_deck_clearance_carries_over_to_pistons_of_another_height() -> None:
    """0.60 mm below with 33.00, so 0.40 mm below with 33.20; the two heights' errors are independent of each other."""
    life = short_motor().work("2024-03-01", "fit: pistons-2")
    found = held(life, "deck_clearance")
    assert found.basis == "predicted"
    assert found.value.nominal == pytest.approx(0.40e-3)
    assert found.value.expanded == pytest.approx((0.03**2 + 2 * 0.02**2) ** 0.5 * 1e-3)


def test_what_is_carried_over_leaves_aside_what_is_found_to_be_a_mistake_later() -> None:
    """With hindsight the 33.50 mm was no figure of pistons-1: 0.40 mm, as above, and not the 0.90 mm of its day."""
    life = short_motor().measure("2024-02-02", "pistons-1", compression_height="33.50 ± 0.02 mm")
    wrong, known = life.last, len(life.book.record.entries)
    life.texts["plans/higher.yaml"] = "title: a\ndate: 2024-02-03\nwork:\n  - {fit: pistons-2}\n"
    life.work("2024-03-01", f"correct: {{entry: {wrong}, part: pistons-1, quantity: compression_height, why: a slip}}")
    for hindsight, left in ((False, 0.90e-3), (True, 0.40e-3)):
        at = configuration(life.fold, "plan:higher", known=known, hindsight=hindsight)
        found = at.holding.best(quantity("deck_clearance"), "1")
        assert found is not None
        assert (found.basis, found.value.nominal) == ("predicted", pytest.approx(left))


def test_it_does_not_carry_over_two_exchanged_parts_or_a_decked_block() -> None:
    two = short_motor().part("rods-2", "connecting_rods").work("2024-03-01", "fit: pistons-2", "fit: rods-2")
    decked = short_motor().work("2024-03-01", "rework: block-1, operation: decked", "fit: pistons-2")
    for life in (two, decked):
        assert configuration(live(life.book.record)).holding.best(quantity("deck_clearance"), "1") is None


def test_decking_takes_its_depth_from_the_deck_clearance() -> None:
    life = short_motor().work("2024-03-01", "rework: block-1, operation: decked, depth: 0.35 mm")
    found = held(life, "deck_clearance")
    assert (found.basis, found.value.nominal) == ("predicted", pytest.approx(0.25e-3))


def test_a_cut_that_is_only_planned_is_foreseen_too() -> None:
    """The second step of the plan, so that each step's own depth is taken."""
    life = short_motor().part("rods-2", "connecting_rods")
    life.texts["plans/decked.yaml"] = (
        "title: a\ndate: 2024-03-01\nwork:\n  - {rework: crank-1, operation: journals polished, depth: 0.01 mm}\n"
        "  - {rework: block-1, operation: decked, depth: 0.35 mm}\n"
    )
    found = configuration(life.fold, "plan:decked").holding.best(quantity("deck_clearance"), "1")
    assert found is not None
    assert (found.basis, found.value.nominal) == ("predicted", pytest.approx(0.25e-3))
    assert held(life, "deck_clearance").basis == "measured"


def test_a_chamber_that_was_not_taken_loses_what_the_others_lose() -> None:
    """The mean of the other three, 39.4 cc, less 48.2 cm2 by 0.60 mm; it stays inferred, with its wider error."""
    life = Life().part("head-b", "cylinder_head").work("2024-01-01", "fit: head-b")
    taken = {"chamber_volume": "39.4 / 39.3 / 39.5 / x cc", "chamber_opening": "{all: 48.2 ± 0.5 cm2}"}
    life.measure("2024-02-01", "head-b", **taken)
    before = held(life, "chamber_volume", "4")
    life.work("2024-03-01", "rework: head-b, operation: surface milled, depth: 0.60 mm")
    found = held(life, "chamber_volume", "4")
    assert (found.basis, found.out_of_date) == ("inferred", False)
    assert found.value.nominal == pytest.approx((39.4 - 48.2 * 0.060) * CC)
    assert found.value.expanded > before.value.expanded
