"""In a sentence for each test: what it comes to by its own figures and the engine of its day."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from logbook.documents import figures
from logbook.documents.history.words import Words, day, listed
from logbook.judge.as_tested import Tested, tests
from logbook.judge.of_a_test import Leaks, as_read, leak_tests, run_figures, where
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.specs.graph import Node
from logbook.state.fold import Life

_NAMELESS = ("specific_output",)  # its unit says what it is


def power_sentences(life: Life, words: Words, file: Callable[[str], bytes]) -> Iterator[str]:
    """'21 May 2016, as observed: at greatest torque brake mean effective pressure 8.06 ± 0.18 bar; at greatest power
    31.31 ± 0.70 kW/l.'"""
    for tested in tests(life, file):
        told: dict[str, list[str]] = {}
        for name, node in run_figures(tested):
            told.setdefault(where(name), []).append(_named(words, name, node))
        if told:
            places = "; ".join(f"{place} {listed(some)}" for place, some in told.items())
            yield f"{day(tested.entry.says.date)}, {as_read(tested)}: {places}."
            yield from _outside(tested, words)


def _named(words: Words, name: str, node: Node) -> str:
    shown = _shown(words, name, node.value)
    return shown if name in _NAMELESS else f"{words.short(quantity(name))} {shown}"


def _outside(tested: Tested, words: Words) -> Iterator[str]:
    """Why a figure lies outside the validity of its formula, each reason once."""
    whose: dict[str, list[str]] = {}
    for name, node in run_figures(tested):
        for reason in node.outside:
            whose.setdefault(reason, []).append(words.short(quantity(name)))
    for reason, names in whose.items():
        yield f"Outside what the formula holds for ({listed(names)}): {reason}."


def leak_sentences(life: Life, words: Words, instrument: str, file: Callable[[str], bytes]) -> Iterator[str]:
    """How far the cylinders lie apart in each test; the size of the leaks, or what is missing for it."""
    found = [each for each in leak_tests(life, file) if each.instrument == instrument]
    for each in found:
        if each.spread or each.areas:
            yield f"{day(each.entry.says.date)}: {'; '.join(_told(words, each))}."
    lacking = dict.fromkeys(name for each in found for name in each.missing)
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
