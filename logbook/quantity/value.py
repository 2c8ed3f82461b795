"""What a person writes for a quantity: `38.1 / 38.3 / x / 38.0 ± 0.2 cc`, `0.02 mm below`, `34.0, 34.1 mm`, `9.2:1`.

    line     positions, separated by ' / '; the several figures of one position by ', '; or the word unknown
    figure   number, (digits) or ± number, unit, side; or x where no reading was taken
    unit, side and ±   once at the end, or after each

Strict, because a figure read wrongly ends as metal removed: what has two readings is refused, with what to write
instead (slips.py). Numbers are converted as whole numbers with exact factors and rounded once. The time is linear in
the length of the text.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import lru_cache

from logbook.quantity.catalogue import QUALIFIERS, Quantity
from logbook.quantity.figure import MOST_CHARACTERS, SIDES, Figure, Wanted, read_figure, unit_and_side
from logbook.quantity.printing import print_line
from logbook.quantity.slips import any_of, shown
from logbook.quantity.stated import Line, Position, Stated, ValueProblem
from logbook.quantity.units import BARE, KIND_WORDS, Unit, unit, units_of

__all__ = [
    "SIDES",
    "Line",
    "Position",
    "Stated",
    "ValueProblem",
    "outside_range",
    "parse_line",
    "parse_measure",
    "print_line",
]

#: Longer texts are no values.
LONGEST = 4000

#: Blanks of every width count as one; the true minus sign is a minus. One for one, so that columns stay.
_ALIKE = str.maketrans(dict.fromkeys("\t\n\r\u00a0\u2009\u202f\u2007", " ") | {"−": "-"})


def parse_line(text: str, row: Quantity) -> Line:
    """The figures that `text` states of the quantity; ValueProblem if it has not exactly one reading."""
    return _plain_line(text, row) or _line(text, _wanted(row))


def parse_measure(text: str, *kinds: str) -> tuple[float, Unit]:
    """One amount of any of these kinds: in base units, and the unit it was written in. `16000 km`, `30 h`, `99 kPa`.

    ValueProblem if the text is anything else; an amount has no ±.
    """
    line = _line(text, _measure(kinds))
    figures = [*line.figures]
    if len(line.positions) != 1 or len(figures) != 1 or figures[0].spread:
        raise ValueProblem(f"'{shown(text)}' is not one amount", "write one number and its unit, without ±")
    return figures[0].nominal, unit(line.unit) if line.unit else BARE


_SLACK = 1e-9  # 1000 mm is not outside because 1.0 m came back a little larger


def outside_range(line: Line, row: Quantity) -> str | None:
    """A sentence on the first figure that a workshop would not believe of this quantity, None if there is none."""
    least, most = _believed(row)
    far = [each for some in line.positions for each in some or () if not least <= each.nominal <= most]
    if not far:
        return None
    number = (unit(row.unit) if row.has_unit else BARE).from_base(far[0].nominal)
    low = float("-inf") if row.low is None else row.low
    high = float("inf") if row.high is None else row.high
    return f"{row.uk} of {_sized(number, row.unit)} is outside the usual {low:g} to {_sized(high, row.unit)}"


@lru_cache(maxsize=1024)
def _believed(row: Quantity) -> tuple[float, float]:
    """The least and the most that a workshop believes of a quantity, in base units."""
    scale = unit(row.unit) if row.has_unit else BARE
    least = float("-inf") if row.low is None else scale.to_base(row.low)
    most = float("inf") if row.high is None else scale.to_base(row.high)
    return least - _SLACK * abs(least), most + _SLACK * abs(most)


def _sized(number: float, symbol: str) -> str:
    return f"{number:.6g} {symbol}".rstrip()


@lru_cache(maxsize=1024)
def _wanted(row: Quantity) -> Wanted:
    usual = tuple(symbol for symbol in (row.unit, row.imperial) if symbol)
    return Wanted(row.uk, (row.kind,), usual, row.sides)


@lru_cache(maxsize=64)
def _measure(kinds: tuple[str, ...]) -> Wanted:
    assert KIND_WORDS.keys() >= {*kinds}, kinds
    usual = tuple(row.symbol for kind in kinds for row in units_of(kind))
    return Wanted("the amount", kinds, usual)


#: Nothing but numbers and, once behind them all, a unit and a side: what most lines are.
_PLAIN_NUMBER = r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"
_PLAIN = re.compile(rf"({_PLAIN_NUMBER}(?: / {_PLAIN_NUMBER})*) ([A-Za-z][A-Za-z ]*)")


def _plain_line(text: str, row: Quantity) -> Line | None:
    """The same as `_line` in a tenth of the time where a line is plain; None where it is not, or is wrong."""
    found = _PLAIN.fullmatch(text) if len(text) <= LONGEST else None
    end = _plain_end(found[2], row) if found else None
    if found is None or end is None:
        return None
    numbers, (symbol, side) = found[1].split(" / "), end
    if max(map(len, numbers)) > MOST_CHARACTERS:
        return None
    return Line(tuple([(_plain_figure(number, side, symbol),) for number in numbers]), symbol)


@lru_cache(maxsize=1024)
def _plain_end(words: str, row: Quantity) -> tuple[str, int] | None:
    """The symbol of the unit and the side that stand behind a plain line, None where the line is wrong."""
    wanted = _wanted(row)
    try:
        its, side = unit_and_side(words, wanted)
    except ValueProblem:
        return None  # said of the figure where it stands
    return None if its is None or (wanted.sides and not side) else (its.symbol, side)


@lru_cache(maxsize=8192)
def _plain_figure(number: str, side: int, symbol: str) -> Stated:
    return _stated(Figure(number, 0, number, "", unit(symbol), side))


def _line(text: str, wanted: Wanted) -> Line:
    if len(text) > LONGEST:
        raise ValueProblem(f"a value of {len(text)} characters", f"write at most {LONGEST}")
    plain = text if text.isprintable() and "−" not in text else text.translate(_ALIKE)
    if plain.strip(" ") == "unknown":
        return Line((), wanted.usual[0] if wanted.usual else "", unknown=True)
    positions = [_several(piece, offset, wanted) for piece, offset in _pieces(plain, 0, " / ")]
    taken = _complete([figure for position in positions for figure in position], wanted)
    return Line(tuple(map(_position, positions)), _unit_of(taken[-1]).symbol)


def _pieces(text: str, offset: int, mark: str) -> list[tuple[str, int]]:
    """The pieces between the marks, each with its column."""
    pieces = []
    for piece in text.split(mark):
        pieces.append((piece, offset))
        offset += len(piece) + len(mark)
    return pieces


def _several(piece: str, start: int, wanted: Wanted) -> list[Figure]:
    figures = [read_figure(part, offset, wanted) for part, offset in _pieces(piece, start, ", ")]
    for figure in figures if len(figures) > 1 else ():
        if not figure.taken:
            raise ValueProblem("x among the several of one position", "write x for the whole position", figure.offset)
    return figures


# Unit, side and ±: once at the end, or behind each


def _complete(figures: Sequence[Figure], wanted: Wanted) -> Sequence[Figure]:
    """The figures taken, each with what stands once at the end; ValueProblem where that is not clear."""
    taken = [figure for figure in figures if figure.taken]
    _check_not_taken(figures, taken)
    end = taken[-1] if figures[-1].text == "x" else figures[-1]
    once = _complete_units(taken, end, wanted)
    if len(figures) > 1:
        _complete_spreads(taken, end, once)
    if wanted.sides:
        _complete_sides(taken, end, once, wanted)
    return taken


def _check_not_taken(figures: Sequence[Figure], taken: Sequence[Figure]) -> None:
    if not taken:
        raise ValueProblem("no reading was taken at all", "write unknown, or leave the quantity out", figures[0].offset)
    for figure in figures:
        if not figure.taken and figure.text != "x" and (figure is not figures[-1] or _said_twice(figure, taken)):
            raise ValueProblem("x, not taken, stands alone", "write x", figure.offset)


def _said_twice(end: Figure, taken: Sequence[Figure]) -> bool:
    """Whether what stands behind a last x stands behind a figure too."""
    return any(
        (end.unit and figure.unit) or (end.spread and figure.spread) or (end.side and figure.side) for figure in taken
    )


def _from_end(figures: Sequence[Figure], end: Figure, has: Callable[[Figure], object]) -> list[Figure] | None:
    """The figures that get it from the end: none if each has its own or nobody has it; None if only some have it."""
    lacking = [figure for figure in figures if not has(figure)]
    if not has(end):
        return [] if len(lacking) in (0, len(figures)) else None
    return lacking if len(lacking) in (0, sum(figure is not end for figure in figures)) else None


def _complete_units(taken: Sequence[Figure], end: Figure, wanted: Wanted) -> bool:
    """Whether the unit stands once; it does where there is one figure only, or no unit at all."""
    if not wanted.usual:
        end.unit = BARE
    given = _from_end(taken, end, lambda figure: figure.unit)
    bare = next((figure for figure in taken if figure.unit is None), None)
    if bare and not given:
        side = wanted.side(bare.side)
        proposed = any_of(bare.proposed(symbol, side) for symbol in wanted.usual)
        raise ValueProblem(f"'{shown(bare.text)}' has no unit", f"write {proposed}", bare.offset)
    for figure in given or ():
        figure.unit = end.unit
    return bool(given) or len(taken) == 1


def _complete_spreads(taken: Sequence[Figure], end: Figure, once: bool) -> None:
    given = _from_end(taken, end, lambda figure: figure.spread)
    if given is None or (given and not (once and end.spread.startswith(" "))):
        lacking = next(figure for figure in taken if not figure.spread)
        also = "" if end.spread.startswith("(") else ", or ± and the unit once at the end"
        raise ValueProblem(
            f"'{shown(lacking.text)}' has no uncertainty and others have one",
            f"write it behind each figure{also}",
            lacking.offset,
        )
    for figure in given:
        figure.spread = end.spread


def _complete_sides(taken: Sequence[Figure], end: Figure, once: bool, wanted: Wanted) -> None:
    needing = [figure for figure in taken if figure.side or not figure.is_zero]
    given = _from_end(needing, end, lambda figure: figure.side)
    for figure in given if given and once else ():
        figure.side = end.side
    for figure in needing:
        if not figure.side:
            proposed = any_of(figure.proposed(_unit_of(figure).symbol, side) for side in wanted.sides or ())
            raise ValueProblem(
                f"'{shown(figure.text)}' does not say which way {wanted.words} goes", f"write {proposed}", figure.offset
            )


# into base units


def _position(figures: Sequence[Figure]) -> Position:
    return tuple(map(_stated, figures)) if figures[0].taken else None


def _stated(figure: Figure) -> Stated:
    scale = _unit_of(figure)
    digits, decimals = _digits(figure.number)
    nominal = _scaled(-digits if figure.side < 0 else digits, decimals, scale)
    if scale.offset:
        nominal = float(Fraction(digits, 10**decimals) * scale.factor + scale.offset)
    return Stated(
        nominal,
        _standard(figure.spread, decimals, scale),
        _scaled(1, decimals, scale),
        figure.number,
        figure.spread,
        scale.symbol,
    )


def _standard(spread: str, decimals: int, scale: Unit) -> float | None:
    """± is expanded with k = 2; digits in brackets are standard (JCGM 100, 7.2.2)."""
    if not spread:
        return None
    if spread.startswith("("):
        return _scaled(int(spread[1:-1]), decimals, scale)
    digits, decimals = _digits(spread.removeprefix(" ± "))
    return _scaled(digits, decimals, scale, 2)


def _digits(number: str) -> tuple[int, int]:
    whole, _, decimals = number.partition(".")
    return int(whole + decimals), len(decimals)


def _scaled(digits: int, decimals: int, scale: Unit, share: int = 1) -> float:
    """Whole numbers divided once: the nearest float to what was written."""
    over: int = 10**decimals * share * scale.factor.denominator
    return digits * scale.factor.numerator / over


def _unit_of(figure: Figure) -> Unit:
    assert figure.unit is not None
    return figure.unit


def condition_in_inches(name: str, text: str) -> str:
    """What a figure was taken under, `0.1 mm` of lift, in inches where it is a length; words stay words."""
    kind = QUALIFIERS[name].kind
    return f"{unit('in').from_base(parse_measure(text, kind)[0]):.3g} in" if kind == "length" else text
