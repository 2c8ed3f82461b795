"""Numbers as they are printed: digits from the uncertainty, a true minus, spaces that never break.

Two significant digits of the expanded uncertainty (k = 2) decide the digits of the value (JCGM 100, 7.2.6). Pure text;
nothing here knows units or pages.
"""

from __future__ import annotations

import re
from decimal import Decimal
from math import isfinite

from logbook.quantity.rounding import decimals_for, rounded

MINUS = "\N{MINUS SIGN}"
NO_BREAK = "\N{NO-BREAK SPACE}"
#: A thin space that never breaks: U+2009 looks the same, but a line may end at it.
THIN = "\N{NARROW NO-BREAK SPACE}"
NONE = "—"
#: A space that must not become the end of a line: before a unit, inside a number, around ±, inside a date.
_LOOSE = re.compile(
    r"(?<=\d) (?!(?:and|are|at|by|for|from|is|of|on|or|the|to|was|with)\b)(?=(?:[^\W\d_]|[°%±])[\w°/]{0,3}(?!\w))"
    r"|(?<=\d) (?=\d{3}\b)|(?<=±) (?=\d)|(?<=\d) (?=[A-Z][a-z]+ \d{4})"
    r"|(?<=\bN) (?=m\b)|(?<=\blbf) (?=(?:ft|in)\b)|(?<=\b(?:cu|sq)) (?=in\b)|(?<=\b(?:bar|psi|kPa)) (?=gauge\b)"
)


def number(value: float, decimals: int) -> str:
    """`value` to that many decimal places, thousands apart, never '−0.00'. Not a number: '—'."""
    if not isfinite(value):
        return NONE
    shown = rounded(Decimal(repr(float(value))), decimals)
    whole, point, part = f"{abs(shown):.{max(decimals, 0)}f}".partition(".")
    sign = MINUS if shown < 0 else ""
    return f"{sign}{_grouped(whole)}{point}{part}"


def signed(value: float, decimals: int) -> str:
    """As `number`, with + before what is greater than nothing once rounded."""
    text = number(value, decimals)
    return text if text.startswith(MINUS) or not text.strip(f"0.{NONE}{THIN}") else f"+{text}"


def pair(value: float, expanded: float | None, decimals: int = 2) -> tuple[str, str]:
    """Value and its ± as text: (10.8391, 0.1162) is ('10.84', '0.12').

    Without an uncertainty the value has `decimals` places and the ± is empty.
    """
    if not expanded or not isfinite(expanded):
        return number(value, decimals), ""
    places = decimals_for(expanded)
    return number(value, places), number(expanded, places)


def at_most(value: float, expanded: float | None, most: int) -> tuple[str, str]:
    """As `pair`, but with no more than `most` decimals, the digits that a reading was written with.

    (80.268, 0.0071, 3) is ('80.268', '0.007'). One digit of the ± is always left.
    """
    if not expanded or not isfinite(expanded):
        return number(value, most), ""
    enough = decimals_for(expanded)
    places = min(enough, max(most, enough - 1))
    return number(value, places), number(expanded, places)


def difference(value: float, expanded: float | None, decimals: int = 2) -> tuple[str, str]:
    """As `pair`, the value with its sign: (-0.2712, 0.0431) is ('−0.271', '0.043')."""
    if not expanded or not isfinite(expanded):
        return signed(value, decimals), ""
    places = decimals_for(expanded)
    return signed(value, places), number(expanded, places)


def joined(value: str, uncertainty: str = "", unit: str = "") -> str:
    """'10.84 ± 0.12 cc' for running text, in one piece."""
    plus_minus = f"{NO_BREAK}±{NO_BREAK}{uncertainty}" if uncertainty else ""
    return f"{value}{plus_minus}{NO_BREAK + unit if unit else ''}"


def kept_together(text: str) -> str:
    """The text with its numbers unbreakable: '13.9 bar', '104 300', '14 May' and '± 0.12' stay on one line."""
    return _LOOSE.sub(NO_BREAK, text)


def places_of(text: str) -> int:
    """Decimal places of a printed number: 2 of '10.84', 0 of '1 599' and of words."""
    whole, point, part = text.partition(".")
    return len(part) if point and part.isdigit() and whole[-1:].isdigit() else 0


def lacking(text: str, most: int) -> str:
    """The page's class for a number with fewer decimals than its column has, so that the points stand in line."""
    own = places_of(text)
    if own >= most:
        return ""
    return f"lacks-{most - own}" if own else f"lacks-point-{most}"


def _grouped(whole: str) -> str:
    return f"{int(whole):,}".replace(",", THIN)
