"""What a test of compression or leakage shows of one cylinder against the others, by the limits that hold for it.

Gauges and testers do not agree with each other, so what they show is only ever worth a second look: a note.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from logbook.judge.bounds import parse_bound
from logbook.judge.limits import limits_of
from logbook.quantity.catalogue import quantity
from logbook.quantity.value import ValueProblem
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.finding import NOTE, Finding
from logbook.record.models import Engine
from logbook.specs.condition import cranking_pressure_least
from logbook.state.fold import Life
from logbook.state.sayings import of_entry


def tests_are_even(life: Life) -> Iterator[Finding]:
    """A cylinder that a compression or leak-down test shows to be unlike the others."""
    engine = life.record.engine
    least, most = _bounds(engine, "cranking_pressure_least", "low"), _bounds(engine, "leak_down", "high")
    for entry in life.record.entries:
        for fact in of_entry(life.record, entry) if isinstance(entry.says, model.Test) else ():
            dry = dict(fact.stated.qualifiers).get("oil") != "with oil"
            note = partial(life.record.finding, entry.file, fact.path, NOTE)
            if fact.name == "cranking_pressure" and dry and least:
                yield from (note(*words) for words in _uneven(life, fact, max(least)))
            elif fact.name == "leak_down" and most:
                yield from (note(*words) for words in _leaking(life, fact, min(most)))


def _bounds(engine: Engine, spec: str, side: str) -> list[float]:
    """The bounds on one side of a quantity that tests tell; none where the owner has switched them off."""
    found = []
    for limit in limits_of(engine):
        text = getattr(limit, side) if limit.spec == spec else None
        try:
            found += [parse_bound(text, quantity(spec)).amount] if text else []
        except ValueProblem:
            continue  # limits_can_be_read says so
    return found


def _uneven(life: Life, fact: Fact, least: float) -> Iterator[tuple[str, str]]:
    taken = {number: position[0].nominal for number, position in enumerate(fact.positions) if position}
    if len(taken) < 2 or max(taken.values()) <= 0:
        return
    share = cranking_pressure_least(cranking_pressure=tuple(taken.values()))
    if share < least:
        worst = life.arrangement.cylinders[min(taken, key=lambda number: taken[number])]
        yield (
            f"cylinder {worst} has {share:.0%} of the greatest cranking pressure",
            "the maker's manual gives the limit; oil in that cylinder tells rings from valves",
        )


def _leaking(life: Life, fact: Fact, most: float) -> Iterator[tuple[str, str]]:
    for number, position in enumerate(fact.positions):
        if position and position[0].nominal > most:
            says = f"cylinder {life.arrangement.cylinders[number]} leaks {position[0].nominal:.0%}"
            yield says, "listen where the air escapes; testers do not agree with each other"
