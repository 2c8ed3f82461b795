"""The propagation of uncertainty against JCGM 100:2008 (the GUM), annex H.1, and common errors worked by hand.

H.1, calibration of an end gauge of 50 mm against a standard: l = l_s + d - l_s (da th + a dth). Inputs, terms and
result as public software documentation quotes the annex (read): terms of 25, 9.7, 2.9 and 16.6 nm, combined 32 nm. With
the terms of second order, 11.7 and 1.7 nm, it is 34 nm (the same): these the linear rule leaves out, here and there.
"""

from __future__ import annotations

from math import hypot, sqrt

import pytest
from lives import Life

from logbook.quantity.uncertain import Uncertain, correlation, propagate
from logbook.specs.graph import Node

NM = 1e-9


def end_gauge(
    *,
    standard_length: float,
    difference: float,
    expansion_difference: float,
    temperature_deviation: float,
    expansion: float,
    temperature_difference: float,
) -> float:
    heat = expansion_difference * temperature_deviation + expansion * temperature_difference
    return standard_length + difference - standard_length * heat


def result() -> Uncertain:
    """Lengths in m, temperatures in degrees; the difference has three sources, the rectangular ones a / sqrt 3."""
    difference = Uncertain(215 * NM, {"repeated": 5.8 * NM, "comparator, random": 3.9 * NM,
                                      "comparator, systematic": 6.7 * NM})  # fmt: skip
    return propagate(
        end_gauge,
        {
            "standard_length": Uncertain(50.000623e-3, {"standard": 25 * NM}),
            "difference": difference,
            "expansion_difference": Uncertain(0.0, {"expansion difference": 1e-6 / sqrt(3)}),
            "temperature_deviation": Uncertain(-0.1, {"temperature": 0.41}),
            "expansion": Uncertain(11.5e-6, {"expansion": 2e-6 / sqrt(3)}),
            "temperature_difference": Uncertain(0.0, {"temperature difference": 0.05 / sqrt(3)}),
        },
    )


def test_length_and_combined_standard_uncertainty_of_h1() -> None:
    found = result()
    assert found.nominal * 1e3 == pytest.approx(50.000838, abs=0.0000005)
    assert round(found.standard / NM) == 32
    assert found.standard / NM == pytest.approx(31.664, abs=0.0005)  # worked out apart, by the uncertainties library


@pytest.mark.parametrize(
    ("sources", "nanometres"),
    [
        (("standard",), 25.0),
        (("repeated", "comparator, random", "comparator, systematic"), 9.7),
        (("expansion difference",), 2.9),
        (("temperature difference",), 16.6),
        (("temperature",), 0.0),
        (("expansion",), 0.0),
    ],
)
def test_terms_of_h1(sources: tuple[str, ...], nanometres: float) -> None:
    found = result()
    assert hypot(*(found.terms[source] for source in sources)) / NM == pytest.approx(nanometres, abs=0.05)


# two heads read with one burette, by hand
#
# The burette: each reading ± 0.10 cc, common ± 0.40 cc, and 1 % of what was read, ± (k = 2), in a second life.
# Standard uncertainties are half of that: 0.05, 0.20, and 0.20 and 0.21 of 40 and 42 cc.
#   one chamber        sqrt(0.05^2 + 0.20^2)                      = 0.2062, ± 0.412
#   42 less 40         the 0.20 goes: sqrt(0.05^2 + 0.05^2)       = 0.0707, ± 0.141
#   their correlation  0.20^2 / 0.2062^2                          = 0.941
#   with 1 % instead   0.01 of it stays: sqrt(0.0707^2 + 0.01^2)  = 0.0714, ± 0.143
# As if each had a burette of its own the difference would be ± 0.583.


def heads(common: str) -> tuple[Uncertain, Uncertain]:
    life = Life(1, "single", f"  burette: {{what: burette, each: 0.10 cc, common: {common}}}\n")
    found = []
    for number, (head, volume) in enumerate({"head-a": "40.0 cc", "head-b": "42.0 cc"}.items(), 1):
        life.part(head, "cylinder_head").work(f"2024-0{number}-01", f"fit: {head}")
        life.measure(f"2024-0{number}-02", head, using="burette", chamber_volume=volume)
        node = life.at("now").graph.at("chamber_volume", "1")
        assert isinstance(node, Node)
        found.append(node.value)
    return found[0], found[1]


def test_a_common_error_stays_in_each_chamber_and_leaves_their_difference() -> None:
    one, other = heads("0.40 cc")
    assert one.expanded * 1e6 == pytest.approx(0.412, abs=0.0005)
    assert (other - one).expanded * 1e6 == pytest.approx(0.141, abs=0.0005)
    assert correlation(one, other) == pytest.approx(0.941, abs=0.0005)
    assert 2e6 * hypot(one.standard, other.standard) == pytest.approx(0.583, abs=0.0005)


def test_a_common_error_in_proportion_leaves_the_share_of_the_difference() -> None:
    one, other = heads("1 %")
    assert (other - one).expanded * 1e6 == pytest.approx(0.143, abs=0.0005)


def test_the_mean_of_both_keeps_the_common_error() -> None:
    """By hand: sqrt(0.05^2 / 2 + 0.20^2) = 0.2031."""

    def mean(*, one: float, other: float) -> float:
        return (one + other) / 2

    one, other = heads("0.40 cc")
    assert propagate(mean, {"one": one, "other": other}).standard * 1e6 == pytest.approx(0.2031, abs=0.0001)
