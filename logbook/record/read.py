"""From the texts of a folder to the record: every file read, every finding told, nothing decided.

In: relative path -> bytes (from disk or from a git revision, the reader cannot tell). Out: a Record. A file that cannot
be read is left out and told; the rest is read all the same.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePosixPath
from typing import Any

from logbook.quantity.usage import Usage
from logbook.record import entries as model
from logbook.record.collecting import collection_paused
from logbook.record.engine_facts import valves_of_each
from logbook.record.facts import ASSUMED, Fact
from logbook.record.figures import Figures
from logbook.record.finding import WRONG, Finding
from logbook.record.flow_tables import flow_facts
from logbook.record.models import Engine, Part
from logbook.record.order import in_order
from logbook.record.record import NO_ENGINE, Entry, Record
from logbook.record.strict import Strict
from logbook.record.strict_yaml import place_of, read_yaml
from logbook.record.validating import validated

FOLDERS: Mapping[str, type[Strict]] = {
    "parts": Part,
    "measurements": model.Measurement,
    "changes": model.Change,
    "tests": model.Test,
    "notes": model.Note,
    "plans": model.Plan,
}


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


def _by_name(facts: Iterable[Fact]) -> dict[str, tuple[Fact, ...]]:
    by_name: dict[str, list[Fact]] = defaultdict(list)
    for fact in facts:
        by_name[fact.name].append(fact)
    return {name: tuple(some) for name, some in by_name.items()}


def _model(kind: type[Strict], file: str, texts: Mapping[str, bytes], findings: list[Finding]) -> Any:
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
    read, objections = validated(kind, tree, file, texts[file])
    findings += objections
    return read


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
