"""What a plan forecast, beside what was found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.cli import layout
from logbook.cli.figures import figure, joined, name_of, unit_of
from logbook.judge.forecast import Score, judged
from logbook.quantity.uncertain import Uncertain
from logbook.record.models import Engine
from logbook.specs.results import Value

LEGEND = "E_n: found less forecast over both errors (ISO 13528); within 1 the forecast held, beyond 1 it missed."

_Texts = tuple[str, str, str]  # forecast, found, how good it was


def score_lines(scores: Sequence[Score], engine: Engine, indent: int) -> Iterator[str]:
    """A heading for each spec, and a line for each position, or one if all are alike: forecast, found, E_n, words.

    Where it rested on a figure that was corrected since, the same once more with that figure right.
    """
    for name in dict.fromkeys(each.name for each in scores):
        yield from _of_spec([each for each in scores if each.name == name], _columns(scores, engine), engine, indent)


def _columns(scores: Sequence[Score], engine: Engine) -> tuple[int, int]:
    """How wide the forecasts and what was found are, so that all specs share their columns."""
    texts = [_texts(each, side, None, engine) for each in scores for side in (each.forecast, each.anew)]
    said, found = (max((len(text[side]) for text in texts), default=0) for side in (0, 1))
    return said, found


def _of_spec(some: Sequence[Score], wide: tuple[int, int], engine: Engine, indent: int) -> Iterator[str]:
    texts = [_texts(each, each.forecast, each.e_n, engine) for each in some]
    yield from layout.wrapped(_heading(some[0], engine, len(set(texts)) == 1 < len(some)), indent, hanging=4)
    yield from _lines(some, texts, wide, indent)
    touched = [each for each in some if each.mistakes]
    if touched:
        mistakes = dict.fromkeys(words for each in touched for words in each.mistakes)
        yield from layout.wrapped(f"rested on {', '.join(mistakes)}; with that right:", indent + 6, hanging=2)
        yield from _lines(touched, [_texts(each, each.anew, each.e_n_anew, engine) for each in touched], wide, indent)


def _lines(scores: Sequence[Score], texts: Sequence[_Texts], wide: tuple[int, int], indent: int) -> Iterator[str]:
    alike = len(set(texts)) == 1
    for each, (was, now, told) in list(zip(scores, texts, strict=True))[: 1 if alike else None]:
        yield f"{'':<{indent}}{'' if alike else each.position:>4}  {was:>{wide[0]}} → {now:<{wide[1]}}  {told}".rstrip()


def _texts(each: Score, forecast: Uncertain | Value | None, e_n: float | None, engine: Engine) -> _Texts:
    said, found = (joined(*figure(each.row, value, engine.show)) if value else "unknown"
                   for value in (forecast, each.found))  # fmt: skip
    number = "" if e_n is None else f"E_n {e_n:+.2f}  "
    return said, found, number + judged(e_n)


def _heading(each: Score, engine: Engine, alike: bool) -> str:
    its = unit_of(each.row, engine)
    return name_of(each.row, engine) + (f", {its}" if its else "") + (f", each {each.row.place}" if alike else "")
