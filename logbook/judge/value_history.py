"""The history of one value: every time it was stated, by whom and with what, and what has become of each statement."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.errors import LogbookError
from logbook.judge.part_life import known_part
from logbook.quantity.catalogue import catalogue, did_you_mean
from logbook.record.facts import Fact
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration, configuration_after
from logbook.state.fold import Life
from logbook.state.sayings import corrected
from logbook.state.states import moment_of


class NoSuchValue(LogbookError):
    """A name that is no quantity, or one that nothing was ever stated of: one line that says what would work."""


class Statement(NamedTuple):
    """One time that a value was stated; `entry` is None for what a part's own file says. `became`: in words."""

    fact: Fact
    line: int
    entry: Entry | None
    became: str


def value_history(life: Life, name: str, part: str | None = None) -> tuple[Statement, ...]:
    """Every statement of a value, of one part if it is named, in order. Raises NoSuchValue, NoSuchPart."""
    _refuse_unknown(name)
    if part:
        known_part(life, part)
    facts = [fact for fact in life.record.facts.get(name, ()) if part in (None, fact.stated.part)]
    at = configuration_after(life, len(life.states) - 1)
    holding = {id(fact) for fact in _holding(at, name)}
    return tuple(_statement(life, at, fact, holding) for fact in sorted(facts, key=moment_of))


def _refuse_unknown(name: str) -> None:
    if name not in catalogue():
        raise NoSuchValue(
            f"`{name}` is not a quantity{did_you_mean(name, list(catalogue()), 'logbook explain lists them')}"
        )


def _holding(at: Configuration, name: str) -> Iterator[Fact]:
    row = catalogue()[name]
    if not row.event:
        for position in at.life.arrangement.positions(row.place):
            held = at.holding.best(row, position)
            if held:
                yield held.fact


def _statement(life: Life, at: Configuration, fact: Fact, holding: set[int]) -> Statement:
    number = fact.stated.entry
    line, _ = life.record.where(fact.stated.file, fact.path, key=True)
    entry = None if number is None else life.record.entries[number]
    return Statement(fact, line, entry, _became(life, at, fact, holding))


def _became(life: Life, at: Configuration, fact: Fact, holding: set[int]) -> str:
    """What is left of a statement: it holds, or why it does not."""
    for number, wrong, said in corrected(life.record):
        if wrong is fact:
            where = f"position {said.position} of it " if said.position else ""
            return f"{where}a mistake, says {life.record.entries[number].id}"
    if fact.row.event:
        return "of its day"
    if fact.claim:
        return "a claim: shown, never used"
    if fact.unknown:
        return "looked at, not known"
    since = _out_of_date_since(life, fact)
    if id(fact) in holding:
        return f"holds, though out of date since {since}" if since else "holds now"
    if since:
        return f"out of date since {since}"
    part = fact.stated.part
    return f"{part} is not in the engine" if part and part not in at.state.parts else "another holds"


def _out_of_date_since(life: Life, fact: Fact) -> str:
    """The first work after it that touched the value, on its part or on a part of its set; '' if there was none."""
    owners = _owners(life, fact)
    for rework in life.reworks:
        touched = fact.name in rework.touches and rework.moment > moment_of(fact) and rework.part in owners
        if touched and not (rework.adjusted and fact.stated.part):  # what a part's card says stays true when it is set
            return f"{life.record.entries[rework.moment[0]].says.date} ({rework.operation})"
    return ""


def _owners(life: Life, fact: Fact) -> set[str]:
    """The part that it is of; of the assembled engine, those of its owners that were fitted then."""
    if fact.stated.part or fact.stated.entry is None:
        return {fact.stated.part or ""}
    kinds = {kind for owner in fact.row.owner for kind in owner.split("|")}
    return {"", *(part for part in life.after(fact.stated.entry).parts if life.record.parts[part].kind in kinds)}
