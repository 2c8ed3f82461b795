"""Taking back the newest change to the record, as one more commit: git keeps both, so nothing that was typed is lost.

A change is a commit that touched what counts: texts or files/. Commits that only worked out specs.yaml anew, those that
took something back and those that were taken back are passed over, so that undoing twice goes one change further back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import unified_diff
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.errors import CannotWrite
from logbook.logbook import Logbook
from logbook.saving import SPECS_FILE, commit_message, current_specs
from logbook.store import files

if TYPE_CHECKING:
    from logbook.judge.compare import Difference
    from logbook.store.git_read import Written

UNDOES = "Undoes"
_MOST_LINES = 12


@dataclass(frozen=True, slots=True)
class Undone:
    """What one undo did: its commit, the one it took back, that one's files, and the specs that changed.

    `book` is the record as it is committed now; `left` are files with hand edits that are not saved and stay so.
    """

    commit: str
    taken_back: str
    subject: str
    paths: tuple[str, ...]
    effect: Mapping[str, Difference]
    book: Logbook
    left: tuple[str, ...]
    finished: str | None = None


@dataclass(frozen=True, slots=True)
class _File:
    """A file of the change: as it was before, as the change left it, as the last commit has it and as it stands."""

    path: str
    before: bytes | None
    after: bytes | None
    committed: bytes | None
    now: bytes | None

    @property
    def edited_since(self) -> bool:
        return self.committed != self.after or self.now not in (self.after, self.before)


def undo(start: str | Path) -> Undone:
    """Take back the newest change that is not undone yet. Files edited by hand since, and not part of it, stay so.

    Raises CannotWrite where there is nothing to take back, or where one of its files was edited since; then nothing
    was written.
    """
    from logbook.store.journal import finish_interrupted
    from logbook.store.lock import repository_lock
    from logbook.store.repository import open_repository

    folder = files.find_folder(Path(start))
    finished = finish_interrupted(folder)
    with repository_lock(open_repository(folder)):
        return _undo(folder, finished)


def _undo(folder: Path, finished: str | None) -> Undone:
    from logbook.judge.timeline import changed
    from logbook.store.earlier import public_at
    from logbook.store.git_read import edited, history
    from logbook.store.git_write import commit

    change = newest(history(folder))
    _refuse(folder, change)
    public, by_hand = public_at(folder), edited(folder)
    touched = _touched(folder, change, public, by_hand)
    _refuse_edited(change, touched)
    back = {file.path: file.before for file in touched}
    then = {path: data for path, data in {**public, **back}.items() if data is not None}
    book = Logbook.of_texts(then, folder)
    effect = changed(Logbook.of_texts(public).at("now"), book.at("now"))
    message = commit_message(f"Undo: {change.subject}", effect, None)
    changes = {**back, SPECS_FILE: current_specs(book, then)}
    made = commit(folder, changes, message, trailers={UNDOES: change.commit})
    assert made, "a change that is to be taken back differs from what was before"
    left = tuple(path for path in by_hand if path not in changes)
    return Undone(made, change.commit, change.subject, tuple(back), effect, book, left, finished)


def newest(history: Iterable[Written]) -> Written:
    """The newest change that is not undone yet, of a history oldest first. Raises CannotWrite if there is none."""
    commits = list(history)
    passed = {each.trailers[UNDOES] for each in commits if UNDOES in each.trailers}
    passed |= {each.commit for each in commits if UNDOES in each.trailers}
    for each in reversed(commits):
        if each.commit not in passed and any(_counts(changed.path) for changed in each.paths):
            return each
    raise CannotWrite("There is no change left that could be taken back; nothing was written")


def _counts(path: str) -> bool:
    return files.kind_of(path) in ("text", "file")


def _refuse(folder: Path, change: Written) -> None:
    from logbook.store.earlier import joins_two_lines

    told = f"The newest change, {change.commit[:10]} '{change.subject}', "
    if any(each.path == files.ENGINE and each.old is None for each in change.paths):
        raise CannotWrite(f"{told}began this logbook: there is nothing before it to go back to. Nothing was written")
    if joins_two_lines(folder, change.commit):
        raise CannotWrite(
            f"{told}joined two lines of work; nothing was written. Take it back with git: "
            f"git revert -m 1 {change.commit[:10]}, then: logbook save"
        )


def _touched(
    folder: Path, change: Written, public: Mapping[str, bytes], by_hand: Mapping[str, bytes | None]
) -> list[_File]:
    from logbook.store.earlier import contents_of

    paths = [each for each in change.paths if _counts(each.path)]
    contents = contents_of(folder, [number for each in paths for number in (each.old, each.new) if number])
    return [
        _File(
            each.path,
            contents[each.old] if each.old else None,
            contents[each.new] if each.new else None,
            public.get(each.path),
            by_hand.get(each.path, public.get(each.path)),
        )
        for each in paths
    ]


def _refuse_edited(change: Written, touched: Iterable[_File]) -> None:
    edited = [file for file in touched if file.edited_since]
    if not edited:
        return
    shown = "\n".join(line for file in edited for line in _both(file))
    raise CannotWrite(
        f"{change.commit[:10]} '{change.subject}' cannot be taken back: what it wrote was edited since. "
        f"Nothing was written.\n{shown}\n"
        "Save the later edit first (logbook save): undo then takes that one back before this. "
        "Or go back by hand, and save"
    )


def _both(file: _File) -> Iterator[str]:
    """The name, and the lines in which the change's text (-) and the later one (+) differ."""
    by_hand = file.committed == file.after
    how = "stands in the folder" if by_hand else "was committed"
    yield f"{file.path}: - as that change wrote it, + as it {how} now"
    lines = _differing(file.after, file.now if by_hand else file.committed)
    yield from (f"  {line}" for line in lines[:_MOST_LINES])
    if len(lines) > _MOST_LINES:
        yield f"  … and {len(lines) - _MOST_LINES} more lines"


def _differing(before: bytes | None, after: bytes | None) -> list[str]:
    if any(b"\0" in (data or b"") for data in (before, after)):
        return ["(not a text)"]
    if after is None:
        return ["+ (deleted)"]
    old, new = ((data or b"").decode("utf-8", "replace").splitlines() for data in (before, after))
    lines = list(unified_diff(old, new, n=0, lineterm=""))[2:]
    return [f"{line[0]} {line[1:]}" for line in lines if not line.startswith("@@")] or ["(its line ends only)"]
