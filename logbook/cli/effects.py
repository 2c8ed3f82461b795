"""What changed, as lines: before → after, the difference with its uncertainty, and whether it is real."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import click

from logbook.cli.figures import figure, joined, name_of, signed, unit_of
from logbook.judge.compare import Difference
from logbook.record.models import Engine
from logbook.specs.results import Value


def effect_lines(effect: Mapping[str, Difference], engine: Engine, indent: str = "") -> Iterator[str]:
    """A block for each spec that changed."""
    for each in effect.values():
        yield from difference_lines(each, engine, indent)


def difference_lines(each: Difference, engine: Engine, indent: str = "") -> Iterator[str]:
    """One spec: a line if it changed alike at all positions, else a line for each that changed."""
    its_unit = unit_of(each.row, engine)
    changes = [_change(each, number, engine) for number in range(len(each.positions))]
    alike = len(set(changes)) == 1
    place = f", each {each.row.place}" if alike and len(changes) > 1 else ""
    yield f"{indent}{name_of(each.row, engine)}" + (f", {its_unit}" if its_unit else "") + place
    if alike:
        yield f"{indent}  {changes[0]}"
        return
    for position, change in zip(each.positions, changes, strict=True):
        yield f"{indent}  {position:>2}  {change}"


def _change(each: Difference, number: int, engine: Engine) -> str:
    before, after = each.before[number], each.after[number]
    delta, verdict = each.differences[number], each.verdicts[number]
    if before is None or after is None or delta is None:
        return f"{_alone(each, before, engine)} → {_alone(each, after, engine)}"
    was, now = figure(each.row, before, engine.show), figure(each.row, after, engine.show)
    change = joined(*signed(each.row, delta, engine.show))
    return f"{was[0]:>7} → {now[0]:<7}  {change:<16}  {click.style(verdict or '', bold=verdict == 'real')}"


def _alone(each: Difference, value: Value | None, engine: Engine) -> str:
    return "unknown" if value is None else joined(*figure(each.row, value, engine.show))
