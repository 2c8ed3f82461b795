"""Quoted ratios against each other: which of them cannot all be true, by how many cc, and what would explain it.

Each ratio that is claimed for a head and pistons leaves a rest volume for gasket and deck. Over the same block, crank
train and gasket that is one volume; where two claims leave volumes that differ by more than both are sure of, one of
them is of another engine, or wrong. The same head's chamber, or the same pistons' dish, in both cancels.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi

from logbook.judge.disagreements import e_n
from logbook.quantity.catalogue import CYLINDER
from logbook.quantity.uncertain import Uncertain, propagate
from logbook.quantity.units import unit
from logbook.record.facts import Fact
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.inference import Claimed, carried_rest, rest_of


@dataclass(frozen=True, slots=True)
class Gap:
    """How much more rest volume one claim leaves than another, mean of the cylinders; m3."""

    other: Fact
    more: Uncertain

    @property
    def e_n(self) -> float:
        return e_n(self.more, Uncertain(0.0))


@dataclass(frozen=True, slots=True)
class Conflict:
    """A claim that cannot be true together with some that were stated before it."""

    claim: Fact
    gaps: tuple[Gap, ...]
    sentence: str


def conflicts(at: Configuration) -> Iterator[Conflict]:
    """Each claim that cannot be true together with earlier ones over the same block and gasket; the others stay out."""
    claims = at.graph.claimed
    for number, claim in enumerate(claims):
        gaps = [gap for other in claims[:number] if (gap := between(claim, other)) and gap.e_n > 1]
        if gaps:
            yield Conflict(claim.fact, tuple(gaps), _sentence(claim, gaps))


def between(claim: Claimed, other: Claimed) -> Gap | None:
    """What `claim` leaves more than `other`, as the two were quoted; None where they are of different engines."""
    differences = []
    for position in claim.graph.arrangement.positions(CYLINDER):
        ours = rest_of(claim, position, as_quoted=True)
        theirs = carried_rest(claim.graph, other, position, as_quoted=True)
        if ours and theirs:
            differences.append(ours.value - theirs.value)
    return Gap(other.fact, propagate(_mean, {"each": differences})) if differences else None


def _mean(*, each: tuple[float, ...]) -> float:
    return sum(each) / len(each)


def _sentence(claim: Claimed, gaps: list[Gap]) -> str:
    differs = ", ".join(f"{_size(gap)} than {_named(gap.other)}" for gap in gaps)
    most = max(gaps, key=lambda gap: abs(gap.more.nominal))
    these = "it" if len(gaps) == 1 else "any of these"
    return (
        f"the quoted {_named(claim.fact)} leaves {_left(claim)} for gasket and deck, {differs}, and cannot be true "
        f"together with {these}; {_thickness(claim, most)}"
    )


def _named(fact: Fact) -> str:
    """'9.7 (club; head-42, pistons-a)'."""
    stated = fact.stated
    what = "; ".join(filter(None, (stated.source or stated.basis, ", ".join(part for _, part in stated.stated_for))))
    return f"{fact.text} ({what})"


def _left(claim: Claimed) -> str:
    nodes = [rest_of(claim, position) for position in claim.graph.arrangement.positions(CYLINDER)]
    known = [node.value.nominal for node in nodes if node]
    return f"{unit('cc').from_base(sum(known) / len(known)):.1f} cc"


def _size(gap: Gap) -> str:
    cc = unit("cc").from_base
    more = "more" if gap.more.nominal > 0 else "less"
    return f"{abs(cc(gap.more.nominal)):.1f} ± {cc(gap.more.expanded):.1f} cc {more}"


def _thickness(claim: Claimed, gap: Gap) -> str:
    """The largest gap as so much gasket or so much deck."""
    mm = unit("mm").from_base
    volume, area, opening = abs(gap.more.nominal), _area(claim, "bore"), _opening(claim)
    if area is None:
        return "no bore is known to tell it in gasket or deck"
    gasket, deck = mm(volume / (opening or area)), mm(volume / area)
    return f"{unit('cc').from_base(volume):.1f} cc would be {gasket:.2f} mm of gasket or {deck:.2f} mm of deck"


def _opening(claim: Claimed) -> float | None:
    found = claim.graph.at("gasket_opening", claim.graph.arrangement.positions(CYLINDER)[0])
    return found.value.nominal if isinstance(found, Node) else _area(claim, "gasket_bore")


def _area(claim: Claimed, diameter: str) -> float | None:
    found = claim.graph.at(diameter, claim.graph.arrangement.positions(CYLINDER)[0])
    return pi / 4 * found.value.nominal**2 if isinstance(found, Node) else None
