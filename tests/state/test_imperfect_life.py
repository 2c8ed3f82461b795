"""Lives as they are remembered: dates and readings only about right, two counters, mistakes taken back."""

from __future__ import annotations

from lives import Life


def test_a_year_comes_before_its_months_and_about_counts_as_said() -> None:
    life = Life().part("head-a", "cylinder_head").part("head-b", "cylinder_head").part("head-c", "cylinder_head")
    life.work("1998-07", "fit: head-b").work("about 1998", "fit: head-a").work("1998-07-02", "fit: head-c")
    assert [entry.says.date.text for entry in life.book.record.entries] == ["about 1998", "1998-07", "1998-07-02"]
    assert life.parts("1998-06-30") == ("head-a",)
    assert life.parts("1998-07-01") == ("head-b",)
    assert life.parts("now") == ("head-c",)


def test_a_reading_that_is_about_right_takes_no_distance_back() -> None:
    life = Life().part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="1000 km")
    life.work("2024-02-01", "service: oil", at="about 1500 km").work("2024-03-01", "service: oil", at="about 1400 km")
    assert life.distance("now", "head-a") == 500
    life.work("2024-04-01", "service: oil", at="1450 km")  # the exact one contradicts no exact one
    assert life.distance("now", "head-a") == 500
    assert life.book.findings == ()


def test_hours_and_distance_stand_side_by_side() -> None:
    """Fitted before the hour meter was: its hours count from the meter's first reading."""
    life = Life().part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="1000 km")
    life.work("2024-02-01", "counter: {hour meter: {was: none, now: 5 h}}", at="1200 km")
    life.work("2024-03-01", "service: oil", at="1300 km, 7 h").work("2024-04-01", "remove: head-a", at="8.5 h")
    life.work("2024-05-01", "service: oil", at="2000 km, 20 h")
    run = life.at("now").state.has_run("head-a")
    assert (run.distance, run.hours) == (300e3, 3.5 * 3600)


def test_a_part_fitted_at_an_unknown_reading_runs_from_the_last_one_that_was_known() -> None:
    life = Life().part("head-a", "cylinder_head").work("2024-01-01", "service: oil", at="1000 km")
    life.work("2024-02-01", "fit: head-a").work("2024-03-01", "service: oil", at="1600 km")
    assert life.distance("now", "head-a") == 600


def test_a_counter_lost_with_the_car_leaves_what_was_run() -> None:
    life = Life().part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="1000 km")
    life.work("2024-02-01", "move: another car, counters: {odometer: {was: 1500 km, now: 80000 km}}")
    life.work("2024-03-01", "service: oil", at="80250 km")
    assert life.distance("now", "head-a") == 750


def test_a_correction_that_was_itself_a_mistake_is_answered_by_stating_the_figure_again() -> None:
    life = Life().part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a")
    life.measure("2024-02-01", "head-a", chamber_volume="{all: 36 cc}")
    life.work("2024-03-01", f"correct: {{entry: {life.last}, quantity: chamber_volume, why: slip}}")
    assert life.holds("now", "chamber_volume") is None
    life.measure("2024-04-01", "head-a", chamber_volume="{all: 36 cc}")
    assert life.holds("2024-02-01", "chamber_volume") == "36 later"
