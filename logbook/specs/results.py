"""Specs as plain data: what leaves the graph for comparisons, documents, JSON and specs.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import BASES, INFERRED, MEASURED, Fact
from logbook.specs.graph import Graph, Missing, Node
from logbook.specs.index import with_conditions
from logbook.specs.node import Groups
from logbook.state.spread import figure


class Value(NamedTuple):
    """One value in base units, with the share of each source in its uncertainty and of each basis in its variance."""

    nominal: float
    terms: Mapping[str, float]
    basis: str
    shares: Mapping[str, float]
    out_of_date: bool
    doubtful: bool
    unmeasured: frozenset[str] = frozenset()  # sources of error that no measurement stands behind
    outside: tuple[str, ...] = ()  # why it lies outside the validity of a formula that it rests on

    @property
    def uncertain(self) -> Uncertain:
        return Uncertain(self.nominal, self.terms, self.doubtful)

    @property
    def expanded(self) -> float:
        """Expanded uncertainty, k = 2, base units."""
        return self.uncertain.expanded

    def uncertain_minus(self, other: Value) -> Uncertain:
        """The difference of two values, in which what they share cancels."""
        return self.uncertain - other.uncertain


class Claim(NamedTuple):
    """A stated value of a result that is shown beside it and never used."""

    value: float
    expanded: float
    basis: str
    source: str
    stated_for: Mapping[str, str]
    file: str
    fact: Fact


class Spec(NamedTuple):
    """One quantity worked out at every position of its place."""

    name: str
    row: Quantity
    positions: tuple[str, ...]
    values: tuple[Value | None, ...]
    missing: tuple[str, ...] = ()
    missing_any: tuple[tuple[str, ...], ...] = ()
    because: str = ""
    conditions: Mapping[str, str] = {}
    claims: tuple[Claim, ...] = ()

    @property
    def known(self) -> tuple[Value, ...]:
        """The values that there are."""
        return tuple(value for value in self.values if value is not None)

    @property
    def groups(self) -> Groups:
        """What would have to be known, any one name of each group."""
        return (*((name,) for name in self.missing), *self.missing_any)

    @property
    def basis(self) -> str | None:
        """The weakest basis of any position."""
        return max((value.basis for value in self.known), key=BASES.index, default=None)

    @property
    def shares(self) -> Mapping[str, float]:
        """Share of each basis in the variance, mean of the positions."""
        bases = {basis for value in self.known for basis in value.shares}
        return {
            basis: sum(value.shares.get(basis, 0.0) for value in self.known) / len(self.known)
            for basis in BASES
            if basis in bases
        }

    @property
    def out_of_date(self) -> bool:
        return any(value.out_of_date for value in self.known)

    @property
    def outside(self) -> tuple[str, ...]:
        """Why it lies outside the validity of a formula, at any position; each reason once."""
        return tuple(dict.fromkeys(reason for value in self.known for reason in value.outside))


def spec(graph: Graph, name: str) -> Spec:
    """One spec of a configuration."""
    row = quantity(name)
    found = graph.all(name)
    missing = [node for node in found if isinstance(node, Missing)]
    groups = tuple(dict.fromkeys(group for node in missing for group in node.groups))
    return Spec(
        name, row, graph.arrangement.positions(row.place),
        tuple(_value(node) if isinstance(node, Node) else None for node in found),
        tuple(group[0] for group in groups if len(group) == 1),
        tuple(group for group in groups if len(group) > 1),
        next((node.because for node in missing if node.because), ""),
        dict(graph.conditions) if with_conditions(name) and any(isinstance(node, Node) for node in found) else {},
        tuple(_claims(graph, row)),
    )  # fmt: skip


def _value(node: Node) -> Value:
    basis_of = {
        key: INFERRED if held.fact.claim and not held.overrules else held.basis
        for held in node.facts.values()
        for key in held.value.terms
    }
    total = sum(term * term for term in node.value.terms.values())
    shares: dict[str, float] = {}
    for key, term in node.value.terms.items():
        basis = basis_of.get(key, MEASURED)
        shares[basis] = shares.get(basis, 0.0) + (term * term / total if total else 0.0)
    unmeasured = frozenset(key for key in node.value.terms if basis_of.get(key, MEASURED) != MEASURED)
    return Value(
        node.value.nominal, node.value.terms, node.basis, shares, node.out_of_date, node.value.curved, unmeasured,
        node.outside,
    )  # fmt: skip


def _claims(graph: Graph, row: Quantity) -> list[Claim]:
    """What is claimed of a result, once for each statement."""
    if not row.result:
        return []
    holding = graph.holding
    if not any(fact.claim for fact, _ in holding.speaking(row.name)):
        return []
    claimed: dict[int, Fact] = {}
    for position in graph.arrangement.positions(row.place):
        for held in holding.all(row, position):
            if held.fact.claim:
                claimed[id(held.fact)] = held.fact
    claims = []
    for fact in claimed.values():
        sure = figure(holding.life.record, fact, 0)
        if sure:
            claims.append(
                Claim(
                    sure.value.nominal,
                    sure.value.expanded,
                    fact.stated.basis,
                    fact.stated.source or "",
                    dict(fact.stated.stated_for),
                    fact.stated.file,
                    fact,
                )
            )
    return claims
