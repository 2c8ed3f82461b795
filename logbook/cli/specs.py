"""`logbook specs`: what the engine is at a point."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, KeysView, Sequence
from dataclasses import dataclass
from itertools import zip_longest

import click

from logbook.cli import layout, options
from logbook.cli.figures import (
    condition,
    figure,
    how_sure,
    lacks,
    name_of,
    reading_of,
    rests_on,
    signed_name,
    stated,
    thought_of,
    unit_of,
)
from logbook.cli.judgements import limit_lines, limits_shape
from logbook.cli.reading import configured
from logbook.judge.standing import ON_THE_WAY, Standing
from logbook.quantity.catalogue import quantity
from logbook.record.engine_facts import crevice_said
from logbook.record.models import Engine
from logbook.specs.configuration import Configuration
from logbook.specs.firing import firing_lines, firing_of
from logbook.specs.groups import GROUPS, METAL, RATIOS
from logbook.specs.results import Spec, Value

_MARKS = 15  # columns for what a figure rests on; the name has what is left


@click.command("specs")
@click.argument("point", default="now", type=options.LINE)
@click.option("--all", "everything", is_flag=True, help="Also the specs that cannot be worked out yet.")
@options.suppose
@options.given
@options.in_folder
@options.as_json
@options.as_table
def command(point: str, everything: bool, suppose: tuple[str, ...], given: tuple[str, ...], folder: str,
            as_json: bool, style: str | None) -> None:  # fmt: skip
    """Show what the engine is at POINT: now, start, a date, a reading such as
    61204km, a change's file name, a build's name, or plan:NAME.

    \b
    Example:  logbook specs donor-head
              logbook specs --suppose "gasket_thickness=1.0 mm"
    """
    with configured(folder, point, suppose, given) as at:
        engine = at.life.record.engine
        if as_json:
            from logbook.cli.shapes import of_the_test_shape, print_json, specs_shape

            print_json({**specs_shape(at, point), "limits": limits_shape(at), "of_the_test": of_the_test_shape(at)})
        elif style:
            from logbook.cli.tables import print_table

            print_table(("spec", "position", "value", "±", "unit", "rests on"), list(_rows(at, engine)), style)
        else:
            of_test = _of_the_test(at, engine)
            for line in (*_heading(at, point), *of_test, *_groups(at, engine, everything), *limit_lines(at)):
                click.echo(line)


def _heading(at: Configuration, point: str) -> Iterator[str]:
    engine = at.life.record.engine
    number = f", {engine.engine_number}" if engine.engine_number else ""
    yield layout.title(f"{engine.name}{number}")
    after = at.life.record.entries[at.point.number] if at.point.number >= 0 else None
    if at.point.plan:
        yield from layout.wrapped(thought_of(at))
    if after:
        shown = reading_of(engine, at.state.counters)
        build = f"build {at.state.build}; " if at.state.build else ""
        yield f"{build}{after.says.date}" + (f"; {shown}" if shown else "")
    elif not at.point.plan:
        yield "the record has no entries yet"


@dataclass(frozen=True, slots=True)
class _Row:
    """One spec as it is printed; `cells` (place, number, ±) where its positions differ."""

    name: str
    number: str
    plus_minus: str
    unit: str
    marks: tuple[str, ...]
    cells: tuple[tuple[str, str, str], ...] = ()


def _of_the_test(at: Standing, engine: Engine) -> Iterator[str]:
    """What the test that the point names comes to, by its own figures and this engine."""
    if at.tested is None:
        return
    specs = at.tested.specs
    rows = [_row(spec, engine) for name, spec in specs.items() if name not in ON_THE_WAY]
    grid = _Grid(rows)
    speed = at.tested.best.speed
    there = f", at {stated(quantity('engine_speed'), speed, engine.show)}" if speed else ""
    yield from ("", layout.title(f"Of this test{there}"), *(line for row in rows for line in grid.lines(row)))
    if not rows:
        yield from layout.wrapped("Nothing more is worked out of its figures.", indent=2)
    if len(at.tested.rows) > 1:
        yield from layout.wrapped("There the power is greatest; over the speeds: logbook explain SPEC TEST.", indent=2)
    yield from _outside(specs.values(), engine)


def _groups(at: Configuration, engine: Engine, everything: bool) -> Iterator[str]:
    from logbook.cli.metal import metal_rows, too_thin

    rows = {name: _row(spec, engine) for name, spec in at.specs.items() if spec.known}
    metal = [_Row(*each) for each in metal_rows(at)]
    told = {name: row for name, row in rows.items() if name not in GROUPS[METAL]}
    grid = _Grid((*told.values(), *metal))
    for group, names in GROUPS.items():
        lines = [line for row in metal if group == METAL for line in grid.lines(row)]
        for name in names:
            lines += grid.lines(told[name]) if name in told else ()
            lines += _lacking(at.specs[name], engine, everything) if name not in rows else ()
        lines += too_thin(at) if group == METAL else ()
        yield from ("", layout.title(group), *lines) if lines else ()
        yield from _below(group, at, rows.keys())
    yield from _outside(at.specs.values(), engine)
    lacking = len(at.specs) - len(rows)
    if lacking and not everything:
        yield from ("", f"{lacking} more cannot be worked out yet: logbook specs --all says what they need.")
    if rows:
        yield from ("", "± is expanded, k = 2. What is not marked rests on measurements alone.")


def _below(group: str, at: Configuration, known: KeysView[str]) -> Iterator[str]:
    """What stands below a group: whether the ratios count the crevice; below the size, when each cylinder fires."""
    engine = at.life.record.engine
    if group == "Compression" and not known.isdisjoint(RATIOS):
        yield from layout.wrapped(f"Top land crevice: {crevice_said(engine)}.", indent=2)
    firing = firing_of(engine, at.life.arrangement) if group == "Size" else None
    if firing:
        yield from ("", layout.title("Firing"))
        yield from (each for line in firing_lines(firing) for each in layout.wrapped(f"{line}.", indent=2, hanging=2))


def _outside(specs: Iterable[Spec], engine: Engine) -> Iterator[str]:
    """Why values lie outside the validity of a formula that they rest on."""
    lines = list(layout.outside_lines((name_of(spec.row, engine), reason) for spec in specs for reason in spec.outside))
    yield from ("", layout.title("Outside validity"), *lines) if lines else ()


def _lacking(spec: Spec, engine: Engine, everything: bool) -> list[str]:
    name = name_of(spec.row, engine)
    return [f"  {name}", *layout.wrapped(lacks(spec), indent=6)] if everything else []


def _row(spec: Spec, engine: Engine) -> _Row:
    name, values = _sided(spec, engine)
    figures = [None if value is None else figure(spec.row, value, engine.show) for value in values]
    first = next(each for each in figures if each)
    unit, marks = unit_of(spec.row, engine), _marks(spec, engine)
    if len(set(figures)) == 1:
        each = f", each {spec.row.place}" if len(figures) > 1 else ""
        return _Row(name + each, *first, unit, marks)
    spreads = {each[1] for each in figures if each}
    cells = tuple((place, *(each or ("–", ""))) for place, each in zip(spec.positions, figures, strict=True))
    if len(spreads) == 1:
        return _Row(f"{name}, by {spec.row.place}", "", first[1], unit, marks, tuple((*cell[:2], "") for cell in cells))
    return _Row(f"{name}, by {spec.row.place}", "", "", unit, marks, cells)


def _sided(spec: Spec, engine: Engine) -> tuple[str, Sequence[Value | None]]:
    """The name with the side that all values lie on, and these without their sign; else with the side that is plus."""
    below = {value.nominal < 0 for value in spec.known if value.nominal}
    if not spec.row.sides or len(below) > 1:
        return signed_name(spec.row, engine), spec.values
    side = f", {spec.row.sides[below == {True}]}" if below else ""
    plain = [value and value._replace(nominal=abs(value.nominal)) for value in spec.values]
    return name_of(spec.row, engine) + side, plain


class _Grid:
    """The columns that all rows of a page share: name, number, ±, unit, what it rests on."""

    def __init__(self, rows: Sequence[_Row]) -> None:
        cells = [cell for row in rows for cell in row.cells]
        self.number = layout.pointed(row.number for row in rows)
        self.plus_minus = layout.pointed(row.plus_minus for row in rows)
        self.cell = layout.pointed(text for cell in cells for text in cell[1:])
        self.unit = max((len(row.unit) for row in rows), default=0)
        self.name = layout.WIDTH - _MARKS - 2 - max((len(self._figures(row)) for row in rows), default=0)

    def lines(self, row: _Row) -> Iterator[str]:
        """One spec; what does not fit beside goes below, in its own column."""
        figures = self._figures(row)
        names = layout.wrapped(row.name, indent=2, hanging=2, width=self.name - 2)
        marks = [line for mark in row.marks for line in layout.wrapped(mark, width=_MARKS)]
        for name, middle, mark in zip_longest(names, [figures], marks, fillvalue=""):
            yield f"{name:<{self.name}}{middle:<{len(figures)}}  {layout.accent(mark)}".rstrip()
        if row.cells:
            yield from layout.across([self._cell(*cell) for cell in row.cells], indent=5)

    def _figures(self, row: _Row) -> str:
        sign = " ± " if row.plus_minus else "   "
        return f"{self.number(row.number)}{sign}{self.plus_minus(row.plus_minus)} {row.unit:<{self.unit}}"

    def _cell(self, place: str, number: str, plus_minus: str) -> list[str]:
        line = f"{place:>2}  {self.cell(number)}"
        return [line, f" ±  {self.cell(plus_minus)}"] if plus_minus else [line]


def _marks(spec: Spec, engine: Engine) -> tuple[str, ...]:
    words = rests_on(spec.shares, spec.basis).split(", ")
    words += [condition(name, text, engine.show) for name, text in spec.conditions.items()]
    words += ["out of date"] if spec.out_of_date else []
    words += ["outside validity"] if spec.outside else []
    words += sorted({how_sure(value, value.doubtful) for value in spec.known})
    words += [f"claimed {stated(spec.row, claim.value, engine.show)} ({claim.source or claim.basis})"
              for claim in spec.claims]  # fmt: skip
    return tuple(word for word in words if word)


def _rows(at: Configuration, engine: Engine) -> Iterator[tuple[str, ...]]:
    from logbook.specs.metal import metal_removed

    removed = metal_removed(at)
    for spec in (*at.specs.values(), *(removed[:1] if removed else ())):
        for position, value in zip(spec.positions, spec.values, strict=True):
            if value is not None:
                number, plus_minus = figure(spec.row, value, engine.show)
                yield (signed_name(spec.row, engine), position, number, plus_minus, unit_of(spec.row, engine),
                       rests_on(value.shares, value.basis) or "measured")  # fmt: skip
