"""All that is told of two points: what differs, the tables cell by cell, the tests nearest to each, and the cautions.

In: two configurations, and how each record's files are read. Out: one frozen comparison; what cannot be read is told
in its place. A change is told in the same way, between the engine before it and the engine after it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields

from logbook.errors import CannotRead, PointUnknown
from logbook.judge.compare import Comparison, compare
from logbook.judge.curve_tables import curves
from logbook.judge.grids import Grid, grids
from logbook.judge.hurts import cautions
from logbook.judge.nearest_tests import Pair, Window, beside
from logbook.judge.torque_over_speed import Torque, torque_over_speed
from logbook.quantity.catalogue import nearest
from logbook.record import entries as model
from logbook.record.tables import Head, Table, read_table
from logbook.specs.configuration import Configuration, configuration_after
from logbook.state.fold import Life
from logbook.state.points import Point

File = Callable[[str], bytes]


@dataclass(frozen=True, slots=True)
class Beside(Comparison):
    """A comparison with its tables, tests, torque over speed and cautions."""

    tables: tuple[Grid, ...] = ()
    tests: tuple[Pair, ...] = ()
    torque: Torque | None = None
    cautions: tuple[str, ...] = ()


def set_beside(
    before: Configuration,
    after: Configuration,
    files: tuple[File, File],
    *,
    two_engines: bool = False,
    windows: tuple[Window, Window] | None = None,
) -> Beside:
    """Two points with everything that is told of them."""
    plain = compare(before, after, two_engines=two_engines)
    both = {field.name: getattr(plain, field.name) for field in fields(plain)}
    tables = tuple(each for each in (*_tunes(before, after, files), *curves(before, after)) if each.changed)
    return Beside(
        **both,
        tables=tables,
        tests=tuple(beside(before, after, windows)),
        torque=torque_over_speed(before, after, files, windows),
        cautions=cautions(plain.specs, before, after),
    )


def around(life: Life, change: str) -> tuple[Configuration, Configuration, tuple[Window, Window]]:
    """The engine before and after one change, and which entries may speak for each. Raises PointUnknown."""
    number = change_named(life, change)
    name = life.record.entries[number].id.split("/", 1)[1]
    before = configuration_after(life, number - 1, point=Point(f"before {name}", number - 1))
    after = configuration_after(life, number, point=Point(name, number))
    return before, after, ((0, number - 1), (number + 1, len(life.record.entries) - 1))


def change_named(life: Life, text: str) -> int:
    """The number of the change that `text` names: its build, its file's name or a beginning of it."""
    wanted = text.strip().removesuffix(".yaml").removeprefix("changes/")
    names = {number: entry.id.split("/", 1)[1] for number, entry in enumerate(life.record.entries)
             if isinstance(entry.says, model.Change)}  # fmt: skip
    built = {number: life.record.entries[number].says.build for number in names}
    exact = [number for number, name in names.items() if wanted in (name, built[number])]
    found = exact or [number for number, name in names.items() if name.startswith(wanted)]
    if len(found) == 1:
        return found[0]
    if found:
        raise PointUnknown(f"several changes are named so: {', '.join(names[number] for number in found[:5])}")
    known = [name for name in (*names.values(), *built.values()) if name]
    near = nearest(wanted, known)
    hint = f"did you mean {near}?" if near else f"the last are {', '.join(list(names.values())[-3:]) or 'none yet'}"
    raise PointUnknown(f"`{text}` is no change of this record, nor a build that one made; {hint}")


def _tunes(before: Configuration, after: Configuration, files: tuple[File, File]) -> Iterator[Grid]:
    """The tables of the tunes in the engine, those that both have."""
    was, now = (at.state.tune.step.tables if at.state.tune else {} for at in (before, after))
    for name in was:
        if name in now and now[name].endswith(".csv"):
            yield from _one(name, (was[name], now[name]), files)


def _one(name: str, paths: tuple[str, str], files: tuple[File, File]) -> Iterator[Grid]:
    try:
        first, second = (_read(path, file) for path, file in zip(paths, files, strict=True))
    except CannotRead as problem:
        yield Grid(name, *paths, Head(name, ""), why_not=str(problem))
        return
    yield from grids(name, (paths[0], first), (paths[1], second))


def _read(path: str, file: File) -> Table:
    table, findings = read_table(file(path), path)
    if table is None:
        raise CannotRead(f"{path} cannot be read as a table: {findings[0].says}")
    return table
