"""What may still come off a head or a block, as a spec: from its cuts, with a limit, in every table of specs."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lives import Life

from logbook.specs.cutting import metal_left
from logbook.specs.metal import surfaces
from logbook.specs.specs_file import specs_file

MM = 1e-3


def milled(*cuts: str, before: str = "0.20 ± 0.04 mm", limit: str = "1.00 mm", more: str = "") -> Life:
    """An engine with one head and one block, the head milled once for each cut."""
    told = Life(2, more=more).part("head-a", "cylinder_head", f"removed_before: {before}\n", metal_limit=limit)
    told.part("block", "block", "removed_before: 0 mm\n", deck_metal_limit="0.30 mm")
    told.work("2024-01-01", "fit: head-a", "fit: block")
    for day, cut in enumerate(cuts, 1):
        told.work(f"2024-02-{day:02}", f"rework: head-a, operation: surface milled, depth: {cut}")
    return told


def left(story: Life, point: str = "now", name: str = "metal_left") -> float | None:
    (value,) = story.at(point).specs[name].values
    return None if value is None else round(value.nominal / MM, 9)


@given(st.lists(st.floats(0.01, 0.5), max_size=4))
def test_the_graph_and_the_sum_of_the_cuts_agree_to_the_last_source_of_error(cuts: list[float]) -> None:
    story = milled(*(f"{cut:.3f} ± 0.02 mm" for cut in cuts))
    (value,) = story.at("now").specs["metal_left"].values
    assert value is not None
    shown = surfaces(story.at("now"))["joint face of head-a"]
    assert shown.left == value
    assert shown.removed is not None
    assert value.nominal == pytest.approx(1.00 * MM - shown.removed.nominal)
    assert set(shown.removed.terms) < set(value.terms)  # what is left is unsure by every cut, and by the limit


def test_each_cut_leaves_less() -> None:
    story = milled("0.30 mm", "0.10 mm")
    assert [left(story, day) for day in ("2024-01-01", "2024-02-01", "2024-02-02")] == [0.8, 0.5, 0.4]
    assert left(story, name="deck_metal_left") == 0.3


def test_where_nobody_knows_what_came_off_before_it_is_unknown() -> None:
    spec = milled("0.30 mm", before="unknown").at("now").specs["metal_left"]
    assert (spec.values, spec.missing) == ((None,), ("metal_removed",))


def test_a_cut_that_nobody_measured_leaves_the_figure_out_of_date() -> None:
    story = milled("0.30 mm").work("2024-03-01", "rework: head-a, operation: surface milled")
    assert story.at("now").specs["metal_left"].out_of_date


def test_a_sum_of_measured_cuts_is_nothing_to_measure_again() -> None:
    assert [each.says for each in milled("0.30 mm").book.findings if "metal" in each.says] == []
    story = milled("0.30 mm").work("2024-03-01", "rework: head-a, operation: surface milled")
    assert ["is out of date" in each.says for each in story.book.findings if "metal" in each.says] == [True]


def test_each_head_of_a_vee_has_its_own() -> None:
    told = Life(4, "vee")
    for bank, gone in (("1", "0.1"), ("2", "0.4")):
        told.part(f"head-{bank}", "cylinder_head", f"removed_before: {gone} mm\n", metal_limit="0.5 mm")
    told.work("2024-01-01", "fit: head-1, at: bank 1", "fit: head-2, at: bank 2")
    spec = told.at("now").specs["metal_left"]
    assert [round(value.nominal / MM, 9) for value in spec.known] == [0.4, 0.1]
    assert [round(each.left.nominal / MM, 9) for each in surfaces(told.at("now")).values() if each.left] == [0.4, 0.1]


def test_a_limit_on_it_warns_with_the_caution() -> None:
    limit = 'limits:\n  - {id: skim, spec: metal_left, min: 0.40 mm, rule: "own"}\n'
    said = [each for each in milled("0.70 ± 0.01 mm", more=limit).book.findings if "its limit" in each.says]
    assert [each.level for each in said] == ["doubtful"]
    assert "at least 0.40 mm" in said[0].says
    assert "the maker's manual comes first" in said[0].mend
    calm = milled("0.10 ± 0.01 mm", more=limit).book.findings
    assert [each for each in calm if "its limit" in each.says] == []


def test_two_points_differ_by_the_cut_alone() -> None:
    (cut,) = milled("0.30 ± 0.02 mm").book.compare("2024-01-01", "now").specs["metal_left"].differences
    assert cut is not None
    assert (cut.nominal, cut.expanded) == (pytest.approx(-0.30 * MM), pytest.approx(0.02 * MM))


def test_it_stands_in_the_specs_of_today_and_explains_itself() -> None:
    now = milled("0.30 ± 0.02 mm").at("now")
    text = specs_file(now, "1", "f").decode()
    assert "  metal_left:\n    unit: mm\n    by_position:\n      1: 0.500 ± 0.049\n" in text
    root = now.explain("metal_left").root  # type: ignore[union-attr]
    assert root is not None
    assert {each.row.name: each.where.file for each in root.inputs if each.where} == {
        "metal_limit": "parts/head-a.yaml",
        "metal_removed": "parts/head-a.yaml",
    }


@given(st.lists(st.floats(0, 2e-3), min_size=2, max_size=6))
def test_the_more_is_gone_the_less_is_left(gone: list[float]) -> None:
    some = [metal_left(metal_limit=1e-3, metal_removed=each) for each in sorted(gone)]
    assert all(more >= less for more, less in pairwise(some))
