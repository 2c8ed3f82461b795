"""What is one for each cylinder, told as one: its mean, with what the cylinders share counted as shared."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.judge.compare import Difference, verdict
from logbook.record.facts import BASES
from logbook.specs.results import Value


def mean_value(values: Sequence[Value]) -> Value:
    """The mean of several values of one spec, with its uncertainty: errors common to all do not average out."""
    count = len(values)
    terms: dict[str, float] = {}
    for value in values:
        for key, term in value.terms.items():
            terms[key] = terms.get(key, 0.0) + term / count
    bases = [basis for basis in BASES if any(basis in value.shares for value in values)]
    return Value(
        sum(value.nominal for value in values) / count,
        terms,
        max((value.basis for value in values), key=BASES.index),
        {basis: sum(value.shares.get(basis, 0.0) for value in values) / count for basis in bases},
        any(value.out_of_date for value in values),
        any(value.doubtful for value in values),
        frozenset(key for value in values for key in value.unmeasured),
    )


def mean_difference(each: Difference) -> Difference:
    """A difference at several positions as one of the means, over the positions that have a value on both sides.

    Where no position has both, each side is the mean of what it has.
    """
    if len(each.positions) == 1:
        return each
    pairs = list(zip(each.before, each.after, strict=True))
    both = [(was, now) for was, now in pairs if was is not None and now is not None]
    befores = [was for was, _ in both] or [was for was, _ in pairs if was is not None]
    afters = [now for _, now in both] or [now for _, now in pairs if now is not None]
    before, after = (mean_value(some) if some else None for some in (befores, afters))
    delta = after.uncertain_minus(before) if before and after else None
    told = verdict(before, after) if before and after else None
    return Difference(each.name, each.row, ("",), (before,), (after,), (delta,), (told,))
