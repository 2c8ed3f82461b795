"""Of which set of bolts figures are taken, where an engine carries several: one, so that two are never mixed."""

from __future__ import annotations

from logbook.record.facts import Fact
from logbook.state.fold import Life
from logbook.state.states import State

BOLTS = ("bolts",)


def sets_of_bolts(life: Life, state: State) -> list[str]:
    """The fitted sets of bolts that figures are stated of; the first is the one that they are taken of."""
    told = {fact.stated.part for some in life.record.facts.values() for fact in some if fact.row.owner == BOLTS}
    return [each.part for each in state.fitted.values() if each.kind in BOLTS and each.part in told]


def of_other_bolts(life: Life, state: State, fact: Fact) -> bool:
    """Whether a figure is of a set of bolts that is not the one they are taken of."""
    part = fact.stated.part
    return fact.row.owner == BOLTS and part is not None and [part] != sets_of_bolts(life, state)[:1]
