"""Measured beside worked out: a figure that was taken with a gauge and that other figures give as well.

Deck clearance by indicator and by the stack, gasket volume as found and by its thickness, lobe centre by the wheel and
by the events: what both rest on (one bore, one instrument) cancels before they are judged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logbook.judge.disagreements import e_n
from logbook.judge.places import at_positions
from logbook.quantity.catalogue import quantity
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import MEASURED
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.state.holding import Held
from logbook.state.spread import usual_spread


@dataclass(frozen=True, slots=True)
class Agreement:
    """A measured value and the one worked out without it, at one position; base units."""

    measured: Node
    computed: Node
    difference: Uncertain  # measured less computed
    e_n: float
    sentence: str

    @property
    def agrees(self) -> bool:
        return self.e_n <= 1


def agreements(at: Configuration) -> Iterator[Agreement]:
    """Each measured value that can also be worked out, at each position."""
    stated = at.life.record.facts
    for name in at.graph.specs:
        if not any(fact.stated.basis == MEASURED for fact in stated.get(name, ())):
            continue
        for position, node in zip(at.life.arrangement.positions(quantity(name).place), at.graph.all(name), strict=True):
            if isinstance(node, Node) and _measured(node):
                computed = at.graph.computed(name, position)
                if isinstance(computed, Node) and not any(held.fact.claim for held in computed.facts.values()):
                    yield _agreement(at, node, computed)


def _measured(node: Node) -> bool:
    return node.held is not None and node.basis == MEASURED and not node.out_of_date and not node.held.overrules


def _agreement(at: Configuration, measured: Node, computed: Node) -> Agreement:
    behind = (*measured.facts.values(), *computed.facts.values())
    difference = _widened(measured.value - computed.value, behind)
    score = e_n(difference, Uncertain(0.0))
    says = _sentence(at, measured, computed, difference)
    return Agreement(measured, computed, difference, score, f"{says}, so they agree" if score <= 1 else says)


def _widened(difference: Uncertain, behind: Iterable[Held]) -> Uncertain:
    """Measured figures of which nobody stated an error are judged with the usual spread of their quantity."""
    terms = dict(difference.terms)
    for held in behind:
        if held.spread_assumed and held.basis == MEASURED and held.value.standard:
            factor = max(1.0, usual_spread(held.fact) / held.value.standard)
            terms |= {key: factor * difference.terms[key] for key in held.value.terms if key in terms}
    return Uncertain(difference.nominal, terms, difference.curved)


def _sentence(at: Configuration, measured: Node, computed: Node, difference: Uncertain) -> str:
    """'the deck clearance of cylinder 2 was measured as 0.6 mm below, 0.30 ± 0.11 mm more than deck height, … give'."""
    row, usage = quantity(measured.name), at.life.record.engine.usage
    where = at_positions(at.life.arrangement, row, (measured.position,))
    from_what = ", ".join(usage.name(quantity(name)).split(",")[0] for name in computed.inputs)
    scale = usage.scale(row).size(1.0)
    far, sure = plain(abs(difference.nominal) / scale, difference.expanded / scale)
    more = "more" if difference.nominal > 0 else "less"
    return (
        f"the {usage.name(row)}{where} was measured as {usage.said(row, measured.value.nominal)}, "
        f"{far} ± {sure} {usage.unit(row)}".rstrip()
        + f" {more} than {from_what} give"
    )
