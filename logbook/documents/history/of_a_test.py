"""In a sentence for each test: what it comes to by its own figures and the engine of its day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.documents import figures
from logbook.documents.history.words import Words, day, listed
from logbook.judge.of_a_test import Leaks, leak_tests, size_of_power
from logbook.judge.power_runs import Run
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.state.fold import Life


def power_sentences(life: Life, words: Words, runs: Sequence[Run]) -> Iterator[str]:
    """'21 May 2016: 9.25 ± 0.21 bar brake mean effective pressure and 30.6 ± 0.7 kW/l, as observed.'"""
    for run in runs:
        size = size_of_power(life, run)
        if size:
            pressure, output = (_shown(words, name, value) for name, value in zip(
                ("brake_mean_effective_pressure", "specific_output"), size, strict=True))  # fmt: skip
            yield f"{day(run.entry.says.date)}: {pressure} brake mean effective pressure and {output}, as observed."


def leak_sentences(life: Life, words: Words, instrument: str) -> Iterator[str]:
    """How far the cylinders lie apart in each test; the size of the leaks, or what is missing for it."""
    tests = [each for each in leak_tests(life) if each.instrument == instrument]
    for each in tests:
        if each.spread or each.areas:
            yield f"{day(each.entry.says.date)}: {'; '.join(_told(words, each))}."
    lacking = dict.fromkeys(name for each in tests for name in each.missing)
    if lacking:
        what = listed([words.short(quantity(name)) for name in lacking])
        yield f"The size of the leaks is not told: without figures for the {what} a share says nothing of it."


def _told(words: Words, each: Leaks) -> Iterator[str]:
    if each.spread:
        yield f"most less least {_shown(words, 'leak_down_spread', each.spread)}"
    if each.areas:
        yield f"leaks of {listed([_shown(words, 'leak_area', area) if area else '—' for area in each.areas])}"


def _shown(words: Words, name: str, value: Uncertain) -> str:
    row = quantity(name)
    return figures.joined(*words.pair(row, value), words.symbol(row))
