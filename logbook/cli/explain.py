"""`logbook explain`: how a value came about, and what to measure next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import click

from logbook.cli import layout, options
from logbook.cli.explain_curve import curve_sections, table_sections
from logbook.cli.explain_lines import (
    KNOCK,
    Section,
    explanation_sections,
    overview_sections,
    page_sections,
    tests_giving,
)
from logbook.cli.reading import configured, reading
from logbook.specs.explain import CurveExplanation, formula_pages, overview


@click.command("explain")
@click.argument("spec", default="", type=str)
@click.argument("point", default="now", type=options.LINE)
@options.text("--cylinder", shape="N", says="Which cylinder; the first if left out.")
@options.text("--formula", shape="NAME", says="Only the formula's page, without any engine.")
@options.text("--against", shape="BUILD", says="Of knock_integral: the build that it is set against.")
@options.suppose
@options.given
@options.in_folder
@options.as_json
@click.option("--markdown", is_flag=True, help="Print Markdown.")
def command(spec: str, point: str, cylinder: str | None, formula: str | None, against: str | None,
            suppose: tuple[str, ...], given: tuple[str, ...], folder: str, as_json: bool,
            markdown: bool) -> None:  # fmt: skip
    """Show how SPEC came about at POINT: formula, source, validity, every input
    down to its line, shares of the uncertainty, and what to measure next.
    Without SPEC: what can be worked out now, and what would unlock the rest.

    \b
    Example:  logbook explain compression_ratio --cylinder 3
              logbook explain --formula effective_compression_ratio
    """
    if formula:
        pages = formula_pages(formula)
        if as_json:
            from logbook.cli.explain_shapes import page_shape

            _json({"formulas": [page_shape(page) for page in pages]})
        else:
            _print(page_sections(pages), markdown)
        return
    if against or spec == KNOCK:
        _knock(spec, point, against, (cylinder, *suppose, *given), folder, as_json, markdown)
        return
    with configured(folder, point, suppose, given) as standing:
        at = standing.seen_for(spec)
        found = at.explain(spec, cylinder) if spec else overview(at)
        if as_json:
            from logbook.cli.explain_shapes import explanation_shape

            _json({"point": point, **explanation_shape(at, found)})
        elif isinstance(found, CurveExplanation):
            _print(curve_sections(at, found, point), markdown)
        elif spec:
            over = table_sections(at, found.curve) if found.curve else ()  # type: ignore[union-attr]
            others = tests_giving(standing, found)  # type: ignore[arg-type]
            _print((*explanation_sections(at, found, point), *others, *over), markdown)  # type: ignore[arg-type]
        else:
            _print(overview_sections(at, found, point), markdown)  # type: ignore[arg-type]


def _knock(spec: str, point: str, against: str | None, others: Sequence[str | None], folder: str,
           as_json: bool, markdown: bool) -> None:  # fmt: skip
    """One build against another; there is no figure of one alone."""
    from logbook.cli.explain_knock import knock_sections, knock_shape, nearer, none_alone

    if spec != KNOCK:
        raise click.UsageError(f"--against is for {KNOCK} alone; for other specs: logbook compare")
    if not against:
        raise none_alone()
    if any(others):
        raise click.UsageError("--against goes with two builds that were run; leave the other options out")
    with reading(folder) as book:
        found = nearer(book, point, against)
        if as_json:
            _json({"point": point, **knock_shape(found)})
        else:
            _print(knock_sections(found, book.record.engine), markdown)


def _json(shape: dict[str, object]) -> None:
    from logbook.cli.shapes import print_json

    print_json(shape)


def _print(sections: Iterable[Section], markdown: bool) -> None:
    blocks = [list(_markdown(*each) if markdown else _plain(*each)) for each in sections]
    for number, block in enumerate(block for block in blocks if block):
        for line in ([""] if number else []) + block:
            click.echo(line)


def _plain(title: str, lines: Sequence[tuple[int, str]]) -> Iterator[str]:
    if title:
        yield layout.title(title) if len(title) <= layout.WIDTH else layout.title(layout.narrow(title))
    for depth, text in lines:
        if depth < 0:  # set already: a row of a table
            yield "  " + text
        else:
            yield from layout.wrapped(text, indent=2 + 2 * depth, hanging=2)


def _markdown(title: str, lines: Sequence[tuple[int, str]]) -> Iterator[str]:
    if title:
        yield from (f"### {title}", "")
    fenced = any(depth < 0 for depth, _ in lines)
    if fenced:
        yield from ("```", *(text for _, text in lines), "```")
        return
    for depth, text in lines:
        yield f"{'  ' * depth}- {text}"
