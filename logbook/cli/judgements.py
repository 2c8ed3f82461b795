"""The limits under the specs: what is outside, what no reading proves either way, what is within; and their JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from logbook.cli import layout
from logbook.judge import limit_words
from logbook.judge.limit_checks import in_order, together
from logbook.judge.limit_rules import GUIDE
from logbook.judge.limits import OUTSIDE, UNDECIDED, Judged, judged
from logbook.judge.places import at_positions
from logbook.judge.settling import settles
from logbook.judge.tuned import CAUTION as TAKE_CARE
from logbook.judge.tuned import unproven
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.quantity.usage import Usage
from logbook.specs.configuration import Configuration


def limit_lines(at: Configuration) -> Iterator[str]:
    """What is not within its limit, each with its rule, then in one paragraph what is; a tune that is not proven."""
    groups = together(judged(at))
    if groups:
        yield from ("", layout.title("Limits"), *_limits(at, groups))
    found = unproven(at)
    if found:
        yield from ("", *layout.wrapped(f"Careful: {found.tune.label} is {found.words}; {TAKE_CARE}."))


def broken(at: Configuration, before: Configuration | None = None) -> Iterator[str]:
    """A sentence for each limit that an answer is outside of; `before`: the engine as it stands without it.

    A guide that it is beyond already says nothing of the answer.
    """
    already = {some[0].limit.id for some in _outside(before)} if before else set()
    for some in _outside(at):
        if some[0].limit.id not in already:
            yield f"{_told(at, some)}."
        elif some[0].limit.weight != GUIDE:
            yield f"As it is already: {_told(at, some)}."


def _outside(at: Configuration) -> Iterator[tuple[Judged, ...]]:
    return (some for some in together(judged(at)) if some[0].verdict == OUTSIDE)


def _limits(at: Configuration, groups: list[tuple[Judged, ...]]) -> Iterator[str]:
    beyond = [some for verdict in (OUTSIDE, UNDECIDED) for some in groups if some[0].verdict == verdict]
    for some in beyond:
        yield from layout.wrapped(_told(at, some), indent=2, hanging=4)
        if some[0].verdict == UNDECIDED and some[0].limit.weight != GUIDE:
            yield from layout.wrapped(settles(at, some[0]), indent=6)
    if any(some[0].limit.danger for some in beyond):
        yield from layout.wrapped("Careful: limits guard the engine and you; the maker's manual comes first.", indent=2)
    told = {_name(at, some[0]) for some in beyond}
    within = [name for name in dict.fromkeys(_name(at, some[0]) for some in groups) if name not in told]
    if within:
        yield from layout.wrapped(f"Within their limits: {'; '.join(within)}.", indent=2, hanging=2)


def _told(at: Configuration, some: tuple[Judged, ...]) -> str:
    worst, its = some[0], at.life.record.engine.usage
    places = at_positions(at.life.arrangement, worst.row, in_order(some))
    least = "at worst " if len(some) > 1 else ""
    source = f" ({worst.limit.source})" if worst.limit.source else ""
    said = f"{limit_words.figure_of(worst, its)}; {limit_words.bounds_of(worst, its)}{source}"
    return f"{_name(at, worst)}{places}: {least}{said}: {_verdict(worst, its)}"


def _verdict(each: Judged, usage: Usage) -> str:
    """Beyond a guide nothing is wrong: then why it is one."""
    is_guide = each.verdict == OUTSIDE and each.limit.weight == GUIDE
    return f"beyond this guide; {usage.prose(each.limit.remark)}" if is_guide else limit_words.verdict_of(each)


def _name(at: Configuration, each: Judged) -> str:
    return limit_words.name_of(each, at.life.record.engine.usage)


def limits_shape(at: Configuration) -> list[dict[str, Any]]:
    """`limits` of the documented shape: one for each figure that a limit speaks of."""
    return [_shape(at, each) for each in judged(at)]


def _shape(at: Configuration, each: Judged) -> dict[str, Any]:
    return {
        "limit": each.limit.id,
        "spec": each.limit.spec,
        "position": each.position or None,
        "unit": each.row.unit,
        "value": _usual(each, each.value),
        "uncertainty": float(f"{each.value.expanded / _scale(each):.12g}"),
        "low": _usual(each, each.low),
        "high": _usual(each, each.high),
        "verdict": each.verdict,
        "likely": round(each.standing.likely, 6),
        "source": each.limit.source,
        "own": each.limit.own,
        "accepted": _accepted(each),
        "settles": settles(at, each) if each.verdict == UNDECIDED else None,
    }


def _accepted(each: Judged) -> dict[str, Any] | None:
    said = each.accepted
    if said is None:
        return None
    return {"entry": said.entry.id, "date": str(said.entry.says.date), "value": said.value, "why": said.why,
            "ended": said.ended or None}  # fmt: skip


def _usual(each: Judged, value: Uncertain | None) -> float | None:
    if value is None:
        return None
    return float(f"{unit(each.row.unit).from_base(value.nominal) if each.row.unit else value.nominal:.12g}")


def _scale(each: Judged) -> float:
    return unit(each.row.unit).size(1.0) if each.row.unit else 1.0
