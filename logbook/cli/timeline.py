"""`logbook timeline`: the engine's life, each entry with what it did."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence

import click

from logbook.cli import layout, options
from logbook.cli.effects import IN_FULL, effect_lines, told_short
from logbook.cli.figures import name_of, stated, told
from logbook.cli.forecast_lines import LEGEND, score_lines
from logbook.cli.reading import reading
from logbook.cli.shapes import print_json, timeline_shape
from logbook.cli.tables import print_table
from logbook.judge.of_a_test import as_read
from logbook.judge.timeline import BELIEF, OF_A_TEST_TOLD, TOLD, Happening
from logbook.logbook import Logbook
from logbook.quantity.catalogue import own_name, quantity
from logbook.record import entries as model
from logbook.record.models import Engine
from logbook.record.record import Entry
from logbook.specs.graph import Node
from logbook.state.sayings import closed_by
from logbook.written import LATE, WrittenDown


@click.command("timeline")
@click.option("--all", "everything", is_flag=True, help="Every spec that changed, not only the leading ones.")
@options.text("--part", shape="PART", says="The life of one part: places, distance, work, figures.")
@options.text("--fact", shape="NAME", says="The history of one value: who stated it, and what became of it.")
@options.text("--since", shape="CHANGE", says="What the engine and its parts have run since a change.")
@options.in_folder
@options.as_json
@options.as_table
def command(everything: bool, part: str | None, fact: str | None, since: str | None, folder: str, as_json: bool,
            style: str | None) -> None:  # fmt: skip
    """Show the engine's life, each entry with what it did to the specs.

    Work is told as known now. What was only measured or corrected is told as
    what it changed in belief. --part with --fact: that value of that part.

    \b
    Example:  logbook timeline --all
              logbook timeline --part head-b
              logbook timeline --fact chamber_volume
              logbook timeline --since third-head
    """
    with reading(folder) as book:
        if part or fact or since:
            _one_thread(book, part, fact and own_name(fact), since, (as_json, style))
        elif as_json:
            print_json(timeline_shape(book.timeline(), book.written, book.record))
        elif style:
            rows = [_row(each) for each in book.timeline()]
            print_table(("date", "reading", "title", "specs that changed"), rows, style)
        else:
            for line in _lines(tuple(book.timeline()), book, everything):
                click.echo(line)


def _one_thread(
    book: Logbook, part: str | None, fact: str | None, since: str | None, how: tuple[bool, str | None]
) -> None:
    """One part, one value or one stretch out of the whole life, as text, JSON or a table."""
    from logbook.cli import histories

    engine, (as_json, style) = book.record.engine, how
    head: tuple[str, ...]
    if since and (part or fact):
        raise click.UsageError("--since stands alone: it tells of the engine and all of its parts")
    if since:
        ran = book.since(since)
        head, rows = ("what", "run", "where"), histories.since_rows(ran, engine)
        shape, lines = histories.since_shape(ran), histories.since_lines(ran, engine)
    elif fact:
        said = book.value_history(fact, part)
        changes = [] if part else [each for each in book.timeline() if fact in each.effect]
        head, rows = ("date", "part", "value", "basis", "with", "became", "file"), histories.value_rows(said)
        shape = histories.value_shape(fact, said, changes)
        lines = histories.value_lines(fact, said, changes, engine)
    else:
        life = book.part_life(part or "")
        head, rows = ("date", "run", "what", "entry"), histories.part_rows(life, engine)
        shape, lines = histories.part_shape(life), histories.part_lines(life, engine)
    if as_json:
        print_json(shape)
    elif style:
        print_table(head, rows, style)
    else:
        for line in lines:
            click.echo(line)


def _lines(happenings: Sequence[Happening], book: Logbook, everything: bool) -> Iterator[str]:
    readings = [", ".join(map(str, each.entry.says.reading)) for each in happenings]
    day = max((len(str(each.entry.says.date)) for each in happenings), default=0)
    wide = max(map(len, readings), default=0)
    at_once = _written_at_once(happenings, book)
    for each, shown in zip(happenings, readings, strict=True):
        head = f"{each.entry.says.date!s:<{day}}  {shown:<{wide}}  "
        first, *more = layout.wrapped(each.entry.title, indent=len(head))
        yield from (f"{layout.title(head[:day])}{head[day:]}{first.lstrip()}", *more)
        yield from _of_itself(each, book)
        yield from _written(book.written.get(each.entry.file), at_once)
        yield from _effect(each, book.record.engine, everything)
        yield from _forecast(each, book.record.engine, everything)
        yield from _of_the_test(each, book.record.engine, everything)
    if any(told_short(each.effect.values()) for each in happenings):
        yield from ("", *layout.wrapped(IN_FULL))
    if any(each.scores for each in happenings):
        yield from ("", *layout.wrapped(LEGEND))
    for late, some in at_once.items():
        days = f"{some[0].says.date} to {some[-1].says.date}"
        says = f"{len(some)} entries, of {days}, were written down on {late}, over {LATE} days after their own."
        yield from ("", *layout.wrapped(says))


def _of_itself(each: Happening, book: Logbook) -> Iterator[str]:
    """What an entry was copied from, and of an open question whether it still is one."""
    says = each.entry.says
    if says.written_from:
        yield from layout.wrapped(f"copied from {says.written_from}", indent=4, hanging=2)
    if isinstance(says, model.Note) and says.open:
        closing = closed_by(book.record, each.number)
        answer = f"closed on {closing.says.date}: {closing.title}" if closing else "still open"
        yield from layout.wrapped(answer, indent=4, hanging=2)


def _written_at_once(happenings: Sequence[Happening], book: Logbook) -> dict[str, list[Entry]]:
    """The days on which several entries were written late, as when an old book is copied: said once, at the end."""
    late: dict[str, list[Entry]] = {}
    for each in happenings:
        written = book.written.get(each.entry.file)
        if written and written.late:
            late.setdefault(_day(written), []).append(each.entry)
    return {day: some for day, some in late.items() if len(some) > 1}


def _day(written: WrittenDown) -> str:
    return f"{written.first:%Y-%m-%d}"


def _written(written: WrittenDown | None, at_once: Container[str]) -> Iterator[str]:
    """What git knows of an entry that a reader would not expect: written late, or amended since."""
    if written is None:
        return
    if written.late and _day(written) not in at_once:
        yield f"    written down {written.days_after} days later, on {written.first:%Y-%m-%d}"
    for amendment in written.amended:
        yield f"    amended on {amendment.when:%Y-%m-%d} (commit {amendment.commit[:10]})"
        for line in amendment.lines:
            yield from layout.wrapped(line, indent=6)


def _effect(each: Happening, engine: Engine, everything: bool) -> Iterator[str]:
    told = [change for name, change in each.effect.items() if everything or name in TOLD]
    if told and each.told_as == BELIEF:
        yield "    what this changed in belief:"
    yield from effect_lines(told, engine, 4)
    hidden = len(each.effect) - len(told)
    if told and hidden:
        yield f"    and {hidden} more (--all)"


def _forecast(each: Happening, engine: Engine, everything: bool) -> Iterator[str]:
    """What the plan that this carried out had said, against what was found since."""
    told = [score for score in each.scores if everything or score.name in TOLD]
    if told:
        yield f"    forecast of {each.entry.says.forecast.from_} → found:"
    yield from score_lines(told, engine, 4)


def _of_the_test(each: Happening, engine: Engine, everything: bool) -> Iterator[str]:
    """What a test comes to by its own figures; of a run at its greatest power, which is said first."""
    if each.tested is None:
        return
    names = [name for name in each.tested.own if everything or name in OF_A_TEST_TOLD]
    speed = each.tested.best.speed
    if names and speed:
        there = f"at greatest power, {stated(quantity('engine_speed'), speed, engine.show)}, "
        yield f"    {there * (len(each.tested.rows) > 1)}{as_read(each.tested)}:"
    for name in names:
        known = [told(node, engine) for node in each.tested.best.graph.all(name) if isinstance(node, Node)]
        yield from layout.wrapped(f"{name_of(quantity(name), engine)}: {', '.join(known)}", 4, hanging=2)


def _row(each: Happening) -> tuple[str, ...]:
    says = each.entry.says
    return str(says.date), ", ".join(map(str, says.reading)), each.entry.title, ", ".join(each.effect)
