"""What the owner says of earlier entries: which facts are wrong, which hold all the same, what is closed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.record import Entry, Record

S = TypeVar("S", bound=model.Step)


def mistakes(record: Record, known: int | None = None) -> frozenset[int]:
    """The ids of the facts that an entry calls mistakes, whole or position by position to the last; they do not hold,
    from the day they were written."""
    return record.once(("mistakes", known), lambda: frozenset(_wrong(record, known)))


def _wrong(record: Record, known: int | None) -> Iterator[int]:
    yield from (id(fact) for _, fact, said in corrected(record, known) if said.position is None)
    yield from (which for which, left in without_mistakes(record, known).items() if not any(left.positions))


def without_mistakes(record: Record, known: int | None = None) -> Mapping[int, Fact]:
    """By the id of a fact: what is left of it where single positions were called mistakes, as if never taken."""
    return record.once(("without mistakes", known), lambda: _left(record, known))


def _left(record: Record, known: int | None) -> dict[int, Fact]:
    left: dict[int, Fact] = {}
    for _, fact, said in corrected(record, known):
        if said.position is not None and said.position <= len(fact.positions) and not fact.for_all:
            positions = list(left.get(id(fact), fact).positions)
            positions[said.position - 1] = None
            left[id(fact)] = fact._replace(positions=tuple(positions))
    return left


def of_entry(record: Record, entry: Entry) -> Iterator[Fact]:
    """The figures of an entry that still hold: without mistakes, and of a line what is left of it."""
    wrong, left = mistakes(record), without_mistakes(record)
    yield from (left.get(id(fact), fact) for fact in entry.facts if id(fact) not in wrong)


def corrected(record: Record, known: int | None = None) -> Iterator[tuple[int, Fact, model.Correction]]:
    """Each fact that an entry calls a mistake, whole or at one position, with the number of that entry."""
    for number, step in _said(record, known, model.Correct):
        said, file = step.correct, _file_of(record, step.correct.entry)
        for fact in record.facts.get(said.quantity, ()):
            earlier = fact.stated.entry is None or fact.stated.entry < number
            if earlier and fact.stated.file == file and said.part in (None, fact.stated.part):
                yield number, fact, said


def closed_by(record: Record, number: int) -> Entry | None:
    """The later entry that closes an open note."""
    wanted = record.entries[number]
    for later in record.entries[number + 1 :]:
        steps = later.says.work if isinstance(later.says, model.Change) else ()
        if any(isinstance(step, model.Closes) and record.entry(step.closes) is wanted for step in steps):
            return later
    return None


def adoptions(record: Record, known: int | None = None) -> tuple[tuple[int, model.Adoption, str], ...]:
    """What the owner says holds: the number of the entry that says so, its words, the file that it means."""
    said = ((number, step.adopt) for number, step in _said(record, known, model.Adopt))
    return record.once(
        ("adoptions", known), lambda: tuple((number, it, _file_of(record, it.from_)) for number, it in said)
    )


def _file_of(record: Record, name: str) -> str:
    """The file of an entry, or of a part, by the name that a step gives it."""
    entry = record.entry(name)
    return entry.file if entry else f"{name.removesuffix('.yaml')}.yaml"


def _said(record: Record, known: int | None, kind: type[S]) -> Iterator[tuple[int, S]]:
    """Steps of one kind in the entries that are known of."""
    for number, entry in enumerate(record.entries[:known]):
        if isinstance(entry.says, model.Change):
            yield from ((number, step) for step in entry.says.work if isinstance(step, kind))
