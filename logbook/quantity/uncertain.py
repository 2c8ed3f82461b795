"""A number that remembers which readings it came from.

A result is kept as its value and, for each independent source of error, the part that this source has in its standard
uncertainty, with its sign. Two results that share a reading share the source's key, so what they have in common cancels
in their difference and adds up in their sum, without any further bookkeeping (JCGM 100:2008, 5.2 and F.1.2.3).
The partial derivatives are central differences (JCGM 100:2008, 5.1.3 note 2), so a formula stays a plain function
on floats.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache, partial
from math import hypot, inf
from typing import NamedTuple

COVERAGE = 2.0  # every ± that the program reads or prints is expanded with this factor
_STEP = 1 / 16  # of a standard uncertainty: small enough for the slope, large enough for sixteen digits
_CURVED = 0.10  # the linear rule is doubtful where the function leaves the line by more than this share
_ROUNDING = 1e-9  # a rise that is so little of how far the function bends is none, but the last digits of both sides


class Uncertain(NamedTuple):
    """A value with the signed contribution of each source to its standard uncertainty, all in base units.

    `terms[key]` is sensitivity times standard uncertainty of the source `key`; sources are independent of each other.
    `curved` says that the linear rule is doubtful for this value.
    """

    nominal: float
    terms: Mapping[str, float] = {}
    curved: bool = False

    @property
    def standard(self) -> float:
        """Combined standard uncertainty (JCGM 100:2008, equation 13)."""
        return hypot(*self.terms.values())

    @property
    def expanded(self) -> float:
        """Expanded uncertainty, k = 2."""
        return COVERAGE * self.standard

    def __sub__(self, other: Uncertain) -> Uncertain:
        keys = dict.fromkeys((*self.terms, *other.terms))
        terms = {key: self.terms.get(key, 0.0) - other.terms.get(key, 0.0) for key in keys}
        return Uncertain(self.nominal - other.nominal, terms, self.curved or other.curved)


@lru_cache(maxsize=1 << 10)
def exact(value: float) -> Uncertain:
    """A figure that nothing is wrong in; the very same for the same value, so that work on it is done once."""
    return Uncertain(value)


Argument = Uncertain | Sequence[Uncertain]


def covariance(first: Uncertain, second: Uncertain) -> float:
    """Covariance of two results, in the product of their units (JCGM 100:2008, F.1.2.3)."""
    return sum(term * second.terms.get(key, 0.0) for key, term in first.terms.items())


def correlation(first: Uncertain, second: Uncertain) -> float:
    """Correlation coefficient of two results, 0 where one has no uncertainty."""
    spread = first.standard * second.standard
    return covariance(first, second) / spread if spread else 0.0


def propagate(function: Callable[..., float], arguments: Mapping[str, Argument]) -> Uncertain:
    """Value of `function` at uncertain keyword arguments (each one value, or a sequence of them).

    First-order law of propagation with correlations (JCGM 100:2008, equation 13). `curved` is set where, two standard
    uncertainties of one argument away, the function departs from its tangent by more than a tenth of the result's
    expanded uncertainty. Raises whatever the function raises at the nominal values.
    """
    plain = {name: nominal_of(argument) for name, argument in arguments.items()}
    centre = function(**plain)
    terms: dict[str, float] = {}
    bend, curved = 0.0, False
    for at, value in _each(function, plain, arguments):
        curved = curved or value.curved
        step = value.standard
        if not step:
            continue
        slope = _slope(at, value.nominal, step, centre)
        departure = _departure(at, value.nominal, step, centre, slope)
        bend = hypot(bend, departure)
        if abs(slope * step) < _ROUNDING * departure < inf:
            slope = 0.0  # it rises to both sides alike, as the greatest less the least of equal figures does
        for key, term in value.terms.items():
            terms[key] = terms.get(key, 0.0) + slope * term
    result = Uncertain(centre, terms)
    return Uncertain(centre, terms, True) if curved or bend > _CURVED * result.expanded else result


Plain = dict[str, float | tuple[float, ...]]
OfOne = Callable[[float], float]


def nominal_of(argument: Argument) -> float | tuple[float, ...]:
    return argument.nominal if isinstance(argument, Uncertain) else tuple(each.nominal for each in argument)


def _each(
    function: Callable[..., float], plain: Plain, arguments: Mapping[str, Argument]
) -> Iterator[tuple[OfOne, Uncertain]]:
    """Each uncertain scalar among the arguments, with the function as one of it alone."""
    for name, argument in arguments.items():
        if isinstance(argument, Uncertain):
            yield partial(_at, function, dict(plain), name), argument
        else:
            for index, each in enumerate(argument):
                yield partial(_at_one, function, plain, name, index), each


def _at(function: Callable[..., float], own: Plain, name: str, value: float) -> float:
    own[name] = value
    return function(**own)


def _at_one(function: Callable[..., float], plain: Plain, name: str, index: int, value: float) -> float:
    whole = plain[name]
    assert isinstance(whole, tuple)  # for the type checker: `name` is a sequence here
    return function(**{**plain, name: (*whole[:index], value, *whole[index + 1 :])})


def _slope(at: OfOne, value: float, step: float, centre: float) -> float:
    """Central difference; to one side alone where the function is not defined on the other, as of air at 100 %."""
    small = step * _STEP
    try:
        return (at(value + small) - at(value - small)) / (2 * small)
    except ValueError:
        return _one_sided(at, value, small, centre)


def _one_sided(at: OfOne, value: float, small: float, centre: float) -> float:
    try:
        return (at(value + small) - centre) / small
    except ValueError:
        return (centre - at(value - small)) / small


def _departure(at: OfOne, value: float, step: float, centre: float, slope: float) -> float:
    """How far the function leaves its tangent two standard uncertainties away, on the worse side."""
    worst = 0.0
    for far in (2 * step, -2 * step):
        try:
            worst = max(worst, abs(at(value + far) - centre - slope * far))
        except ValueError:  # the formula is not defined there: the line surely does not describe it
            return float("inf")
    return worst
