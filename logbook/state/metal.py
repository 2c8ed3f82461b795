"""What has come off a surface of a part, and what may still come off.

The joint face of a head and the deck of a block: each cut of known depth adds to what was removed before. In: a life
and a part. Out: a Surface. A part is worked on off the engine, so this is asked of the part, not of a place in the
engine.
"""

from __future__ import annotations

from typing import NamedTuple

from logbook.quantity.uncertain import Uncertain
from logbook.record.facts import Fact
from logbook.record.operations import SURFACES
from logbook.state.fold import Life
from logbook.state.sayings import mistakes
from logbook.state.spread import figure
from logbook.state.states import BEFORE_ALL, END_OF_ENTRY, Moment, Reworked, moment_of

_END: Moment = (END_OF_ENTRY, 0)
_NOTHING = Uncertain(0.0)


class Surface(NamedTuple):
    """Metal of one surface, in m. `at_least`: something came off that nobody measured, so more may be gone."""

    name: str
    metal_removed: Uncertain
    at_least: bool
    limit: Fact | None = None
    metal_left: Uncertain | None = None  # None: the part states no limit


def surface(life: Life, part: str, until: Moment = _END, planned: tuple[Reworked, ...] = ()) -> Surface | None:
    """The surface of a part that is cut, as it stands at a moment; None for a part that has none."""
    its = SURFACES.get(life.record.parts[part].kind)
    if its is None:
        return None
    start = _latest(life, part, its.removed, until)
    since = moment_of(start) if start else BEFORE_ALL
    cuts = [
        each for each in (*life.reworks, *planned)
        if each.part == part and each.operation == its.operation and since < each.moment <= until
    ]  # fmt: skip
    depths = [each.depth and figure(life.record, each.depth, 0) for each in cuts]
    known = [each.value for each in depths if each]
    begun = figure(life.record, start, 0) if start else None
    removed = _sum([begun.value if begun else _NOTHING, *known])
    limit = _latest(life, part, its.limit, until)
    most = figure(life.record, limit, 0) if limit else None
    left = most.value - removed if most else None
    return Surface(its.name, removed, begun is None or len(known) < len(cuts), limit, left)


def _latest(life: Life, part: str, name: str, until: Moment) -> Fact | None:
    """The last word on a figure of a part, up to a moment; an unknown is none."""
    wrong = mistakes(life.record)
    said = [
        fact for fact in life.record.facts.get(name, ())
        if fact.stated.part == part and not fact.unknown and id(fact) not in wrong and moment_of(fact) <= until
    ]  # fmt: skip
    return max(said, key=moment_of, default=None)


def _sum(some: list[Uncertain]) -> Uncertain:
    terms: dict[str, float] = {}
    for each in some:
        for key, term in each.terms.items():
            terms[key] = terms.get(key, 0.0) + term
    return Uncertain(sum(each.nominal for each in some), terms)
