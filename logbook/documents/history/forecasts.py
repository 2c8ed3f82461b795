"""How good a forecast was: what the plan said that a change carried out, beside what was found since."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.documents.figures import joined
from logbook.documents.history.words import Words
from logbook.judge.forecast import Score, judged
from logbook.judge.timeline import TOLD, Happening


def forecast_lines(words: Words, happening: Happening) -> Iterator[str]:
    """The leading specs, each once: of several positions the one that was missed by most."""
    told = [score for score in happening.scores if score.name in TOLD]
    for name in dict.fromkeys(score.name for score in told):
        worst = max((score for score in told if score.name == name), key=lambda score: abs(score.e_n or 0.0))
        yield _line(words, worst)
    assumed = happening.entry.says.forecast.assume if told else {}
    if assumed:
        yield f"That forecast took for granted: {', '.join(name.replace('_', ' ') for name in assumed)}"


def _line(words: Words, score: Score) -> str:
    """'Forecast of compression ratio: 11.30 ± 0.15; found 11.19 ± 0.08, E_n −0.6, held'."""
    place = f", {score.row.place} {score.position}" if score.position else ""
    said = joined(*words.pair(score.row, score.forecast), words.symbol(score.row))
    if score.e_n is None or score.found is None:
        return f"Forecast of {words.name(score.row)}{place}: {said}; {score.words}"
    found = joined(*words.pair(score.row, score.found), words.symbol(score.row))
    line = f"Forecast of {words.name(score.row)}{place}: {said}; found {found}, {_judged(score.e_n)}"
    return line + _with_hindsight(words, score)


def _with_hindsight(words: Words, score: Score) -> str:
    """What it would have been without the figures that were corrected later."""
    if score.anew is None or score.e_n_anew is None:
        return ""
    better = joined(*words.pair(score.row, score.anew), words.symbol(score.row))
    rested = f"it rested on {', '.join(score.mistakes)}"
    return f"; {rested}, and with that right would have been {better}, {_judged(score.e_n_anew)}"


def _judged(e_n: float) -> str:
    number = f"{e_n:+.1f}".replace("-", "−")
    return f"E_n {number}, {judged(e_n)}"
