"""A tune that nothing has proven since what it was made for changed.

A tune belongs to the head, camshaft, pistons, injectors, carburettor and blower that it was found with. Where one of
them was exchanged or worked on since, it is not proven until the engine has been tuned anew or tested under load.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from logbook.record import entries as model
from logbook.record.finding import NOTE, Finding
from logbook.specs.configuration import Configuration, configuration_after
from logbook.state.fold import Life
from logbook.state.states import Moment, State, TuneState

#: What a tune is found with.
TUNED_FOR = (
    "cylinder_head", "camshaft", "inlet_camshaft", "exhaust_camshaft", "pistons", "injectors", "carburettor",
    "turbocharger", "supercharger",
)  # fmt: skip

#: The kinds of test that run an engine under load, in the words that people give them.
_UNDER_LOAD = re.compile(r"dyn|road|rolling|hub|brake|run", re.IGNORECASE)

TAKE_CARE = "listen for knock and watch the mixture before full load"
CAUTION = f"{TAKE_CARE}; the maker's manual comes first"


class Unproven(NamedTuple):
    """A tune in the engine, what changed since, and the entry that changed it last."""

    tune: TuneState
    changed: tuple[str, ...]
    since: int

    @property
    def words(self) -> str:
        """`not proven since head-c was fitted`."""
        return f"not proven since {' and '.join(self.changed)}"


def unproven(at: Configuration) -> Unproven | None:
    """Whether the tune in the engine is not proven at this point; None where there is none, or nothing changed."""
    tune, life = at.state.tune, at.life
    if tune is None:
        return None
    last = max((tune.moment, *_loads(life, at.state, tune.moment)))
    fitted = dict(_fitted_since(life, at.state, last))
    exchanged = [(moment, f"{part} was fitted") for part, moment in fitted.items()]
    reworked = [
        (rework.moment, f"{rework.part} was worked on ({rework.operation})")
        for rework in (*life.reworks, *at.holding.planned)
        if last < rework.moment and rework.moment[0] <= at.state.number and not rework.adjusted
        and rework.part in at.state.parts and rework.part not in fitted
        and life.record.parts[rework.part].kind in TUNED_FOR
    ]  # fmt: skip
    changed = sorted((*exchanged, *reworked))
    words = tuple(dict.fromkeys(words for _, words in changed))
    return Unproven(tune, words, changed[-1][0][0]) if changed else None


def _loads(life: Life, state: State, after: Moment) -> Iterator[Moment]:
    """Tests under load after a moment, up to a state."""
    for number, entry in enumerate(life.record.entries[: state.number + 1]):
        if number > after[0] and isinstance(entry.says, model.Test) and _UNDER_LOAD.search(entry.says.kind):
            yield number, 0


def _fitted_since(life: Life, state: State, moment: Moment) -> Iterator[tuple[str, Moment]]:
    """Parts of those kinds that were not in the engine at a moment, each once, with when they were fitted."""
    before = life.after(moment[0]).parts
    for fitting in state.fitted.values():
        if fitting.kind in TUNED_FOR and fitting.since > moment and fitting.part not in before:
            yield fitting.part, fitting.since


def tunes_are_proven(life: Life) -> Iterator[Finding]:
    """The tune in the engine now, where what it was made for has changed since."""
    if not life.states:
        return
    found = unproven(configuration_after(life, len(life.states) - 1))
    if found:
        number, step = found.tune.moment
        says = f"{found.tune.label} is {found.words}"
        place = life.record.entries[number].file, ("work", step, "tune")
        yield life.record.finding(*place, NOTE, says, f"tune it anew, or enter a test under load; {CAUTION}")
