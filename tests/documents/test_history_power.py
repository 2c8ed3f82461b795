"""Power by each standard on the page: no figure without its standard, sheets beside each other like with like."""

from __future__ import annotations

from lives import EXAMPLE, Life

from logbook.documents.history.power import power_blocks
from logbook.documents.history.trending import hourly_rates, trend_sentences
from logbook.documents.history.words import Words
from logbook.logbook import Logbook
from logbook.quantity.catalogue import quantity


def block(book: Logbook):  # type: ignore[no-untyped-def]
    (found,) = power_blocks(book.life, Words(book.record.engine), book.file)
    return found


def test_the_example_by_each_standard() -> None:
    told = block(Logbook.open(EXAMPLE))
    (table,) = told.tables
    heads = [column.head for column in table.columns]
    second, factors = (dict(zip(heads, row, strict=True)) for row in table.rows[2:4])
    assert second["its sheet"] == "71.0"
    assert factors["run"] == "its sheet by DIN 70020"
    assert (second["ISO 1585"], factors["ISO 1585"]) == ("69.2", "×\u00a00.988")
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


def test_a_trend_is_told_with_its_interval_of_five_tests_and_more() -> None:
    life = Life(2)
    for month in range(1, 7):
        pressures = f"{12.0 + 0.1 * (-1) ** month:.1f} / {12.0 - 0.2 * month:.1f}"
        life.texts[f"tests/2024-{month:02}-10-cranked.yaml"] = (
            f"date: 2024-{month:02}-10\nkind: compression test\nreading: {10 * month} h\noil: dry\n"
            f"values: {{cranking_pressure: {pressures} bar gauge}}\n"
        )
    said = trend_sentences(life.fold, Words(life.book.record.engine), quantity("cranking_pressure"), "")
    steady, falling = (each.replace("\u00a0", " ") for each in said)
    assert "no trend is proven" in steady
    assert falling.startswith("Cylinder 2: −2.00 bar gauge in 100 h (−2.00 to −2.00, 95 %), over 6 tests")
    assert "no trend" not in falling


def test_metal_in_the_oil_for_each_hour_on_it() -> None:
    life = Logbook.open(EXAMPLE).life
    (number,) = (each for each, entry in enumerate(life.record.entries) if entry.id.endswith("oil-analysis"))
    assert hourly_rates(life, number)["iron"] == "1.85 mg/kg"
    assert hourly_rates(life, 0) == {}
