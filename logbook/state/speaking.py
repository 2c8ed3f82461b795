"""Which facts of a quantity may hold at all, before anybody asks where and when: what is left of them is a matter of
the record, so it is worked out once.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.record.facts import Fact
from logbook.record.read import Record
from logbook.state.bolts import BOLTS, of_other_bolts
from logbook.state.fold import Life
from logbook.state.sayings import mistakes, without_mistakes
from logbook.state.states import Moment, State, moment_of


class Known(NamedTuple):
    """How many entries count: what they state, and what they call mistakes. None: all of them."""

    stated: int | None
    mistakes: int | None


Said = list[tuple[Fact, Moment]]


def speaking(life: Life, state: State, name: str, known: Known, *, claims: bool = True) -> Said:
    """The facts that may hold, as far as is `known`, with the moment they were stated at."""
    record = life.record
    if name not in record.facts:
        return []
    found = record.once(("speaking", name, known, claims), lambda: list(_speaking(record, name, known, claims)))
    if quantity(name).owner == BOLTS:
        return [each for each in found if not of_other_bolts(life, state, each[0])]
    return found


def _speaking(record: Record, name: str, known: Known, claims: bool) -> Iterator[tuple[Fact, Moment]]:
    wrong, left = mistakes(record, known.mistakes), without_mistakes(record, known.mistakes)
    for fact in record.facts.get(name, ()):
        stated = fact.stated
        late = known.stated is not None and stated.entry is not None and stated.entry >= known.stated
        if late or stated.occasion == "test" or fact.unknown or id(fact) in wrong or (fact.claim and not claims):
            continue
        yield left.get(id(fact), fact), moment_of(fact)
