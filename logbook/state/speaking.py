"""Which facts of a quantity may hold at all, before anybody asks where and when: what is left of them is a matter of
the record, so it is worked out once, and so is the order in which they are looked through.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from datetime import date
from functools import cached_property
from math import inf
from operator import itemgetter
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.record.facts import Fact
from logbook.record.record import Record
from logbook.state.bolts import BOLTS, of_other_bolts
from logbook.state.fold import Life
from logbook.state.sayings import corrections, mistakes, without_mistakes
from logbook.state.states import Moment, State, moment_of


class Horizon(NamedTuple):
    """How many entries count: for what they state, and for what they call mistakes. None: all of them."""

    stated: int | None
    mistakes: int | None


Stated = tuple[tuple[Fact, Moment], ...]
_FAR = 1 << 20  # beyond the number of any entry


class Said:
    """The facts of one quantity that may hold, each with the moment it was stated at, and the orders they are looked
    through. How many entries are known of only cuts them off."""

    def __init__(self, stated: Iterable[tuple[Fact, Moment]]) -> None:
        self.in_order: Stated = tuple(sorted(stated, key=itemgetter(1)))

    def known(self, entries: int | None) -> Stated:
        """Those of the first so many entries, in the order in which they were stated."""
        return self.in_order if entries is None else self.in_order[: bisect_left(self._entries, entries)]

    def latest_first(self, number: int, entries: int | None) -> Iterator[tuple[Fact, Moment]]:
        """The latest before an entry first, then the earliest after it; of one entry the later steps first."""
        every, end = len(self.in_order), len(self.known(entries))
        here = min(bisect_right(self._entries, number), end)
        yield from map(self._latest_first.__getitem__, range(every - here, every))
        yield from map(self._earliest_first.__getitem__, range(here, end))

    def nearest_first(self, today: date | None, number: int, entries: int | None) -> Iterator[tuple[Fact, Moment]]:
        """Those taken nearest to a day first, of those as near as `latest_first` has them; at the end those of no day.

        Not sorted but walked from the day both ways: who asks seldom wants more than the first.
        """
        for alike in self._by_distance(today.toordinal()) if today else [range(len(self.in_order))]:
            for index in sorted(alike, key=lambda index: (*lateness(self.in_order[index][1], number), index)):
                if entries is None or self._entries[index] < entries:
                    yield self.in_order[index]

    def _by_distance(self, today: int) -> Iterator[list[int]]:
        """Which of them, all that are as far from a day as each other together."""
        days, dated, undated = self._by_day
        left = right = bisect_left(days, today)
        while left or right < len(days):
            before = today - days[left - 1] if left else inf
            after = days[right] - today if right < len(days) else inf
            alike = []
            while left and today - days[left - 1] == min(before, after):
                left -= 1
                alike.append(dated[left])
            while right < len(days) and days[right] - today == min(before, after):
                alike.append(dated[right])
                right += 1
            yield alike
        yield undated

    @cached_property
    def _entries(self) -> tuple[int, ...]:
        return tuple(moment[0] for _, moment in self.in_order)

    @cached_property
    def _latest_first(self) -> Stated:
        return tuple(sorted(self.in_order, key=itemgetter(1), reverse=True))

    @cached_property
    def _earliest_first(self) -> Stated:
        return tuple(sorted(self.in_order, key=lambda each: (each[1][0], -each[1][1])))

    @cached_property
    def _by_day(self) -> tuple[list[int], list[int], list[int]]:
        """The days on which they were taken, which were taken on each, and which on none that is known."""
        when = [fact.stated.when for fact, _ in self.in_order]
        days = sorted((day.first.toordinal(), index) for index, day in enumerate(when) if day is not None)
        undated = [index for index, day in enumerate(when) if day is None]
        return [day for day, _ in days], [index for _, index in days], undated


def lateness(moment: Moment, number: int) -> tuple[int, int]:
    """How late something was said, as seen from an entry: what was said last before it is the least."""
    entry, step = moment
    return -entry if entry <= number else entry + _FAR, -step


def said_of(record: Record, name: str, known: int | None, *, claims: bool) -> Said:
    """The facts of a quantity that may hold, less what the first `known` entries call mistakes."""
    found: Said = record.once(
        ("speaking", name, corrections(record, known), claims), lambda: Said(_speaking(record, name, known, claims))
    )
    return found


def speaking(life: Life, state: State, name: str, horizon: Horizon) -> Stated:
    """The facts that may hold or be claimed, as far as `horizon` reaches, in the order in which they were stated."""
    if name not in life.record.facts:
        return ()
    found = said_of(life.record, name, horizon.mistakes, claims=True).known(horizon.stated)
    if quantity(name).owner == BOLTS:
        return tuple(each for each in found if not of_other_bolts(life, state, each[0]))
    return found


def _speaking(record: Record, name: str, known: int | None, claims: bool) -> Iterator[tuple[Fact, Moment]]:
    wrong, left = mistakes(record, known), without_mistakes(record, known)
    for fact in record.facts.get(name, ()):
        if fact.stated.occasion == "test" or fact.unknown or id(fact) in wrong or (fact.claim and not claims):
            continue
        yield left.get(id(fact), fact), moment_of(fact)
