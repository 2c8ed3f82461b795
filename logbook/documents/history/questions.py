"""What is open: faults, claims against what was found, accepted exceptions, plans, corrections, what is overdue."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeVar

from logbook.documents import figures
from logbook.documents.content import ClaimRow, CorrectionRow, PlanBlock
from logbook.documents.history.changes import closed_by
from logbook.documents.history.parts import shown_due
from logbook.documents.history.steps import Telling, acceptance, line_of, named, written
from logbook.documents.history.words import Words, as_written, capital, day, in_words
from logbook.documents.pieces import Figure
from logbook.errors import PointUnknown
from logbook.judge.compare import difference
from logbook.judge.due import Due
from logbook.judge.means import mean_difference
from logbook.judge.reconcile import Reconciled, reconcile
from logbook.judge.timeline import TOLD
from logbook.quantity.catalogue import catalogue
from logbook.quantity.uncertain import COVERAGE, Uncertain
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.finding import NOTE, Finding
from logbook.record.read import Entry
from logbook.specs.configuration import Configuration, configuration, configuration_after
from logbook.specs.results import Claim
from logbook.state.fold import Life

S = TypeVar("S", bound=model.Step)

_SERVICE_LIFE = "its service life is"


def faults(life: Life, findings: tuple[Finding, ...]) -> Iterator[str]:
    """Open notes that no entry has closed, then what the check finds wrong or doubtful."""
    for number, entry in enumerate(life.record.entries):
        if isinstance(entry.says, model.Note) and entry.says.open and not closed_by(life, number):
            yield f"{entry.title}, open since {day(entry.says.date)}"
    for finding in findings:
        if finding.level != NOTE and _SERVICE_LIFE not in finding.says:  # that is told as overdue
            yield capital(in_words(finding.says))


def overdue_lines(over: list[Due]) -> Iterator[str]:
    """'springs-2: 41.6 h of 30 h, 11.6 h over'."""
    for each in over:
        at_least = "" if each.entered else "at least "
        run, allowed, excess = (shown_due(amount, each.unit) for amount in (each.run, each.allowed, each.over))
        never = "" if each.entered else "; never entered as done"
        yield f"{each.what if each.part else capital(each.what)}: {at_least}{run} of {allowed}, {excess} over{never}"


# --- claims ----------------------------------------------------------------------------------------------------------


def claims(life: Life, words: Words) -> Iterator[ClaimRow]:
    """Every claim of the record, against the first configuration that it was stated for and that can be worked out."""
    told: dict[tuple[str, str, float], Reconciled] = {}
    for at in _configurations(life):
        for name in at.specs:
            for each in reconcile(at, at.specs[name]) if at.specs[name].claims else ():
                told.setdefault((each.claim.file, name, each.claim.value), each)
    for fact in _claimed(life):
        found = next((each for (file, name, _), each in told.items() if (file, name) == (fact.stated.file, fact.name)),
                     None)  # fmt: skip
        yield _claim(words, fact, found)


def _configurations(life: Life) -> Iterator[Configuration]:
    """The engine after each entry that names a build, and now."""
    numbers = [n for n, entry in enumerate(life.record.entries) if getattr(entry.says, "build", None)]
    for number in dict.fromkeys([*numbers, len(life.states) - 1]):
        yield configuration_after(life, number)


def _claimed(life: Life) -> Iterator[Fact]:
    for facts in life.record.facts.values():
        yield from (fact for fact in facts if fact.claim)


def _claim(words: Words, fact: Fact, found: Reconciled | None) -> ClaimRow:
    what, claimed = capital(words.name(fact.row)), as_written(fact.text)
    if found is None:
        nothing = "Nothing in the record can be set beside it."
        return ClaimRow(what, claimed, _source(fact), Figure(""), Figure(""), nothing)
    value = words.figure(fact.row, found.value)
    delta = words.difference(fact.row, _minus(found.claim, found))
    return ClaimRow(what, claimed, _source(fact), value, Figure(delta.value, delta.uncertainty), _ended(found.sentence))


def _minus(claim: Claim, found: Reconciled) -> Uncertain:
    """Claim less found; they share nothing."""
    return Uncertain(claim.value, {"claim": claim.expanded / COVERAGE}) - found.value.uncertain


def _source(fact: Fact) -> str:
    stated = fact.stated
    who = f"{stated.basis}, {stated.source}" if stated.source else stated.basis
    parts = f", for {', '.join(part for _, part in stated.stated_for)}" if stated.stated_for else ""
    return f"{who}{parts}" + (f", {day(stated.when)}" if stated.when else "")


def _ended(sentence: str) -> str:
    return capital(sentence) + ("" if sentence.endswith(".") else ".")


# --- accepted, planned, corrected ------------------------------------------------------------------------------------


def accepted(life: Life, words: Words) -> Iterator[str]:
    """The last acceptance of each limit: what the owner let stand outside a rule, and why."""
    last: dict[str, tuple[Entry, model.Acceptance]] = {}
    for entry, step in _steps(life, model.Accept):
        last[step.accept.limit] = entry, step.accept
    for entry, said in last.values():
        yield f"{capital(acceptance(life, words, said))} ({day(entry.says.date)})"


def plans(life: Life, words: Words) -> Iterator[PlanBlock]:
    """Changes that were only thought of, each with what it would have made."""
    for name, plan in life.record.plans.items():
        state = f"withdrawn {day(plan.withdrawn)}" if plan.withdrawn else "thought of, neither done nor withdrawn"
        why = _ended(plan.why) if plan.why else ""
        yield PlanBlock(plan.title, day(plan.date), state, tuple(_planned(life, words, name, plan)), why)


def _planned(life: Life, words: Words, name: str, plan: model.Plan) -> Iterator[str]:
    yield f"from {plan.from_}"
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
    telling = Telling(life, words, life.record.entries[-1], len(life.states) - 1, index)
    return line_of(telling, step) if life.record.entries else type(step).__name__.lower()


def _would_make(life: Life, words: Words, name: str, plan: model.Plan) -> Iterator[str]:
    try:
        before, after = configuration(life, plan.from_), configuration(life, f"plan:{name}")
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
        was = as_written(facts[0].text) if facts else "what was stated"
        of = f" of {said.part}" if said.part else ""
        yield CorrectionRow(day(entry.says.date), capital(name) + of, was, "withdrawn", _ended(said.why), entry.id)


def _steps(life: Life, kind: type[S]) -> Iterator[tuple[Entry, S]]:
    for entry in life.record.entries:
        if isinstance(entry.says, model.Change):
            for step in entry.says.work:
                if isinstance(step, kind):
                    yield entry, step
