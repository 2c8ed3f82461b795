"""What changed, as lines: before → after, the difference with its uncertainty, and whether it is real."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import click

from logbook.cli import layout
from logbook.cli.figures import figure, signed, signed_name, unit_of
from logbook.cli.whose import ONE_ENGINE, Whose
from logbook.judge.compare import IF_PUBLISHED, REAL, Difference
from logbook.record.models import Engine
from logbook.specs.results import Value
from logbook.specs.ways import needs

#: A verdict too long for its column, and the words below the table that tell it in full.
_IN_SHORT = {IF_PUBLISHED: "real if published"}
IN_FULL = (
    "real if published: only if the figures hold that were published, assumed or said and not measured; they make more "
    "than half of its error."
)

_PLACE = 6  # the column of a position, with the gap behind it
_UNKNOWN, _NOT_THERE = "unknown", "none"
_SILENT = (_UNKNOWN, _NOT_THERE)


@dataclass(frozen=True, slots=True)
class _Change:
    """One position of one spec, as text; `plus_minus` is that of the value where only one side is known."""

    was: str
    now: str
    delta: str
    plus_minus: str
    verdict: str


def effect_lines(
    effect: Iterable[Difference], engine: Engine, indent: int = 0, whose: Whose = ONE_ENGINE
) -> Iterator[str]:
    """A block for each spec: one line if all positions changed alike, else one for each.

    All share their columns, unless a line would not fit so; then each has its own.
    """
    changes = {each.name: (each, [_change(each, number, engine, whose) for number in range(len(each.positions))])
               for each in effect}  # fmt: skip
    shared = _Columns([one for _, some in changes.values() for one in some])
    fits = indent + _PLACE + shared.wide <= layout.WIDTH
    for each, some in changes.values():
        alike = len(set(some)) == 1
        columns = shared if fits else _Columns(some)
        yield from layout.wrapped(_heading(each, engine, alike), indent, hanging=4)
        for place, one in [("", some[0])] if alike else zip(each.positions, some, strict=True):
            if (one.was, one.now) != (_UNKNOWN, _UNKNOWN):
                yield f"{'':<{indent}}{place:>{_PLACE - 2}}  {columns.line(one)}"


def told_short(effect: Iterable[Difference]) -> bool:
    """Whether a verdict was shortened, so that IN_FULL belongs below."""
    return any(verdict in _IN_SHORT for each in effect for verdict in each.verdicts)


def words_below(effect: Sequence[Difference], indent: int = 0) -> Iterator[str]:
    """What the short verdict means, and what would have to be known to know again what is lost."""
    if told_short(effect):
        yield from layout.wrapped(IN_FULL, indent)
    lost = needs(tuple(dict.fromkeys(group for each in effect for group in each.lost)))
    if lost:
        yield from layout.wrapped(f"To know again what is no longer known it {lost}.", indent)


def _heading(each: Difference, engine: Engine, alike: bool) -> str:
    its_unit = unit_of(each.row, engine)
    place = f", each {each.row.place}" if alike and len(each.positions) > 1 else ""
    return signed_name(each.row, engine) + (f", {its_unit}" if its_unit else "") + place


def _change(each: Difference, number: int, engine: Engine, whose: Whose) -> _Change:
    before, after, delta = each.before[number], each.after[number], each.differences[number]
    lacks = _NOT_THERE if each.positions[number] in each.alone else _UNKNOWN
    was = figure(each.row, before, engine.show) if before else (lacks, "")
    now = figure(each.row, after, engine.show) if after else (lacks, "")
    if delta is None:
        side = 0 if before else 1
        words = f"{whose.only[side]} only" if lacks == _NOT_THERE else whose.known[side]
        return _Change(was[0], now[0], "", was[1] or now[1], words if before or after else "")
    verdict = _stale(before, after) or each.verdicts[number] or ""
    return _Change(was[0], now[0], *signed(each.row, delta, engine.show), _IN_SHORT.get(verdict, verdict))


def _stale(before: Value | None, after: Value | None) -> str:
    """That a value stays what it was and no longer holds for certain, or does again; '' where neither is new."""
    was, now = (bool(each and each.out_of_date) for each in (before, after))
    same = bool(before and after and before.nominal == after.nominal)
    return "" if was == now or not same else "now out of date" if now else "up to date again"


class _Columns:
    """The columns of a block of changes: was → now, difference ± its error, verdict."""

    def __init__(self, changes: Sequence[_Change]) -> None:
        self.value = layout.pointed(text for one in changes for text in (one.was, one.now) if text not in _SILENT)
        words = (len(text) for one in changes for text in (one.was, one.now) if text in _SILENT)
        self.width = max(len(self.value("")), *words, 0)
        self.delta = layout.pointed(one.delta for one in changes)
        self.plus_minus = layout.pointed(one.plus_minus for one in changes)
        verdict = max((len(one.verdict) for one in changes), default=0)
        self.wide = 2 * self.width + len(f" →   {self.delta('')} ± {self.plus_minus('')}  ") + verdict

    def line(self, one: _Change) -> str:
        """One change on one line."""
        was, now = (text if text in _SILENT else self.value(text) for text in (one.was, one.now))
        sign = " ± " if one.plus_minus else "   "
        error = f"{self.delta(one.delta)}{sign}{self.plus_minus(one.plus_minus)}"
        verdict = click.style(one.verdict, bold=True) if one.verdict == REAL else one.verdict
        return f"{was:>{self.width}} → {now:<{self.width}}  {error}  {verdict}".rstrip()
