"""How sure a stated figure is: its sources of error, each with its standard uncertainty.

Everything a file says of uncertainty is expanded with k = 2 and halved here. A measured figure without a ± takes its
instrument's: `each` belongs to the one reading, `common` to every reading with that instrument, `day` to all of one
day. Without an instrument, half of the last digit, rectangular (JCGM 100:2008, 4.3.7). A figure that was not measured
takes the catalogue's usual spread.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from math import sqrt
from statistics import fmean

from logbook.quantity.uncertain import COVERAGE, Uncertain
from logbook.quantity.units import unit
from logbook.quantity.value import Stated, ValueProblem, parse_measure
from logbook.record.facts import MEASURED, Fact
from logbook.record.read import Record

_RECTANGULAR = sqrt(3)


@dataclass(frozen=True, slots=True)
class Sureness:
    """A stated figure with its sources of error, and whether its spread is only the usual one."""

    value: Uncertain
    assumed: bool


def figure(record: Record, fact: Fact, index: int) -> Sureness | None:
    """What `fact` states of its owner's position `index`; None where it was not taken or is not known."""
    several = fact.at(index)
    if fact.unknown or not several:
        return None
    nominal = fmean(stated.nominal for stated in several)
    key = fact_key(record, fact, index)
    if any(stated.standard is not None for stated in several):
        return Sureness(Uncertain(nominal, {key: _stated(several)}), False)
    if fact.stated.basis == MEASURED:
        return _as_the_instrument_has_it(record, fact, nominal, several, key)
    if fact.row.spread is not None:
        return Sureness(
            Uncertain(
                nominal,
                {
                    key: unit(fact.row.unit).size(fact.row.spread) / COVERAGE
                    if fact.row.unit
                    else fact.row.spread / COVERAGE
                },
            ),
            True,
        )
    return Sureness(Uncertain(nominal, {key: _last_digit(several)}), True)


def fact_key(record: Record, fact: Fact, index: int) -> str:
    """The name of this figure's own error, the same wherever and whenever it is read.

    Engine, file, part, quantity, conditions, source, position, and the value: an amended value is another error.
    """
    stated = fact.stated
    position = "all" if fact.for_all else str(index)
    figures = [(stated.nominal, stated.standard) for stated in fact.at(index) or ()]
    value = blake2b(repr(figures).encode(), digest_size=6).hexdigest()
    engine = record.engine.engine_number or record.engine.name
    conditions = ",".join(f"{name}={text}" for name, text in stated.qualifiers)
    return "|".join(
        (engine, stated.file, stated.part or "", fact.name, conditions, stated.source or "", position, value)
    )


def _stated(several: tuple[Stated, ...]) -> float:
    """Standard uncertainty of the mean of several readings that state one each."""
    return sqrt(sum((stated.standard or 0.0) ** 2 for stated in several)) / len(several)


def _last_digit(several: tuple[Stated, ...]) -> float:
    return several[0].last_digit / 2 / _RECTANGULAR / sqrt(len(several))


def _as_the_instrument_has_it(
    record: Record, fact: Fact, nominal: float, several: tuple[Stated, ...], key: str
) -> Sureness:
    name = fact.stated.instrument
    instrument = record.engine.instruments.get(name) if name else None
    if instrument is None or not (instrument.each or instrument.common or instrument.day):
        return Sureness(Uncertain(nominal, {key: _last_digit(several)}), True)
    terms: dict[str, float] = {}
    for text, source, count in (
        (instrument.each, key, len(several)),
        (instrument.common, f"instrument {name}", 1),
        (instrument.day, f"instrument {name} on {fact.stated.when}", 1),
    ):
        amount = _error(text, fact.row.kind, nominal) if text else None
        if amount:
            terms[source] = amount / COVERAGE / sqrt(count)
    return (
        Sureness(Uncertain(nominal, terms), False)
        if terms
        else Sureness(Uncertain(nominal, {key: _last_digit(several)}), True)
    )


@lru_cache(maxsize=1024)
def _error(text: str, kind: str, nominal: float) -> float | None:
    """An instrument's error in base units: an amount, or a share of the value. None if it is of another kind."""
    try:
        share, _ = parse_measure(text, "share")
        return abs(share * nominal)
    except ValueProblem:
        pass
    try:
        amount, its = parse_measure(text, _difference_of(kind))
        return its.size(its.from_base(amount)) if its.offset else amount
    except ValueProblem:
        return None


def _difference_of(kind: str) -> str:
    """The kind in which an error of a figure of this kind is written."""
    return {
        "pressure_gauge": "pressure_difference",
        "pressure_absolute": "pressure_difference",
        "temperature": "temperature_difference",
    }.get(kind, kind)
