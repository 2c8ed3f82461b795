"""What is one for each cylinder, told as one: its mean, with what the cylinders share counted as shared."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logbook.judge.compare import Difference, verdict
from logbook.record.facts import BASES, MEASURED
from logbook.specs.results import Value


def mean_value(values: Sequence[Value]) -> Value:
    """The mean of several values of one spec, with its uncertainty: errors common to all do not average out."""
    count = len(values)
    terms: dict[str, float] = {}
    for value in values:
        for key, term in value.terms.items():
            terms[key] = terms.get(key, 0.0) + term / count
    unmeasured = frozenset(key for value in values for key in value.unmeasured)
    return Value(
        sum(value.nominal for value in values) / count,
        terms,
        max((value.basis for value in values), key=BASES.index),
        _shares(values, terms, unmeasured),
        any(value.out_of_date for value in values),
        any(value.doubtful for value in values),
        unmeasured,
        tuple(dict.fromkeys(reason for value in values for reason in value.outside)),
    )


def _shares(values: Sequence[Value], terms: Mapping[str, float], unmeasured: frozenset[str]) -> dict[str, float]:
    """What was measured against what was not by the mean's own terms; among the rest, as in the single values."""
    total = sum(term * term for term in terms.values())
    if not total:
        return {}
    open_part = sum(terms[key] ** 2 for key in unmeasured) / total
    others = {b: sum(value.shares.get(b, 0.0) for value in values) for b in BASES if b != MEASURED}
    known = sum(others.values())
    shares = {MEASURED: 1.0 - open_part} if open_part < 1.0 else {}
    return shares | {basis: open_part * part / known for basis, part in others.items() if part and known}


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
