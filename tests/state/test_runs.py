"""How far a part has run in all: here, in the engine it came from, and before."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.state.counters import DISTANCE, HOURS
from logbook.state.runs import whole_run

KM, H = 1e3, 3600.0


def run(more: str) -> tuple[float | None, str, float | None, str]:
    """km and h of a head that ran 400 km and 2 h here, away in between."""
    life = Life().part("head-a", "cylinder_head", more).part("head-b", "cylinder_head")
    life.work("2024-01-01", "fit: head-a", at="1000 km, 10 h").work("2024-02-01", "fit: head-b", at="1300 km, 11.5 h")
    life.work("2024-06-01", "fit: head-a", at="5000 km, 40 h").work("2024-07-01", "service: oil", at="5100 km, 40.5 h")
    assert life.book.findings == ()
    its = whole_run(life.book.record, life.at("now").state, "head-a")
    distance, hours = its.of(DISTANCE), its.of(HOURS)
    return distance and distance / KM, its.hedge(DISTANCE), hours and hours / H, its.hedge(HOURS)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ("used_before: new\n", (400, "", 2, "")),
        ("", (400, "at least ", 2, "at least ")),
        ("used_before: unknown\n", (400, "at least ", 2, "at least ")),
        ("used_before: about 16000 km\n", (16400, "about ", 2, "")),
        ("used_before: at least 16000 km, about 100 h\n", (16400, "at least ", 102, "about ")),
        ("came_from: {engine: Q4-0031, distance: 12000 km, hours: 31 h}\n", (12400, "", 33, "")),
        ("came_from: {engine: Q4-0031, distance: about 12000 km}\nused_before: 500 km\n", (12900, "about ", 2, "")),
        ("came_from: {engine: Q4-0031}\nused_before: unknown\n", (400, "at least ", 2, "at least ")),
    ],
)  # fmt: skip
def test_what_ran_here_and_elsewhere_adds_up(more: str, told: tuple[float, str, float, str]) -> None:
    assert run(more) == (pytest.approx(told[0]), told[1], pytest.approx(told[2]), told[3])


def test_where_no_counter_ever_told_there_is_what_the_file_says() -> None:
    life = Life().part("head-a", "cylinder_head", "used_before: about 16000 mi\n").part("head-b", "cylinder_head")
    life.work("2024-01-01", "fit: head-a", "fit: head-b")
    state = life.at("now").state
    assert whole_run(life.book.record, state, "head-a").of(DISTANCE) == pytest.approx(16000 * 1609.344)
    assert whole_run(life.book.record, state, "head-b").of(DISTANCE) is None


def test_what_it_ran_elsewhere_counts_towards_its_service_life() -> None:
    life = Life().part("head-a", "cylinder_head", "service_life: 30 h\ncame_from: {engine: a, hours: about 29 h}\n")
    life.work("2024-01-01", "fit: head-a", at="10 h").work("2024-02-01", "service: oil", at="12 h")
    (finding,) = life.book.findings
    assert finding.says == "head-a has run about 31 h, its service life is 30 h"
