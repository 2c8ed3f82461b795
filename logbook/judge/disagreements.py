"""Measured figures of one thing that cannot both be right: told with both places, and which of them holds.

Two figures are compared where they are of the same part or set, at the same position, under the same conditions and
with no work between them that touches the quantity. They disagree where the normalized error is above 1:

    E_n = |x1 − x2| / U(x1 − x2)

U is the expanded uncertainty (k = 2) of the difference, in which the error of a common instrument cancels.
Source: ISO 13528, E_n scores; with independent figures U = √(U1² + U2²).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from logbook.quantity.catalogue import ENGINE, Quantity
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.usage import Usage
from logbook.record.facts import MEASURED, Fact
from logbook.record.finding import DOUBTFUL, Finding
from logbook.record.record import Record
from logbook.state.fold import Life
from logbook.state.owners import Owners, Signature
from logbook.state.sayings import adoptions, mistakes, without_mistakes
from logbook.state.spread import figure, standard, usual_spread
from logbook.state.states import moment_of
from logbook.state.stretches import Stretches

#: Above this, two results disagree (ISO 13528).
MOST_E_N = 1.0

_Thing = tuple[Signature, int, tuple[tuple[str, str], ...]]  # owner, reworks behind it, conditions


@dataclass(frozen=True, slots=True)
class _Figure:
    fact: Fact
    index: int
    value: Uncertain


def e_n(first: Uncertain, second: Uncertain) -> float:
    """Normalized error of two results; infinite where they differ and claim no uncertainty at all."""
    difference = first - second
    if not difference.nominal:
        return 0.0
    return abs(difference.nominal) / difference.expanded if difference.expanded else float("inf")


def measured_figures_agree(life: Life) -> Iterator[Finding]:
    """Measured figures of what does not wear that differ by more than their uncertainties, unless one is adopted."""
    adopted = {(said.quantity, file) for _, said, file in adoptions(life.record)}
    for name, facts in life.record.facts.items():
        if facts[0].row.wears or facts[0].row.event or not facts[0].row.owner:
            continue
        told: set[tuple[int, int]] = set()
        for figures in _of_one_thing(life, facts).values():
            if not any((name, each.fact.stated.file) in adopted for each in figures):
                yield from _against_the_surest(life.record, figures, told)


def _of_one_thing(life: Life, facts: tuple[Fact, ...]) -> dict[_Thing, list[_Figure]]:
    owners, stretches = Owners(life.arrangement, life.start), Stretches(life.reworks)
    wrong, things = mistakes(life.record), defaultdict(list)
    left = without_mistakes(life.record)
    for fact in (left.get(id(each), each) for each in facts):
        if fact.stated.basis != MEASURED or fact.stated.occasion not in ("", "set") or id(fact) in wrong:
            continue
        for index, signature in _owned(life, owners, fact, facts):
            sure = figure(life.record, fact, index)
            if sure and signature:
                value = _widened(sure.value, fact) if sure.assumed else sure.value
                behind = len(stretches.seen({part for part, _ in signature}, fact, moment_of(fact)))
                things[(signature, behind, fact.stated.qualifiers)].append(_Figure(fact, index, value))
    return things


def _owned(life: Life, owners: Owners, fact: Fact, facts: tuple[Fact, ...]) -> Iterator[tuple[int, Signature]]:
    """Each position that a fact gives, with the part or the set that it is of."""
    part = fact.stated.part
    if part is not None:
        most = max(len(each.positions) for each in facts if each.stated.part == part)
        yield from ((index, ((part, index),)) for index in range(most))
        return
    then = life.before(moment_of(fact))
    for index, position in enumerate(life.arrangement.positions(fact.row.place)):
        yield index, owners.signature(fact.row, position, then)


def _widened(value: Uncertain, fact: Fact) -> Uncertain:
    """A figure of which nobody stated an error is judged with the usual spread of its quantity."""
    return Uncertain(value.nominal, {**value.terms, f"usual spread of {id(fact)}": usual_spread(fact)})


def _against_the_surest(record: Record, figures: list[_Figure], told: set[tuple[int, int]]) -> Iterator[Finding]:
    """As holding.py chooses: the smaller uncertainty as stated, then the latest."""
    holds = min(figures, key=lambda each: (standard(record, each.fact, each.index), *_latest_first(each.fact)))
    for other in figures:
        pair = id(holds.fact), id(other.fact)
        if other is not holds and pair not in told and e_n(holds.value, other.value) > MOST_E_N:
            told.add(pair)
            yield _disagree(record, holds, other)


def _latest_first(fact: Fact) -> tuple[int, int]:
    entry, step = moment_of(fact)
    return -entry, -step


def _disagree(record: Record, holds: _Figure, other: _Figure) -> Finding:
    row, stated = holds.fact.row, holds.fact.stated
    line, _ = record.where(stated.file, holds.fact.path)
    where = "" if row.place == ENGINE else f", position {holds.index + 1}"
    here, there = (_shown(row, each.value, record.engine.usage) for each in (other, holds))
    says = (
        f"`{row.name}` of {stated.part or 'the assembled engine'}{where} is {here} here and "
        f"{there} in {stated.file}:{line}, which holds; they differ by more than they may "
        f"(E_n {e_n(holds.value, other.value):.1f})"
    )
    mend = "measure it again, or say with an `adopt:` or `correct:` step which is right"
    return record.finding(other.fact.stated.file, other.fact.path, DOUBTFUL, says, mend, key=True)


def _shown(row: Quantity, value: Uncertain, usage: Usage) -> str:
    scale = usage.scale(row).size(1.0)
    nominal, expanded = plain(value.nominal / scale, value.expanded / scale)
    return f"{nominal} ± {expanded} {usage.unit(row)}".rstrip()
