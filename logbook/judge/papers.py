"""What stands above the piston as it was found, beside what the published figures make of it: volume by volume.

A quoted ratio is mostly the papers' chamber, crown, gasket and deck. Where the engine has others, this says which they
are and by how many cc.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from logbook.quantity.uncertain import Uncertain, propagate
from logbook.quantity.units import unit
from logbook.record.facts import PUBLISHED
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Graph, Node

_CLEARANCE = "clearance_volume"
_LEAST = 0.05  # cc: what is less does not show in a tenth


@dataclass(frozen=True, slots=True)
class Component:
    """One volume above the piston, mean of the cylinders: found less published, m3."""

    name: str
    word: str
    difference: Uncertain


@dataclass(frozen=True, slots=True)
class Papers:
    """The ratio that the published figures give, and by what the engine as found differs, largest first."""

    ratio: float
    difference: Uncertain
    components: tuple[Component, ...]

    @property
    def mainly(self) -> tuple[Component, ...]:
        """The fewest volumes, largest first, that make over half of the difference."""
        taken, whole = 0.0, self.difference.nominal
        for count, component in enumerate(self.components, 1):
            taken += component.difference.nominal
            if taken * whole > whole * whole / 2:
                return self.components[:count]
        return self.components


def as_published(graph: Graph) -> Graph:
    """The same engine with its published figures before all others; measured ones where nothing was published."""
    return graph.with_holding(replace(graph.holding, first=PUBLISHED))


def beside_papers(at: Configuration) -> Papers | None:
    """What was found against what was published, or None where no published figure makes a difference."""
    papers = as_published(at.graph)
    ratio, both = papers.at("mean_compression_ratio", ""), _both(at.graph, papers, _CLEARANCE)
    if not both or not isinstance(ratio, Node) or not _rests_on_papers(ratio):
        return None
    found = both[0][0]
    parts = [Component(name, _word(name, found), _mean(pairs))
             for name in found.inputs if (pairs := _both(at.graph, papers, name))]  # fmt: skip
    differ = [part for part in parts if abs(unit("cc").from_base(part.difference.nominal)) >= _LEAST]
    if not differ:
        return None
    differ.sort(key=lambda part: -abs(part.difference.nominal))
    return Papers(ratio.value.nominal, _mean(both), tuple(differ))


def _both(graph: Graph, papers: Graph, name: str) -> list[tuple[Node, Node]]:
    pairs = zip(graph.all(name), papers.all(name), strict=True)
    return [(found, told) for found, told in pairs if isinstance(found, Node) and isinstance(told, Node)]


def _mean(pairs: list[tuple[Node, Node]]) -> Uncertain:
    def mean(*, each: tuple[float, ...]) -> float:
        return sum(each) / len(each)

    return propagate(mean, {"each": [found.value - told.value for found, told in pairs]})


def _rests_on_papers(node: Node) -> bool:
    return any(held.fact.stated.basis == PUBLISHED for held in node.facts.values())


def _word(name: str, clearance: Node) -> str:
    """'chamber', 'gasket', 'deck'; the crown by what it is, dish or raised crown."""
    if name == "crown_volume":
        of_what: Iterator[str] = (need for node in clearance.inputs[name] for need in node.inputs)
        return "dish" if "dish_volume" in of_what else "raised crown"
    return name.removesuffix("_volume")
