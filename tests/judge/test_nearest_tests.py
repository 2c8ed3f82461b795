"""Which test speaks for a point, and what stands beside it: the parts must be the same, the rest is said."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.errors import PointUnknown
from logbook.judge.compare import REAL, WITHIN
from logbook.judge.nearest_tests import Pair


def engine() -> Life:
    life = Life(2).part("head-a", "cylinder_head").part("head-b", "cylinder_head").part("block", "block")
    life.part("points", "ignition").part("boxes", "ignition").part("cam", "camshaft")
    return life.work(
        "2024-01-01", "fit: head-a", "fit: block", "fit: cam", "fit: points", "tune: one, state: in use", build="a"
    )


def cranked(life: Life, date: str, pressures: str, more: str = "oil: dry\n") -> Life:
    life.texts[f"tests/{date}-{len(life.texts):03}.yaml"] = (
        f"date: {date}\nkind: compression test\n{more}values: {{cranking_pressure: {pressures} bar gauge}}\n"
    )
    life.__dict__.pop("book", None)
    return life


def pairs(life: Life, before: str = "a", after: str = "now") -> tuple[Pair, ...]:
    return life.book.compare(before, after).tests


def days(pair: Pair) -> tuple[str | None, ...]:
    return tuple(near and str(near.entry.says.date) for near in (pair.before, pair.after))


def test_the_nearest_on_each_side_with_the_same_parts() -> None:
    life = cranked(cranked(engine(), "2024-01-03", "12.0 / 12.0"), "2024-01-20", "11.0 / 11.9")
    life.work("2024-02-01", "fit: head-b", build="b")
    cranked(cranked(life, "2024-02-20", "13.0 / 12.2 ± 0.2"), "2024-05-01", "9 / 9")
    (pair,) = pairs(life, "a", "b")
    assert days(pair) == ("2024-01-03", "2024-02-20")
    assert pair.told
    assert pair.told.verdicts == (REAL, WITHIN)
    assert [delta and round(delta.nominal / 1e5, 3) for delta in pair.told.differences] == [1.0, 0.2]


def test_of_a_change_only_tests_before_it_speak_for_before() -> None:
    """The tune alone was changed: the parts are the same on both sides."""
    life = cranked(cranked(engine(), "2024-01-10", "12 / 12"), "2024-02-08", "11 / 11")
    life.work("2024-02-09", "tune: two, state: in use", build="two")
    cranked(life, "2024-02-10", "13 / 13")
    (pair,) = life.book.effect_of("two").tests
    assert days(pair) == ("2024-02-08", "2024-02-10")


def test_one_test_for_both_sides_tells_no_difference() -> None:
    life = cranked(engine(), "2024-01-10", "12 / 12").work("2024-02-09", "tune: two, state: in use")
    assert pairs(life) == ()


def test_a_machined_part_is_another_part() -> None:
    life = cranked(engine(), "2024-01-10", "12 / 12").work("2024-02-01", "rework: head-a, operation: surface milled")
    (pair,) = pairs(life)
    assert days(pair) == ("2024-01-10", None)
    assert pair.told is None


def test_what_else_was_different_is_said() -> None:
    life = engine().work("2024-02-01", "fit: head-b", build="b")
    life.work("2024-02-02", "fit: boxes", "tune: two, state: in use", "set: {main_jet: 140}")
    life.work("2024-02-03", "set: {valve_lash_inlet: 0.3 / 0.3 mm}")
    cranked(cranked(life, "2024-02-04", "13 / 13"), "2024-01-02", "12 / 12")
    (pair,) = pairs(life, "a", "b")
    assert pair.before
    assert pair.after
    assert pair.before.besides == ()
    assert pair.after.besides == ("boxes and not points", "two and not one", "main jet 140 and not none",
                                  "valve lash inlet set in between")  # fmt: skip


def test_other_conditions_are_another_test_and_another_gauge_is_said() -> None:
    life = cranked(engine(), "2024-01-02", "12 / 12", "oil: dry\nwith: fine\nconditions: {throttle: open}\n")
    life.work("2024-02-01", "fit: head-b", build="b")
    cranked(life, "2024-02-04", "13 / 13", "oil: dry\nwith: coarse\nconditions: {throttle: shut}\n")
    cranked(life, "2024-02-05", "14 / 14", "oil: with oil\n")
    dry, wet = pairs(life, "a", "b")
    assert dry.unlike == ("read with fine, then with coarse", "throttle open, then shut")
    assert (dry.conditions, wet.conditions) == ({"oil": "dry"}, {"oil": "with oil"})
    assert days(wet) == (None, "2024-02-05")


def test_nobody_has_tested_what_is_supposed() -> None:
    life = cranked(engine(), "2024-01-02", "12 / 12")
    assert life.book.compare("a", "now", suppose=["fit=head-b"]).tests == ()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ("2024-02", "several changes are named so: 2024-02-01-00"),
        ("bee", "`bee` is no change of this record, nor a build that one made; the last are 2024-01-01"),
        ("biuld-b", "`biuld-b` is no change of this record, nor a build that one made; did you mean build-b?"),
    ],
)
def test_a_change_that_does_not_exist_is_refused_with_what_does(change: str, says: str) -> None:
    life = engine().work("2024-02-01", "fit: head-b", build="build-b").work("2024-02-02", "fit: head-a")
    with pytest.raises(PointUnknown) as refused:
        life.book.effect_of(change)
    assert str(refused.value).startswith(says)


def test_before_the_first_change_there_is_nothing() -> None:
    told = engine().book.effect_of("a")
    assert (told.off, told.on) == ((), ("block", "head-a", "cam", "points"))
