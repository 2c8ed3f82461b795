"""From the texts of a folder to the record: every file read, every finding told, nothing decided.

In: relative path -> bytes (from disk or from a git revision, the reader cannot tell). Out: a Record. A file that cannot
be read is left out and told; the rest is read all the same.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import Any, NamedTuple, TypeVar

from pydantic import BaseModel, ValidationError

from logbook.quantity.usage import Usage
from logbook.record import entries as model
from logbook.record.collecting import collection_paused
from logbook.record.complaints import complaints
from logbook.record.engine_facts import valves_of_each
from logbook.record.facts import ASSUMED, MEASURED, Fact
from logbook.record.figures import Figures
from logbook.record.finding import WRONG, Finding
from logbook.record.flow_tables import flow_facts
from logbook.record.models import Engine, Part
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


class Entry(NamedTuple):
    """One dated file: its id is its path without the ending."""

    id: str
    file: str
    says: Any  # Measurement | Change | Test | Note
    facts: tuple[Fact, ...] = ()
    usage: Usage = Usage()

    @property
    def kind(self) -> str:
        return self.id.split("/", 1)[0].removesuffix("s")

    @property
    def title(self) -> str:
        return self.says.title or _plain_title(self)


Made = TypeVar("Made")


@dataclass(frozen=True)
class Record:
    """Everything the folder says, and what there is to say about it."""

    engine: Engine
    parts: Mapping[str, Part] = field(default_factory=dict)
    entries: tuple[Entry, ...] = ()
    plans: Mapping[str, model.Plan] = field(default_factory=dict)
    facts: Mapping[str, tuple[Fact, ...]] = field(default_factory=dict)
    planned: Mapping[str, tuple[Fact, ...]] = field(default_factory=dict)  # by plan: what it assumes and would set
    texts: Mapping[str, bytes] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    unread: frozenset[str] = frozenset()  # files that are there and could not be read
    _once: dict[Hashable, Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    @property
    def engine_known(self) -> bool:
        """Whether engine.yaml could be read."""
        return self.engine is not NO_ENGINE

    def where(self, file: str, path: Path, *, key: bool = False) -> tuple[int, int]:
        """Line and column of what stands at `path` in `file`."""
        return place_of(self.texts[file], path, key=key) if file in self.texts else (1, 1)

    def finding(self, file: str, path: Path, level: str, says: str, mend: str = "", *, key: bool = False) -> Finding:
        """A finding at `path` in `file`."""
        return Finding(file, *self.where(file, path, key=key), level, says, mend)

    def unreadable(self, name: str) -> bool:
        """Whether there is a file of that name (`parts/head-a`, or only `head-a`) whose own finding says all."""
        wanted = f"{name.removesuffix('.yaml')}.yaml"
        return any(file == wanted or file.endswith(f"/{wanted}") for file in self.unread)

    def once(self, what: Hashable, make: Callable[[], Made]) -> Made:
        """What follows from the record alone, worked out when it is first asked for. `what`: its name, and of what."""
        if what not in self._once:
            self._once[what] = make()
        made: Made = self._once[what]
        return made

    def depth_of(self, file: str, step: int) -> Fact | None:
        """How deep the cut of one rework went, if its step says."""
        planned = (fact for some in self.planned.values() for fact in some)
        cuts = (fact for fact in (*self.facts.get("cut_depth", ()), *planned) if fact.name == "cut_depth")
        return next((cut for cut in cuts if cut.stated.file == file and cut.stated.step == step), None)

    def entry(self, name: str) -> Entry | None:
        """The entry of that id, or of that file name in any folder if it is the only one."""
        wanted = name.removesuffix(".yaml")
        found = [entry for entry in self.entries if entry.id == wanted or entry.id.split("/", 1)[1] == wanted]
        return found[0] if len(found) == 1 else None


@collection_paused()
def read_record(texts: Mapping[str, bytes]) -> Record:
    """The record in these texts. Where engine.yaml cannot be read, a record of an engine of which nothing is known."""
    findings: list[Finding] = []
    engine = _engine(texts, findings)
    said = {file: _model(FOLDERS[folder], file, texts, findings) for folder, file in _files(texts)}
    parts = {_name(file): says for file, says in said.items() if isinstance(says, Part)}
    plans = {_name(file): says for file, says in said.items() if isinstance(says, model.Plan)}
    usage = engine.usage if engine else Usage()
    dated = [Entry(file[:-5], file, says, (), usage) for file, says in said.items() if isinstance(says, model.Dated)]
    ordered, mistakes = in_order(dated)
    unread = frozenset(file for file, says in said.items() if says is None)
    for entry, wrong, mend in mistakes:
        if f"{entry.says.after}.yaml" in map(_bare_name, unread):
            continue  # it is there, and its own finding says why it could not be read
        findings.append(Finding(entry.file, *place_of(texts[entry.file], ("after",)), WRONG, wrong, mend))
    figures = Figures(texts, findings)
    entries = tuple(
        entry._replace(facts=tuple(figures.of_entry(entry.file, entry.says, number)))
        for number, entry in enumerate(ordered)
    )
    of_parts = [fact for name, part in parts.items() for fact in figures.of_part(name, part)]
    of_benches = flow_facts(((entry.file, entry.says) for entry in entries), texts, findings)
    stated = (*valves_of_each(engine), *of_parts, *(fact for entry in entries for fact in entry.facts), *of_benches)
    facts = _by_name(stated)
    planned = {name: tuple(figures.of_plan(f"plans/{name}.yaml", plan, ASSUMED)) for name, plan in plans.items()}
    return Record(engine or NO_ENGINE, parts, entries, plans, facts, planned, texts, tuple(findings), unread)


def _engine(texts: Mapping[str, bytes], findings: list[Finding]) -> Engine | None:
    if "engine.yaml" in texts:
        found: Engine | None = _model(Engine, "engine.yaml", texts, findings)
        return found
    findings.append(Finding("engine.yaml", 1, 1, WRONG, "the file is missing", "begin one with `logbook new`"))
    return None


def _files(texts: Mapping[str, bytes]) -> Iterator[tuple[str, str]]:
    """Folder and path of every file that belongs to the record, in the order of their names."""
    for file in sorted(texts):
        folder, _, name = file.partition("/")
        if folder in FOLDERS and "/" not in name and name.endswith(".yaml"):
            yield folder, file


def _bare_name(file: str) -> str:
    return PurePosixPath(file).name


def _name(file: str) -> str:
    return PurePosixPath(file).stem


#: Stands where engine.yaml cannot be read. What follows from the engine (positions, counters) is then not judged.
NO_ENGINE = Engine.model_construct(name="unknown engine", cylinders=1, arrangement="single")


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
        what = "a list" if isinstance(tree, list) else "plain text"
        says = f"lines of `key: value` belong here, not {what}"
        findings.append(Finding(file, 1, 1, WRONG, says, "see the file format in the README"))
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


#: Engines whose arithmetic or whose law is another: told plainly, not half served.
_TWO_STROKE = ("two-stroke engines are not supported: their volumes count from port closing",
               "this logbook is for four-stroke engines")  # fmt: skip
_ROTARY = "rotary engines are not supported: they have no stroke", "this logbook is for piston engines"
_AIRCRAFT = ("aircraft engines are not supported: the law regulates their records",
             "keep the records that the aviation authority requires")  # fmt: skip
_OUTSIDE_THE_SCOPE = (
    ("cycle", re.compile(r"two|2"), _TWO_STROKE),
    ("cycle", re.compile(r"rotary|wankel"), _ROTARY),
    ("arrangement", re.compile(r"rotary|wankel"), _ROTARY),
    ("arrangement", re.compile(r"aircraft|radial"), _AIRCRAFT),
    ("name", re.compile(r"\b(aircraft|aero)[ -]?engine"), _AIRCRAFT),
)


def _outside_the_scope(tree: dict[str, Any]) -> tuple[str, str, str] | None:
    for key, words, refusal in _OUTSIDE_THE_SCOPE:
        if words.search(str(tree.get(key, "")).lower()):
            return key, *refusal
    return None


def _plain_title(entry: Entry) -> str:
    says = entry.says
    if isinstance(says, model.Test):
        return says.kind[0].upper() + says.kind[1:]
    if isinstance(says, model.Change) and says.kind:
        return says.kind[0].upper() + says.kind[1:]
    measured = [fact for fact in entry.facts if fact.stated.basis == MEASURED]
    names = list(dict.fromkeys(entry.usage.name(fact.row) for fact in measured))
    parts = {fact.stated.part for fact in measured}
    told = ", ".join(names[:3]) + (", …" if len(names) > 3 else "")
    of = f" of {parts.pop()}" if len(parts) == 1 and None not in parts else ""
    return f"Measured: {told}{of}" if told else entry.id.split("/", 1)[1]
