"""What is due: parts over their service life, service that comes round, and what an entry said would be due.

Judged as of a point of the record, or of a day or a reading still to come; never by the clock: the same record gives
the same answer. A service counts as done by a `service:` step of the same words; one that was never entered is counted
from the beginning of the record.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta

from logbook.judge.as_of import AsOf, as_of
from logbook.quantity.catalogue import PART_KINDS
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.finding import WRONG, Finding, Path
from logbook.record.record import Record
from logbook.state.counters import Totals
from logbook.state.fold import Life
from logbook.state.runs import whole_run

_AMOUNT = re.compile(r"(\d+(?:\.\d+)?) (km|mi|h|months?|years?)")
_MONTHS = {"month": 1, "months": 1, "year": 12, "years": 12}

SERVICE_LIFE, INTERVAL, ANNOUNCED = "service life", "service interval", "announced"


@dataclass(frozen=True, slots=True)
class Due:
    """One thing with what it has run since it was last done and what it may; `unit` is km, mi, h or months.

    `part`: the part whose life it is; `entered`: whether it was ever entered as done, so that `run` is all it has run.
    `basis`: why it is due, with `file` and `path` where that is said. `day`: of months, the day on which it is due, and
    the `days` until then. `reading`: of a distance or hours, what the counter will show then; `true`: no counter shows
    it, it is the engine's own total.
    """

    what: str
    run: float
    allowed: float
    unit: str
    part: str | None = None
    entered: bool = True
    basis: str = field(default="", compare=False)
    file: str = field(default="", compare=False)
    path: Path = field(default=(), compare=False)
    day: date | None = field(default=None, compare=False)
    days: int | None = field(default=None, compare=False)
    reading: float | None = field(default=None, compare=False)
    true: bool = field(default=False, compare=False)

    @property
    def over(self) -> float:
        """By how much it is over, in `unit`; negative where it is not."""
        return self.run - self.allowed

    @property
    def left(self) -> float:
        """What is left, in `unit`; negative where it is over."""
        return self.allowed - self.run

    @property
    def left_exactly(self) -> tuple[float, str]:
        """What is left in days where it is due on a day, else in `unit`."""
        return (self.left, self.unit) if self.days is None else (self.days, "day")

    @property
    def at(self) -> str:
        """When it is due: a day, or a reading such as `52.1 h`."""
        if self.day is not None:
            return str(self.day)
        shown = "" if self.reading is None else f"{self.reading:.10g} {self.unit}"
        return f"true {shown}" if shown and self.true else shown


@dataclass(frozen=True, slots=True)
class _Since:
    """Where counting begins."""

    day: date
    totals: Totals


def overdue(life: Life, now: AsOf | None = None) -> list[Due]:
    """What is over, the parts first."""
    return [each for each in all_due(life, now) if each.over > 0]


def due(life: Life, text: str | None = None) -> list[Due]:
    """All that will be due, as of the last entry or of `text`: what is over first, then what is nearest.

    Raises PointUnknown where `text` is neither a point of the record nor a day or reading after it.
    """
    return sorted(all_due(life, as_of(life, text)), key=lambda each: each.left / each.allowed if each.allowed else 0.0)


def all_due(life: Life, now: AsOf | None = None) -> list[Due]:
    """All that is counted, the parts first; what a part's own life says is not said again by its service interval."""
    now = now or as_of(life)
    if now is None:
        return []
    parts = list(_parts(life, now))
    kinds = {word for each in parts if each.part for word in PART_KINDS[life.record.parts[each.part].kind]}
    return [*parts, *(each for each in (*_intervals(life, now), *_announced(life, now)) if each.what not in kinds)]


def intervals_can_be_read(record: Record) -> Iterator[Finding]:
    """A service interval that is no amount of distance, hours or months."""
    for index, interval in enumerate(record.engine.service):
        if not _allowed(interval.every):
            yield record.finding(
                "engine.yaml", ("service", index, "every"), WRONG, f"`{interval.every}` is no interval",
                "write it as 10000 km, 20 h, 12 months, or two of them: 20 h or 12 months",
            )  # fmt: skip


def _parts(life: Life, now: AsOf) -> Iterator[Due]:
    for part in now.state.parts:
        for amount, its in _allowed(life.record.parts[part].service_life or ""):
            run = whole_run(life.record, now.state, part).of(unit(its).kind) if its != "months" else None
            if run is not None:
                sofar = unit(its).from_base(run)
                reading, true = now.shown(unit(its).kind, unit(its).to_base(amount - sofar))
                shown = None if reading is None else unit(its).from_base(reading)
                place = f"parts/{part}.yaml", ("service_life",)
                yield Due(part, sofar, amount, its, part, True, SERVICE_LIFE, *place, None, None, shown, true)


def _intervals(life: Life, now: AsOf) -> Iterator[Due]:
    for index, interval in enumerate(life.record.engine.service):
        since, entered = _last_done(life, now, interval.what)
        told = INTERVAL, "engine.yaml", ("service", index)
        yield from _counted(now, interval.what, _allowed(interval.every), since, entered, told)


def _announced(life: Life, now: AsOf) -> Iterator[Due]:
    """What a `due:` step announced and no later service has done."""
    for number, entry in enumerate(life.record.entries[: now.number + 1]):
        for index, step in enumerate(entry.says.work) if isinstance(entry.says, model.Change) else ():
            if isinstance(step, model.Due) and not _last_done(life, now, step.due, after=number)[1]:
                since = _Since(entry.says.date.first, life.after(number).counters.totals)
                told = f"{ANNOUNCED} {entry.says.date}", entry.file, ("work", index)
                yield from _counted(now, step.due, _allowed(step.after), since, True, told)


def _last_done(life: Life, now: AsOf, what: str, after: int = -1) -> tuple[_Since, bool]:
    """The last entry that did it, and whether there is one; else the beginning of the record."""
    entries = life.record.entries[: now.number + 1]
    done = [number for number, entry in enumerate(entries) if number > after and _does(entry.says, what)]
    number = done[-1] if done else 0
    return _Since(entries[number].says.date.first, life.after(number).counters.totals), bool(done)


def _does(says: model.Dated, what: str) -> bool:
    steps = says.work if isinstance(says, model.Change) else ()
    return any(isinstance(step, model.Service) and step.service.casefold() == what.casefold() for step in steps)


Told = tuple[str, str, Path]  # why it is due, and where that is said


def _counted(
    now: AsOf, what: str, allowed: list[tuple[float, str]], since: _Since, entered: bool, told: Told
) -> Iterator[Due]:
    for amount, its in allowed:
        if its == "months":
            then = _later(since.day, amount)
            run = _months(since.day, now.day)
            yield Due(what, run, amount, its, None, entered, *told, then, (then - now.day).days)
            continue
        has_run = _run(now, since, its)
        if has_run is not None:
            reading, true = now.shown(unit(its).kind, unit(its).to_base(amount - has_run))
            shown = None if reading is None else unit(its).from_base(reading)
            yield Due(what, has_run, amount, its, None, entered, *told, None, None, shown, true)


def _run(now: AsOf, since: _Since, its: str) -> float | None:
    kind = unit(its).kind
    total, then = now.state.counters.totals.of(kind), since.totals.of(kind)
    if total is not None and then is None:  # that counter came later: it counts from its own first reading
        then = now.state.counters.began(kind)
    return None if total is None or then is None else unit(its).from_base(total - then)


def _months(since: date, now: date) -> float:
    """Months from one day to another; days beyond the last whole month are a part of the one they stand in."""
    whole = (now.year - since.year) * 12 + now.month - since.month - (now.day < since.day)
    begun, ends = _later(since, whole), _later(since, whole + 1)
    return whole + max(0.0, (now - begun).days / ((ends - begun).days or 1))


def _later(since: date, months: float) -> date:
    """The same day so many months later, or the last of that month where it is shorter."""
    month = since.month - 1 + int(months)
    year, month = since.year + month // 12, month % 12 + 1
    if year > date.max.year:
        return date.max
    last = (date(year + month // 12, month % 12 + 1, 1) - timedelta(days=1)).day if (year, month) != (9999, 12) else 31
    return date(year, month, min(since.day, last))


def _allowed(text: str) -> list[tuple[float, str]]:
    """`20 h or 12 months` as [(20, 'h'), (12, 'months')]; empty where it is none."""
    amounts = [_AMOUNT.fullmatch(each.strip()) for each in text.split(" or ")]
    if not all(amounts):
        return []
    found = [(float(each[1]), each[2]) for each in amounts if each]
    return [(amount * _MONTHS[its], "months") if its in _MONTHS else (amount, its) for amount, its in found]
