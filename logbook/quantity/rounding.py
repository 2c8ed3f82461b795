"""How many digits a number deserves: its expanded uncertainty decides, with two of its own (JCGM 100:2008, 7.2.6)."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal


def decimals_for(expanded: float) -> int:
    """Decimal places that show two significant digits of an expanded uncertainty > 0; negative for tens, hundreds."""
    size = Decimal(repr(expanded))
    places = 1 - size.adjusted()
    return places - (rounded(size, places).adjusted() > size.adjusted())  # 0.0996 becomes 0.10, not 0.100


def rounded(value: Decimal, decimals: int) -> Decimal:
    """Half away from zero, to that many decimal places."""
    return value.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)


def plain(value: float, expanded: float, digits: int = 6) -> tuple[str, str]:
    """Value and ± as plain ASCII text. Without an uncertainty the value has `digits` significant digits and no ±.

    >>> plain(10.8391, 0.1162)
    ('10.84', '0.12')
    """
    if not expanded > 0:
        return f"{value:.{digits}g}", ""
    places = decimals_for(expanded)
    return _text(value, places), _text(expanded, places)


def _text(value: float, places: int) -> str:
    number = rounded(Decimal(repr(float(value))), places)
    return f"{number + 0:.{max(places, 0)}f}"  # + 0 turns -0.00 into 0.00
