"""`logbook save`: check, recompute and commit what was edited by hand."""

from __future__ import annotations

import click

from logbook.cli import options
from logbook.cli.entering import tell
from logbook.logbook import Logbook
from logbook.saving import save
from logbook.upkeep import private_once_public


@click.command("save")
@options.text("--title", shape="TEXT", says="The commit's first line; made from the newest entry if left out.")
@options.even_so
@options.in_folder
def command(title: str | None, even_so: str | None, folder: str) -> None:
    """Check the record, work out the specs anew, and commit what was edited by
    hand as one commit, with specs.yaml. What is in private/ is saved into a
    repository of its own. Other files that you have staged stay staged. Git
    hooks do not run.

    \b
    Example:  logbook save --title "Notes from the garage"
    """
    saved = save(folder, title, even_so=even_so)
    book = Logbook.open(folder)
    tell(saved, book.record.engine, tuple(private_once_public(book.folder, book.record.engine.demonstration)))
