"""What the parts of a combination have cost, as far as private/ tells.

A line of a part is its own, and so is one of an entry that buys, fits or works on this part alone. What an entry cost
for several parts is divided by nobody: it stands beside the sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from logbook.record import entries as model
from logbook.record.costs import Cost
from logbook.record.record import Record


class CostOfParts(NamedTuple):
    """By currency what is known; the parts of which nothing is; and the lines that are for others as well."""

    known: Mapping[str, Decimal]
    unknown: tuple[str, ...]
    shared: tuple[Cost, ...]


class Paid(NamedTuple):
    """A line, and the parts that it is for."""

    cost: Cost
    parts: frozenset[str]


def paid(record: Record, costs: Iterable[Cost]) -> tuple[Paid, ...]:
    """The lines that are for parts at all."""
    lines = (Paid(cost, frozenset(_parts_of(record, cost.of))) for cost in costs)
    return tuple(line for line in lines if line.parts)


def cost_of(lines: Iterable[Paid], parts: Sequence[str], theirs: Sequence[str] = ()) -> CostOfParts:
    """What these parts cost; of those of another shelf, `theirs`, this record's private/ knows nothing."""
    some = [line for line in lines if not line.parts.isdisjoint(parts)]
    own, shared = ([line for line in some if (len(line.parts) == 1) is alone] for alone in (True, False))
    told = {part for line in own for part in line.parts}
    unknown = tuple(part for part in parts if part not in told)
    return CostOfParts(sums(line.cost for line in own), (*unknown, *theirs), tuple(line.cost for line in shared))


def sums(costs: Iterable[Cost]) -> dict[str, Decimal]:
    """By currency."""
    found: dict[str, Decimal] = {}
    for cost in costs:
        found[cost.currency] = found.get(cost.currency, Decimal(0)) + cost.amount
    return found


def _parts_of(record: Record, of: str) -> Iterator[str]:
    """The parts that a line is for."""
    name, entry = of.removeprefix("parts/").removesuffix(".yaml"), record.entry(of)
    if entry is None and name in record.parts:
        yield name
    if entry and isinstance(entry.says, model.Change):
        yield from (part for step in entry.says.work if (part := _part_of(step)))


def _part_of(step: model.Step) -> str | None:
    if isinstance(step, model.Fit):
        return step.fit
    if isinstance(step, model.Rework):
        return step.rework
    return step.part if isinstance(step, model.Owner) and step.owner == "bought" else None
