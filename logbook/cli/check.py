"""`logbook check`: everything that is wrong, doubtful or out of date."""

from __future__ import annotations

import click

from logbook.advice import advice
from logbook.cli import layout, options
from logbook.cli.shapes import check_shape, print_json
from logbook.logbook import Logbook
from logbook.record.finding import DOUBTFUL, LEVELS, WRONG, Finding


@click.command("check")
@options.in_folder
@options.as_json
def command(folder: str, as_json: bool) -> None:
    """Say everything that is wrong, doubtful or out of date in the record, each
    with file:line:column and what to do.

    \b
    wrong      it cannot be so; saving is refused until it is mended
    doubtful   look again; the record can be saved
    note       worth knowing
    Example:   logbook check --json
    """
    book = Logbook.open(folder, keep=True)
    findings = tuple(sorted({*book.findings, *advice(book)}))
    if as_json:
        print_json(check_shape(findings))
    else:
        print_findings(findings)
    raise click.exceptions.Exit(status_of(findings))


def status_of(findings: tuple[Finding, ...]) -> int:
    """0 where there are only notes, 1 where something is doubtful or wrong."""
    return int(any(finding.level in (WRONG, DOUBTFUL) for finding in findings))


def print_findings(findings: tuple[Finding, ...]) -> None:
    """Each finding, and how many of each level."""
    for finding in findings:
        place = f"{finding.file}:{finding.line}:{finding.column}"
        told = layout.narrow(f"{place}: {finding.level}: {finding.says}")
        click.echo(told.replace(place, layout.title(place), 1))
        if finding.mend:
            click.echo("\n".join(layout.wrapped(finding.mend, indent=4)))
    counts = [f"{number} {level}" + ("s" if level == "note" and number > 1 else "") for level in LEVELS
              if (number := sum(finding.level == level for finding in findings))]  # fmt: skip
    click.echo(", ".join(counts) if counts else "Nothing to say: the record reads well.")
