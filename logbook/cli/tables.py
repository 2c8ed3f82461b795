"""A table to take elsewhere: CSV, or Markdown to post in a discussion."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

import click

Rows = Sequence[Sequence[str]]


def print_table(head: Sequence[str], rows: Rows, style: str) -> None:
    """As `csv` or as `markdown`."""
    if style == "csv":
        click.echo(as_csv(head, rows), nl=False)
    else:
        click.echo(as_markdown(head, rows))


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
