"""What `measure` and `work` share: the date, the file's name, and saving one new entry with what was edited by hand."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

import click

from logbook.cli.check import print_findings
from logbook.cli.effects import effect_lines
from logbook.errors import Refused
from logbook.logbook import Logbook, Saved, save
from logbook.record.finding import NOTE
from logbook.record.write import entry_text, slug

Tree = dict[str, Any]


def without_gaps(tree: Mapping[str, Any]) -> Tree:
    """The keys that were given."""
    return {key: value for key, value in tree.items() if value not in (None, "", [], {}, ())}


def today() -> str:
    """The only place where a command looks at the clock."""
    return date.today().isoformat()


def enter(folder: str, kind: str, tree: Tree, name: str, even_so: str | None, subject: str | None = None) -> None:
    """Save one new entry as `<kind>/<date>-<name>.yaml` and say what it did. Refused leaves all as it was."""
    book = Logbook.open(folder)
    path = _free_path(book, kind, f"{tree['date'].removeprefix('about ')}-{slug(name)}")
    try:
        data = entry_text(tree)
    except ValueError as problem:
        raise click.UsageError(str(problem)) from None
    try:
        saved = save(book.folder, subject, new={path: data}, even_so=even_so)
    except Refused as refused:
        raise Refused(f"{refused}\n\nThe entry as it would have been written to {path}:\n\n{data.decode()}") from None
    tell(saved, book)


def _free_path(book: Logbook, kind: str, stem: str) -> str:
    path, number = f"{kind}/{stem}.yaml", 2
    while path in book.present:
        path, number = f"{kind}/{stem}-{number}.yaml", number + 1
    return path


def tell(saved: Saved, book: Logbook) -> None:
    """What a save did: the commit, the files, the specs before and after, and what the check says of the files."""
    engine = book.record.engine
    if saved.finished:
        click.echo(saved.finished)
    if saved.commit is None:
        click.echo("Nothing has changed since the last save.")
        return
    files = ", ".join(saved.paths[:4]) + (f" and {len(saved.paths) - 4} more" if len(saved.paths) > 4 else "")
    click.echo(f"Saved {files or 'specs.yaml'} as commit {saved.commit[:10]}.")
    if saved.effect:
        click.echo("What this changed in the specs of now:")
        for line in effect_lines(saved.effect, engine, "  "):
            click.echo(line)
    else:
        click.echo("It changed no spec of now.")
    about = tuple(finding for finding in saved.findings if finding.file in saved.paths and finding.level != NOTE)
    if about:
        print_findings(about)
