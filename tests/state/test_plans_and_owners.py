"""What a plan's reworks are meant to leave, and parts that are not there to be fitted."""

from __future__ import annotations

import pytest
from lives import Life, told


def planned(steps: str) -> Life:
    life = Life(2).part("head-a", "cylinder_head").part("head-b", "cylinder_head")
    life.work("2024-01-01", "fit: head-a", at="100 km")
    life.measure("2024-01-02", "head-a", chamber_volume="30.0 / 31.0 cc")
    life.measure("2024-01-02", "head-b", chamber_volume="26.0 / 26.2 cc")
    life.texts["plans/next.yaml"] = f"title: Next\ndate: 2024-02-01\nwork:\n{steps}"
    return life


def chambers(life: Life, point: str = "plan:next") -> list[str | None]:
    return [told(life.at(point), "chamber_volume", position) for position in ("1", "2")]


WORKED = "  - {rework: head-a, operation: chamber reworked, to: {chamber_volume: 28.0 / 28.5 cc}}\n"


def test_what_a_planned_rework_is_to_leave_holds_in_the_plan_alone() -> None:
    life = planned(WORKED)
    assert chambers(life) == ["28", "28.5"]
    assert chambers(life, "now") == ["30", "31"]
    held = life.at("plan:next").graph.at("chamber_volume", "1")
    assert getattr(held, "basis", None) == "assumed"


def test_it_is_of_its_part_and_waits_until_that_is_fitted() -> None:
    on_the_shelf = WORKED.replace("head-a", "head-b")
    assert chambers(planned(on_the_shelf)) == ["30", "31"]
    assert chambers(planned(on_the_shelf + "  - {fit: head-b}\n")) == ["28", "28.5"]


def test_of_two_the_later_holds_and_after_a_cut_of_unknown_effect_neither() -> None:
    assert chambers(planned(WORKED + WORKED.replace("28.0 / 28.5", "27.0 / 27.5"))) == ["27", "27.5"]
    again = WORKED + "  - {rework: head-a, operation: chamber reworked}\n"
    assert chambers(planned(again)) == ["30 out of date", "31 out of date"]


def test_what_is_not_said_of_a_cylinder_is_as_it_was() -> None:
    life = planned(WORKED.replace("28.0 / 28.5", "28.0 / x"))
    assert chambers(life) == ["28", "31 out of date"]


# not there to be fitted


def wrong(life: Life) -> list[str]:
    return [f"{each.file}:{each.line} {each.says}. {each.mend}" for each in life.book.findings if each.level == "wrong"]


def test_a_part_that_is_only_thought_of_may_be_planned_with_and_not_fitted() -> None:
    life = Life(2).part("head-a", "cylinder_head", "state: thought of\n")
    life.texts["plans/next.yaml"] = "title: Next\ndate: 2024-02-01\nwork:\n  - {fit: head-a}\n"
    assert wrong(life) == []
    life.work("2024-01-01", "fit: head-a", at="100 km")
    assert wrong(life) == [
        "changes/2024-01-01-003.yaml:4 `head-a` is only thought of. "
        "take `state: thought of` out of parts/head-a.yaml once it is there"
    ]
    assert life.parts("now") == ("head-a",)


@pytest.mark.parametrize("way", ["sold", "scrapped"])
def test_what_is_sold_is_fitted_only_after_it_came_back(way: str) -> None:
    life = Life(2).part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="100 km")
    life.work("2024-01-02", "remove: head-a", f"owner: {way}, part: head-a").work("2024-01-03", "fit: head-a")
    assert wrong(life) == [
        f"changes/2024-01-03-004.yaml:4 `head-a` was {way} before this. "
        "correct the date, or enter that it came back: `owner: bought` with `part: head-a`"
    ]
    life = Life(2).part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="100 km")
    life.work("2024-01-02", "remove: head-a", f"owner: {way}, part: head-a")
    assert wrong(life.work("2024-01-03", "owner: bought, part: head-a", "fit: head-a")) == []
    assert life.at("now").state.gone == {}


def test_a_part_sold_with_the_engine_it_is_in_is_no_mistake() -> None:
    life = Life(2).part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="100 km")
    assert wrong(life.work("2024-01-02", "owner: sold, part: head-a")) == []
