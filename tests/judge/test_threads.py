"""One part, one value, one stretch out of a whole life."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.errors import PointUnknown
from logbook.judge.part_life import NoSuchPart
from logbook.judge.value_history import NoSuchValue
from logbook.logbook import Logbook


def engine() -> Life:
    life = Life(2).part("head-a", "cylinder_head", chamber_volume="35 cc").part("head-b", "cylinder_head")
    life.part("block", "block").work("2024-01-01", "fit: head-a", "fit: block", at="100 km", build="a")
    life.measure("2024-01-02", "head-a", using="fine", chamber_volume="36.0 / 36.2 cc")
    life.work("2024-02-01", "rework: head-a, operation: surface milled, depth: 0.30 mm, by: shop-1", at="300 km")
    life.measure("2024-02-02", "head-a", chamber_volume="34.8 / 35.0 cc")
    life.work("2024-03-01", "fit: head-b", at="700 km, 0 h", build="b")
    return life.work("2024-04-01", "owner: sold, part: head-a", at="1000 km, 5 h")


def test_the_life_of_a_part_with_how_far_it_had_run() -> None:
    told = engine().book.part_life("head-a")
    assert [(str(each.entry.says.date), each.run.distance, each.says) for each in told.events] == [
        ("2024-01-01", 0.0, ("fitted",)),
        ("2024-01-02", 0.0, ("combustion chamber volume 36.0 / 36.2 cc, with fine",)),
        ("2024-02-01", 200e3, ("surface milled 0.30 mm, by shop-1",)),
        ("2024-02-02", 200e3, ("combustion chamber volume 34.8 / 35.0 cc",)),
        ("2024-03-01", 600e3, ("taken off for head-b",)),
        ("2024-04-01", 600e3, ("sold",)),
    ]
    assert [fact.text for fact in told.published] == ["35 cc"]
    assert (told.where, told.run.here.distance) == ("sold", 600e3)
    assert engine().book.part_life("head-b").where == ""


def test_on_a_vee_only_what_stood_on_the_same_bank_was_replaced() -> None:
    life = Life(6, "vee")
    for name in ("head-1", "head-2", "head-3", "head-4"):
        life.part(name, "cylinder_head")
    life.work("2024-01-01", "fit: head-1, at: bank 1", "fit: head-2, at: bank 2")
    life.work("2024-02-01", "fit: head-3, at: bank 1", "fit: head-4, at: bank 2")
    told = {name: [event.says for event in life.book.part_life(name).events] for name in life.book.record.parts}
    assert told["head-1"] == [("fitted at bank 1",), ("taken off for head-3",)]
    assert told["head-4"] == [("fitted at bank 2 in place of head-2",)]


def test_a_part_of_the_demonstration_ran_what_its_story_says() -> None:
    """8340 km and 41.6 h of the raised pistons, by the story of the example."""
    told = Logbook.open(EXAMPLE).part_life("pistons-2")
    assert (told.run.here.distance, told.run.here.hours) == pytest.approx((8340e3, 41.6 * 3600))


def test_what_became_of_every_statement_of_a_value() -> None:
    told = engine().book.value_history("chamber_volume")
    assert [(each.fact.text, each.became) for each in told] == [
        ("35 cc", "out of date since 2024-02-01 (surface milled)"),
        ("36.0 / 36.2 cc", "out of date since 2024-02-01 (surface milled)"),
        ("34.8 / 35.0 cc", "head-a is not in the engine"),
    ]
    assert [each.line for each in told] == [4, 4, 3]
    assert engine().book.value_history("chamber_volume", "head-b") == ()


def test_a_value_that_holds_and_one_that_was_a_mistake() -> None:
    life = engine().measure("2024-05-01", "head-b", chamber_volume="30.0 / 30.0 cc")
    wrong = life.last
    life.measure("2024-05-02", "head-b", chamber_volume="31.0 / 31.0 cc")
    life.work("2024-05-03", f"correct: {{entry: {wrong}, part: head-b, quantity: chamber_volume, why: slip}}")
    told = life.book.value_history("chamber_volume", "head-b")
    assert [each.became for each in told] == [f"a mistake, says {life.last}", "holds now"]


def test_a_camshaft_that_was_turned_keeps_its_card() -> None:
    """Setting the lobe centre puts what was read on the engine out of date, and not what the card says."""
    life = engine().part("cam", "camshaft").work("2024-05-01", "fit: cam")
    more = "at_lift: 1.00 mm\n"
    life.measure("2024-05-02", "cam", more=more, inlet_opens="30 deg before TDC")
    life.measure("2024-05-03", more=more, inlet_opens="28 deg before TDC")
    life.work("2024-05-04", "set: {inlet_lobe_centre: 106 deg}, at_lift: 1.00 mm")
    told = [(str(each.fact.stated.when), each.became) for each in life.book.value_history("inlet_opens")]
    assert "out of date" not in told[0][1]
    assert "out of date since 2024-05-04 (set)" in told[1][1]


def test_what_ran_since_a_change() -> None:
    told = engine().book.since("b")
    assert (told.days, told.engine.distance, told.engine.hours) == (31, 300e3, 5 * 3600)
    assert [(name, run.distance, run.hours, inside) for name, run, inside in told.parts] == [
        ("block", 300e3, 5 * 3600, True), ("head-b", 300e3, 5 * 3600, True)]  # fmt: skip
    from_start = {name: run.distance for name, run, _ in engine().book.since("a").parts}
    assert from_start == {"head-a": 600e3, "head-b": 300e3, "block": 900e3}


def test_a_counter_that_came_later_counts_from_its_first_reading() -> None:
    life = Life(2).part("block", "block").work("2024-01-01", "fit: block", at="100 km", build="a")
    life.work("2024-02-01", "service: oil", at="200 km, 50 h").work("2024-03-01", "service: oil", at="300 km, 58 h")
    assert life.book.since("a").engine.hours == 8 * 3600


def test_names_that_do_not_exist() -> None:
    book = engine().book
    with pytest.raises(NoSuchPart, match="there is no part `head-c`; did you mean head-b"):
        book.part_life("head-c")
    with pytest.raises(NoSuchPart, match="there is no part `zzz`; there is block, head-a, head-b"):
        book.value_history("chamber_volume", "zzz")
    with pytest.raises(NoSuchValue, match=r"`boar` is not a quantity; did you mean bore\?"):
        book.value_history("boar")
    with pytest.raises(PointUnknown, match="`now` is no change of this record"):
        book.since("now")
