"""`logbook target`: what a quantity must become."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import click

from logbook.cli import layout, options
from logbook.cli.figures import joined, name_of, shown_unit, stated, thought_of, unit_of
from logbook.cli.judgements import broken
from logbook.cli.reading import configured
from logbook.judge.hurts import MAKER_FIRST, cautions
from logbook.judge.target import CUTS, CannotAim, Needed, Target, metal_after, opening_assumed, target
from logbook.judge.timeline import changed
from logbook.quantity.catalogue import Quantity, catalogue, did_you_mean, own_name, quantity
from logbook.quantity.rounding import plain
from logbook.quantity.units import unit
from logbook.quantity.value import ValueProblem, parse_line
from logbook.record.models import Engine
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.index import ALL_SPECS
from logbook.state.prediction import OPENING_SHARE, OPENING_SHARE_SPREAD


@click.command("target")
@click.argument("wanted", metavar="SPEC=VALUE", type=options.LINE)
@options.text(
    "--by",
    shape="QUANTITY",
    says="What is to be changed: chamber_volume, gasket_thickness, or a cut: surface_milled, decked.",
)
@options.text("--at", "point", shape="POINT", default="now", says="The point that it stands on; now if left out.")
@options.suppose
@options.given
@options.in_folder
@options.as_json
@options.as_table
def command(wanted: str, by: str | None, point: str, suppose: tuple[str, ...], given: tuple[str, ...], folder: str,
            as_json: bool, style: str | None) -> None:  # fmt: skip
    """Work out what a quantity must become for a spec to have a wanted value.

    \b
    Example:  logbook target compression_ratio=11.0 --by chamber_volume
              logbook target compression_ratio=11.0 --by surface_milled
    """
    with configured(folder, point, suppose, given) as at:
        row, value = _wanted(wanted)
        found = target(at, row.name, value, by or "")
        engine = at.life.record.engine
        if as_json:
            from logbook.cli.shapes import print_json

            print_json(_shape(at, found))
        elif style:
            from logbook.cli.tables import print_table

            print_table(("position", "now", "needed", "±", "unit"), list(_rows(at, found, engine)), style)
        else:
            for line in _lines(at, found, engine, point):
                click.echo(line)
    if not all(each.solved for each in found.needed):
        raise click.exceptions.Exit(1)


def _wanted(text: str) -> tuple[Quantity, float]:
    """`compression_ratio=9.8`: the spec and the value in base units."""
    typed, _, value = (each.strip() for each in text.partition("="))
    name = own_name(typed)
    row = catalogue().get(name)
    if row is None and not value:
        raise CannotAim(f"`{text}`: write a spec, = and the value that it should have, compression_ratio=9.8")
    if row is None:
        raise CannotAim(f"`{typed}` is not a spec{did_you_mean(typed, list(ALL_SPECS), 'logbook explain lists them')}")
    if not value:
        raise CannotAim(f"say what {name} should be: {name}=" + ("9.8" if not row.unit else f"1 {row.unit}"))
    try:
        line = parse_line(value, row)
    except ValueProblem as problem:
        raise CannotAim(f"{name}: {problem.says}; {problem.mend}") from None
    figures = list(line.figures)
    if len(figures) != 1:
        raise CannotAim(f"{name}: one value is aimed at, not {len(figures) or 'an unknown one'}")
    return row, figures[0].nominal


def _lines(at: Configuration, found: Target, engine: Engine, point: str) -> Iterator[str]:
    wanted = stated(found.spec, found.wanted, engine.show)
    yield layout.title(f"{engine.name}: {name_of(found.spec, engine)} of {wanted}")
    yield from layout.wrapped(thought_of(at) if at.point.plan else f"at {point}")
    yield ""
    unsolved = [each for each in found.needed if not each.solved]
    yield from _unsolved(unsolved, found, engine) if unsolved else _solved(at, found, engine)
    for line in _beside(at, found, engine):
        yield from layout.wrapped(line, indent=2, hanging=2)
    yield ""
    yield "± is expanded, k = 2: how well what the answer rests on is known."


def _solved(at: Configuration, found: Target, engine: Engine) -> Iterator[str]:
    its = unit_of(found.row, engine)
    yield f"  {_by_name(found, engine)} needed" + ("" if len(found.needed) > 1 else _of_all(found))
    for each in found.needed:
        place = f"{found.row.place} {each.position}: " if each.position else ""
        number, plus_minus = _figure(found.row, each, engine.show)
        now = f"   (now {_now(at, found, each, engine)})" if each.now is not None else ""
        yield f"    {place}{_with_side(found.row, number, plus_minus, its)}{now}"


def _now(at: Configuration, found: Target, each: Needed, engine: Engine) -> str:
    """What it is now, in no fewer decimals than it was written with; '' where it is not known."""
    if each.now is None:
        return ""
    number, _, its = stated(found.row, each.now, engine.show).partition(" ")
    node = at.graph.at(found.row.name, each.position)
    held = node.held if isinstance(node, Node) else None
    written = [figure for position in held.fact.positions for figure in position or ()] if held else []
    places = [len(figure.number.partition(".")[2]) for figure in written if figure.unit == its]
    if max(places, default=0) > len(number.partition(".")[2]):
        number = f"{float(number):.{max(places)}f}"
    return f"{number} {its}".rstrip()


def _of_all(found: Target) -> str:
    return f", for the mean of the {found.spec.place}s" if found.spec.place != found.row.place else ""


def _unsolved(unsolved: list[Needed], found: Target, engine: Engine) -> Iterator[str]:
    for each in unsolved:
        of = f" of {found.row.place} {each.position}" if each.position else ""
        nearest_to = stated(found.row, each.value, engine.show)
        reached = stated(found.spec, each.reached, engine.show)
        yield from layout.wrapped(
            f"No {_by_name(found, engine)}{of} that a workshop would believe gives it. The nearest is {nearest_to}, "
            f"which gives {reached}.", indent=2)  # fmt: skip


def _by_name(found: Target, engine: Engine) -> str:
    return f"depth to take off ({CUTS[found.by][0]})" if found.by in CUTS else name_of(found.row, engine)


def _with_side(row: Quantity, number: str, plus_minus: str, its: str) -> str:
    """A signed figure is told by its side, never by a sign."""
    if not row.sides:
        return joined(number, plus_minus, its)
    return f"{joined(number.removeprefix('-'), plus_minus, its)} {row.sides[number.startswith('-')]}"


def _figure(row: Quantity, each: Needed, show: str) -> tuple[str, str]:
    its = shown_unit(row, show)
    return plain(unit(its).from_base(each.value) if its else each.value,
                 each.expanded / unit(its).size(1.0) if its else each.expanded)  # fmt: skip


def _beside(at: Configuration, found: Target, engine: Engine) -> Iterator[str]:
    """What the answer means at the bench: metal, limits, cautions."""
    if all(each.solved for each in found.needed):
        yield from _by_milling(at, found, engine)
        yield from _opening_taken(found, engine)
        for part, surface in metal_after(found):
            left = surface.metal_left
            usage = engine.usage
            told = usage.said(quantity("metal_left"), left.nominal, 3) if left else "unknown: no limit is recorded"
            name = usage.prose(surface.name)
            yield f"Metal left on the {name} of {part} after it: {told}."
            if left is None or left.nominal < left.expanded:
                yield f"Prove before cutting that the {name} has this much metal to give. {MAKER_FIRST}"
        yield from cautions(changed(at, found.at), at, found.at)
    yield from broken(found.at, at)


def _by_milling(at: Configuration, found: Target, engine: Engine) -> Iterator[str]:
    """A smaller chamber is mostly had by milling the joint face: how deep that would be."""
    if found.by != "chamber_volume" or not all(each.now and each.value < each.now for each in found.needed):
        return
    try:
        cut = target(at, found.spec.name, found.wanted, "surface_milled")
    except CannotAim:
        return
    if cut.needed[0].solved:
        depth = joined(*_figure(cut.row, cut.needed[0], engine.show), unit_of(cut.row, engine))
        yield f"By milling the {engine.usage.prose('joint face')} alone: {depth} off, the same for all chambers."
        yield from _opening_taken(cut, engine)


def _opening_taken(found: Target, engine: Engine) -> Iterator[str]:
    """What a depth rests on that nobody has measured, before metal is cut by it."""
    if opening_assumed(found):
        yield (
            f"The chambers' opening in the {engine.usage.prose('joint face')} was not measured, and is taken as "
            f"{OPENING_SHARE} ± {OPENING_SHARE_SPREAD} of the bore's area: measure chamber_opening before cutting."
        )


def _rows(at: Configuration, found: Target, engine: Engine) -> Iterator[tuple[str, ...]]:
    for each in found.needed:
        number, plus_minus = _figure(found.row, each, engine.show)
        now = _now(at, found, each, engine)
        solved = (number, plus_minus) if each.solved else ("none", "")
        yield (each.position, now, *solved, unit_of(found.row, engine))


def _shape(at: Configuration, found: Target) -> dict[str, Any]:
    from logbook.cli.shapes import size, usual

    one = len(found.needed) == 1
    needed = [usual(found.row, each.value) if each.solved else None for each in found.needed]
    spread = [size(found.row, each.expanded) if each.solved else None for each in found.needed]
    return {
        "spec": found.spec.name,
        "value": usual(found.spec, found.wanted),
        "by": found.by,
        "positions": [each.position for each in found.needed if each.position],
        "needed": needed[0] if one else needed,
        "uncertainty": spread[0] if one else spread,
        "unit": found.row.unit,
        "nearest": [
            {"position": at_fault.position, "needed": usual(found.row, at_fault.value),
             "value": usual(found.spec, at_fault.reached)}
            for at_fault in found.needed if not at_fault.solved
        ],
        "findings": list(broken(found.at, at)),
    }  # fmt: skip
