"""What of an uncertainty comes from the arithmetic and not from the figures: nothing."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from logbook.quantity.uncertain import Uncertain, propagate


def greatest_less_least(*, each: Sequence[float]) -> float:
    return max(each) - min(each)


@pytest.mark.parametrize(("nominal", "term"), [(1799.7, 4650.3), (9.3, 0.03)])
def test_equal_figures_have_a_spread_of_nothing_at_all(nominal: float, term: float) -> None:
    """Not the last digits of the two sides, which would then be told as the spread's uncertainty."""
    figures = tuple(Uncertain(nominal, {"common": term, f"own {number}": term}) for number in range(3))
    spread = propagate(greatest_less_least, {"each": figures})
    assert (spread.nominal, spread.standard) == (0.0, 0.0)
    assert spread.curved


def test_what_bends_and_rises_keeps_its_slope() -> None:
    found = propagate(lambda *, x: x * x + 1e-3 * x, {"x": Uncertain(0.0, {"x": 1.0})})
    assert found.standard == pytest.approx(1e-3)
