"""From the texts of a folder to the record: every file read, every finding told, nothing decided.

In: relative path -> bytes (from disk or from a git revision, the reader cannot tell). Out: a Record. A file that cannot
be read is left out and told; the rest is read all the same.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import PurePosixPath
from typing import Any

from pydantic import BaseModel, ValidationError

from logbook.quantity.catalogue import QUALIFIERS, SETTINGS, catalogue, nearest
from logbook.quantity.units import unit
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.complaints import complaints
from logbook.record.facts import MEASURED, Fact, Statement, Trouble, read_values
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.models import Engine, FactBlock, Part, Qualified
from logbook.record.order import in_order
from logbook.record.strict_yaml import Path, place_of, read_yaml

FOLDERS: Mapping[str, type[BaseModel]] = {
    "parts": Part,
    "measurements": model.Measurement,
    "changes": model.Change,
    "tests": model.Test,
    "notes": model.Note,
    "plans": model.Plan,
}
ENTRY_FOLDERS = ("measurements", "changes", "tests", "notes")


@dataclass(frozen=True, slots=True)
class Entry:
    """One dated file: its id is its path without the ending."""

    id: str
    file: str
    says: Any  # Measurement | Change | Test | Note
    facts: tuple[Fact, ...] = ()

    @property
    def kind(self) -> str:
        return self.id.split("/", 1)[0].removesuffix("s")

    @property
    def title(self) -> str:
        return self.says.title or _plain_title(self)


@dataclass(frozen=True)
class Record:
    """Everything the folder says, and what there is to say about it."""

    engine: Engine
    parts: Mapping[str, Part] = field(default_factory=dict)
    entries: tuple[Entry, ...] = ()
    plans: Mapping[str, model.Plan] = field(default_factory=dict)
    facts: Mapping[str, tuple[Fact, ...]] = field(default_factory=dict)
    texts: Mapping[str, bytes] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()

    def where(self, file: str, path: Path, *, key: bool = False) -> tuple[int, int]:
        """Line and column of what stands at `path` in `file`."""
        return place_of(self.texts[file], path, key=key) if file in self.texts else (1, 1)

    def finding(self, file: str, path: Path, level: str, says: str, mend: str = "", *, key: bool = False) -> Finding:
        """A finding at `path` in `file`."""
        return Finding(file, *self.where(file, path, key=key), level, says, mend)

    def entry(self, name: str) -> Entry | None:
        """The entry of that id, or of that file name in any folder if it is the only one."""
        wanted = name.removesuffix(".yaml")
        found = [entry for entry in self.entries if entry.id == wanted or entry.id.split("/", 1)[1] == wanted]
        return found[0] if len(found) == 1 else None


def read_record(texts: Mapping[str, bytes]) -> Record:
    """The record in these texts. Where engine.yaml cannot be read, a record of an engine of which nothing is known."""
    findings: list[Finding] = []
    engine = _model(Engine, "engine.yaml", texts, findings) if "engine.yaml" in texts else None
    if "engine.yaml" not in texts:
        findings.append(Finding("engine.yaml", 1, 1, WRONG, "the file is missing", "begin one with `logbook new`"))
    parts, plans, dated = {}, {}, []
    for file in sorted(texts):
        place = PurePosixPath(file)
        if len(place.parts) != 2 or place.suffix != ".yaml" or place.parts[0] not in FOLDERS:
            continue
        read = _model(FOLDERS[place.parts[0]], file, texts, findings)
        if read is None:
            continue
        if isinstance(read, Part):
            parts[place.stem] = read
        elif isinstance(read, model.Plan):
            plans[place.stem] = read
        else:
            dated.append(Entry(str(place.with_suffix("")), file, read))
    ordered, mistakes = in_order(dated)
    findings += [
        Finding(entry.file, *place_of(texts[entry.file], ("after",)), WRONG, says, mend)
        for entry, says, mend in mistakes
    ]
    reader = _FactReader(texts, findings)
    entries = tuple(replace(entry, facts=tuple(reader.of_entry(entry, number))) for number, entry in enumerate(ordered))
    of_parts = [fact for name, part in parts.items() for fact in reader.of_part(name, part)]
    facts = _by_name([*of_parts, *(fact for entry in entries for fact in entry.facts)])
    return Record(engine or _NO_ENGINE, parts, entries, plans, facts, texts, tuple(findings))


_NO_ENGINE = Engine.model_construct(name="unknown engine", cylinders=1, arrangement="single")


def _by_name(facts: Iterable[Fact]) -> dict[str, tuple[Fact, ...]]:
    by_name: dict[str, list[Fact]] = defaultdict(list)
    for fact in facts:
        by_name[fact.name].append(fact)
    return {name: tuple(some) for name, some in by_name.items()}


def _model(kind: type[BaseModel], file: str, texts: Mapping[str, bytes], findings: list[Finding]) -> Any:
    tree, troubles = read_yaml(texts[file], file)
    findings += troubles
    if tree is None:
        return None
    if not isinstance(tree, dict):
        findings.append(
            Finding(
                file,
                1,
                1,
                WRONG,
                "lines of `key: value` belong here, not a list or plain text",
                "see the file format in the README",
            )
        )
        return None
    refused = _outside_the_scope(tree) if kind is Engine else None
    if refused:
        findings.append(Finding(file, *place_of(texts[file], (refused[0],)), WRONG, refused[1], refused[2]))
        return None
    try:
        return kind.model_validate(tree)
    except ValidationError as error:
        findings += complaints(error, kind, file, texts[file])
        return None


def _outside_the_scope(tree: dict[str, Any]) -> tuple[str, str, str] | None:
    """Engines whose arithmetic or whose law is another: told plainly, not half served."""
    said = {key: str(tree.get(key, "")).lower() for key in ("cycle", "arrangement", "name", "note")}
    if "two" in said["cycle"] or said["cycle"].startswith("2"):
        return (
            "cycle",
            "two-stroke engines are not supported: their swept volume counts from port closing",
            "this logbook is for four-stroke engines",
        )
    if said["arrangement"] in ("rotary", "wankel") or "rotary" in said["cycle"]:
        return (
            "arrangement",
            "rotary engines are not supported: they have neither bore nor stroke",
            "this logbook is for reciprocating engines",
        )
    if said["arrangement"] in ("radial", "aircraft") or "aircraft" in said["cycle"]:
        return (
            "arrangement",
            "aircraft engines are not supported: their records are regulated by aviation law",
            "keep the records that the authority requires",
        )
    return None


class _FactReader:
    """Reads the figures of parts and entries, collecting findings on the way."""

    def __init__(self, texts: Mapping[str, bytes], findings: list[Finding]) -> None:
        self.texts, self.findings = texts, findings

    def of_part(self, name: str, part: Part) -> Iterator[Fact]:
        file = f"parts/{name}.yaml"
        for number, block in enumerate(part.facts):
            yield from self._of_block(block, Statement(file, ("facts", number, "values"), part=name))

    def of_entry(self, entry: Entry, number: int) -> Iterator[Fact]:
        says = entry.says
        base = Statement(entry.file, ("values",), entry=number, when=says.date, by=says.by)
        if isinstance(says, model.Measurement):
            yield from self._of_measurement(says, base)
        elif isinstance(says, model.Test):
            yield from self._read(
                says.values,
                replace(
                    base,
                    part=says.part,
                    instrument=says.with_,
                    occasion="test",
                    qualifiers=self._qualifiers(says, base, ()),
                ),
            )
        elif isinstance(says, model.Note):
            for index, block in enumerate(says.facts):
                yield from self._of_block(block, replace(base, path=("facts", index, "values")))
        else:
            for index, step in enumerate(says.work):
                yield from self._of_step(step, replace(base, step=index, path=("work", index)))

    def _of_measurement(self, says: model.Measurement, base: Statement) -> Iterator[Fact]:
        top = replace(base, part=says.part, instrument=says.with_, qualifiers=self._qualifiers(says, base, ()))
        yield from self._read(says.values, top)
        for index, taking in enumerate(says.taken):
            path: Path = ("taken", index)
            yield from self._read(
                taking.values,
                replace(
                    top,
                    path=(*path, "values"),
                    part=taking.part or says.part,
                    instrument=taking.with_ or says.with_,
                    by=taking.by or says.by,
                    qualifiers=self._qualifiers(taking, base, path) or top.qualifiers,
                ),
            )

    def _of_step(self, step: model.Step, base: Statement) -> Iterator[Fact]:
        stated = replace(base, instrument=step.with_, by=step.by or base.by)
        if isinstance(step, model.Set):
            figures = {name: raw for name, raw in step.set.items() if name in catalogue()}
            self._unknown_settings(step, base)
            yield from self._read(
                figures,
                replace(
                    stated, path=(*base.path, "set"), occasion="set", qualifiers=self._qualifiers(step, base, base.path)
                ),
            )
        elif isinstance(step, model.Rework) and step.to:
            yield from self._read(
                step.to,
                replace(
                    stated,
                    path=(*base.path, "to"),
                    part=step.rework,
                    qualifiers=self._qualifiers(step, base, base.path),
                ),
            )

    def _of_block(self, block: FactBlock, base: Statement) -> Iterator[Fact]:
        stated_for = tuple(sorted((block.stated_for or {}).items()))
        yield from self._read(
            block.values,
            replace(
                base,
                basis=block.basis,
                when=block.date or base.when,
                instrument=block.with_,
                by=block.by or base.by,
                source=block.source,
                stated_for=stated_for,
                qualifiers=self._qualifiers(block, base, base.path[:-1]),
            ),
        )

    def _read(self, values: Mapping[str, Any], statement: Statement) -> Iterator[Fact]:
        for item in read_values(values, statement):
            if isinstance(item, Fact):
                yield item
            else:
                self._tell(statement.file, item)

    def _tell(self, file: str, trouble: Trouble) -> None:
        line, column = place_of(self.texts[file], trouble.path, key=trouble.key)
        self.findings.append(Finding(file, line, column + trouble.offset, trouble.level, trouble.says, trouble.mend))

    def _qualifiers(self, says: Qualified, base: Statement, path: Path) -> tuple[tuple[str, str], ...]:
        found = []
        for name, text in says.qualifiers().items():
            row = QUALIFIERS[name]
            try:
                if row.kind == "words":
                    if text not in row.words:
                        raise ValueProblem(
                            f"`{text}` is not possible for `{name}`", f"write {' or '.join(row.words)}", 0
                        )
                    found.append((name, text))
                else:
                    amount, _ = parse_measure(text, row.kind)
                    found.append((name, f"{unit(row.unit).from_base(amount):.6g} {row.unit}"))
            except ValueProblem as problem:
                self._tell(base.file, Trouble((*path, name), problem.says, problem.mend, offset=problem.offset))
        return tuple(sorted(found))

    def _unknown_settings(self, step: model.Set, base: Statement) -> None:
        for name in step.set:
            if name not in catalogue() and name not in SETTINGS:
                near = nearest(name, [*catalogue(), *SETTINGS])
                self._tell(
                    base.file,
                    Trouble(
                        (*base.path, "set", name),
                        f"`{name}` is neither a quantity nor a setting of the catalogue",
                        f"write `{near}`" if near else "put it into `note:`",
                        NOTE if near is None else WRONG,
                        key=True,
                    ),
                )


def _plain_title(entry: Entry) -> str:
    says = entry.says
    if isinstance(says, model.Test):
        return says.kind[0].upper() + says.kind[1:]
    if isinstance(says, model.Change) and says.kind:
        return says.kind[0].upper() + says.kind[1:]
    names = dict.fromkeys(fact.row.uk for fact in entry.facts if fact.stated.basis == MEASURED)
    told = ", ".join(list(names)[:3]) + (", …" if len(names) > 3 else "")
    return f"Measured: {told}" if told else entry.id.split("/", 1)[1]
