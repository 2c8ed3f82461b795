"""How far the engine and its parts have run since a change."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from logbook.judge.beside import change_named
from logbook.judge.timeline import WORK, how_told
from logbook.record.record import Entry
from logbook.state.counters import KINDS, NOTHING_RUN, Totals
from logbook.state.fold import Life


class Since(NamedTuple):
    """Days, distance [m] and hours [s] since a change; of every part that ran since, what it ran since."""

    entry: Entry
    days: int
    engine: Totals
    parts: tuple[tuple[str, Totals, bool], ...]  # name, run, whether it is in the engine now


def since(life: Life, change: str) -> Since:
    """Up to the last entry. Raises PointUnknown where there is no such change."""
    return _since(life, change_named(life, change))


def since_newest(life: Life) -> Since | None:
    """Since the newest change that did something to the engine; None where none did."""
    worked = [number for number, entry in enumerate(life.record.entries) if how_told(entry) == WORK]
    return _since(life, worked[-1]) if worked else None


def _since(life: Life, number: int) -> Since:
    entry, now, then = life.record.entries[number], life.states[-1], life.after(number)
    last: date = life.record.entries[-1].says.date.first
    parts = [(part, _less(now.has_run(part), then.has_run(part)), part in now.parts) for part in life.record.parts]
    ran = tuple(each for each in parts if each[2] or any(each[1].of(kind) for kind in KINDS))
    begun = Totals(*(now.counters.began(kind) for kind in KINDS))
    engine = _less(now.counters.totals, then.counters.totals, begun)
    return Since(entry, (last - entry.says.date.first).days, engine, ran)


def _less(now: Totals, then: Totals, begun: Totals = NOTHING_RUN) -> Totals:
    """What came on top; a counter that was read later only counts from its first reading, `begun`."""
    return Totals(*(_difference(now.of(kind), then.of(kind), begun.of(kind)) for kind in KINDS))


def _difference(now: float | None, then: float | None, begun: float | None) -> float | None:
    return None if now is None else now - (then if then is not None else begun or 0.0)
