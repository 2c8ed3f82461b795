"""Points of the engine's life by every name they have, and what is said to a name that none has."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.errors import PointUnknown


def life() -> Life:
    story = Life().part("head-a", "cylinder_head").part("head-b", "cylinder_head")
    story.work("2024-01-01", "fit: head-a", at="1000 km", build="as-bought")  # 0
    story.work("2024-02-01", "service: oil", at="2000 km")  # 1
    story.work("2024-02-01", "service: valve lash", at="2000 km")  # 2
    story.work("2024-03-01", "counter: {odometer: {was: 3000 km, now: 0 km}}", at="3000 km")  # 3
    story.work("2024-04", "fit: head-b", at="1500 km", build="head-b-on")  # 4
    story.texts["plans/head-a-again.yaml"] = "title: a\ndate: 2024-05-01\nfrom: head-b-on\nwork:\n  - fit: head-a\n"
    return story


@pytest.mark.parametrize(
    ("point", "number"),
    [
        ("now", 4),
        ("start", 0),
        (" now ", 4),
        ("2024-01-01", 0),
        ("2024-01-31", 0),
        ("2024-02-01", 2),  # the end of that day
        ("2024-02", 2),
        ("2024", 4),
        ("2500km", 2),
        ("2500 km", 2),
        ("true:4500km", 4),
        ("true:4499km", 3),
        ("true:3000km", 3),
        ("as-bought", 0),
        ("head-b-on", 4),
        ("changes/2024-03-01-006", 3),
        ("changes/2024-03", 3),
        ("2024-04-", 4),
        ("plan:head-a-again", 4),
    ],
)
def test_a_point_by_each_of_its_names(point: str, number: int) -> None:
    assert life().at(point).point.number == number


@pytest.mark.parametrize(
    ("point", "why"),
    [
        ("2023-12-31", "the first entry is of 2024-01-01"),
        ("2024-02-30", "there is no day 2024-02-30"),
        ("1200km", "the counter has shown it 2 times; write true:1200km or true:4200km"),
        ("3500km", "the counter has shown 1000 to 3000 km and 0 to 1500 km"),
        ("5 h", "no such counter was ever read"),
        ("true:5km", "it lies before the first entry"),
        ("head-b-onn", "did you mean head-b-on?"),
        ("changes/2024-02-01", "several entries begin so: changes/2024-02-01-004, changes/2024-02-01-005"),
        ("plan:head-a", "there is no plan `head-a`; did you mean head-a-again?"),
        ("", "A point is now, start, a date"),
        ("9" * 400 + "km", "A point is now, start, a date"),
    ],
)
def test_what_is_no_point_is_refused_with_what_lies_near(point: str, why: str) -> None:
    with pytest.raises(PointUnknown) as refusal:
        life().at(point)
    assert why in str(refusal.value)


def test_an_empty_record_has_only_now_and_start() -> None:
    assert Life().at("now").point.number == -1
    with pytest.raises(PointUnknown, match="the record has no entries yet"):
        Life().at("2024-01-01")


def test_a_plan_is_the_engine_with_its_steps_done() -> None:
    assert life().parts("plan:head-a-again") == ("head-a",)
    assert life().parts("now") == ("head-b",)


def test_a_plan_on_a_plan_is_refused_where_it_stands() -> None:
    story = life()
    story.texts["plans/next.yaml"] = "title: a\ndate: 2024-05-01\nfrom: plan:head-a-again\n"
    (finding,) = story.book.findings
    assert "stands on another plan" in finding.says
    assert (finding.file, finding.line) == ("plans/next.yaml", 3)
