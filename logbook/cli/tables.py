"""A table three ways: aligned for a terminal, CSV, Markdown."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

import click

Rows = Sequence[Sequence[str]]


def print_table(head: Sequence[str], rows: Rows, style: str | None) -> None:
    """In the style asked for; aligned by default."""
    if style == "csv":
        click.echo(as_csv(head, rows), nl=False)
    elif style == "markdown":
        click.echo(as_markdown(head, rows))
    else:
        for line in aligned([head, *rows]):
            click.echo(line)


def as_csv(head: Sequence[str], rows: Rows) -> str:
    """RFC 4180, with line feeds."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerows([head, *rows])
    return out.getvalue()


def as_markdown(head: Sequence[str], rows: Rows) -> str:
    """A pipe table; a pipe inside a cell is escaped."""
    lines = [_row(head), _row(["---"] * len(head)), *map(_row, rows)]
    return "\n".join(lines)


def _row(cells: Sequence[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def aligned(rows: Rows) -> list[str]:
    """Columns two blanks apart, no rules."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]
