"""What can be wrong in a step of work although it reads well: entries and notes that are not there."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.quantity.catalogue import nearest
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.record.finding import WRONG, Finding
from logbook.record.operations import DONE_TO
from logbook.record.record import Entry, Record

OTHER = "other"  # the kind of a part that may be anything


def corrections_name_an_earlier_fact(record: Record) -> Iterator[Finding]:
    """A correction of an entry that is not there, or later, or does not state the figure."""
    for number, entry, index, step in _steps(record):
        if not isinstance(step, model.Correct):
            continue
        said, path = step.correct, ("work", index, "correct")
        named, facts = record.entry(said.entry), _stated_in(record, said.entry)
        if facts is None and not record.unreadable(said.entry):
            says, mend = f"there is no entry `{said.entry}` to correct", _nearest_entry(record, said.entry)
            yield record.finding(entry.file, (*path, "entry"), WRONG, says, mend)
        elif named is not None and record.entries.index(named) >= number:
            says, mend = f"`{said.entry}` is not earlier than this entry", "date a correction after what it corrects"
            yield record.finding(entry.file, (*path, "entry"), WRONG, says, mend)
        elif facts is not None and not any(_meant(fact, said.quantity, said.part) for fact in facts):
            of_part = f" of `{said.part}`" if said.part else ""
            stated = ", ".join(dict.fromkeys(fact.name for fact in facts)) or "no figures"
            says = f"`{said.entry}` does not state `{said.quantity}`{of_part}"
            yield record.finding(entry.file, (*path, "quantity"), WRONG, says, f"it states {stated}")
        elif said.position is not None and facts:
            meant = [fact for fact in facts if _meant(fact, said.quantity, said.part)]
            if not any(not fact.for_all and said.position <= len(fact.positions) for fact in meant):
                says = f"`{said.entry}` states no value of `{said.quantity}` for position {said.position} alone"
                mend = "count the values from the left, or leave out `position:` to take all of them back"
                yield record.finding(entry.file, (*path, "position"), WRONG, says, mend)


def _meant(fact: Fact, quantity: str, part: str | None) -> bool:
    return fact.name == quantity and part in (None, fact.stated.part)


def _stated_in(record: Record, name: str) -> tuple[Fact, ...] | None:
    """The facts of an entry, or of a part's file; None if there is neither."""
    entry = record.entry(name)
    if entry is not None:
        return entry.facts
    file = f"{name.removesuffix('.yaml')}.yaml"
    if not file.startswith("parts/") or file not in record.texts:
        return None
    return tuple(fact for some in record.facts.values() for fact in some if fact.stated.file == file)


def _nearest_entry(record: Record, name: str) -> str:
    same = [entry.id for entry in record.entries if entry.id.split("/", 1)[1] == name.removesuffix(".yaml")]
    if len(same) > 1:
        return f"several are named so: write {' or '.join(f'`{each}`' for each in same)}"
    near = nearest(name, [entry.id for entry in record.entries])
    return f"write `{near}`" if near else "write the file name of an earlier entry"


def adoptions_name_an_entry(record: Record) -> Iterator[Finding]:
    """An adoption of a figure that is stated nowhere."""
    for _, entry, index, step in _steps(record):
        if isinstance(step, model.Adopt):
            said, path = step.adopt, ("work", index, "adopt")
            facts = _stated_in(record, said.from_)
            if facts is None and not record.unreadable(said.from_):
                says, mend = f"there is no entry `{said.from_}`", _nearest_entry(record, said.from_)
                yield record.finding(entry.file, (*path, "from"), WRONG, says, mend)
            elif facts is not None and not any(_meant(fact, said.quantity, said.part) for fact in facts):
                stated = ", ".join(dict.fromkeys(fact.name for fact in facts)) or "no figures"
                says = f"`{said.from_}` does not state `{said.quantity}`"
                yield record.finding(entry.file, (*path, "quantity"), WRONG, says, f"it states {stated}")


def closings_name_a_note(record: Record) -> Iterator[Finding]:
    """A `closes:` that names no note."""
    for _, entry, index, step in _steps(record):
        if isinstance(step, model.Closes):
            closed = record.entry(step.closes) or record.entry(f"notes/{step.closes}")
            unread = closed is None and record.unreadable(step.closes)
            if not unread and (closed is None or not isinstance(closed.says, model.Note)):
                notes = [each.id.split("/", 1)[1] for each in record.entries if each.kind == "note"]
                near = nearest(step.closes, notes)
                mend = f"write `{near}`" if near else "write the file name of a note"
                says = f"there is no note `{step.closes}` to close"
                yield record.finding(entry.file, ("work", index, "closes"), WRONG, says, mend)


def reworks_can_be_done(record: Record) -> Iterator[Finding]:
    """Work that no part of its kind can have, and a cut that takes nothing off; of plans too."""
    done = ((entry.file, index, step) for _, entry, index, step in _steps(record))
    for file, index, step in (*done, *_planned(record)):
        if isinstance(step, model.Rework):
            part = record.parts.get(step.rework)
            may = (*DONE_TO.get(step.operation, ()), OTHER)
            if part and step.operation in DONE_TO and part.kind not in may:
                says = f"`{step.rework}` is of the kind {part.kind}, which is never {step.operation}"
                own = [name for name, kinds in DONE_TO.items() if part.kind in kinds]
                mend = f"name the part that it was done to{', or ' * bool(own)}{' or '.join(f'`{one}`' for one in own)}"
                yield record.finding(file, ("work", index, "operation"), WRONG, says, mend)
            cut = record.depth_of(file, index) if step.depth else None
            if cut and all(figure.nominal == 0 for figure in cut.positions[0] or ()):
                says, mend = f"a cut of {step.depth} takes nothing off", "write what comes off, or leave out `depth:`"
                yield record.finding(file, ("work", index, "depth"), WRONG, says, mend)


def _planned(record: Record) -> Iterator[tuple[str, int, model.Step]]:
    for name, plan in record.plans.items():
        yield from ((f"plans/{name}.yaml", index, step) for index, step in enumerate(plan.work))


def _steps(record: Record) -> Iterator[tuple[int, Entry, int, model.Step]]:
    for number, entry in enumerate(record.entries):
        if isinstance(entry.says, model.Change):
            for index, step in enumerate(entry.says.work):
                yield number, entry, index, step
