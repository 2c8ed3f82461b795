"""The order of entries, written once.

By date (an imperfect date counts from its first possible day); within a day by `after:`, then by time, then by what the
entry is: work is done, then measured, then tested, then remarked on; then by file name, so that the order is total.
Work without a time of day is done in the morning; whatever else has none comes at the end of the day, behind the work.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, time
from itertools import groupby
from typing import Any, Protocol, TypeVar


class Dated(Protocol):
    @property
    def id(self) -> str: ...
    @property
    def says(self) -> Any: ...


D = TypeVar("D", bound=Dated)

#: Rank within a day, for entries that do not say.
_RANK = {"changes": 0, "measurements": 1, "tests": 2, "notes": 3}


def order(entry: Dated) -> tuple[date, time, int, str]:
    """The key that puts entries in order; `after:` is applied within a day by in_order."""
    folder, name = entry.id.split("/", 1)
    no_time = time.min if folder == "changes" else time.max
    return entry.says.date.first, entry.says.time or no_time, _RANK[folder], name


def in_order(entries: Iterable[D]) -> tuple[tuple[D, ...], list[tuple[D, str, str]]]:
    """Entries in order, and (entry, what is wrong, what to do) for each `after:` that cannot be kept."""
    ordered: list[D] = []
    mistakes: list[tuple[D, str, str]] = []
    by_day = groupby(sorted(entries, key=order), key=lambda entry: entry.says.date.first)
    for _, day in by_day:
        ordered += _within_a_day(list(day), ordered, mistakes)
    return tuple(ordered), mistakes


def _within_a_day(day: list[D], earlier: Sequence[D], mistakes: list[tuple[D, str, str]]) -> list[D]:
    done: list[D] = []
    waiting = list(day)
    while waiting:
        ready = next((entry for entry in waiting if not _awaits(entry, waiting)), None)
        if ready is None:
            mistakes.append((waiting[0], f"`after: {waiting[0].says.after}` runs in a circle", "break it at one entry"))
            ready = waiting[0]
        elif ready.says.after and not any(_is(ready.says.after, entry) for entry in (*earlier, *done)):
            mistakes.append(
                (
                    ready,
                    f"`after: {ready.says.after}` names no entry of this day or before",
                    "write the file name of an earlier entry",
                )
            )
        waiting.remove(ready)
        done.append(ready)
    return done


def _awaits(entry: Dated, waiting: Sequence[Dated]) -> bool:
    return bool(entry.says.after) and any(_is(entry.says.after, other) for other in waiting if other is not entry)


def _is(name: str, entry: Dated) -> bool:
    wanted = name.removesuffix(".yaml")
    return entry.id == wanted or entry.id.split("/", 1)[1] == wanted
