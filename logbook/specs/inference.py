"""What a claimed compression ratio tells of the rest volume, and for which other engines that holds.

A claim is never a value of what it claims. But where the chamber and the crown that it was stated for are known, it
leaves so much for gasket, deck and crevice; and that serves other heads and other crowns over the same block, crank
train and gasket, until gasket and deck are measured. The claim, its chamber and its crown stay in the value as its
sources of error, so that what two values share of them cancels.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

from logbook.quantity.catalogue import BANK_KINDS, CYLINDER, Quantity, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import BASES, INFERRED, MEASURED, Fact
from logbook.specs.index import Function, formula
from logbook.specs.node import Missing, Node, of_fact, worked_out
from logbook.specs.rest import rest_volume_of_other_pistons, rest_volume_of_ratio
from logbook.state.fold import Life
from logbook.state.holding import Held, Holding
from logbook.state.owners import Owners, Signature
from logbook.state.spread import fact_key, figure
from logbook.state.states import BEFORE_ALL, END_OF_ENTRY, Fitting, Moment, State

if TYPE_CHECKING:  # the graph asks this module, and is asked back
    from logbook.specs.graph import Graph

REST, RATIO = "rest_volume", "compression_ratio"

#: Work on any of these makes another rest volume.
_DECK_AND_GASKET = frozenset(
    {"deck_clearance", "deck_height", "bore", "stroke", "gasket_thickness", "gasket_bore", "gasket_opening"}
)


class Claimed(NamedTuple):
    """A claimed compression ratio, and the graph of the engine that it was stated for."""

    fact: Fact
    graph: Graph


def claimed_ratios(graph: Graph) -> Iterator[Claimed]:
    """The claims that are known of where `graph` stands, in the order in which they were stated."""
    holding = graph.holding
    for fact, moment in holding.speaking(RATIO):
        for meant in _stated_for(holding, fact, moment) if fact.claim else ():
            its = Holding(holding.life, meant, holding.known, hindsight=holding.hindsight)
            yield Claimed(fact, graph.with_holding(its))


def inferred_rest(graph: Graph, position: str) -> Node | None:
    """The rest volume from the surest of the claims that serve here, or None.

    In the engine that a claim was stated for it does not serve: the ratio that came out would be the claim once more.
    """
    if graph.holding.first != MEASURED:
        return None
    found = [
        (BASES.index(claim.fact.stated.basis), rest.value.standard, number, rest)
        for number, claim in enumerate(graph.claimed)
        if not _its_own(graph, claim, position) and (rest := carried_rest(graph, claim, position))
    ]
    return min(found)[-1] if found else None


def carried_rest(graph: Graph, claim: Claimed, position: str, *, as_quoted: bool = False) -> Node | None:
    """The rest volume that a claim leaves, for the engine of `graph`; None where it does not serve there.

    Other pistons stand higher or lower by their compression height, so that has to be known of both.
    `as_quoted`: the claim is as sure as its last digit tells (see `rest_of`).
    """
    rest = rest_of(claim, position, as_quoted=as_quoted)
    if rest is None or _worked_on_between(graph, claim.graph, position):
        return None
    (theirs, their_pistons), (ours, our_pistons) = (_short_motor(each, position) for each in (claim.graph, graph))
    if theirs != ours:
        return None
    if their_pistons == our_pistons:
        return rest
    needs = {
        REST: rest,
        "bore": graph.at("bore", position),
        "compression_height": graph.at("compression_height", position),
        "former_compression_height": claim.graph.at("compression_height", position),
    }
    return _inferred(rest_volume_of_other_pistons, position, needs)


def rest_of(claim: Claimed, position: str, *, as_quoted: bool = False) -> Node | None:
    """The rest volume that a claim leaves in the engine that it was stated for.

    `as_quoted`: what claims say against each other is judged by their last digit alone. The usual spread of a quoted
    ratio is how far an engine is from its papers, in the block and the gasket that such claims have in common.
    """
    if not _speaks_of(claim, position):
        return None
    record, index = claim.graph.holding.life.record, claim.graph.arrangement.positions(CYLINDER).index(position)
    sure = figure(record, claim.fact, index)
    if sure is None:
        return None
    value = _as_quoted(claim.fact, index, fact_key(record, claim.fact, index)) if as_quoted else sure.value
    needs = {
        "swept_volume": claim.graph.at("swept_volume", position),
        RATIO: of_fact(RATIO, position, Held(claim.fact, value, spread_assumed=sure.assumed)),
        "chamber_volume": claim.graph.at("chamber_volume", position),
        "crown_volume": claim.graph.at("crown_volume", position),
    }
    return _inferred(rest_volume_of_ratio, position, needs)


def _speaks_of(claim: Claimed, position: str) -> bool:
    """Whether every part that the claim was stated for serves that cylinder in the engine of the claim."""
    owners = Owners(claim.graph.arrangement, claim.graph.holding.state)
    stated_for = claim.fact.stated.stated_for
    return all(owners.piece_of(part, quantity(RATIO), position) is not None for _, part in stated_for)


def _inferred(function: Function, position: str, needs: Mapping[str, Node | Missing]) -> Node | None:
    known = {name: (node,) for name, node in needs.items() if isinstance(node, Node)}
    if len(known) < len(needs):
        return None
    found = worked_out(formula(REST, function), position, known)
    return found._replace(basis=INFERRED) if isinstance(found, Node) else None


def _as_quoted(fact: Fact, index: int, key: str) -> Uncertain:
    """The claim with its own ± where it states one, else with half of its last digit, rectangular."""
    several = fact.at(index) or ()
    sizes = [stated.last_digit / sqrt(12) if stated.standard is None else stated.standard for stated in several]
    return Uncertain(sum(stated.nominal for stated in several) / len(several), {key: max(sizes)})


# the engine that a claim was stated for


def _stated_for(holding: Holding, fact: Fact, moment: Moment) -> Iterator[State]:
    """What was fitted when the claim was made, with the parts that it names in the places of their kind.

    A head that is on no bank then may go on each; what it was stated for is said of the cylinders that it serves.
    """
    life = holding.life
    stood = holding.state if moment == BEFORE_ALL else life.meant(life.after(moment[0]))
    absent = [part for _, part in fact.stated.stated_for if part not in stood.parts]
    banks = [f"bank {bank}" for bank in life.arrangement.banks] if len(life.arrangement.banks) > 1 else []
    by_bank = any(part in life.record.parts and life.record.parts[part].kind in BANK_KINDS for part in absent)
    for bank in banks if banks and by_bank else [""]:
        meant = _with_parts(life, stood, absent, bank)
        if meant:
            yield meant


def _with_parts(life: Life, state: State, parts: list[str], bank: str) -> State | None:
    """A state with these parts in it, those of which each bank has one on that bank."""
    fitted = dict(state.fitted)
    for part in parts:
        its = life.record.parts.get(part)
        if its is None:
            return None
        at = bank if its.kind in BANK_KINDS and bank else ""
        places = [slot for slot in fitted if slot[0] == its.kind and (not at or slot[1] == at)]
        if len(places) > 1:
            return None  # which of several places is not said
        slot = places[0] if places else (its.kind, at)
        fitted[slot] = Fitting(part, its.kind, slot[1], (state.number, 0))
    return state._replace(fitted=fitted)


def _its_own(graph: Graph, claim: Claimed, position: str) -> bool:
    """Whether this is the very combination that was claimed, chamber and crown unchanged."""
    here, there = (_owners(each, quantity(RATIO), position) for each in (graph, claim.graph))
    alike = (_value(graph, name, position) == _value(claim.graph, name, position)
             for name in ("chamber_volume", "crown_volume"))  # fmt: skip
    return here == there and all(alike)


def _value(graph: Graph, name: str, position: str) -> Uncertain | None:
    node = graph.at(name, position)
    return node.value if isinstance(node, Node) else None


def _owners(graph: Graph, row: Quantity, position: str) -> Signature:
    return Owners(graph.arrangement, graph.holding.state).signature(row, position)


def _short_motor(graph: Graph, position: str) -> tuple[Signature, Signature]:
    """Whose the rest volume is: the pistons apart from all others."""
    parts = graph.holding.life.record.parts
    owners = _owners(graph, quantity(REST), position)
    pistons = tuple(owner for owner in owners if parts[owner[0]].kind == "pistons")
    return tuple(owner for owner in owners if owner not in pistons), pistons


def _worked_on_between(graph: Graph, other: Graph, position: str) -> bool:
    """Whether the deck or the gasket was worked on after the one engine and before the other."""
    parts = {part for part, _ in _owners(graph, quantity(REST), position)}
    first, last = sorted((_now(graph), _now(other)))
    return any(
        first < rework.moment <= last and rework.part in parts and rework.touches & _DECK_AND_GASKET
        for rework in (*graph.holding.life.reworks, *graph.holding.planned)
    )


def _now(graph: Graph) -> Moment:
    return (graph.holding.state.number, END_OF_ENTRY)
