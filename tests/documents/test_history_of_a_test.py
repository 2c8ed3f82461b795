"""On the page: what a run and a leak-down test come to by their own figures."""

from __future__ import annotations

from lives import EXAMPLE

from logbook.documents.content import History
from logbook.documents.history.of_a_test import leak_sentences, power_sentences
from logbook.documents.history.words import Words
from logbook.judge.of_a_test import leak_tests
from logbook.logbook import Logbook

RUN = "tests/2016-05-21-baseline.yaml"
LEAK = "tests/2016-04-09-leak-down.yaml"


def _of(content: History, title: str) -> str:
    told = next(test.sentence for test in content.tests if test.title.startswith(title))
    return told.replace("\u00a0", " ").replace("\u202f", "")


def test_a_run_by_the_size_of_the_engine(example: History) -> None:
    told = _of(example, "Greatest power")
    assert (
        "21 May 2016, as observed: at greatest torque brake mean effective pressure 8.06 ± 0.18 bar; at greatest power "
        "31.31 ± 0.70 kW/l."
    ) in told


def test_what_was_corrected_before_it_was_written_down_is_not_called_observed() -> None:
    texts = dict(Logbook.open(EXAMPLE).record.texts)
    texts[RUN] = texts[RUN].replace(b"conditions:\n", b"conditions:\n  corrected: STD\n")
    book = Logbook.of_texts(texts)
    told = next(power_sentences(book.life, Words(book.record.engine), book.file))
    assert told.startswith("21 May 2016, as read, corrected to SAE J607 already: at greatest torque")


def test_a_missing_orifice_is_said(example: History) -> None:
    told = _of(example, "Leak-down")
    assert "9 April 2016: most less least 18.0 ± 2.4 %." in told
    assert "without figures for the orifice of the leak-down tester" in told


def test_with_orifice_and_supply_the_leaks_have_a_size() -> None:
    texts = dict(Logbook.open(EXAMPLE).record.texts)
    plain = b"values: {leak_down: 6 / 7 / 6 / 24 %}"
    assert plain in texts[LEAK]
    stated = b"values: {leak_down: 100 / 7 / 6 / 25 %, leak_down_orifice: 1.016 mm, leak_down_supply: 5.5158 bar gauge}"
    texts[LEAK] = texts[LEAK].replace(plain, stated)
    book = Logbook.of_texts(texts)
    first, *_ = leak_tests(book.life, book.file)
    areas = [round(area.nominal * 1e6, 3) if area else None for area in first.areas]
    assert not first.missing
    assert (areas[0], areas[3]) == (
        None,
        0.859,
    )  # 60 of 80 psi behind 0.040 in: as on the page of leak_area, into 100 kPa
    told = next(leak_sentences(book.life, Words(book.record.engine), first.instrument, book.file))
    assert "leaks of —, " in told
