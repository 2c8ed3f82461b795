"""`logbook explain knock_integral --against BUILD`: nearer to knock than another build, or why nobody can say."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from logbook.cli.explain_lines import KNOCK, Section, formula_sections
from logbook.cli.figures import figure, joined, shown_unit
from logbook.errors import Refused
from logbook.judge.knock import TEMPERATURE, Nearer, knock_against
from logbook.logbook import Logbook
from logbook.quantity.catalogue import quantity
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.record.models import Engine
from logbook.specs.knock import knock_integral
from logbook.specs.page import page

CAREFUL = (
    "Knock destroys engines. The maker's manual, the fuel it asks for and a listening device come first; this is a "
    "relative figure only."
)


def nearer(book: Logbook, point: str, against: str) -> Nearer:
    """Raises Refused with the reason, PointUnknown."""
    return knock_against(book.at(point), book.at(against))


def none_alone() -> Refused:
    """Why one build has no figure."""
    return Refused(
        f"there is no {KNOCK} of one build alone: its constants are of other engines, and only against another build "
        "of the same engine do they cancel; add --against BUILD"
    )


def knock_sections(found: Nearer, engine: Engine) -> Iterator[Section]:
    """The ratios, what they rest on, and what they do not say."""
    yield f"{engine.name}: {KNOCK}, build {found.build} against {found.against}", []
    figures = [(0, f"cylinder {position}: {_told(ratio)}, {_verdict(ratio)}") for position, ratio in _ratios(found)]
    yield "Over that of the other, 1 is equally near to knock", figures
    yield "Careful", [(0, CAREFUL), (0, found.caution)]
    row = quantity(TEMPERATURE)
    degrees = [
        (0, f"build {build}: {joined(*figure(row, value, engine.show), shown_unit(row, engine.show))}, measured")
        for build, value in zip((found.build, found.against), found.temperatures, strict=True)
    ]
    yield "Charge temperature", degrees
    yield "Fuel of both", [(0, found.fuel)]
    formula = page(knock_integral)
    yield from formula_sections(formula, engine)
    yield "Validity", [(0, formula.validity)]


def knock_shape(found: Nearer) -> dict[str, Any]:
    """As JSON."""
    cylinders = {
        position: {"ratio": ratio.nominal, "uncertainty": ratio.expanded, "verdict": _verdict(ratio)}
        for position, ratio in _ratios(found)
    }
    return {"spec": KNOCK, "build": found.build, "against": found.against, "fuel": found.fuel, "cylinders": cylinders,
            "careful": [CAREFUL, found.caution]}  # fmt: skip


def _ratios(found: Nearer) -> Iterator[tuple[str, Uncertain]]:
    return zip(found.positions, found.ratios, strict=True)


def _told(ratio: Uncertain) -> str:
    return joined(*plain(ratio.nominal, ratio.expanded))


def _verdict(ratio: Uncertain) -> str:
    if abs(ratio.nominal - 1) <= ratio.expanded:
        return "no nearer or farther beyond the ±"
    return "nearer to knock" if ratio.nominal > 1 else "farther from knock"
