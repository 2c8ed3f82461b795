"""A quantity back into text."""

from __future__ import annotations

from dataclasses import replace
from math import floor, log10

from logbook.quantity.catalogue import Quantity
from logbook.quantity.stated import Line, Stated
from logbook.quantity.units import BARE, Unit, unit


def print_line(line: Line, row: Quantity) -> str:
    """The canonical text of a line, from which parse_line reads exactly the same line again.

    A figure that was made and not read (it has no number as written) is rounded to its last digit, its ± to two digits.
    """
    if line.unknown:
        return "unknown"
    written = [
        None if position is None else [_written(figure, line.unit, row) for figure in position]
        for position in line.positions
    ]
    figures = [figure for position in written for figure in position or ()]
    sides = {_side(figure, row) for figure in figures} - {""}
    one_end = len(sides) <= 1 and len({figure.unit for figure in figures}) == 1
    one_spread = one_end and _one_spread(figures)

    def text(figure: Stated) -> str:
        spread = "" if one_spread else figure.spread
        return figure.number + spread + ("" if one_end else _end(figure.unit, _side(figure, row)))

    texts = ("x" if position is None else ", ".join(map(text, position)) for position in written)
    once = (figures[0].spread if one_spread else "") + (_end(figures[0].unit, "".join(sides)) if one_end else "")
    return " / ".join(texts) + once


def _one_spread(figures: list[Stated]) -> bool:
    """Whether ± may stand once at the end; digits in brackets belong to the number before them and never do."""
    first, *others = {figure.spread for figure in figures}
    return not others and not first.startswith("(")


def _side(figure: Stated, row: Quantity) -> str:
    return row.sides[figure.nominal < 0] if row.sides and figure.nominal else ""


def _end(symbol: str, side: str) -> str:
    return "".join(f" {word}" for word in (symbol, side) if word)


def _written(figure: Stated, symbol: str, row: Quantity) -> Stated:
    """The figure with a text: its own, or one made from its size."""
    if figure.number:
        return figure
    scale = unit(symbol) if symbol else BARE
    number = scale.from_base(abs(figure.nominal) if row.sides else figure.nominal)
    return replace(
        figure,
        number=_plain(number, scale.from_size(figure.last_digit), 1),
        spread=_spread(figure.standard, scale),
        unit=symbol,
    )


def _spread(standard: float | None, scale: Unit) -> str:
    if not standard:
        return ""
    expanded = scale.from_size(2 * standard)
    return f" ± {_plain(expanded, expanded, 2)}"


def _plain(number: float, of: float, digits: int) -> str:
    """The number without exponent, to as many digits as `of` shows when it has `digits` significant ones."""
    decimals = digits - 1 - floor(log10(of) + 1e-9) if of > 0 else 6
    text = f"{number:.{min(max(decimals, 0), 12)}f}"
    return text.removeprefix("-") if not text.strip("-0.") else text
