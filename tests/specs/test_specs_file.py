"""specs.yaml: the same bytes for the same record, readable as a diff, and never a figure without its error."""

from __future__ import annotations

import re

import yaml
from lives import EXAMPLE, Life

from logbook.logbook import Logbook
from logbook.record.strict_yaml import read_yaml
from logbook.specs.specs_file import specs_file


def text(book: Logbook, point: str = "now") -> str:
    return specs_file(book.at(point), "0.1.0", "f" * 64).decode()


def test_it_is_the_same_for_the_same_record_however_it_was_read() -> None:
    book = Logbook.open(EXAMPLE)
    backwards = dict(reversed(list(book.record.texts.items())))
    assert text(book) == text(Logbook.open(EXAMPLE)) == text(Logbook.of_texts(backwards))


def test_it_is_yaml_that_our_own_reader_reads() -> None:
    tree, findings = read_yaml(text(Logbook.open(EXAMPLE)).encode(), "specs.yaml")
    assert findings == ()
    assert isinstance(tree, dict)
    assert tree["after"] == "changes/2020-03-07-sold"
    assert tree["build"] == "third-head"
    ratio = tree["specs"]["mean_compression_ratio"]
    assert (ratio["value"], ratio["plus_minus"], list(ratio)[-1]) == ("10.843", "0.075", "rests_on")
    assert yaml.safe_load(text(Logbook.open(EXAMPLE)))["record_fingerprint"] == "f" * 64


def test_it_names_no_clock_and_no_path() -> None:
    said = text(Logbook.open(EXAMPLE))
    assert not re.search(r"\d\d:\d\d", said)
    assert "/work" not in said
    assert "example_engine" not in said


def test_two_digits_of_the_error_and_the_value_to_the_same_place() -> None:
    for value, plus_minus in re.findall(r"(?:: |value: )(-?[\d.]+)(?: ±|\n +plus_minus:) ([\d.]+)",
                                        text(Logbook.open(EXAMPLE))):  # fmt: skip
        assert len(plus_minus.replace(".", "").lstrip("0")) <= 3
        assert len(value.partition(".")[2]) == len(plus_minus.partition(".")[2])


def test_one_fact_more_changes_the_lines_that_rest_on_it_and_no_other() -> None:
    life = Life(1, "single").part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    life.part("rods", "connecting_rods", rod_length="134 mm").work(
        "2024-01-01", "fit: block", "fit: crank", "fit: rods"
    )
    before = text(life.book)
    life.measure("2024-01-02", "block", bore="80.5 mm")
    was, now = specs_of(before), specs_of(text(life.book))
    changed = {name for name in now if now[name] != was[name]}
    assert changed == {"displacement", "swept_volume", "bore_stroke_ratio"}


def specs_of(said: str) -> dict[str, object]:
    found: dict[str, object] = yaml.safe_load(said)["specs"]
    return found


def test_what_is_missing_is_said_in_its_place() -> None:
    life = Life(1, "single").part("block", "block", bore="80 mm").work("2024-01-01", "fit: block")
    assert "  displacement:\n    missing: stroke\n" in text(life.book)


def test_before_anything_is_fitted_it_is_still_a_file() -> None:
    assert "fitted: []\n" in text(Life().book)


def test_out_of_date_is_written() -> None:
    life = Life(1, "single").part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    life.work("2024-01-01", "fit: block", "fit: crank", "rework: block, operation: bored")
    assert re.search(r"  displacement:\n(?:    .*\n)*    out_of_date: yes\n", text(life.book))
