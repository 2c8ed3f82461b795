"""`logbook due`: what is due by distance, hours or date, what is over first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import click

from logbook.cli import layout, options
from logbook.cli.figures import reading_of
from logbook.cli.reading import reading
from logbook.cli.shapes import print_json
from logbook.judge.as_of import AsOf, as_of
from logbook.judge.due import Due
from logbook.logbook import Logbook
from logbook.quantity.units import unit

CAUTION = "The maker's own intervals and lives come first."


@click.command("due")
@options.text("--as-of", "when", shape="DATE|READING", says="A day or reading, past or to come; else the last entry.")
@options.in_folder
@options.as_json
@options.as_table
def command(when: str | None, folder: str, as_json: bool, style: str | None) -> None:
    """Show what is due by distance, hours or date: from the service intervals of
    engine.yaml, from `due:` steps and from the service life of what is fitted.
    What is over stands first. Never judged by the clock.

    \b
    Example:  logbook due --as-of 2020-12-01
              logbook due --as-of 45h
    """
    with reading(folder) as book:
        found = book.due(when)
        if as_json:
            print_json({"as_of": when or "now", "due": [_shape(each) for each in found]})
        elif style:
            from logbook.cli.tables import print_table

            print_table(("what", "due at", "left", "unit", "why"), [_row(each) for each in found], style)
        else:
            for line in _lines(book, found, when):
                click.echo(line)


def _shape(each: Due) -> dict[str, object]:
    left, its = each.left_exactly
    return {"what": each.what, "at": each.at or None, "left": float(f"{left:.12g}"), "unit": its, "basis": each.basis,
            "part": each.part, "overdue": each.over > 0, "run": float(f"{each.run:.12g}"), "allowed": each.allowed,
            "allowed_unit": each.unit, "entered": each.entered, "file": each.file}  # fmt: skip


def _row(each: Due) -> tuple[str, ...]:
    left, its = each.left_exactly
    return each.what, each.at, _number(left), its, _why(each)


def _lines(book: Logbook, found: Sequence[Due], when: str | None) -> Iterator[str]:
    now = as_of(book.life, when)
    if now is None or not found:
        yield from layout.wrapped("Nothing is counted: give service intervals in engine.yaml, or a part its "
                                  "service_life.")  # fmt: skip
        return
    yield layout.title(f"{book.record.engine.name}, as of {_when(book, now)}")
    for title, some in (("Overdue", [each for each in found if each.over > 0]),
                        ("Due later", [each for each in found if each.over <= 0])):  # fmt: skip
        if some:
            yield from ("", layout.title(title), *_table(some))
    asked = "" if when else f" All is counted to the last entry; later: {' or '.join(_later(book, now))}."
    yield from ("", *layout.wrapped(CAUTION + _no_reading(book, now) + asked))


def _later(book: Logbook, now: AsOf) -> Iterator[str]:
    """How a day to come is named, and a reading to come."""
    yield f"--as-of {now.day.year + 1}-{now.day:%m-%d}"
    for name, running in now.state.counters.running.items():
        its = unit(book.record.engine.counters[name].unit)
        if running.last is not None:
            yield f"--as-of {round(its.from_base(running.last)) + 100}{its.symbol}"


def _when(book: Logbook, now: AsOf) -> str:
    shown = reading_of(book.record.engine, now.state.counters)
    return f"{now.day}; {shown}" if shown else str(now.day)


def _no_reading(book: Logbook, now: AsOf) -> str:
    """That a day alone says nothing of what has been driven since."""
    last = book.record.entries[now.number].says.date.first
    return f" Distance and hours are those of {last}, the last entry before that day." if now.day > last else ""


def _table(some: Sequence[Due]) -> Iterator[str]:
    cells = [(each.what, each.at or "unknown", _left(each), _why(each)) for each in some]
    wide = [max(len(row[column]) for row in cells) for column in range(3)]
    wide[0] = min(wide[0], 30)
    for what, at, left, why in cells:
        head = f"  {what:<{wide[0]}}  {at:<{wide[1]}}  {left:>{wide[2]}}  "
        first, *more = layout.wrapped(why, indent=len(head)) if len(head) < 60 else ["", *layout.wrapped(why, indent=6)]
        yield from (f"{head}{first.lstrip()}".rstrip(), *more)


def _left(each: Due) -> str:
    left, its = each.left_exactly
    many = "s" if its == "day" and abs(left) != 1 else ""
    return f"{_number(abs(left))} {its}{many} {'over' if each.over > 0 else 'left'}"


def _number(amount: float) -> str:
    return f"{amount:.10g}"


def _why(each: Due) -> str:
    allowed = f"{_number(each.allowed)} {each.unit}"
    return f"{each.basis}, {allowed}" + ("" if each.entered else "; never entered as done")
