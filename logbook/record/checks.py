"""What can be wrong in a record although every file reads well: names that name nothing, figures of the wrong part.

Each check takes the record and gives findings; to see what is checked, read the list at the end. Checks that need the
engine's life (what was fitted when) stand in judge/checks.py.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import PurePosixPath

from logbook.quantity.catalogue import BANK, BANK_KINDS, CYLINDER, ENGINE, nearest
from logbook.record import entries as model
from logbook.record.engine_checks import (
    banks_name_each_cylinder_once,
    cylinders_fit_their_arrangement,
    firing_intervals_make_two_turns,
    firing_order_names_each_cylinder_once,
    instruments_say_their_error,
    words_of_the_engine_are_read,
)
from logbook.record.facts import Fact
from logbook.record.finding import DOUBTFUL, NOTE, WRONG, Finding, Path
from logbook.record.operations import OPERATIONS
from logbook.record.private_text import nothing_looks_private
from logbook.record.readings import readings_are_named
from logbook.record.record import Entry, Record
from logbook.record.step_checks import (
    adoptions_name_an_entry,
    closings_name_a_note,
    corrections_name_an_earlier_fact,
    reworks_can_be_done,
)

Check = Callable[[Record], Iterator[Finding]]
Figure = tuple[str, str | None, tuple[tuple[str, str], ...]]  # quantity, part, conditions


def names_differ_by_more_than_case(record: Record) -> Iterator[Finding]:
    by_name: dict[str, str] = {}
    for name in record.parts:
        other = by_name.setdefault(name.lower(), name)
        if other != name:
            yield Finding(
                f"parts/{name}.yaml",
                1,
                1,
                WRONG,
                f"`{name}` and `{other}` differ only in capital letters",
                "rename one of the files",
            )


def file_names_begin_with_the_date(record: Record) -> Iterator[Finding]:
    for entry in record.entries:
        name, when = PurePosixPath(entry.file).stem, entry.says.date.text.removeprefix("about ")
        if name[:4].isdigit() and not name.startswith(when):
            yield record.finding(
                entry.file,
                ("date",),
                DOUBTFUL,
                f"the file is named {name}, its date is {when}",
                "correct the one that is wrong",
            )


def figures_belong_to_their_part(record: Record) -> Iterator[Finding]:
    for fact in _facts(record):
        part = fact.stated.part
        if part is None:
            continue
        if part not in record.parts:
            if not record.unreadable(f"parts/{part}"):
                yield _unknown_part(record, fact.stated.file, (*fact.stated.path[:-1], "part"), part)
        elif not _may_own(record.parts[part].kind, fact):
            yield _wrong_owner(record, fact, part)


def _facts(record: Record) -> Iterator[Fact]:
    for some in (*record.facts.values(), *record.planned.values()):
        yield from some


def figures_are_stated_for_parts(record: Record) -> Iterator[Finding]:
    """`stated_for` names parts, each under its kind."""
    stated = dict.fromkeys((fact.stated.file, fact.stated.path[:-1], fact.stated.stated_for) for fact in _facts(record))
    for file, path, pairs in stated:
        for kind, part in pairs:
            its = record.parts.get(part)
            if its is None and not record.unreadable(f"parts/{part}"):
                yield _unknown_part(record, file, (*path, "stated_for", kind), part)
            elif its is not None and its.kind != kind:
                says, mend = f"`{part}` is no `{kind}`", f"write `{its.kind}: {part}`, or name the part that is meant"
                yield record.finding(file, (*path, "stated_for", kind), WRONG, says, mend, key=True)


def _unknown_part(record: Record, file: str, path: Path, part: str) -> Finding:
    near = nearest(part, list(record.parts))
    return record.finding(
        file,
        path,
        WRONG,
        f"there is no part `{part}`",
        f"write `{near}`" if near else f"describe it in parts/{part}.yaml",
    )


def _may_own(kind: str, fact: Fact) -> bool:
    row = fact.row
    if not row.owner or row.event or row.result:
        return True
    if len(row.owner) == 1 or row.card:
        return kind in row.owner[0].split("|")
    return False


def _wrong_owner(record: Record, fact: Fact, part: str) -> Finding:
    row, kind = fact.row, record.parts[part].kind
    usage = record.engine.usage
    *most, last = (usage.kind(each.split("|")[0]) for each in row.owner)
    if len(row.owner) > 1 and not row.card:
        return record.finding(
            fact.stated.file,
            fact.path,
            WRONG,
            f"`{row.name}` belongs to {', '.join(most)} and {last} together, not to one part",
            "state it in a measurement without `part:`",
            key=True,
        )
    return record.finding(
        fact.stated.file,
        fact.path,
        WRONG,
        f"`{row.name}` belongs to the {[*most, last][0]}, and `{part}` is of the kind {usage.kind(kind)}",
        "state it of the right part",
        key=True,
    )


def figures_have_their_positions(record: Record) -> Iterator[Finding]:
    """Too few or too many values for the cylinders, banks or pieces that there are."""
    for fact in _facts(record):
        wrong = None if fact.for_all or fact.unknown else _wrong_count(record, fact)
        if wrong:
            yield record.finding(fact.stated.file, fact.path, WRONG, *wrong)


def _wrong_count(record: Record, fact: Fact) -> tuple[str, str] | None:
    row, count, wanted = fact.row, len(fact.positions), _counts(record, fact)
    if not wanted or count in wanted:
        return None
    if row.place == ENGINE:
        return f"{count} values of `{row.name}`, which is one for the engine", "repeated readings go under `readings:`"
    if count == 1:
        return f"one value of `{row.name}`, which each {row.place} has of its own", "write {all: …} if it holds for all"
    too_many = "write those of its own bank" if count == record.engine.cylinders else "leave out what is not there"
    mend = "write x where one was not taken" if count < min(wanted) else too_many
    return f"{count} values of `{row.name}`, where there are {_or(wanted)} to take", mend


def _or(counts: set[int]) -> str:
    return " or ".join(map(str, sorted(counts)))


def _counts(record: Record, fact: Fact) -> set[int]:
    """How many positions a fact may give: those of its part, or those of the engine. Empty: any number."""
    engine, part = record.engine, record.parts.get(fact.stated.part or "")
    banks = engine.named_banks or {}
    several = len(banks) or (2 if engine.arrangement in ("vee", "flat") and engine.cylinders > 1 else 1)
    of_a_bank = part is not None and part.kind in BANK_KINDS and several > 1
    if fact.row.place == ENGINE:
        return {1}
    if fact.row.place == BANK:
        return {1} if part is not None and part.kind in BANK_KINDS else {1, several}
    if fact.row.place != CYLINDER:
        return set()
    if part is not None and part.pieces:
        return {part.pieces}
    if of_a_bank:
        return {len(some) for some in banks.values()} or {-(-engine.cylinders // several), engine.cylinders // several}
    return {engine.cylinders}


def instruments_are_described(record: Record) -> Iterator[Finding]:
    told = set()
    for fact in _facts(record):
        name = fact.stated.instrument
        if name and name not in record.engine.instruments and name not in told and fact.stated.occasion != "set":
            told.add(name)
            near = nearest(name, list(record.engine.instruments))
            yield record.finding(
                fact.stated.file,
                (*fact.stated.path[:-1], "with"),
                NOTE,
                f"`{name}` is not among the instruments of engine.yaml, so its error is taken from the last digit",
                f"write `{near}`, or describe it there" if near else "describe it there",
            )


def builds_have_one_name(record: Record) -> Iterator[Finding]:
    told: dict[str, str] = {}
    for entry in record.entries:
        name = entry.says.build if isinstance(entry.says, model.Change) else None
        if name and told.setdefault(name, entry.id) != entry.id:
            yield record.finding(
                entry.file,
                ("build",),
                DOUBTFUL,
                f"`{name}` already names what stands after {told[name]}",
                "give this build a name of its own; the later one counts",
            )


#: How other points of a record are written: a build of such a name could never be asked for.
_A_POINT = re.compile(r"now|start|(?:plan|rev|true):.*|[0-9]{4}(?:-[0-9]{2}){0,2}|[0-9.]+ ?(?:km|mi|h)")


def builds_are_not_named_like_points(record: Record) -> Iterator[Finding]:
    for entry in record.entries:
        name = entry.says.build if isinstance(entry.says, model.Change) else None
        if name and _A_POINT.fullmatch(name):
            yield record.finding(
                entry.file,
                ("build",),
                WRONG,
                f"`{name}` is a point of every record and cannot name a build",
                "give the build a name of its own, for example head-b-on",
            )


def one_day_says_its_order(record: Record) -> Iterator[Finding]:
    """Two entries of one day that touch the same figure of the same part, without `time:` or `after:`."""
    seen: dict[tuple[str, Figure], Entry] = {}
    for entry in record.entries:
        for figure, path in _touched(entry):
            other = seen.setdefault((entry.says.date.text, figure), entry)
            if other is not entry and not _say_their_order(entry, other):
                yield record.finding(
                    entry.file,
                    path,
                    DOUBTFUL,
                    f"{other.id} of the same day touches `{figure[0]}` too, and neither says which came first",
                    f"add `after: {other.id.split('/', 1)[1]}`, or a `time:` to both",
                    key=True,
                )
                break


def _touched(entry: Entry) -> Iterator[tuple[Figure, Path]]:
    """Figures that an entry states, sets or puts out of date, each with its place in the file."""
    for fact in entry.facts:
        if fact.stated.occasion != "test":
            yield (fact.name, fact.stated.part, fact.stated.qualifiers), fact.path
    for index, step in enumerate(entry.says.work if isinstance(entry.says, model.Change) else ()):
        if isinstance(step, model.Rework):
            for name in OPERATIONS.get(step.operation, ()):
                yield (name, step.rework, ()), ("work", index, "operation")


def _say_their_order(entry: Entry, other: Entry) -> bool:
    return bool(entry.says.after or other.says.after or (entry.says.time and other.says.time))


RECORD_CHECKS: tuple[Check, ...] = (
    names_differ_by_more_than_case,
    file_names_begin_with_the_date,
    figures_belong_to_their_part,
    figures_are_stated_for_parts,
    corrections_name_an_earlier_fact,
    adoptions_name_an_entry,
    closings_name_a_note,
    reworks_can_be_done,
    builds_have_one_name,
    builds_are_not_named_like_points,
    one_day_says_its_order,
    readings_are_named,
    nothing_looks_private,
)

#: What can only be judged where engine.yaml could be read.
ENGINE_CHECKS: tuple[Check, ...] = (
    cylinders_fit_their_arrangement,
    banks_name_each_cylinder_once,
    firing_intervals_make_two_turns,
    firing_order_names_each_cylinder_once,
    words_of_the_engine_are_read,
    instruments_say_their_error,
    figures_have_their_positions,
    instruments_are_described,
)
