"""On the page: what a compression test was to show, and what the logs of oil and fuel come to."""

from __future__ import annotations

from lives import EXAMPLE, Life

from logbook.documents.content import History
from logbook.documents.history.foretelling import consumption_blocks
from logbook.documents.history.words import Words
from logbook.logbook import Logbook


def _plain(text: str) -> str:
    return text.replace("\u00a0", " ").replace("\u202f", "")


def _of(content: History, title: str) -> str:
    return next(_plain(test.sentence) for test in content.tests if test.title.startswith(title))


def test_a_compression_test_stands_beside_what_was_to_be_expected(example: History) -> None:
    told = _of(example, "Cranking pressure")
    assert "22 April 2017: 15.6 in the mean where 15.8 ± 0.6 bar gauge is to be expected after 9 April 2016" in told
    assert "(14.0 by what was known that day, as if the effective ratio were 9.39 and not 8.65 and as if the" in told
    assert "14 April 2018: 14.2 in the mean where 14.5 ± 0.7 bar gauge is to be expected after 9 April 2016." in told


def test_the_logs_are_told_where_there_are_any(example: History) -> None:
    assert all(test.anchor != "consumption" for test in example.tests)
    texts = dict(Logbook.open(EXAMPLE).record.texts)
    texts["log/fuel.csv"] = b"""date,reading,volume,level
2018-05-01,1 h,20 l,full
2018-05-08,3 h,30 l,full
2018-06-08,5 h,20 l,full
"""
    record = Logbook.of_texts(texts).record
    (block,) = consumption_blocks(record, Words(record.engine))
    assert block.title.startswith("Oil and fuel used")
    assert _plain(block.sentence) == "Fuel: 12.50 l/h over 4 h; in the last 2 h 10.00."


def test_distance_and_hours_stand_apart() -> None:
    life = Life()
    life.texts["log/oil.csv"] = (
        'date,reading,volume,level\n2024-01-01,"1000 km, 10 h",1 l,full\n2024-02-01,"3000 km, 50 h",0.5 l,full\n'
    )
    (block,) = consumption_blocks(life.book.record, Words(life.book.record.engine))
    assert _plain(block.sentence) == "Oil: 0.25 l per 1000 km over 2000 km. Oil: 0.01 l/h over 40 h."
    assert block.date == "1 January 2024 to 1 February 2024"
