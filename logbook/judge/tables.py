"""The tables that entries name: which they are, and what is wrong with them.

In: a record and a way to one file's bytes. Out: findings at the table's own line and column. The data of tests stand
among the record's texts; the tables of tunes stand in files/ and are read when they are asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from logbook.errors import CannotRead
from logbook.record import entries as model
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.lift_tables import beside
from logbook.record.record import Record
from logbook.record.tables import read_table


def data_of(test: model.Test) -> str | None:
    """The path of a test's data, which may be named without its folder."""
    return test.data if not test.data or "/" in test.data else f"tests/{test.data}"


def named_tables(record: Record) -> Iterator[str]:
    """The path of every table that a test or a tune names."""
    for entry in record.entries:
        if isinstance(entry.says, model.Test) and (path := data_of(entry.says)):
            yield path
        if isinstance(entry.says, model.Change):
            for step in entry.says.work:
                if isinstance(step, model.Tune):
                    yield from step.tables.values()


def named_lift_tables(record: Record) -> Iterator[str]:
    """The path of every table that a part or a measurement names; what is wrong in them was told as they were read."""
    for name, part in record.parts.items():
        yield from (beside(path, f"parts/{name}.yaml") for block in part.facts for path in block.tables.values())
    for entry in record.entries:
        if isinstance(entry.says, model.Measurement):
            taken = (taking.tables for taking in entry.says.taken)
            for tables in (entry.says.tables, *taken):
                yield from (beside(path, entry.file) for path in tables.values())


def tables_can_be_read(record: Record, present: frozenset[str], file: Callable[[str], bytes]) -> Iterator[Finding]:
    """What is wrong in each table that is there, and tables of tests that no test names."""
    named = dict.fromkeys(named_tables(record))
    for path in named:
        if path in present and path.endswith(".csv"):
            yield from _one(path, file)
    for path in record.texts:
        if path.startswith("tests/") and path.endswith(".csv") and path not in named:
            yield Finding(path, 1, 1, NOTE, "no test names this table", "add `data:` to the test it belongs to")
    read = {*named_lift_tables(record), *named}
    for path in record.texts:
        if path.startswith(("parts/", "measurements/")) and path.endswith(".csv") and path not in read:
            mend = "name it under `tables:` of the part or the measurement it belongs to"
            yield Finding(path, 1, 1, NOTE, "no part and no measurement names this table", mend)


def _one(path: str, file: Callable[[str], bytes]) -> Iterator[Finding]:
    try:
        yield from read_table(file(path), path)[1]
    except CannotRead as problem:
        yield Finding(path, 1, 1, WRONG, str(problem), "replace it by a plain file")
