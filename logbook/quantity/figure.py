"""One figure of a line: `38.0 ± 0.2 cc`, `38.0(1) cc`, `0.02 mm below`, `9.2:1`, `x`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from logbook.quantity import slips
from logbook.quantity.slips import any_of, shown
from logbook.quantity.stated import ValueProblem
from logbook.quantity.units import KIND_WORDS, Unit, UnknownUnit, is_unit, unit

#: The directions of signed figures, each with its usual abbreviation.
SIDES = {"below": "", "above": "", "before TDC": "BTDC", "after TDC": "ATDC", "before BDC": "BBDC", "after BDC": "ABDC",
         "thrust side": "", "other side": ""}  # fmt: skip

_FOLDED_SIDES = {text.casefold(): side for side, short in SIDES.items() for text in (side, short) if text}

#: A float holds fifteen digits, and no gauge shows more.
MOST_CHARACTERS = 16

#: What behind a number shows that it goes on in some way that is refused: 86.5.1, 86,5, 1e3, 1'000, 61k, 3½, 30 to 32.
_GOES_ON = r"(?![0-9.,]|[eE][-+]?[0-9]|[_'’][0-9]{3}| ?k(?: |$)| ?[½¼¾⅛⅜⅝⅞]| ?to )"

_FIGURE = re.compile(
    rf"(?P<number>x(?= |$)|-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?{_GOES_ON})"
    r"(?P<to_one>:1(?![0-9.]))?"
    r"(?:\((?P<digits>[0-9]+)\))?"
    r"(?: *(?:±|\+/-) *(?P<half>(?:0|[1-9][0-9]*)(?:\.[0-9]+)?)(?![0-9.,]))?"
    r"(?: *(?P<tail>[^ 0-9.,:;±()+/*~–—=#-](?:[^±;,=#/]|/(?![ 0-9]))*))?"
)


class Wanted(NamedTuple):
    """What may be written: kinds of unit, the units to propose (none: it is written bare), the two sides."""

    words: str
    kinds: tuple[str, ...]
    usual: tuple[str, ...]
    sides: tuple[str, str] | None = None

    def side(self, sign: int) -> str:
        """The side of that sign; '' for none."""
        return self.sides[sign < 0] if self.sides and sign else ""


@dataclass(slots=True)
class Figure:
    """One figure as read: number 'x' where none was taken; spread '', '(1)' or ' ± 0.2'; side 1, -1, or 0 for none."""

    text: str
    offset: int
    number: str
    spread: str
    unit: Unit | None
    side: int

    @property
    def taken(self) -> bool:
        return self.number != "x"

    @property
    def is_zero(self) -> bool:
        return not self.number.strip("-0.")

    def proposed(self, symbol: str, side: str) -> str:
        """The figure without minus sign, in a unit and with a side to propose."""
        return " ".join(word for word in (self.number.removeprefix("-") + self.spread, symbol, side) if word)


def read_figure(text: str, offset: int, wanted: Wanted) -> Figure:
    """The figure that the text states; ValueProblem if it has not exactly one reading."""
    part = text.strip(" ")
    offset += len(text) - len(text.lstrip(" "))
    found = _FIGURE.fullmatch(part)
    if found is None:
        raise ValueProblem(*slips.explain(part, wanted.usual), offset)
    number, to_one, digits, half, tail = found.groups()
    if to_one or digits or half:
        _check_spread(part, offset, found, wanted)
    if max(len(number), len(half or digits or "")) > MOST_CHARACTERS:
        raise ValueProblem(f"'{shown(part)}' has more digits than any gauge shows", "write at most 15", offset)
    symbol, side = _unit_and_side_at(offset + found.start("tail"), tail, wanted) if tail else (None, 0)
    figure = Figure(part, offset, number, f" ± {half}" if half else f"({digits})" if digits else "", symbol, side)
    if wanted.sides and number.startswith("-"):
        raise _minus(figure, wanted)
    return figure


def _check_spread(part: str, offset: int, found: re.Match[str], wanted: Wanted) -> None:
    """What the pattern lets through and cannot be: a ratio where none is, two uncertainties, ± 0, per cent."""
    number, to_one, digits, half, tail = found.groups()
    if to_one and "ratio" not in wanted.kinds:
        raise ValueProblem(f"'{shown(part)}' is a ratio, {wanted.words} is not", _units_to_write(wanted), offset)
    if digits and half:
        raise ValueProblem(*slips.TWO_SPREADS, offset)
    if not (half or digits or "1").strip("0."):
        raise ValueProblem(
            "an uncertainty of 0 says that the figure is exact, and no measured figure is",
            "leave it out, or write the least that you believe",
            offset,
        )
    if number != "x" and half and tail and tail.startswith("%") and "share" not in wanted.kinds:
        raise ValueProblem(*slips.per_cent(number, half, tail[1:].strip() or (wanted.usual or ("",))[0]), offset)


def _minus(figure: Figure, wanted: Wanted) -> ValueProblem:
    """A minus sign on a figure whose direction is said in words."""
    symbol = figure.unit.symbol if figure.unit else ""
    if not figure.side:
        either = any_of(figure.proposed(symbol, side) for side in wanted.sides or ())
        return ValueProblem(
            f"a minus sign does not say which way {wanted.words} goes", f"write {either}", figure.offset
        )
    other = figure.proposed(symbol, wanted.side(-figure.side))
    return ValueProblem(f"a minus sign and '{wanted.side(figure.side)}' together", f"write {other}", figure.offset)


@lru_cache(maxsize=2048)
def unit_and_side(tail: str, wanted: Wanted) -> tuple[Unit | None, int]:
    """What stands behind the number: its unit, if any, and its side (1, -1, or 0 for none). Raises ValueProblem."""
    words = tail.split()
    side = ""
    for length in (2, 1):
        if found := _FOLDED_SIDES.get(" ".join(words[-length:]).casefold()):
            side, words = found, words[:-length]
            break
    return _unit(" ".join(words), wanted), _side(side, wanted)


def _unit_and_side_at(offset: int, tail: str, wanted: Wanted) -> tuple[Unit | None, int]:
    try:
        return unit_and_side(tail, wanted)
    except ValueProblem as problem:
        raise ValueProblem(problem.says, problem.mend, offset) from None


def _side(side: str, wanted: Wanted) -> int:
    if not side:
        return 0
    if wanted.sides is None:
        raise ValueProblem(f"{wanted.words} has no sides", f"leave out '{side}'")
    if side not in wanted.sides:
        raise ValueProblem(f"{wanted.words} is not '{side}'", f"write {any_of(wanted.sides)}")
    return 1 if side == wanted.sides[0] else -1


def _unit(symbol: str, wanted: Wanted) -> Unit | None:
    if not symbol:
        return None
    if not wanted.usual:
        raise ValueProblem(f"{wanted.words} has no unit", f"leave out '{shown(symbol)}'")
    try:
        found = unit(symbol)
    except UnknownUnit as unknown:
        raise ValueProblem(unknown.says, unknown.mend) from None
    if found.kind not in wanted.kinds:
        raise _wrong_kind(found, wanted)
    return found


def _wrong_kind(found: Unit, wanted: Wanted) -> ValueProblem:
    told = [full for word in ("gauge", "absolute") if is_unit(full := f"{found.symbol} {word}")]
    if found.kind == "pressure_difference" and told and {"pressure_gauge", "pressure_absolute"} & {*wanted.kinds}:
        return ValueProblem(f"'{found.symbol}' alone does not say gauge or absolute", f"write {any_of(told)}")
    kinds = any_of(KIND_WORDS[kind] for kind in wanted.kinds)
    return ValueProblem(
        f"'{found.symbol}' is the unit of {KIND_WORDS[found.kind]}, {wanted.words} is {kinds}", _units_to_write(wanted)
    )


def _units_to_write(wanted: Wanted) -> str:
    return f"write {any_of(wanted.usual)}" if wanted.usual else "write the number alone"
