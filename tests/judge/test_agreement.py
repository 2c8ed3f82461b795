"""A gauge against the arithmetic: measured figures that other figures give as well."""

from __future__ import annotations

from math import pi

import pytest
from lives import EXAMPLE, Life

from logbook.judge.agreement import Agreement, agreements
from logbook.judge.papers import Component, Papers, as_published
from logbook.logbook import Logbook
from logbook.quantity.uncertain import Uncertain
from logbook.specs.graph import Node

MORE = "  drop gauge: {what: depth gauge, each: 0.02 mm, common: 0.30 mm}\n"


def short_motor(basis: str = "measured", deck_height: str = "207.00 mm") -> Life:
    """A stack of 39.50, 134.00 and 33.00 mm, each within 0.02 mm (k = 2), under a deck of 207.00 mm: 0.50 below."""
    life = Life(1, "single", MORE)
    life.part("block", "block", basis=basis, deck_height=f"{deck_height.split()[0]} ± 0.02 mm", bore="80.00 ± 0.01 mm")
    life.part("crank", "crankshaft", basis=basis, stroke="79.00 ± 0.02 mm")
    life.part("rods", "connecting_rods", basis=basis, rod_length="134.00 ± 0.02 mm")
    life.part("pistons", "pistons", basis=basis, compression_height="33.00 ± 0.02 mm")
    life.part("gasket", "head_gasket", basis=basis, gasket_bore="82.0 ± 0.1 mm", gasket_thickness="1.20 ± 0.02 mm")
    return life.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "rods", "pistons", "gasket")))


def found(life: Life, name: str) -> Agreement:
    return next(each for each in agreements(life.at("now")) if each.measured.name == name)


def test_a_deck_that_agrees_with_its_stack_is_no_finding() -> None:
    life = short_motor().measure("2024-01-02", deck_clearance="0.52 ± 0.02 mm below")
    assert life.book.findings == ()
    each = found(life, "deck_clearance")
    assert each.e_n == pytest.approx(0.02 / (4 * 0.02**2 + 0.01**2) ** 0.5, rel=0.15)
    assert each.agrees


def test_a_deck_that_does_not_agree_is_told_with_its_sureness() -> None:
    """0.70 against 0.50: of ± 0.02 each the deck, height, rod and piston, of the stroke half: ± 0.041 mm."""
    life = short_motor().measure("2024-01-02", deck_clearance="0.70 ± 0.02 mm below")
    each = found(life, "deck_clearance")
    assert each.difference.expanded * 1e3 == pytest.approx((4 * 0.02**2 + 0.01**2) ** 0.5)
    assert each.e_n == pytest.approx(0.20 / 0.0412, abs=0.01)
    (finding,) = life.book.findings
    assert (finding.level, finding.says) == (
        "doubtful",
        "the deck clearance of cylinder 1 was measured as 0.7 mm below, 0.200 ± 0.041 mm more than deck height, "
        "stroke, connecting rod length, compression height give",
    )
    assert finding.mend == "measure again, it or deck_height, stroke, rod_length, compression_height"


def test_what_both_rest_on_cancels() -> None:
    """One gauge that is 0.30 mm out reads deck and deck height alike: the 0.20 mm between them are none of its making.

    Against another gauge, as sure by itself, the same 0.20 mm are within its error.
    """
    alike = short_motor().measure("2024-01-02", "block", using="drop gauge", deck_height="207.00 mm")
    apart = short_motor()
    for life in (alike, apart):
        life.part("block", "block", bore="80.00 ± 0.01 mm")
        life.measure("2024-01-03", using="drop gauge", deck_clearance="0.70 mm below")
    apart.measure("2024-01-02", "block", deck_height="207.00 ± 0.30 mm")
    assert not found(alike, "deck_clearance").agrees
    assert found(apart, "deck_clearance").agrees
    assert [finding.level for finding in alike.book.findings] == ["doubtful"]
    assert apart.book.findings == ()


def test_a_figure_without_any_error_is_judged_with_the_usual_spread() -> None:
    """0.60 mm, nobody says how sure, is 0.10 more than the stack: within the usual 0.15 of a deck clearance."""
    life = short_motor().measure("2024-01-02", deck_clearance="0.60 mm below")
    assert found(life, "deck_clearance").difference.expanded * 1e3 == pytest.approx((0.15**2 + 3.25 * 0.02**2) ** 0.5)
    assert life.book.findings == ()
    assert short_motor().measure("2024-01-02", deck_clearance="0.80 mm below").book.findings


def test_that_an_engine_is_not_like_its_papers_is_a_note() -> None:
    life = short_motor("published").measure("2024-01-02", deck_clearance="0.70 ± 0.02 mm below")
    (finding,) = life.book.findings
    assert finding.level == "note"
    assert finding.mend.startswith("measure deck_height, stroke")


def test_a_gasket_volume_that_was_measured_stands_against_its_thickness() -> None:
    """82.0 by 1.20 mm are 6.34 cc; 8.0 cc were found: 1.66 cc too many for it."""
    life = short_motor().measure("2024-01-02", "gasket", gasket_volume="8.0 ± 0.3 cc")
    each = found(life, "gasket_volume")
    assert each.difference.nominal * 1e6 == pytest.approx(8.0 - pi / 4 * 8.2**2 * 0.120)
    assert not each.agrees
    assert [finding.says[:40] for finding in life.book.findings] == ["the gasket volume of cylinder 1 was meas"]


def test_no_deck_of_the_example_stands_against_its_stack() -> None:
    book = Logbook.open(EXAMPLE)
    for build in ("as-bought", "rebuilt", "third-head"):
        told = list(agreements(book.at(build)))
        assert {each.measured.name for each in told} >= {"deck_clearance"}
        assert all(each.agrees for each in told)


# the engine as its papers have it


def test_published_figures_come_first_and_measured_ones_fill_in() -> None:
    """Deck 206.80 less 39.50, 134.00 and 33.00: 0.30 for 0.60 as measured; 48.2 cc and 9.24 for 51.6 and 8.70."""
    at = Logbook.open(EXAMPLE).at("as-bought")
    papers = as_published(at.graph)
    for name, told, measured in (
        ("deck_clearance", 0.30e-3, 0.60e-3),
        ("chamber_volume", 35.0e-6, 36.2e-6),
        ("bore", 80.00e-3, 80.025e-3),
        ("clearance_volume", 48.19e-6, 51.61e-6),
        ("compression_ratio", 9.24, 8.70),
    ):
        book, bench = papers.at(name, "1"), at.graph.at(name, "1")
        assert isinstance(book, Node)
        assert isinstance(bench, Node)
        assert (book.value.nominal, bench.value.nominal) == pytest.approx((told, measured), rel=1e-3)


def test_what_the_papers_say_does_not_go_out_of_date() -> None:
    life = short_motor("published").measure("2024-01-02", "block", bore="80.30 mm")
    life.work("2024-02-01", "rework: block, operation: bored").measure("2024-02-02", "block", bore="80.50 mm")
    bore = as_published(life.at("now").graph).at("bore", "1")
    assert isinstance(bore, Node)
    assert bore.value.nominal == pytest.approx(80.00e-3)


@pytest.mark.parametrize(
    ("differences", "mainly"),
    [
        ({"deck": 1.5, "chamber": 1.2, "gasket": 0.4, "dish": 0.3}, ["deck", "chamber"]),
        ({"chamber": -3.0, "deck": 0.4}, ["chamber"]),
        ({"chamber": 1.0, "deck": -1.0}, ["chamber", "deck"]),
    ],
)
def test_what_explains_the_most(differences: dict[str, float], mainly: list[str]) -> None:
    parts = tuple(Component(word, word, Uncertain(size)) for word, size in differences.items())
    papers = Papers(9.2, Uncertain(sum(differences.values())), parts)
    assert [part.word for part in papers.mainly] == mainly
