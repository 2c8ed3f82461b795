"""What the owner accepted outside a limit, and whether that still stands.

An acceptance is of the parts as they were: it ends when one of those that the figure rests on is exchanged or worked
on, and it does not cover what is proven to be worse than the value that was accepted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.value import ValueProblem, parse_line
from logbook.record import entries as model
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.state.owners import Owners
from logbook.state.states import Moment, Reworked, State

if TYPE_CHECKING:
    from logbook.judge.limits import Limit


class Accepted(NamedTuple):
    """The last acceptance of a limit: where, why, the value as written, and why it has ended (empty: it stands)."""

    entry: Entry
    why: str
    value: str | None = None
    ended: str = ""


def accepted(
    at: Configuration, limit: Limit, node: Node, value: Uncertain, low: Uncertain | None, high: Uncertain | None
) -> Accepted | None:
    """The last acceptance of a limit before this point, as it stands for the figure `node`; None if there is none."""
    found = list(_acceptances(at, limit))
    if not found:
        return None
    moment, entry, said = found[-1]
    ended = _changed(at, node, moment) or _worse(node, value, said.value, low, high)
    return Accepted(entry, said.why, said.value, ended)


def _acceptances(at: Configuration, limit: Limit) -> Iterator[tuple[Moment, Entry, model.Acceptance]]:
    for number, entry in enumerate(at.life.record.entries[: at.state.number + 1]):
        for index, step in enumerate(entry.says.work) if isinstance(entry.says, model.Change) else ():
            if isinstance(step, model.Accept) and step.accept.limit in (limit.id, limit.spec):
                yield (number, index), entry, step.accept


def _changed(at: Configuration, node: Node, moment: Moment) -> str:
    """Which part has been exchanged or worked on since, in words; empty where none has."""
    leaves = [(node.name, node.position), *_leaves(node)]
    was, now = (_parts(at, leaves, state) for state in (at.life.after(moment[0]), at.state))
    gone = next((part for part in was if part not in now), None)
    if gone:
        return f"{gone} is no longer in the engine"
    come = next((part for part in now if part not in was), None)
    if come:
        return f"{come} was fitted since"
    rework = next(iter(_reworks(at, {name for name, _ in leaves}, now, moment)), None)
    return f"{rework.part or 'the assembled engine'}: {rework.operation} since" if rework else ""


def _leaves(node: Node) -> Iterator[tuple[str, str]]:
    """The stated figures, with their positions, that a value rests on."""
    if node.held:
        yield node.name, node.position
    for some in node.inputs.values():
        for each in some:
            yield from _leaves(each)


def _parts(at: Configuration, leaves: list[tuple[str, str]], state: State) -> Mapping[str, None]:
    """The parts, and pieces of a set, that these figures belonged to in a state."""
    owners = Owners(at.life.arrangement, state)
    signatures = (owners.signature(quantity(name), position) for name, position in leaves)
    return dict.fromkeys(part for signature in signatures for part, _ in signature)


def _reworks(at: Configuration, names: set[str], parts: Mapping[str, None], moment: Moment) -> Iterator[Reworked]:
    for rework in (*at.life.reworks, *at.holding.planned):
        done = moment < rework.moment and rework.moment[0] <= at.state.number
        if done and rework.touches & names and (not rework.part or rework.part in parts):
            yield rework


def _worse(node: Node, value: Uncertain, accepted: str | None, low: Uncertain | None, high: Uncertain | None) -> str:
    """Whether the value is proven to be further outside than what was accepted."""
    agreed = _read(accepted, node.name) if accepted else None
    if agreed is None:
        return ""
    below = low is not None and value.nominal < low.nominal
    beyond = agreed - value.nominal if below else value.nominal - agreed
    return f"it is further outside than the {accepted} that was accepted" if beyond > value.expanded else ""


def _read(text: str, name: str) -> float | None:
    try:
        line = parse_line(text, quantity(name))
    except ValueProblem:
        return None  # acceptances_name_a_limit says so
    figures = [stated.nominal for position in line.positions for stated in position or ()]
    return figures[0] if len(figures) == 1 else None
