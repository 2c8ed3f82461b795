"""Which way a reading goes over distance or hours, in a sentence for each position that has enough readings; and what
metal in the oil comes to for each hour on it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.documents import figures
from logbook.documents.history.words import Words, capital
from logbook.judge.oil_analysis import oil_analyses
from logbook.judge.trend import Trend, trends
from logbook.quantity.catalogue import CYLINDER, Quantity
from logbook.quantity.units import unit
from logbook.state.counters import HOURS
from logbook.state.fold import Life


def trend_sentences(life: Life, words: Words, row: Quantity, instrument: str) -> Iterator[str]:
    """'Cylinder 2: −0.20 bar in 100 h (−0.31 to −0.12), over 6 tests since …'"""
    for trend in trends(life, row.name, instrument):
        if trend.slope:
            yield _sentence(words, row, trend)


def _sentence(words: Words, row: Quantity, trend: Trend) -> str:
    assert trend.slope
    run, told = (unit("h").to_base(100), "100 h") if trend.over == HOURS else (unit("km").to_base(1000), "1000 km")
    scale = words.scale(row)
    slope, low, high = (scale.from_size(each * run) for each in trend.slope[:3])
    value, _ = figures.difference(slope, (high - low) / 2)
    ends = [figures.signed(each, figures.places_of(value)) for each in (low, high)]
    where = f"{'cylinder' if row.place == CYLINDER else row.place} {trend.position}: " if trend.position else ""
    shown = figures.joined(value, unit=words.symbol(row))
    way = "" if trend.slope.proven else "; no trend is proven"
    return (
        f"{capital(where)}{shown} in {told} ({ends[0]} to {ends[1]}, 95 %), over {trend.slope.readings} tests "
        f"since the last work on the parts that it tells of{way}."
    )


def hourly_rates(life: Life, number: int) -> Mapping[str, str]:
    """Of an oil analysis, by the entry's number: each metal for each hour on the oil, as text by its name."""
    its = unit("mg/kg/h")
    for analysis in oil_analyses(life):
        if analysis.number == number:
            return {name: f"{its.from_base(rate):.2f} mg/kg" for name, rate in analysis.rates.items()}
    return {}
