"""The limits of the engine now, as a small table: the figure, the rule, the judgement."""

from __future__ import annotations

from logbook.documents.history.words import Words, as_written, capital, day
from logbook.documents.pieces import Column, Table
from logbook.judge.limit_checks import in_order, together
from logbook.judge.limit_rules import GUIDE
from logbook.judge.limit_words import bounds_of, likely_of, name_of
from logbook.judge.limits import OUTSIDE, UNDECIDED, Judged, judged
from logbook.judge.places import at_positions
from logbook.specs.configuration import Configuration

_COLUMNS = (Column("What"), Column("Figure"), Column("Limit"), Column("Judgement"))
_NOTE = (
    "Of several positions the one that lies worst. Within or outside is said only where the ± leaves no doubt of it. "
    "Rules of thumb are general: the limits of the maker’s manual come first."
)


def limit_table(at: Configuration, words: Words) -> Table | None:
    """What is outside first, then what is not proven either way, then what is within; None where no rule speaks."""
    groups = sorted(together(judged(at)), key=lambda some: _rank(some[0]))
    return Table(_COLUMNS, tuple(_row(at, words, some) for some in groups), _NOTE) if groups else None


def _rank(each: Judged) -> int:
    return [OUTSIDE, UNDECIDED].index(each.verdict) if each.verdict in (OUTSIDE, UNDECIDED) else 2


def _row(at: Configuration, words: Words, some: tuple[Judged, ...]) -> tuple[str, ...]:
    worst = some[0]
    name = capital(name_of(worst, words)) + _places(at, some)
    value, plus_minus = words.pair(worst.row, worst.value)
    figure = f"{value} ± {plus_minus}" if plus_minus else value
    rule = f"{bounds_of(worst, words)} ({worst.limit.source})" if worst.limit.source else bounds_of(worst, words)
    return name, f"{figure} {words.symbol(worst.row)}".rstrip(), as_written(rule), _judgement(worst, words)


def _places(at: Configuration, some: tuple[Judged, ...]) -> str:
    """Which positions it is; of all of them in one word."""
    row, places = some[0].row, in_order(some)
    whole = len(places) > 1 and len(places) == len(at.life.arrangement.positions(row.place))
    return f", every {row.place}" if whole else at_positions(at.life.arrangement, row, places)


def _judgement(each: Judged, words: Words) -> str:
    if each.verdict == UNDECIDED:
        return f"not proven either way, {likely_of(each)}"
    if each.verdict == OUTSIDE and each.accepted and not each.accepted.ended:
        return f"outside, accepted {day(each.accepted.entry.says.date)}"
    is_guide = each.verdict == OUTSIDE and each.limit.weight == GUIDE
    return f"beyond this guide: {words.prose(each.limit.remark)}" if is_guide else each.verdict
