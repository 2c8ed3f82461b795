"""Power by each standard, run under run, and what changed from one to the next: sheet to sheet, and like with like."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from logbook.documents import figures
from logbook.documents.content import TestBlock
from logbook.documents.history.of_a_test import power_sentences
from logbook.documents.history.words import Words, as_written, day
from logbook.documents.pieces import Column, Table
from logbook.judge.power_runs import LIKE_WITH_LIKE, STANDARDS, Beside, Run, power_runs, set_beside, spread_words
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.state.fold import Life

_POWER = quantity("power")


def power_blocks(life: Life, words: Words, file: Callable[[str], bytes]) -> tuple[TestBlock, ...]:
    """One block for all runs; none where there is no run."""
    runs = power_runs(life, file)
    if not runs:
        return ()
    first, last = day(runs[0].entry.says.date), day(runs[-1].entry.says.date)
    when = first if first == last else f"{first} to {last}"
    said = " ".join(
        [
            *(_change(words, set_beside(*two)) for two in pairwise(runs)),
            *_reasons(runs),
            *(f"{spread}." for spread in (spread_words(runs, day),) if spread),
            *power_sentences(life, words, file),
        ]
    )
    return (TestBlock("power", "Greatest power by each standard", when, "", (), (_table(words, runs),), said),)


def _table(words: Words, runs: Sequence[Run]) -> Table:
    heads = (Column("run"), Column("observed", True), Column("its sheet", True))
    rows = tuple(line for run in runs for line in _rows(words, run))
    note = f"In {words.symbol(_POWER)}; × is the factor for the air of the day. † outside what the standard allows."
    return Table((*heads, *(Column(name) for name in STANDARDS)), rows, note)


def _rows(words: Words, run: Run) -> Iterator[tuple[str, ...]]:
    """The power by each standard, and below it the factor of each."""
    sheet = "" if run.sheet is None else f"{words.scale(_POWER).from_base(run.sheet):.1f}"
    by_each = (_by_standard(words, run, name) for name in STANDARDS)
    yield day(run.entry.says.date), _plain(words, run.power), sheet, *by_each
    if run.corrected:
        factors = (f"×\u00a0{run.corrected[name].factor:.3f}" if name in run.corrected else "" for name in STANDARDS)
        by = f"its sheet by {as_written(run.sheet_standard)}" if run.sheet_standard else ""
        yield by, "", "", *factors


def _by_standard(words: Words, run: Run, name: str) -> str:
    if name not in run.corrected:
        return figures.NONE
    one = run.corrected[name]
    return f"{_plain(words, one.power)}{' †' if one.outside else ''}"


def _plain(words: Words, power: Uncertain) -> str:
    return words.pair(_POWER, power)[0]


def _change(words: Words, two: Beside) -> str:
    """'14 Apr 2018: +20.2 ± 1.9 kW like with like, by ISO 1585; sheet to sheet +22.0 kW, by two standards.'"""
    when = f"{day(two.first.entry.says.date)} to {day(two.second.entry.says.date)}:"
    by = LIKE_WITH_LIKE if LIKE_WITH_LIKE in two.by_standard else next(iter(two.by_standard), None)
    if by is None:
        return f"{when} not set beside each other, since {two.why_not}."
    delta = two.by_standard[by]
    told = f"{when} {_difference(words, delta)} like with like, by {by}"
    if abs(delta.nominal) <= delta.expanded:
        told += ", within the error"
    return told + (f"; sheet to sheet {_sheets(words, two)}." if two.sheets is not None else ".")


def _difference(words: Words, delta: Uncertain) -> str:
    scale = words.scale(_POWER)
    value, sure = figures.difference(scale.from_size(delta.nominal), scale.from_size(delta.expanded))
    return figures.joined(value, sure, words.symbol(_POWER))


def _sheets(words: Words, two: Beside) -> str:
    assert two.sheets is not None
    shown = figures.joined(figures.signed(words.scale(_POWER).from_size(two.sheets), 1), unit=words.symbol(_POWER))
    if two.alike:
        return f"{shown}, both by {two.first.sheet_standard}"
    sheets = [run.sheet_standard or "no standard named" for run in (two.first, two.second)]
    return f"{shown}, but by {sheets[0]} and {sheets[1]}"


def _reasons(runs: Sequence[Run]) -> Iterator[str]:
    """Why a run is not corrected, and where a correction leaves its standard."""
    for run in runs:
        when = day(run.entry.says.date)
        if run.why_not:
            yield f"{when}: not corrected, since {run.why_not}."
        outside = "; ".join(one.outside for one in run.corrected.values() if one.outside)
        if outside:
            yield f"† {when}: {outside}."
