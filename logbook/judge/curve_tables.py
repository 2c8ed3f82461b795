"""Lift and flow over their points, as the tables that they were read from, to be set beside each other cell by cell."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.judge.grids import Grid, grids
from logbook.quantity.catalogue import quantity
from logbook.quantity.units import BARE
from logbook.quantity.usage import Usage
from logbook.record.facts import Fact
from logbook.record.tables import Cell, Head, Table
from logbook.specs.configuration import Configuration


def curves(before: Configuration, after: Configuration) -> Iterator[Grid]:
    """Lift and flow over their points, where both sides have a table of them."""
    usage = before.life.record.engine.usage
    for name in dict.fromkeys((*before.life.record.facts, *after.life.record.facts)):
        was, now = _curve(before, name), _curve(after, name)
        if was and now and was.stated.qualifiers != now.stated.qualifiers:
            files = was.stated.file, now.stated.file
            why = "they were not read under the same conditions"
            yield Grid(usage.name(was.row), *files, Head(name, usage.unit(was.row)), why_not=why)
        elif was and now and was is not now:
            both = ((fact.stated.file, _as_table(fact, usage)) for fact in (was, now))
            yield from grids(usage.name(was.row), *both)


def _curve(at: Configuration, name: str) -> Fact | None:
    """The fact with a table that holds for a quantity, if there is one."""
    facts = at.life.record.facts.get(name, ())
    if not any(fact.curve for fact in facts):
        return None
    row = facts[0].row
    held = at.holding.best(row, at.life.arrangement.positions(row.place)[0])
    return held.fact if held and held.fact.curve else None


def _as_table(fact: Fact, usage: Usage) -> Table:
    """A curve as the table that it was read from, in the owner's units."""
    assert fact.curve is not None  # asked before
    lift, own = quantity("valve_lift"), usage.scale(fact.row)
    along, scale = Head("from_lobe_centre", "deg"), BARE
    if fact.row.kind == "volume_flow":
        along, scale = Head(lift.name, usage.unit(lift)), usage.scale(lift)
    rows = zip(fact.curve.at, fact.curve.values, strict=True)
    cells = tuple((_cell(scale.from_base(at)), _cell(own.from_base(value))) for at, value in rows)
    return Table((along, Head(fact.name, own.symbol)), cells)


def _cell(value: float) -> Cell:
    return Cell(f"{value:.6g}", float(f"{value:.9g}"))
