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
        self._found: dict[tuple[Under, Under], dict[tuple[str, str], Any]] = {}
        self._under: dict[str, Under] = {}

    def under(self, name: str) -> Under:
        """Which of these kinds a value of `name` may rest on."""
        if name not in self._under:
            every = not self._of_these_parts.isdisjoint(names_under(name))
            self._under[name] = tuple(kind for kind in self.kinds if every or kind in kinds_under(name))
        return self._under[name]

    def of(self, name: str, parts: Mapping[str, str]) -> dict[tuple[str, str], Any]:
        """What was found of a name, and of others on the same kinds, in all that have the same parts of them."""
        under = self.under(name)
        return self._found.setdefault((under, tuple([parts[kind] for kind in under])), {})


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
        self._by_name: dict[str, dict[tuple[str, str], Any]] = {}

    def get(self, key: tuple[str, str]) -> Any:
        found = self._by_name.get(key[0])
        return (self._of(key[0]) if found is None else found).get(key)

    def __setitem__(self, key: tuple[str, str], found: object) -> None:
        self._of(key[0])[key] = found

    def _of(self, name: str) -> dict[tuple[str, str], Any]:
        if name not in self._by_name:
            self._by_name[name] = self._common.of(name, self._parts)
        return self._by_name[name]
