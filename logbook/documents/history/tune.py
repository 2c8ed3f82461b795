"""The tune that is in: its label and state, and its tables as small grids."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from logbook.documents.content import TuneBlock
from logbook.documents.history.words import Words, capital, day, plain, sign
from logbook.documents.pieces import Column, Table
from logbook.documents.render import batches
from logbook.errors import CannotRead
from logbook.judge.tuned import CAUTION, unproven
from logbook.quantity.catalogue import catalogue
from logbook.record.tables import Cell, Head, read_table
from logbook.record.tables import Table as Read
from logbook.record.when import When
from logbook.specs.configuration import Configuration
from logbook.state.states import TuneState

_MOST_ACROSS = 10


def tune_lines(at: Configuration) -> Iterator[tuple[str, str]]:
    """('Tune', 'tune-5, in use since 23 March 2019, made from tune-4')."""
    tune = at.state.tune
    if tune:
        state = "on trial" if tune.step.state == "trial" else tune.step.state
        came = f", made from {tune.step.from_}" if tune.step.from_ else ""
        yield "Tune", f"{tune.label}, {state} since {day(_entered(at, tune))}{came}"
        found = unproven(at)
        if found:
            yield "Careful", f"{tune.label} is {found.words}: {CAUTION}"


def _entered(at: Configuration, tune: TuneState) -> When:
    date: When = at.life.record.entries[tune.moment[0]].says.date
    return date


def tune_blocks(at: Configuration, words: Words, file: Callable[[str], bytes]) -> tuple[TuneBlock, ...]:
    """Each table of the tune in use that can be read."""
    tables = at.state.tune.step.tables if at.state.tune else {}
    read = ((name, path, _read(path, file)) for name, path in tables.items())
    return tuple(
        TuneBlock(f"{capital(plain(name))}, {at.state.tune.label}", grids(table, words), path)
        for name, path, table in read
        if table and at.state.tune
    )


def _read(path: str, file: Callable[[str], bytes]) -> Read | None:
    try:
        return read_table(file(path), path)[0]
    except CannotRead:
        return None


def grids(table: Read, words: Words) -> tuple[Table, ...]:
    """A table as it may stand on the page: a table of one dimension lies on its side; a wide one goes on below."""
    if table.across:
        return tuple(_two(table, words, run) for run in batches(len(table.across), _MOST_ACROSS))
    return tuple(_one(table, words, run) for run in batches(len(table.rows), _MOST_ACROSS))


def _two(table: Read, words: Words, run: range) -> Table:
    heads = [Column("load \\ rpm"), *(Column(table.across[index].text, True) for index in run)]
    rows = tuple((_text(row[0]), *(_text(row[1 + index]) for index in run)) for row in table.rows)
    return Table(tuple(heads), rows, f"Inside: {head_in_words(table.heads[0], words)}.")


def _one(table: Read, words: Words, run: range) -> Table:
    first, *others = table.heads
    heads = [Column(head_in_words(first, words)), *(Column(_text(table.rows[index][0]), True) for index in run)]
    rows = tuple(
        (head_in_words(head, words), *(_text(table.rows[index][number]) for index in run))
        for number, head in enumerate(others, 1)
    )
    return Table(tuple(heads), rows)


def head_in_words(head: Head, words: Words) -> str:
    """'ignition advance, deg'."""
    row = catalogue().get(head.name)
    name = words.name(row) if row else plain(head.name)
    return f"{name}, {sign(head.unit)}" if head.unit else name


def _text(cell: Cell | None) -> str:
    return "" if cell is None else cell.text
