"""The tables that entries name: which they are, and what is wrong with them.

In: a record and a way to one file's bytes. Out: findings at the table's own line and column. The data of tests stand
among the record's texts; the tables of tunes stand in files/ and are read when they are asked for. A table that reads
well is looked through once more: for what cannot have been read, and for columns that nothing will read.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from logbook.errors import CannotRead
from logbook.quantity.catalogue import catalogue, did_you_mean, own_name
from logbook.record import entries as model
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.lift_tables import beside
from logbook.record.record import Record
from logbook.record.tables import Cell, Head, Table, column_of, read_table

_SPEED, _LIFT = "engine_speed", "valve_lift"
_READ_ABOVE_NOTHING = ("engine_speed", "torque", "power", "mass_flow")  # kinds; flows over a lift: flow_tables.py
_CORRECT = "correct it, or write x where nothing was taken"


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
    of_tests = {data_of(entry.says) for entry in record.entries if isinstance(entry.says, model.Test)}
    for path in named:
        if path in present and path.endswith(".csv"):
            yield from _one(path, file, of_a_test=path in of_tests)
    for path in record.texts:
        if path.startswith("tests/") and path.endswith(".csv") and path not in named:
            yield Finding(path, 1, 1, NOTE, "no test names this table", "add `data:` to the test it belongs to")
    read = {*named_lift_tables(record), *named}
    for path in record.texts:
        if path.startswith(("parts/", "measurements/")) and path.endswith(".csv") and path not in read:
            mend = "name it under `tables:` of the part or the measurement it belongs to"
            yield Finding(path, 1, 1, NOTE, "no part and no measurement names this table", mend)


def _one(path: str, file: Callable[[str], bytes], *, of_a_test: bool) -> Iterator[Finding]:
    try:
        data = file(path)
    except CannotRead as problem:
        yield Finding(path, 1, 1, WRONG, str(problem), "replace it by a plain file")
        return
    table, troubles = read_table(data, path)
    yield from troubles
    for line, index, level, says, mend in _looked_through(table, of_a_test) if table else ():
        yield Finding(path, line, column_of(data, line, index), level, says, mend)


Trouble = tuple[int, int, str, str, str]  # line, cell in it from 0, level, what is wrong, how to mend it


def _looked_through(table: Table, of_a_test: bool) -> Iterator[Trouble]:
    for index, cell in enumerate(table.across, 1):
        if cell.value <= 0:
            yield 1, index, WRONG, f"no engine runs at {cell.text} rpm", "correct the engine speed"
    if of_a_test and not table.across:
        for index, head in enumerate(table.heads):
            yield from _not_above_nothing(table, index, head)
            yield from _unread(index, head)
        if not {_SPEED, _LIFT} & {head.name for head in table.heads}:
            says = "nothing says at which engine speed or valve lift these rows were read, so nothing reads them"
            yield 1, 0, NOTE, says, f"name that column `{_SPEED} rpm` or `{_LIFT} mm`, or leave them as they stand"


def _not_above_nothing(table: Table, index: int, head: Head) -> Iterator[Trouble]:
    row = catalogue().get(head.name)
    if row and row.kind in _READ_ABOVE_NOTHING:
        for line, cell in enumerate(table.column(index), 2):
            if cell and cell.value <= 0:
                yield line, index, WRONG, f"{row.uk} of {_written(cell, head)} is no reading: it is above 0", _CORRECT


def _written(cell: Cell, head: Head) -> str:
    return f"{cell.text} {head.unit}".rstrip()


def _unread(index: int, head: Head) -> Iterator[Trouble]:
    row = catalogue().get(head.name)
    if row and row.derived_only and head.name != _LIFT:
        says = f"`{head.name}` is worked out and never read: nothing reads this column"
        yield 1, index, NOTE, says, "it is kept and printed as it stands"
    elif not row:
        meant = own_name(head.name)
        near = f"write `{meant}`" if meant in catalogue() else did_you_mean(head.name, catalogue()).removeprefix("; ")
        says = f"`{head.name}` is no quantity that is known here: nothing reads this column"
        yield 1, index, NOTE, says, near or "it is kept and printed as it stands"
