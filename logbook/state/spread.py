"""How sure a stated figure is: its sources of error, each with its standard uncertainty.

Everything a file says of uncertainty is expanded with k = 2 and halved here. A measured figure without a ± takes its
instrument's: `each` belongs to the one reading, `common` to every reading with that instrument, `day` to all of one
day. Without an instrument, half of the last digit, rectangular (JCGM 100:2008, 4.3.7). A figure that was not measured
takes the catalogue's usual spread.
"""

from __future__ import annotations

from functools import lru_cache
from math import hypot, inf, sqrt
from typing import NamedTuple

from logbook.quantity.uncertain import COVERAGE, Uncertain
from logbook.quantity.units import unit
from logbook.quantity.value import Stated, ValueProblem, parse_measure
from logbook.record.facts import MEASURED, Fact
from logbook.record.record import Record

_RECTANGULAR = sqrt(3)


class Sureness(NamedTuple):
    """A stated figure with its sources of error, and whether its spread is only the usual one."""

    value: Uncertain
    assumed: bool


def figure(record: Record, fact: Fact, index: int) -> Sureness | None:
    """What `fact` states of its owner's position `index`; None where it was not taken or is not known."""
    several = fact.at(index)
    if fact.unknown or not several:
        return None
    nominal = _mean(several)
    errors, assumed = _errors(record, fact, several, nominal)
    own = fact_key(record, fact, index)
    return Sureness(Uncertain(nominal, {source or own: error for source, error in errors}), assumed)


def not_taken(record: Record, fact: Fact, index: int) -> Sureness | None:
    """A position that was not taken is as the mean of those that were, widened by the quantity's usual spread."""
    taken = [sure for other in range(len(fact.positions)) if (sure := figure(record, fact, other))]
    if not taken:
        return None
    terms: dict[str, float] = {}
    for sure in taken:
        for key, term in sure.value.terms.items():
            terms[key] = terms.get(key, 0.0) + term / len(taken)
    terms[f"{fact_key(record, fact, index)}|not taken"] = usual_spread(fact)
    return Sureness(Uncertain(sum(sure.value.nominal for sure in taken) / len(taken), terms), True)


def standard(record: Record, fact: Fact, index: int) -> float:
    """Standard uncertainty alone of what `fact` states, to choose between facts; infinite where it states nothing."""
    several = fact.at(index)
    if fact.unknown or not several:
        return inf
    used = record.engine.instruments.get(fact.stated.instrument or "")
    if used and len(several) == 1 and several[0].standard is None and fact.stated.basis == MEASURED:
        steady = _steady(used.each, used.common, used.day, fact.row.kind)
        if steady is not None:
            return steady
    errors, _ = _errors(record, fact, several, _mean(several))
    return hypot(*(error for _, error in errors))


@lru_cache(maxsize=256)
def _steady(each: str | None, common: str | None, day: str | None, kind: str) -> float | None:
    """One reading's standard uncertainty with an instrument whose errors are amounts, the same at any reading.

    None where a share of the reading counts, or the instrument says nothing of this kind.
    """
    sizes = [size for size in _sizes(each, common, day, kind) if size]
    if not sizes or any(share for _, share in sizes):
        return None
    return hypot(*(amount / COVERAGE for amount, _ in sizes))


def _mean(several: tuple[Stated, ...]) -> float:
    return sum(stated.nominal for stated in several) / len(several)


Errors = list[tuple[str, float]]  # source ('' is the figure's own) and standard uncertainty


def _errors(record: Record, fact: Fact, several: tuple[Stated, ...], nominal: float) -> tuple[Errors, bool]:
    """The sources of error of a figure, and whether its spread is only assumed."""
    if any(stated.standard is not None for stated in several):
        own = [("", _stated(several))]
        return (own, False) if several[0].spread else (own + _beside_the_scatter(record, fact, nominal), False)
    if fact.stated.basis == MEASURED:
        errors = _of_the_instrument(record, fact, nominal, len(several))
        return (errors, False) if errors else ([("", _last_digit(several))], True)
    return [("", usual_spread(fact) or _last_digit(several))], True


def usual_spread(fact: Fact) -> float:
    """Half of the catalogue's usual spread, in base units; 0 where it names none."""
    scale = unit(fact.row.unit).size(1.0) if fact.row.unit else 1.0
    return (fact.row.spread or 0.0) * scale / COVERAGE


def fact_key(record: Record, fact: Fact, index: int) -> str:
    """The name of this figure's own error, the same wherever and whenever it is read.

    Engine, file, part, quantity, conditions, source, position, and the value: an amended value is another error.
    """
    stated = fact.stated
    position = "all" if fact.for_all else str(index)
    value = ", ".join(f"{stated.nominal!r} {stated.standard!r}" for stated in fact.at(index) or ())
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


def _of_the_instrument(record: Record, fact: Fact, nominal: float, count: int) -> Errors:
    """`each` falls with the number of readings at the position; `common` and `day` do not."""
    name = fact.stated.instrument
    instrument = record.engine.instruments.get(name) if name else None
    if instrument is None:
        return []
    each, common, day = _sizes(instrument.each, instrument.common, instrument.day, fact.row.kind)
    errors = [("", _size(each, nominal) / sqrt(count))] if each else []
    if common:
        errors.append((f"instrument {name}", _size(common, nominal)))
    if day:
        errors.append((f"instrument {name} on {fact.stated.when}", _size(day, nominal)))
    return errors


def _beside_the_scatter(record: Record, fact: Fact, nominal: float) -> Errors:
    """What repeating a reading does not show: the errors that all of them share."""
    return [(source, error) for source, error in _of_the_instrument(record, fact, nominal, 1) if source]


def _size(error: tuple[float, float], nominal: float) -> float:
    amount, share = error
    return (amount + abs(share * nominal)) / COVERAGE


@lru_cache(maxsize=256)
def _sizes(each: str | None, common: str | None, day: str | None, kind: str) -> tuple[tuple[float, float] | None, ...]:
    """The three errors of an instrument for figures of one kind; None where it has none."""
    sizes = (_error(text, kind) if text else (0.0, 0.0) for text in (each, common, day))
    return tuple(size if any(size) else None for size in sizes)


def _error(text: str, kind: str) -> tuple[float, float]:
    """An instrument's error as (amount in base units, share of the reading); zeros if it is of another kind.

    Of a figure that is a share itself (leak-down) the error is in points, not in parts of the reading.
    """
    for its_kind in dict.fromkeys((_difference_of(kind), kind, "share")):
        try:
            number, its = parse_measure(text, its_kind)
        except ValueProblem:
            continue
        if its_kind == "share" and kind != "share":
            return 0.0, number
        return (its.size(its.from_base(number)) if its.offset else number), 0.0
    return 0.0, 0.0


def _difference_of(kind: str) -> str:
    """The kind in which an error of a figure of this kind is written."""
    return {
        "pressure_gauge": "pressure_difference",
        "pressure_absolute": "pressure_difference",
        "temperature": "temperature_difference",
    }.get(kind, kind)
