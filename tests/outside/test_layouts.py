"""Firing orders and intervals of usual engines, as the trade and the textbooks have them.

Orders and intervals are common practice and from memory, none seen in print for these tests; 720 / n is arithmetic.
"""

from __future__ import annotations

import pytest
from lives import Life

from logbook.specs.firing import STATED, TAKEN, Firing, firing_of

LEFT_AND_RIGHT = "banks: {1: 1-2-3-4, 2: 5-6-7-8}\n"


def fires(cylinders: int, arrangement: str, order: str, more: str = "") -> Firing:
    book = Life(cylinders, arrangement, more=f"firing_order: {order}\n{more}").book
    assert not [finding for finding in book.findings if finding.file == "engine.yaml"]
    firing = firing_of(book.record.engine, book.life.arrangement)
    assert firing is not None
    assert list(firing.angles) == order.split("-")
    assert sum(firing.intervals) == pytest.approx(720)
    return firing


#: Shared plain crankpins; common practice, no source, but for the orders themselves (from memory).
EVEN_VEES = [
    (8, "1-8-4-3-6-5-7-2", "90 deg", ""),  # crankpins at 90, odd and even banks
    (8, "1-5-4-2-6-3-7-8", "90 deg", LEFT_AND_RIGHT),  # the same crankshaft, numbered bank by bank
    (8, "1-3-7-2-6-5-4-8", "90 deg", LEFT_AND_RIGHT),
    (8, "1-5-4-8-6-3-7-2", "90 deg", LEFT_AND_RIGHT),
    (8, "1-5-3-7-4-8-2-6", "90 deg", LEFT_AND_RIGHT),  # crankpins at 180
    (6, "1-2-3-4-5-6", "120 deg", ""),
    (12, "1-7-5-11-3-9-6-12-2-8-4-10", "60 deg", "banks: {1: 1-2-3-4-5-6, 2: 7-8-9-10-11-12}\n"),
]


@pytest.mark.parametrize(("cylinders", "order", "angle", "banks"), EVEN_VEES)
def test_a_vee_whose_bank_angle_fits_fires_evenly_on_plain_pins(
    cylinders: int, order: str, angle: str, banks: str
) -> None:
    firing = fires(cylinders, "vee", order, f"bank_angle: {angle}\n{banks}")
    assert firing.even
    assert firing.split == 0
    assert firing.fits


#: What a vee fires at on plain pins, and the split for even firing. Twins and V4: common practice, from memory. V6 of
#: 90 deg: 150 and 90 on plain pins, later 30 deg of split, of 60 deg 60 (textbooks of engine balance, from memory).
UNEVEN_VEES = [
    (2, "1-2", "45 deg", {405, 315}, 45),
    (2, "1-2", "90 deg", {450, 270}, 90),
    (4, "1-3-2-4", "90 deg", {90, 180, 270}, 90),
    (6, "1-6-5-4-3-2", "90 deg", {90, 150}, 30),
    (6, "1-2-3-4-5-6", "60 deg", {60, 180}, 60),
    (10, "1-10-9-4-3-6-5-8-7-2", "90 deg", {54, 90}, 18),
]


@pytest.mark.parametrize(("cylinders", "order", "angle", "intervals", "split"), UNEVEN_VEES)
def test_a_vee_whose_bank_angle_does_not_fit_is_uneven_or_has_split_pins(
    cylinders: int, order: str, angle: str, intervals: set[int], split: int
) -> None:
    plain = fires(cylinders, "vee", order, f"bank_angle: {angle}\n")
    assert not plain.even
    assert {round(each) for each in plain.intervals} == intervals
    assert abs(plain.split or 0) == split
    stated = fires(cylinders, "vee", order, f"bank_angle: {angle}\nfiring_intervals: even\n")
    assert stated.even
    assert stated.basis == STATED
    assert abs(stated.split or 0) == split


@pytest.mark.parametrize(
    ("cylinders", "arrangement", "order", "every"),
    [
        (4, "inline", "1-3-4-2", 180),
        (4, "inline", "1-2-4-3", 180),
        (5, "inline", "1-2-4-5-3", 144),
        (6, "inline", "1-5-3-6-2-4", 120),
        (2, "flat", "1-2", 360),
        (4, "flat", "1-4-3-2", 180),
        (6, "flat", "1-6-2-4-3-5", 120),
    ],
)
def test_where_every_cylinder_has_its_own_pin_even_firing_is_taken_and_said_so(
    cylinders: int, arrangement: str, order: str, every: int
) -> None:
    firing = fires(cylinders, arrangement, order)
    assert firing.intervals == pytest.approx([every] * cylinders)
    assert (firing.basis, firing.split) == (TAKEN, None)


def test_a_twin_with_crankpins_at_180_has_its_intervals_stated() -> None:
    """An inline twin of 180 deg fires at 180 and 540; common practice, no source."""
    firing = fires(2, "inline", "1-2", "firing_intervals: 180-540\n")
    assert dict(firing.angles) == {"1": 0, "2": 180}
    assert not firing.even


def test_an_order_that_no_crankshaft_of_the_vee_has_is_told() -> None:
    """Two cylinders exchanged in the usual order of a V8: its pins would need splits that differ."""
    assert not fires(8, "vee", "1-8-4-3-6-5-2-7", "bank_angle: 90 deg\n").fits
