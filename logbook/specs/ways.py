"""What is missing for a figure, in words: each way to it on its own, where that is shorter than group by group.

In: groups of names, any one name of each unlocks it. Out: 'needs bolt_diameter, and either bolt_torque, nut_factor; or
bolt_stretch, …'.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.specs.node import Groups

_MOST = 64  # ways beyond which nobody would read them


def needs(groups: Groups) -> str:
    """'needs …', in the shorter of the two ways to say it."""
    if not groups:
        return ""
    alone = "needs " + ", ".join(" or ".join(group) for group in groups)
    found = ways(groups)
    return min((alone, _told(found)), key=len) if found else alone


def ways(groups: Groups) -> tuple[tuple[str, ...], ...]:
    """The least sets of names that hold one of each group, the shortest first; none where they are too many."""
    found: list[tuple[str, ...]] = [()]
    for group in groups:
        longer = [way if set(way) & set(group) else (*way, name) for way in found for name in group]
        found = list(_least(longer))
        if len(found) > _MOST:
            return ()
    return tuple(sorted(found, key=len))


def _least(some: Sequence[tuple[str, ...]]) -> Iterator[tuple[str, ...]]:
    """Each set once, without those that hold another one whole."""
    sets = {frozenset(way): way for way in some}
    return (way for its, way in sets.items() if not any(other < its for other in sets))


def _told(found: Sequence[tuple[str, ...]]) -> str:
    shared = [name for name in found[0] if all(name in way for way in found)]
    rest = [", ".join(name for name in way if name not in shared) for way in found]
    either = ("either " if shared else "") + "; or ".join(rest) if len(found) > 1 else ""
    return "needs " + ", and ".join(filter(None, (", ".join(shared), either)))
