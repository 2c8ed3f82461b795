"""`logbook measure`: enter figures that were measured."""

from __future__ import annotations

import re
from typing import Any

import click

from logbook.cli import options
from logbook.cli.entering import Told, Tree, enter, figure_typed
from logbook.logbook import Logbook
from logbook.quantity.catalogue import Quantity, catalogue, did_you_mean, own_name

_EXAMPLE = 'write a quantity and its value, for example: chamber_volume "38.1 / 38.3 cc"'


class _Measure(click.Command):
    """A command that says what a value below zero is taken for."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        try:
            return super().parse_args(ctx, args)
        except click.NoSuchOption as problem:
            if not re.match(r"-[0-9.]", problem.option_name):
                raise
            raise click.UsageError(
                "a value that begins with a minus is taken for an option. Sides are said in words (0.02 mm above, "
                "32 deg before TDC); for a temperature below zero write -- before the first word"
            ) from None


@click.command("measure", cls=_Measure)
@click.argument("words", nargs=-1, metavar="[PART] QUANTITY VALUE [QUANTITY VALUE]...")
@options.text("--with", "instrument", shape="INSTRUMENT", says="What it was measured with, as engine.yaml names it.")
@options.text("--at-lift", shape="LIFT", says='Checking lift of camshaft events: "1.00 mm".')
@options.text("--at-lash", shape="LASH", says='Lash set while checking: "0.25 mm".')
@options.text("--title", shape="TEXT", says="One line for the timeline.")
@options.dated
def command(words: tuple[str, ...], instrument: str | None, at_lift: str | None, at_lash: str | None,
            title: str | None, **told: Any) -> None:  # fmt: skip
    """Enter figures that were measured, of a PART or (left out) of the engine
    as it is together. Values are written as in the files: by cylinder with /
    between, x where one was not taken, the unit at the end.

    \b
    Example:  logbook measure head-b chamber_volume "36.4 / 36.9 / x / 36.8 cc"
                --with burette-50 --date 2020-04-11 --reading "41.6 h"
    """
    if len(words) == 1:
        raise click.UsageError(_of_a_part(words[0], told["folder"]))
    part, values = _part_and_values(tuple(map(options.LINE, words)))
    says = {"title": title, "part": part, "with": instrument, "at_lift": at_lift, "at_lash": at_lash, "values": values}
    enter("measurements", says, title or _name(part, values), Told(**told))


def _part_and_values(words: tuple[str, ...]) -> tuple[str | None, Tree]:
    """An odd number of words begins with the part."""
    if len(words) < 2:
        raise click.UsageError(_EXAMPLE)
    part, pairs = (words[0], words[1:]) if len(words) % 2 else (None, words)
    values: Tree = {}
    for typed, value in zip(pairs[0::2], pairs[1::2], strict=True):
        quantity = own_name(typed)
        if quantity not in catalogue():
            raise click.UsageError(_no_quantity(quantity, words))
        if quantity in values:
            raise click.UsageError(f'`{quantity}` stands twice; write repeated readings as "{{readings: […, …]}}"')
        values[quantity] = figure_typed(value, quantity)
    return part, values


def _of_a_part(part: str, folder: str) -> str:
    """What can be measured of a part that was named alone."""
    its = Logbook.open(folder).record.parts.get(part)
    if its is None:
        return f"`{part}` stands alone; {_EXAMPLE}"
    own = [row.name for row in catalogue().values() if _is_of(its.kind, row)]
    return f"say what was measured of {part}, and its value; there is {', '.join(own) or 'nothing of this kind'}"


def _is_of(kind: str, row: Quantity) -> bool:
    """Whether a figure may be stated of a part of that kind alone."""
    alone = len(row.owner) == 1 or row.card
    return alone and not row.derived_only and kind in row.owner[0].split("|")


def _no_quantity(word: str, words: tuple[str, ...]) -> str:
    near = did_you_mean(word, [row.name for row in catalogue().values() if not row.derived_only])
    if near:
        return f"`{word}` is not a quantity{near}"
    if "/" in words:
        return f'`{word}` is not a quantity; put a value with blanks in it into quotes: "38.1 / 38.3 cc"'
    return f"`{word}` is not a quantity; write a part if need be, and then quantities, each with its value"


def _name(part: str | None, values: Tree) -> str:
    return " ".join([part or "", *list(values)[:2]]).replace("_", " ")
