"""A plan set on top of an entry; and what it would have forecast, had its figures been right that were mistakes.

Entries that were written after the change count for nothing in that, but for their word that an earlier figure was
wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.record import entries as model
from logbook.specs.configuration import Configuration, configuration
from logbook.specs.dependence import depending_on
from logbook.specs.results import Value
from logbook.state.fold import Life
from logbook.state.sayings import corrected


class Anew(NamedTuple):
    """What a forecast should have been, None if nothing is left to tell it; and the figures that were mistakes."""

    value: Value | None
    mistakes: tuple[str, ...]


def on_top_of(
    life: Life, name: str, number: int, *, known: int | None = None, hindsight: bool = False
) -> Configuration:
    """The engine as a plan would make it, on top of an entry and not of the plan's own start."""
    moved = life.record.plans[name].but(from_=life.record.entries[number].id)
    record = replace(life.record, plans={**life.record.plans, name: moved})
    return configuration(life._replace(record=record), f"plan:{name}", known=known, hindsight=hindsight)


def anew(life: Life, number: int) -> dict[tuple[str, str], Anew]:
    """By spec and position what the change of that number should have forecast, where it rested on a mistake."""
    says = life.record.entries[number].says
    forecast = says.forecast if isinstance(says, model.Change) else None
    name = forecast.from_.removeprefix("plan:") if forecast else ""
    wrong = list(_mistakes(life, number)) if forecast and number and name in life.record.plans else []
    if not (forecast and wrong):
        return {}
    then, now = (on_top_of(life, name, number - 1, known=number, hindsight=late) for late in (False, True))
    found: dict[tuple[str, str], Anew] = {}
    for spec in (now.specs[name] for name in forecast.specs if name in now.specs):
        mistakes = tuple(dict.fromkeys(words for words, touched in wrong if spec.name in touched))
        for place, was, value in zip(spec.positions, then.specs[spec.name].values, spec.values, strict=True):
            if mistakes and (was and was.nominal) != (value and value.nominal):
                found[spec.name, place] = Anew(value, mistakes)
    return found


def _mistakes(life: Life, number: int) -> Iterator[tuple[str, frozenset[str]]]:
    """Figures that stood before a change and were called mistakes after it, in words, with all that they touch."""
    for later, fact, said in corrected(life.record):
        if later > number and (fact.stated.entry is None or fact.stated.entry < number):
            of = f"{fact.stated.part}, " if fact.stated.part else ""
            day = life.record.entries[later].says.date
            yield f"{quantity(said.quantity).uk} ({of}corrected {day})", depending_on(said.quantity)
