"""`logbook specs`: what the engine is at a point."""

from __future__ import annotations

from collections.abc import Iterator

import click

from logbook.cli import options
from logbook.cli.figures import figure, joined, lacks, name_of, reading_of, rests_on, unit_of
from logbook.cli.reading import reading
from logbook.record.models import Engine
from logbook.specs.configuration import Configuration
from logbook.specs.index import GROUPS
from logbook.specs.results import Spec

_NAME, _VALUE = 42, 21  # columns; the rest of the 80 is for what a value rests on


@click.command("specs")
@click.argument("point", default="now", type=options.LINE)
@click.option("--all", "everything", is_flag=True, help="Also the specs that cannot be worked out yet.")
@options.in_folder
@options.as_json
@options.as_table
def command(point: str, everything: bool, folder: str, as_json: bool, style: str | None) -> None:
    """Show what the engine is at POINT: now, start, a date, a reading such as
    61204km, a change's file name, a build's name, or plan:NAME.

    \b
    Example:  logbook specs donor-head
    """
    with reading(folder) as book:
        at, engine = book.at(point), book.record.engine
        if as_json:
            from logbook.cli.shapes import print_json, specs_shape

            print_json(specs_shape(at, point))
        elif style:
            from logbook.cli.tables import print_table

            print_table(("spec", "position", "value", "±", "unit", "rests on"), list(_rows(at, engine)), style)
        else:
            for line in (*_heading(at, point), *_groups(at, engine, everything)):
                click.echo(line)


def _heading(at: Configuration, point: str) -> Iterator[str]:
    engine = at.life.record.engine
    number = f", {engine.engine_number}" if engine.engine_number else ""
    yield click.style(f"{engine.name}{number}", bold=True)
    after = at.life.record.entries[at.point.number] if at.point.number >= 0 else None
    if at.point.plan:
        yield f"as plan {at.point.plan} would make it, on top of {at.life.record.plans[at.point.plan].from_}"
    if after:
        shown = reading_of(engine, at.state.counters)
        build = f"build {at.state.build}; " if at.state.build else ""
        yield f"{build}{after.says.date}" + (f"; {shown}" if shown else "")
    else:
        yield "the record has no entries yet"


def _groups(at: Configuration, engine: Engine, everything: bool) -> Iterator[str]:
    for title, names in GROUPS.items():
        lines = [line for name in names for line in _spec(at.specs[name], engine, everything)]
        if lines:
            yield ""
            yield click.style(title, bold=True)
            yield from lines
    unknown = [name for name in at.specs if not at.specs[name].known]
    if unknown and not everything:
        yield ""
        yield f"{len(unknown)} more cannot be worked out yet: logbook specs --all says what they need."
    yield ""
    yield "± is expanded, k = 2. What is not marked rests on measurements alone."


def _spec(spec: Spec, engine: Engine, everything: bool) -> Iterator[str]:
    name = name_of(spec.row, engine)
    if not spec.known:
        if everything:
            yield from _wrapped(f"  {name}", f"  {lacks(spec)}")
        return
    marks = _marks(spec)
    values = [None if value is None else figure(spec.row, value, engine.show) for value in spec.values]
    its_unit, several = unit_of(spec.row, engine), len(set(values)) > 1
    first = next(value for value in values if value)
    if not several:
        each = f", each {spec.row.place}" if len(values) > 1 else ""
        yield from _line(name + each, joined(*first, its_unit), marks)
        return
    spreads = {value[1] for value in values if value}
    common = f"± {first[1]} {its_unit}".strip() if len(spreads) == 1 else its_unit
    yield from _line(f"{name}, by {spec.row.place}", common, marks)
    yield from _across(spec.positions, [_short(value, len(spreads) == 1) for value in values])


def _short(value: tuple[str, str] | None, common: bool) -> str:
    if value is None:
        return "unknown"
    return value[0] if common else f"{value[0]} ± {value[1]}"


def _marks(spec: Spec) -> str:
    words = [rests_on(spec.shares, spec.basis)]
    if spec.conditions:
        words.append(" ".join(f"{name.replace('_', ' ')} {text}" for name, text in spec.conditions.items()))
    if spec.out_of_date:
        words.append("out of date")
    words += [
        f"claimed {claim.value:.4g} ({claim.source or claim.basis})" for claim in spec.claims if not spec.row.unit
    ]
    return "; ".join(word for word in words if word)


def _line(name: str, value: str, marks: str) -> Iterator[str]:
    """Name, value and what it rests on; what does not fit beside goes below."""
    if len(name) > _NAME - 4:
        yield f"  {name}"
        name = ""
    line = f"  {name:<{_NAME - 2}}{value:<{_VALUE}}"
    if len(line) + len(marks) <= 79:
        yield f"{line}{marks}".rstrip()
        return
    yield line.rstrip()
    yield from _wrapped("", f"{' ' * _NAME}{marks}")


def _across(positions: tuple[str, ...], values: list[str]) -> Iterator[str]:
    cells = [f"{position:>2}  {value}" for position, value in zip(positions, values, strict=True)]
    width = max(len(cell) for cell in cells) + 3
    each_line = max(1, 74 // width)
    for start in range(0, len(cells), each_line):
        yield "      " + "".join(cell.ljust(width) for cell in cells[start : start + each_line]).rstrip()


def _wrapped(first: str, rest: str) -> Iterator[str]:
    if first:
        yield first
    indent = " " * (len(rest) - len(rest.lstrip()))
    yield from click.wrap_text(rest.strip(), 79, indent, indent).splitlines()


def _rows(at: Configuration, engine: Engine) -> Iterator[tuple[str, ...]]:
    for spec in at.specs.values():
        for position, value in zip(spec.positions, spec.values, strict=True):
            if value is not None:
                number, plus_minus = figure(spec.row, value, engine.show)
                yield (name_of(spec.row, engine), position, number, plus_minus, unit_of(spec.row, engine),
                       rests_on(value.shares, value.basis) or "measured")  # fmt: skip
