"""The data that a run left behind: its table on the page, its sheet's own figures, and the curves of several runs.

Every curve is as observed, with the instrument's own ± as its band. Runs are drawn together only where one instrument
read them under one condition.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from logbook.documents import figures, plots
from logbook.documents.history.tune import grids, head_in_words
from logbook.documents.history.words import (
    Words,
    as_written,
    conditions,
    day,
    listed,
    number_of,
    plain,
    shortened,
    sign,
)
from logbook.documents.pieces import PlotBlock, Table
from logbook.errors import CannotRead
from logbook.judge.tables import data_of
from logbook.quantity.catalogue import Quantity, catalogue
from logbook.quantity.stated import Stated
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.facts import Fact, Statement
from logbook.record.record import Entry, Record
from logbook.record.tables import Head, read_table
from logbook.record.tables import Table as Read
from logbook.state.fold import Life
from logbook.state.spread import figure

_MOST_ROWS = 30
_LONGEST_NAME = 26

File = Callable[[str], bytes]


def sheet_line(says: model.Test) -> str:
    """'Its sheet says: power 71.0 kW, by DIN 70020.' as the sheet has it, with its own standard."""
    told = [f"{plain(name)} {as_written(text)}" for name, text in says.sheet.items() if name != "standard"]
    standard = says.sheet.get("standard")
    if not told:
        return f"Its own sheet follows {standard}." if standard else ""
    return f"Its own sheet says: {', '.join(told)}" + (f", corrected to {standard}." if standard else ".")


def data_tables(record: Record, words: Words, entry: Entry, file: File) -> Iterator[Table]:
    """The run's readings as they were written; of a long run only where they stand."""
    table, path = _data(entry, file)
    if table and len(table.rows) <= _MOST_ROWS:
        *before, last = grids(table, words)
        yield from before
        yield replace(last, note=_sure(record, words, entry, table))
    elif table:
        yield Table((), (), f"{number_of(len(table.rows), 'reading')} in {path}.")


def _data(entry: Entry, file: File) -> tuple[Read | None, str]:
    path = data_of(entry.says)
    if not path:
        return None, ""
    try:
        return read_table(file(path), path)[0], path
    except CannotRead:
        return None, path


def _sure(record: Record, words: Words, entry: Entry, table: Read) -> str:
    """'As observed. Errors of dyno-1: ± 1 % each, ± 2 % of a day.'"""
    instrument = record.engine.instruments.get(entry.says.with_ or "")
    if instrument is None:
        return "As observed."
    errors = [("each reading", instrument.each), ("all of a day", instrument.day), ("all readings", instrument.common)]
    told = ", ".join(f"± {text} for {of}" for of, text in errors if text)
    return f"As observed, by {entry.says.with_}" + (f": {told}." if told else ".")


# --- curves across runs ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Line:
    """One column of one run over the run's first column."""

    across: Head
    head: Head
    entry: Entry
    name: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    expanded: tuple[float, ...]

    @property
    def family(self) -> tuple[str, ...]:
        """What must be the same for two lines to stand in one plot."""
        says = self.entry.says
        return (self.across.name, self.across.unit, self.head.name, self.head.unit, says.with_ or "",
                conditions(says.qualifiers()))  # fmt: skip


def test_plots(life: Life, words: Words, file: File) -> tuple[PlotBlock, ...]:
    """A plot for each thing that was read over another, its runs together where they may be compared."""
    families: dict[tuple[str, ...], list[_Line]] = {}
    for line in _lines(life, words, file):
        families.setdefault(line.family, []).append(line)
    return tuple(_plot(words, lines) for lines in families.values())


def _lines(life: Life, words: Words, file: File) -> Iterator[_Line]:
    for number, entry in enumerate(life.record.entries):
        if isinstance(entry.says, model.Test):
            table, _ = _data(entry, file)
            if table and not table.across and len(table.rows) > 1:
                yield from _of_run(life, words, number, entry, table)


def _of_run(life: Life, words: Words, number: int, entry: Entry, table: Read) -> Iterator[_Line]:
    x = table.column(0)
    across, along = _in_owners(table.heads[0], words)
    for index, read in enumerate(table.heads[1:], 1):
        taken = [(a.value, b.value) for a, b in zip(x, table.column(index), strict=True) if a and b]
        if len(taken) > 1:
            head, up = _in_owners(read, words)
            sure = tuple(up * _expanded(life.record, entry, read, value) for _, value in taken)
            x_shown, y_shown = tuple(_as(along, a) for a, _ in taken), tuple(_as(up, b) for _, b in taken)
            yield _Line(across, head, entry, _name(life, number, entry), x_shown, y_shown, sure)


def _as(factor: float, read: float) -> float:
    """A reading in another unit has no more digits than it can have had; in its own it stays as it was read."""
    return read if factor == 1.0 else float(f"{factor * read:.4g}")


def _in_owners(head: Head, words: Words) -> tuple[Head, float]:
    """A column as the owner reads it, and what its numbers are multiplied by; as written where it says no quantity."""
    row = catalogue().get(head.name)
    if row is None or not head.unit or unit(head.unit).offset or unit(head.unit).kind != row.kind:
        return head, 1.0
    return Head(head.name, words.unit(row)), unit(head.unit).size(1.0) / words.scale(row).size(1.0)


def _expanded(record: Record, entry: Entry, head: Head, value: float) -> float:
    """The instrument's ± of one reading, in the column's own unit; 0 where it says none."""
    instrument = entry.says.with_
    if instrument not in record.engine.instruments or not head.unit:
        return 0.0
    its = unit(head.unit)
    stated = Stated(its.to_base(value), None, its.size(0.0))
    row = Quantity(head.name, head.name, head.name, its.kind, its.symbol)
    said = Statement(entry.file, (), when=entry.says.date, instrument=instrument)
    sure = figure(record, Fact(row, ((stated,),), True, False, "", said, ()), 0)
    return its.from_size(sure.value.expanded) if sure else 0.0


def _name(life: Life, number: int, entry: Entry) -> str:
    """What tells this run from the others: its part, or the build and the tune that were in."""
    state = life.after(number)
    if entry.says.part:
        return str(entry.says.part)
    said = [state.build, state.tune.label if state.tune else None]
    return ", ".join(each for each in said if each) or day(entry.says.date)


def _plot(words: Words, lines: Sequence[_Line]) -> PlotBlock:
    across, head, says = lines[0].across, lines[0].head, lines[0].entry.says
    x_label, y_label = (head_in_words(each, words) for each in (across, head))
    behind = ", ".join(filter(None, (says.with_, words.conditions(says.qualifiers()))))
    title = f"{_plain_name(head, words)} over {_plain_name(across, words)}"
    told = "; ".join(_peak(line, across, head) for line in lines)
    drawn = plots.curves(_curves(lines), x_label=x_label, y_label=y_label)
    sentence = f"Greatest {_plain_name(head, words)}: {told}. {_closing(lines)}"
    shown = title[:1].upper() + title[1:] + (f", {behind}" if behind else "")
    return PlotBlock(shown, drawn, f"{shown}. {told}", sentence)


def _curves(lines: Sequence[_Line]) -> list[plots.Curve]:
    """Runs of the same name are told apart by their day."""
    names = [shortened(line.name, _LONGEST_NAME) for line in lines]
    return [
        plots.Curve(
            name if names.count(name) == 1 else f"{name}, {day(line.entry.says.date)}",
            line.x,
            line.y,
            line.expanded if any(line.expanded) else (),
        )
        for name, line in zip(names, lines, strict=True)
    ]


def _plain_name(head: Head, words: Words) -> str:
    row = catalogue().get(head.name)
    return words.name(row) if row else plain(head.name)


def _peak(line: _Line, across: Head, head: Head) -> str:
    top = max(range(len(line.y)), key=lambda index: line.y[index])
    at = figures.joined(_short(line.x[top]), unit=sign(across.unit))
    return f"{figures.joined(_short(line.y[top]), unit=sign(head.unit))} at {at} ({line.name})"


def _short(value: float) -> str:
    text = f"{value:.10g}"
    return figures.number(value, figures.places_of(text))


def _closing(lines: Sequence[_Line]) -> str:
    """That nothing is corrected; and where the sheets were corrected by several standards, which."""
    sheets = [line.entry.says.sheet for line in lines]
    standards = list(dict.fromkeys(sheet["standard"] for sheet in sheets if "standard" in sheet))
    said = "As observed, nothing is corrected for the weather; the axis does not begin at zero."
    if len(standards) > 1:
        said += f" Their own sheets are corrected to {listed(standards)} and cannot be compared as they stand."
    return said
