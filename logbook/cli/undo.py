"""`logbook undo`: take back the newest change to the record."""

from __future__ import annotations

import click

from logbook.cli import layout, options
from logbook.cli.check import print_findings, status_of
from logbook.cli.entering import tell_effect
from logbook.undo import undo


@click.command("undo")
@options.in_folder
def command(folder: str) -> None:
    """Take back the newest change to the record that is not undone yet, as one
    more commit: files that it made are removed, files that it changed go back.
    Undoing twice goes one change further back. Git keeps what was taken back.

    \b
    Refused where one of these files was edited since; other edits stay.
    Nothing in private/ is touched.
    Example:  logbook undo
    """
    undone = undo(folder)
    if undone.finished:
        click.echo(undone.finished)
    files = ", ".join(undone.paths[:4]) + (f" and {len(undone.paths) - 4} more" if len(undone.paths) > 4 else "")
    told = [
        f"Took back '{undone.subject}' ({files}) as commit {undone.commit[:10]}.",
        f"Nothing is lost. What was taken back: git show {undone.taken_back[:10]}",
    ]
    if undone.left:
        told.append(f"Edited by hand, not saved, and left as it is: {', '.join(undone.left)}")
    for line in told:
        click.echo("\n".join(layout.wrapped(line, hanging=2)))
    tell_effect(undone.effect, undone.book.record.engine)
    about = tuple(finding for finding in undone.book.findings if finding.file in undone.paths)
    if about:
        print_findings(about)
    raise click.exceptions.Exit(status_of(about))
