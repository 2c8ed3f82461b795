"""What `explain --json` prints: documented in the README, values in the usual metric unit."""

from __future__ import annotations

from typing import Any

from logbook.cli.explain_curve import outside
from logbook.cli.shapes import size, usual
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import COVERAGE
from logbook.specs.better import Better
from logbook.specs.configuration import Configuration
from logbook.specs.explain import CurveExplanation, Explanation, Input, Overview
from logbook.specs.graph import Missing, Node
from logbook.specs.page import Page


def explanation_shape(at: Configuration, found: Explanation | CurveExplanation | Overview) -> dict[str, Any]:
    """One spec, one curve, or all specs."""
    if isinstance(found, Overview):
        return {"known": {name: list(node.inputs) for name, node in found.known},
                "lacking": {name: _missing(missing) for name, missing in found.lacking},
                "unlocks": dict(found.unlocks)}  # fmt: skip
    if isinstance(found, CurveExplanation):
        points = [{"at": usual(found.over, each.at), "value": usual(found.row, each.value.nominal),
                   "uncertainty": size(found.row, each.value.expanded),
                   "outside_validity": list(outside(found, each))} for each in found.points]  # fmt: skip
        return {"spec": found.row.name, "position": found.position, "unit": found.row.unit, "over": found.over.name,
                "over_unit": found.over.unit, "points": points, "formulas": [page_shape(found.page)],
                "inputs": [_input(each) for each in found.inputs], **_missing(found.missing)}  # fmt: skip
    return {
        "spec": found.row.name,
        "position": found.position,
        "unit": found.row.unit,
        **(_node(found.node) if found.node else {"value": None, "uncertainty": None, "basis": None}),
        "formulas": [page_shape(page) for page in found.pages],
        "inputs": [_input(found.root)] if found.root else [],
        "shares": [{"quantities": [row.name for row in each.rows], "shared": each.shared, "share": round(each.share, 6)}
                   for each in found.shares],
        "next": {"single": [_better(each) for each in found.next.single],
                 "together": [_better(each) for each in found.next.together]} if found.next else None,
        "curve": explanation_shape(at, found.curve) if found.curve else None,
        **_missing(found.missing),
    }  # fmt: skip


def _node(node: Node) -> dict[str, Any]:
    row = quantity(node.name)
    return {"value": usual(row, node.value.nominal), "uncertainty": size(row, node.value.expanded),
            "basis": node.basis, "out_of_date": node.out_of_date, "outside_validity": list(node.outside)}  # fmt: skip


def _input(each: Input) -> dict[str, Any]:
    return {
        "name": each.row.name,
        "unit": each.row.unit,
        "values": [{"position": node.position, **_node(node)} for node in each.nodes],
        "formula": each.page.function if each.page else None,
        "where": dict(each.where._asdict()) if each.where else None,
        "above": each.above,
        "inputs": [_input(inner) for inner in each.inputs],
    }


def page_shape(page: Page) -> dict[str, Any]:
    """A formula's page."""
    return {**page._asdict(), "arguments": dict(page.arguments), "sources": list(page.sources)}


def _better(each: Better) -> dict[str, Any]:
    return {"quantity": each.row.name, "unit": each.row.unit, "basis": each.basis, "share": round(each.share, 6),
            "now": size(each.row, COVERAGE * each.now), "wanted": size(each.row, COVERAGE * each.wanted),
            "instruments": list(each.instruments), "readings": each.readings or None}  # fmt: skip


def _missing(missing: Missing | None) -> dict[str, Any]:
    groups = missing.groups if missing else ()
    return {"missing": [group[0] for group in groups if len(group) == 1],
            "missing_any": [list(group) for group in groups if len(group) > 1],
            "because": missing.because if missing else ""}  # fmt: skip
