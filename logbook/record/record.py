"""The record: everything that a folder says, as `read.py` made it of the texts."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple, TypeVar

from logbook.quantity.usage import Usage
from logbook.record import entries as model
from logbook.record.facts import MEASURED, Fact
from logbook.record.finding import Finding, Path
from logbook.record.models import Engine, Part


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


#: Stands where engine.yaml cannot be read. What follows from the engine (positions, counters) is then not judged.
NO_ENGINE = Engine(format="1", name="unknown engine", cylinders=1, arrangement="single")


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
        from logbook.record.strict_yaml import place_of  # a good record needs no place

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
