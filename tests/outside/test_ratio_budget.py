"""The uncertainty of a compression ratio, worked out by the program and by the uncertainties library.

A cylinder of 101.60 mm by 88.392 mm, all its figures with a standard uncertainty; the bore enters the swept volume and
the deck volume and is one source in both. Expected figures from uncertainties 3.2.3 and, as a second way, two million
Monte Carlo draws after JCGM 101:2008 (9.6777, standard uncertainty 0.05826), both worked out apart from the program.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import pi
from typing import Any

import pytest
from sources import checks
from uncertainties import ufloat

from logbook.quantity.uncertain import Uncertain, propagate
from logbook.specs.compression import compression_ratio
from logbook.specs.volumes import clearance_volume, crown_volume_dished, deck_volume, gasket_volume_round, swept_volume

CM, CC = 1e-2, 1e-6
FIGURES = {  # value and standard uncertainty
    "bore": (10.160 * CM, 0.001 * CM),
    "stroke": (8.8392 * CM, 0.005 * CM),
    "chamber_volume": (64.0 * CC, 0.3 * CC),
    "gasket_bore": (10.414 * CM, 0.010 * CM),
    "gasket_thickness": (0.09906 * CM, 0.003 * CM),
    "deck_clearance": (0.0635 * CM, 0.003 * CM),
    "dish_volume": (5.0 * CC, 0.3 * CC),
}


def by_steps(given: Mapping[str, Uncertain]) -> Uncertain:
    """The ratio as the program gets to it: each spec from the facts and specs before it."""

    def step(formula: Any, *names: str) -> Uncertain:
        return propagate(formula, {name: known[name] for name in names})

    known = dict(given)
    known["swept_volume"] = step(swept_volume, "bore", "stroke")
    known["gasket_volume"] = step(gasket_volume_round, "gasket_bore", "gasket_thickness")
    known["deck_volume"] = step(deck_volume, "bore", "deck_clearance")
    known["crown_volume"] = step(crown_volume_dished, "dish_volume")
    known["clearance_volume"] = step(clearance_volume, "chamber_volume", "crown_volume", "gasket_volume", "deck_volume")
    return step(compression_ratio, "swept_volume", "clearance_volume")


def by_library(given: Mapping[str, Any]) -> Any:
    """The same ratio written out once more, for numbers of the uncertainties library and its own derivatives."""
    piston_area = pi / 4 * given["bore"] ** 2
    gasket = pi / 4 * given["gasket_bore"] ** 2 * given["gasket_thickness"]
    clearance = given["chamber_volume"] + given["dish_volume"] + gasket + piston_area * given["deck_clearance"]
    return 1 + piston_area * given["stroke"] / clearance


OWN = {name: Uncertain(value, {name: standard}) for name, (value, standard) in FIGURES.items()}


def test_golden_ratio_and_its_uncertainty() -> None:
    found = by_steps(OWN)
    assert found.nominal == pytest.approx(9.67730, abs=0.000005)
    assert found.standard == pytest.approx(0.058229, abs=0.0000005)
    assert not found.curved


@pytest.mark.parametrize(
    ("source", "share"),
    [
        ("chamber_volume", 0.03152),
        ("dish_volume", 0.03152),
        ("gasket_thickness", 0.02685),
        ("deck_clearance", 0.02556),
        ("stroke", 0.00491),
    ],
)
def test_the_largest_shares(source: str, share: float) -> None:
    assert abs(by_steps(OWN).terms[source]) == pytest.approx(share, abs=0.000005)


def test_the_signs_are_those_of_the_trade() -> None:
    terms = by_steps(OWN).terms
    assert {name for name, term in terms.items() if term > 0} == {"bore", "stroke"}


def test_a_bore_counted_as_two_is_seen() -> None:
    """0.058232 with a second, independent bore in the deck volume: it is one bore."""
    two = propagate(deck_volume, {"bore": Uncertain(OWN["bore"].nominal, {"bore again": 0.001 * CM}),
                                  "deck_clearance": OWN["deck_clearance"]})  # fmt: skip
    known = {
        "chamber_volume": OWN["chamber_volume"],
        "crown_volume": OWN["dish_volume"],
        "gasket_volume": propagate(gasket_volume_round, {n: OWN[n] for n in ("gasket_bore", "gasket_thickness")}),
        "deck_volume": two,
    }
    swept = propagate(swept_volume, {n: OWN[n] for n in ("bore", "stroke")})
    found = propagate(
        compression_ratio, {"swept_volume": swept, "clearance_volume": propagate(clearance_volume, known)}
    )
    assert found.standard == pytest.approx(0.058232, abs=0.0000005)
    assert found.standard > by_steps(OWN).standard


@checks("swept_volume", "gasket_volume", "deck_volume", "clearance_volume", "compression_ratio",
        source="the ratio written out once more, with uncertainties 3.2.3", kind="independent computation")  # fmt: skip
def test_agrees_with_the_uncertainties_library() -> None:
    theirs = by_library({name: ufloat(*figure, tag=name) for name, figure in FIGURES.items()})
    found = by_steps(OWN)
    assert found.nominal == pytest.approx(theirs.n, rel=1e-12)
    assert found.standard == pytest.approx(theirs.s, rel=1e-3)
    for variable, share in theirs.error_components().items():
        assert abs(found.terms[variable.tag]) == pytest.approx(share, abs=1e-3 * theirs.s)


def test_agrees_where_one_micrometer_is_out_for_every_length() -> None:
    """A zero error of 0.05 mm, standard, common to every length: by far the largest share, and one source."""
    lengths = ("bore", "stroke", "gasket_bore", "gasket_thickness", "deck_clearance")
    zero = 0.05e-3
    common = ufloat(0, zero, tag="zero")
    theirs = by_library(
        {name: ufloat(*figure) + (common if name in lengths else 0) for name, figure in FIGURES.items()}
    )
    ours = by_steps(
        {
            name: Uncertain(value, {name: standard, **({"zero": zero} if name in lengths else {})})
            for name, (value, standard) in FIGURES.items()
        }
    )
    assert ours.standard == pytest.approx(theirs.s, rel=1e-3)
    assert ours.standard > 1.5 * by_steps(OWN).standard
