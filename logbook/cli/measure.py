"""`logbook measure`: enter figures that were measured."""

from __future__ import annotations

import click

from logbook.cli import options
from logbook.cli.entering import Tree, enter, today, without_gaps
from logbook.quantity.catalogue import catalogue, nearest


@click.command("measure")
@click.argument("words", nargs=-1, metavar="[PART] QUANTITY VALUE [QUANTITY VALUE]...")
@click.option("--with", "instrument", metavar="INSTRUMENT", help="What it was measured with, as engine.yaml names it.")
@click.option("--at-lift", metavar="LIFT", help='Checking lift of camshaft events: "1.00 mm".')
@click.option("--at-lash", metavar="LASH", help='Lash set while checking: "0.25 mm".')
@click.option("--title", metavar="TEXT", help="One line for the timeline.")
@options.dated
@options.even_so
@options.in_folder
def command(words: tuple[str, ...], instrument: str | None, at_lift: str | None, at_lash: str | None,
            title: str | None, date: str | None, time: str | None, reading: str | None, by: str | None,
            note: str | None, slug: str | None, even_so: str | None, folder: str) -> None:  # fmt: skip
    """Enter figures that were measured, of a PART or (left out) of the engine
    as it is together. Values are written as in the files: by cylinder with /
    between, x where one was not taken, the unit at the end.

    \b
    Example:  logbook measure head-b chamber_volume "38.1 / 38.3 / x / 38.2 cc"
                --with burette-50 --date 2024-02-11 --reading "61204 km"
    """
    part, values = _part_and_values(words)
    tree: Tree = without_gaps({
        "date": date or today(), "time": time, "reading": reading, "by": by, "title": title, "part": part,
        "with": instrument, "at_lift": at_lift, "at_lash": at_lash, "values": values, "note": note,
    })  # fmt: skip
    enter(folder, "measurements", tree, slug or title or _name(part, values), even_so)


def _part_and_values(words: tuple[str, ...]) -> tuple[str | None, dict[str, str]]:
    """An odd number of words begins with the part."""
    if len(words) < 2:
        raise click.UsageError('write a quantity and its value, for example: chamber_volume "38.1 / 38.3 cc"')
    part, pairs = (words[0], words[1:]) if len(words) % 2 else (None, words)
    values: dict[str, str] = {}
    for quantity, value in zip(pairs[0::2], pairs[1::2], strict=True):
        if quantity not in catalogue():
            near = nearest(quantity, list(catalogue()))
            raise click.UsageError(f"`{quantity}` is not a quantity" + (f"; did you mean {near}?" if near else ""))
        if quantity in values:
            raise click.UsageError(f"`{quantity}` stands twice; write repeated readings into a file under `readings:`")
        values[quantity] = value
    return part, values


def _name(part: str | None, values: dict[str, str]) -> str:
    return " ".join([part or "", *list(values)[:2]]).replace("_", " ")
