"""The life of one part: where it was, how far it had run by then, what was done to it, and what was found of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from logbook.errors import LogbookError
from logbook.quantity.catalogue import CYLINDER, catalogue, did_you_mean
from logbook.quantity.usage import Usage
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.models import Part
from logbook.record.record import Entry
from logbook.state.counters import Totals
from logbook.state.fold import Life
from logbook.state.metal import Surface, surface
from logbook.state.runs import Run, whole_run
from logbook.state.states import Fitting, State


class NoSuchPart(LogbookError):
    """A part that the record does not know: one line with the one that was probably meant."""


class Event(NamedTuple):
    """What one entry did to the part, or found of it; `run`: what it had run in this engine by then."""

    number: int
    entry: Entry
    run: Totals
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PartLife:
    """One part from what its file says to where it is now. `where`: '' while it is in the engine."""

    name: str
    part: Part
    published: tuple[Fact, ...]
    events: tuple[Event, ...]
    where: str
    run: Run
    surface: Surface | None


def part_life(life: Life, name: str) -> PartLife:
    """Raises NoSuchPart."""
    part = known_part(life, name)
    now = life.after(len(life.states) - 1)
    events = tuple(
        Event(number, entry, life.after(number).has_run(name), says)
        for number, entry in enumerate(life.record.entries)
        if (says := tuple(_says(life, number, name)))
    )
    own = tuple(fact for some in life.record.facts.values() for fact in some
                if fact.stated.part == name and fact.stated.entry is None)  # fmt: skip
    where = "" if name in now.parts else now.gone.get(name, "on the shelf")
    return PartLife(name, part, own, events, where, whole_run(life.record, now, name), surface(life, name))


def known_part(life: Life, name: str) -> Part:
    """The part's file. Raises NoSuchPart."""
    part: Part | None = life.record.parts.get(name)
    if part is not None:
        return part
    if life.record.unreadable(f"parts/{name}"):
        raise NoSuchPart(f"parts/{name}.yaml cannot be read: logbook check says why")
    some = ", ".join(list(life.record.parts)[:8]) or "none yet"
    raise NoSuchPart(f"there is no part `{name}`{did_you_mean(name, list(life.record.parts), f'there is {some}')}")


def _says(life: Life, number: int, name: str) -> Iterator[str]:
    entry = life.record.entries[number]
    for step in entry.says.work if isinstance(entry.says, model.Change) else ():
        yield from _worked(step, name, life.record.engine.usage)
    yield from _moved(life.after(number - 1), life.after(number), name, life)
    yield from _found(entry, name, life.record.engine.usage)
    if isinstance(entry.says, model.Test) and entry.says.part == name:
        yield f"tested: {entry.title}"


def _moved(before: State, after: State, name: str, life: Life) -> Iterator[str]:
    """Into the engine, out of it, or to another place in it, with what stood or stands there."""
    was, now = (next((each for each in state.fitted.values() if each.part == name), None) for state in (before, after))
    if now and not was:
        place = f" at {now.at}" if now.at else ""
        gone = _in_its_place(life, now, before, after)
        yield f"fitted{place}" + (f" in place of {', '.join(gone)}" if gone else "")
    elif was and not now:
        came = _in_its_place(life, was, after, before)
        yield "taken off" + (f" for {', '.join(came)}" if came else "")
    elif was and now and (was.at, was.order, was.off) != (now.at, now.order, now.off):
        yield "in another place, or pieces of it exchanged"


def _in_its_place(life: Life, its: Fitting, here: State, gone_from: State) -> list[str]:
    """The parts of its kind that serve one of its cylinders `here`, and are not in the other state's engine."""
    served = set(life.arrangement.covered(its.at, CYLINDER))
    return [each.part for each in here.fitted.values()
            if each.kind == its.kind and each.part not in gone_from.parts
            and not served.isdisjoint(life.arrangement.covered(each.at, CYLINDER))]  # fmt: skip


def _worked(step: model.Step, name: str, usage: Usage) -> Iterator[str]:
    match step:
        case model.Rework() if step.rework == name:
            by = f", by {step.by}" if step.by else ""
            yield " ".join(word for word in (step.operation, step.depth) if word) + by
        case model.Remove() if step.remove == name and step.to:
            yield f"put away: {step.to}"
        case model.Owner() if step.part == name:
            yield step.owner
        case model.Correct() if step.correct.part == name:
            yield f"{_named(step.correct.quantity, usage)} of {step.correct.entry} was a mistake: {step.correct.why}"
        case model.Adopt() if step.adopt.part == name:
            yield f"{_named(step.adopt.quantity, usage)} of {step.adopt.from_} is to hold: {step.adopt.why}"


def _found(entry: Entry, name: str, usage: Usage) -> Iterator[str]:
    """Its figures, in the words of the entry."""
    for fact in entry.facts:
        if fact.stated.part == name and fact.stated.occasion != "cut":
            with_ = f", with {fact.stated.instrument}" if fact.stated.instrument else ""
            basis = "" if fact.stated.basis == "measured" else f" ({fact.stated.basis})"
            yield f"{usage.name(fact.row)} {fact.text.removeprefix('all: ')}{with_}{basis}"


def _named(name: str, usage: Usage) -> str:
    row = catalogue().get(name)
    return usage.name(row) if row else name.replace("_", " ")
