"""`logbook compare A [B]`: two points side by side."""

from __future__ import annotations

from collections.abc import Iterator

import click

from logbook.cli import options
from logbook.cli.effects import difference_lines
from logbook.cli.figures import figure, name_of, signed, unit_of
from logbook.cli.reading import reading
from logbook.cli.shapes import compare_shape, print_json
from logbook.cli.tables import print_table
from logbook.judge.compare import Comparison
from logbook.quantity.catalogue import quantity
from logbook.record.models import Engine


@click.command("compare")
@click.argument("before", type=options.LINE)
@click.argument("after", default="now", type=options.LINE)
@options.in_folder
@options.as_json
@options.as_table
def command(before: str, after: str, folder: str, as_json: bool, style: str | None) -> None:
    """Set the engine at point BEFORE beside the engine at point AFTER (now).

    A difference is real, or within the error of what was measured; what both
    sides share cancels.

    \b
    Example:  logbook compare donor-head third-head
    """
    with reading(folder) as book:
        comparison = book.compare(before, after)
        engine = book.record.engine
        if as_json:
            print_json(compare_shape(comparison, before, after))
        elif style:
            head = ("spec", "position", before, after, "difference", "±", "unit", "verdict")
            print_table(head, list(_rows(comparison, engine)), style)
        else:
            click.echo(click.style(f"{engine.name}: {before} → {after}", bold=True))
            for line in _lines(comparison, engine):
                click.echo(line)


def _lines(comparison: Comparison, engine: Engine) -> Iterator[str]:
    for title, lines in (
        ("Parts", [*(f"  off  {part}" for part in comparison.off), *(f"  on   {part}" for part in comparison.on)]),
        ("Settings", [f"  {name.replace('_', ' ')}: {was or 'none'} → {now or 'none'}"
                      for name, (was, now) in comparison.settings.items()]),
        ("Figures of the record", [line for each in comparison.facts
                                   for line in _fact(name_of(quantity(each.name), engine), each.before, each.after)]),
        ("Specs", [line for each in comparison.specs.values() if each.changed
                   for line in difference_lines(each, engine, "  ")]),
    ):  # fmt: skip
        if lines:
            yield ""
            yield click.style(title, bold=True)
            yield from lines
    same = [each for each in comparison.specs.values() if not each.changed]
    yield ""
    yield f"{len(same)} specs are the same at both points. ± is expanded, k = 2."


def _fact(name: str, before: str | None, after: str | None) -> Iterator[str]:
    yield f"  {name}"
    yield f"    {before or 'not known'}"
    yield f"    → {after or 'not known'}"


def _rows(comparison: Comparison, engine: Engine) -> Iterator[tuple[str, ...]]:
    for each in comparison.specs.values():
        for number, position in enumerate(each.positions):
            was, now, delta = each.before[number], each.after[number], each.differences[number]
            if was is None and now is None:
                continue
            change = signed(each.row, delta, engine.show) if delta else ("", "")
            yield (name_of(each.row, engine), position, figure(each.row, was, engine.show)[0] if was else "",
                   figure(each.row, now, engine.show)[0] if now else "", *change, unit_of(each.row, engine),
                   each.verdicts[number] or "")  # fmt: skip
