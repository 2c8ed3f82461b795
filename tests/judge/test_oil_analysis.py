"""Metal for each hour on the oil; what is not understood is told at its line."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.judge.oil_analysis import analyses_can_be_read, oil_analyses
from logbook.logbook import Logbook
from logbook.quantity.units import unit


def sheet(observed: str) -> Life:
    life = Life()
    life.texts["tests/2024-01-01-oil.yaml"] = f"date: 2024-01-01\nkind: oil analysis\nobserved: {{{observed}}}\n"
    return life


def test_the_example() -> None:
    (found,) = oil_analyses(Logbook.open(EXAMPLE).life)
    assert found.hours == pytest.approx(16.8 * 3600)
    rates = {name: round(unit("mg/kg/h").from_base(rate), 3) for name, rate in found.rates.items()}
    assert rates == {"iron": 1.845, "copper": 0.714, "lead": 1.071, "aluminium": 0.357, "silicon": 0.536}
    assert found.viscosity_change == pytest.approx(14.1 / 15.0 - 1)
    assert not list(analyses_can_be_read(Logbook.open(EXAMPLE).life))


def test_without_hours_no_rate_and_a_note() -> None:
    life = sheet("iron: 31 mg/kg")
    (found,) = oil_analyses(life.fold)
    assert not found.rates
    (finding,) = analyses_can_be_read(life.fold)
    assert "says little without the hours" in str(finding)
    assert str(finding).startswith("tests/2024-01-01-oil.yaml:3:")


@pytest.mark.parametrize("text", ["31", "31 h", "-3 mg/kg", "300 %", "some"])
def test_what_is_no_share_of_the_oil_is_told_and_not_used(text: str) -> None:
    life = sheet(f"hours on this oil: 10 h, iron: {text}, lead: 2 mg/kg")
    (found,) = oil_analyses(life.fold)
    assert list(found.rates) == ["lead"]
    (finding,) = analyses_can_be_read(life.fold)
    assert "as iron" in finding.says
