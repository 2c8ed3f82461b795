"""Each piece of work, measurement and note of the life, in order, with what it did to the specs or to what is known."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.documents.content import ChangeBlock
from logbook.documents.history.effects import effect_rows, effect_title
from logbook.documents.history.forecasts import forecast_lines
from logbook.documents.history.steps import work_lines
from logbook.documents.history.taken import stated_lines
from logbook.documents.history.words import Words, as_written, capital, day, plain, reading
from logbook.documents.notes import Notes
from logbook.judge.timeline import Happening
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.record import Entry
from logbook.state.fold import Life
from logbook.state.sayings import closed_by, corrected


def anchor(number: int) -> str:
    """The name under which the contents point at an entry."""
    return f"entry-{number + 1}"


def change_block(life: Life, words: Words, notes: Notes, happening: Happening) -> ChangeBlock:
    """One entry that is no test."""
    entry, says = happening.entry, happening.entry.says
    rows, rest = effect_rows(words, happening)
    return ChangeBlock(
        anchor(happening.number),
        capital(entry.title),
        day(says.date),
        reading(says.reading),
        _kind(entry),
        entry.id,
        says.by or "",
        _build(says),
        (*_lines(life, words, happening.number), *_papers(says)),
        tuple(corrected_lines(life, words, entry)),
        effect_title(happening),
        rows,
        rest,
        " ".join(f"{line}." for line in forecast_lines(words, happening)),
        note=notes.html(says.note or ""),
    )


def _kind(entry: Entry) -> str:
    if isinstance(entry.says, model.Change):
        return plain(entry.says.kind or "work")
    return "note" if isinstance(entry.says, model.Note) else "measured"


def _build(says: model.Dated) -> str:
    return says.build or "" if isinstance(says, model.Change) else ""


def _lines(life: Life, words: Words, number: int) -> tuple[str, ...]:
    entry = life.record.entries[number]
    if isinstance(entry.says, model.Change):
        return work_lines(life, words, number)
    opened = (_open(life, number),) if isinstance(entry.says, model.Note) and entry.says.open else ()
    return (*opened, *stated_lines(life, words, entry))


def _open(life: Life, number: int) -> str:
    closing = closed_by(life.record, number)
    return f"Open until it was closed on {day(closing.says.date)}: ‘{closing.title}’" if closing else "Still open"


def corrected_lines(life: Life, words: Words, entry: Entry) -> Iterator[str]:
    """The figures of an entry that a later one has put right: what they are, and by which."""
    for number, fact, said in corrected(life.record):
        if fact.stated.file == entry.file:
            by, of = life.record.entries[number], f" of {said.part}" if said.part else ""
            where = f", {fact.row.place} {said.position}" if said.position else ""
            name, was = capital(words.name(fact.row)) + of + where, first_written(fact, said.position)
            yield f"{name} ({was}): corrected by ‘{by.title}’ of {day(by.says.date)}, and holds no more"


def first_written(fact: Fact, position: int | None) -> str:
    """What a line said before it was corrected, whole or at one position."""
    if position is None or position > len(fact.positions):
        return as_written(fact.text)
    figures = fact.positions[position - 1] or ()
    told = ", ".join(f"{each.number}{each.spread}" for each in figures)
    return as_written(f"{told} {figures[-1].unit}" if told else "x")


def _papers(says: model.Dated) -> Iterator[str]:
    if says.written_from:
        yield f"Copied from {says.written_from}"
