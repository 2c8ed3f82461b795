"""Claims: what was stated of the engine, beside what the record gives for it, and by which volumes the two differ."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.documents.content import ClaimRow
from logbook.documents.history.words import Words, as_written, capital, day, listed
from logbook.documents.pieces import Column, Figure, Table
from logbook.judge.papers import Papers
from logbook.judge.reconcile import Reconciled, reconcile
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import COVERAGE, Uncertain
from logbook.record.facts import Fact
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.results import Claim
from logbook.state.fold import Life


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
    difference = Figure(delta.value, delta.uncertainty)
    volumes = _volumes(words, found.papers) if found.papers and not found.agrees else None
    sentence = found.short if volumes else found.sentence
    return ClaimRow(what, claimed, _source(fact), value, difference, ended(sentence), volumes)


def _volumes(words: Words, papers: Papers) -> Table:
    """By what the engine as found differs from its papers, above each piston: volume by volume, and the sum."""
    row = quantity("clearance_volume")
    parts = [(capital(part.word), part.difference) for part in papers.components]
    rows = [(name, *_signed(words.difference(row, delta))) for name, delta in [*parts, ("Together", papers.difference)]]
    heads = Column("above each piston"), Column(f"found less published, {words.symbol(row)}", True), Column("±", True)
    mainly = listed([part.word for part in papers.mainly])
    says = f"The published figures give {papers.ratio:.2f}; what was found differs from them mainly in {mainly}."
    return Table(heads, tuple(rows), says)


def _signed(delta: Figure) -> tuple[str, str]:
    return delta.value, delta.uncertainty


def _minus(claim: Claim, found: Reconciled) -> Uncertain:
    """Claim less found; they share nothing."""
    return Uncertain(claim.value, {"claim": claim.expanded / COVERAGE}) - found.value.uncertain


def _source(fact: Fact) -> str:
    stated = fact.stated
    who = f"{stated.basis}, {stated.source}" if stated.source else stated.basis
    parts = f", for {', '.join(part for _, part in stated.stated_for)}" if stated.stated_for else ""
    return f"{who}{parts}" + (f", {day(stated.when)}" if stated.when else "")


def ended(sentence: str) -> str:
    return capital(sentence) + ("" if sentence.endswith(".") else ".")
