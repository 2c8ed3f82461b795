"""What engine the document is about: its description in one line, its identity, where its counters stand."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.documents.content import Engine
from logbook.documents.figures import joined, number
from logbook.documents.history.words import Words, capital, day, measured
from logbook.judge.means import mean_value
from logbook.quantity.units import unit
from logbook.record import models
from logbook.record.engine_facts import crevice_said
from logbook.specs.configuration import Configuration
from logbook.specs.firing import firing_lines, firing_of
from logbook.state.counters import Section
from logbook.state.states import State

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
            "thirteen", "fourteen", "fifteen", "sixteen")  # fmt: skip
_ARRANGEMENTS = {"inline": "in-line", "vee": "vee", "flat": "flat"}


def description(at: Configuration, words: Words) -> str:
    """'In-line four, 1.6 litres, overhead camshaft, two valves a cylinder, spark ignition'."""
    engine = at.life.record.engine
    said = (_arrangement(engine), _size(at, words), _camshaft(engine), _valves(engine), f"{engine.ignition} ignition")
    return capital(", ".join(each for each in said if each))


def identity(at: Configuration, words: Words) -> Engine:
    """The engine's name and number, and what its arrangement says."""
    engine = at.life.record.engine
    return Engine(engine.name, engine.engine_number or "", tuple(_lines(at, words)))


def _lines(at: Configuration, words: Words) -> Iterator[tuple[str, str]]:
    engine = at.life.record.engine
    banks = at.life.arrangement.banks
    firing = firing_of(engine, at.life.arrangement)
    angle = f", {engine.bank_angle.text} between the banks" if engine.bank_angle else ""
    said = (
        ("Arrangement", capital(_arrangement(engine)) + angle),
        ("Made", day(engine.made) if engine.made else ""),
        ("Cylinder numbering", engine.numbering or ""),
        ("Banks", "; ".join(f"{bank}: {'-'.join(some)}" for bank, some in banks.items()) if len(banks) > 1 else ""),
        ("Firing order", engine.firing_order or ""),
        ("Firing", ". ".join(firing_lines(firing)) if firing else ""),
        (f"Valves, {'intake' if words.us else 'inlet'} + exhaust", engine.valves_per_cylinder or ""),
        ("Camshaft", engine.camshafts or ""),
        ("Main bearings", str(engine.main_bearings or "")),
        ("Cycle", f"{engine.cycle}, {engine.ignition} ignition"),
        ("Runs in", at.state.vehicle or ""),
        ("Build", at.state.build or ""),
        ("Top land crevice", crevice_said(engine)),
        ("Remark", (engine.note or "").strip()),
    )
    yield from ((name, text) for name, text in said if text)


def _arrangement(engine: models.Engine) -> str:
    count = _NUMBERS[engine.cylinders]
    if engine.arrangement == "single" or engine.cylinders == 1:
        return "single cylinder"
    return f"{_ARRANGEMENTS[engine.arrangement]} {count}"


def _size(at: Configuration, words: Words) -> str:
    known = at.specs["displacement"].known
    if not known:
        return ""
    base = mean_value(known).nominal
    if words.imperial:
        return joined(number(unit("cu in").from_base(base), 0), unit="cu in")
    litres = unit("l").from_base(base)
    if litres < 0.95:
        return joined(number(unit("cc").from_base(base), 0), unit="cc")
    return joined(number(litres, 1), unit="liters" if words.us else "litres")


def _camshaft(engine: models.Engine) -> str:
    text = engine.camshafts or ""
    if not text:
        return ""
    return f"camshaft {text}" if text.startswith("in ") else text if "cam" in text else f"{text} camshaft"


def _valves(engine: models.Engine) -> str:
    counts = (engine.valves_per_cylinder or "").split("+")
    if not all(each.strip().isdecimal() for each in counts):
        return ""
    valves = sum(map(int, counts))
    return f"{_NUMBERS[valves]} valves a cylinder" if 1 < valves < len(_NUMBERS) else ""


# --- where the counters stand ----------------------------------------------------------------------------------------


def reading_now(engine: models.Engine, state: State) -> str:
    """'41.6 h on the hour meter, 112 640 km of true distance': what is shown, and the totals no counter shows."""
    running = state.counters.running
    shown = [f"{measured(section.last, engine.counters[name].unit)} on the {name}"
             for name, section in running.items() if section.last is not None]  # fmt: skip
    return ", ".join([*shown, *_totals(engine, state)])


def shown_now(engine: models.Engine, state: State) -> str:
    """'41.6 h': what the counters show."""
    running = state.counters.running.items()
    return ", ".join(measured(each.last, engine.counters[name].unit) for name, each in running if each.last is not None)


def _totals(engine: models.Engine, state: State) -> Iterator[str]:
    words = {"distance": "true distance", "time": "true hours"}
    for name, kind in engine.counters.items():
        its = unit(kind.unit)
        total, section = state.counters.totals.of(its.kind), state.counters.running.get(name)
        read = any(each.counter == name for each in state.counters.sections)
        if read and total is not None and (section is None or _hides(section)):
            yield f"{measured(total, kind.unit)} of {words[its.kind]}"


def _hides(section: Section) -> bool:
    """Whether what the counter shows is not what the engine has run."""
    return abs(section.offset) > 1e-6
