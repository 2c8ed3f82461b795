"""`logbook compare A [B]`: two points side by side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import nullcontext

import click

from logbook.cli import layout, options
from logbook.cli.beside_lines import table_lines, test_lines, torque_lines
from logbook.cli.beside_shapes import compare_shape, other_rows, spec_rows
from logbook.cli.effects import effect_lines, words_below
from logbook.cli.figures import name_of
from logbook.cli.reading import reading
from logbook.cli.shapes import print_json
from logbook.cli.tables import print_table
from logbook.cli.whose import ONE_ENGINE, TWO_ENGINES, Whose
from logbook.judge.beside import Beside
from logbook.judge.compare import Difference
from logbook.quantity.catalogue import PART_KINDS, catalogue, quantity
from logbook.record.facts import ASSUMED
from logbook.record.models import Engine


@click.command("compare")
@click.argument("before", required=False, type=options.LINE)
@click.argument("after", default="now", type=options.LINE)
@options.text("--change", shape="CHANGE", says="Instead of points: what this change did, before and after it.")
@options.text("--with", "other", shape="DIR", says="AFTER is a point of the engine in this folder.")
@options.suppose
@options.in_folder
@options.as_json
@options.as_table
def command(before: str | None, after: str, change: str | None, other: str | None, suppose: tuple[str, ...],
            folder: str, as_json: bool, style: str | None) -> None:  # fmt: skip
    """Set the engine at point BEFORE beside the engine at point AFTER (now).

    A difference is real, or within the error of what was measured; what both
    sides share cancels. What is supposed is on top of AFTER.

    \b
    Example:  logbook compare donor-head third-head
              logbook compare --change 2019-02-16-head-c-on
    """
    with reading(folder) as book, reading(other) if other else nullcontext() as second:
        if change:
            _refuse_both(before or other or suppose)
            told, names = book.effect_of(change), (f"before {change}", change)
        elif before:
            told = book.compare(before, after, suppose=suppose, other=second)
            names = before, f"{after}, as supposed" if suppose else after
        else:
            raise click.UsageError("name a point to compare with now, or --change and a change: logbook compare start")
        print_beside(told, names, as_json, style)


def _refuse_both(others: object) -> None:
    if others:
        raise click.UsageError("--change stands alone: it compares the engine before that change with that after it")


def print_beside(told: Beside, names: tuple[str, str], as_json: bool, style: str | None) -> None:
    """A comparison as text, as JSON or as a table."""
    engine = told.before.life.record.engine
    if as_json:
        print_json(compare_shape(told, *names))
    elif style:
        head = ("spec", "position", *_named(told, names), "difference", "±", "unit", "verdict")
        print_table(head, [*spec_rows(told.specs.values(), engine), *other_rows(told, engine)], style)
        if style == "markdown":
            click.echo("".join(f"\n{caution}" for caution in told.cautions), nl=bool(told.cautions))
    else:
        for line in (*_titles(told, names), *_lines(told)):
            click.echo(line)


def _titles(told: Beside, names: tuple[str, str]) -> Iterator[str]:
    """Which two points: of two engines a line each, which says what A and B stand for below."""
    before, after = _named(told, names)
    if told.two_engines:
        yield from (*layout.titled(before), *layout.titled(after))
    else:
        yield from layout.titled(f"{told.before.life.record.engine.name}: {before} → {after}")


def _named(told: Beside, names: tuple[str, str]) -> tuple[str, str]:
    """What heads each side's column."""
    if not told.two_engines:
        return names
    mine, theirs = (at.life.record.engine.name for at in (told.before, told.after))
    return TWO_ENGINES.both(f"{mine}, {names[0]}", f"{theirs}, {names[1]}")


def _lines(told: Beside) -> Iterator[str]:
    engine = told.after.life.record.engine if not told.two_engines else told.before.life.record.engine
    whose = TWO_ENGINES if told.two_engines else ONE_ENGINE
    changed = [each for each in told.specs.values() if each.changed]
    for title, lines in (
        ("Parts", list(_parts(told, engine, whose))),
        ("Machined in between", list(_worked(told))),
        ("Settings", list(_settings(told, whose))),
        ("Figures of the record", list(_facts(told, engine, whose))),
        ("Tables", list(table_lines(told.tables, engine, whose))),
        (f"Specs{whose.heading}", list(effect_lines(changed, engine, 2, whose))),
        (f"Tests{whose.heading}", list(test_lines(told.tests, engine, whose))),
        ("Outside validity", list(layout.outside_lines(_reasons(changed, engine)))),
        ("Power runs", list(torque_lines(told.torque, engine, whose)) if told.torque else []),
        ("Careful", [line for each in told.cautions for line in layout.wrapped(each, 2, hanging=2)]),
    ):
        if lines:
            yield from ("", layout.title(title), *lines)
    yield ""
    same = len(told.specs) - len(changed)
    yield f"{same} {'specs are' if same != 1 else 'spec is'} the same at both points. ± is expanded, k = 2."
    yield from words_below(changed)
    yield from layout.wrapped(" ".join(_footnotes(told)))


def _reasons(changed: Iterable[Difference], engine: Engine) -> Iterator[tuple[str, str]]:
    """What of the specs told lies outside the validity of a formula on either side, and why."""
    for each in changed:
        for value in (*each.before, *each.after):
            yield from ((name_of(each.row, engine), reason) for reason in (value.outside if value else ()))


def _footnotes(told: Beside) -> Iterator[str]:
    """What else must be known to read the comparison right."""
    if told.two_engines:
        yield "Two engines: what both read with an instrument of one name counts as one error."
    assumed = sorted({name.replace("_", " ") for at in (told.before, told.after) for name in at.holding.assumed or ()})
    if assumed:
        resting = [name_of(each.row, told.after.life.record.engine) for each in told.specs.values()
                   if any(value and value.basis == ASSUMED for value in each.after)]  # fmt: skip
        yield f"Assumed: {', '.join(assumed)}. On that rests: {'; '.join(resting) or 'none of the specs'}."


def _parts(told: Beside, engine: Engine, whose: Whose) -> Iterator[str]:
    """Kind by kind, what came off and what went on."""
    was, now = told.before.life.record.parts, told.after.life.record.parts
    changed = {*(was[part].kind for part in told.off), *(now[part].kind for part in told.on)}
    kinds = [kind for kind in PART_KINDS if kind in changed]
    words = {kind: engine.usage.kind(kind) for kind in kinds}
    wide = max(map(len, words.values()), default=0)
    for kind in kinds:
        off = ", ".join(part for part in told.off if was[part].kind == kind) or "none"
        on = ", ".join(part for part in told.on if now[part].kind == kind) or "none"
        yield from layout.beside(words[kind], wide, " → ".join(whose.both(off, on)))


def _worked(told: Beside) -> Iterator[str]:
    wide = max((len(each.part) for each in told.worked), default=0)
    for each in told.worked:
        depth = f" {each.depth}" if each.depth else ""
        yield from layout.beside(each.part, wide, f"{each.operation}{depth}, {each.when or 'only thought of'}")


def _settings(told: Beside, whose: Whose) -> Iterator[str]:
    """Without what is a quantity: of that the record's figures tell more."""
    settings = {name.replace("_", " "): sides for name, sides in told.settings.items() if name not in catalogue()}
    wide = max(map(len, settings), default=0)
    for name, (was, now) in settings.items():
        yield from layout.beside(name, wide, " → ".join(whose.both(was or "none", now or "none")))


def _facts(told: Beside, engine: Engine, whose: Whose) -> Iterator[str]:
    for each in told.facts:
        yield from layout.wrapped(name_of(quantity(each.name), engine), 2, hanging=4)
        before, after = whose.both(each.before or "not known", each.after or "not known")
        both = f"      {before} → {after}"
        if len(both) <= layout.WIDTH:
            yield both
        else:
            yield from (*layout.wrapped(before, 6, hanging=2), *layout.wrapped(f"→ {after}", 4, hanging=4))
