"""What an entry states, in lines: of which part, with which instrument, which figures, as they were written."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from logbook.documents.history.steps import corrected_on, named
from logbook.documents.history.words import Words, as_written, capital
from logbook.record import entries as model
from logbook.record.facts import MEASURED, Fact
from logbook.record.record import Entry
from logbook.state.fold import Life


def stated_lines(life: Life, words: Words, entry: Entry) -> Iterator[str]:
    """A line for each part and instrument; what was not measured says what it rests on, what is wrong that it was
    corrected."""
    remarks = _remarks(entry)
    for where, some in groupby(entry.facts, lambda fact: fact.stated.path):
        facts = list(some)
        stated = facts[0].stated
        told = "; ".join(named(words.name(fact.row), as_written(fact.text)) for fact in facts)
        yield (
            (f"{stated.part}: {told}" if stated.part else capital(told))
            + _behind(words, facts[0])
            + remarks.get(where[:-1], "")
            + corrected_on(life, words, facts)
        )


def _behind(words: Words, fact: Fact) -> str:
    """' (with the burette, at 0.1 mm lift)'."""
    stated = fact.stated
    said = (
        "" if stated.basis == MEASURED else stated.basis,
        stated.source and f"source: {stated.source}",
        stated.stated_for and "for " + ", ".join(part for _, part in stated.stated_for),
        stated.instrument and f"with {stated.instrument}",
        words.conditions(dict(stated.qualifiers)),
    )
    told = ", ".join(each for each in said if each)
    return f" ({told})" if told else ""


def _remarks(entry: Entry) -> dict[tuple[str | int, ...], str]:
    """The notes of single takings, by the place where they stand."""
    says = entry.says
    if isinstance(says, model.Measurement):
        key, blocks = "taken", [each.note for each in says.taken]
    elif isinstance(says, model.Note):
        key, blocks = "facts", [each.note for each in says.facts]
    else:
        return {}
    return {(key, index): f"; {note.strip().removesuffix('.')}" for index, note in enumerate(blocks) if note}
