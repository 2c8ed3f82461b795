"""What many configurations of one engine have in common: a value is worked out once for all that cannot tell it apart.

Configurations that differ only in which parts of some kinds are fitted agree in every value that rests on other kinds.
A figure that says for which parts it was stated (`stated_for`) holds with these alone, and one that is written down of
a part of another kind than its quantity's with that part, so nothing that may rest on one is shared.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Union

from logbook.record.facts import Fact
from logbook.record.record import Record
from logbook.specs.dependence import kinds_under, names_under, owners_of

Under = tuple[str, ...]
Kept = Union[dict[tuple[str, str], Any], "Known"]  # of one configuration alone, or with others


class Common:
    """What was found so far in all of them. `kinds`: the kinds of part in which they differ."""

    def __init__(self, kinds: tuple[str, ...], record: Record) -> None:
        self.kinds = kinds
        self._of_these_parts = {
            name for name, facts in record.facts.items() if any(_of_parts_beside(record, fact) for fact in facts)
        }
        self.found: dict[tuple[tuple[str, str], Under], Any] = {}
        self._under: dict[str, Under] = {}

    def under(self, name: str) -> Under:
        """Which of these kinds a value of `name` may rest on."""
        if name not in self._under:
            every = not self._of_these_parts.isdisjoint(names_under(name))
            self._under[name] = tuple(kind for kind in self.kinds if every or kind in kinds_under(name))
        return self._under[name]


def _of_parts_beside(record: Record, fact: Fact) -> bool:
    """Whether a figure holds with parts of other kinds than its quantity's."""
    part = record.parts.get(fact.stated.part or "")
    return bool(fact.stated.stated_for) or (part is not None and part.kind not in owners_of(fact.name))


class Known:
    """What one configuration knows, by a key that names the quantity; filled by all that have the same parts under it.

    `parts`: what it has fitted of each kind in which they differ.
    """

    def __init__(self, common: Common, parts: Mapping[str, str]) -> None:
        self._common, self._parts = common, parts
        self._fitted: dict[str, Under] = {}

    def get(self, key: tuple[str, str]) -> Any:
        return self._common.found.get((key, self._its(key[0])))

    def __setitem__(self, key: tuple[str, str], found: object) -> None:
        self._common.found[key, self._its(key[0])] = found

    def _its(self, name: str) -> Under:
        if name not in self._fitted:
            self._fitted[name] = tuple(self._parts[kind] for kind in self._common.under(name))
        return self._fitted[name]
