"""A claim beside what was worked out: do they agree, and if not, what would have to be otherwise?

E_n after ISO 13528: the difference over the root sum of squares of both expanded uncertainties; beyond 1 they disagree.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from logbook.judge.papers import Papers, beside_papers
from logbook.quantity.units import unit
from logbook.quantity.usage import Usage
from logbook.specs.compression import clearance_volume_of_ratio
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.results import Claim, Spec, Value


@dataclass(frozen=True, slots=True)
class Reconciled:
    """A claim against the worked-out value at one configuration; base units."""

    name: str
    claim: Claim
    value: Value
    e_n: float
    short: str  # does it agree, and what would it need
    sentence: str  # the same, and what the papers have to do with it
    papers: Papers | None = None  # what was published of the same parts, where that is something else
    on_claim: bool = False  # what was worked out rests on a claim itself

    @property
    def agrees(self) -> bool:
        return abs(self.e_n) <= 1


def reconcile(at: Configuration, spec: Spec) -> list[Reconciled]:
    """Each claim of a result against what was worked out; empty where there is nothing to set against it."""
    if not spec.known:
        return []
    value = _typical(spec)
    papers = beside_papers(at) if spec.name == "compression_ratio" and spec.claims else None
    return [_one(at, spec, claim, value, papers) for claim in spec.claims]


def e_n(difference: float, first: float, second: float) -> float:
    """E_n number (ISO 13528:2022, 9.4) of a difference from two expanded uncertainties (k = 2), all in one unit."""
    return difference / hypot(first, second)


def _typical(spec: Spec) -> Value:
    """The position that lies nearest the mean."""
    mean = sum(value.nominal for value in spec.known) / len(spec.known)
    return min(spec.known, key=lambda value: abs(value.nominal - mean))


def _one(at: Configuration, spec: Spec, claim: Claim, value: Value, papers: Papers | None) -> Reconciled:
    score = e_n(claim.value - value.nominal, claim.expanded, value.expanded)
    short = _sentence(at, spec, claim, value, abs(score) <= 1)
    sentence = f"{short}; {_explained(claim, papers)}" if papers and abs(score) > 1 else short
    return Reconciled(spec.name, claim, value, score, short, sentence, papers, _on_claim(at, spec, value))


def _on_claim(at: Configuration, spec: Spec, value: Value) -> bool:
    node = at.graph.at(spec.name, spec.positions[spec.values.index(value)])
    return isinstance(node, Node) and any(held.fact.claim for held in node.facts.values())


def _explained(claim: Claim, papers: Papers) -> str:
    """Whether the published figures bear the claim out, and where the engine departs from them."""
    if abs(papers.ratio - claim.value) > claim.expanded:
        return f"the published figures give {papers.ratio:.2f} themselves, so it stays unexplained"
    cc = unit("cc").from_base
    listed = ", ".join(f"{part.word} {cc(part.difference.nominal):+.1f}" for part in papers.components)
    size = cc(papers.difference.nominal)
    mainly = " and ".join(part.word for part in papers.mainly)
    return (
        f"the published figures give {papers.ratio:.2f}, and what was found is {abs(size):.1f} cc "
        f"{'more' if size > 0 else 'less'} than they have: {listed} cc; explained mainly by {mainly}"
    )


def _sentence(at: Configuration, spec: Spec, claim: Claim, value: Value, agrees: bool) -> str:
    who = claim.source or claim.basis
    usage = at.life.record.engine.usage
    found = f"{value.nominal:.2f}" if not spec.row.unit else _said(spec, value.nominal, usage)
    quoted = f"the quoted {_said(spec, claim.value, usage)} ({who})"
    if agrees:
        return f"{quoted} agrees with the {found} worked out, within both errors"
    if spec.name == "compression_ratio":
        return f"{quoted} does not agree with the {found} worked out: {_in_volume(at, claim, value)}"
    return f"{quoted} does not agree with the {found} worked out"


def _in_volume(at: Configuration, claim: Claim, value: Value) -> str:
    """What the claim would need, in cc above the piston."""
    swept = at.specs["swept_volume"].known
    if not swept:
        return "the swept volume is not known"
    volume = sum(each.nominal for each in swept) / len(swept)
    needed = clearance_volume_of_ratio(swept_volume=volume, compression_ratio=claim.value)
    there = clearance_volume_of_ratio(swept_volume=volume, compression_ratio=value.nominal)
    cc = unit("cc").from_base(abs(needed - there))
    return f"it needs {cc:.1f} cc {'less' if needed < there else 'more'} above each piston than was found"


def _said(spec: Spec, base: float, usage: Usage) -> str:
    if not spec.row.unit:
        return f"{base:.2f}".rstrip("0").rstrip(".")
    return usage.said(spec.row, base, 5)
