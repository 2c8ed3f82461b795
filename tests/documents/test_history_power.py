"""Power by each standard on the page: no figure without its standard, sheets beside each other like with like."""

from __future__ import annotations

from lives import EXAMPLE, Life

from logbook.documents.history.power import power_blocks
from logbook.documents.history.words import Words
from logbook.logbook import Logbook


def block(book: Logbook):  # type: ignore[no-untyped-def]
    (found,) = power_blocks(book.life, Words(book.record.engine), book.file)
    return found


def test_the_example_by_each_standard() -> None:
    told = block(Logbook.open(EXAMPLE))
    (table,) = told.tables
    second = dict(zip((column.head for column in table.columns), table.rows[1], strict=True))
    assert second["its sheet"] == "71.0"
    assert second["of the sheet"] == "DIN 70020"
    assert second["ISO 1585"].startswith("69.2 (× 0.988)")
    assert second["SAE J1349"].endswith("†")
    plain = told.sentence.replace("\u00a0", " ")
    assert "+20.2 ± 1.9 kW like with like, by ISO 1585; sheet to sheet +22.0 kW, but by ISO 1585 and DIN" in plain
    assert "within the error" in plain


def test_a_run_with_boost_says_why_it_is_not_corrected() -> None:
    life = Life().part("blower", "turbocharger").work("2024-01-01", "fit: blower")
    life.texts["tests/2024-02-01-run.csv"] = "engine_speed rpm,torque N m\n3000,100\n"
    life.texts["tests/2024-02-01-run.yaml"] = "date: 2024-02-01\nkind: dynamometer\ndata: 2024-02-01-run.csv\n"
    told = block(life.book)
    assert "—" in told.tables[0].rows[0]
    assert "not corrected, since blower is fitted" in told.sentence


def test_no_run_no_block() -> None:
    book = Life().book
    assert power_blocks(book.life, Words(book.record.engine), book.file) == ()
