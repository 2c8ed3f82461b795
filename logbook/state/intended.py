"""What the reworks of a plan are meant to leave: the figures that their steps give as `to:`, of the parts themselves.

They overrule what was measured before, as what a plan assumes of the assembled engine does; only where the part is
fitted in the plan, and only until a later step of the plan touches the same figure again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.record.facts import Fact
from logbook.state.fold import Life
from logbook.state.holding import Held
from logbook.state.owners import Owners
from logbook.state.spread import figure
from logbook.state.states import PLANNED, Reworked, State

Intended = dict[tuple[str, str], Held | None]  # by quantity and position


def intended(life: Life, state: State, plan: str | None, planned: Sequence[Reworked]) -> Intended:
    """The figures that hold because a plan means to make them so; of two the later. Without a plan none."""
    owners, found = Owners(life.arrangement, state), Intended()
    for fact in life.record.planned[plan] if plan else ():
        if fact.stated.part and fact.name != "cut_depth" and not _touched_again(fact, planned):
            found.update(_at_positions(life, owners, fact))
    return found


def _touched_again(fact: Fact, planned: Sequence[Reworked]) -> bool:
    later = (each for each in planned if each.moment[1] - PLANNED > fact.stated.step)
    return any(each.part == fact.stated.part and fact.name in each.touches for each in later)


def _at_positions(life: Life, owners: Owners, fact: Fact) -> Iterator[tuple[tuple[str, str], Held]]:
    for position in life.arrangement.positions(fact.row.place):
        piece = owners.piece_of(fact.stated.part or "", fact.row, position)
        sure = None if piece is None else figure(life.record, fact, piece)
        if sure:
            yield (fact.name, position), Held(fact, sure.value, spread_assumed=sure.assumed, overrules=True)
