"""The life of the engine, entry by entry, each with what it did to the specs.

Work is told as known now: the engine before and after it, with all that was ever measured. An entry that only states
figures (a measurement, a correction) is told as what it changed in belief: derived from the record up to and including
it, less the same without it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from logbook.judge.as_tested import Tested, test_of
from logbook.judge.compare import Difference, difference
from logbook.judge.forecast import Score, scores
from logbook.quantity.catalogue import catalogue
from logbook.record import entries as model
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.groups import in_page_order
from logbook.state.fold import Life
from logbook.state.states import State

WORK, BELIEF, NOTHING = "work", "belief", "nothing"

#: Specs that stand for the others in a line of the timeline.
TOLD = ("displacement", "mean_compression_ratio", "effective_compression_ratio", "squish_clearance",
        "valve_overlap", "mean_piston_speed")  # fmt: skip


#: And of what one test comes to; of a run at its greatest power.
OF_A_TEST_TOLD = ("power", "brake_mean_effective_pressure", "volumetric_efficiency", "specific_fuel_consumption",
                  "brake_thermal_efficiency", "injector_duty", "leak_down_spread", "cranking_pressure_least",
                  "oil_viscosity_change")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Happening:
    """One entry with the state after it and what it did: the specs that changed, by name.

    `scores`: what a plan that it carried out had forecast, against what was found since. `tested`: a test of the
    engine, with what was read in it.
    """

    number: int
    entry: Entry
    state: State
    told_as: str
    effect: Mapping[str, Difference]
    scores: tuple[Score, ...] = ()
    tested: Tested | None = None


def timeline(life: Life, file: Callable[[str], bytes] | None = None) -> Iterator[Happening]:
    """Every entry in order; `file`: how the tables of tests are read, where it is also told what they come to."""
    previous = -1, configuration_after(life, -1)
    for number, entry in enumerate(life.record.entries):
        told_as = how_told(entry)
        effect: Mapping[str, Difference] = {}
        if told_as == WORK:
            before = previous[1] if previous[0] == number - 1 else _asked(configuration_after(life, number - 1))
            previous = number, configuration_after(life, number)
            effect = changed(before, previous[1])
        elif told_as == BELIEF:
            before = _asked(configuration_after(life, number, known=number))
            effect = changed(before, configuration_after(life, number, known=number + 1))
        is_test = isinstance(entry.says, model.Test)
        tested = test_of(configuration_after(life, number), file) if file and is_test else None
        yield Happening(number, entry, life.after(number), told_as, effect, scores(life, number), tested)


def _asked(at: Configuration) -> Configuration:
    """The same once every spec was asked for: what is made after it takes over what is the same there."""
    for _ in at.specs.values():
        pass
    return at


def how_told(entry: Entry) -> str:
    """Whether an entry is work, changes only what is believed, or neither."""
    if isinstance(entry.says, model.Change):
        steps = entry.says.work
        if any(_is_work(step) for step in steps):
            return WORK
        return BELIEF if any(isinstance(step, model.Correct | model.Adopt) for step in steps) else NOTHING
    states = [fact for fact in entry.facts if fact.stated.occasion != "test" and not fact.claim]
    return BELIEF if states or _of_a_flow_bench(entry.says) else NOTHING


def _of_a_flow_bench(says: model.Dated) -> bool:
    """Whether a test states flows of a part, in its table."""
    return isinstance(says, model.Test) and bool(says.part and says.data and says.at_depression)


def _is_work(step: model.Step) -> bool:
    if isinstance(step, model.Set):
        return any(name in catalogue() for name in step.set)
    return isinstance(step, model.Fit | model.Remove | model.Rework)


def changed(before: Configuration, after: Configuration) -> dict[str, Difference]:
    """The specs that differ between two configurations, in page order."""
    pairs = ((name, before.specs[name], after.specs[name]) for name in in_page_order(after.graph.specs))
    found = {name: difference(was, now) for name, was, now in pairs if was is not now}
    return {name: each for name, each in found.items() if each.changed}
