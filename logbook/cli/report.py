"""`logbook report`: write a document."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import click

from logbook.cli import options
from logbook.cli.reading import reading
from logbook.errors import CannotRender, CannotWrite
from logbook.logbook import Logbook
from logbook.record.write import slug

#: Every kind of document and what it is for.
KINDS = {"history": "what the engine is, what was done to it and what that did: for owner and buyer"}


@click.command("report")
@click.argument("kind", metavar="[KIND]", default="history")
@options.in_folder
@click.option("--out", metavar="FILE", type=click.Path(), help="Where to write it.")
@click.option("--html", "as_html", is_flag=True, help="One HTML page that needs nothing beside it, instead of a PDF.")
@click.option("--paper", type=click.Choice(("a4", "letter")), default="a4", help="Size of the paper; a4 if left out.")
def command(kind: str, folder: str, out: str | None, as_html: bool, paper: str) -> None:
    """Write a document from the record as it stands on the disk and print its
    path. KIND is history, the only one now.

    Without --out it becomes NAME-history.pdf in the folder you stand in; where
    that is the engine's folder or one inside it, beside the engine's folder, so
    that no document comes to lie in the record. The same record gives the same
    bytes.

    Exit status 1: a part of the record could not be read and counts for nothing
    in the document, or this machine lacks a library for the PDF; then the HTML
    page was written in its stead, and the message says what to install.

    \b
    Example:  logbook report history --in my-demo
              logbook report history --html --out history.html
    """
    if kind not in KINDS:
        there_are = "; ".join(f"{name}: {says}" for name, says in KINDS.items())
        raise click.UsageError(f"there is no document '{kind}'. There is {there_are}")
    with reading(folder) as book:
        order = _Order(book, out, "A4" if paper == "a4" else "letter")
        if as_html:
            order.html()
        else:
            order.pdf()


@dataclass(frozen=True, slots=True)
class _Order:
    """One document that was asked for."""

    book: Logbook
    out: str | None
    paper: str

    def html(self) -> None:
        from logbook.documents.document import history_html
        from logbook.documents.history.fill import history

        path = self._place(".html")
        self._write(path, history_html(history(self.book)).encode())
        click.echo(str(path))

    def pdf(self) -> None:
        from logbook.documents.document import history_pdf
        from logbook.documents.history.fill import history

        path = self._place(".pdf")
        say_to_who_waits(f"Setting the pages of {self.book.record.engine.name} …")
        try:
            printed = history_pdf(history(self.book), paper=self.paper)
        except CannotRender as lacking:
            click.echo(f"{lacking}. The HTML page was written instead:", err=True)
            _Order(self.book, str(path.with_suffix(".html")), self.paper).html()
            raise click.exceptions.Exit(1) from None
        self._write(path, printed.data)
        for warning in printed.warnings:
            click.echo(f"The PDF library says: {warning}", err=True)
        click.echo(f"{path}  ({printed.pages} pages)")

    def _place(self, suffix: str) -> Path:
        if self.out:
            return _not_of_the_record(Path(self.out), self.book)
        engine, here = self.book.folder.resolve(), Path.cwd().resolve()
        inside = here == engine or engine in here.parents
        return (engine.parent if inside else Path()) / f"{slug(self.book.record.engine.name)}-history{suffix}"

    def _write(self, path: Path, data: bytes) -> None:
        from logbook.store.disk import write_durably

        try:
            write_durably(path, data)
        except OSError as error:
            raise CannotWrite(f"{path} cannot be written ({error.strerror}); name another file with --out") from None


def say_to_who_waits(sentence: str) -> None:
    """A line to a terminal alone: a script, a file and a pipe get the result and nothing else."""
    if sys.stderr is not None and sys.stderr.isatty():
        click.echo(sentence, err=True)


def _not_of_the_record(path: Path, book: Logbook) -> Path:
    """The path itself, unless a document there would replace a folder or a file of the record."""
    if path.is_dir():
        raise click.UsageError(f"{path} is a folder; name a file in it")
    place, engine = path.resolve(), book.folder.resolve()
    if place.is_relative_to(engine):
        inside = place.relative_to(engine).as_posix()
        if (inside in book.present and place.suffix not in (".pdf", ".html")) or inside.startswith(".git/"):
            raise click.UsageError(f"{path} belongs to the record and is not overwritten; name another file")
    return path
