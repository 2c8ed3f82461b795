"""Cautions, where work can hurt someone or a figure mislead: the general ones, and those that this record calls for.

The maker's manual, local rules and licensed practice come first; these texts defer to them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from logbook.documents.content import Caution
from logbook.documents.history.words import day
from logbook.record import entries as model
from logbook.state.fold import Life

Applies = Callable[[Life], bool]


@dataclass(frozen=True, slots=True)
class _Row:
    topic: str
    text: str
    applies: Applies


def cautions(life: Life) -> tuple[Caution, ...]:
    """Those that apply to this record, in order."""
    prose = life.record.engine.usage.prose
    rows = [Caution(prose(row.topic), prose(row.text)) for row in _ROWS if row.applies(life)]
    return (*rows[:3], *_odometer(life), *rows[3:])


def _always(life: Life) -> bool:
    return True


def _spark(life: Life) -> bool:
    return bool(life.record.engine.ignition == "spark")


def _tested(*words: str) -> Applies:
    """Whether a test was made whose kind, or one of whose quantities, is called so."""

    def applies(life: Life) -> bool:
        tests = [entry for entry in life.record.entries if isinstance(entry.says, model.Test)]
        said = [f"{entry.says.kind} {' '.join(fact.name for fact in entry.facts)}".casefold() for entry in tests]
        return any(word in each for each in said for word in words)

    return applies


def _worked(kind: type[model.Step]) -> Applies:
    def applies(life: Life) -> bool:
        return any(isinstance(step, kind) for step in _steps(life))

    return applies


def _steps(life: Life) -> Iterator[model.Step]:
    for entry in life.record.entries:
        if isinstance(entry.says, model.Change):
            yield from entry.says.work


def _odometer(life: Life) -> Iterator[Caution]:
    """A counter that was replaced, reset or left behind does not show the distance covered."""
    days = [day(entry.says.date) for entry in life.record.entries if isinstance(entry.says, model.Change)
            and any(isinstance(step, model.Counter | model.Move) for step in entry.says.work)]  # fmt: skip
    if days:
        of = "entry of " + days[0] if len(days) == 1 else "entries of " + " and ".join(days[:3])
        yield Caution("Distance", "A counter was changed: what it shows is not the distance covered. "
                                  f"See the {of}.")  # fmt: skip


_ROWS = (
    _Row(
        "What this is",
        "A record of work done. It is no approval and no test certificate, and no advice that an engine is "
        "safe or legal. Nor is it a legal statement of the distance covered.",
        _always,
    ),
    _Row(
        "Maker first",
        "Torques, clearances and sequences in the maker’s manual come first. Rules of thumb here are general.",
        _always,
    ),
    _Row(
        "On the road",
        "Changing an engine, its emission equipment or its tune can end its approval for road use. Ask "
        "where the vehicle is registered before it is driven, and tell the insurer of every change of "
        "power, weight or use.",
        _always,
    ),
    _Row(
        "Worked-out figures",
        "They are as good as what they were worked out from, which is shown beside them.",
        _always,
    ),
    _Row(
        "Knock",
        "A ratio is no promise. Listen for knock at full load with the fuel that will be used, and go back "
        "at once where it is heard.",
        _spark,
    ),
    _Row(
        "Lifting",
        "Rated gear and points, stands on firm ground. Nobody under a load, nor under a vehicle that only a"
        " jack holds.",
        _always,
    ),
    _Row(
        "Petrol",
        "Its vapour is heavier than air and travels to a flame. Work cold and ventilated, without pit or "
        "spark, with closed containers and an extinguisher at hand. Measure volumes with a high-flash "
        "spirit, never with petrol.",
        _spark,
    ),
    _Row(
        "Fuel under pressure",
        "Injection pressure cuts through skin. Let it down before a pipe is opened, and never feel for a leak.",
        lambda life: not _spark(life),
    ),
    _Row(
        "Hot and turning",
        "Coolant and oil scald; belts, fans and flywheels catch clothing and can burst. Let it cool, keep "
        "the guards on, and nobody in the plane of rotation.",
        _always,
    ),
    _Row(
        "Exhaust gas",
        "Carbon monoxide kills indoors. Lead it to the open air.",
        _always,
    ),
    _Row(
        "Compression test",
        "Put ignition and fuel out of action before cranking.",
        _tested("compression", "cranking"),
    ),
    _Row(
        "Compressed air",
        "Air in a cylinder can turn the engine. Lock the crankshaft, take the tools off it, keep hands clear.",
        _tested("leak"),
    ),
    _Row(
        "Dynamometer",
        "Strapped, guarded, ventilated; tyres and driveline looked over; a stop agreed; nobody in line with"
        " the rollers.",
        _tested("dyn", "torque", "power"),
    ),
    _Row(
        "Tight fastenings",
        "The same torque clamps otherwise with another lubricant, and bolts that are made to be used once "
        "are used once.",
        _worked(model.Tighten),
    ),
    _Row(
        "Running in",
        "New parts want the schedule of their maker. Full load only after leaks, pressure, lash and "
        "fastenings are checked.",
        _worked(model.Fit),
    ),
    _Row(
        "Dust and oil",
        "Old gaskets, ropes and linings may contain asbestos: damp, bag, by local rule, never dry. Used oil"
        " harms skin and water: gloves, and to a collection point.",
        _always,
    ),
)
