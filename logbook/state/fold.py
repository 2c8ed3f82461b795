"""The fold: entries, in order, into what is fitted, set and run at each moment of the engine's life.

In: a record. Out: one State after each entry, and findings for steps that cannot be. Pure: asks nothing of disk or
clock.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from logbook.record import entries as model
from logbook.record.collecting import collection_paused
from logbook.record.finding import Finding
from logbook.record.record import Record
from logbook.state.arrangement import Arrangement
from logbook.state.states import PLANNED, Moment, Reworked, State
from logbook.state.steps import Folder


class Life(NamedTuple):
    """The whole fold: a state after each entry, what was fitted when a step began, and every rework."""

    record: Record
    arrangement: Arrangement
    start: State
    states: tuple[State, ...]
    within: Mapping[Moment, State]  # the state just before a step, where entries have several
    reworks: tuple[Reworked, ...]
    findings: tuple[Finding, ...]

    def before(self, moment: Moment) -> State:
        """The state just before a moment."""
        number, step = moment
        if (number, step) in self.within:
            return self.within[(number, step)]
        return self.after(number - 1)

    def meant(self, stood: State) -> State:
        """The engine that a word is about: as it stood then, or, before any block was in, as it was first together.

        What a seller or a book says is often written down before the engine itself is.
        """
        if any(each.kind == "block" for each in stood.fitted.values()):
            return stood
        return next((state for state in self.states[max(stood.number, 0) :] if _whole(state)), stood)

    def after(self, number: int) -> State:
        """The state after entry `number`; before the first entry for −1."""
        return self.states[number] if number >= 0 else self.start


def _whole(state: State) -> bool:
    return {each.kind for each in state.fitted.values()} >= {"block", "crankshaft", "pistons", "cylinder_head"}


@collection_paused()
def live(record: Record) -> Life:
    """Fold the record's entries, in their order."""
    folder = Folder(record)
    states = []
    for number, entry in enumerate(record.entries):
        folder.take(number, entry)
        states.append(folder.state)
    return Life(
        record,
        folder.arrangement,
        folder.start,
        tuple(states),
        folder.within,
        tuple(folder.reworks),
        tuple(folder.findings),
    )


def also(
    life: Life, state: State, work: Iterable[model.Step], file: str
) -> tuple[State, tuple[Reworked, ...], tuple[Finding, ...]]:
    """Steps that are only thought of, on top of a state: what a plan would make of it."""
    folder = Folder(life.record, state, life.arrangement)
    for index, step in enumerate(work):
        folder.step((state.number, PLANNED + index), step, file)
    return folder.state, tuple(folder.reworks), tuple(folder.findings)
