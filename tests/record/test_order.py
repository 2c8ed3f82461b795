"""The order of entries is total, does not depend on how the files are listed, and keeps every `after:` it can."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import time
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.record.order import in_order
from logbook.record.when import parse_date


@dataclass(frozen=True)
class Paper:
    """A dated file, as far as its order goes."""

    id: str
    says: SimpleNamespace = field(compare=False)


def paper(name: str, date: str, at: time | None = None, after: str | None = None) -> Paper:
    return Paper(name, SimpleNamespace(date=parse_date(date), time=at, after=after))


FOLDERS = ("changes", "measurements", "tests", "notes")
DATES = ("2024", "2024-01-01", "2024-01", "2024-01-02", "about 2024-01-02")
NAMES = [f"{folder}/{letter}" for folder in FOLDERS for letter in "abc"]


@st.composite
def days(draw: st.DrawFn) -> list[Paper]:
    names = draw(st.lists(st.sampled_from(NAMES), unique=True, max_size=9))
    times = st.none() | st.sampled_from([time(8), time(12)])
    return [paper(name, draw(st.sampled_from(DATES)), draw(times), draw(st.none() | st.sampled_from(NAMES)))
            for name in names]  # fmt: skip


@given(days(), st.randoms())
def test_it_is_total_and_the_same_however_the_files_are_listed(papers: list[Paper], chance: object) -> None:
    shuffled = list(papers)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    ordered, mistakes = in_order(papers)
    again, same = in_order(shuffled)
    assert sorted(each.id for each in ordered) == sorted(each.id for each in papers)
    assert ordered == again
    assert [(each.id, says) for each, says, _ in mistakes] == [(each.id, says) for each, says, _ in same]


@given(days())
def test_dates_never_run_backwards_and_after_is_kept_or_told(papers: list[Paper]) -> None:
    ordered, mistakes = in_order(papers)
    firsts = [each.says.date.first for each in ordered]
    assert firsts == sorted(firsts)
    place = {each.id: number for number, each in enumerate(ordered)}
    told = {each.id for each, _, _ in mistakes}
    for each in ordered:
        if each.says.after and each.id not in told:
            assert place[each.says.after] < place[each.id]


@given(days())
def test_without_after_the_day_is_work_measure_test_remark(papers: list[Paper]) -> None:
    untimed = [paper(each.id, "2024-01-01") for each in papers]
    ordered, mistakes = in_order(untimed)
    assert mistakes == []
    names = sorted(each.id for each in untimed)
    assert [each.id for each in ordered] == sorted(names, key=lambda name: FOLDERS.index(name.split("/")[0]))


@pytest.mark.parametrize(
    ("papers", "wanted"),
    [
        ([paper("changes/a", "2024-01-01", time(10)), paper("measurements/a", "2024-01-01")], "ca ma"),
        ([paper("changes/a", "2024-01-01"), paper("measurements/a", "2024-01-01", time(9))], "ca ma"),
        ([paper("changes/a", "2024-01-01", time(10)), paper("measurements/a", "2024-01-01", time(9))], "ma ca"),
        ([paper("changes/a", "2024-01-01", None, "measurements/a"), paper("measurements/a", "2024-01-01")], "ma ca"),
        ([paper("changes/a", "2024-01-01", None, "b"), paper("measurements/b", "2024-01-01")], "mb ca"),
        ([paper("changes/a", "2024-02"), paper("changes/b", "2024-02-10")], "ca cb"),
    ],
    ids=["figures behind the work", "work in the morning", "the clock", "after", "after by name", "first possible day"],
)
def test_a_day_in_its_order(papers: list[Paper], wanted: str) -> None:
    ordered, mistakes = in_order(papers)
    assert not mistakes
    assert " ".join(each.id[0] + each.id.split("/")[1] for each in ordered) == wanted


def test_a_circle_is_told_once_and_broken() -> None:
    papers = [paper("changes/a", "2024-01-01", None, "b"), paper("changes/b", "2024-01-01", None, "a")]
    ordered, mistakes = in_order(papers)
    assert len(ordered) == 2
    assert [(each.id, says) for each, says, _ in mistakes] == [("changes/a", "`after: b` runs in a circle")]
