"""Figures in every shape that `values` may have, and how sure each is then."""

from __future__ import annotations

import math

import pytest

from logbook.quantity.catalogue import quantity
from logbook.record.facts import Fact, Statement, Trouble, read_values
from logbook.record.read import read_record
from logbook.state.spread import figure

BORE = quantity("bore")


def one(name: str, raw: object, **stated: object) -> Fact:
    (fact,) = read_values({name: raw}, Statement("f", ("values",), **stated))  # type: ignore[arg-type]
    assert isinstance(fact, Fact), fact
    return fact


def nominals(fact: Fact) -> list[float | None]:
    return [round(position[0].nominal * 1e6, 6) if position else None for position in fact.positions]


def test_positions_in_the_order_written_and_x_where_none_was_taken() -> None:
    assert nominals(one("chamber_volume", "38.1 / x / 38.0 cc")) == [38.1, None, 38.0]


def test_one_for_all() -> None:
    fact = one("chamber_volume", {"all": "38.1 cc"})
    assert fact.for_all
    assert [fact.at(index) for index in (0, 5)] == [fact.positions[0]] * 2


def test_one_published_figure_is_every_position_and_one_measured_is_not() -> None:
    assert one("chamber_volume", "38 cc", basis="published").for_all
    assert not one("chamber_volume", "38 cc").for_all
    assert not one("stroke", "79 mm", basis="published").for_all  # one for the engine: there is nothing to spread


def test_named_places_in_a_bore_are_the_several_of_each_position() -> None:
    fact = one("bore", {"top along": "80.01 / 80.02 mm", "top across": "80.03 / x mm"})
    assert [len(position or ()) for position in fact.positions] == [2, 1]


def record_with(values: str, instrument: str = "{what: gauge, each: 0.02 mm, common: 0.01 mm, day: 0.02 mm}"):  # type: ignore[no-untyped-def]
    texts = {
        "engine.yaml": f"format: 1\nname: a\ncylinders: 1\narrangement: single\ninstruments:\n  gauge: {instrument}\n",
        "parts/crank.yaml": "kind: crankshaft\nwhat: a\n",
        "measurements/2024-01-01-a.yaml": f"date: 2024-01-01\npart: crank\nwith: gauge\nvalues: {{stroke: {values}}}\n",
    }
    record = read_record({file: text.encode() for file, text in texts.items()})
    assert record.findings == ()
    sure = figure(record, record.facts["stroke"][0], 0)
    assert sure is not None
    return sure


def mm(sure: object) -> dict[str, float]:
    """Expanded uncertainty (k = 2) in mm by source; '' for the figure's own."""
    terms = sure.value.terms  # type: ignore[attr-defined]
    return {(key if key.startswith("instrument") else ""): round(term * 2000, 5) for key, term in terms.items()}


def test_a_measured_figure_takes_its_instruments_errors() -> None:
    assert mm(record_with("79.00 mm")) == {"": 0.02, "instrument gauge": 0.01, "instrument gauge on 2024-01-01": 0.02}


def test_several_readings_at_one_place_share_what_the_instrument_has_in_common() -> None:
    sure = record_with('"79.00, 79.02, 79.00, 79.02 mm"')
    assert sure.value.nominal == pytest.approx(0.07901)
    assert mm(sure) == {"": 0.01, "instrument gauge": 0.01, "instrument gauge on 2024-01-01": 0.02}


def test_repeated_readings_have_their_own_scatter_and_the_instruments_common_error() -> None:
    """Type A, s/√n (JCGM 100:2008, 4.2): readings 79.00, 79.02, 79.04 have s = 0.02 mm."""
    sure = record_with("{readings: [79.00 mm, 79.02 mm, 79.04 mm]}")
    assert sure.value.nominal == pytest.approx(0.07902)
    own = round(2 * 0.02 / math.sqrt(3), 5)
    assert mm(sure) == {"": own, "instrument gauge": 0.01, "instrument gauge on 2024-01-01": 0.02}


def test_readings_that_agree_still_hide_half_of_the_last_digit() -> None:
    assert mm(record_with("{readings: [79.02 mm, 79.02 mm, 79.02 mm]}"))[""] == round(2 * 0.01 / math.sqrt(12), 5)


def test_a_stated_error_is_the_whole_of_it() -> None:
    assert mm(record_with("79.02 ± 0.05 mm")) == {"": 0.05}
    assert mm(record_with("79.02(3) mm")) == {"": 0.06}


def test_without_an_error_half_of_the_last_digit() -> None:
    sure = record_with("79.02 mm", "{what: gauge}")
    assert sure.assumed
    assert mm(sure) == {"": round(2 * 0.005 / math.sqrt(3), 5)}


def test_an_error_in_shares_goes_with_the_reading() -> None:
    assert mm(record_with("80.00 mm", "{what: gauge, each: 1 %}")) == {"": 0.8}


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        ({"all": "38.1 / 38.2 cc"}, "`all:` holds one value"),
        ({"readings": ["38.1 cc"]}, "`readings` wants two lines or more"),
        ({"readings": ["38.1 cc", {}]}, "`readings` wants two lines or more"),
        (["38.1 cc"], "`chamber_volume` wants a value"),
        ({"top": ["a"]}, "`chamber_volume` wants a value"),
        ({}, "`chamber_volume` wants a value"),
        ("", "a position is empty"),
    ],
)
def test_shapes_that_are_none(raw: object, says: str) -> None:
    (trouble,) = read_values({"chamber_volume": raw}, Statement("f", ("values",)))
    assert isinstance(trouble, Trouble)
    assert says in trouble.says
