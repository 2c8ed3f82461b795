"""The front door: open a folder, ask what is in the engine and what that makes it, save what was edited.

    from logbook import Logbook
    book = Logbook.open("quarry-six")
    book.at("head-b-on").specs["compression_ratio"]

The whole flow, once: files (store) -> record -> states (fold) -> configuration at a point -> specs -> judgement.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

from logbook.errors import CannotRead, PointUnknown
from logbook.judge.standing import Standing
from logbook.reading import read, read_once
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.record import Record
from logbook.specs.configuration import configuration
from logbook.state.fold import Life, live
from logbook.store import files
from logbook.store.fingerprint import record_fingerprint

if TYPE_CHECKING:  # the judges are imported by the questions that need them: `specs` starts without
    from logbook.judge.beside import Beside
    from logbook.judge.combine import Combination
    from logbook.judge.costs import CostOfParts, Paid
    from logbook.judge.due import Due
    from logbook.judge.part_life import PartLife
    from logbook.judge.plans import Planned
    from logbook.judge.since import Since
    from logbook.judge.target import Target
    from logbook.judge.timeline import Happening
    from logbook.judge.value_history import Statement
    from logbook.written import WrittenDown


@dataclass(frozen=True)
class Logbook:
    """One engine's record, read once.

    `present`: the folder's public files; `troubles`: files not read, and why; `held`: every file's bytes where the
    record stands in no folder, else None.
    """

    folder: Path
    record: Record
    present: frozenset[str] = frozenset()
    troubles: tuple[Finding, ...] = ()
    held: Mapping[str, bytes] | None = None

    @classmethod
    def open(cls, start: str | Path = ".", *, keep: bool = False) -> Logbook:
        """The logbook in this folder or the nearest above it. Raises NotALogbook or CannotRead.

        `keep`: what was read is kept in the user's cache folder, so that the same files need not be read again.
        """
        folder = files.find_folder(Path(start))
        survey = files.survey(folder)
        troubles: list[Finding] = []
        texts = files.read_texts(
            folder,
            lambda problem: troubles.append(Finding(problem.path, 1, 1, WRONG, problem.says, problem.mend)),
            survey,
        )
        troubles += [
            Finding(path, 1, 1, NOTE, "this file is not read: no entry belongs here", _where_to(path))
            for path in survey.misplaced
        ]
        record = read_once(folder, texts) if keep else read(texts)
        return cls(folder, record, frozenset(survey.public), tuple(troubles))

    @classmethod
    def of_texts(cls, texts: Mapping[str, bytes], folder: Path | None = None) -> Logbook:
        """A logbook that stands in no folder: another revision, or a record not written yet."""
        return cls(
            folder or Path("."),
            read({path: data for path, data in texts.items() if _is_text(path)}),
            frozenset(texts),
            held=texts,
        )

    @cached_property
    def life(self) -> Life:
        """Every state of the engine, entry by entry."""
        return live(self.record)

    @cached_property
    def unread(self) -> tuple[Finding, ...]:
        """What could not be read and counts for nothing, and why."""
        told = {trouble.file for trouble in self.troubles}
        return (*self.troubles, *(finding for finding in self.record.findings if finding.file not in told))

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Everything the check has to say, by file and line, each once."""
        from logbook.judge.checks import record_checks
        from logbook.judge.due import intervals_can_be_read
        from logbook.judge.tables import tables_can_be_read

        later = tables_can_be_read(self.record, self.present, self.file), intervals_can_be_read(self.record)
        found = {*self.unread, *record_checks(self.life, self.present), *chain(*later), *self.engine_findings}
        return tuple(sorted(found))

    @cached_property
    def engine_findings(self) -> frozenset[Finding]:
        """Those of them that are about the engine; the others are about how its record is kept."""
        from logbook.judge.checks import engine_checks

        return frozenset(engine_checks(self.life))

    def file(self, path: str) -> bytes:
        """One public file of the record, a picture or a table. Raises CannotRead."""
        if self.held is None:
            return self.record.texts.get(path) or files.read_file(self.folder, path)
        if path in self.held:
            return self.held[path]
        raise CannotRead(f"there is no file {path} in this record")

    @classmethod
    def given(cls, said: Sequence[str]) -> Standing:
        """An engine of which nothing is known but what is given, in no folder: `bore=84 mm`. Raises CannotSuppose."""
        from logbook.specs.supposing import given

        record, figures = given(said)
        return cls(Path("."), record, held={}).at("now", figures)

    def at(self, point: str = "now", suppose: Sequence[str] = ()) -> Standing:
        """The engine at a point of its life, or of the record's (`rev:HEAD~3`); PointUnknown if there is none.

        `suppose`: figures and parts on top of it that are only thought of, `gasket_thickness=1.0 mm`, `fit=head-b`.
        Raises CannotSuppose.
        """
        if point.startswith("rev:"):
            return self.revision(point.removeprefix("rev:")).at("now", suppose)
        if not suppose:
            return Standing.of(configuration(self.life, point), self.file)
        from logbook.specs.supposing import supposing

        return Standing.of(configuration(*supposing(self.life, point, suppose)), self.file)

    def revision(self, revision: str) -> Logbook:
        """The record as it stood at a git revision, read from git's objects; the work tree is not touched."""
        from logbook.store.git_read import texts_at

        try:
            return Logbook.of_texts(texts_at(self.folder, revision), self.folder)
        except CannotRead as error:
            raise PointUnknown(str(error)) from error

    @cached_property
    def written(self) -> Mapping[str, WrittenDown]:
        """When each entry's file was written down, and what was amended; empty where there is no git history."""
        from logbook.written import written_down

        return written_down(self.folder, self.record) if self.held is None else {}

    def compare(
        self, before: str, after: str = "now", *, suppose: Sequence[str] = (), other: Logbook | None = None
    ) -> Beside:
        """Two points side by side, `suppose` on top of the second, which may be a point of another engine's logbook.

        Raises PointUnknown, CannotSuppose.
        """
        from logbook.judge.beside import set_beside

        then = other or self
        points = self.at(before), then.at(after, suppose)
        return set_beside(*points, (self._files(before), then._files(after)), two_engines=other is not None)

    def effect_of(self, change: str) -> Beside:
        """The engine before one change and after it, with the tests that stand nearest on both sides."""
        from logbook.judge.beside import around, set_beside

        before, after, windows = around(self.life, change)
        return set_beside(before, after, (self.file, self.file), windows=windows)

    def part_life(self, part: str) -> PartLife:
        """The life of one part. Raises NoSuchPart."""
        from logbook.judge.part_life import part_life

        return part_life(self.life, part)

    def value_history(self, name: str, part: str | None = None) -> tuple[Statement, ...]:
        """Every statement of one value, and what has become of it. Raises NoSuchValue, NoSuchPart."""
        from logbook.judge.value_history import value_history

        return value_history(self.life, name, part)

    def since(self, change: str) -> Since:
        """What the engine and its parts have run since a change. Raises PointUnknown."""
        from logbook.judge.since import since

        return since(self.life, change)

    @cached_property
    def plans(self) -> tuple[Planned, ...]:
        """What is only thought of, each with what it would do and what has become of it."""
        from logbook.judge.plans import planned

        return tuple(planned(self.life))

    def plan(self, name: str) -> Planned:
        """One plan. Raises CannotCarryOut if there is none of that name."""
        from logbook.judge.plans import one_plan

        return one_plan(self.life, name)

    def carrying_out(self, name: str, day: str) -> dict[str, Any]:
        """What the change says that carries a plan out on a day. Raises CannotCarryOut, PointUnknown."""
        from logbook.judge.plans import carrying_out

        return carrying_out(self.life, name, day)

    def _files(self, point: str) -> Callable[[str], bytes]:
        """How the files of a point's own record are read."""
        return self.revision(point.removeprefix("rev:")).file if point.startswith("rev:") else self.file

    def combine(
        self,
        parts: Mapping[str, Sequence[str]],
        wants: Sequence[str] = (),
        *,
        at: str = "now",
        suppose: Sequence[str] = (),
        shelf: str | Path | None = None,
    ) -> tuple[Combination, ...]:
        """Every combination of these parts (kind -> ids, `head-b@2017-05-01` as it stood), best first.

        `wants`: "compression_ratio 9.5..10.2"; `shelf`: another engine's folder. Raises CannotCombine, CannotWant.
        """
        from logbook.judge.combine import combine
        from logbook.judge.wants import parse_want

        point = self.at(at, suppose)
        wanted = [parse_want(text, point.graph.specs) for text in wants]
        return combine(point, parts, wanted, Logbook.open(shelf).life if shelf else None)

    def cost_of(self, combination: Combination) -> CostOfParts | None:
        """What private/costs.csv knows of the cost of its parts; None where there is none that can be read."""
        from logbook.judge.costs import cost_of

        if self._paid is None:
            return None
        parts = [[part for each in combination.choices if each.theirs is theirs for part in each.parts]
                 for theirs in (False, True)]  # fmt: skip
        return cost_of(self._paid, *parts)

    @cached_property
    def _paid(self) -> tuple[Paid, ...] | None:
        from logbook.judge.costs import paid
        from logbook.record.costs import costs
        from logbook.store.private import read_costs

        data = read_costs(self.folder) if self.held is None else None
        return paid(self.record, costs(data, self.record)) if isinstance(data, bytes) else None

    def target(self, spec: str, wanted: float, by: str, *, at: str = "now", suppose: Sequence[str] = ()) -> Target:
        """What `by` must become for a spec to be `wanted` (base units). Raises CannotAim."""
        from logbook.judge.target import target

        return target(self.at(at, suppose), spec, wanted, by)

    def due(self, as_of: str | None = None) -> list[Due]:
        """What is due, what is over first, as of the last entry or of a day or reading, past or to come."""
        from logbook.judge.due import due

        return due(self.life, as_of)

    def timeline(self) -> Iterator[Happening]:
        """The life of the engine, each entry with what it did."""
        from logbook.judge.timeline import timeline

        return timeline(self.life, self.file)

    @cached_property
    def fingerprint(self) -> str:
        """The record fingerprint of what stands on the disk now (64 hexadecimal digits)."""
        return record_fingerprint(files.read_public(self.folder) if self.held is None else self.held)


def _is_text(path: str) -> bool:
    return files.kind_of(path) == "text"


def _where_to(path: str) -> str:
    if path.endswith(".yml"):
        return "give it the ending .yaml"
    return "entries belong in measurements/, changes/, tests/, notes/, parts in parts/, plans in plans/"
