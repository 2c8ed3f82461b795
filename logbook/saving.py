"""Saving: check, recompute, and one commit with the files and specs.yaml, all under one lock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from logbook import __version__
from logbook.errors import CannotRead, Refused
from logbook.logbook import Logbook
from logbook.record.finding import WRONG, Finding
from logbook.store import files
from logbook.store.fingerprint import record_fingerprint

if TYPE_CHECKING:
    from logbook.judge.compare import Difference

SPECS_FILE = "specs.yaml"


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
    from logbook.store.git_write import commit, refuse_unfinished
    from logbook.store.repository import open_repository
    from logbook.upkeep import ignoring_private, private_saved, recompute_alone

    refuse_unfinished(open_repository(folder))
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
    from logbook.upkeep import private_in_public

    found = (*book.findings, *private_in_public(book.folder, book.record.engine.demonstration))
    wrong = [finding for finding in found if finding.level == WRONG]
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
