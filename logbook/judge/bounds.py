"""A bound of a limit, and whether a value is within it: guard bands after JCGM 106:2012 and ISO 14253-1.

A value is within where it stays inside by at least its expanded uncertainty (k = 2), outside where it is beyond by at
least that; in between neither is proven with the instrument that was used. The bound may be a multiple of a measured
figure: then the margin between both is what is judged, so that an error which both share cancels.
"""

from __future__ import annotations

import re
from functools import lru_cache
from math import erf, sqrt
from typing import NamedTuple

from logbook.quantity.catalogue import Quantity, catalogue, nearest
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.quantity.value import ValueProblem, parse_line, parse_measure

WITHIN, OUTSIDE, UNDECIDED = "within", "outside", "not proven either way"

_MULTIPLE = re.compile(
    r"(?P<times>[0-9]+(?:\.[0-9]+)?) (?:x |× )?(?P<of>[a-z_]{3,})(?: (?P<sign>[+-]) (?P<amount>.+))?"
)
_SLACK = 1e-9  # of the guard band: 0.1 + 0.2 is not beyond 0.3


class Bound(NamedTuple):
    """`times` times the figure `of`, plus `amount`; an amount alone where there is no `of`. Base units."""

    text: str
    amount: float
    times: float = 0.0
    of: str = ""

    def at(self, other: Uncertain | None) -> Uncertain:
        """The bound where the figure `of` is `other`."""
        if other is None:
            return Uncertain(self.amount)
        terms = {key: self.times * term for key, term in other.terms.items()}
        return Uncertain(self.times * other.nominal + self.amount, terms)


@lru_cache(maxsize=256)
def parse_bound(text: str, row: Quantity) -> Bound:
    """`2.0 mm`, `0.0045 bore`, `0.0010 main_journal_diameter + 0.013 mm`; ValueProblem with what to write instead."""
    found = _MULTIPLE.fullmatch(text)
    other = _meant(found["of"]) if found else None
    if found and other:
        return _multiple(text, found, other, row)
    figures = [stated for position in parse_line(text, row).positions for stated in position or ()]
    if len(figures) != 1 or figures[0].spread:
        raise ValueProblem(f"`{text}` is not one amount", "write one number and its unit, without ±")
    return Bound(text, figures[0].nominal)


def _meant(word: str) -> str | None:
    """The quantity that a word is, or was meant to be; None where it is the unit of an amount."""
    return word if word in catalogue() else None if _is_unit(word) else nearest(word, list(catalogue()))


def _is_unit(word: str) -> bool:
    try:
        unit(word)
    except ValueError:
        return False
    return True


def _multiple(text: str, found: re.Match[str], name: str, row: Quantity) -> Bound:
    other = catalogue()[name]
    if found["of"] != name:
        raise ValueProblem(f"`{found['of']}` is not a quantity", f"write `{name}`")
    if other.kind != row.kind:
        says = f"a multiple of {other.uk} is {_a(other.kind)} and {row.uk} is {_a(row.kind)}"
        raise ValueProblem(says, "take a figure of the same kind, or write an amount")
    amount, _ = parse_measure(found["amount"], row.kind) if found["amount"] else (0.0, None)
    return Bound(text, -amount if found["sign"] == "-" else amount, float(found["times"]), name)


def _a(kind: str) -> str:
    words = kind.replace("_", " ")
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


class Standing(NamedTuple):
    """Where a value stands to its bounds.

    `likely`: probability that the true value is within (JCGM 106, 7.3 and 7.4: normal, nothing known beforehand).
    `margin`: the smaller distance to a bound, positive inside, with its uncertainty.
    """

    verdict: str
    likely: float
    margin: Uncertain


def standing(value: Uncertain, low: Uncertain | None, high: Uncertain | None) -> Standing:
    """The verdict on a value between bounds, of which one at least is given. All in one unit."""
    margins = [value - low] if low is not None else []
    margins += [high - value] if high is not None else []
    least = min(margins, key=lambda margin: margin.nominal / margin.standard if margin.standard else margin.nominal)
    likely = 1 - sum(1 - _normal(margin) for margin in margins)
    return Standing(_verdict(margins), max(0.0, likely), least)


def _verdict(margins: list[Uncertain]) -> str:
    if all(margin.nominal >= margin.expanded * (1 - _SLACK) - _tiny(margin) for margin in margins):
        return WITHIN
    beyond = any(-margin.nominal >= margin.expanded * (1 - _SLACK) and margin.nominal < 0 for margin in margins)
    return OUTSIDE if beyond else UNDECIDED


def _tiny(margin: Uncertain) -> float:
    """What a computer adds to a margin of nothing, where no uncertainty covers it: far below any workshop's reach."""
    return 0.0 if margin.standard else 1e-15


def _normal(margin: Uncertain) -> float:
    """Probability that a margin is positive."""
    if not margin.standard:
        return float(margin.nominal >= -_tiny(margin))
    return (1 + erf(margin.nominal / margin.standard / sqrt(2))) / 2
