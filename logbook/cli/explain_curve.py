"""What `explain` says of a curve: a table over its variable, each value with its band."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, log10

from logbook.cli import layout
from logbook.cli.explain_lines import Line, Section, cannot, formula_sections, input_lines, title
from logbook.cli.figures import figure, joined, name_of, shown_unit, unit_of
from logbook.quantity.catalogue import Quantity
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.record.models import Engine
from logbook.specs.configuration import Configuration
from logbook.specs.curves import Point
from logbook.specs.explain import CurveExplanation
from logbook.specs.validity import outside_validity


def curve_sections(at: Configuration, found: CurveExplanation, point: str) -> Iterator[Section]:
    """One curve as a table over its variable."""
    engine = at.life.record.engine
    yield title(at, found.row, found.position, point)
    if found.missing:
        yield from cannot(found.missing, (found.page,), engine)
        return
    yield from table_sections(at, found)
    yield from formula_sections(found.page, engine)
    yield "Validity", [(0, found.page.validity)]
    yield "What it rests on", [line for each in found.inputs for line in input_lines(each, engine, 0)]


def table_sections(at: Configuration, found: CurveExplanation) -> Iterator[Section]:
    """The table alone, and where it is greatest and least."""
    engine = at.life.record.engine
    if found.points:
        yield f"Over {name_of(found.over, engine)}", list(_table(found, engine))
        yield "", [*_extremes(found, engine), *_reasons(found)]


def _extremes(found: CurveExplanation, engine: Engine) -> Iterator[Line]:
    most = max(found.points, key=lambda point: point.value.nominal)
    least = min(found.points, key=lambda point: point.value.nominal)
    over = unit_of(found.over, engine)
    ends = (found.points[0], found.points[-1])
    for word, point in (("Greatest", most), ("Least", least)):
        if point in ends:  # it only rises or falls there
            continue
        value = joined(*figure(found.row, point.value, engine.show), unit_of(found.row, engine))
        yield 0, f"{word} of the table: {value} at {_at(found.over, point.at, engine)} {over}"


def outside(found: CurveExplanation, point: Point) -> tuple[str, ...]:
    """Why a point of the table lies outside the formula's validity, as far as the point itself tells."""
    return outside_validity(found.row.name, {"result": point.value.nominal, found.over.name: point.at})


def _reasons(found: CurveExplanation) -> Iterator[Line]:
    for reason in dict.fromkeys(reason for point in found.points for reason in outside(found, point)):
        yield 0, f"† outside the validity: {reason}"


def _table(found: CurveExplanation, engine: Engine) -> Iterator[Line]:
    """One row for each point: the variable, the value, the band that its ± makes, and † outside the validity."""
    widest = max(point.value.standard for point in found.points)
    like = [point.value._replace(terms={"": widest}) for point in found.points]  # all with as many digits
    figures = [
        (figure(found.row, each, engine.show)[0], _band(found.row, each, point.value.expanded, engine))
        for each, point in zip(like, found.points, strict=True)
    ]
    places = [_at(found.over, point.at, engine) for point in found.points]
    at, number = layout.pointed(places), layout.pointed(value for value, _ in figures)
    spread = layout.pointed(plus_minus for _, plus_minus in figures)
    its = unit_of(found.row, engine)
    for place, (value, plus_minus), point in zip(places, figures, found.points, strict=True):
        band = f" ± {spread(plus_minus)}" if plus_minus else ""
        row = f"{at(place)} {unit_of(found.over, engine)}   {number(value)}{band} {its}".rstrip()
        yield -1, f"{row} †" if outside(found, point) else row


def _band(row: Quantity, like: Uncertain, expanded: float, engine: Engine) -> str:
    """A ± with as many decimals as the table's widest."""
    decimals = len(figure(row, like, engine.show)[1].partition(".")[2])
    its = shown_unit(row, engine.show)
    return f"{expanded / (unit(its).size(1.0) if its else 1.0):.{decimals}f}" if like.standard else ""


def _at(row: Quantity, base: float, engine: Engine) -> str:
    its = shown_unit(row, engine.show)
    number = unit(its).from_base(base) if its else base
    digits = 6 if not number else max(0, 4 - floor(log10(abs(number))))
    return f"{round(number, digits):g}"
