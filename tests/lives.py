"""A short way to tell an engine's life in a test: parts, work, measurements, and what holds at a point.

life = Life()
life.part("head-a", "cylinder_head", chamber_volume="35 cc")      # published
life.work("2024-01-01", "fit: head-a", at="100 km")
life.measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
life.holds("2024-02-01", "chamber_volume")                        # "36"
"""

from __future__ import annotations

from functools import cached_property
from pathlib import Path

from logbook.logbook import Logbook
from logbook.quantity.catalogue import quantity
from logbook.quantity.units import unit
from logbook.specs.configuration import Configuration, configuration_after
from logbook.state.fold import Life as Fold
from logbook.state.holding import Held, Holding
from logbook.state.points import Point

EXAMPLE = Path(__file__).parents[1] / "example_engine"

ENGINE = """\
format: 1
name: Quarry engine
cylinders: {cylinders}
arrangement: {arrangement}
counters: {{odometer: km, hour meter: h}}
instruments:
  fine: {{what: fine gauge, each: 0.1 cc}}
  coarse: {{what: coarse gauge, each: 0.8 cc}}
"""


class Life:
    """Files of one engine, told in the order in which they are written here."""

    def __init__(self, cylinders: int = 4, arrangement: str = "inline", more: str = "") -> None:
        self.texts = {"engine.yaml": ENGINE.format(cylinders=cylinders, arrangement=arrangement) + more}

    def part(self, name: str, kind: str, more: str = "", basis: str = "published", **values: str) -> Life:
        """A part with its published figures."""
        facts = f"facts:\n  - {{basis: {basis}, values: {{{_flow(values)}}}}}\n" if values else ""
        return self._write(f"parts/{name}.yaml", f"kind: {kind}\nwhat: a\n{more}{facts}")

    def work(self, date: str, *steps: str, at: str = "unknown", build: str = "") -> Life:
        """Work: each step a text of its keys, `fit: head-a, at: bank 1`."""
        named = f"build: {build}\n" if build else ""
        work = "".join(f"  - {{{step}}}\n" for step in steps)
        return self._write(self._next("changes", date), f"date: {date}\nreading: {at}\n{named}work:\n{work}")

    def measure(self, date: str, part: str = "", using: str = "", more: str = "", **values: str) -> Life:
        """Figures of a part, or of the assembled engine where no part is named."""
        of = (f"part: {part}\n" if part else "") + (f"with: {using}\n" if using else "")
        return self._write(self._next("measurements", date), f"date: {date}\n{of}{more}values: {{{_flow(values)}}}\n")

    def _next(self, folder: str, date: str) -> str:
        return f"{folder}/{date}-{len(self.texts):03}.yaml"

    def _write(self, file: str, text: str) -> Life:
        self.texts[file] = text
        self.__dict__.pop("book", None)
        return self

    @property
    def last(self) -> str:
        """The id of what was written last."""
        return list(self.texts)[-1].removesuffix(".yaml")

    @cached_property
    def book(self) -> Logbook:
        return Logbook.of_texts({file: text.encode() for file, text in self.texts.items()})

    @property
    def fold(self) -> Fold:
        return self.book.life

    def at(self, point: str) -> Configuration:
        return self.book.at(point)

    def believed(self, point: str, known: str) -> Configuration:
        """The engine at a point, from the entries up to and including that of the day `known`."""
        upto = self.book.at(known).point.number + 1
        return configuration_after(self.fold, self.book.at(point).point.number, known=upto)

    def holds(self, point: str, name: str, position: str | None = None) -> str | None:
        """The figure that holds, in its usual unit, with its marks: '36', '36 later', '36 out of date'; None."""
        return told(self.at(point), name, position)

    def parts(self, point: str) -> tuple[str, ...]:
        return self.at(point).state.parts

    def distance(self, point: str, part: str) -> float | None:
        """km that a part had run at a point."""
        run = self.at(point).state.has_run(part).distance
        return None if run is None else round(run / 1000, 6)


def told(at: Configuration, name: str, position: str | None = None) -> str | None:
    """What holds at a configuration, as `Life.holds` says it."""
    row = quantity(name)
    place = position if position is not None else at.life.arrangement.positions(row.place)[0]
    held = at.holding.best(row, place)
    return None if held is None else shown(held)


def shown(held: Held) -> str:
    its = unit(held.fact.row.unit)
    marks = [" later"] * held.later + [" out of date"] * held.out_of_date
    return f"{its.from_base(held.value.nominal):.6g}{''.join(marks)}"


def _flow(values: dict[str, str]) -> str:
    return ", ".join(f"{name}: {text if text.startswith('{') else repr(text)}" for name, text in values.items())


def alone(life: Fold, number: int, known: int | None = None) -> Configuration:
    """The engine after an entry with nothing known beforehand, whatever was asked of the record so far."""
    state = life.after(number)
    return Configuration(life, Point("", number), state, Holding(life, state, known))
