"""A tune is not proven after the parts that it was found with changed, until it is tuned anew or tested under load."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.judge.tuned import TUNED_FOR, unproven
from logbook.logbook import Logbook


def tuned(*kinds: str) -> Life:
    life = Life()
    for kind in ("cylinder_head", "camshaft", "pistons", "head_gasket", *kinds):
        life.part(f"{kind}-1", kind)
    life.work(
        "2024-01-01",
        *(f"fit: {part.removeprefix('parts/').removesuffix('.yaml')}" for part in life.texts if "/" in part),
    )
    return life.work("2024-01-02", "tune: tune-1, state: in use")


def notes(life: Life) -> list[str]:
    return [finding.says for finding in life.book.findings if "not proven since" in finding.says]


@pytest.mark.parametrize("kind", TUNED_FOR)
def test_each_kind_that_a_tune_is_found_with_makes_it_unproven(kind: str) -> None:
    life = tuned()
    assert notes(life) == []
    life.part("another", kind).work("2024-02-01", "fit: another")
    assert notes(life) == ["tune-1 is not proven since another was fitted"]


def test_the_note_stands_at_the_tune_and_says_what_to_do_and_to_take_care() -> None:
    life = tuned()
    file = life.last
    life.part("head-b", "cylinder_head").work("2024-02-01", "fit: head-b")
    (finding,) = (finding for finding in life.book.findings if "not proven since" in finding.says)
    assert (finding.file, finding.level) == (f"{file}.yaml", "note")
    assert "tune: tune-1" in life.texts[finding.file].splitlines()[finding.line - 1]
    assert "knock" in finding.mend
    assert finding.mend.endswith("the maker's manual comes first")


def test_other_parts_do_not_matter_and_the_same_one_back_proves_it_again() -> None:
    life = tuned().part("gasket-2", "head_gasket").work("2024-02-01", "fit: gasket-2")
    assert notes(life) == []
    life.part("head-b", "cylinder_head").work("2024-02-02", "fit: head-b")
    assert notes(life) == ["tune-1 is not proven since head-b was fitted"]
    life.work("2024-02-03", "fit: cylinder_head-1")
    assert notes(life) == []


def test_work_on_such_a_part_counts_and_setting_the_camshaft_does_not() -> None:
    life = tuned().work("2024-02-01", "set: {inlet_lobe_centre: 106 deg}, at_lift: 1.00 mm")
    assert notes(life) == []
    life.work("2024-02-02", "rework: cylinder_head-1, operation: surface milled")
    assert notes(life) == ["tune-1 is not proven since cylinder_head-1 was worked on (surface milled)"]


@pytest.mark.parametrize(("kind", "proves"), [("dynamometer", True), ("road test", True), ("compression test", False)])
def test_a_test_under_load_proves_it(kind: str, proves: bool) -> None:
    life = tuned().part("head-b", "cylinder_head").work("2024-02-01", "fit: head-b")
    life.texts["tests/2024-02-02-x.yaml"] = f"date: 2024-02-02\nkind: {kind}\n"
    life.__dict__.pop("book", None)
    assert bool(notes(life)) is not proves


def test_tuning_anew_proves_it_and_a_tune_that_is_out_is_not_told() -> None:
    life = tuned().part("head-b", "cylinder_head").work("2024-02-01", "fit: head-b")
    life.work("2024-02-02", "tune: tune-2, from: tune-1, state: trial")
    assert notes(life) == []
    life = tuned().part("head-b", "cylinder_head").work("2024-02-01", "fit: head-b")
    life.work("2024-02-02", "tune: tune-1, state: withdrawn")
    assert notes(life) == []


def test_a_plan_says_so_of_the_tune_it_would_leave_in() -> None:
    book = Logbook.open(EXAMPLE)
    found = unproven(book.at("third-head"))
    assert found is not None
    assert found.words == "not proven since head-c was fitted"
    assert unproven(book.at("now")) is None
    planned = unproven(book.at("plan:half-millimetre-pistons"))
    assert planned is None or "pistons-3" in planned.words


PLAN = "title: Another\ndate: 2024-03-01\nfrom: now\nwork:\n  - fit: another\n"
SAYS = "tune-1 is not proven since another was fitted: listen for knock and watch the mixture before full load."


@pytest.mark.parametrize("kind", TUNED_FOR)
def test_a_plan_a_comparison_and_a_supposition_say_so_of_each_kind(kind: str) -> None:
    life = tuned().part("another", kind)
    life.texts["plans/other.yaml"] = PLAN
    assert SAYS in life.book.plan("other").cautions
    assert SAYS in life.book.compare("now", "plan:other").cautions
    assert SAYS in life.book.compare("now", suppose=["fit=another"]).cautions
    assert SAYS not in life.book.compare("plan:other", "now").cautions
    life.work("2024-03-02", "fit: another")
    assert SAYS in life.book.compare("2024-01-02").cautions
    assert SAYS not in life.book.compare("2024-03-02", "now").cautions, "it was so before"


def test_a_combination_says_that_the_tune_was_found_with_other_parts() -> None:
    life = tuned().part("head-b", "cylinder_head")
    other, own = life.book.combine({"cylinder_head": ["head-b", "cylinder_head-1"]})
    now = life.book.at("now")
    assert other.cautions(now) == (
        "tune-1 was not found with these parts: listen for knock and watch the mixture before full load.",
    )
    assert own.cautions(now) == ()
