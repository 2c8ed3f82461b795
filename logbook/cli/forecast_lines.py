"""What a plan forecast, beside what was found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.cli import layout
from logbook.cli.figures import figure, joined, name_of, unit_of
from logbook.judge.forecast import Score
from logbook.record.models import Engine

LEGEND = "E_n: found less forecast over both errors (ISO 13528); within 1 the forecast held."


def score_lines(scores: Sequence[Score], engine: Engine, indent: int) -> Iterator[str]:
    """A heading for each spec, and a line for each position, or one if all are alike: forecast, found, E_n, words."""
    texts = [_texts(each, engine) for each in scores]
    said, found = (max((len(text[side]) for text in texts), default=0) for side in (0, 1))
    lines = [f"{was:>{said}} → {now:<{found}}  {told}" for was, now, told in texts]
    for name in dict.fromkeys(each.name for each in scores):
        of_it = [(each, line) for each, line in zip(scores, lines, strict=True) if each.name == name]
        alike = len({line for _, line in of_it}) == 1
        yield from layout.wrapped(_heading(of_it[0][0], engine, alike and len(of_it) > 1), indent, hanging=4)
        for each, line in of_it[:1] if alike else of_it:
            yield f"{'':<{indent}}{'' if alike else each.position:>4}  {line}".rstrip()


def _texts(each: Score, engine: Engine) -> tuple[str, str, str]:
    found = joined(*figure(each.row, each.found, engine.show)) if each.found else "unknown"
    number = "" if each.e_n is None else f"E_n {each.e_n:+.2f}  "
    return joined(*figure(each.row, each.forecast, engine.show)), found, number + each.words


def _heading(each: Score, engine: Engine, alike: bool) -> str:
    its = unit_of(each.row, engine)
    return name_of(each.row, engine) + (f", {its}" if its else "") + (f", each {each.row.place}" if alike else "")
