"""Stretches of a figure's life: from one rework that touches it to the next.

In: reworks, and the parts that own a figure. Out: the reworks that a figure had behind it at a moment. Figures with the
same reworks behind them speak of the same metal.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property

from logbook.record.facts import Fact
from logbook.state.states import Moment, Reworked


@dataclass(frozen=True)
class Stretches:
    """The reworks of one life, and those that are only planned and count for `now` alone."""

    done: tuple[Reworked, ...]
    planned: tuple[Reworked, ...] = ()

    def worked_on(self, name: str) -> bool:
        """Whether any work ever touched a quantity."""
        return name in self._by_name

    def seen(self, parts: Collection[str], fact: Fact, until: Moment, *, now: bool = False) -> list[Reworked]:
        """The reworks of the fact's quantity that its owners had seen by a moment; planned ones only now."""
        owners, assembled = {*parts} or {""}, fact.stated.part is None
        return [
            rework
            for rework in self._by_name.get(fact.name, ())
            if rework.moment <= until
            and (now or rework not in self.planned)
            and rework.part in owners
            and (assembled or not rework.adjusted)
        ]

    @cached_property
    def _by_name(self) -> Mapping[str, list[Reworked]]:
        """Reworks by the quantity they touch."""
        by_name: dict[str, list[Reworked]] = {}
        for rework in (*self.done, *self.planned):
            for name in rework.touches:
                by_name.setdefault(name, []).append(rework)
        return by_name
