"""Truths of firing intervals that hold for every engine, and what is said of them."""

from __future__ import annotations

import doctest
from itertools import accumulate
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from keyboard import typed
from lives import Life

from logbook.documents.history.fill import history
from logbook.specs import layout
from logbook.specs.firing import firing_lines, firing_of
from logbook.specs.layout import (
    even_firing_angle,
    even_firing_interval,
    evenly_spaced,
    firing_angle_of_shared_pin,
    firing_intervals,
    pin_split_needed,
)

ANGLE = st.floats(0, 720)
BANKS = st.floats(-180, 180)


@given(st.integers(1, 16))
def test_even_angles_have_even_intervals_that_make_two_turns(cylinders: int) -> None:
    angles = [even_firing_angle(place=place, cylinders=cylinders) for place in range(1, cylinders + 1)]
    intervals = firing_intervals(angles)
    assert angles[0] == 0
    assert sum(intervals) == pytest.approx(720)
    assert intervals == pytest.approx([even_firing_interval(cylinders=cylinders)] * cylinders)
    assert evenly_spaced(intervals)


@given(st.lists(st.floats(1, 100), min_size=2, max_size=16))
def test_angles_summed_from_intervals_give_them_back(parts: list[float]) -> None:
    intervals = [720 * part / sum(parts) for part in parts]
    assert firing_intervals([0, *accumulate(intervals[:-1])]) == pytest.approx(intervals)


@given(ANGLE, ANGLE, BANKS)
def test_a_plain_pin_needs_no_split_where_it_puts_its_second_cylinder(first: float, even: float, bank: float) -> None:
    second = firing_angle_of_shared_pin(first=first, even=even, bank_angle=bank)
    assert pin_split_needed(first=first, second=second, bank_angle=bank) == pytest.approx(0, abs=1e-9)
    assert min((second - even) % 720, (even - second) % 720) <= 180 + 1e-9


@given(ANGLE, ANGLE, BANKS, st.integers(-2, 2))
def test_a_split_is_the_same_in_every_turn(first: float, second: float, bank: float, turns: int) -> None:
    split = pin_split_needed(first=first, second=second, bank_angle=bank)
    again = pin_split_needed(first=first, second=second + 360 * turns, bank_angle=bank)
    assert -180 <= split < 180
    assert (again - split + 180) % 360 == pytest.approx(180, abs=1e-6)


def test_the_formulas_pages_reckon_right() -> None:
    assert doctest.testmod(layout).failed == 0


def test_the_first_of_the_order_is_at_0_whichever_bank_it_is_in() -> None:
    assert said(vee(order="6-5-4-3-2-1"))[1].startswith("Firing TDC in degrees of crank: 6 at 0, 5 at 90, 4 at 240")


@pytest.mark.parametrize("place", [0, 5])
def test_a_place_outside_the_order_is_refused(place: int) -> None:
    with pytest.raises(ValueError, match="check firing_order"):
        even_firing_angle(place=place, cylinders=4)


def vee(more: str = "", order: str = "1-6-5-4-3-2") -> Life:
    return Life(6, "vee", more=f"firing_order: {order}\nbank_angle: 90 deg\n{more}")


def said(life: Life) -> list[str]:
    firing = firing_of(life.book.record.engine, life.book.life.arrangement)
    return list(firing_lines(firing)) if firing else []


def test_what_is_said_of_a_vee() -> None:
    assert said(vee()) == [
        "Uneven, 150-90-150-90-150-90 deg (as plain shared crankpins give it)",
        "Firing TDC in degrees of crank: 1 at 0, 6 at 150, 5 at 240, 4 at 390, 3 at 480, 2 at 630",
        "To fire evenly, every 120 deg, they need a split of 30 deg (with it: firing_intervals: even)",
    ]
    assert said(vee("firing_intervals: even\n"))[::2] == [
        "Even, every 120 deg (as stated)",
        "For it the shared crankpins are split by 30 deg",
    ]
    assert said(vee(order="1-2-3-4-5-5")) == []  # a finding says what is wrong with it
    assert said(vee(order="1-3-2-4-5-6"))[2].startswith("No crankpins shared by two banks at this angle fire so")


def test_it_stands_in_the_specs_and_in_the_report(tmp_path: Path) -> None:
    life = vee("firing_intervals: even\n")
    (tmp_path / "engine.yaml").write_text(life.texts["engine.yaml"])
    page = typed("specs", at=tmp_path).out
    assert "\nFiring\n  Even, every 120 deg (as stated).\n" in page
    identity = dict(history(life.book).engine.lines)
    assert identity["Firing order"] == "1-6-5-4-3-2"
    assert identity["Firing"].startswith("Even, every 120 deg (as stated). Firing TDC in degrees of crank: 1 at 0, 6")
