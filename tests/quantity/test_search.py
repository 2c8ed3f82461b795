"""A peak and a crossing are found to the last digits, and what is none is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.quantity.search import crossing, greatest


@given(at=st.floats(-5, 5), height=st.floats(-100, 100))
def test_a_peak_and_a_crossing_are_found(at: float, height: float) -> None:
    assert greatest(lambda x: height - (x - at) ** 2, -6, 6) == pytest.approx(height, abs=1e-7)
    assert crossing(lambda x: x - at, -6, 6) == pytest.approx(at, abs=1e-14)
    assert crossing(lambda x: at - x, -6, 6) == pytest.approx(at, abs=1e-14)


def test_a_peak_at_a_bound_is_found_and_no_crossing_is_refused() -> None:
    assert greatest(lambda x: x, 0, 3) == 3
    assert greatest(lambda x: -x, 0, 3) == 0
    with pytest.raises(ValueError, match="does not change its sign"):
        crossing(lambda x: 1.0, 0, 1)
