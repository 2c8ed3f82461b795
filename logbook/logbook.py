"""The front door: open a folder, ask what is in the engine and what that makes it, save what was edited.

    from logbook import Logbook
    book = Logbook.open("quarry-six")
    book.at("head-b-on").specs["compression_ratio"]

The whole flow, once: files (store) -> record -> states (fold) -> configuration at a point -> specs -> judgement.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from logbook import __version__
from logbook.errors import CannotRead, PointUnknown, Refused
from logbook.judge.standing import Standing
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.read import Record, read_record
from logbook.specs.configuration import configuration
from logbook.state.fold import Life, live
from logbook.store import files
from logbook.store.fingerprint import record_fingerprint

if TYPE_CHECKING:  # the judges are imported by the questions that need them: `specs` starts without
    from logbook.judge.compare import Comparison, Difference
    from logbook.judge.timeline import Happening
    from logbook.written import WrittenDown

SPECS_FILE = "specs.yaml"


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
    def open(cls, start: str | Path = ".") -> Logbook:
        """The logbook in this folder or the nearest above it. Raises NotALogbook or CannotRead."""
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
        return cls(folder, read_record(texts), frozenset(survey.public), tuple(troubles))

    @classmethod
    def of_texts(cls, texts: Mapping[str, bytes], folder: Path | None = None) -> Logbook:
        """A logbook that stands in no folder: another revision, or a record not written yet."""
        return cls(
            folder or Path("."),
            read_record({path: data for path, data in texts.items() if _is_text(path)}),
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
        from logbook.judge.checks import all_checks
        from logbook.judge.due import intervals_can_be_read
        from logbook.judge.tables import tables_can_be_read

        later = tables_can_be_read(self.record, self.present, self.file), intervals_can_be_read(self.record)
        found = {*self.unread, *all_checks(self.life, self.present), *chain(*later)}
        return tuple(sorted(found))

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

        return cls(Path("."), given(said), held={}).at("now", said)

    def at(self, point: str = "now", suppose: Sequence[str] = ()) -> Standing:
        """The engine at a point of its life, or of the record's (`rev:HEAD~3`); PointUnknown if there is none.

        `suppose`: figures and parts on top of it that are only thought of, `gasket_thickness=1.0 mm`, `fit=head-b`.
        Raises CannotSuppose.
        """
        if point.startswith("rev:"):
            return self.revision(point.removeprefix("rev:")).at("now", suppose)
        if not suppose:
            return Standing.of(configuration(self.life, point))
        from logbook.specs.supposing import supposing

        return Standing.of(configuration(*supposing(self.life, point, suppose)))

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

    def compare(self, before: str, after: str = "now") -> Comparison:
        """Two points side by side."""
        from logbook.judge.compare import compare

        return compare(self.at(before), self.at(after))

    def timeline(self) -> Iterator[Happening]:
        """The life of the engine, each entry with what it did."""
        from logbook.judge.timeline import timeline

        return timeline(self.life)

    @cached_property
    def fingerprint(self) -> str:
        """The record fingerprint of what stands on the disk now (64 hexadecimal digits)."""
        return record_fingerprint(files.read_public(self.folder) if self.held is None else self.held)


@dataclass(frozen=True)
class Saved:
    """What one save did: the commit (None if nothing differed), the files in it, and the specs that changed.

    A sentence each on what was done besides: `finished` (journal.py), `recomputed`, `private` and `unsaved`, why
    private/ could not be saved (upkeep.py).
    """

    commit: str | None
    paths: tuple[str, ...]
    effect: Mapping[str, Difference]
    findings: tuple[Finding, ...]
    finished: str | None = None
    recomputed: str | None = None
    private: str | None = None
    unsaved: str | None = None


def save(
    start: str | Path,
    subject: str | None = None,
    *,
    new: Mapping[str, bytes] | None = None,
    even_so: str | None = None,
    date: datetime | None = None,
) -> Saved:
    """Check, recompute and commit what was edited by hand, and the files `new`, as one commit.

    Raises Refused if the record has findings of level wrong and no reason is given for saving `even_so`; CannotWrite or
    CannotRead where git or the disk refuses. Then nothing was written.
    """
    from logbook.store.journal import finish_interrupted
    from logbook.store.lock import repository_lock
    from logbook.store.repository import open_repository

    folder = files.find_folder(Path(start))
    finished = finish_interrupted(folder)
    with repository_lock(open_repository(folder)):  # from reading to committing: specs.yaml is of just these files
        return _save(folder, subject, new or {}, even_so, date, finished)


def _save(
    folder: Path,
    subject: str | None,
    new: Mapping[str, bytes],
    even_so: str | None,
    date: datetime | None,
    finished: str | None,
) -> Saved:
    from logbook.store.git_read import edited
    from logbook.store.git_write import commit
    from logbook.upkeep import ignoring_private, private_saved, recompute_alone

    public = {**files.read_public(folder), **new}
    book = Logbook.of_texts(public, folder)
    _refuse_wrong(book, even_so)
    recomputed = recompute_alone(folder, date)
    by_hand = {path: data for path, data in edited(folder).items() if path != SPECS_FILE}
    seen = {**by_hand, **new, **ignoring_private(public)}
    changes = {**seen, SPECS_FILE: current_specs(book, public)}
    effect = _effect(folder, book)
    message = commit_message(subject or _subject(book, tuple(seen)), effect, even_so)
    made = commit(folder, changes, message, seen=by_hand, author_date=date)
    private, unsaved = private_saved(folder, subject or "Save what is private", date)
    return Saved(made, tuple(sorted(seen)), effect, book.findings, finished, recomputed, private, unsaved)


def current_specs(book: Logbook, public: Mapping[str, bytes]) -> bytes:
    """specs.yaml as it must read beside these files."""
    from logbook.specs.specs_file import specs_file

    return specs_file(book.at("now"), __version__, record_fingerprint(public))


def _refuse_wrong(book: Logbook, even_so: str | None) -> None:
    wrong = [finding for finding in book.findings if finding.level == WRONG]
    if wrong and not even_so:
        listed = "\n".join(map(str, wrong))
        raise Refused(f'{listed}\nNothing was saved. Mend this, or save it as it is with --even-so "the reason"')


def _effect(folder: Path, book: Logbook) -> dict[str, Difference]:
    """The specs of now against those of the last commit; empty before the first one."""
    from logbook.judge.timeline import changed
    from logbook.store.git_read import texts_at

    try:
        before = Logbook.of_texts(texts_at(folder, "HEAD"))
    except CannotRead:
        return {}
    if not before.record.entries and not before.record.parts:
        return {}
    return changed(before.at("now"), book.at("now"))


def _subject(book: Logbook, paths: tuple[str, ...]) -> str:
    """The title of the newest entry among the saved files, else which files they are."""
    saved = [entry for entry in book.record.entries if entry.file in paths]
    if saved:
        more = f" (and {len(saved) - 1} more)" if len(saved) > 1 else ""
        return f"{saved[-1].title}{more}"
    names = ", ".join(paths[:3]) + (f" and {len(paths) - 3} more" if len(paths) > 3 else "")
    return f"Edit {names}" if names else "Recompute the specs"


def commit_message(subject: str, effect: Mapping[str, Difference], even_so: str | None) -> str:
    """The subject on one line, the specs that changed, and why it was saved as it is."""
    paragraphs = [" ".join(subject.split())[:120]]
    if effect:
        paragraphs.append("Specs that changed: " + ", ".join(effect))
    if even_so:
        paragraphs.append(f"Saved with findings, because: {even_so}")
    return "\n\n".join(paragraphs)


def _is_text(path: str) -> bool:
    return files.kind_of(path) == "text"


def _where_to(path: str) -> str:
    if path.endswith(".yml"):
        return "give it the ending .yaml"
    return "entries belong in measurements/, changes/, tests/, notes/, parts in parts/, plans in plans/"
