"""What may come out otherwise between two configurations of one life, by what the entries between them state and do.

Asked of names and not of values, so that it holds for every part and every state that a value may rest on: whatever a
name stands for is the same in both where nothing between them says or does anything to it, or to a name under it.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from logbook.quantity.catalogue import PART_KINDS, catalogue, quantity
from logbook.record import entries as model
from logbook.record.record import Record
from logbook.specs.dependence import depending_on, names_under
from logbook.specs.index import OF_THE_CARD, with_conditions
from logbook.specs.inference import RATIO
from logbook.specs.sharing import Common
from logbook.state.fold import Life
from logbook.state.holding import Holding


def touched(before: Holding, after: Holding) -> frozenset[str]:
    """The names whose values may differ between two states of a life, as known then or now, with nothing supposed."""
    own = {*_stated(before, after), *_worked_on(before, after), *_older(before, after)}
    return frozenset().union(*map(depending_on, own), _of_other_parts(before, after))


def _stated(before: Holding, after: Holding) -> Iterator[str]:
    """What is stated, corrected or adopted in entries that only one of them knows, or that lie between the two points:
    there a figure goes from later to earlier."""
    life = before.life
    known = sorted(_known(each) for each in (before, after))
    between = range(*(number + 1 for number in sorted((before.state.number, after.state.number))))
    named = _named(life.record)
    for number in (*range(*known), *(number for number in between if number < known[1])):
        yield from named[number]


def _known(holding: Holding) -> int:
    """How many entries are known of."""
    every = len(holding.life.record.entries)
    return every if holding.known is None else min(holding.known, every)


def _named(record: Record) -> tuple[frozenset[str], ...]:
    """By entry, the quantities of which it says something that counts."""
    return record.once("named in each entry", lambda: tuple(map(frozenset, _names(record))))


def _names(record: Record) -> list[set[str]]:
    names: list[set[str]] = [set() for _ in record.entries]
    for name, facts in record.facts.items():
        for fact in facts:
            if fact.stated.entry is not None and fact.stated.occasion != "test":
                names[fact.stated.entry].add(name)
    for number, entry in enumerate(record.entries):
        for step in entry.says.work if isinstance(entry.says, model.Change) else ():
            if isinstance(step, model.Correct):
                names[number].add(step.correct.quantity)
            elif isinstance(step, model.Adopt):
                names[number].add(step.adopt.quantity)
    return names


def _worked_on(before: Holding, after: Holding) -> Iterator[str]:
    first, last = sorted((before.state.number, after.state.number))
    for rework in before.life.reworks:
        if first < rework.moment[0] <= last:
            yield from rework.touches


def _older(before: Holding, after: Holding) -> Iterator[str]:
    """What wears, where another of its figures is now the nearest in time.

    A ratio that a part's file claims is of the engine at hand with other parts in it, whose figures wear too.
    """
    if _day(before) == _day(after):
        return
    wearing = _wearing(before.life)
    yield from (name for name in wearing if _another_holds(name, before, after))
    claims = before.life.record.facts.get(RATIO, ())
    if not names_under(RATIO).isdisjoint(wearing) and any(fact.claim and fact.stated.entry is None for fact in claims):
        yield RATIO


def _day(holding: Holding) -> object:
    entries = holding.life.record.entries
    return entries[max(holding.state.number, 0)].says.date.first if entries else None


def _wearing(life: Life) -> tuple[str, ...]:
    """What wears and was stated of more than one day."""
    record = life.record
    found: tuple[str, ...] = record.once(
        "wearing", lambda: tuple(filter(partial(_of_several_days, record), record.facts))
    )
    return found


def _of_several_days(record: Record, name: str) -> bool:
    days = {fact.stated.when.first for fact in record.facts[name] if fact.stated.when}
    return quantity(name).wears and len(days) > 1


def _another_holds(name: str, before: Holding, after: Holding) -> bool:
    row = quantity(name)
    if name in _ASKED_OTHERWISE:
        return True
    positions = before.life.arrangement.positions(row.place)
    return any(before.best(row, position) != after.best(row, position) for position in positions)


#: What is asked for not only as it stands: at one lift, or of what was published alone.
_ASKED_OTHERWISE = frozenset().union(
    (name for name in catalogue() if with_conditions(name)), *(names_under(name) for name in OF_THE_CARD.values())
)


def _of_other_parts(before: Holding, after: Holding) -> frozenset[str]:
    """What may rest on parts that are fitted in one of the two and not in the other."""
    was, now = before.state.fitted, after.state.fitted
    if was is now:
        return frozenset()
    slots = (slot for slot in {**was, **now} if was.get(slot) != now.get(slot))
    kinds = tuple(sorted({kind for kind, _ in slots}, key=list(PART_KINDS).index))
    return before.life.record.once(("resting on", kinds), lambda: _resting_on(kinds, before.life.record))


def _resting_on(kinds: tuple[str, ...], record: Record) -> frozenset[str]:
    common = Common(kinds, record)
    return frozenset(name for name in catalogue() if common.under(name))
