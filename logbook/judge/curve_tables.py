"""Lift and flow over their points, as the tables that they were read from, to be set beside each other cell by cell."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.judge.grids import Grid, grids
from logbook.quantity.units import unit
from logbook.record.facts import Fact
from logbook.record.tables import Cell, Head, Table
from logbook.specs.configuration import Configuration


def curves(before: Configuration, after: Configuration) -> Iterator[Grid]:
    """Lift and flow over their points, where both sides have a table of them."""
    for name in dict.fromkeys((*before.life.record.facts, *after.life.record.facts)):
        was, now = _curve(before, name), _curve(after, name)
        if was and now and was.stated.qualifiers != now.stated.qualifiers:
            files = was.stated.file, now.stated.file
            why = "they were not read under the same conditions"
            yield Grid(was.row.uk, *files, Head(name, was.row.unit), why_not=why)
        elif was and now and was is not now:
            yield from grids(was.row.uk, (was.stated.file, _as_table(was)), (now.stated.file, _as_table(now)))


def _curve(at: Configuration, name: str) -> Fact | None:
    """The fact with a table that holds for a quantity, if there is one."""
    facts = at.life.record.facts.get(name, ())
    if not any(fact.curve for fact in facts):
        return None
    row = facts[0].row
    held = at.holding.best(row, at.life.arrangement.positions(row.place)[0])
    return held.fact if held and held.fact.curve else None


def _as_table(fact: Fact) -> Table:
    """A curve as the table that it was read from, in usual units."""
    assert fact.curve is not None  # asked before
    along = Head("valve_lift", "mm") if fact.row.kind == "volume_flow" else Head("from_lobe_centre", "deg")
    scale = 1000.0 if along.unit == "mm" else 1.0
    rows = zip(fact.curve.at, fact.curve.values, strict=True)
    own = Head(fact.name, fact.row.unit)
    return Table((along, own), tuple((_cell(at * scale), _cell(_usual(fact, value))) for at, value in rows))


def _cell(value: float) -> Cell:
    return Cell(f"{value:.6g}", float(f"{value:.9g}"))


def _usual(fact: Fact, value: float) -> float:
    return unit(fact.row.unit).from_base(value)
