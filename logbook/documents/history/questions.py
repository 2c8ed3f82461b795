"""What is open: faults, accepted exceptions, plans, corrections, what is overdue."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeVar

from logbook.documents import figures
from logbook.documents.content import CorrectionRow, PlanBlock
from logbook.documents.history.changes import first_written
from logbook.documents.history.claims import ended
from logbook.documents.history.parts import shown_due
from logbook.documents.history.steps import Telling, acceptance, line_of, named, written
from logbook.documents.history.words import Words, capital, day, in_words
from logbook.errors import PointUnknown
from logbook.judge.checks import tests_are_even
from logbook.judge.compare import difference
from logbook.judge.due import Due
from logbook.judge.means import mean_difference
from logbook.judge.plans import carried_out
from logbook.judge.timeline import TOLD
from logbook.quantity.catalogue import catalogue
from logbook.record import entries as model
from logbook.record.finding import DOUBTFUL, Finding
from logbook.record.record import Entry
from logbook.specs.configuration import configuration
from logbook.state.fold import Life
from logbook.state.points import start_of_plan
from logbook.state.sayings import closed_by, of_entry

S = TypeVar("S", bound=model.Step)

_SERVICE_LIFE = "its service life is"


def faults(life: Life, findings: Iterable[Finding]) -> Iterator[str]:
    """Open notes that no entry has closed, what the check finds doubtful in the engine, what the last tests showed."""
    for number, entry in enumerate(life.record.entries):
        if isinstance(entry.says, model.Note) and entry.says.open and not closed_by(life.record, number):
            yield f"{entry.title}, open since {day(entry.says.date)}"
    for finding in findings:
        if finding.level == DOUBTFUL and _SERVICE_LIFE not in finding.says:  # that is told as overdue
            yield capital(in_words(finding.says))
    yield from _uneven(life)


def _uneven(life: Life) -> Iterator[str]:
    """A cylinder unlike the others in the last test of its kind; what an earlier one showed has been seen to since."""
    last = {}
    for entry in life.record.entries:
        if isinstance(entry.says, model.Test):
            dry = [
                fact for fact in of_entry(life.record, entry) if dict(fact.stated.qualifiers).get("oil") != "with oil"
            ]
            last.update({fact.name: entry for fact in dry})
    days = {entry.file: day(entry.says.date) for entry in last.values()}
    for finding in tests_are_even(life):
        if finding.file in days:
            yield f"{capital(in_words(finding.says))}, {days[finding.file]}"


def overdue_lines(over: list[Due]) -> Iterator[str]:
    """'springs-2: 41.6 h of 30 h, 11.6 h over'."""
    for each in over:
        at_least = "" if each.entered else "at least "
        run, allowed, excess = (shown_due(amount, each.unit) for amount in (each.run, each.allowed, each.over))
        never = "" if each.entered else "; never entered as done"
        yield f"{each.what if each.part else capital(each.what)}: {at_least}{run} of {allowed}, {excess} over{never}"


# --- accepted, planned, corrected ------------------------------------------------------------------------------------


def accepted(life: Life, words: Words) -> Iterator[str]:
    """The last acceptance of each limit: what the owner let stand outside a rule, and why."""
    last: dict[str, tuple[Entry, model.Acceptance]] = {}
    for entry, step in _steps(life, model.Accept):
        last[step.accept.limit] = entry, step.accept
    for entry, said in last.values():
        yield f"{capital(acceptance(life, words, said))} ({day(entry.says.date)})"


def plans(life: Life, words: Words) -> Iterator[PlanBlock]:
    """Changes that were thought of, each with what has become of it and what it would have made."""
    for name, plan in life.record.plans.items():
        state = _became(plan, carried_out(life, name))
        why = ended(plan.why) if plan.why else ""
        yield PlanBlock(plan.title, day(plan.date), state, tuple(_planned(life, words, name, plan)), why)


def _became(plan: model.Plan, done: Entry | None) -> str:
    if plan.withdrawn:
        return f"withdrawn {day(plan.withdrawn)}"
    return f"carried out {day(done.says.date)}, ‘{done.title}’" if done else "thought of, neither done nor withdrawn"


def _planned(life: Life, words: Words, name: str, plan: model.Plan) -> Iterator[str]:
    yield f"from {start_of_plan(life, name)}"
    for index, step in enumerate(plan.work):
        yield _as_planned(life, words, step, index)
    for quantity, raw in plan.assume.items():
        row = catalogue().get(quantity)
        yield "assumed: " + named(words.name(row) if row else quantity, written(raw))
    yield from _would_make(life, words, name, plan)


def _as_planned(life: Life, words: Words, step: model.Step, index: int) -> str:
    """A planned step in words; a part that would be fitted is not said to have taken another's place."""
    if isinstance(step, model.Fit):
        return f"fit {step.fit}" + (f" at {step.at}" if step.at else "")
    if isinstance(step, model.Remove):
        return f"take off {step.remove}"
    if not life.record.entries:
        return type(step).__name__.lower()
    return line_of(Telling(life, words, life.record.entries[-1], len(life.states) - 1, index), step)


def _would_make(life: Life, words: Words, name: str, plan: model.Plan) -> Iterator[str]:
    try:
        before, after = configuration(life, start_of_plan(life, name)), configuration(life, f"plan:{name}")
    except PointUnknown:
        return
    for spec in TOLD:
        each = mean_difference(difference(before.specs[spec], after.specs[spec]))
        was, now = each.before[0], each.after[0]
        if each.changed and was and now:
            pairs = [figures.joined(*words.pair(each.row, value), words.symbol(each.row)) for value in (was, now)]
            yield f"{words.name(each.row)} {pairs[0]} → {pairs[1]}"


def corrections(life: Life, words: Words) -> Iterator[CorrectionRow]:
    """Mistakes in the record that a later entry puts right."""
    for entry, step in _steps(life, model.Correct):
        said, wrong = step.correct, life.record.entry(step.correct.entry)
        row = catalogue().get(said.quantity)
        name = words.name(row) if row else said.quantity
        facts = [fact for fact in life.record.facts.get(said.quantity, ())
                 if wrong and fact.stated.file == wrong.file and said.part in (None, fact.stated.part)]  # fmt: skip
        was = first_written(facts[0], said.position) if facts else "what was stated"
        of = (f" of {said.part}" if said.part else "") + (
            f", {row.place} {said.position}" if row and said.position else ""
        )
        yield CorrectionRow(day(entry.says.date), capital(name) + of, was, "withdrawn", ended(said.why), entry.id)


def _steps(life: Life, kind: type[S]) -> Iterator[tuple[Entry, S]]:
    for entry in life.record.entries:
        if isinstance(entry.says, model.Change):
            for step in entry.says.work:
                if isinstance(step, kind):
                    yield entry, step
