"""Points in the engine's life: now, start, a date, a reading, a change, a build, a plan.

A date is the end of that day; a reading is what the counter showed. A reading that was shown twice, before and after a
reset, is refused with both. What does not exist is refused with what lies nearest.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from logbook.errors import PointUnknown
from logbook.quantity.catalogue import catalogue, nearest, own_name
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.when import Amount, NotThat, parse_amount, parse_date
from logbook.state.counters import Section
from logbook.state.fold import Life

_READING = re.compile(r"(true:)?([0-9]{1,9}(?:\.[0-9]{1,6})?) ?(km|mi|h)")
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_DATE = re.compile(r"[0-9]{4}(-[0-9]{2}){0,2}")


class Point(NamedTuple):
    """The state after entry `number`; `plan` where steps that are only thought of follow; `entry`: named by itself."""

    text: str
    number: int
    plan: str | None = None
    entry: bool = False


def find_point(life: Life, text: str) -> Point:
    """The point that `text` names; PointUnknown with what lies nearest if there is none, or not only one."""
    text = text.strip()
    if not life.states and not text.startswith("plan:"):
        return Point(text, -1) if text in ("now", "start") else _unknown(text, "the record has no entries yet")
    if text == "now":
        return Point(text, len(life.states) - 1)
    if text == "start":
        return Point(text, 0)
    ways: tuple[Callable[[Life, str], Point | None], ...] = (_plan, _reading, _day, _build, _entry)
    for way in ways:
        found = way(life, text)
        if found:
            return found
    return _unknown(text, _without_unit(life, text) or _something_else(life, text) or _nearest(life, text))


def _something_else(life: Life, text: str) -> str:
    """What to ask instead, where the word names a part or a quantity."""
    if text in life.record.parts:
        return f"it is a part; try logbook timeline --part {text}, or --suppose fit={text}"
    name = own_name(text)
    return (
        f"it is a quantity; try logbook explain {name}, or logbook timeline --fact {name}"
        if name in catalogue()
        else ""
    )


def _without_unit(life: Life, text: str) -> str:
    """What a bare number would be as a reading, and what the counters have shown; '' of anything else."""
    if not _NUMBER.fullmatch(text):
        return ""
    units = dict.fromkeys(each.unit for each in life.record.engine.counters.values())
    told = [f"{text}{symbol} ({_ranges(life, symbol)})" for symbol in units]
    return f"a reading is written with its unit: {' or '.join(told)}" if told else ""


def _unknown(text: str, why: str) -> Point:
    raise PointUnknown(f"`{text}` is no point in this record: {why}")


def _nearest(life: Life, text: str) -> str:
    entries = [entry.id.split("/", 1)[1] for entry in life.record.entries]
    names = [*_builds(life), *entries, *(f"plan:{name}" for name in life.record.plans)]
    near = nearest(text, names)
    builds = ", ".join(dict.fromkeys(_builds(life))) or "none named yet"
    hint = f"did you mean {near}? " if near else ""
    return f"{hint}A point is now, start, a date, a reading such as 61204km, a change's file name or a build ({builds})"


def _builds(life: Life) -> list[str]:
    return [entry.says.build for entry in life.record.entries
            if isinstance(entry.says, model.Change) and entry.says.build]  # fmt: skip


def _plan(life: Life, text: str) -> Point | None:
    if not text.startswith("plan:"):
        return None
    name = text.removeprefix("plan:")
    plan = life.record.plans.get(name)
    if plan is None:
        near = nearest(name, list(life.record.plans))
        return _unknown(text, f"there is no plan `{name}`" + (f"; did you mean {near}?" if near else ""))
    if plan.from_.startswith("plan:"):
        return _unknown(text, f"plan `{name}` stands on another plan; give it a point of the record in `from:`")
    return Point(text, find_point(life, start_of_plan(life, name)).number, name)


def start_of_plan(life: Life, name: str) -> str:
    """The point that a plan stands on. Carried out since, `now` was before that: not today for a second time."""
    start: str = life.record.plans[name].from_
    done = keeper_of(life, name) if start == "now" else None
    return life.record.entries[done - 1].id if done else start


def keeper_of(life: Life, name: str) -> int | None:
    """The number of the change that keeps the plan's forecast, having carried it out."""
    for number, entry in enumerate(life.record.entries):
        forecast = entry.says.forecast if isinstance(entry.says, model.Change) else None
        if forecast and forecast.from_ == f"plan:{name}":
            return number
    return None


def _reading(life: Life, text: str) -> Point | None:
    found = _READING.fullmatch(text)
    if not found:
        return None
    amount = parse_amount(f"{found[2]} {found[3]}")
    if found[1]:
        return Point(text, _last_at(life, amount.kind, amount.base, text))
    sections = [section for section in life.states[-1].counters.sections if _showed(section, amount)]
    if not sections:
        return _unknown(text, _ranges(life, amount.unit))
    totals = sorted({section.offset + amount.base for section in sections})
    if len(totals) > 1:
        both = " or ".join(f"true:{unit(amount.unit).from_base(total):.10g}{amount.unit}" for total in totals)
        return _unknown(text, f"the counter has shown it {len(totals)} times; write {both}")
    return Point(text, _last_at(life, amount.kind, totals[0], text))


def _showed(section: Section, amount: Amount) -> bool:
    if section.kind != amount.kind or section.first is None or section.last is None:
        return False
    return section.first - 1e-6 <= amount.base <= section.last + 1e-6


def _ranges(life: Life, symbol: str) -> str:
    its = unit(symbol)
    shown = [f"{its.from_base(section.first):.10g} to {its.from_base(section.last):.10g} {symbol}"
             for section in life.states[-1].counters.sections
             if section.kind == its.kind and section.first is not None and section.last is not None]  # fmt: skip
    return f"the counter has shown {' and '.join(shown)}" if shown else "no such counter was ever read"


def _last_at(life: Life, kind: str, total: float, text: str) -> int:
    """The last entry at which the engine had run no more than `total`."""
    run = [(number, so_far) for number, state in enumerate(life.states)
           if (so_far := state.counters.totals.of(kind)) is not None]  # fmt: skip
    fitting = [number for number, so_far in run if so_far <= total + 1e-6]
    return fitting[-1] if fitting else _unknown(text, "it lies before the first entry").number


def _day(life: Life, text: str) -> Point | None:
    if not _DATE.fullmatch(text):
        return None
    try:
        day = parse_date(text).last
    except NotThat as problem:
        return _unknown(text, f"{problem.says}: {problem.mend}")
    before = [number for number, entry in enumerate(life.record.entries) if _first(entry.says) <= day]
    if not before:
        first = f"the first entry is of {life.record.entries[0].says.date}"
        return _unknown(text, "; ".join(filter(None, (first, _without_unit(life, text)))))
    return Point(text, before[-1])


def _first(says: model.Dated) -> date:
    first: date = says.date.first
    return first


def _build(life: Life, text: str) -> Point | None:
    numbers = [number for number, entry in enumerate(life.record.entries)
               if isinstance(entry.says, model.Change) and entry.says.build == text]  # fmt: skip
    return Point(text, numbers[-1]) if numbers else None


def _entry(life: Life, text: str) -> Point | None:
    wanted = text.removesuffix(".yaml")
    ids = [entry.id for entry in life.record.entries]
    exact = [number for number, name in enumerate(ids) if wanted in (name, name.split("/", 1)[1])]
    begun = [
        number for number, name in enumerate(ids) if name.startswith(wanted) or name.split("/", 1)[1].startswith(wanted)
    ]
    found = exact or (begun if len(wanted) >= 3 else [])
    if len(found) > 1:
        return _unknown(text, "several entries begin so: " + ", ".join(ids[number] for number in found[:5]))
    return Point(text, found[0], entry=True) if found else None
