"""Readings of one quantity at named places, as they stand in a file: `bore: {top along: …, top across: …}`.

The quantity itself takes the mean of them (record/facts.py). Here each is found again by its label, in the text that
the fact keeps, and becomes a fact of its own: same file, same instrument, its own line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache

from logbook.quantity.catalogue import catalogue, nearest
from logbook.quantity.value import parse_line
from logbook.record.facts import Fact
from logbook.record.finding import DOUBTFUL, NOTE, Finding
from logbook.record.record import Record

_LABELLED = re.compile(r"([^\d-].*?) ((?:x|-?\d).*)")


def named_reading(fact: Fact, label: str) -> Fact | None:
    """The one reading of a fact that is written under that label; None if there is none."""
    text = _lines(fact).get(label)
    if text is None:
        return None
    positions = parse_line(text, fact.row).positions
    left = tuple(each if whole else None for each, whole in zip(positions, fact.positions, strict=True))
    return fact._replace(positions=left, text=text, path=(*fact.path, label))


def readings_are_named(record: Record) -> Iterator[Finding]:
    """Labels that the catalogue does not know: such readings count in the mean, and for nothing else."""
    for name, known in _labels().items():
        for fact in record.facts.get(name, ()):
            for label in _lines(fact):
                if label not in known:
                    near = nearest(label, known)
                    says = f"`{label}` counts in the mean of the {fact.row.uk} and for nothing else"
                    mend = f"write `{near}`" if near else f"taper and ovality take {', '.join(known)}"
                    level = DOUBTFUL if near else NOTE
                    yield record.finding(fact.stated.file, (*fact.path, label), level, says, mend, key=True)


def _lines(fact: Fact) -> Mapping[str, str]:
    """The lines of a fact by their labels; empty where it has none."""
    found = (_LABELLED.fullmatch(piece) for piece in fact.text.split("; "))
    return {each[1]: each[2] for each in found if each}


@cache
def _labels() -> Mapping[str, tuple[str, ...]]:
    """The labels that the readings of a quantity may have, by the quantity's name."""
    readings = [row.reading for row in catalogue().values() if row.reading]
    return {name: tuple(label for other, label in readings if other == name) for name, _ in readings}
