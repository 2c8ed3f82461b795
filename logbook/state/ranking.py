"""Which of several facts comes first: what is compared, and how."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from logbook.record.facts import BASES, INFERRED, MEASURED, Fact
from logbook.state.states import Moment


class Candidate(NamedTuple):
    """A fact that speaks of the position that is asked about, before its figure is worked out."""

    fact: Fact
    place: int  # among the positions of the fact
    out_of_date: bool
    moment: Moment
    inferred: bool = False


def least(some: list[Candidate], rank: Callable[[Candidate], Any]) -> list[Candidate]:
    """Those of the smallest rank; the ranks are only worked out where there is a choice."""
    if len(some) < 2:
        return some
    ranks = [rank(each) for each in some]
    smallest = min(ranks)
    return [each for each, its in zip(some, ranks, strict=True) if its == smallest]


def standing_of(candidate: Candidate, first: str) -> float:
    """Smaller is better: measured, predicted, measured but out of date, then what was said; `first` before all."""
    basis = INFERRED if candidate.inferred else candidate.fact.stated.basis
    if basis == first != MEASURED:
        return -1.0  # whatever was done to the part since: the papers say what they say
    if basis == MEASURED:
        return 1.5 if candidate.out_of_date else 0.0
    return BASES.index(basis) + (len(BASES) if candidate.out_of_date else 0.0)
