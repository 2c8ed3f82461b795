"""What was probably meant by a figure that cannot be read: 86,5 mm, 1 3/8 in, 61k km, 1e-3 m, 30-32 deg.

Every answer is a pair: what is wrong, and what to write instead. The text that is proposed is never taken as read: a
comma may be a decimal one or one between thousands, and only the writer knows.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from decimal import Decimal, localcontext
from functools import cache

Explained = tuple[str, str]

#: Longer texts are not searched for what they may have meant.
_LONGEST = 200

TWO_SPREADS = (
    "two uncertainties on one figure",
    "write ± for an expanded one (k = 2), or its last digits in brackets for a standard one",
)

_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_VULGAR = {"½": "0.5", "¼": "0.25", "¾": "0.75", "⅛": "0.125", "⅜": "0.375", "⅝": "0.625", "⅞": "0.875"}


def any_of(words: Iterable[str]) -> str:
    """'a', 'a or b', 'a, b or c'."""
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last


def shown(text: str) -> str:
    """The text short enough to stand in a message."""
    return text if len(text) <= 40 else text[:39] + "…"


def explain(part: str, usual: tuple[str, ...]) -> Explained:
    """What is wrong with the text of one figure, and what to write; `usual` are the units it may have."""
    for pattern, answer in _slips() if len(part) <= _LONGEST else ():
        if found := pattern.search(part):
            return answer(part, found)
    example = f"number, ± if known, unit, such as 86.0 ± 0.1 {usual[0]}" if usual else "the number alone, such as 9.2"
    return f"'{shown(part)}' cannot be read as a figure", f"write {example}"


def per_cent(number: str, half: str, symbol: str) -> Explained:
    """± in per cent of the figure."""
    size = _decimal(Decimal(number) * Decimal(half) / 100)
    return "± of a figure is in the unit of the figure, not in per cent", f"write {number} ± {size} {symbol}".rstrip()


def _decimal(number: Decimal) -> str:
    """Without exponent, to six significant digits."""
    with localcontext() as context:
        context.prec = 6
        text = f"{+number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _says(says: str, mend: str) -> Callable[[str, re.Match[str]], Explained]:
    """The same answer whatever was found; {} is the part that was."""
    return lambda part, found: (says.format(found.group()), mend.format(found.group()))


def _put(says: str, to: str | Callable[[re.Match[str]], str]) -> Callable[[str, re.Match[str]], Explained]:
    """Propose the text with what was found put right."""
    return lambda part, found: (says, f"write {found.re.sub(to, part)}")


def _exponent(part: str, found: re.Match[str]) -> Explained:
    """Written out, unless that would be a long row of zeros."""
    if abs(int(found[2])) > 9:
        return "numbers are written out, without exponent", "write it in digits, in a unit that keeps it short"
    number = f"{Decimal(found.group()):f}"
    return "numbers are written out, without exponent", f"write {part[: found.start()]}{number}{part[found.end() :]}"


def _thousands(part: str, found: re.Match[str]) -> Explained:
    joined = f"write {part.replace(',', '')}"
    if found[2].count(",") == 1 and not found[3]:
        joined += f", or {part.replace(',', '.')} if the comma is a decimal one"
    return "a comma inside a number can be a decimal one or one between thousands", joined


def _fraction(part: str, found: re.Match[str]) -> Explained:
    whole, above, below, rest = found.groups()
    if not int(below):
        return f"'{shown(part)}' divides by 0", "write a decimal number"
    size = _decimal(int(whole or 0) + (Decimal(above) / Decimal(below)).quantize(Decimal("0.0001")))
    two = "" if whole else f", or {above} / {below}{rest} if they are two positions"
    return "fractions are written as decimal numbers", f"write {size}{rest}{two}"


def _vulgar(found: re.Match[str]) -> str:
    return _decimal(Decimal(found[1] or 0) + Decimal(_VULGAR[found[2]]))


def _range(part: str, found: re.Match[str]) -> Explained:
    low, high = sorted((Decimal(found[1]), Decimal(found[2])))
    middle, half = _decimal((low + high) / 2), _decimal((high - low) / 2)
    return "a range is written as its middle and ±", f"write {middle} ± {half}{found[3]}"


def _unit_before_spread(part: str, found: re.Match[str]) -> Explained:
    number, first, half, second = (text.strip() for text in found.groups())
    if second.startswith("%") and first != "%":
        return per_cent(number, half, first)
    return "the unit stands once, behind ±", f"write {number} ± {half} {second or first}"


_Slip = tuple[str, Callable[[str, re.Match[str]], Explained]]

_WORDS: tuple[_Slip, ...] = (
    (r"^/|/$|^$", _says("a position is empty", "write x where no reading was taken")),
    (r"^(?i:nan|[-+]?inf(?:inity)?)(?= |$)", _says("'{}' is not a number", "write x where no reading was taken")),
    (
        r"^(?:X|-+|–|—|\?+|(?i:n\.?/?a\.?|none|nil|tbd|not taken|missing))$",
        _says("'{}' is not a figure", "write x where no reading was taken"),
    ),
    (
        r"(?i:^unknown\b)|^(?:\?|unbekannt)$",
        _says(
            "'unknown' stands alone, in small letters",
            "write unknown for the whole line, or x where no reading was taken",
        ),
    ),
    (
        r"^(?i:about|approx\.?|approximately|ca\.?|circa|roughly|around|at least|at most|over|under|max\.?|min\.?)(?= )"
        r"|^[~≈<>≤≥]=?",
        _says("'{}' does not say how sure the figure is", "leave out '{}' and write ± behind the number"),
    ),
    (r"^x(?=[^A-Za-z])", _says("x, not taken, stands alone", "write x")),
    (
        r"[;#=].*$",
        _says(
            "'{}' does not belong in a figure",
            "leave it out; ' / ' separates positions, ', ' the several of one position",
        ),
    ),
)

_WITHOUT_BLANKS = "positions are separated by ' / ', with a blank on both sides"

_NUMBERS: tuple[_Slip, ...] = (
    (r"([0-9]*\.?[0-9]+)[eE]([-+]?[0-9]{1,6})(?![A-Za-z0-9])", _exponent),
    (r"^[0-9.]+(?:/(?:[0-9.]+|x)){2,}", _put(_WITHOUT_BLANKS, lambda found: found[0].replace("/", " / "))),
    (r"^(?:([0-9]{1,6})[ -])?([0-9]{1,6})/([0-9]{1,6})(?![0-9.])(.*)$", _fraction),
    (rf"([0-9]*) ?([{''.join(_VULGAR)}])", _put("fractions are written as decimal numbers", _vulgar)),
    (rf"({_NUMBER}) ?[kK](?= |$)", _put("k is not a number", lambda found: f"{Decimal(found[1]) * 1000:f}")),
    (
        r"([0-9]{1,3}(?:\.[0-9]{3})+),([0-9]+)",
        _put("a number has a decimal point, not a comma", lambda found: f"{found[1].replace('.', '')}.{found[2]}"),
    ),
    (r"(?<![0-9.,])([1-9][0-9]{0,2})((?:,[0-9]{3})+)(?![0-9,])(\.[0-9]+)?", _thousands),
    (r"(?<=[0-9]),(?=[0-9])", _put("a number has a decimal point, not a comma", ".")),
    (r"(?<=[0-9])[ '’_](?=[0-9]{3}(?![0-9]))", _put("a number is written without gaps", "")),
    (r"(?<![0-9.])0+(?=[0-9])", _put("a number does not begin with 0 before other digits", "")),
    (r"(?<![0-9])\.(?=[0-9])", _put("a number does not begin with a point", "0.")),
    (r"(?<=[0-9])\.(?![0-9])", _put("a number does not end with a point", "")),
)

_SPREADS: tuple[_Slip, ...] = (
    (r"\+ ?-(?!\+)|\+ / -|\+\\-|-/\+|∓", _put("the uncertainty is written with ± or +/-", "±")),
    (r"(?:±|\+/-).*(?:±|\+/-|\()|\(.*(?:±|\+/-|\()", lambda part, found: TWO_SPREADS),
    (r"(?<=±) *-|(?<=\+/-) *-", _put("± is never negative", " ")),
    (rf"^(-?{_NUMBER}) *([^0-9±(+][^±(+]*)(?:±|\+/-) *({_NUMBER}) *(.*)$", _unit_before_spread),
    (r"^ *(?:±|\+/-)", _says("± stands without a number before it", "write the figure, then ±")),
    (r"(?:±|\+/-)(?! *[0-9])", _says("± stands without a number behind it", "write the number, or leave ± out")),
    (
        r"\([0-9]*\.[0-9]*\)",
        _says(
            "'{}' is not a whole number of last digits",
            "write the standard uncertainty in the last digits: 38.0(1) for 38.0 with 0.1",
        ),
    ),
    (r"(?<=[0-9]) +(?=\([0-9]+\))", _put("the digits in brackets stand close behind the number", "")),
)

_ORDER: tuple[_Slip, ...] = (
    (r"^\+ ?(?=[0-9])", _put("a figure has no plus sign", "")),
    (r"^- +(?=[0-9])", _put("a minus sign stands at its number", "-")),
    (rf"^({_NUMBER}) ?(?:-|–|—|to|\.\.\.?|…) ?({_NUMBER})(?![0-9.])(.*)$", _range),
    (rf"^({_NUMBER}) ?: ?1$", _put("a ratio has no gaps", r"\1:1")),
    (r" */ *(?=-?[0-9.x])", _put(_WITHOUT_BLANKS, " / ")),
    (r" *, *", _put("the several of one position are separated by ', ', with a blank behind the comma", ", ")),
    (rf"^([A-Za-z°%][^0-9]*?) *(-?{_NUMBER})$", _put("the number comes first", r"\2 \1")),
)


@cache
def _slips() -> tuple[tuple[re.Pattern[str], Callable[[str, re.Match[str]], Explained]], ...]:
    """Every slip with its answer, the first that fits counts; made ready when the first one is met."""
    return tuple((re.compile(pattern), answer) for pattern, answer in (*_WORDS, *_NUMBERS, *_SPREADS, *_ORDER))
