"""The limits in the history: what is outside or accepted, what is not proven, what is within; and an unproven tune."""

from __future__ import annotations

from lives import EXAMPLE, Life

from logbook.documents import render
from logbook.documents.content import History
from logbook.documents.history.tune import tune_lines
from logbook.documents.history.within import limit_table
from logbook.documents.history.words import Words
from logbook.logbook import Logbook

BOOK = Logbook.open(EXAMPLE)


def rows(point: str) -> list[tuple[str, ...]]:
    table = limit_table(BOOK.at(point), Words(BOOK.record.engine))
    assert table
    return list(table.rows)


def test_the_accepted_clearance_stands_first_with_the_day_of_its_acceptance() -> None:
    assert rows("donor-head")[0] == (
        "Inlet valve to piston, least of cylinder 1", "1.900 ± 0.020 mm",
        "at least 2.0 mm (common practice, steel rods)", "outside, accepted 24 March 2018",
    )  # fmt: skip


def test_outside_comes_before_undecided_and_that_before_within() -> None:
    told = [row[3].partition(",")[0].partition(":")[0] for row in rows("donor-head")]
    order = {"outside": 0, "beyond this guide": 0, "not proven either way": 1, "within": 2}
    assert [order[each] for each in told] == sorted(order[each] for each in told)
    assert set(told) >= {"outside", "not proven either way", "within"}


def test_what_is_said_of_all_positions_is_said_in_one_word() -> None:
    squish = next(row for row in rows("donor-head") if row[0].startswith("Squish"))
    assert squish == (
        "Squish clearance, every cylinder", "0.950 ± 0.054 mm", "at least 0.90 mm (trade newsletter, steel rods)",
        "not proven either way, 97 % likely within",
    )  # fmt: skip


def test_a_guide_is_not_told_as_if_something_were_wrong() -> None:
    squish = next(row for row in rows("as-bought") if row[0].startswith("Squish") and "at most" in row[2])
    assert squish[3] == "beyond this guide: wider than that, squish does little"


def test_it_stands_on_the_page_with_the_caution(example: History) -> None:
    assert example.limits
    assert "the limits of the maker’s manual come first" in example.limits.note
    page = render.history_page(example)
    assert "Within its limits?" in page
    assert "not proven either way" in page


def test_where_no_rule_speaks_there_is_no_table() -> None:
    life = Life().part("head", "cylinder_head").work("2024-01-01", "fit: head")
    assert limit_table(life.at("now"), Words(life.book.record.engine)) is None


def test_a_tune_that_is_not_proven_says_so_where_it_is_shown() -> None:
    assert [name for name, _ in tune_lines(BOOK.at("now"))] == ["Tune"]
    (_, (name, says)) = tune_lines(BOOK.at("third-head"))
    assert name == "Careful"
    assert says.startswith("tune-4 is not proven since head-c was fitted: listen for knock")
