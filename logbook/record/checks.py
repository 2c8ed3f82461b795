"""What can be wrong in a record although every file reads well: names that name nothing, figures of the wrong part.

Each check takes the record and gives findings; to see what is checked, read the list at the end. Checks that need the
engine's life (what was fitted when) stand in judge/checks.py.
"""

from __future__ import annotations

from collections import Counter as Tally
from collections.abc import Callable, Iterator
from pathlib import PurePosixPath

from logbook.quantity.catalogue import BANK_KINDS, CYLINDER, ENGINE, PART_KINDS, catalogue, nearest
from logbook.quantity.value import ValueProblem, parse_line, parse_measure
from logbook.record import entries as model
from logbook.record.facts import MEASURED, Fact
from logbook.record.finding import DOUBTFUL, NOTE, WRONG, Finding
from logbook.record.models import Engine
from logbook.record.read import Entry, Record
from logbook.record.strict_yaml import Path

Check = Callable[[Record], Iterator[Finding]]


def banks_name_each_cylinder_once(record: Record) -> Iterator[Finding]:
    engine = record.engine
    if not engine.banks:
        return
    named = Tally(each.strip() for text in engine.banks.values() for each in text.split("-"))
    wanted = {str(number) for number in range(1, engine.cylinders + 1)}
    if set(named) != wanted or max(named.values()) > 1:
        yield record.finding(
            "engine.yaml",
            ("banks",),
            WRONG,
            "the banks do not name each cylinder once",
            f"write the numbers 1 to {engine.cylinders}, for example 1: 1-3-5",
        )


def firing_order_names_each_cylinder_once(record: Record) -> Iterator[Finding]:
    engine = record.engine
    if not engine.firing_order:
        return
    named = [each.strip() for each in engine.firing_order.split("-")]
    if sorted(named) != sorted(str(number) for number in range(1, engine.cylinders + 1)):
        yield record.finding(
            "engine.yaml",
            ("firing_order",),
            WRONG,
            "the firing order does not name each cylinder once",
            f"write the numbers 1 to {engine.cylinders} with - between",
        )


def instruments_say_their_error(record: Record) -> Iterator[Finding]:
    for name, instrument in record.engine.instruments.items():
        for key in ("each", "common", "day"):
            text = getattr(instrument, key)
            if text is not None and not _is_amount(text):
                yield record.finding(
                    "engine.yaml",
                    ("instruments", name, key),
                    WRONG,
                    f"`{text}` is not an error",
                    "write an amount or a share, for example 0.20 ml or 1 %",
                )


def _is_amount(text: str) -> bool:
    kinds = sorted({row.kind for row in catalogue().values() if row.unit} | {"pressure_difference", "ratio"})
    try:
        parse_measure(text, *kinds)
    except ValueProblem:
        return False
    return True


def limits_name_a_spec(record: Record) -> Iterator[Finding]:
    for index, limit in enumerate(record.engine.limits):
        path: Path = ("limits", index)
        row = catalogue().get(limit.spec)
        if row is None:
            near = nearest(limit.spec, list(catalogue()))
            yield record.finding(
                "engine.yaml",
                (*path, "spec"),
                WRONG,
                f"`{limit.spec}` is not in the catalogue",
                f"write `{near}`" if near else "write the name of a quantity or spec",
            )
            continue
        for key in ("min", "max"):
            text = getattr(limit, key)
            try:
                if text is not None:
                    parse_line(text, row)
            except ValueProblem as problem:
                yield record.finding("engine.yaml", (*path, key), WRONG, problem.says, problem.mend)


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
            yield _unknown_part(record, fact, part)
        elif not _may_own(record.parts[part].kind, fact):
            yield _wrong_owner(record, fact, part)


def _facts(record: Record) -> Iterator[Fact]:
    for some in record.facts.values():
        yield from some


def _unknown_part(record: Record, fact: Fact, part: str) -> Finding:
    near = nearest(part, list(record.parts))
    path = (*fact.stated.path[:-1], "part")
    return record.finding(
        fact.stated.file,
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
    owners = " and ".join(PART_KINDS[each.split("|")[0]][0] for each in row.owner)
    if len(row.owner) > 1 and not row.card:
        return record.finding(
            fact.stated.file,
            fact.path,
            WRONG,
            f"`{row.name}` belongs to {owners} together, not to one part",
            "state it in a measurement without `part:`",
            key=True,
        )
    return record.finding(
        fact.stated.file,
        fact.path,
        WRONG,
        f"`{row.name}` belongs to the {PART_KINDS[row.owner[0].split('|')[0]][0]}, but `{part}` is of the kind {kind}",
        "state it of the right part",
        key=True,
    )


def figures_have_their_positions(record: Record) -> Iterator[Finding]:
    for fact in _facts(record):
        row, count = fact.row, len(fact.positions)
        if row.place == ENGINE and count > 1:
            yield record.finding(
                fact.stated.file,
                fact.path,
                WRONG,
                f"`{row.name}` is one for the engine, not {count}",
                "write one value; repeated readings go under `readings:`",
            )
        if row.place == ENGINE or fact.for_all or fact.unknown:
            continue
        wanted = _counts(record, fact)
        if count == 1 and fact.stated.basis == MEASURED and wanted and 1 not in wanted:
            yield record.finding(
                fact.stated.file,
                fact.path,
                WRONG,
                f"one value of `{row.name}`, which is one for each {row.place}",
                "write {all: …} if it holds for all, or x for those not taken",
            )
        elif wanted and count not in wanted:
            yield record.finding(
                fact.stated.file,
                fact.path,
                WRONG,
                f"{count} values of `{row.name}`, where there are {' or '.join(map(str, sorted(wanted)))} to take",
                "write x where one was not taken",
            )


def _counts(record: Record, fact: Fact) -> set[int]:
    """How many positions a fact may give: those of its part, or those of the engine."""
    engine, part = record.engine, record.parts.get(fact.stated.part or "")
    if fact.row.place not in (CYLINDER, "bank"):
        return set()
    banks = _banks(engine)
    if fact.row.place == "bank":
        return {1, banks} if part is None or part.kind not in BANK_KINDS else {1}
    if part is not None and part.pieces:
        return {part.pieces}
    if part is not None and part.kind in BANK_KINDS and banks > 1:
        return {-(-engine.cylinders // banks)}
    return {engine.cylinders}


def _banks(engine: Engine) -> int:
    if engine.banks:
        return len(engine.banks)
    return 2 if engine.arrangement in ("vee", "flat") and engine.cylinders > 1 else 1


def instruments_are_described(record: Record) -> Iterator[Finding]:
    told = set()
    for fact in _facts(record):
        name = fact.stated.instrument
        if name and name not in record.engine.instruments and name not in told and fact.stated.occasion != "set":
            told.add(name)
            near = nearest(name, list(record.engine.instruments))
            yield record.finding(
                fact.stated.file,
                fact.path,
                NOTE,
                f"`{name}` is not among the instruments of engine.yaml, so its error is taken from the last digit",
                f"write `{near}`, or describe it there" if near else "describe it there",
                key=True,
            )


def corrections_name_an_earlier_fact(record: Record) -> Iterator[Finding]:
    for number, entry, index, step in _steps(record):
        if not isinstance(step, model.Correct):
            continue
        said, path = step.correct, ("work", index, "correct", "entry")
        named = record.entry(said.entry)
        part_file = f"{said.entry.removesuffix('.yaml')}.yaml"
        if named is None and part_file not in record.texts:
            yield record.finding(
                entry.file,
                path,
                WRONG,
                f"there is no entry `{said.entry}` to correct",
                _nearest_entry(record, said.entry),
            )
            continue
        if named is not None and record.entries.index(named) >= number:
            yield record.finding(
                entry.file,
                path,
                WRONG,
                f"`{said.entry}` is not earlier than this entry",
                "a correction is dated after what it corrects",
            )
            continue
        facts = named.facts if named else tuple(fact for fact in _facts(record) if fact.stated.file == part_file)
        if not any(fact.name == said.quantity and said.part in (None, fact.stated.part) for fact in facts):
            stated = ", ".join(dict.fromkeys(fact.name for fact in facts)) or "no figures"
            yield record.finding(
                entry.file,
                ("work", index, "correct", "quantity"),
                WRONG,
                f"`{said.entry}` does not state `{said.quantity}`" + (f" of `{said.part}`" if said.part else ""),
                f"it states {stated}",
            )


def _nearest_entry(record: Record, name: str) -> str:
    near = nearest(name, [entry.id for entry in record.entries])
    return f"write `{near}`" if near else "write the file name of an earlier entry"


def _steps(record: Record) -> Iterator[tuple[int, Entry, int, model.Step]]:
    for number, entry in enumerate(record.entries):
        if isinstance(entry.says, model.Change):
            for index, step in enumerate(entry.says.work):
                yield number, entry, index, step


def other_steps_name_what_there_is(record: Record) -> Iterator[Finding]:
    for _, entry, index, step in _steps(record):
        path: Path = ("work", index)
        if isinstance(step, model.Adopt):
            if record.entry(step.adopt.from_) is None and f"{step.adopt.from_}.yaml" not in record.texts:
                yield record.finding(
                    entry.file,
                    (*path, "adopt", "from"),
                    WRONG,
                    f"there is no entry `{step.adopt.from_}`",
                    _nearest_entry(record, step.adopt.from_),
                )
        elif isinstance(step, model.Closes):
            closed = record.entry(step.closes)
            if closed is None or not isinstance(closed.says, model.Note):
                yield record.finding(
                    entry.file,
                    (*path, "closes"),
                    WRONG,
                    f"there is no note `{step.closes}` to close",
                    _nearest_entry(record, step.closes),
                )
        elif isinstance(step, model.Accept):
            if (
                step.accept.limit not in {limit.id for limit in record.engine.limits}
                and step.accept.limit not in catalogue()
            ):
                yield record.finding(
                    entry.file,
                    (*path, "accept", "limit"),
                    WRONG,
                    f"there is no limit `{step.accept.limit}`",
                    "write the id of a limit of engine.yaml, or a quantity",
                )
        elif isinstance(step, model.Rework) and step.operation not in model.OPERATIONS:
            continue  # told by the fold


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


def one_day_says_its_order(record: Record) -> Iterator[Finding]:
    """Two entries of one day that state the same figure of the same part, without `time:` or `after:`."""
    seen: dict[tuple[str, str, str | None, tuple[tuple[str, str], ...]], Entry] = {}
    for entry in record.entries:
        for fact in entry.facts:
            if fact.stated.occasion == "test":
                continue
            key = (entry.says.date.text, fact.name, fact.stated.part, fact.stated.qualifiers)
            other = seen.setdefault(key, entry)
            if other is not entry and not (
                entry.says.after or other.says.after or (entry.says.time and other.says.time)
            ):
                yield record.finding(
                    entry.file,
                    fact.path,
                    DOUBTFUL,
                    f"{other.id} of the same day states `{fact.name}` too, and neither says which came first",
                    f"add `after: {other.id.split('/', 1)[1]}`, or a `time:` to both",
                    key=True,
                )


RECORD_CHECKS: tuple[Check, ...] = (
    banks_name_each_cylinder_once,
    firing_order_names_each_cylinder_once,
    instruments_say_their_error,
    limits_name_a_spec,
    names_differ_by_more_than_case,
    file_names_begin_with_the_date,
    figures_belong_to_their_part,
    figures_have_their_positions,
    instruments_are_described,
    corrections_name_an_earlier_fact,
    other_steps_name_what_there_is,
    builds_have_one_name,
    one_day_says_its_order,
)
