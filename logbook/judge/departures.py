"""Where work was done otherwise than its plan said: steps left out or added, depths cut, figures that were meant."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from logbook.judge.hindsight import on_top_of
from logbook.judge.reconcile import e_n
from logbook.quantity.catalogue import quantity
from logbook.record import entries as model
from logbook.record.facts import MEASURED, Fact
from logbook.record.record import Record
from logbook.specs.configuration import configuration_after
from logbook.state.fold import Life
from logbook.state.holding import Held

#: What is done to the engine; how it is tightened or serviced on the way may differ.
DOES = (model.Fit, model.Remove, model.Rework)

Act = tuple[str, str, str]  # what a step does, to which part, and where: '' where it does not say


def what(step: model.Step) -> Act:
    """What a step does."""
    if isinstance(step, model.Fit):
        return "fit", step.fit, step.at or ""
    if isinstance(step, model.Rework):
        return step.operation, step.rework, ""
    return ("remove", step.remove, step.at or "") if isinstance(step, model.Remove) else ("", "", "")


def does(done: Act, wanted: Act) -> bool:
    """Whether that is what was wanted."""
    return done[:2] == wanted[:2] and (not wanted[2] or done[2] in ("", wanted[2]))


def departures(life: Life, name: str, number: int) -> Iterator[str]:
    """Each way in which the change of that number departs from the plan that it carried out."""
    plan, says = life.record.plans[name], life.record.entries[number].says
    yield from _steps(plan.work, says.work)
    yield from _depths(life.record, name, number)
    yield from _meant(life, name, number)


def _steps(planned: Sequence[model.Step], done: Sequence[model.Step]) -> Iterator[str]:
    wanted, acts = ([what(step) for step in steps if isinstance(step, DOES)] for steps in (planned, done))
    yield from (f"{_words(act)} was left out" for act in wanted if not any(does(each, act) for each in acts))
    yield from (f"{_words(act)} was not planned" for act in acts if not any(does(act, each) for each in wanted))


def _words(act: Act) -> str:
    does_what, part, place = act
    return f"{part}: {does_what}" + (f" at {place}" if place else "")


def _depths(record: Record, name: str, number: int) -> Iterator[str]:
    """Cuts of one part by one operation, the first with the first."""
    entry = record.entries[number]
    planned = _cuts(record, f"plans/{name}.yaml", record.plans[name].work)
    for act, depths in _cuts(record, entry.file, entry.says.work).items():
        for meant, cut in zip(planned.get(act, ()), depths, strict=False):
            if meant and _depth(cut) != _depth(meant):
                taken = cut.text if cut else "not said how deep"
                yield f"{act[1]}: {act[0]} {taken}, where {meant.text} was planned"


def _cuts(record: Record, file: str, work: Sequence[model.Step]) -> Mapping[Act, list[Fact | None]]:
    found: dict[Act, list[Fact | None]] = {}
    for index, step in enumerate(work):
        if isinstance(step, model.Rework):
            found.setdefault(what(step), []).append(record.depth_of(file, index))
    return found


def _depth(cut: Fact | None) -> float | None:
    stated = cut.at(0) if cut else None
    return round(stated[0].nominal, 9) if stated else None


def _meant(life: Life, name: str, number: int) -> Iterator[str]:
    """Figures that reworks were meant to leave, against what was measured of them from the change on."""
    holding = configuration_after(life, number).holding
    lent = on_top_of(life, name, number - 1).holding.lent if number else None
    apart: dict[tuple[int, int], str] = {}  # by the fact that was meant and the fact that was found
    for (quantity_name, position), meant in (lent or {}).items():
        found = holding.best(quantity(quantity_name), position)
        if meant and found and _measured_since(found, number) and _is_apart(meant, found):
            texts = (each.fact.text.removeprefix("all: ") for each in (found, meant))
            words = f"{meant.fact.row.uk} {', where '.join(texts)} was planned"
            apart[id(meant.fact), id(found.fact)] = f"{meant.fact.stated.part}: {words}"
    yield from apart.values()


def _measured_since(found: Held, number: int) -> bool:
    stated = found.fact.stated
    return found.basis == MEASURED and stated.entry is not None and stated.entry >= number


def _is_apart(meant: Held, found: Held) -> bool:
    errors = found.value.expanded, meant.value.expanded
    gap = found.value.nominal - meant.value.nominal
    return abs(e_n(gap, *errors)) > 1 if any(errors) else gap != 0.0
