"""`logbook compare A [B]`: two points side by side."""

from __future__ import annotations

from collections.abc import Iterator

import click

from logbook.cli import layout, options
from logbook.cli.effects import IN_FULL, effect_lines, told_short
from logbook.cli.figures import figure, name_of, signed, unit_of
from logbook.cli.reading import reading
from logbook.cli.shapes import compare_shape, print_json
from logbook.cli.tables import print_table
from logbook.judge.compare import Comparison
from logbook.quantity.catalogue import PART_KINDS, catalogue, quantity
from logbook.record.models import Engine
from logbook.record.read import Record


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
        if as_json:
            print_json(compare_shape(comparison, before, after))
        elif style:
            head = ("spec", "position", before, after, "difference", "±", "unit", "verdict")
            print_table(head, list(_rows(comparison, book.record.engine)), style)
        else:
            click.echo(layout.title(f"{book.record.engine.name}: {before} → {after}"))
            for line in _lines(comparison, book.record):
                click.echo(line)


def _lines(comparison: Comparison, record: Record) -> Iterator[str]:
    changed = [each for each in comparison.specs.values() if each.changed]
    for title, lines in (
        ("Parts", list(_parts(comparison, record))),
        ("Settings", list(_settings(comparison))),
        ("Figures of the record", list(_facts(comparison, record.engine))),
        ("Specs", list(effect_lines(changed, record.engine, 2))),
    ):
        if lines:
            yield from ("", layout.title(title), *lines)
    yield ""
    same = len(comparison.specs) - len(changed)
    yield f"{same} {'specs are' if same != 1 else 'spec is'} the same at both points. ± is expanded, k = 2."
    if told_short(changed):
        yield from layout.wrapped(IN_FULL)


def _parts(comparison: Comparison, record: Record) -> Iterator[str]:
    """Kind by kind, what came off and what went on."""
    changed = [*comparison.off, *comparison.on]
    kinds = [kind for kind in PART_KINDS if any(record.parts[part].kind == kind for part in changed)]
    words = {kind: PART_KINDS[kind][record.engine.words == "us"] for kind in kinds}
    wide = max(map(len, words.values()), default=0)
    for kind in kinds:
        off, on = (", ".join(part for part in side if record.parts[part].kind == kind) or "none"
                   for side in (comparison.off, comparison.on))  # fmt: skip
        yield from layout.beside(words[kind], wide, f"{off} → {on}")


def _settings(comparison: Comparison) -> Iterator[str]:
    """Without what is a quantity: of that the record's figures tell more."""
    settings = {name.replace("_", " "): sides for name, sides in comparison.settings.items() if name not in catalogue()}
    wide = max(map(len, settings), default=0)
    for name, (was, now) in settings.items():
        yield from layout.beside(name, wide, f"{was or 'none'} → {now or 'none'}")


def _facts(comparison: Comparison, engine: Engine) -> Iterator[str]:
    for each in comparison.facts:
        yield f"  {name_of(quantity(each.name), engine)}"
        before, after = each.before or "not known", each.after or "not known"
        both = f"      {before} → {after}"
        yield from [both] if len(both) <= layout.WIDTH else [f"      {before}", f"    → {after}"]


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
