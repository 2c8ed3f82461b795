"""Figures that cannot both be right, and those that can: E_n by hand, and small lives."""

from __future__ import annotations

from math import sqrt

import pytest
from lives import Life

from logbook.judge.disagreements import e_n
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain

BURETTES = """\
  burette: {what: burette, each: 0.10 cc, common: 2.0 cc}
"""


def head() -> Life:
    return Life(more=BURETTES).part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a")


def said(life: Life) -> list[str]:
    return [each.says for each in life.book.findings if "E_n" in each.says]


def test_e_n_by_hand() -> None:
    """A laboratory of 100.2 ± 0.3 against a reference of 99.9 ± 0.1: 0.3/√(0.09 + 0.01) = 0.949 (ISO 13528, E_n)."""
    laboratory, reference = Uncertain(100.2, {"a": 0.15}), Uncertain(99.9, {"b": 0.05})
    assert e_n(laboratory, reference) == pytest.approx(0.3 / sqrt(0.3**2 + 0.1**2))
    assert e_n(laboratory, laboratory) == 0
    assert e_n(Uncertain(1.0), Uncertain(2.0)) == float("inf")


def test_what_two_figures_share_does_not_excuse_them() -> None:
    """Both with ± 2 cc of the same burette, which cancels: only ± 0.1 cc each is left for 1 cc of difference."""
    life = head()
    life.measure("2024-02-01", "head-a", using="burette", chamber_volume="38.0 / 38.0 / 38.0 / 38.0 cc")
    life.measure("2024-02-02", "head-a", using="burette", chamber_volume="38.0 / 39.0 / 38.1 / 38.0 cc")
    (says,) = said(life)
    assert "position 2 is 38.0 ± 2.0 cc here and 39.0 ± 2.0 cc in measurements/2024-02-02-004.yaml:4" in says
    assert says.endswith("(E_n 7.1)")


@pytest.mark.parametrize(("second", "count"), [("38.4", 0), ("38.6", 1)])
def test_the_boundary_lies_at_the_sum_of_the_squares(second: str, count: int) -> None:
    """± 0.3 and ± 0.4 cc make ± 0.5 cc."""
    life = head()
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 38.0 ± 0.3 cc}")
    life.measure("2024-02-02", "head-a", chamber_volume=f"{{all: {second} ± 0.4 cc}}")
    assert len(said(life)) == count


def test_the_surer_one_is_named_as_holding_and_holds() -> None:
    life = head()
    life.measure("2024-02-01", "head-a", using="fine", chamber_volume="{all: 36 cc}")
    life.measure("2024-02-02", "head-a", using="coarse", chamber_volume="{all: 39 cc}")
    (finding,) = life.book.findings
    assert (finding.level, finding.file) == ("doubtful", "measurements/2024-02-02-004.yaml")
    assert "39.00 ± 0.80 cc here and 36.00 ± 0.10 cc in measurements/2024-02-01-003.yaml:4, which holds" in finding.says
    assert life.holds("now", "chamber_volume") == "36"


def two_that_disagree() -> Life:
    life = head()
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 36.0 ± 0.1 cc}")
    return life.measure("2024-02-02", "head-a", chamber_volume="{all: 39.0 ± 0.1 cc}")


def test_it_is_silent_once_one_is_adopted_or_corrected() -> None:
    for settled in ("adopt: {quantity: chamber_volume, from: %s, why: a}",
                    "correct: {entry: %s, quantity: chamber_volume, why: a}"):  # fmt: skip
        life = two_that_disagree()
        assert len(said(life)) == 1
        assert said(life.work("2024-03-01", settled % life.last)) == []


def test_work_between_them_explains_a_difference() -> None:
    life = head().measure("2024-02-01", "head-a", chamber_volume="{all: 36.0 ± 0.1 cc}")
    life.work("2024-03-01", "rework: head-a, operation: surface milled")
    assert said(life.measure("2024-03-02", "head-a", chamber_volume="{all: 34.0 ± 0.1 cc}")) == []


def test_so_do_wear_other_conditions_and_other_parts() -> None:
    life = head().part("block", "block").part("cam", "camshaft").part("head-b", "cylinder_head")
    for bore in ("80.00", "80.10"):
        life.measure("2024-02-01", "block", bore=f"{{all: {bore} ± 0.01 mm}}")
    for lift, angle in (("0.10", "20"), ("1.00", "5")):
        life.measure("2024-02-03", "cam", more=f"at_lift: {lift} mm\n", inlet_opens=f"{angle} ± 1 deg before TDC")
    for part, volume in (("head-a", "36.0"), ("head-b", "39.0")):
        life.measure("2024-02-05", part, chamber_volume=f"{{all: {volume} ± 0.1 cc}}")
    assert said(life) == []


def test_a_figure_without_an_error_is_judged_with_the_usual_spread() -> None:
    """1.0 cc of a chamber: 36.0 and 37.0 may both be true, 36.0 and 38.0 not."""
    for second, count in (("37.0", 0), ("38.0", 1)):
        life = head().measure("2024-02-01", "head-a", chamber_volume="{all: 36.0 cc}")
        assert len(said(life.measure("2024-02-02", "head-a", chamber_volume=f"{{all: {second} cc}}"))) == count


def test_the_one_that_is_named_is_the_one_that_holds_whatever_the_usual_spread() -> None:
    life = head().measure("2024-02-01", "head-a", chamber_volume="{all: 36.0 cc}")
    life.measure("2024-02-02", "head-a", using="coarse", chamber_volume="{all: 39.0 cc}")
    (says,) = said(life)
    assert "36.0 ± 1.0 cc in measurements/2024-02-01-003.yaml:3, which holds" in says
    assert life.holds("now", "chamber_volume") == "36"


def test_a_figure_of_a_set_is_compared_with_those_of_the_same_set_only() -> None:
    life = Life().part("block", "block").part("pistons-1", "pistons").part("pistons-2", "pistons")
    life.work("2024-01-01", "fit: block", "fit: pistons-1")
    life.measure("2024-02-01", deck_clearance="{all: 0.30 ± 0.02 mm below}")
    life.work("2024-03-01", "fit: pistons-2")
    life.measure("2024-03-02", deck_clearance="{all: 0.50 ± 0.02 mm below}")
    assert said(life) == []
    life.work("2024-04-01", "fit: pistons-1")
    life.measure("2024-04-02", deck_clearance="{all: 0.40 ± 0.02 mm below}")
    (says,) = said(life)
    assert "`deck_clearance` of the assembled engine, position 1 is 0.300 ± 0.020 mm here" in says


def test_the_losers_stay_in_sight_beside_what_holds() -> None:
    life = two_that_disagree()
    everything = life.at("now").holding.all(quantity("chamber_volume"), "1")
    assert [round(each.value.nominal * 1e6, 6) for each in everything] == [39, 36]
