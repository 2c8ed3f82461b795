"""The mean of what is one for each cylinder: what they share does not average out."""

from __future__ import annotations

from math import sqrt

import pytest
from lives import EXAMPLE

from logbook.judge.compare import REAL
from logbook.judge.means import mean_difference, mean_value
from logbook.logbook import Logbook
from logbook.specs.results import Value


def value(nominal: float, basis: str = "measured", **terms: float) -> Value:
    unmeasured = frozenset(name for name in terms if name == "common") if basis != "measured" else frozenset()
    return Value(nominal, terms, basis, {basis: 1.0}, False, False, unmeasured)


def test_own_errors_average_out_and_common_ones_do_not() -> None:
    mean = mean_value([value(10.0, a=0.2, common=0.1), value(11.0, b=0.2, common=0.1)])
    assert mean.nominal == 10.5
    assert mean.uncertain.standard == pytest.approx(sqrt(0.1**2 + 0.1**2 + 0.1**2))


def test_the_share_of_what_was_measured_is_the_means_own() -> None:
    """Own 0.1 and 0.1 after the mean, common 0.1 of a published gasket: two thirds measured."""
    mean = mean_value([value(10.0, "published", a=0.2, common=0.1), value(11.0, "published", b=0.2, common=0.1)])
    assert mean.shares == {"measured": pytest.approx(2 / 3), "published": pytest.approx(1 / 3)}
    assert mean.basis == "published"


def test_the_mean_of_the_cylinders_is_the_spec_of_that_name() -> None:
    """The program's own mean ratio comes through the graph; this one through the single values."""
    specs = Logbook.open(EXAMPLE).at("now").specs
    (own,) = specs["mean_compression_ratio"].known
    mean = mean_value(specs["compression_ratio"].known)
    assert mean.nominal == pytest.approx(own.nominal)
    assert mean.expanded == pytest.approx(own.expanded)
    assert mean.shares["measured"] == pytest.approx(own.shares["measured"], abs=1e-6)


def test_a_difference_of_means_is_as_sure_as_what_really_differs() -> None:
    specs = Logbook.open(EXAMPLE).compare("donor-head", "third-head").specs
    told, own = mean_difference(specs["compression_ratio"]), specs["mean_compression_ratio"]
    (delta,), (wanted,) = told.differences, own.differences
    assert delta is not None
    assert wanted is not None
    assert (delta.nominal, delta.expanded) == (pytest.approx(wanted.nominal), pytest.approx(wanted.expanded))
    assert told.verdicts == (REAL,)
    assert mean_difference(own) is own
