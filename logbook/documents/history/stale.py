"""What is out of date: figures that are still used although work touched them, and since when."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.documents.content import StaleRow
from logbook.documents.history.words import Words, capital, day
from logbook.documents.pieces import Figure
from logbook.record.facts import MEASURED
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.results import Spec
from logbook.state.holding import Held
from logbook.state.states import BEFORE_ALL, Moment, Reworked


def since(at: Configuration, each: Spec) -> str:
    """'out of date since 10 March 2018', or '' for a figure that is current."""
    for node in at.graph.all(each.name):
        for held in node.facts.values() if isinstance(node, Node) else ():
            if held.out_of_date:
                rework = _last(at, held)
                return f"out of date since {_day_of(at, rework)}" if rework else "out of date"
    return ""


def stale_rows(at: Configuration, words: Words) -> Iterator[StaleRow]:
    """Every figure in use that is out of date, with the worked-out figures that rest on it."""
    for held, users in _used(at).values():
        row = held.fact.row
        of = f" of {held.fact.stated.part}" if held.fact.stated.part else ""
        names = ", ".join(words.name(at.specs[name].row) for name in users if name != held.fact.name)
        mend = f"Measure it again; on it rests: {names}." if names else "Measure it again."
        figure = Figure(*words.pair(row, held.value), words.symbol(row), "" if held.basis == MEASURED else held.basis)
        yield StaleRow(capital(words.name(row)) + of, figure, f"{_work(at, held)} came after it", mend)


def _used(at: Configuration) -> dict[int, tuple[Held, list[str]]]:
    """Facts out of date that specs rest on, each with the specs."""
    used: dict[int, tuple[Held, list[str]]] = {}
    for name in at.specs:
        for node in at.graph.all(name):
            for held in node.facts.values() if isinstance(node, Node) else ():
                if held.out_of_date:
                    names = used.setdefault(id(held.fact), (held, []))[1]
                    names += [name] if name not in names else []
    return used


def _work(at: Configuration, held: Held) -> str:
    rework = _last(at, held)
    if rework is None:
        return "later work"
    what = f"{rework.part}: {rework.operation}" if rework.part else rework.operation
    return f"the work of {_day_of(at, rework)} ({what})"


def _day_of(at: Configuration, rework: Reworked) -> str:
    return day(at.life.record.entries[rework.moment[0]].says.date)


def _last(at: Configuration, held: Held) -> Reworked | None:
    """The latest work before now that touched the fact's quantity on a part it may be of."""
    stated = held.fact.stated
    taken: Moment = BEFORE_ALL if stated.entry is None else (stated.entry, stated.step)
    touching = [
        rework
        for rework in at.life.reworks
        if held.fact.name in rework.touches
        and taken < rework.moment
        and rework.moment[0] <= at.state.number
        and (rework.part == stated.part if stated.part else rework.part in ("", *at.state.parts))
    ]
    return touching[-1] if touching else None
