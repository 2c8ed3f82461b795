"""Which facts of a quantity may hold at all, before anybody asks where and when: what is left of them is a matter of
the record, so it is worked out once.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.record.facts import Fact
from logbook.record.record import Record
from logbook.state.bolts import BOLTS, of_other_bolts
from logbook.state.fold import Life
from logbook.state.sayings import mistakes, without_mistakes
from logbook.state.states import Moment, State, moment_of


class Horizon(NamedTuple):
    """How many entries count: for what they state, and for what they call mistakes. None: all of them."""

    stated: int | None
    mistakes: int | None


Said = tuple[tuple[Fact, Moment], ...]


def speaking(life: Life, state: State, name: str, horizon: Horizon, *, claims: bool = True) -> Said:
    """The facts that may hold, as far as `horizon` reaches, with the moment they were stated at."""
    record = life.record
    if name not in record.facts:
        return ()
    found = record.once(("speaking", name, horizon, claims), lambda: tuple(_speaking(record, name, horizon, claims)))
    if quantity(name).owner == BOLTS:
        return tuple(each for each in found if not of_other_bolts(life, state, each[0]))
    return found


def _speaking(record: Record, name: str, horizon: Horizon, claims: bool) -> Iterator[tuple[Fact, Moment]]:
    wrong, left = mistakes(record, horizon.mistakes), without_mistakes(record, horizon.mistakes)
    for fact in record.facts.get(name, ()):
        stated = fact.stated
        late = horizon.stated is not None and stated.entry is not None and stated.entry >= horizon.stated
        if late or stated.occasion == "test" or fact.unknown or id(fact) in wrong or (fact.claim and not claims):
            continue
        yield left.get(id(fact), fact), moment_of(fact)
