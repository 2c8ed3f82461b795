"""What an interrupted commit still has to do, and doing it.

The states of a commit, in order; a kill or a power cut may come between any two steps:

    1  blobs, tree and commit are in the object store, the new files lie beside their places; nothing shows
    2  the journal is on the disk: branch, old and new commit, and for each path its blob ids
    3  the branch moves from the old commit to the new one, only if it still stands at the old: **the change is made**
    4  the files are renamed into their places
    5  our paths are set in the user's index
    6  the journal is deleted

Before 3 the record is as before; from 3 on it is as after, and whatever is missing follows from the journal and the
commit. So `finish_interrupted` needs only the journal: it moves the branch if it has not moved (the user asked for this
change), then does 4 to 6 again, each of which is harmless twice. It never guesses:

- A file is placed only where the last commit has what the journal says and the disk still has what stood there when the
  commit was checked; anything else is a later hand edit and stays.
- The index is set only where it still has what it had or what it shall have.
- If the branch went elsewhere meanwhile, another branch is checked out, or git has thrown the unfinished commit away,
  only what the last commit confirms is finished, and the journal is dropped.
"""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from time import sleep
from typing import Any

from logbook.errors import CannotWrite
from logbook.store import disk
from logbook.store.files import refuse_linked_parents, temporaries
from logbook.store.git_read import PLAIN_FILES, Scratch, scratch
from logbook.store.git_run import NOTHING, Environment, GitFailed, clearly
from logbook.store.lock import refuse_git_locks, repository_lock
from logbook.store.repository import (
    OBJECT_ID,
    Repository,
    find_repository,
    is_reference,
    read_head,
    read_reference,
)
from logbook.store.staging import Change, run_live, set_staged, staged_otherwise

_NAME = "logbook-journal.json"
_FORMAT = 1


@dataclass(frozen=True, slots=True)
class Journal:
    """What a commit is about to do. `write_files` is False where the work tree is not to be touched."""

    branch: str
    old: str | None
    new: str
    write_files: bool
    changes: tuple[Change, ...]


def journal_file(repository: Repository) -> Path:
    """Where the journal of an unfinished commit lies."""
    return repository.git_dir / _NAME


def write_journal(repository: Repository, journal: Journal) -> None:
    """State 2: flushed to the disk before anything that shows is touched."""
    text = json.dumps({"format": _FORMAT, **asdict(journal)}, indent=1)
    disk.write_durably(journal_file(repository), text.encode())


def read_journal(repository: Repository) -> Journal | None:
    """The journal of an unfinished commit. Raises CannotWrite for one that this program did not write."""
    data = disk.content(journal_file(repository))
    if data is None:
        return None
    try:
        return _checked(json.loads(data))
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise CannotWrite(
            f"{journal_file(repository)} is not a journal of this program's; look at it, then delete it: the record's "
            "files and its last commit are not affected"
        ) from error


def _checked(data: dict[str, Any]) -> Journal:
    """Every field checked before it is used: paths are joined to the work tree, ids and the branch go to git."""
    journal = Journal(
        data["branch"],
        _id(data["old"]),
        _id(data["new"]) or "",
        data["write_files"] is True,
        tuple(_checked_change(change) for change in data["changes"]),
    )
    if data["format"] != _FORMAT or not journal.new or not _is_branch(journal.branch):
        raise ValueError(data)
    return journal


def _is_branch(name: str) -> bool:
    return name.startswith("refs/heads/") and is_reference(name)


def _checked_change(data: dict[str, str | None]) -> Change:
    path, mode = str(data["path"]), str(data["mode"])
    if mode not in PLAIN_FILES or any(part in ("", ".", "..", ".git") for part in path.split("/")):
        raise ValueError(path)
    return Change(path, mode, _id(data["old"]), _id(data["new"]), _id(data["disk"]))


def _id(value: str | None) -> str | None:
    if value is not None and not OBJECT_ID.match(value):
        raise ValueError(value)
    return value


def drop_journal(repository: Repository) -> None:
    """State 6."""
    disk.remove(journal_file(repository))


def move_branch(repository: Repository, journal: Journal, identity: Environment = NOTHING) -> None:
    """State 3: compare and swap. Raises GitFailed, and then the branch has not moved."""
    swap = (journal.branch, journal.new, journal.old or "0" * len(journal.new))
    try:
        run_live(repository, "update-ref", "--no-deref", "-m", "logbook", *swap, environment=identity)
    except GitFailed:
        if read_reference(repository, journal.branch) != journal.new:
            raise


def settle(git: Scratch, journal: Journal, confirmed: Sequence[Change], prepared: bool) -> None:
    """States 4 to 6, for the changes that the last commit is known to hold."""
    if journal.write_files:
        for change in confirmed:
            place_change(git, change, prepared)
    _set_index(git, confirmed)
    drop_journal(git.repository)


def place_change(git: Scratch, change: Change, prepared: bool) -> None:
    """Bring one file of the work tree to the new content, unless a hand has been at it since it was checked."""
    refuse_linked_parents(git.repository.root, change.path)
    file = git.repository.root / change.path
    now = disk_id(git, file)
    if now == change.new or now != change.disk:
        disk.temporary_for(file).unlink(missing_ok=True)
    elif change.new is None:
        disk.remove(file)
    else:
        if not prepared:
            disk.prepare(file, git.run("cat-file", "blob", change.new))
        disk.place(file)


def disk_id(git: Scratch, file: Path) -> str | None:
    """The blob id of what stands on the disk, None if nothing does."""
    data = disk.content(file)
    return None if data is None else git.blob_id(data)


def _set_index(git: Scratch, changes: Sequence[Change]) -> None:
    """State 5. Another git may hold the index for a moment; an entry that is neither old nor new is the user's own."""
    own = {change.path for change in staged_otherwise(git.repository, changes, git.blob_id(b""))}
    ours = [change for change in changes if change.path not in own]
    for pause in (0.05, 0.1, 0.2, None):
        try:
            return set_staged(git.repository, ours)
        except GitFailed:
            if pause is None or not (git.repository.git_dir / "index.lock").exists():
                raise
            sleep(pause)


def finish_interrupted(folder: Path) -> str | None:
    """Finish what a killed command left half done; one sentence that says what was done, None if there was nothing.

    Call it before a writing command reads the record (`commit` does it again, which costs nothing). Raises CannotWrite
    where git's own lock is left over, with what to do.
    """
    repository = find_repository(folder)
    if repository is None or not (journal_file(repository).exists() or temporaries(folder)):
        return None
    says = f"The interrupted change in {repository.root} cannot be finished"
    with clearly(CannotWrite, says), repository_lock(repository):
        return finish(repository, folder)


def finish(repository: Repository, folder: Path) -> str | None:
    """The same, for a caller that holds the lock."""
    journal = read_journal(repository)
    says = _finish(repository, journal) if journal else None
    for left in temporaries(folder):
        left.unlink(missing_ok=True)
    return says


def _finish(repository: Repository, journal: Journal) -> str:
    refuse_git_locks(repository, journal.branch)
    with scratch(repository) as git:
        if _still_to_move(git, journal):
            move_branch(repository, journal)
        confirmed = _confirmed(git, journal)
        settle(git, journal, confirmed, prepared=False)
    if not confirmed:
        return "A change that was interrupted before it was made has been dropped; enter it again"
    return f"The interrupted change {journal.new[:10]} has been finished"


def _still_to_move(git: Scratch, journal: Journal) -> bool:
    head = read_head(git.repository)
    return head.branch == journal.branch and head.commit == journal.old and _exists(git, journal.new)


def _exists(git: Scratch, commit: str) -> bool:
    try:
        return bool(git.run("cat-file", "-e", f"{commit}^{{tree}}") == b"")
    except GitFailed:
        return False


def _confirmed(git: Scratch, journal: Journal) -> list[Change]:
    """The changes that what is checked out now holds as the journal says."""
    head = read_head(git.repository)
    if head.branch != journal.branch:
        return []
    entries = git.entries(head.commit, [change.path for change in journal.changes])
    return [one for one in journal.changes if (entries[one.path].id if one.path in entries else None) == one.new]
