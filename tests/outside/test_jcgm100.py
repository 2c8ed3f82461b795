"""The propagation of uncertainty against JCGM 100:2008 (the GUM), annex H.2: resistance, reactance and impedance.

Voltage, current and phase of one alternating-current element are read together five times; because each set shares one
moment, the three means are correlated, strongly in places. Table H.2 (input, read) and table H.4 (results; the values
read in public test suites that quote it, the correlations from memory). The propagation is fed the five readings: with
the rounded means, uncertainties and correlations printed on the way, the last digits come out differently.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, log, sin, sqrt
from statistics import mean

import pytest

from logbook.quantity.uncertain import Uncertain, correlation, covariance, propagate

READINGS = {
    "voltage": (5.007, 4.994, 5.005, 4.990, 4.999),  # V
    "current": (19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3),  # A
    "phase": (1.0456, 1.0438, 1.0468, 1.0428, 1.0433),  # rad
}


def resistance(*, voltage: float, current: float, phase: float) -> float:
    return voltage / current * cos(phase)


def reactance(*, voltage: float, current: float, phase: float) -> float:
    return voltage / current * sin(phase)


def impedance(*, voltage: float, current: float) -> float:
    return voltage / current


ELEMENT: dict[str, Callable[..., float]] = {"R": resistance, "X": reactance, "Z": impedance}


def mean_of(name: str, *, shared: bool) -> Uncertain:
    """The mean of five readings; each reading's departure is a source, shared by what was read in the same moment."""
    readings = READINGS[name]
    n, centre = len(readings), mean(readings)
    return Uncertain(
        centre,
        {
            (f"moment {moment}" if shared else f"{name} {moment}"): (reading - centre) / sqrt(n * (n - 1))
            for moment, reading in enumerate(readings)
        },
    )


def results(*, shared: bool) -> dict[str, Uncertain]:
    means = {name: mean_of(name, shared=shared) for name in READINGS}
    two = {name: means[name] for name in ("voltage", "current")}
    return {
        "R": propagate(resistance, means),
        "X": propagate(reactance, means),
        "Z": propagate(impedance, two),
    }


@pytest.mark.parametrize(
    ("name", "centre", "standard", "digit"),
    [("voltage", 4.9990, 0.0032, 4), ("current", 19.6610e-3, 0.0095e-3, 7), ("phase", 1.04446, 0.00075, 5)],
)
def test_means_of_table_h2(name: str, centre: float, standard: float, digit: int) -> None:
    taken = mean_of(name, shared=True)
    half = 0.5 * 10**-digit
    assert taken.nominal == pytest.approx(centre, abs=half)
    assert taken.standard == pytest.approx(standard, abs=half)


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [("voltage", "current", -0.36), ("voltage", "phase", 0.86), ("current", "phase", -0.65)],
)
def test_correlations_of_table_h2(one: str, other: str, expected: float) -> None:
    found = correlation(mean_of(one, shared=True), mean_of(other, shared=True))
    assert found == pytest.approx(expected, abs=0.005)


@pytest.mark.parametrize(
    ("name", "value", "standard"), [("R", 127.732, 0.071), ("X", 219.847, 0.295), ("Z", 254.260, 0.236)]
)
def test_results_of_table_h4(name: str, value: float, standard: float) -> None:
    """The standard uncertainty within 0.001: the table prints 0.295 for X, where the readings give 0.29558."""
    found = results(shared=True)[name]
    assert found.nominal == pytest.approx(value, abs=0.0005)
    assert found.standard == pytest.approx(standard, abs=0.001)


@pytest.mark.parametrize(("one", "other", "expected"), [("R", "X", -0.588), ("R", "Z", -0.485), ("X", "Z", 0.993)])
def test_correlations_of_table_h4(one: str, other: str, expected: float) -> None:
    found = results(shared=True)
    assert correlation(found[one], found[other]) == pytest.approx(expected, abs=0.0005)
    product = found[one].standard * found[other].standard
    assert covariance(found[one], found[other]) == pytest.approx(expected * product, abs=0.0005 * product)


@pytest.mark.parametrize(("name", "standard"), [("R", 0.1945), ("X", 0.2009), ("Z", 0.2041)])
def test_without_the_shared_moment_the_uncertainties_are_others(name: str, standard: float) -> None:
    """By the uncertainties library 3.2.3 with three independent means: what a rule without correlation would give."""
    assert results(shared=False)[name].standard == pytest.approx(standard, abs=0.00005)


def test_impedance_is_the_root_of_the_squares_whichever_way_it_is_worked_out() -> None:
    """By way of R and X, with all that they share, Z keeps its value and its uncertainty: equation of H.2.3."""
    found = results(shared=True)
    detour = propagate(lambda *, r, x: sqrt(r * r + x * x), {"r": found["R"], "x": found["X"]})
    difference = detour - found["Z"]
    assert difference.nominal == pytest.approx(0, abs=1e-9)
    assert difference.standard < 1e-6 * found["Z"].standard


# other published targets of the linear rule


def test_expansion_coefficient_of_nist_tn_1900_example_13() -> None:
    """NIST TN 1900, example E13: 1.7266e-5, standard uncertainty 1.76e-6 (read in a test suite that quotes it)."""
    lengths = {"cold": Uncertain(1.4999, {"cold": 0.0001}), "hot": Uncertain(1.5021, {"hot": 0.0002})}
    temperatures = {"low": Uncertain(288.15, {"low": 0.02}), "high": Uncertain(373.10, {"high": 0.05})}
    found = propagate(lambda *, cold, hot, low, high: (hot - cold) / (cold * (high - low)), lengths | temperatures)
    assert found.nominal == pytest.approx(1.7266e-5, abs=0.0001e-5)
    assert found.standard == pytest.approx(1.76e-6, abs=0.005e-6)


def test_where_the_linear_rule_fails_it_says_so() -> None:
    """NPL report DEM-ES-011, 9.2: ln x, x rectangular from 0.1 to 1.1. The linear rule gives -0.511 and 0.481, the
    truth is -0.665 and 0.606 (read in a public test suite that quotes it).
    """

    def logarithm(*, x: float) -> float:
        if x <= 0:
            raise ValueError("no logarithm")
        return log(x)

    found = propagate(logarithm, {"x": Uncertain(0.6, {"x": 0.5 / sqrt(3)})})
    assert found.nominal == pytest.approx(-0.511, abs=0.0005)
    assert found.standard == pytest.approx(0.481, abs=0.0005)
    assert found.curved
