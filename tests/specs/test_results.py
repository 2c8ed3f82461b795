"""Specs as plain data: bases, shares, what is missing, and claims beside."""

from __future__ import annotations

import math

import pytest
from lives import EXAMPLE, Life

from logbook.logbook import Logbook
from logbook.specs.results import Spec, Value

BOOK = Logbook.open(EXAMPLE)
POINTS = ("as-bought", "rebuilt", "donor-head", "third-head")


@pytest.mark.parametrize("point", POINTS)
def test_shares_of_the_bases_make_the_whole(point: str) -> None:
    for spec in BOOK.at(point).specs.values():
        for value in spec.known:
            assert math.isfinite(value.nominal)
            if value.expanded:
                assert sum(value.shares.values()) == pytest.approx(1)
                assert value.basis in value.shares or value.shares
        if any(value.expanded for value in spec.known):
            assert sum(spec.shares.values()) == pytest.approx(1)


def test_the_basis_of_a_spec_is_the_weakest_of_its_positions() -> None:
    def value(basis: str) -> Value:
        return Value(1.0, {"a": 0.1}, basis, {basis: 1.0}, False, False)

    row = BOOK.at("now").specs["compression_ratio"].row
    spec = Spec("compression_ratio", row, ("1", "2", "3"), (value("measured"), None, value("hearsay")))
    assert spec.basis == "hearsay"
    assert spec.shares == {"measured": 0.5, "hearsay": 0.5}
    assert len(spec.known) == 2


def test_a_published_gasket_shows_as_a_share_of_the_uncertainty() -> None:
    """The thickness of gasket-2 is the sheet's, with its usual spread; all else above the piston was measured."""
    shares = BOOK.at("third-head").specs["mean_compression_ratio"].shares
    assert set(shares) == {"measured", "published"}
    assert shares["published"] > 0.3


def test_missing_names_stand_apart_from_choices() -> None:
    life = Life(1, "single").part("block", "block", bore="80 mm").work("2024-01-01", "fit: block")
    specs = life.at("now").specs
    assert specs["displacement"].missing == ("stroke",)
    gasket = specs["gasket_volume"]
    assert gasket.known == ()
    assert {name for group in gasket.missing_any for name in group} == {
        "gasket_bore", "gasket_opening", "gasket_thickness", "gasket_volume"}  # fmt: skip


def test_conditions_stand_beside_what_they_belong_to_and_nowhere_else() -> None:
    specs = BOOK.at("third-head").specs
    assert specs["effective_compression_ratio"].conditions == {"at_lift": "0.1 mm"}
    assert specs["compression_ratio"].conditions == {}


def test_a_claim_is_told_once_with_what_it_was_stated_for() -> None:
    (claim,) = BOOK.at("as-bought").specs["compression_ratio"].claims
    assert (claim.value, claim.source, claim.basis) == (9.2, "seller", "hearsay")
    assert claim.stated_for == {"cylinder_head": "head-a", "pistons": "pistons-1", "head_gasket": "gasket-1"}
    assert BOOK.at("third-head").specs["compression_ratio"].claims == ()  # stated for other parts


def test_every_spec_of_the_example_has_a_value_or_says_what_it_needs() -> None:
    specs = BOOK.at("now").specs
    assert [
        name for name, spec in specs.items() if None in spec.values and not (spec.missing or spec.missing_any)
    ] == []
    assert sum(None not in spec.values for spec in specs.values()) >= 40


def test_unknown_names_are_no_specs() -> None:
    with pytest.raises(KeyError):
        _ = BOOK.at("now").specs["horse_power"]
