"""How good a forecast was, in the history."""

from __future__ import annotations

from lives import Life

from logbook.documents.figures import NO_BREAK, THIN
from logbook.documents.history.fill import history


def twin() -> Life:
    life = Life(1, "single").part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    life.work("2024-01-01", "fit: block", "fit: crank")
    life.texts["plans/bored.yaml"] = "title: Bored\ndate: 2024-01-02\nwork: [{rework: block, operation: bored}]\n"
    life.texts["changes/2024-02-01-bored.yaml"] = (
        "date: 2024-02-01\ntitle: Bored\nforecast:\n  from: plan:bored\n  assume: {bore: 81 mm}\n"
        "  specs: {displacement: 407.1 ± 1.0 cc}\nwork: [{rework: block, operation: bored}]\n"
    )
    return life


def told(life: Life) -> str:
    (block,) = (each for each in history(life.book).changes if each.title == "Bored")
    return block.forecast.replace(NO_BREAK, " ").replace(THIN, "")


def test_a_forecast_stands_beside_what_was_found() -> None:
    life = twin()
    assert told(life) == ("Forecast of engine capacity: 407.1 ± 1.0 cc; not measured since. "
                          "That forecast took for granted: bore.")  # fmt: skip
    life.measure("2024-02-02", "block", bore="81.10 ± 0.01 mm")
    assert told(life).startswith("Forecast of engine capacity: 407.1 ± 1.0 cc; found 408.")
    assert ", held. That forecast" in told(life)


def test_where_it_rested_on_a_mistake_it_is_told_what_it_should_have_been() -> None:
    """A stroke read 10 mm too long: 80² π/4 × 89 is 447.4 cc; with the 79 mm of the papers 397.1 cc."""
    life = twin().measure("2024-01-15", "crank", stroke="89.00 ± 0.02 mm")
    file = "changes/2024-02-01-bored.yaml"
    life.texts[file] = life.texts[file].replace("407.1 ± 1.0 cc", "447.4 ± 1.0 cc")
    correct = f"correct: {{entry: {life.last}, part: crank, quantity: stroke, why: read from the wrong end}}"
    life.measure("2024-02-02", "block", bore="80.00 ± 0.01 mm").work("2024-02-03", correct)
    said = told(life)
    assert "Forecast of engine capacity: 447.4 ± 1.0 cc; found 397." in said
    assert "missed; it rested on stroke (crank, corrected 2024-02-03), and with that right would have been 397." in said
    assert said.endswith("held. That forecast took for granted: bore.")
