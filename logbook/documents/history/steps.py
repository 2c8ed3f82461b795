"""Steps of work in plain words: one function for each kind of step, and lines that stand for several alike.

In: an entry of the life. Out: a line for each step; what was found in place, bought or scrapped stands in one line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from logbook.documents.history.words import Words, amount, as_written, capital, day, listed, plain
from logbook.judge.limits import limits_of
from logbook.quantity.catalogue import catalogue
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.record import Entry
from logbook.record.when import NotThat, parse_amount
from logbook.state.fold import Life
from logbook.state.sayings import corrected
from logbook.state.states import State


@dataclass(frozen=True, slots=True)
class Telling:
    """One step where it stands: `number` counts the entries, `index` the steps of this one."""

    life: Life
    words: Words
    entry: Entry
    number: int
    index: int

    @property
    def before(self) -> State:
        return self.life.before((self.number, self.index))

    @property
    def after(self) -> State:
        return self.life.within.get((self.number, self.index + 1), self.life.after(self.number))

    def part(self, name: str) -> str:
        """'head-b', but 'cylinder head H7' where the name does not say what it is."""
        part = self.life.record.parts.get(name)
        said = part is None or any(word in name.casefold() for word in self.words.kind(part.kind).split())
        return name if part is None or said else f"{self.words.kind(part.kind)} {name}"


def work_lines(life: Life, words: Words, number: int) -> tuple[str, ...]:
    """What was done in entry `number`, a line for each step or for several alike."""
    entry = life.record.entries[number]
    steps = [(Telling(life, words, entry, number, index), step) for index, step in enumerate(entry.says.work)]
    return tuple(line for key, some in groupby(steps, lambda each: _alike(each[1])) for line in _lines(key, list(some)))


def _alike(step: model.Step) -> str | int:
    """Steps with the same key become one line; a number of its own keeps a step apart."""
    if isinstance(step, model.Fit) and step.found and not step.note:
        return "Found in place"
    if isinstance(step, model.Owner) and step.part and not step.note:
        return capital(step.owner)
    if isinstance(step, model.Service) and not step.note:
        return "Service"
    return id(step)


def _lines(key: str | int, steps: Sequence[tuple[Telling, Any]]) -> Iterator[str]:
    if isinstance(key, str):
        yield f"{key}: {listed([_named(step) for _, step in steps])}"
        return
    for telling, step in steps:
        stated = [fact for fact in telling.entry.facts if fact.stated.step == telling.index]
        yield line_of(telling, step) + corrected_on(telling.life, telling.words, stated)


def corrected_on(life: Life, words: Words, stated: Sequence[Fact]) -> str:
    """'; corrected on 1 May 2017: dish volume' where a line states what a later entry has put right."""
    marks = [f"; corrected on {day(life.record.entries[number].says.date)}: {words.name(fact.row)}"
             for number, fact, _ in corrected(life.record) if any(fact is each for each in stated)]  # fmt: skip
    return "".join(dict.fromkeys(marks))


def _named(step: Any) -> str:
    name = step.fit if isinstance(step, model.Fit) else step.part if isinstance(step, model.Owner) else step.service
    return str(name) + (f" at {step.at}" if isinstance(step, model.Fit) and step.at else "")


def line_of(telling: Telling, step: model.Step) -> str:
    """One step in words, with who did it, with what, why, and its note."""
    line = _TOLD[type(step)](telling, step)
    tool = "" if isinstance(step, model.Set | model.Rework) or not step.with_ else f", with {step.with_}"
    who = f", by {step.by}" if step.by and step.by != telling.entry.says.by else ""
    why = f", because: {step.why}" if step.why else ""
    note = f"; {step.note.strip()}" if step.note else ""
    return f"{line}{tool}{who}{why}{note}".removesuffix(".")


# --- one function for each kind of step ------------------------------------------------------------------------------


def _fit(telling: Telling, step: model.Fit) -> str:
    off = [part for part in telling.before.parts if part not in telling.after.parts]
    place = f" at {step.at}" if step.at else ""
    order = f", pieces {step.order} in the order of the cylinders" if step.order else ""
    verb = "found in place" if step.found else "fitted"
    came_off = f"; {listed(off)} came off" if off else ""
    return f"{telling.part(step.fit)} {verb}{place}{order}{came_off}"


def _remove(telling: Telling, step: model.Remove) -> str:
    to = f", to {step.to}" if step.to else ""
    return f"{telling.part(step.remove)} taken off{to}"


def _rework(telling: Telling, step: model.Rework) -> str:
    depth = f", {as_written(step.depth)}" if step.depth else ""
    now = f", now {_figures(telling, step.to)}" if step.to else ""
    tool = f" (with {step.with_})" if step.with_ else ""
    return f"{telling.part(step.rework)}: {step.operation}{depth}{now}{tool}"


def _set(telling: Telling, step: model.Set) -> str:
    stood_at = telling.words.conditions(step.qualifiers())
    behind = ", ".join(filter(None, (stood_at, f"with {step.with_}" if step.with_ else "")))
    return f"Set: {_figures(telling, step.set)}" + (f" ({behind})" if behind else "")


def _tune(telling: Telling, step: model.Tune) -> str:
    state = {"trial": "on trial", "in use": "in use", "withdrawn": "withdrawn"}[step.state]
    came = f", made from {step.from_}" if step.from_ else ""
    fuel = f", for {step.fuel}" if step.fuel else ""
    return f"Tune {step.tune} {state}{came}{fuel}"


def _tighten(telling: Telling, step: model.Tighten) -> str:
    said = (
        step.stages,
        step.order,
        step.thread and f"thread {step.thread}",
        step.lubricant and f"lubricated with {step.lubricant}",
        step.bolts and f"bolts {step.bolts}",
        step.tightenings and f"tightening number {step.tightenings} of these bolts",
        step.stretch and f"stretch {as_written(step.stretch)}",
        step.target and f"wanted {as_written(step.target)}",
    )
    told = ", ".join(each for each in said if each)
    return f"{capital(step.tighten)} tightened" + (f": {told}" if told else "")


def _service(telling: Telling, step: model.Service) -> str:
    return f"Service: {step.service}"


def _repair(telling: Telling, step: model.Repair) -> str:
    return f"Repaired: {step.repair}" + (f", {step.how}" if step.how else "")


def _counter(telling: Telling, step: model.Counter) -> str:
    return capital(_counters(step.counter))


def _move(telling: Telling, step: model.Move) -> str:
    told = _counters(step.counters)
    return f"Moved: {step.move}" + (f"; {told}" if told else "")


def _counters(changes: Mapping[str, model.Was]) -> str:
    return "; ".join(_counted(name, change) for name, change in changes.items())


def _counted(name: str, change: model.Was) -> str:
    if change.was == "none":
        return f"{name} begins at {_shown(change.now)}"
    if change.now == "none":
        return f"{name} ends at {_shown(change.was)}"
    return f"{name} replaced or reset at {_shown(change.was)}, goes on from {_shown(change.now)}"


def _shown(text: str) -> str:
    try:
        return amount(parse_amount(text))
    except NotThat:
        return text


def _correct(telling: Telling, step: model.Correct) -> str:
    said = step.correct
    of = f" of {said.part}" if said.part else ""
    return (f"Corrected: {_quantity(telling, said.quantity)}{of}, as {_entry(telling, said.entry)} states it, "
            f"does not hold: {said.why}")  # fmt: skip


def _adopt(telling: Telling, step: model.Adopt) -> str:
    said = step.adopt
    of = f" of {said.part}" if said.part else ""
    return f"Chosen: {_quantity(telling, said.quantity)}{of} from {_entry(telling, said.from_)}, because: {said.why}"


def _accept(telling: Telling, step: model.Accept) -> str:
    return "Accepted: " + acceptance(telling.life, telling.words, step.accept)


def acceptance(life: Life, words: Words, said: model.Acceptance) -> str:
    """What was accepted outside a rule, and why: 'valve to piston 1.9 mm where the rule is at least 2.0 mm, …'."""
    limit = next((each for each in limits_of(life.record.engine) if said.limit in (each.id, each.spec)), None)
    row = catalogue().get(limit.spec) if limit else None
    name = words.name(row) if row else plain(said.limit)
    if said.value:
        name = named(name, as_written(said.value))
    rules = [
        f"at least {limit.low}" if limit and limit.low else "",
        f"at most {limit.high}" if limit and limit.high else "",
    ]
    told = listed([each for each in rules if each])
    where = f" where the rule is {told} ({limit.source})" if limit and told else ""
    return f"{name}{where}, because: {said.why}"


def _owner(telling: Telling, step: model.Owner) -> str:
    return f"{capital(step.owner)}: {step.part or 'the engine'}"


def _handed_over(telling: Telling, step: model.HandedOver) -> str:
    return f"Handed over: {step.handed_over}"


def _due(telling: Telling, step: model.Due) -> str:
    return f"Due: {step.due} after {_shown(step.after)}"


def _closes(telling: Telling, step: model.Closes) -> str:
    return f"Closes what was open: {_entry(telling, step.closes)}"


_TOLD: Mapping[type[model.Step], Callable[[Telling, Any], str]] = {
    model.Fit: _fit,
    model.Remove: _remove,
    model.Rework: _rework,
    model.Set: _set,
    model.Tune: _tune,
    model.Tighten: _tighten,
    model.Service: _service,
    model.Repair: _repair,
    model.Counter: _counter,
    model.Move: _move,
    model.Correct: _correct,
    model.Adopt: _adopt,
    model.Accept: _accept,
    model.Owner: _owner,
    model.HandedOver: _handed_over,
    model.Due: _due,
    model.Closes: _closes,
}


# --- what they share -------------------------------------------------------------------------------------------------


def _figures(telling: Telling, values: Mapping[str, Any]) -> str:
    return "; ".join(named(_quantity(telling, name), written(raw)) for name, raw in values.items())


def _quantity(telling: Telling, name: str) -> str:
    row = catalogue().get(name)
    return telling.words.name(row) if row else plain(name)


def named(name: str, text: str) -> str:
    """'stroke 79.00 mm', and with a colon where the name has a comma of its own."""
    return f"{name}: {text}" if "," in name else f"{name} {text}"


def written(raw: Any) -> str:
    """A value as its file writes it, on one line."""
    if isinstance(raw, str):
        return as_written(raw)
    if isinstance(raw, dict) and set(raw) == {"all"}:
        return as_written(f"all: {raw['all']}")
    if isinstance(raw, dict):
        return "; ".join(f"{label} {written(each)}" for label, each in raw.items())
    return "; ".join(written(each) for each in raw)


def _entry(telling: Telling, name: str) -> str:
    entry = telling.life.record.entry(name)
    return f"‘{entry.title}’ of {day(entry.says.date)}" if entry else name
