"""Where a figure is, in words; the one bank of an engine in line goes without saying."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.judge.places import at_positions
from logbook.quantity.catalogue import quantity


@pytest.mark.parametrize(
    ("arrangement", "name", "positions", "says"),
    [
        ("inline", "gasket_thickness", ("1",), ""),
        ("vee", "gasket_thickness", ("1",), " of bank 1"),
        ("vee", "gasket_thickness", ("1", "2"), " of banks 1 and 2"),
        ("inline", "bore", ("1", "2", "4"), " of cylinders 1, 2 and 4"),
        ("inline", "displacement", ("",), ""),
    ],
)
def test_where_it_is(arrangement: str, name: str, positions: tuple[str, ...], says: str) -> None:
    engine = Life(4, arrangement).fold.arrangement
    assert at_positions(engine, quantity(name), positions) == says


def test_a_limit_of_an_engine_in_line_names_no_bank() -> None:
    limit = "limits:\n  - {id: gasket, spec: gasket_thickness, max: 1.00 mm, rule: sheet}\n"
    life = Life(more=limit).part("g", "head_gasket").work("2024-01-01", "fit: g")
    life.measure("2024-01-02", "g", gasket_thickness="1.20 ± 0.02 mm")
    (finding,) = [str(each) for each in life.book.findings if "gasket" in each.says]
    assert "doubtful: gasket thickness, compressed, 1.200 ± 0.020 mm, is outside its limit" in finding
