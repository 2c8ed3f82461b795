"""What to measure next: how well which figures would have to be known for half the uncertainty, and by what means.

The sensitivities are taken as they are (the linear rule), and a figure's whole error as replaced by a better reading's.
Only instruments that the record has used for a quantity are named: nobody measures a gap with a burette.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, inf, sqrt
from typing import NamedTuple

from logbook.quantity.catalogue import Quantity, quantity
from logbook.record.facts import MEASURED
from logbook.record.record import Record
from logbook.specs.node import Node
from logbook.state.holding import Held
from logbook.state.spread import standard

HALF = 0.25  # of the variance is half of the uncertainty
MOST_READINGS = 10


class Better(NamedTuple):
    """A quantity, its share of the variance, how well it is known and would have to be, as standard uncertainties."""

    row: Quantity
    basis: str
    share: float
    now: float
    wanted: float
    instruments: tuple[str, ...] = ()
    readings: int = 0
    instrument: str = ""


class Next(NamedTuple):
    """`single`: each of these alone halves the uncertainty. `together`: else the fewest that do it together."""

    single: tuple[Better, ...]
    together: tuple[Better, ...]


def next_measurement(record: Record, node: Node) -> Next:
    """What would halve the uncertainty of a value that has one."""
    total, jobs = node.value.standard**2, _jobs(node)
    shares = sorted(((_variance(node, some) / total, some) for some in jobs.values()), key=lambda each: -_told(each[0]))
    single = [_better(record, some, share, share) for share, some in shares if HALF - (1 - share) > 0]
    if single:
        return Next(tuple(single), ())
    chosen, reached = [], 0.0
    for share, some in shares:
        chosen.append((share, some))
        reached = _variance(node, [leaf for _, each in chosen for leaf in each]) / total
        if HALF - (1 - reached) > 0:
            return Next((), tuple(_better(record, each, its, reached) for its, each in chosen))
    return Next((), ())


def _jobs(node: Node) -> dict[str, list[Node]]:
    """The stated figures by quantity: who measures one chamber measures them all."""
    jobs: dict[str, list[Node]] = {}
    for leaf in leaves(node):
        jobs.setdefault(leaf.name, []).append(leaf)
    return jobs


def leaves(node: Node) -> Iterator[Node]:
    """The stated figures that a value rests on, each with its position."""
    if not node.inputs:
        yield node
    for some in node.inputs.values():
        for each in some:
            yield from leaves(each)


def _variance(node: Node, some: list[Node]) -> float:
    keys = dict.fromkeys(key for leaf in some for key in leaf.value.terms)
    return sum(node.value.terms.get(key, 0.0) ** 2 for key in keys)


def _told(share: float) -> float:
    """Without the digits in which two that count alike may differ: these stay in the formula's own order."""
    return round(share, 9)


def _better(record: Record, some: list[Node], share: float, reached: float) -> Better:
    """`reached`: the share of all that are bettered together; each by the same factor."""
    leaf = max(some, key=lambda each: each.value.standard)
    wanted = sqrt((HALF - (1 - reached)) / reached) * leaf.value.standard
    row, held = quantity(leaf.name), leaf.held
    if held is None:
        return Better(row, leaf.basis, share, leaf.value.standard, wanted)
    return Better(row, held.basis, share, leaf.value.standard, wanted, tuple(good_instruments(record, held, wanted)),
                  readings_for(leaf, wanted), held.fact.stated.instrument or "")  # fmt: skip


def good_instruments(record: Record, held: Held, wanted: float) -> Iterator[str]:
    """Other instruments that this record has used for the quantity, and that read it well enough."""
    fact = held.fact
    used = dict.fromkeys(each.stated.instrument for each in record.facts.get(fact.name, ()) if each.stated.instrument)
    for name in used:
        again = fact._replace(stated=fact.stated._replace(instrument=name, basis=MEASURED))
        index = next((number for number in range(len(fact.positions)) if fact.at(number)), 0)
        known = name in record.engine.instruments and name != fact.stated.instrument
        if known and standard(record, again, index) <= wanted:
            yield name


def readings_for(leaf: Node, wanted: float) -> int:
    """How many readings with the same instrument would do, their scatter falls and what they share does not; else 0."""
    held = leaf.held
    shared = sum(term**2 for key, term in leaf.value.terms.items() if key.startswith("instrument "))
    left, scatter = wanted**2 - shared, leaf.value.standard**2 - shared
    readings = ceil(scatter / left - 1e-9) if left > 0 else inf
    named = held is not None and held.fact.stated.instrument and held.basis == MEASURED
    return int(readings) if named and 1 < readings <= MOST_READINGS else 0
