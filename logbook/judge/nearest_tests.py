"""What the tests say of two points: of each kind the one that stands nearest to it, with the same parts in the engine.

A test speaks for a point as long as no part that seals or breathes has been exchanged or machined between the two. What
else was different on the day of the test (a tune, a jet, the timing, another gauge) is said beside it, never hidden.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from logbook.judge.compare import Difference, settings_differ, sides
from logbook.quantity.catalogue import catalogue
from logbook.record import entries as model
from logbook.record.facts import MEASURED, Fact
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.results import Value
from logbook.state.fold import Life
from logbook.state.spread import figure
from logbook.state.states import State

#: Exchanged or machined, they make another engine of what a test says.
BEARING = frozenset({
    "block", "crankshaft", "connecting_rods", "pistons", "piston_rings", "cylinder_head", "head_gasket", "camshaft",
    "inlet_camshaft", "exhaust_camshaft", "inlet_valves", "exhaust_valves",
})  # fmt: skip

Kind = tuple[str, tuple[tuple[str, str], ...]]  # quantity and the conditions that belong to it
Window = tuple[int, int]  # the first and the last entry that a test may be


class Near(NamedTuple):
    """A test near a point; `besides`: what was different when it was made."""

    number: int
    entry: Entry
    besides: tuple[str, ...] = ()


class Pair(NamedTuple):
    """One kind of test on both sides; None where no test speaks for that side. `told`: None where one side is silent.

    `unlike`: what differs in how the two tests were made.
    """

    name: str
    conditions: Mapping[str, str]
    before: Near | None
    after: Near | None
    told: Difference | None
    unlike: tuple[str, ...] = ()


def beside(before: Configuration, after: Configuration, windows: tuple[Window, Window] | None = None) -> Iterator[Pair]:
    """Every kind of test that speaks for either point. `windows`: which entries may speak for each."""
    if before.point.plan is not None or after.point.plan is not None:
        return  # nobody has tested what is only thought of
    kinds = dict.fromkeys(kind for at in (before, after) for kind in _kinds(at.life))
    low, high = windows or whole_lives(before, after)
    for kind in kinds:
        was, now = _nearest(before, kind, low), _nearest(after, kind, high)
        same = was and now and was.entry is now.entry
        if (was or now) and not same:
            yield _pair(kind, (before, was), (after, now))


def whole_lives(before: Configuration, after: Configuration) -> tuple[Window, Window]:
    """Any entry may speak for either point."""
    return (0, len(before.life.record.entries) - 1), (0, len(after.life.record.entries) - 1)


def _kinds(life: Life) -> Iterator[Kind]:
    for entry in life.record.entries:
        for fact in _readings(entry):
            yield fact.name, fact.stated.qualifiers


def _readings(entry: Entry) -> Iterator[Fact]:
    """What a test read of the engine itself, not of a part on a bench."""
    if isinstance(entry.says, model.Test):
        yield from (fact for fact in entry.facts if fact.row.event and not fact.stated.part and not fact.unknown)


def _fact(entry: Entry, kind: Kind) -> Fact | None:
    return next((fact for fact in _readings(entry) if (fact.name, fact.stated.qualifiers) == kind), None)


def _nearest(at: Configuration, kind: Kind, window: Window) -> Near | None:
    """The test of a kind nearest in time that speaks for a point."""
    entries = at.life.record.entries
    return nearest_of(at, [number for number, entry in enumerate(entries) if _fact(entry, kind)], window)


def nearest_of(at: Configuration, numbers: Iterable[int], window: Window) -> Near | None:
    """Of some tests, the one nearest in time that speaks for a point."""
    entries = at.life.record.entries
    found = [each for each in numbers if window[0] <= each <= window[1] and speaks_for(at.life, each, at.state)]
    if not found:
        return None
    number = min(found, key=lambda each: (_days(at, each), abs(each - at.state.number)))
    return Near(number, entries[number], tuple(besides(at, number)))


def _days(at: Configuration, number: int) -> int:
    entries = at.life.record.entries
    there: date = entries[max(at.state.number, 0)].says.date.first
    tested: date = entries[number].says.date.first
    return abs((tested - there).days)


def speaks_for(life: Life, number: int, state: State) -> bool:
    """Whether what was tested in entry `number` had the same parts as the engine at a state, as they were then."""
    then = life.after(number)
    if _bearing(life, then) != _bearing(life, state):
        return False
    first, last = sorted((number, state.number))
    cut = (each.part for each in life.reworks if first < each.moment[0] <= last and not each.adjusted)
    return not any(part in state.parts and life.record.parts[part].kind in BEARING for part in cut)


def _bearing(life: Life, state: State) -> tuple[str, ...]:
    return tuple(part for part in state.parts if life.record.parts[part].kind in BEARING)


def besides(at: Configuration, number: int) -> Iterator[str]:
    """What was different in the engine at entry `number`, against a point: 'tune-4 and not tune-2'."""
    life, then = at.life, configuration_after(at.life, number)
    parts, fitted = then.state.parts, at.state.parts
    for part in parts:
        if part not in fitted and life.record.parts[part].kind not in ("other", "bolts"):
            yield part + _instead(life, part, fitted, parts)
    for name, (here, there) in settings_differ(at, then).items():
        if name in catalogue():
            continue  # a figure that was set: told below
        words = "" if name == "tune" else f"{name.replace('_', ' ')} "
        yield f"{words}{there or 'none'} and not {here or 'none'}"
    first, last = sorted((number, at.state.number))
    turned = (each for each in life.reworks if each.adjusted and first < each.moment[0] <= last)
    names = dict.fromkeys(name for each in turned for name in _set_in(life, *each.moment))
    if names:
        yield f"{', '.join(name.replace('_', ' ') for name in names)} set in between"


def _instead(life: Life, part: str, fitted: tuple[str, ...], parts: tuple[str, ...]) -> str:
    kind = life.record.parts[part].kind
    other = [each for each in fitted if life.record.parts[each].kind == kind and each not in parts]
    return f" and not {', '.join(other)}" if other else ""


def _set_in(life: Life, number: int, step: int) -> Iterator[str]:
    says = life.record.entries[number].says
    if isinstance(says, model.Change) and step < len(says.work):
        done = says.work[step]
        yield from done.set if isinstance(done, model.Set) else ()


def _pair(kind: Kind, before: tuple[Configuration, Near | None], after: tuple[Configuration, Near | None]) -> Pair:
    (at, was), (then, now) = before, after
    told = None
    if was and now:
        first, second = _values(at.life, was.entry, kind), _values(then.life, now.entry, kind)
        row = next(fact.row for fact in _readings(now.entry) if fact.name == kind[0])
        told = sides(kind[0], row, first, second)
    differ = tuple(unlike(was.entry, now.entry)) if was and now else ()
    return Pair(kind[0], dict(kind[1]), was, now, told, differ)


def _values(life: Life, entry: Entry, kind: Kind) -> dict[str, Value | None]:
    """What a test read, by position."""
    fact = _fact(entry, kind)
    if fact is None:
        return {}
    places = life.arrangement.positions(fact.row.place)
    read = [figure(life.record, fact, index) for index in range(len(places))]
    return {place: Value(sure.value.nominal, sure.value.terms, MEASURED, {}, False, False) if sure else None
            for place, sure in zip(places, read, strict=True)}  # fmt: skip


def unlike(was: Entry, now: Entry, but: Collection[str] = ()) -> Iterator[str]:
    """What differs in how two tests were made; `but`: conditions that are told or made up for elsewhere."""
    if was.says.with_ != now.says.with_:
        yield f"read with {was.says.with_ or 'something not said'}, then with {now.says.with_ or 'something not said'}"
    first, second = was.says.conditions, now.says.conditions
    for name in dict.fromkeys((*first, *second)):
        if first.get(name) != second.get(name) and name.replace(" ", "_") not in but:
            yield f"{name} {first.get(name, 'not said')}, then {second.get(name, 'not said')}"
