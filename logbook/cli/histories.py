"""`timeline --part`, `--fact`, `--since`: the life of one part, of one value, and what ran since a change."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from logbook.cli import layout
from logbook.cli.effects import effect_lines
from logbook.cli.figures import condition, name_of
from logbook.cli.shapes import difference_shape
from logbook.judge.part_life import PartLife
from logbook.judge.since import Since
from logbook.judge.timeline import Happening
from logbook.judge.value_history import Statement
from logbook.quantity.catalogue import quantity
from logbook.quantity.units import unit
from logbook.quantity.usage import Usage
from logbook.record.models import Engine
from logbook.state.counters import DISTANCE, HOURS, Totals

Row = tuple[str, ...]


def run_text(run: Totals, engine: Engine) -> str:
    """`8340 km, 41.6 h`; nothing where no counter told, and no zero beside what it did run."""
    both = ((run.of(DISTANCE), _distance_unit(engine)), (run.of(HOURS), "h"))
    counted = {"h" if each.unit == "h" else _distance_unit(engine) for each in engine.counters.values()}
    told = [(amount, symbol) for amount, symbol in both if amount or (amount is not None and symbol in counted)]
    ran = [each for each in told if each[0]] or told[:1]
    return ", ".join(f"{unit(symbol).from_base(amount):.10g} {symbol}" for amount, symbol in ran)


def _distance_unit(engine: Engine) -> str:
    return next((each.unit for each in engine.counters.values() if each.unit != "h"), "km")


# one part


def part_lines(told: PartLife, engine: Engine) -> Iterator[str]:
    """What it is, each entry that speaks of it, where it is now and what it ran in all."""
    part = told.part
    yield from layout.titled(f"{told.name}: {engine.usage.kind(part.kind)}")
    yield from layout.wrapped("; ".join(_described(told, engine.usage)), 2, hanging=2)
    rows = [(str(each.entry.says.date), run_text(each.run, engine), each.says) for each in told.events]
    day, ran = (max((len(row[side]) for row in rows), default=0) for side in (0, 1))
    for date, run, says in rows:
        for number, text in enumerate(says):
            head = f"{date:<{day}}  {run:>{ran}}  " if number == 0 else " " * (day + ran + 4)
            first, *more = layout.wrapped(text, len(head), hanging=2)
            yield from (head + first.lstrip(), *more)
    yield from layout.wrapped(_ended(told, engine))


def _described(told: PartLife, usage: Usage) -> Iterator[str]:
    part = told.part
    yield part.what
    for word, text in (("casting", part.casting_number), ("part number", part.part_number), ("marks", part.marks)):
        if text:
            yield f"{word} {text}"
    if part.obtained:
        got = f"{part.obtained.date or ''}" + (f" from {part.obtained.from_}" if part.obtained.from_ else "")
        yield f"obtained {got.strip()}"
    if part.used_before:
        yield f"used before: {part.used_before}"
    for fact in told.published:
        yield f"{usage.name(fact.row)} {fact.text.removeprefix('all: ')} ({fact.stated.basis})"


def _ended(told: PartLife, engine: Engine) -> str:
    here = run_text(told.run.here, engine) or "an unknown distance"
    words = f"It is {told.where or 'in the engine'} and has run {here} in this engine"
    whole = [(told.run.hedge(kind), told.run.of(kind), symbol)
             for kind, symbol in ((DISTANCE, _distance_unit(engine)), (HOURS, "h"))]  # fmt: skip
    if told.run.elsewhere or told.run.unknown:
        sums = [f"{hedge}{unit(symbol).from_base(run):.10g} {symbol}" for hedge, run, symbol in whole if run]
        words += f"; in all {', '.join(sums) or 'nobody knows how far'}"
    return f"{words}. {_metal(told, engine.usage)}".rstrip()


def _metal(told: PartLife, usage: Usage) -> str:
    """What came off the surface that is cut, and what may still."""
    its = told.surface
    if its is None or not (its.metal_removed.nominal or its.metal_left):
        return ""
    row = quantity("metal_removed")
    gone = f"{'at least ' if its.at_least else ''}{usage.said(row, its.metal_removed.nominal, 3)}"
    left = its.metal_left
    more = f", {usage.said(row, left.nominal, 3)} may still" if left is not None else ""
    return f"Off its {usage.prose(its.name)} came {gone}{more}."


def part_rows(told: PartLife, engine: Engine) -> list[Row]:
    """A row for everything that an entry says of it."""
    return [(str(each.entry.says.date), run_text(each.run, engine), text, each.entry.id)
            for each in told.events for text in each.says]  # fmt: skip


def part_shape(told: PartLife) -> dict[str, Any]:
    """The life of a part as JSON; what it ran in km and h, whatever the counters show."""
    return {
        "part": told.name,
        "kind": told.part.kind,
        "where": told.where or "in the engine",
        "run": _run_shape(told.run.here),
        "events": [
            {
                "id": each.entry.id,
                "date": str(each.entry.says.date),
                "run": _run_shape(each.run),
                "says": list(each.says),
            }
            for each in told.events
        ],
    }


def _run_shape(run: Totals) -> dict[str, float | None]:
    return {symbol: None if (amount := run.of(kind)) is None else float(f"{unit(symbol).from_base(amount):.12g}")
            for kind, symbol in ((DISTANCE, "km"), (HOURS, "h"))}  # fmt: skip


# one value


def value_lines(
    name: str, statements: tuple[Statement, ...], changes: list[Happening], engine: Engine
) -> Iterator[str]:
    """Each statement with its source and what became of it; where it is worked out, each entry that changed it."""
    row = quantity(name)
    yield from layout.titled(name_of(row, engine))
    for each in statements:
        yield from layout.wrapped("  ".join(_stated(each, engine)), 2, hanging=4)
        yield from layout.wrapped(f"{each.became}; {each.fact.stated.file}:{each.line}", 6, hanging=2)
    if changes:
        yield "  as it is worked out:"
    for happening in changes:
        yield from layout.wrapped(f"{happening.entry.says.date}  {happening.entry.title}", 2, hanging=4)
        yield from list(effect_lines([happening.effect[name]], engine, 4))[1:]
    if not (statements or changes):
        yield "  nothing was ever stated of it, and it cannot be worked out yet"


def _stated(each: Statement, engine: Engine) -> Iterator[str]:
    """`2018-03-17  head-b  36.5 / 37.0 cc  measured with burette-50, by shop-1`."""
    stated_by = each.fact.stated
    yield str(stated_by.when or "undated")
    if stated_by.part:
        yield stated_by.part
    under = [condition(name, text, engine.show) for name, text in stated_by.qualifiers]
    yield ", ".join((each.fact.text.removeprefix("all: "), *under))
    with_ = f" with {stated_by.instrument}" if stated_by.instrument else ""
    source = f", {stated_by.source}" if stated_by.source else ""
    by = f", by {stated_by.by}" if stated_by.by else ""
    yield f"{stated_by.basis}{with_}{source}{by}"


def value_rows(statements: tuple[Statement, ...]) -> list[Row]:
    """A row for each statement."""
    return [(str(each.fact.stated.when or ""), each.fact.stated.part or "", each.fact.text, each.fact.stated.basis,
             each.fact.stated.instrument or "", each.became, f"{each.fact.stated.file}:{each.line}")
            for each in statements]  # fmt: skip


def value_shape(name: str, statements: tuple[Statement, ...], changes: list[Happening]) -> dict[str, Any]:
    """The history of a value as JSON."""
    return {
        "fact": name,
        "stated": [
            {
                "date": str(each.fact.stated.when) if each.fact.stated.when else None,
                "part": each.fact.stated.part,
                "says": each.fact.text,
                "basis": each.fact.stated.basis,
                "with": each.fact.stated.instrument,
                "became": each.became,
                "file": each.fact.stated.file,
                "line": each.line,
            }
            for each in statements
        ],
        "worked_out": [{"id": each.entry.id, **difference_shape(each.effect[name])} for each in changes],
    }


# since a change


def since_lines(told: Since, engine: Engine) -> Iterator[str]:
    """What the engine and each part ran since."""
    yield from layout.titled(f"Since {told.entry.says.date}, {told.entry.title}")
    ran = run_text(told.engine, engine) or "no counter tells how far"
    yield f"  the engine  {ran}, {told.days} day{'' if told.days == 1 else 's'} up to the last entry"
    wide = max((len(name) for name, _, _ in told.parts), default=0)
    for name, run, inside in told.parts:
        where = "" if inside else " (not in the engine now)"
        yield from layout.beside(name, wide, f"{run_text(run, engine) or 'not known'}{where}")


def since_rows(told: Since, engine: Engine) -> list[Row]:
    """A row for the engine and for each part."""
    parts = [(name, run_text(run, engine), "in the engine" if inside else "off") for name, run, inside in told.parts]
    return [("the engine", run_text(told.engine, engine), f"{told.days} days"), *parts]


def since_shape(told: Since) -> dict[str, Any]:
    """What ran since a change, as JSON."""
    return {
        "since": told.entry.id,
        "days": told.days,
        "engine": _run_shape(told.engine),
        "parts": {name: {**_run_shape(run), "fitted": inside} for name, run, inside in told.parts},
    }
