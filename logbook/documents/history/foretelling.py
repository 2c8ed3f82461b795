"""In sentences: what a compression test was to show after the first with its gauge; oil and fuel that were used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.documents import figures
from logbook.documents.content import TestBlock
from logbook.documents.history.words import Words, capital, day, measured
from logbook.judge.consumption import Used, consumption
from logbook.judge.cranking import Foretold, foretold
from logbook.quantity.catalogue import Quantity, quantity
from logbook.record.record import Record
from logbook.state.counters import DISTANCE
from logbook.state.fold import Life

_RUN = {False: ("km", "h"), True: ("mi", "h")}
_RATE = {DISTANCE: "{}_consumption"}
_HOURLY = "{}_consumption_hourly"


def foretold_sentences(life: Life, words: Words, row: Quantity, instrument: str) -> Iterator[str]:
    """'22 April 2017: 15.6 bar gauge in the mean, 15.8 ± 0.6 was to be expected after 9 April 2016 (14.0 by what was
    known that day).'"""
    if row.name == "cranking_pressure" and instrument:
        then = {each.test.number: each for each in foretold(life, then=True)}
        for each in foretold(life):
            if each.test.fact.stated.instrument == instrument:
                yield _sentence(words, row, each, then.get(each.test.number))


def _sentence(words: Words, row: Quantity, each: Foretold, then: Foretold | None) -> str:
    scale, sure = words.scale(row), (each.measured - each.mean).expanded
    most = words.written_places(each.test.fact)
    pair = scale.from_base(each.mean.nominal), scale.from_size(sure)
    mean, plus_minus = figures.pair(*pair) if most is None else figures.at_most(*pair, most)
    places = figures.places_of(mean)
    read, known = (
        figures.number(scale.from_base(base), places)
        for base in (each.measured.nominal, then.mean.nominal if then else each.mean.nominal)
    )
    before = f" ({known} by what was known that day{_explained(then)})" if then and known != mean else ""
    expected = figures.joined(mean, plus_minus, words.symbol(row))
    return (
        f"{day(each.test.entry.says.date)}: {read} in the mean where {expected} is to be expected after "
        f"{day(each.by.says.date)}{before}{_explained(each)}."
    )


def _explained(each: Foretold | None) -> str:
    """Of a test that departs: the ratio that would give it, and whether the crown's sign would."""
    if each is None or not each.departs:
        return ""
    crown = " and as if the crowns had the other sign" if each.as_if_turned else ""
    return f", as if the effective ratio were {each.as_if:.2f} and not {each.ratio:.2f}{crown}"


def consumption_blocks(record: Record, words: Words) -> tuple[TestBlock, ...]:
    """One block for both logs; none where no log has two full marks."""
    told = {file: found for file, found in consumption(record).items() if found}
    if not told:
        return ()
    every = [each for found in told.values() for each in found]
    first = min((each.since for each in every), key=lambda when: when.first)
    last = max((each.until for each in every), key=lambda when: when.last)
    said = " ".join(line for file, found in told.items() for line in _lines(words, _fluid(file), found))
    return (TestBlock("consumption", "Oil and fuel used", f"{day(first)} to {day(last)}", "", sentence=said),)


def _fluid(file: str) -> str:
    return file.removeprefix("log/").removesuffix(".csv")


def _lines(words: Words, fluid: str, found: Sequence[Used]) -> Iterator[str]:
    """'Oil: 0.25 l per 1000 km over 2000 km; in the last 1000 km 0.30.' Distance and hours each by themselves."""
    for over in dict.fromkeys(each.over for each in found):
        some = [each for each in found if each.over == over]
        row = quantity(_RATE.get(over, _HOURLY).format(fluid))
        run, volume = sum(each.run for each in some), sum(each.volume for each in some)
        symbol = _RUN[words.imperial][over != DISTANCE]
        rate, last = (f"{words.scale(row).from_base(each):.2f}" for each in (volume / run, some[-1].rate))
        told = f"{capital(fluid)}: {figures.joined(rate, unit=words.symbol(row))} over {measured(run, symbol)}"
        latest = f"; in the last {measured(some[-1].run, symbol)} {last}" if len(some) > 1 else ""
        yield told + latest + "."
