"""When each entry was written down, as git tells it: how late, and what was rewritten since.

Two times are kept apart: when the work was done (the entry's date) and when it was written down (git's). An entry
that was written long after, or amended later, is no worse for it, but a reader of the record wants to know.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from difflib import unified_diff
from pathlib import Path

from logbook.errors import CannotRead
from logbook.record.record import Record

#: Days after the work from which an entry counts as written late: a month-end at the desk is in time.
LATE = 31
_MOST_LINES = 6


@dataclass(frozen=True, slots=True)
class Amendment:
    """One commit that changed an entry after it was written: when, which, and the lines that differ (- old, + new)."""

    when: datetime
    commit: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WrittenDown:
    """When an entry was first committed, how many days after the day of its date, and what was changed since."""

    first: datetime
    days_after: int
    amended: tuple[Amendment, ...]

    @property
    def late(self) -> bool:
        return self.days_after > LATE


def written_down(folder: Path, record: Record) -> Mapping[str, WrittenDown]:
    """Each entry's file with when it was written down, in one walk of history; empty where there is no git history."""
    from logbook.store.git_read import history

    try:
        commits = history(folder)
    except CannotRead:
        return {}
    dates = {entry.file: entry.says.date.last for entry in record.entries}
    first: dict[str, datetime] = {}
    amended: dict[str, list[Amendment]] = {}
    for commit in commits:  # oldest first
        for changed in commit.paths:
            if changed.path not in dates or changed.status == "D":
                continue
            if changed.path not in first:
                first[changed.path] = commit.authored
            elif changed.status == "M":
                lines = tuple(_lines(folder, commit.commit, changed.path))
                amended.setdefault(changed.path, []).append(Amendment(commit.authored, commit.commit, lines))
    return {
        path: WrittenDown(when, (when.date() - dates[path]).days, tuple(amended.get(path, ())))
        for path, when in first.items()
    }


def _lines(folder: Path, commit: str, path: str) -> Iterator[str]:
    """The lines that one commit changed, without their surroundings; the rest is counted."""
    from logbook.store.git_read import text_at

    try:
        old, new = (text_at(folder, revision, path).decode("utf-8", "replace") for revision in (f"{commit}^", commit))
    except CannotRead:
        return
    changed = [line for line in unified_diff(old.splitlines(), new.splitlines(), n=0, lineterm="")
               if not line.startswith(("---", "+++", "@@"))]  # fmt: skip
    yield from changed[:_MOST_LINES]
    if len(changed) > _MOST_LINES:
        yield f"and {len(changed) - _MOST_LINES} more lines"
