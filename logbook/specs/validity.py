"""Where a formula's validity can be tested by numbers: whether this case lies inside, and if not, why.

By hand: name of the spec -> functions of nominal values by name, base units, each giving '' or the reason as a
sentence without its point. The names are those of the formula's arguments, and `result` is what it gave; a function is
asked wherever all that it names is there, so a spec with two formulas has one for each. The value is given all the
same, with the reason beside it, and whatever rests on it carries the reason on.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from inspect import signature
from typing import Any

from logbook.specs import air_bounds, clearance_bounds, correction_bounds, running_bounds

Rule = Callable[..., str]

OUTSIDE: Mapping[str, tuple[Rule, ...]] = {
    **clearance_bounds.OUTSIDE,
    **air_bounds.OUTSIDE,
    **running_bounds.OUTSIDE,
    **{name: (rule,) for name, rule in correction_bounds.OUTSIDE.items()},
}


def outside_validity(spec: str, nominal: Mapping[str, Any]) -> tuple[str, ...]:
    """Why this case lies outside the formula's validity; nothing where it lies inside or no number can tell.

    nominal: the formula's arguments and `result`, in base units; a tuple where all positions were given at once, a
    Curve where the whole table was.
    """
    if spec not in OUTSIDE:
        return ()
    asked = (rule for rule in OUTSIDE[spec] if _names(rule) <= nominal.keys())
    return tuple(reason for rule in asked if (reason := rule(**{name: nominal[name] for name in _names(rule)})))


@cache
def _names(rule: Rule) -> frozenset[str]:
    return frozenset(signature(rule).parameters)
