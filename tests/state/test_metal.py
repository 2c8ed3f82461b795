"""What has come off a head or a block, cut by cut, and what may still come off."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.state.metal import Surface, surface
from logbook.state.states import END_OF_ENTRY


def life(more: str = "", **facts: str) -> Life:
    """Two cuts of a head, 0.30 ± 0.02 and 0.10 ± 0.02 mm."""
    story = Life().part("head-a", "cylinder_head", more, **facts).part("block", "block")
    for month, depth in (("03", "0.30"), ("05", "0.10")):
        story.work(f"2024-{month}-01", f"rework: head-a, operation: surface milled, depth: {depth} ± 0.02 mm")
    return story


def face(story: Life, entry: int | None = None) -> Surface:
    until = (END_OF_ENTRY if entry is None else entry, END_OF_ENTRY)
    found = surface(story.fold, "head-a", until)
    assert found is not None
    return found


def mm(story: Life, entry: int | None = None) -> tuple[float, bool, float | None]:
    its = face(story, entry)
    left = its.metal_left and round(its.metal_left.nominal * 1e3, 9)
    return round(its.metal_removed.nominal * 1e3, 9), its.at_least, left


def test_each_cut_adds_to_what_was_removed_before() -> None:
    story = life("removed_before: 0.20 ± 0.03 mm\n", metal_limit="0.80 mm")
    assert [mm(story, entry) for entry in (-1, 0, 1)] == [(0.2, False, 0.6), (0.5, False, 0.3), (0.6, False, 0.2)]
    assert face(story).metal_removed.expanded == pytest.approx((0.03**2 + 2 * 0.02**2) ** 0.5 * 1e-3)


@pytest.mark.parametrize("more", ["", "removed_before: unknown\n"])
def test_where_nobody_knows_what_was_removed_before_the_sum_is_a_least(more: str) -> None:
    assert mm(life(more, metal_limit="0.80 mm")) == (0.4, True, 0.4)


def test_a_cut_of_unknown_depth_makes_it_a_least() -> None:
    story = life("removed_before: 0 mm\n").work("2024-06-01", "rework: head-a, operation: surface milled")
    assert mm(story) == (0.4, True, None)


def test_what_is_measured_starts_the_sum_anew() -> None:
    story = life("removed_before: unknown\n")
    story.measure("2024-04-01", "head-a", metal_removed="{all: 0.55 mm}")
    assert mm(story) == (0.65, False, None)
    assert mm(story, 0) == (0.3, True, None)


def test_other_work_and_other_parts_take_nothing_off() -> None:
    story = life("removed_before: 0 mm\n").work("2024-06-01", "rework: head-a, operation: seats cut, depth: 0.5 mm")
    story.part("head-b", "cylinder_head").work("2024-07-01", "rework: head-b, operation: surface milled, depth: 1 mm")
    assert mm(story) == (0.4, False, None)


def test_the_deck_of_a_block() -> None:
    story = life().part("block-2", "block", "removed_before: 0.1 mm\n", deck_metal_limit="0.5 mm")
    story.work("2024-06-01", "rework: block-2, operation: decked, depth: 0.35 mm")
    found = surface(story.fold, "block-2")
    assert found is not None
    assert found.metal_left is not None
    assert (found.name, found.at_least, found.metal_left.nominal) == ("deck", False, pytest.approx(0.05e-3))


def test_a_crankshaft_has_no_such_surface() -> None:
    assert surface(Life().part("crank", "crankshaft").fold, "crank") is None
