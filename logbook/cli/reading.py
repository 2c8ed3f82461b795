"""Opening a logbook to read from it: what cannot be read is never left out in silence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

import click

from logbook.cli import layout
from logbook.errors import CannotRead
from logbook.judge.standing import Standing
from logbook.logbook import Logbook
from logbook.record.finding import WRONG, Finding


@contextmanager
def reading(folder: str) -> Iterator[Logbook]:
    """The logbook of a folder. CannotRead where engine.yaml tells no engine; where other files cannot be read, a
    warning after what was printed, and exit status 1."""
    book = Logbook.open(folder, keep=True)
    wrong = [finding for finding in book.unread if finding.level == WRONG]
    if not book.record.engine_known:
        raise CannotRead("\n".join(map(str, _of_engine(wrong))))
    yield book
    if wrong:
        many = f"{len(wrong)} places" if len(wrong) > 1 else "one place"
        careful = f"Careful: {many} in the record cannot be read and count for nothing here: logbook check"
        click.echo(layout.narrow(careful), err=True)
        raise click.exceptions.Exit(1)


@contextmanager
def configured(folder: str, point: str, suppose: Sequence[str] = (), given: Sequence[str] = ()) -> Iterator[Standing]:
    """The engine at a point, with what is supposed on top of it; or, in no folder, from what is given alone."""
    if given:
        if point != "now":
            raise click.UsageError(
                f"--given needs no engine, so no point such as {point} either; leave one of them out"
            )
        yield Logbook.given([*given, *suppose])
        return
    with reading(folder) as book:
        yield book.at(point, suppose)


def _of_engine(wrong: list[Finding]) -> list[Finding]:
    return sorted(finding for finding in wrong if finding.file == "engine.yaml")
