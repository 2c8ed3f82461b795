"""Limits in words for the terminal, where they stand beside another answer."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.cli.figures import name_of, unit_of
from logbook.judge import limit_words
from logbook.judge.limits import OUTSIDE, Judged, judged
from logbook.specs.configuration import Configuration


def broken(at: Configuration, before: Configuration | None = None) -> Iterator[str]:
    """A line for each limit that a configuration is outside of, accepted or not; `before`: as it stands today."""
    known = {each.limit.id for each in judged(before) if each.verdict == OUTSIDE} if before else set()
    outside: dict[str, list[Judged]] = {}
    for each in judged(at):
        if each.verdict == OUTSIDE:
            outside.setdefault(each.limit.id, []).append(each)
    for name, some in outside.items():
        yield _line(some, at, name in known)


def _line(some: list[Judged], at: Configuration, already: bool) -> str:
    """One limit; of several positions the one that is furthest out is told."""
    worst = max(some, key=_how_far)
    engine = at.life.record.engine
    its, where = unit_of(worst.row, engine), tuple(each.position for each in some)
    name = limit_words.name_of(worst, name_of(worst.row, engine)) + limit_words.at_positions(worst.row, where)
    careful = f"; {limit_words.CAUTION}" if worst.limit.danger else ""
    now = " as it is already" if already else ""
    return (f"Outside its limit{now}: {name}, {limit_words.figure_of(worst, its)}; "
            f"{limit_words.bounds_of(worst, its)} ({worst.limit.source}){careful}.")  # fmt: skip


def _how_far(each: Judged) -> float:
    low = each.low.nominal - each.value.nominal if each.low else float("-inf")
    high = each.value.nominal - each.high.nominal if each.high else float("-inf")
    return max(low, high)
