"""What engine.yaml and a part's file may say. Frozen; every unknown key is a finding.

Texts stay texts: part_number 0123 keeps its zero. Figures under `values` are read later by the catalogue (facts.py).
"""

import re
from collections.abc import Callable
from datetime import time
from typing import Annotated, Any, Literal, NamedTuple

from logbook.quantity.catalogue import PART_KINDS, QUALIFIERS, nearest
from logbook.quantity.units import Unit, unit
from logbook.quantity.usage import Usage
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record.strict import NOTHING, Parsed, Short, Strict, complain
from logbook.record.when import Amount, NotThat, Reading, When, parse_amount, parse_date, parse_reading, parse_time


def _read(parse: Callable[[str], Any]) -> Callable[[Any], Any]:
    """A validator from one of the parsers of when.py."""

    def validate(raw: Any) -> Any:
        if not isinstance(raw, str):
            raise complain("a single text is wanted here, not a list or a mapping", "write it on one line")
        try:
            return parse(raw)
        except NotThat as problem:
            raise complain(problem.says, problem.mend) from None

    return validate


def count_to(most: int) -> Callable[[Any], Any]:
    """A whole number of things, 1 to `most`."""

    def parse(text: str) -> int:
        if not re.fullmatch(r"[0-9]+", text):
            raise NotThat(f"`{text}` is not a whole number", "write digits only, for example 6")
        if len(text) > 9 or not 1 <= int(text) <= most:
            raise NotThat(f"`{text}` is not among 1 to {most}", "correct the number")
        return int(text)

    return _read(parse)


def _measure(kind: str) -> Callable[[Any], Any]:
    def parse(text: str) -> Measure:
        try:
            base, symbol = parse_measure(text, kind)
        except ValueProblem as problem:
            raise NotThat(problem.says, problem.mend) from None
        return Measure(text, base, symbol.symbol)

    return _read(parse)


class Measure(NamedTuple):
    """A simple amount: its text, its base value and its unit's symbol."""

    text: str
    base: float
    symbol: str

    @property
    def unit(self) -> Unit:
        return unit(self.symbol)


Text = str  # never empty: see Strict
ADate = Annotated[When, Parsed(_read(parse_date))]
AReading = Annotated[Reading, Parsed(_read(parse_reading))]
ATime = Annotated[time, Parsed(_read(parse_time))]
AnAmount = Annotated[Amount, Parsed(_read(parse_amount))]
Angle = Annotated[Measure, Parsed(_measure("angle"))]
Length = Annotated[Measure, Parsed(_measure("length"))]
Yes = Annotated[bool, Parsed(_read(lambda text: _yes(text)))]
ADistance = Annotated[Amount, Parsed(_read(lambda text: _amount_of(text, "distance", "12000 km")))]
SomeHours = Annotated[Amount, Parsed(_read(lambda text: _amount_of(text, "time", "31.5 h")))]
AUse = Annotated[str, Parsed(_read(lambda text: _use(text)))]
AFingerprint = Annotated[str, Parsed(_read(lambda text: _fingerprint(text)))]
Values = dict[str, Any]


def _yes(text: str) -> bool:
    if text not in ("yes", "no", "true", "false"):
        raise NotThat(f"`{text}` is neither yes nor no", "write yes or no")
    return text in ("yes", "true")


def _amount_of(text: str, kind: str, example: str) -> Amount:
    amount = parse_amount(text)
    if amount.kind != kind:
        wanted = "distance" if kind == "distance" else "running time"
        raise NotThat(f"`{text}` is no {wanted}", f"write it as {example}")
    return amount


def _use(text: str) -> str:
    """`new`, `unknown`, or what it ran, as a reading is written."""
    try:
        if text != "new":
            parse_reading(text)
    except NotThat:
        mend = "write new, unknown, or what it ran: about 16000 km, at least 30 h"
        raise NotThat(f"`{text}` does not say what it ran before", mend) from None
    return text


def _fingerprint(text: str) -> str:
    if not re.fullmatch(r"[0-9a-f]{64}", text):
        raise NotThat(f"`{text}` is no record fingerprint", "copy the 64 digits from that engine's report")
    return text


def _part_kind(text: str) -> str:
    if text not in PART_KINDS:
        near = nearest(text, list(PART_KINDS)) or f"one of {', '.join(PART_KINDS)}"
        raise NotThat(f"`{text}` is not a kind of part", f"write {near}")
    return text


class Qualified(Strict):
    """Conditions that stand beside `values` and belong to the figures' identity."""

    at_lift: Text | None = None
    at_lash: Text | None = None
    at_depression: Text | None = None
    oil: Text | None = None

    def qualifiers(self) -> dict[str, str]:
        """The conditions given, by name."""
        given = vars(self)
        return {name: given[name] for name in QUALIFIERS if given.get(name) is not None}


class Instrument(Strict):
    what: Text
    common: Text | None = None
    each: Text | None = None
    day: Text | None = None
    checked: ADate | None = None
    note: Text | None = None


class CounterKind(Strict):
    unit: Literal["km", "mi", "h"]
    from_: ADate | None = None


class Limit(Strict):
    """A limit of the owner's own, or a word on one of the program's: another amount, another form of it, none."""

    id: Text
    spec: Text | None = None
    min: Text | None = None
    max: Text | None = None
    rule: Text | None = None
    choose: Text | None = None
    off: Yes = False
    why: Text | None = None
    note: Text | None = None


class Interval(Strict):
    what: Text
    every: Text
    note: Text | None = None


def _counter(raw: Any) -> Any:
    return {"unit": raw} if isinstance(raw, str) else raw


class Engine(Strict):
    """engine.yaml: identity, arrangement, counters, instruments, limits, service intervals."""

    format: Literal["1"]
    name: Text
    engine_number: Text | None = None
    made: ADate | None = None
    cylinders: Annotated[int, Parsed(count_to(16))]
    arrangement: Literal["inline", "vee", "flat", "single"]
    bank_angle: Angle | None = None
    banks: dict[str, Text] | None = None
    numbering: Text | None = None
    firing_order: Text | None = None
    firing_intervals: Text | None = None
    valves_per_cylinder: Text | None = None
    main_bearings: Annotated[int, Parsed(count_to(40))] | None = None
    camshafts: Text | None = None
    cycle: Literal["four-stroke"] = "four-stroke"
    ignition: Literal["spark", "compression"] = "spark"
    counters: dict[str, Annotated[CounterKind, Short(_counter)]] = NOTHING
    crevice: Literal["left out", "counted"] = "left out"
    show: Literal["metric", "imperial"] = "metric"
    words: Literal["uk", "us"] = "uk"
    instruments: dict[str, Instrument] = NOTHING
    service: tuple[Interval, ...] = ()
    limits: tuple[Limit, ...] = ()
    picture: Text | None = None
    caption: Text | None = None
    demonstration: Yes = False
    note: Text | None = None

    @property
    def usage(self) -> Usage:
        """The owner's words and units."""
        return Usage(self.words == "us", self.show == "imperial")

    @property
    def firing_places(self) -> tuple[str, ...]:
        """The cylinders as the firing order names them; whether it names each once is another question."""
        return tuple(each.strip() for each in (self.firing_order or "").split("-") if each.strip())

    @property
    def named_banks(self) -> dict[str, tuple[str, ...]] | None:
        """The banks as written, each with its cylinders; None unless they name each cylinder once."""
        named = {bank: tuple(each.strip() for each in text.split("-")) for bank, text in (self.banks or {}).items()}
        cylinders = [each for some in named.values() for each in some]
        wanted = [str(number) for number in range(1, self.cylinders + 1)]
        return named if sorted(cylinders) == sorted(wanted) else None


# parts/<id>.yaml


class Obtained(Strict):
    date: ADate | None = None
    from_: Text | None = None
    condition: Text | None = None
    note: Text | None = None


class CameFrom(Strict):
    """Another engine that a part was in, and what it ran there."""

    engine: Text
    fingerprint: AFingerprint | None = None
    distance: ADistance | None = None
    hours: SomeHours | None = None
    note: Text | None = None


class FactBlock(Qualified):
    """Facts that share a basis and a source."""

    basis: Literal["measured", "published", "hearsay", "assumed", "predicted", "inferred"]
    source: Text | None = None
    date: ADate | None = None
    by: Text | None = None
    with_: Text | None = None
    stated_for: dict[str, Text] | None = None
    values: Values = NOTHING
    tables: dict[str, Text] = NOTHING
    note: Text | None = None


class Part(Strict):
    """parts/<id>.yaml: one physical part or matched set."""

    kind: Annotated[str, Parsed(_read(_part_kind))]
    what: Text
    pieces: Annotated[int, Parsed(count_to(99))] | None = None
    part_number: Text | None = None
    casting_number: Text | None = None
    marks: Text | None = None
    obtained: Obtained | None = None
    came_from: CameFrom | None = None
    used_before: AUse | None = None
    removed_before: Text | None = None
    service_life: Text | None = None
    state: Literal["thought of"] | None = None
    fits: Text | None = None
    facts: tuple[FactBlock, ...] = ()
    note: Text | None = None
