"""What the owner says of earlier entries: which facts are wrong, which hold all the same, what is closed."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from operator import itemgetter
from typing import TypeVar

from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.record import Entry, Record

S = TypeVar("S", bound=model.Step)


def mistakes(record: Record, known: int | None = None) -> frozenset[int]:
    """The ids of the facts that an entry calls mistakes, whole or position by position to the last; they do not hold,
    from the day they were written."""
    return record.once(("mistakes", corrections(record, known)), lambda: frozenset(_wrong(record, known)))


def _wrong(record: Record, known: int | None) -> Iterator[int]:
    yield from (id(fact) for _, fact, said in corrected(record, known) if said.position is None)
    yield from (which for which, left in without_mistakes(record, known).items() if not any(left.positions))


def without_mistakes(record: Record, known: int | None = None) -> Mapping[int, Fact]:
    """By the id of a fact: what is left of it where single positions were called mistakes, as if never taken."""
    return record.once(("without mistakes", corrections(record, known)), lambda: _left(record, known))


def _left(record: Record, known: int | None) -> dict[int, Fact]:
    left: dict[int, Fact] = {}
    for _, fact, said in corrected(record, known):
        if said.position is not None and said.position <= len(fact.positions) and not fact.for_all:
            positions = list(left.get(id(fact), fact).positions)
            positions[said.position - 1] = None
            left[id(fact)] = fact._replace(positions=tuple(positions))
    return left


def corrections(record: Record, known: int | None = None) -> int:
    """How many there are in the entries that are known of; what these call a mistake follows from it."""
    return len(_said(record, known, model.Correct))


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
    said = record.once(
        "adoptions",
        lambda: tuple(
            (number, step.adopt, _file_of(record, step.adopt.from_))
            for number, step in _said(record, None, model.Adopt)
        ),
    )
    return said[: len(_said(record, known, model.Adopt))]


def _file_of(record: Record, name: str) -> str:
    """The file of an entry, or of a part, by the name that a step gives it."""
    entry = record.entry(name)
    return entry.file if entry else f"{name.removesuffix('.yaml')}.yaml"


def _said(record: Record, known: int | None, kind: type[S]) -> Sequence[tuple[int, S]]:
    """Steps of one kind in the entries that are known of, with the number of the entry."""
    every: tuple[tuple[int, S], ...] = record.once(("said", kind), lambda: tuple(_steps(record, kind)))
    return every if known is None else every[: bisect_left(every, known, key=itemgetter(0))]


def _steps(record: Record, kind: type[S]) -> Iterator[tuple[int, S]]:
    for number, entry in enumerate(record.entries):
        if isinstance(entry.says, model.Change):
            yield from ((number, step) for step in entry.says.work if isinstance(step, kind))
