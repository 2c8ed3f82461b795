"""Plain words: days, readings, units, what a figure rests on, and every kind of step."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.documents.figures import MINUS, NO_BREAK, THIN, at_most
from logbook.documents.history import words
from logbook.documents.history.steps import _TOLD, work_lines
from logbook.documents.history.words import Words
from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.record.entries import STEPS
from logbook.record.when import parse_date, parse_reading
from logbook.specs.results import Value


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2016-04-09", "9 April 2016"),
        ("2016-12", "December 2016"),
        ("1998", "1998"),
        ("about 1998-07", "about July 1998"),
    ],
)
def test_days_in_words(text: str, said: str) -> None:
    assert words.day(parse_date(text)) == said


def test_units_are_printed_with_their_signs_in_names_too_and_a_count_without_decimals() -> None:
    its = Words(Life().book.record.engine)
    assert its.symbol(quantity("greatest_piston_acceleration")) == "m/s²"
    assert its.name(quantity("inlet_flow_at_full_lift")).endswith("28 inH₂O")
    one = Value(1.0, {}, "published", {}, False, False, frozenset())
    assert its.figure(quantity("inlet_valves"), one).value == "1"


def test_readings_in_words() -> None:
    shown = words.reading(parse_reading("at least 104300 km, 12.5 h"))
    assert shown == f"at least 104{THIN}300{NO_BREAK}km, 12.5{NO_BREAK}h"


@pytest.mark.parametrize(
    ("written", "printed"),
    [
        ("all: 0.30 mm", "0.30 mm, all"),
        ("48.2 / 48.0 +/- 0.5 cm2", "48.2 / 48.0 ± 0.5 cm²"),
        ("all: 52.9 ± 0.5 cm2", "52.9 ± 0.5 cm², all"),
        ("28 inH2O", "28 inH₂O"),
        ("cm2x", "cm2x"),
    ],
)
def test_what_a_file_writes_is_printed_as_it_is(written: str, printed: str) -> None:
    assert words.as_written(written) == printed


@pytest.mark.parametrize(
    ("shares", "basis", "said"),
    [
        ({"measured": 1.0}, "measured", ""),
        ({"measured": 0.26, "published": 0.74}, "published", f"74{NO_BREAK}% published"),
        ({"published": 1.0}, "published", "published"),
        ({"measured": 0.997, "assumed": 0.003}, "assumed", ""),
        ({"measured": 0.5, "published": 0.3, "hearsay": 0.2}, "hearsay", f"50{NO_BREAK}% not measured"),
        ({}, "hearsay", "hearsay"),
    ],
)
def test_what_a_figure_rests_on(shares: dict[str, float], basis: str, said: str) -> None:
    assert words.rests_on(Value(1.0, {}, basis, shares, False, False)) == said


@pytest.mark.parametrize(
    ("value", "expanded", "most", "printed"),
    [
        (80.268, 0.0071, 3, ("80.268", "0.007")),
        (2.4, 0.02, 1, ("2.40", "0.02")),  # one digit of the ± is always left
        (290.0, 11.6, 0, ("290", "12")),
        (1599.1, 0.46, 4, (f"1{THIN}599.10", "0.46")),  # never more digits than the ± bears
        (0.3, None, 2, ("0.30", "")),
    ],
)
def test_a_reading_keeps_its_own_digits(
    value: float, expanded: float | None, most: int, printed: tuple[str, str]
) -> None:
    assert at_most(value, expanded, most) == printed


def usage(**more: str) -> Words:
    return Words(Life(more="".join(f"{key}: {text}\n" for key, text in more.items())).book.record.engine)


def test_uk_and_us_words_metric_and_imperial_units() -> None:
    row, delta = quantity("squish_clearance"), Uncertain(-0.00035, {"a": 0.00003})
    assert (usage().name(row), usage().symbol(row)) == ("squish clearance", "mm")
    us = usage(words="us", show="imperial")
    assert (us.name(row), us.symbol(row)) == ("quench clearance", "in")
    assert us.difference(row, delta).value == f"{MINUS}0.0138"
    assert usage().difference(row, delta).value == f"{MINUS}0.350"


def test_a_name_is_cut_only_where_it_stays_the_only_one() -> None:
    assert usage().short(quantity("effective_compression_ratio")) == "effective compression ratio"
    assert usage().short(quantity("gasket_thickness")) == "gasket thickness, compressed"


def test_keys_of_files_are_words_for_a_reader() -> None:
    assert words.in_words("`chamber_volume` of head-b is out of date") == "chamber volume of head-b is out of date"


@pytest.mark.parametrize(
    ("title", "short"),
    [
        ("Head C on", "Head C on"),
        ("Sold, with everything that is known about it", "Sold"),
        ("The speedometer head was replaced", "The speedometer head was …"),
        ("x" * 40, "x" * 29 + " …"),
    ],
)
def test_long_titles_are_cut_at_a_word(title: str, short: str) -> None:
    assert words.shortened(title, 30) == short


# steps


def life() -> Life:
    told = Life(more="limits:\n  - {id: squish, spec: squish_clearance, min: 0.90 mm, rule: steel rods}\n")
    for name, kind in (("head-a", "cylinder_head"), ("H7", "cylinder_head"), ("block", "block"), ("old-1", "other")):
        told.part(name, kind)
    told.texts["notes/2020-01-02-knock.yaml"] = "date: 2020-01-02\ntitle: A knock\nopen: yes\n"
    told.work("2020-01-01", "fit: head-a, found: yes", "fit: block, found: yes", at="100 km")
    told.texts["measurements/2020-01-03-m.yaml"] = (
        "date: 2020-01-03\ntitle: Bench\npart: block\nvalues: {bore: {all: 80 mm}}\n"
    )
    return told


@pytest.mark.parametrize(
    ("step", "line"),
    [
        ("fit: H7", "cylinder head H7 fitted; head-a came off"),
        ("remove: head-a, to: shelf", "head-a taken off, to shelf"),
        ("rework: head-a, operation: surface milled, depth: 0.30 mm", "head-a: surface milled, 0.30 mm"),
        (
            "rework: block, operation: honed, to: {bore: {all: 80.01 mm}}, with: gauge, by: shop-1",
            "block: honed, now bore 80.01 mm, all (with gauge), by shop-1",
        ),
        ("set: {fuel: 98 RON, main_jet: 140}", "Set: fuel 98 RON; main jet 140"),
        (
            "set: {inlet_lobe_centre: 106 deg}, at_lift: 1 mm, with: wheel",
            "Set: inlet lobe centre, after TDC: 106 deg (at 1 mm lift, with wheel)",
        ),
        ("tune: t2, from: t1, state: trial, why: too rich", "Tune t2 on trial, made from t1, because: too rich"),
        ("tune: t2, state: withdrawn", "Tune t2 withdrawn"),
        (
            "tighten: head bolts, stages: 30 N m then 90 deg, lubricant: oil, bolts: new, with: wrench",
            "Head bolts tightened: 30 N m then 90 deg, lubricated with oil, bolts new, with wrench",
        ),
        ("tighten: plugs", "Plugs tightened"),
        ("service: oil, note: It was black.", "Service: oil; It was black"),
        ("repair: water jacket, how: stitched", "Repaired: water jacket, stitched"),
        (
            "counter: {odometer: {was: 1200 km, now: 0 km}}",
            "Odometer replaced or reset at 1_200~km, goes on from 0~km",
        ),
        (
            "move: boat, counters: {odometer: {was: 1200 km, now: none}, hour meter: {was: none, now: 0 h}}",
            "Moved: boat; odometer ends at 1_200~km; hour meter begins at 0~h",
        ),
        (
            "correct: {entry: 2020-01-03-m, part: block, quantity: bore, why: a slip}",
            "Corrected: bore of block, as ‘Bench’ of 3 January 2020 states it, does not hold: a slip",
        ),
        (
            "adopt: {quantity: bore, from: 2020-01-03-m, why: the better gauge}",
            "Chosen: bore from ‘Bench’ of 3 January 2020, because: the better gauge",
        ),
        (
            "accept: {limit: squish, value: 0.8 mm, why: it turns}",
            "Accepted: squish clearance 0.8 mm where the rule is at least 0.90 mm (steel rods), because: it turns",
        ),
        ("owner: sold", "Sold: the engine"),
        ("owner: scrapped, part: old-1", "Scrapped: old-1"),
        ("handed_over: all sheets", "Handed over: all sheets"),
        ("due: retorque, after: 500 km", "Due: retorque after 500~km"),
        ("closes: 2020-01-02-knock", "Closes what was open: ‘A knock’ of 2 January 2020"),
    ],
)
def test_each_kind_of_step_in_words(step: str, line: str) -> None:
    told = life().work("2020-02-01", step, at="1200 km")
    fold = told.fold
    said = work_lines(fold, Words(fold.record.engine), len(fold.record.entries) - 1)
    assert said == (line.replace("_", THIN).replace("~", NO_BREAK),)


def test_every_kind_of_step_has_its_words() -> None:
    assert set(_TOLD) == set(STEPS.values())


def test_what_is_alike_stands_in_one_line() -> None:
    told = life().work(
        "2020-02-01", "service: oil", "service: filter", "owner: sold, part: H7", "owner: sold, part: old-1"
    )
    fold = told.fold
    lines = work_lines(fold, Words(fold.record.engine), len(fold.record.entries) - 1)
    assert lines == ("Service: oil and filter", "Sold: H7 and old-1")
    assert work_lines(fold, Words(fold.record.engine), 0) == ("Found in place: head-a and block",)
