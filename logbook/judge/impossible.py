"""Figures that contradict each other, at the line of the one to look at first; and figures that would be mixed."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.judge.places import at_positions
from logbook.quantity.catalogue import quantity
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.specs.configuration import configuration_after
from logbook.specs.graph import Graph, Missing
from logbook.specs.index import ALL_SPECS, formula
from logbook.state.bolts import sets_of_bolts
from logbook.state.fold import Life
from logbook.state.holding import Held

_NUMBER = re.compile(r"-?\d[\d.]*")
_NAME = re.compile(r"[a-z][a-z_]+")


def figures_can_be(life: Life) -> Iterator[Finding]:
    """What a formula refuses, in its own words; of several cylinders with one trouble the first."""
    graph = configuration_after(life, len(life.states) - 1).graph
    told = set()
    for name in ALL_SPECS:
        for position in graph.arrangement.positions(quantity(name).place):
            found = graph.at(name, position)
            because = found.because if isinstance(found, Missing) else ""
            reason = _NUMBER.sub("", because)
            if because and reason not in told:
                told.add(reason)
                yield _impossible(life, graph, name, position, because)


def _impossible(life: Life, graph: Graph, name: str, position: str, because: str) -> Finding:
    row = quantity(name)
    says = f"{because} (met in {life.record.engine.usage.name(row)}{at_positions(life.arrangement, row, (position,))})"
    held = _to_look_at(graph, name, position, because)
    if held is None:
        return Finding("engine.yaml", 1, 1, WRONG, says)
    return life.record.finding(held.fact.stated.file, held.fact.path, WRONG, says, key=True)


def _to_look_at(graph: Graph, name: str, position: str, because: str) -> Held | None:
    """Of the facts behind a refusal the one that its words say to check first; of these the latest, else any."""
    behind = list(_facts(graph, name, position, {name}))
    named = _NAME.findall(because.partition("Check ")[2])
    for each in named:
        of_that_name = [held for held in behind if held.fact.name == each]
        if of_that_name:
            return max(of_that_name, key=_latest)
    return max(behind, key=_latest, default=None)


def _latest(held: Held) -> int:
    entry = held.fact.stated.entry
    return -1 if entry is None else entry


def _facts(graph: Graph, name: str, position: str, asked: set[str]) -> Iterator[Held]:
    """Every fact that the formulas of a name would use at a position."""
    for function in graph.specs.get(name, ()):
        for need in formula(name, function).needs:
            for at in graph.arrangement.across(quantity(name).place, position, quantity(need).place):
                found = graph.at(need, at)
                if not isinstance(found, Missing):
                    yield from found.facts.values()
                elif need not in asked:
                    yield from _facts(graph, need, at, asked | {need})


def one_set_of_bolts(life: Life) -> Iterator[Finding]:
    """Sets of bolts whose figures stay unused, since one set is worked out and two would be mixed."""
    first, *others = sets_of_bolts(life, life.after(len(life.states) - 1)) or [""]
    for part in others:
        fact = next(each for some in life.record.facts.values() for each in some if each.stated.part == part)
        says = f"bolt figures are worked out of one set, `{first}`, and `{part}` is fitted too"
        yield life.record.finding(fact.stated.file, fact.path, NOTE, says, "its own preload is not shown", key=True)
