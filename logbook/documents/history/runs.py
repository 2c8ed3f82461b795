"""Tests: what was read of each cylinder, across the tests of one instrument; and single runs with their data.

Readings of one quantity stand in one table only where one instrument took them: two gauges, or two leak-down testers,
do not agree with each other. A run's table is as it was read, its sheet's own figures stand with their own standard;
what the runs come to by each standard has a table of its own (power.py).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from logbook.documents import figures
from logbook.documents.content import TestBlock
from logbook.documents.history.changes import anchor, corrected_lines
from logbook.documents.history.foretelling import consumption_blocks, foretold_sentences
from logbook.documents.history.of_a_test import leak_sentences
from logbook.documents.history.power import power_blocks
from logbook.documents.history.sheets import data_tables, sheet_line
from logbook.documents.history.trending import hourly_rates, trend_sentences
from logbook.documents.history.words import Words, as_written, capital, day, plain, reading
from logbook.documents.notes import Notes
from logbook.documents.pieces import Column, SafeHtml, Table
from logbook.documents.render import batches
from logbook.quantity.catalogue import CYLINDER, Quantity
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.record import Entry, Record
from logbook.specs.condition import cranking_pressure_least
from logbook.state.fold import Life
from logbook.state.sayings import mistakes, without_mistakes
from logbook.state.spread import figure

_MOST_CYLINDERS = 6
_LEAST_OF_GREATEST = "cranking_pressure"  # the trade tells it as the least in per cent of the greatest


@dataclass(frozen=True, slots=True)
class _Series:
    """All that one instrument read of one quantity, in order."""

    row: Quantity
    instrument: str
    taken: list[tuple[int, Fact]]


def test_blocks(life: Life, words: Words, notes: Notes, file: Callable[[str], bytes]) -> tuple[TestBlock, ...]:
    """The series of readings first, then every run that has data or observations of its own."""
    series = _series(life)
    in_series = {number for each in series for number, _ in each.taken}
    alone = [
        _run(life, words, notes, file, number, entry)
        for number, entry in enumerate(life.record.entries)
        if isinstance(entry.says, model.Test) and (number not in in_series or entry.says.data)
    ]
    read = (_series_block(life, words, notes, file, each, number) for number, each in enumerate(series))
    return (*read, *power_blocks(life, words, file), *consumption_blocks(life.record, words), *alone)


def _series(life: Life) -> list[_Series]:
    found: dict[tuple[str, str], _Series] = {}
    for number, entry in enumerate(life.record.entries):
        if isinstance(entry.says, model.Test):
            for fact in entry.facts:
                instrument = fact.stated.instrument or ""
                key = fact.name, instrument
                found.setdefault(key, _Series(fact.row, instrument, [])).taken.append((number, fact))
    return list(found.values())


# --- a series --------------------------------------------------------------------------------------------------------


def _series_block(
    life: Life, words: Words, notes: Notes, file: Callable[[str], bytes], series: _Series, number: int
) -> TestBlock:
    entries = [life.record.entries[number] for number, _ in series.taken]
    by = f", {series.instrument}" if series.instrument else ""
    return TestBlock(
        f"series-{number + 1}",
        words.title(series.row) + by,
        _from_to(entries),
        "",
        _common(entries),
        tuple(_tables(life, words, series)),
        " ".join(_sentences(life, words, file, series)),
        tuple(f"{day(entry.says.date)}: {line}" for entry in entries for line in corrected_lines(life, words, entry)),
        SafeHtml("".join(_remarks(notes, entries))),
    )


def _sentences(life: Life, words: Words, file: Callable[[str], bytes], series: _Series) -> Iterator[str]:
    """What is seen in a series: the worst reading, which way it goes, what was to be expected."""
    yield from filter(None, (_seen(life, words, series),))
    yield from trend_sentences(life, words, series.row, series.instrument)
    yield from foretold_sentences(life, words, series.row, series.instrument)
    yield from leak_sentences(life, words, series.instrument, file) if series.row.name == "leak_down" else ()


def _from_to(entries: Sequence[Entry]) -> str:
    first, last = entries[0].says.date, entries[-1].says.date
    return day(first) if first == last else f"{first.first.year} to {last.last.year}"


def _common(entries: Sequence[Entry]) -> tuple[str, ...]:
    """The conditions that all the tests share."""
    of_each = [_conditions(entry) for entry in entries]
    return tuple(text for text in of_each[0] if all(text in other for other in of_each))


def _conditions(entry: Entry) -> list[str]:
    return [as_written(f"{plain(name)} {text}") for name, text in entry.says.conditions.items()]


def _tables(life: Life, words: Words, series: _Series) -> Iterator[Table]:
    positions = life.arrangement.positions(series.row.place)
    widest = _widest(life, series)
    runs = list(batches(len(positions), _MOST_CYLINDERS))
    for run in runs:
        last = run is runs[-1] or run == runs[-1]
        heads = [Column("day"), Column("reading"), *(Column(_head(series.row, positions[i]), True) for i in run)]
        share = series.row.name == _LEAST_OF_GREATEST and last
        rows = [_line(life, words, each, run, widest, share) for each in series.taken]
        heads += [Column("least of greatest", True)] if share else []
        yield Table(
            tuple(heads), tuple(rows), _under(words, series, widest) + _in_brackets(life, series) if last else ""
        )


def _head(row: Quantity, position: str) -> str:
    return position if row.place == CYLINDER else f"{row.place} {position}" if position else "value"


def _line(life: Life, words: Words, taken: tuple[int, Fact], run: range, widest: float, share: bool) -> tuple[str, ...]:
    number, fact = taken
    says, scale = life.record.entries[number].says, words.scale(fact.row)
    stood = words.conditions(dict(fact.stated.qualifiers))
    sure = [figure(life.record, fact, index) for index in run]
    most = words.written_places(fact)
    give = scale.from_size(widest)
    texts = ["" if each is None else _text(scale.from_base(each.value.nominal), give, most) for each in sure]
    wrong = _wrong(life.record, fact)
    texts = [f"({text})" if text and index in wrong else text for index, text in zip(run, texts, strict=True)]
    when = day(says.date) + (f", {stood}" if stood else "")
    return (
        when,
        reading(says.reading),
        *texts,
        *([_least(fact, wrong)] if share else []),
    )


def _wrong(record: Record, fact: Fact) -> set[int]:
    """The positions whose readings were corrected since: shown as they were first written, in brackets."""
    left = () if id(fact) in mistakes(record) else without_mistakes(record).get(id(fact), fact).positions
    return {i for i, position in enumerate(fact.positions) if position and not (left and left[i])}


def _text(value: float, widest: float, most: int | None) -> str:
    return (figures.pair(value, widest) if most is None else figures.at_most(value, widest, most))[0]


def _widest(life: Life, series: _Series) -> float:
    """The greatest ± of any reading, in base units."""
    sure = [figure(life.record, fact, index) for _, fact in series.taken for index in range(len(fact.positions))]
    return max((each.value.expanded for each in sure if each), default=0.0)


def _under(words: Words, series: _Series, widest: float) -> str:
    scale = words.scale(series.row)
    symbol = words.symbol(series.row)
    sure = figures.joined(figures.pair(0.0, scale.from_size(widest))[1], unit=symbol)
    gauge = " Only readings of one instrument stand in one table." if series.instrument else ""
    return f"In {symbol}; ±{figures.NO_BREAK}{sure} for each value.{gauge}"


def _in_brackets(life: Life, series: _Series) -> str:
    is_wrong = any(_wrong(life.record, fact) for _, fact in series.taken)
    return " In brackets: as first written, corrected since, and without effect." if is_wrong else ""


def _least(fact: Fact, wrong: set[int]) -> str:
    taken = [position[0].nominal for i, position in enumerate(fact.positions) if position and i not in wrong]
    if len(taken) < 2 or max(taken) <= 0:
        return ""
    return f"{cranking_pressure_least(cranking_pressure=taken):.0%}".replace("%", f"{figures.NO_BREAK}%")


def _seen(life: Life, words: Words, series: _Series) -> str:
    """The worst reading of any cylinder, and the worst of the last test."""
    if series.row.place != CYLINDER or len(life.arrangement.cylinders) < 2:
        return ""
    low_is_bad = series.row.name == _LEAST_OF_GREATEST
    left, wrong = without_mistakes(life.record), mistakes(life.record)
    holding = [(number, left.get(id(fact), fact)) for number, fact in series.taken if id(fact) not in wrong]
    worst = [_worst(life, words, number, fact, low_is_bad) for number, fact in holding]
    known = [each for each in worst if each]
    if not known:
        return ""
    first = (min if low_is_bad else max)(known)
    what = "Lowest" if low_is_bad else "Highest"
    last = "" if first is known[-1] else f"; in the last test {known[-1][1]}"
    return f"{what} of all: {first[1]}{last}."


def _worst(life: Life, words: Words, number: int, fact: Fact, low: bool) -> tuple[float, str] | None:
    taken = {i: position[0].nominal for i, position in enumerate(fact.positions) if position}
    if len(taken) < 2:
        return None
    index = (min if low else max)(taken, key=lambda i: taken[i])
    sure = figure(life.record, fact, index)
    if sure is None:
        return None
    scale = words.scale(fact.row)
    value = _text(scale.from_base(sure.value.nominal), scale.from_size(sure.value.expanded), words.written_places(fact))
    date = day(life.record.entries[number].says.date)
    shown = figures.joined(value, unit=words.symbol(fact.row))
    return taken[index], f"cylinder {life.arrangement.cylinders[index]}, {shown}, on {date}"


def _remarks(notes: Notes, entries: Sequence[Entry]) -> Iterator[SafeHtml]:
    """What was observed and written beside each test of a series, each under its day."""
    shared = _common(entries)
    for entry in entries:
        own = [text for text in _conditions(entry) if text not in shared]
        observed = "; ".join(
            [*own, *(as_written(f"{plain(name)}: {text}") for name, text in entry.says.observed.items())]
        )
        said = "\n\n".join(filter(None, (capital(observed) + "." if observed else "", entry.says.note or "")))
        if said:
            yield notes.html(f"**{day(entry.says.date)}, {entry.title}.** {said}")


# --- a single run ----------------------------------------------------------------------------------------------------


def _run(life: Life, words: Words, notes: Notes, file: Callable[[str], bytes], number: int, entry: Entry) -> TestBlock:
    says = entry.says
    tables = (*data_tables(life.record, words, entry, file), *_observed(life, number, says))
    return TestBlock(
        anchor(number),
        capital(entry.title),
        day(says.date),
        reading(says.reading),
        tuple(_said(words, entry)),
        tables,
        sheet_line(says),
        tuple(corrected_lines(life, words, entry)),
        notes.html(says.note or ""),
    )


def _said(words: Words, entry: Entry) -> Iterator[str]:
    """Who, with what, on which part, under which conditions."""
    says = entry.says
    stood_at = words.conditions(says.qualifiers())
    yield from filter(None, (says.part, says.with_, says.by and f"by {says.by}", stood_at))
    yield from _conditions(entry)


def _observed(life: Life, number: int, says: model.Test) -> Iterator[Table]:
    """What was observed; of an oil analysis also what each metal comes to for an hour on the oil."""
    rates = hourly_rates(life, number)
    rows = tuple(
        (as_written(plain(name)), as_written(text), *([rates.get(name, "")] if rates else []))
        for name, text in says.observed.items()
    )
    if rows:
        hourly = [Column("for each hour on it", True)] if rates else []
        yield Table((Column("observed"), Column(""), *hourly), rows)
