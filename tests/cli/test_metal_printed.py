"""What `logbook specs` says of metal: surface by surface, what came off and what may still come off."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from keyboard import typed
from lives import Life


def head(tmp_path: Path, limit: str, *cuts: str, before: str = "0.20 mm") -> Path:
    """An engine with one head that was milled; 0.20 mm had come off before, and `limit` may in all."""
    said = f"removed_before: {before}\n"
    said += f"facts:\n  - {{basis: published, values: {{metal_limit: {limit}}}}}\n" if limit else ""
    told = Life(2).part("head-a", "cylinder_head", said).part("block", "block").work("2024-01-01", "fit: head-a")
    told.work("2024-01-01", "fit: block")
    for number, cut in enumerate(cuts):
        told.work(f"2024-02-0{number + 1}", f"rework: head-a, operation: surface milled, depth: {cut}")
    for file, text in told.texts.items():
        (tmp_path / file).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / file).write_text(text)
    return tmp_path


def shape(folder: Path, *words: str) -> dict[str, dict[str, list[object]]]:
    return json.loads(typed("specs", *words, "--json", at=folder).out)["specs"]  # type: ignore[no-any-return]


def lines(folder: Path) -> str:
    return " ".join(typed("specs", at=folder).out.partition("Metal\n")[2].split())


def test_what_is_left_is_the_limit_less_every_cut(tmp_path: Path) -> None:
    folder = head(tmp_path, "1.00 ± 0.05 mm", "0.30 ± 0.02 mm", "0.10 ± 0.02 mm")
    left, removed = shape(folder)["metal_left"], shape(folder)["metal_removed"]
    assert (left["positions"], removed["positions"], left["unit"]) == (["1"], ["joint face of head-a"], "mm")
    assert (left["values"], removed["values"]) == ([pytest.approx(0.40)], [pytest.approx(0.60)])
    removed_before = 0.1  # the usual spread of what somebody said came off
    assert removed["uncertainty"] == [pytest.approx((removed_before**2 + 2 * 0.02**2) ** 0.5)]
    assert left["uncertainty"] == [pytest.approx((removed_before**2 + 2 * 0.02**2 + 0.05**2) ** 0.5)]
    assert (removed["bound"], left["basis"]) == ([None], "published")
    assert shape(folder, "2024-02-01")["metal_left"]["values"] == [pytest.approx(0.50)]
    assert "joint face of head-a, left to remove 0.40" in lines(folder)
    assert "Careful" not in lines(folder)


@pytest.mark.parametrize(
    ("cut", "careful"), [("1.20 mm", "more metal has come off"), ("0.75 mm", "may have come off, within its error")]
)
def test_a_surface_under_its_least_is_a_caution(tmp_path: Path, cut: str, careful: str) -> None:
    folder = head(tmp_path, "1.00 mm", cut)
    assert careful in lines(folder)
    assert "the maker's least thickness comes first" in lines(folder)


def test_what_is_only_a_bound_says_so(tmp_path: Path) -> None:
    folder = head(tmp_path, "1.00 mm", "0.30 mm", before="unknown")
    left, removed = shape(folder)["metal_left"], shape(folder)["metal_removed"]
    assert (left["values"], left["missing"], removed["bound"]) == ([None], ["metal_removed"], ["at least"])
    assert "at most" in lines(folder)
    assert "at least" in lines(folder)


def test_without_a_limit_nothing_is_left_to_say_and_it_is_missing(tmp_path: Path) -> None:
    left = shape(head(tmp_path, "", "0.30 mm"))["metal_left"]
    assert (left["values"], left["missing"]) == ([None], ["metal_limit"])
    assert "left to remove" not in lines(tmp_path)


def test_nothing_known_is_not_told(tmp_path: Path) -> None:
    folder = head(tmp_path, "", before="unknown")
    assert shape(folder)["metal_left"]["missing"] == ["metal_limit", "metal_removed"]
    assert lines(folder) == ""


def test_a_planned_cut_counts_in_its_plan(tmp_path: Path) -> None:
    folder = head(tmp_path, "1.00 mm", "0.30 mm")
    (folder / "plans").mkdir()
    (folder / "plans/p.yaml").write_text(
        "title: P\ndate: 2024-03-01\nwork:\n  - {rework: head-a, operation: surface milled, depth: 0.20 mm}\n"
    )
    assert shape(folder, "plan:p")["metal_left"]["values"] == [pytest.approx(0.30)]
    assert shape(folder)["metal_left"]["values"] == [pytest.approx(0.50)]
