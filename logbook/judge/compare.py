"""Two points side by side: which parts, which facts, which settings differ, and what that does to each spec.

What both sides share cancels by source, so a difference is as sure as what really differs. Verdicts in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from logbook.quantity.catalogue import Quantity
from logbook.quantity.uncertain import Uncertain
from logbook.specs.configuration import Configuration
from logbook.specs.results import Spec, Value

SAME, REAL, WITHIN, AMENDED, IF_PUBLISHED = (
    "the same", "real", "within the error", "amended", "real if the published figures hold")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Difference:
    """One spec at two points, at every position: values, difference with its uncertainty, verdict."""

    name: str
    row: Quantity
    positions: tuple[str, ...]
    before: tuple[Value | None, ...]
    after: tuple[Value | None, ...]
    differences: tuple[Uncertain | None, ...]
    verdicts: tuple[str | None, ...]

    @property
    def changed(self) -> bool:
        """Whether any position differs, has a value on one side only, or has gone out of date or come back."""
        stale = [[bool(value and value.out_of_date) for value in side] for side in (self.before, self.after)]
        if stale[0] != stale[1]:
            return True
        one_sided = any((was is None) != (now is None) for was, now in zip(self.before, self.after, strict=True))
        return one_sided or any(verdict not in (None, SAME) for verdict in self.verdicts)


@dataclass(frozen=True, slots=True)
class FactDifference:
    """One quantity of the record that says something else at the two points."""

    name: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class Comparison:
    """What differs between two configurations of one engine."""

    before: Configuration
    after: Configuration
    off: tuple[str, ...]
    on: tuple[str, ...]
    specs: Mapping[str, Difference]
    facts: tuple[FactDifference, ...]
    settings: Mapping[str, tuple[str | None, str | None]]


def compare(before: Configuration, after: Configuration) -> Comparison:
    """Every spec, part, fact and setting at two points of one engine."""
    off = tuple(part for part in before.state.parts if part not in after.state.parts)
    on = tuple(part for part in after.state.parts if part not in before.state.parts)
    specs = {name: difference(before.specs[name], after.specs[name]) for name in after.specs}
    return Comparison(before, after, off, on, specs, tuple(_facts(before, after)), _settings(before, after))


def difference(before: Spec, after: Spec) -> Difference:
    """One spec at two points."""
    was = dict(zip(before.positions, before.values, strict=True))
    pairs = [(was.get(position), value) for position, value in zip(after.positions, after.values, strict=True)]
    differences = tuple(b.uncertain_minus(a) if a and b else None for a, b in pairs)
    verdicts = tuple(verdict(a, b) if a and b else None for a, b in pairs)
    befores = tuple(a for a, _ in pairs)
    return Difference(after.name, after.row, after.positions, befores, after.values, differences, verdicts)


def verdict(before: Value, after: Value) -> str:
    """Is the difference real? Against its expanded uncertainty (k = 2), with what is shared cancelled."""
    delta = after.uncertain_minus(before)
    if not delta.nominal and not delta.expanded:
        return SAME
    if _amended(before, after):
        return AMENDED
    if abs(delta.nominal) <= delta.expanded or abs(delta.nominal) < 1e-12 * abs(after.nominal):
        return WITHIN if delta.expanded else SAME
    return IF_PUBLISHED if _mostly_unmeasured(delta, before, after) else REAL


def _mostly_unmeasured(delta: Uncertain, before: Value, after: Value) -> bool:
    """Whether sources that no measurement stands behind make over half of the difference's variance."""
    unmeasured = before.unmeasured | after.unmeasured
    total = sum(term * term for term in delta.terms.values())
    return sum(term * term for key, term in delta.terms.items() if key in unmeasured) > total / 2


def _amended(before: Value, after: Value) -> bool:
    """The same reading of the same entry with another figure in it: rewritten, not changed at the bench."""
    stems = {key.rpartition("|")[0]: key for key in before.terms if "|" in key}
    return any(stems.get(key.rpartition("|")[0], key) != key for key in after.terms if "|" in key)


def _facts(before: Configuration, after: Configuration) -> Iterator[FactDifference]:
    for name in dict.fromkeys((*before.life.record.facts, *after.life.record.facts)):
        was, now = _stated(before, name), _stated(after, name)
        if was != now:
            yield FactDifference(name, was, now)


def _stated(at: Configuration, name: str) -> str | None:
    """What holds for a quantity at a point, in the words of its file; several where positions differ in source."""
    facts = at.life.record.facts.get(name)
    if not facts:
        return None
    row = facts[0].row
    if row.event or row.result:
        return None
    texts = [held.fact.text for position in at.life.arrangement.positions(row.place)
             if (held := at.holding.best(row, position))]  # fmt: skip
    return "; ".join(dict.fromkeys(texts)) or None


def _settings(before: Configuration, after: Configuration) -> dict[str, tuple[str | None, str | None]]:
    was: dict[str, str | None] = {name: setting.text for name, setting in before.state.settings.items()}
    now: dict[str, str | None] = {name: setting.text for name, setting in after.state.settings.items()}
    was["tune"], now["tune"] = _tune(before), _tune(after)
    names = dict.fromkeys((*was, *now))
    return {name: (was.get(name), now.get(name)) for name in names if was.get(name) != now.get(name)}


def _tune(at: Configuration) -> str | None:
    return at.state.tune.label if at.state.tune else None
