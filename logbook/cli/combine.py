"""`logbook combine`: every combination of the parts that are named."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

import click

from logbook.cli import layout, options
from logbook.cli.figures import condition, figure, joined, name_of, unit_of
from logbook.cli.judgements import broken
from logbook.cli.reading import reading
from logbook.judge.combine import SPECS, CannotCombine, Combination
from logbook.judge.costs import CostOfParts, sums
from logbook.judge.limit_words import CAUTION
from logbook.judge.means import mean_value
from logbook.logbook import Logbook
from logbook.quantity.catalogue import own_name
from logbook.record.facts import ASSUMED
from logbook.record.models import Engine
from logbook.specs.configuration import Configuration
from logbook.specs.results import Spec

_HEAD = ("ratio, mean", "least", "most", "±", "squish", "effective", "Mach 0.5 at", "Mach 0.6 at")

_PRIVATE = "The column cost comes out of private/: take it out of what you publish."


@click.command("combine")
@click.argument("parts", metavar="KIND=PART,PART…", nargs=-1, required=True, type=options.LINE)
@options.text("--want", "wants", shape="WHAT", multiple=True,
              says='Best first: "compression_ratio 9.5..10.2", "squish_clearance >= 0.9 mm".')  # fmt: skip
@options.text("--at", "point", shape="POINT", default="now", says="The engine they go on; now if left out.")
@options.text("--with", "other", shape="DIR", says="Another engine's folder, whose parts may be named too.")
@options.suppose
@options.in_folder
@options.as_json
@options.as_table
def command(parts: tuple[str, ...], wants: tuple[str, ...], point: str, other: str | None, suppose: tuple[str, ...],
            folder: str, as_json: bool, style: str | None) -> None:  # fmt: skip
    """Work out every combination of the parts you name on this engine. A part may be
    taken as it stood: head-b@2017-05-01. On two banks join the heads: left+right.

    \b
    Example:  logbook combine cylinder_head=head-a,head-c pistons=pistons-1
    """
    with reading(folder) as book:
        found = book.combine(_wanted(parts), wants, at=point, suppose=suppose, shelf=other)
        engine = book.record.engine
        if as_json:
            from logbook.cli.shapes import print_json

            print_json({"combinations": [_shape(each, book.cost_of(each)) for each in found]})
        elif style:
            from logbook.cli.tables import print_table

            rows = [_row(each, engine, book.cost_of(each)) for each in found]
            priced = ("cost",) if book.cost_of(found[0]) else ()
            print_table((*found[0].parts, *_HEAD, *priced, "remarks"), rows, style)
            if priced:
                click.echo(_PRIVATE, err=True)
        else:
            for line in _lines(found, book, book.at(point, suppose), point):
                click.echo(line)


def _wanted(parts: Sequence[str]) -> dict[str, list[str]]:
    """`cylinder_head=a,b` as kind -> parts."""
    wanted: dict[str, list[str]] = {}
    for text in parts:
        kind, _, names = (each.strip() for each in text.partition("="))
        some = [name.strip() for name in names.split(",")]
        if not all(some):
            raise CannotCombine(f"`{text}`: write a kind, = and parts: cylinder_head=head-a,head-b")
        kind = own_name(kind)
        if kind in wanted:
            raise CannotCombine(f"`{kind}` is named twice; put all its parts behind one =")
        wanted[kind] = list(dict.fromkeys(some))
    return wanted


def _lines(found: Sequence[Combination], book: Logbook, beside: Configuration, point: str) -> Iterator[str]:
    engine = beside.life.record.engine
    yield from layout.titled(f"{engine.name}: {len(found)} combination{'s' if len(found) > 1 else ''} at {point}")
    if any(each.wants for each in found):
        yield "best first"
    for each in found:
        yield ""
        yield from layout.titled(" + ".join(each.parts.values()))
        for line in _told(each, engine, book.cost_of(each)):
            yield from layout.wrapped(line, indent=2, hanging=2)
    careful = dict.fromkeys(caution for each in found for caution in each.cautions(beside))
    if careful:
        yield from ("", layout.title("Careful, with one or another of these"))
        for caution in careful:
            yield from layout.wrapped(caution, indent=2, hanging=2)
    yield ""
    nothing_of = engine.usage.prose("Ratio and squish say nothing of valves, water ways and bolts")
    yield from layout.wrapped(f"± is expanded, k = 2. {nothing_of}: whether parts go together is proved by trial "
                              f"assembly; {CAUTION}.")  # fmt: skip


def _told(each: Combination, engine: Engine, cost: CostOfParts | None) -> Iterator[str]:
    ratio = each.specs["compression_ratio"]
    if ratio.known:
        mean, least, most, spread = _ratio(each, engine)
        between = f", {least} to {most}" if least != most else ""
        yield f"compression ratio {joined(mean, spread)}{between}"
    else:
        yield "compression ratio not known: " + (ratio.because or f"needs {', '.join(each.unmeasured)}")
    for name in SPECS[2:4]:
        spec = each.specs[name]
        if spec.known:
            taken = "".join(f", {condition(key, text, engine.show)}" for key, text in spec.conditions.items())
            yield f"{name_of(spec.row, engine)} {_mean(spec, engine)}{taken}"
    yield from _filling(each, engine)
    for text, verdict in each.wants.items():
        yield f"{text}: {verdict}"
    if cost:
        yield f"cost {_cost(cost)}"
    yield from _remarks(each)
    yield from broken(each.at)


def _filling(each: Combination, engine: Engine) -> Iterator[str]:
    """The band of engine speed in which filling falls, by the inlet Mach index; no single speed is a limit."""
    begins, fast = (_mean(each.specs[name], engine) for name in SPECS[4:])
    if begins and fast:
        assumed = each.specs["inlet_flow_coefficient"].basis == ASSUMED
        index = engine.usage.prose("inlet Mach index")
        yield (f"filling falls from {begins}, {index} 0.5, and fast by {fast}, index 0.6"
               + (": with a flow coefficient that is assumed" if assumed else ""))  # fmt: skip


def _cost(cost: CostOfParts) -> str:
    """`520.00 EUR; unknown of pistons-1; undivided, with other parts, 310.00 EUR`."""
    unknown = f"unknown of {', '.join(cost.unknown)}" if cost.unknown else ""
    shared = f"undivided, with other parts, {_amounts(sums(cost.shared))}" if cost.shared else ""
    return "; ".join(words for words in (_amounts(cost.known), unknown, shared) if words)


def _amounts(sums: Mapping[str, Decimal]) -> str:
    return " + ".join(f"{amount} {currency}" for currency, amount in sums.items())


def _ratio(each: Combination, engine: Engine) -> tuple[str, str, str, str]:
    """Mean, least, most and the ± of the mean, as text."""
    spec = each.specs["compression_ratio"]
    mean = figure(spec.row, mean_value(spec.known), engine.show)
    single = [figure(spec.row, value, engine.show)[0] for value in sorted(spec.known, key=lambda value: value.nominal)]
    return mean[0], single[0], single[-1], mean[1]


def _mean(spec: Spec, engine: Engine) -> str:
    if not spec.known:
        return ""
    return joined(*figure(spec.row, mean_value(spec.known), engine.show), unit_of(spec.row, engine))


def _remarks(each: Combination) -> Iterator[str]:
    ratio = each.specs["compression_ratio"]
    if ratio.known and each.rests_on_unmeasured:
        yield f"rests on figures that are {ratio.basis}"
    if each.not_owned:
        yield f"not on this shelf: {', '.join(each.not_owned)}"
    yield from each.misfits


def _row(each: Combination, engine: Engine, cost: CostOfParts | None) -> tuple[str, ...]:
    known = bool(each.specs["compression_ratio"].known)
    ratio = _ratio(each, engine) if known else ("", "", "", "")
    others = (_mean(each.specs[name], engine) for name in SPECS[2:])
    verdicts = (f"{text}: {verdict}" for text, verdict in each.wants.items())
    priced = (_cost(cost),) if cost else ()
    remarks = "; ".join((*verdicts, *_remarks(each), *broken(each.at)))
    return (*each.parts.values(), *ratio, *others, *priced, remarks)


def _shape(each: Combination, cost: CostOfParts | None) -> dict[str, Any]:
    from logbook.cli.shapes import spec_shape

    return {
        "parts": dict(each.parts),
        "specs": {name: spec_shape(each.specs[name]) for name in SPECS},
        "wants": dict(each.wants),
        "not_owned": list(each.not_owned),
        "cost": _cost_shape(cost) if cost else None,
        "findings": [*_remarks(each), *broken(each.at)],
    }


def _cost_shape(cost: CostOfParts) -> dict[str, Any]:
    shared = [{"of": each.of, "amount": float(each.amount), "currency": each.currency} for each in cost.shared]
    known = {currency: float(amount) for currency, amount in cost.known.items()}
    return {"known": known, "unknown": list(cost.unknown), "shared": shared}
