"""What an entry did: the leading specs before and after, with their difference and its verdict; the rest in a sentence.

Of a spec that is one for each cylinder the mean is told. What has a value on one side only has no difference, and
stands in the sentence.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from logbook.documents.content import EffectRow
from logbook.documents.figures import joined
from logbook.documents.history.words import OUTSIDE, Words, bracketed, capital, listed, outside_note
from logbook.judge.compare import IF_PUBLISHED, REAL, Difference
from logbook.judge.means import mean_difference
from logbook.judge.timeline import BELIEF, TOLD, Happening
from logbook.specs.results import Value

_MOST_ROWS = 8
_MOST_NAMED = 6


def effect_title(happening: Happening) -> str:
    """Which of the two is told: what work did, or what is known since."""
    if not happening.effect:
        return ""
    return "What is known since" if happening.told_as == BELIEF else "What it did"


def effect_rows(words: Words, happening: Happening) -> tuple[tuple[EffectRow, ...], str]:
    """The specs that have a value on both sides, and a sentence about the others."""
    effect = {name: each for name, each in happening.effect.items() if f"mean_{name}" not in happening.effect}
    means = {name: mean_difference(each) for name, each in effect.items()}
    both = {name: each for name, each in means.items() if each.before[0] and each.after[0]}
    shown = _leading(both)
    rows = tuple(_row(words, each) for name, each in both.items() if name in shown)
    others = [each for name, each in both.items() if name not in shown]
    notes = _outside(each for name, each in both.items() if name in shown)
    return rows, " ".join([*_one_sided(words, means, happening.told_as), *_also(words, others), *notes])


def _outside(shown: Iterable[Difference]) -> Iterator[str]:
    """The reasons behind the marks, each once."""
    values = [value for each in shown for value in (each.before[0], each.after[0]) if value]
    note = outside_note(*values)
    if note:
        yield f"{note}."


def _leading(both: Mapping[str, Difference]) -> list[str]:
    """What stands for the others, then what really changed."""
    told = [name for name in TOLD if name in both]
    strong = [name for name, each in both.items() if each.verdicts[0] in (REAL, IF_PUBLISHED) and name not in told]
    return (told + [name for name in strong if not _is_proportion(both[name])])[:_MOST_ROWS]


def _is_proportion(each: Difference) -> bool:
    """A bare ratio that only follows from two lengths."""
    return each.row.derived_only and each.row.kind == "ratio"


def _row(words: Words, each: Difference) -> EffectRow:
    before, after, delta = each.before[0], each.after[0], each.differences[0]
    assert before is not None  # for the type checker: the row was chosen because it has all three
    assert after is not None
    assert delta is not None
    return EffectRow(
        capital(_title(words, each)) + (f" {OUTSIDE}" if outside_note(before, after) else ""),
        words.symbol(each.row),
        words.figure(each.row, before),
        words.figure(each.row, after),
        words.difference(each.row, delta),
        each.verdicts[0] or "",
        each.verdicts[0] == REAL,
    )


def _title(words: Words, each: Difference) -> str:
    side = f", {each.row.sides[0]} +" if each.row.sides else ""
    mean = ", mean" if each.row.place != "engine" else ""
    return words.short(each.row) + side + mean


# --- the sentence ----------------------------------------------------------------------------------------------------


def _one_sided(words: Words, means: Mapping[str, Difference], told_as: str) -> Iterator[str]:
    """What is known from here on, and what no longer is."""
    since = "Known since" if told_as == BELIEF else "Known from here on"
    gone = "No longer known" if told_as == BELIEF else "Cannot be worked out after it"
    found = [_known(words, means[name]) for name in TOLD if name in means and not means[name].before[0]]
    lost = [words.name(each.row).split(",")[0] for each in means.values() if not each.after[0]]
    if found:
        yield f"{since}: {'; '.join(found)}."
    if lost:
        yield f"{gone}: {listed(_few(list(dict.fromkeys(lost))))}."


def _known(words: Words, each: Difference) -> str:
    value: Value | None = each.after[0]
    return f"{_title(words, each)} {joined(*words.pair(each.row, value), words.symbol(each.row)) if value else ''}"


def _also(words: Words, others: list[Difference]) -> Iterator[str]:
    if others:
        yield f"Also changed: {listed(_few([bracketed(words.name(each.row)) for each in others]))}."


def _few(names: list[str]) -> list[str]:
    more = len(names) - _MOST_NAMED + 1
    return names if more < 2 else [*names[: _MOST_NAMED - 1], f"{more} more"]
