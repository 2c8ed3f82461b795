"""What is wanted of a spec: `compression_ratio 9.5..10.2`, `squish_clearance >= 0.9 mm`; and whether it is met."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from logbook.errors import LogbookError
from logbook.quantity.catalogue import Quantity, catalogue, did_you_mean, own_name
from logbook.quantity.value import ValueProblem, parse_line
from logbook.specs.results import Value

MET, OPEN, MISSED = "met", "not proven either way", "missed"

_RANGE = re.compile(r"(?P<name>\w[\w ,]*?) +(?P<low>[-+\d.].*?) ?\.\. ?(?P<high>.+)")
_BOUND = re.compile(r"(?P<name>\w[\w ,]*?) *(?P<sign>>=|<=|>|<|≥|≤) *(?P<value>.+)")
_UNIT = re.compile(r"[^-+0-9. ].*$")


class CannotWant(LogbookError):
    """A wish that cannot be read: one line that says what would work."""


class Want(NamedTuple):
    """A range of one spec in base units; None where it is open. `text`: as it was written."""

    row: Quantity
    low: float | None
    high: float | None
    text: str


def parse_want(text: str, names: Iterable[str]) -> Want:
    """Raises CannotWant. `names`: the specs that there are."""
    found = _RANGE.fullmatch(text.strip()) or _BOUND.fullmatch(text.strip())
    if found is None:
        raise CannotWant(f'`{text}`: write "compression_ratio 9.5..10.2" or "squish_clearance >= 0.9 mm"')
    name, known = own_name(found["name"]), list(names)
    if name not in known:
        raise CannotWant(f"`{name}` is not a spec{did_you_mean(name, known, 'logbook explain lists them')}")
    row = catalogue()[name]
    if found.re is _BOUND:
        value = _value(found["value"], row, text)
        return Want(row, value, None, text) if found["sign"] in (">=", ">", "≥") else Want(row, None, value, text)
    low, high = found["low"], found["high"]
    its_unit = _UNIT.search(high)
    if its_unit and not _UNIT.search(low):
        low = f"{low} {its_unit[0]}"  # the unit may stand once, at the end
    bounds = _value(low, row, text), _value(high, row, text)
    if bounds[0] >= bounds[1]:
        raise CannotWant(f"`{text}`: the lower end is not below the upper; swap them")
    return Want(row, *bounds, text)


def _value(typed: str, row: Quantity, text: str) -> float:
    try:
        figures = list(parse_line(typed, row).figures)
    except ValueProblem as problem:
        raise CannotWant(f"`{text}`: {problem.says}; {problem.mend}") from None
    if len(figures) != 1:
        raise CannotWant(f"`{text}`: each end is one value")
    return figures[0].nominal


def judge(want: Want, values: Iterable[Value | None]) -> str:
    """Met where every position is inside by more than its uncertainty, missed where one is outside by more."""
    verdicts = {_one(want, value) for value in values} or {OPEN}
    return next(verdict for verdict in (MISSED, OPEN, MET) if verdict in verdicts)


def _one(want: Want, value: Value | None) -> str:
    if value is None:
        return OPEN
    rooms = [room for room in (want.low is not None and value.nominal - want.low,
                               want.high is not None and want.high - value.nominal) if room is not False]  # fmt: skip
    least = min(float(room) for room in rooms)
    if abs(least) < value.expanded:
        return OPEN
    return MET if least >= 0 else MISSED
