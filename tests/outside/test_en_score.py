"""E_n of ISO 13528 against a published output.

NIST, Dataplot Reference Manual, vol. 2, 'ISO 13528 EN SCORE': assigned value 1, its expanded uncertainty twice the
standard deviation of GEAR.DAT, that of each result twice the standard deviation of its batch; the first rows print
1.006, 0.996, 0.998 and 1.000 with 0.009 and E_n of 0.393, -0.262, -0.131 and 0.000.

The ten readings of batch 1 and the standard deviation of all hundred (0.0062789, NIST/SEMATECH e-Handbook, section
1.3.5.10's data) are from memory; that the printed scores come out of them to three decimals bears them out.
"""

from __future__ import annotations

from statistics import stdev

import pytest

from logbook.judge import disagreements
from logbook.judge.reconcile import e_n
from logbook.quantity.uncertain import COVERAGE, Uncertain

BATCH_1 = (1.006, 0.996, 0.998, 1.000, 0.992, 0.993, 1.002, 0.999, 0.994, 1.000)
ASSIGNED, ITS_EXPANDED = 1.0, 2 * 0.0062789
PRINTED = ((1.006, 0.393), (0.996, -0.262), (0.998, -0.131), (1.000, 0.000))


def test_the_expanded_uncertainty_of_the_batch_is_that_printed() -> None:
    assert round(2 * stdev(BATCH_1), 3) == 0.009


@pytest.mark.parametrize(("result", "score"), PRINTED)
def test_the_printed_scores(result: float, score: float) -> None:
    found = e_n(result - ASSIGNED, 2 * stdev(BATCH_1), ITS_EXPANDED)
    assert found == pytest.approx(score, abs=0.0005)


@pytest.mark.parametrize(("result", "score"), PRINTED)
def test_the_other_form_of_it_that_lets_shared_errors_cancel_gives_the_same_where_nothing_is_shared(
    result: float, score: float
) -> None:
    ours = Uncertain(result, {"result": 2 * stdev(BATCH_1) / COVERAGE})
    theirs = Uncertain(ASSIGNED, {"assigned": ITS_EXPANDED / COVERAGE})
    assert disagreements.e_n(ours, theirs) == pytest.approx(abs(score), abs=0.0005)
