"""`logbook timeline`: the engine's life, each entry with what it did."""

from __future__ import annotations

from collections.abc import Iterator

import click

from logbook.cli import options
from logbook.cli.effects import difference_lines
from logbook.cli.reading import reading
from logbook.cli.shapes import print_json, timeline_shape
from logbook.cli.tables import print_table
from logbook.errors import LogbookError
from logbook.judge.timeline import BELIEF, TOLD, Happening
from logbook.logbook import Logbook
from logbook.record.models import Engine


@click.command("timeline")
@click.option("--all", "everything", is_flag=True, help="Every spec that changed, not only the leading ones.")
@options.in_folder
@options.as_json
@options.as_table
def command(everything: bool, folder: str, as_json: bool, style: str | None) -> None:
    """Show the engine's life, each entry with what it did to the specs.

    Work is told as known now. What was only measured or corrected is told as
    what it changed in belief.

    \b
    Example:  logbook timeline --all
    """
    with reading(folder) as book:
        if as_json:
            print_json(timeline_shape(book.timeline(), _written(book)))
        elif style:
            rows = [_row(each) for each in book.timeline()]
            print_table(("date", "reading", "title", "specs that changed"), rows, style)
        else:
            for each in book.timeline():
                for line in _lines(each, book.record.engine, everything):
                    click.echo(line)


def _written(book: Logbook) -> dict[str, str]:
    """When each file was first committed; empty where there is no git history."""
    from logbook.store.git_read import first_written

    try:
        return {path: when.isoformat() for path, when in first_written(book.folder).items()}
    except LogbookError:
        return {}


def _lines(each: Happening, engine: Engine, everything: bool) -> Iterator[str]:
    reading = ", ".join(map(str, each.entry.says.reading))
    yield f"{click.style(f'{each.entry.says.date!s:<11}', bold=True)}{reading:<14}{each.entry.title}"
    told = {name: change for name, change in each.effect.items() if everything or name in TOLD}
    if told and each.told_as == BELIEF:
        yield "             what this changed in belief:"
    for change in told.values():
        yield from difference_lines(change, engine, " " * 13)
    hidden = len(each.effect) - len(told)
    if told and hidden:
        yield f"             and {hidden} more (--all)"


def _row(each: Happening) -> tuple[str, ...]:
    says = each.entry.says
    return str(says.date), ", ".join(map(str, says.reading)), each.entry.title, ", ".join(each.effect)
