"""Two points side by side: which parts, which facts, which settings differ, and what that does to each spec.

What both sides share cancels by source, so a difference is as sure as what really differs. Verdicts in words. The two
may be points of two engines: then what they read with one instrument cancels, and parts of one name are two parts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from logbook.judge.places import at_positions
from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.usage import Usage
from logbook.record.facts import PREDICTED
from logbook.specs.configuration import Configuration
from logbook.specs.node import Groups
from logbook.specs.results import Spec, Value
from logbook.state.holding import Held
from logbook.state.states import PLANNED, Reworked

SAME, REAL, WITHIN, AMENDED, IF_PUBLISHED = (
    "the same", "real", "within the error", "amended", "real if the published figures hold")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Difference:
    """One spec at two points, at every position: values, difference with its uncertainty, verdict.

    `alone`: the positions that only one of two engines has, as far as it has a value there. `lost`: where it is no
    longer known, what would have to be, any one name of each group.
    """

    name: str
    row: Quantity
    positions: tuple[str, ...]
    before: tuple[Value | None, ...]
    after: tuple[Value | None, ...]
    differences: tuple[Uncertain | None, ...]
    verdicts: tuple[str | None, ...]
    alone: frozenset[str] = frozenset()
    lost: Groups = ()

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
class Worked:
    """One piece of machining between two points; `when` is empty where it is only thought of."""

    part: str
    operation: str
    depth: str
    when: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """What differs between two configurations; `two_engines` where they are not of one and the same."""

    before: Configuration
    after: Configuration
    off: tuple[str, ...]
    on: tuple[str, ...]
    worked: tuple[Worked, ...]
    specs: Mapping[str, Difference]
    facts: tuple[FactDifference, ...]
    settings: Mapping[str, tuple[str | None, str | None]]
    two_engines: bool = False


def compare(before: Configuration, after: Configuration, *, two_engines: bool = False) -> Comparison:
    """Every spec, part, fact and setting at two points, of one engine or of two."""
    fitted, then = before.state.parts, after.state.parts
    off = tuple(part for part in fitted if two_engines or part not in then)
    on = tuple(part for part in then if two_engines or part not in fitted)
    worked = () if two_engines else tuple(_worked(before, after))
    specs = {name: difference(before.specs[name], after.specs[name]) for name in after.specs}
    facts, settings = tuple(_facts(before, after)), settings_differ(before, after)
    return Comparison(before, after, off, on, worked, specs, facts, settings, two_engines)


def difference(before: Spec, after: Spec) -> Difference:
    """One spec at two points, at every position that either side has."""
    was, now = (dict(zip(side.positions, side.values, strict=True)) for side in (before, after))
    lost = any(was.get(place) and not value for place, value in now.items())
    return replace(sides(after.name, after.row, was, now), lost=after.groups if lost else ())


Values = Mapping[str, Value | None]  # by position


def sides(name: str, row: Quantity, was: Values, now: Values) -> Difference:
    """Two rows of values, position by position; of a position that one side lacks, only what is known."""
    every = dict.fromkeys((*(was if len(was) > len(now) else now), *now, *was))
    alone = frozenset(
        place for place in every if (place in was) != (place in now) and (was.get(place) or now.get(place))
    )
    positions = tuple(place for place in every if place in alone or (place in was and place in now))
    before, after = tuple(map(was.get, positions)), tuple(map(now.get, positions))
    pairs = list(zip(before, after, strict=True))
    differences = tuple(b.uncertain_minus(a) if a and b else None for a, b in pairs)
    verdicts = tuple(verdict(a, b) if a and b else None for a, b in pairs)
    return Difference(name, row, positions, before, after, differences, verdicts, alone)


def verdict(before: Value, after: Value) -> str:
    """Is the difference real? Against its expanded uncertainty (k = 2), with what is shared cancelled."""
    delta = after.uncertain_minus(before)
    least = 1e-12 * abs(after.nominal)  # what adding in another order leaves
    if abs(delta.nominal) <= least and delta.expanded <= least:
        return SAME
    if _amended(before, after):
        return AMENDED
    if abs(delta.nominal) <= delta.expanded:
        return WITHIN
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


def _worked(before: Configuration, after: Configuration) -> Iterator[Worked]:
    """The machining that lies between the points, of parts that are in the engine at either."""
    first, last = sorted((before, after), key=lambda at: (at.state.number, at.point.plan is not None))
    done = (each for each in after.life.reworks if first.state.number < each.moment[0] <= last.state.number)
    thought_of = (each for each in last.holding.planned if first.point.plan != last.point.plan)
    fitted = {*before.state.parts, *after.state.parts}
    for rework in (*done, *thought_of):
        if not rework.adjusted and rework.part in fitted:
            yield _work_done(last, rework)


def _work_done(at: Configuration, rework: Reworked) -> Worked:
    number, step = rework.moment
    when = "" if step >= PLANNED else str(at.life.record.entries[number].says.date)
    return Worked(rework.part, rework.operation, rework.depth.text if rework.depth else "", when)


#: What is said of a step and not of the engine.
_OF_A_STEP = frozenset({"cut_depth"})


def _facts(before: Configuration, after: Configuration) -> Iterator[FactDifference]:
    named = [name for at in (before, after) for name in (*at.life.record.facts, *(at.holding.assumed or ()))]
    for name in dict.fromkeys(named):
        was, now = _stated(before, name), _stated(after, name)
        if was != now:
            yield FactDifference(name, was, now)


def _stated(at: Configuration, name: str) -> str | None:
    """What holds for a quantity at a point, in the words of its file; where positions differ in source, each with its
    places."""
    row = quantity(name)
    if row.event or row.result or name in _OF_A_STEP:
        return None
    usage = at.life.record.engine.usage
    said: dict[tuple[str, int], dict[str, Held]] = {}
    for position in at.life.arrangement.positions(row.place):
        held = at.holding.best(row, position)
        if held:
            of_several = id(held.fact) if len(held.fact.positions) > 1 else 0
            made = PREDICTED if held.made == PREDICTED and of_several else _words([held], usage)
            said.setdefault((made, of_several), {})[position] = held
    if len(said) < 2:
        return next((_words(list(some.values()), usage) for some in said.values()), None)
    texts = (
        (_own_words(list(some.values())) or _words(list(some.values()), usage))
        + at_positions(at.life.arrangement, row, tuple(some))
        for some in said.values()
    )
    return "; ".join(dict.fromkeys(texts))


def _own_words(some: Sequence[Held]) -> str:
    """Of a line that holds at some of its positions only, what it says of these; '' where it cannot be taken apart."""
    if len(some[0].fact.positions) < 2 or some[0].fact.row.sides:
        return ""
    stated = [each for held in some if held.place is not None for each in held.fact.at(held.place) or ()]
    if len(stated) != len(some) or len({each.unit for each in stated}) > 1:
        return ""
    return f"{' / '.join(each.number + each.spread for each in stated)} {stated[0].unit}".rstrip()


def _words(some: Sequence[Held], usage: Usage) -> str:
    """The words of a file; figures that follow from others in our own, position by position where they differ."""
    first = some[0]
    if first.made != PREDICTED:
        return first.fact.text.removeprefix("all: ") + (" assumed" if first.overrules else "")
    row = first.fact.row
    numbers = [_number(held, usage) for held in some]
    side = f" {row.sides[first.value.nominal < 0]}" if row.sides else ""
    told = " / ".join(numbers if len(set(numbers)) > 1 else numbers[:1])
    return f"{told} {usage.unit(row)}".rstrip() + f"{side} predicted"


def _number(held: Held, usage: Usage) -> str:
    row, its = held.fact.row, usage.scale(held.fact.row)
    size = abs(held.value.nominal) if row.sides else held.value.nominal
    return plain(its.from_base(size), held.value.expanded / its.size(1.0))[0]


def settings_differ(before: Configuration, after: Configuration) -> dict[str, tuple[str | None, str | None]]:
    """What is set without a unit, and the tune, where the two points differ in it."""
    was: dict[str, str | None] = {name: setting.text for name, setting in before.state.settings.items()}
    now: dict[str, str | None] = {name: setting.text for name, setting in after.state.settings.items()}
    was["tune"], now["tune"] = _tune(before), _tune(after)
    names = dict.fromkeys((*was, *now))
    return {name: (was.get(name), now.get(name)) for name in names if was.get(name) != now.get(name)}


def _tune(at: Configuration) -> str | None:
    return at.state.tune.label if at.state.tune else None
