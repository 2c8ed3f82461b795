"""What is due: parts over their service life, service that comes round, and what an entry said would be due.

Judged at the last entry, never by the clock: the same record gives the same answer. A service counts as done by a
`service:` step of the same words; one that was never entered is counted from the beginning of the record.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from logbook.quantity.catalogue import PART_KINDS
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.finding import WRONG, Finding
from logbook.record.read import Record
from logbook.state.counters import Totals
from logbook.state.fold import Life
from logbook.state.runs import whole_run

_AMOUNT = re.compile(r"(\d+(?:\.\d+)?) (km|mi|h|months?|years?)")
_MONTHS = {"month": 1, "months": 1, "year": 12, "years": 12}


@dataclass(frozen=True, slots=True)
class Due:
    """One thing with what it has run since it was last done and what it may; `unit` is km, mi, h or months.

    `part`: the part whose life it is; `entered`: whether it was ever entered as done, so that `run` is all it has run.
    """

    what: str
    run: float
    allowed: float
    unit: str
    part: str | None = None
    entered: bool = True

    @property
    def over(self) -> float:
        """By how much it is over, in `unit`; negative where it is not."""
        return self.run - self.allowed


@dataclass(frozen=True, slots=True)
class _Since:
    """Where counting begins."""

    day: date
    totals: Totals


def overdue(life: Life) -> list[Due]:
    """What is over, the parts first; what a part's own life says is not said again by its service interval."""
    if not life.states:
        return []
    parts = [each for each in _parts(life) if each.over > 0]
    kinds = {word for each in parts if each.part for word in PART_KINDS[life.record.parts[each.part].kind]}
    rest = [each for each in (*_intervals(life), *_announced(life)) if each.over > 0 and each.what not in kinds]
    return [*parts, *rest]


def intervals_can_be_read(record: Record) -> Iterator[Finding]:
    """A service interval that is no amount of distance, hours or months."""
    for index, interval in enumerate(record.engine.service):
        if not _allowed(interval.every):
            yield record.finding(
                "engine.yaml", ("service", index, "every"), WRONG, f"`{interval.every}` is no interval",
                "write it as 10000 km, 20 h, 12 months, or two of them: 20 h or 12 months",
            )  # fmt: skip


def _parts(life: Life) -> Iterator[Due]:
    now = life.states[-1]
    for part in now.parts:
        allowed = _allowed(life.record.parts[part].service_life or "")
        for amount, its in allowed:
            run = whole_run(life.record, now, part).of(unit(its).kind) if its != "months" else None
            if run is not None:
                yield Due(part, unit(its).from_base(run), amount, its, part)


def _intervals(life: Life) -> Iterator[Due]:
    for interval in life.record.engine.service:
        since, entered = _last_done(life, interval.what)
        yield from _counted(life, interval.what, _allowed(interval.every), since, entered)


def _announced(life: Life) -> Iterator[Due]:
    """What a `due:` step announced and no later service has done."""
    for number, entry in enumerate(life.record.entries):
        for step in entry.says.work if isinstance(entry.says, model.Change) else ():
            if isinstance(step, model.Due) and _last_done(life, step.due, after=number)[1] is False:
                since = _Since(entry.says.date.first, life.after(number).counters.totals)
                yield from _counted(life, step.due, _allowed(step.after), since, True)


def _last_done(life: Life, what: str, after: int = -1) -> tuple[_Since, bool]:
    """The last entry that did it, and whether there is one; else the beginning of the record."""
    entries = life.record.entries
    done = [number for number, entry in enumerate(entries) if number > after and _does(entry.says, what)]
    number = done[-1] if done else 0
    return _Since(entries[number].says.date.first, life.after(number).counters.totals), bool(done)


def _does(says: model.Dated, what: str) -> bool:
    steps = says.work if isinstance(says, model.Change) else ()
    return any(isinstance(step, model.Service) and step.service.casefold() == what.casefold() for step in steps)


def _counted(life: Life, what: str, allowed: list[tuple[float, str]], since: _Since, entered: bool) -> Iterator[Due]:
    for amount, its in allowed:
        run = _months(since.day, _today(life)) if its == "months" else _run(life, since, its)
        if run is not None:
            yield Due(what, run, amount, its, entered=entered)


def _run(life: Life, since: _Since, its: str) -> float | None:
    kind = unit(its).kind
    now, then = life.states[-1].counters.totals.of(kind), since.totals.of(kind)
    if now is not None and then is None:  # that counter came later: it counts from its own first reading
        then = life.states[-1].counters.began(kind)
    return None if now is None or then is None else unit(its).from_base(now - then)


def _today(life: Life) -> date:
    day: date = life.record.entries[-1].says.date.first
    return day


def _months(since: date, now: date) -> float:
    """Whole months from one day to another."""
    return (now.year - since.year) * 12 + now.month - since.month - (now.day < since.day)


def _allowed(text: str) -> list[tuple[float, str]]:
    """`20 h or 12 months` as [(20, 'h'), (12, 'months')]; empty where it is none."""
    amounts = [_AMOUNT.fullmatch(each.strip()) for each in text.split(" or ")]
    if not all(amounts):
        return []
    found = [(float(each[1]), each[2]) for each in amounts if each]
    return [(amount * _MONTHS[its], "months") if its in _MONTHS else (amount, its) for amount, its in found]
