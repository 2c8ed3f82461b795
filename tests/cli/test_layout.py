"""The columns of the terminal: points under each other, words within the width, cells shared evenly."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from lives import Life

from logbook.cli.effects import effect_lines
from logbook.cli.layout import WIDTH, across, beside, pointed, titled, wrapped
from logbook.judge.compare import Difference, sides
from logbook.quantity.catalogue import quantity
from logbook.specs.results import Value

NUMBERS = st.lists(st.from_regex(r"-?[0-9]{1,5}(\.[0-9]{1,5})?", fullmatch=True), min_size=1, max_size=20)
WORDS = st.lists(st.text("abcdefgh", min_size=1, max_size=12), min_size=1, max_size=40).map(" ".join)


@given(NUMBERS)
def test_points_stand_under_each_other(numbers: list[str]) -> None:
    set_ = pointed(numbers)
    lines = [set_(number) for number in numbers]
    assert len({len(line) for line in lines}) == 1
    assert [line.strip() for line in lines] == numbers
    points = {line.index(".") for line in lines if "." in line}
    assert len(points) <= 1
    ends = {len(line.rstrip()) for line in lines if "." not in line}
    assert len(ends | points) <= 1


@given(WORDS, st.integers(0, 10), st.integers(0, 10))
def test_no_word_is_lost_and_no_line_is_too_wide(words: str, indent: int, hanging: int) -> None:
    lines = wrapped(words, indent, hanging)
    assert " ".join(" ".join(lines).split()) == words
    assert all(len(line) <= WIDTH for line in lines)
    assert lines[0].startswith(" " * indent)
    assert all(line.startswith(" " * (indent + hanging)) for line in lines[1:])


@given(st.integers(1, 16), st.integers(4, 30), st.integers(1, 2))
def test_cells_share_the_lines_evenly(number: int, width: int, rows: int) -> None:
    cells = [[f"{place:x}".ljust(width, "-")] * rows for place in range(number)]
    lines = across(cells, indent=5)
    counts = [len(line.split()) for line in lines[::rows]]
    assert sum(counts) == number
    assert max(counts) - counts[-1] < len(counts)
    assert all(len(line) <= WIDTH for line in lines)


def test_six_cylinders_stand_three_and_three() -> None:
    assert across([[f"{place}  1.05{place}91"] for place in range(1, 7)], indent=5) == [
        "     1  1.05191   2  1.05291   3  1.05391   4  1.05491   5  1.05591   6  1.05691",
    ]
    assert across([["1  0.05", " ±  0.02"], ["2  0"]], indent=1) == [" 1  0.05    2  0", "  ±  0.02"]  # one without ±
    assert [len(line.split()) for line in across([[f"{place:<14}x"] for place in range(1, 7)], indent=5)] == [6, 6]


def test_a_name_beside_its_words() -> None:
    assert beside("main jet", 10, "135 → 140") == ["  main jet    135 → 140"]
    assert [len(line) - len(line.lstrip()) for line in beside("tune", 4, "word " * 30)] == [2, 8, 8]


def turned(name: str, was: float, now: float, standard: float) -> Difference:
    row = quantity(name)
    before, after = (Value(each, {key: standard}, "published", {}, False, False, frozenset({key}))
                     for each, key in ((was, "a"), (now, "b")))  # fmt: skip
    return sides(name, row, {"1": before}, {"1": after})


def test_specs_share_their_columns_where_a_line_fits_so_and_else_each_has_its_own() -> None:
    """Millions on the left of the point and millionths on the right of it, in columns for both, are over 80 wide."""
    engine = Life(1, "single").book.record.engine
    near = [turned("rod_ratio", 1.9, 1.7, 0.001), turned("compression_ratio", 9.0, 10.0, 0.001)]
    far = [turned("rod_ratio", 1.9, 1.7, 1e-7), turned("greatest_piston_acceleration", 1e6, 9e6, 1e4)]
    for effect, alike in ((near, True), (far, False)):
        lines = [line for line in effect_lines(effect, engine, 4) if "→" in line]
        assert len(lines) == 2
        assert all(len(line) <= WIDTH for line in lines)
        assert (len({line.index("→") for line in lines}) == 1) is alike


def test_a_long_title_goes_on_below() -> None:
    lines = titled(" ".join(["word"] * 40))
    assert len(lines) == 3
    assert sum(line.count("word") for line in lines) == 40
