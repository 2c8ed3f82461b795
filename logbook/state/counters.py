"""True distance and hours of an engine through counters that are replaced, reset or left behind with a vehicle.

A counter shows a reading; the engine has run reading + offset. Where a counter is changed the offset takes up the jump.
Hours are never turned into distance.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from logbook.quantity.units import unit
from logbook.record.when import Amount, Reading, parse_amount

DISTANCE, HOURS = "distance", "time"
KINDS = (DISTANCE, HOURS)


class Section(NamedTuple):
    """One stretch of a counter's life: what it adds to a reading to give the engine's true total, and its range."""

    counter: str
    kind: str
    offset: float
    first: float | None = None  # the readings it showed, base units
    last: float | None = None
    sure: float | None = None  # the last reading that was not only about right


class Totals(NamedTuple):
    """What the engine has run: base units (m, s), None where no counter has said anything yet."""

    distance: float | None = None
    hours: float | None = None

    def of(self, kind: str) -> float | None:
        return self.distance if kind == DISTANCE else self.hours


NOTHING_RUN = Totals()


class Counters(NamedTuple):
    """The counters as they stand: the running section of each, the closed ones, and the engine's totals."""

    kinds: Mapping[str, str]
    running: Mapping[str, Section] = {}
    closed: tuple[Section, ...] = ()
    totals: Totals = NOTHING_RUN

    @classmethod
    def of(cls, units: Mapping[str, str]) -> Counters:
        """Counters by name with their unit's symbol; none has been read."""
        return cls({name: unit(symbol).kind for name, symbol in units.items()})

    def read(self, reading: Reading) -> tuple[Counters, tuple[str, ...]]:
        """After one reading, with a complaint for each counter that ran backwards or is not there."""
        counters, complaints = self, []
        for amount in reading:
            counters, complaint = counters._read_one(amount)
            if complaint:
                complaints.append(complaint)
        return counters, tuple(complaints)

    def _read_one(self, amount: Amount, name: str | None = None) -> tuple[Counters, str | None]:
        name = name or self._counter_for(amount.kind)
        if name is None:
            return self, f"`{amount}` is given, but no such counter is on the engine now"
        section = self.running.get(name) or Section(name, amount.kind, 0.0)
        if section.sure is not None and amount.base < section.sure - 1e-6 and not amount.hedge:
            return self, f"the {name} shows {amount} after it had shown {Amount(section.sure, amount.unit)}"
        return self._with(name, _shown(section, amount)), None

    def _counter_for(self, kind: str) -> str | None:
        fitting = [name for name, its in self.kinds.items() if its == kind]
        running = [name for name in fitting if name in self.running]
        if running:
            return running[0]
        gone = {section.counter for section in self.closed}
        return next((name for name in fitting if name not in gone), None)

    def _with(self, name: str, section: Section) -> Counters:
        total = None if section.last is None else section.last + section.offset
        totals = self.totals._replace(**{_FIELD[section.kind]: total}) if total is not None else self.totals
        return self._replace(running={**self.running, name: section}, totals=totals)

    def changed(self, name: str, was: str, now: str) -> tuple[Counters, str | None]:
        """A counter replaced, reset, left behind (`now: none`) or newly fitted (`was: none`)."""
        if name not in self.kinds:
            return self, f"`{name}` is not among the counters of engine.yaml"
        before, after = (None if text == "none" else parse_amount(text) for text in (was, now))
        for amount in (before, after):
            if amount and amount.kind != self.kinds[name]:
                return self, f"`{amount}` is no reading of the {name}"
        counters, complaint = self._read_one(before, name) if before else (self, None)
        if complaint:
            return self, complaint
        counters = counters._without(name)
        if after is None:
            return counters, None
        offset = (counters.totals.of(after.kind) or 0.0) - after.base
        return counters._with(name, Section(name, after.kind, offset, after.base, after.base, after.base)), None

    def _without(self, name: str) -> Counters:
        """With that counter closed, if it ran."""
        ended = tuple(section for section in self.running.values() if section.counter == name)
        running = {each: section for each, section in self.running.items() if each != name}
        return self._replace(running=running, closed=(*self.closed, *ended))

    def began(self, kind: str) -> float | None:
        """The engine's total when the first counter of a kind was first read; None if none ever was."""
        starts = [each.first + each.offset for each in self.sections if each.kind == kind and each.first is not None]
        return min(starts, default=None)

    @property
    def sections(self) -> tuple[Section, ...]:
        """Every stretch of every counter, closed ones first."""
        return (*self.closed, *self.running.values())


def _shown(section: Section, amount: Amount) -> Section:
    """The section after one more reading; one that is only about right never takes distance back."""
    first = amount.base if section.first is None else section.first
    last = amount.base if section.last is None else max(section.last, amount.base)
    return section._replace(first=first, last=last, sure=section.sure if amount.hedge else amount.base)


_FIELD = {DISTANCE: "distance", HOURS: "hours"}
