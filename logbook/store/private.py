"""private/: prices, names, addresses, in a git repository of its own inside the engine folder.

The public history never holds it, and nothing that is worked out depends on it. It is committed with the same plumbing
and under the same rules; its commits carry no record fingerprint. A private/ that is a link is the owner's own affair.
"""

import os
from datetime import datetime
from pathlib import Path

from logbook.errors import CannotRead, CannotWrite
from logbook.store import disk, files, git_run
from logbook.store.disk import Problem
from logbook.store.git_read import reading
from logbook.store.git_run import clearly
from logbook.store.git_write import commit
from logbook.store.identity import identity
from logbook.store.journal import finish_interrupted
from logbook.store.repository import open_repository, read_head

COSTS = f"{files.PRIVATE}/costs.csv"


def save_private(folder: Path, subject: str, date: datetime | None = None) -> tuple[str, tuple[str, ...]] | None:
    """Commit what was edited in private/, its repository made on first use: commit and paths, None if nothing differs.

    The caller holds the lock of the engine's repository. Raises CannotWrite or CannotRead; then nothing was written.
    """
    place = folder / files.PRIVATE
    if place.is_symlink() or not place.is_dir():
        return None
    on_disk = _read(place)
    if not on_disk and not (place / ".git").exists():
        return None
    _begin(place)
    finish_interrupted(place)
    changes = _edited(place, on_disk)
    who = identity(open_repository(folder), date)  # the engine's repository may have a name of its own set
    made = commit(place, changes, subject, seen=changes, who=who, fingerprinted=False)
    return (made, tuple(changes)) if made else None


def _read(place: Path) -> dict[str, bytes]:
    """Every file by its path, but hidden ones and editors' leftovers. Raises CannotRead for a link, a pipe, a giant."""
    found = {}
    for at, folders, names in os.walk(place):
        folders[:] = sorted(name for name in folders if not files.left_by_editors(name))
        links = [name for name in folders if Path(at, name).is_symlink()]
        for name in sorted([*links, *(name for name in names if not files.left_by_editors(name))]):
            path = Path(at, name).relative_to(place).as_posix()
            data = disk.read_plain(place / path, f"{files.PRIVATE}/{path}", files.MOST_FILE)
            if isinstance(data, Problem):
                raise CannotRead(str(data))
            found[path] = data
    return found


def _begin(place: Path) -> None:
    """A repository of its own; begun again where the first beginning was interrupted, which git allows."""
    git_dir = place / ".git"
    if os.path.lexists(git_dir):
        parts = (git_dir / name for name in ("HEAD", "objects", "refs"))
        if git_dir.is_symlink() or not git_dir.is_dir() or all(part.exists() for part in parts):
            return
    with clearly(CannotWrite, f"No git repository could be made in {place}"):
        where = {"GIT_DIR": str(git_dir.resolve()), "GIT_WORK_TREE": str(place.resolve())}
        git_run.run(("init", "--quiet", "--template=", "--initial-branch=main"), place, where)


def _edited(place: Path, on_disk: dict[str, bytes]) -> dict[str, bytes | None]:
    with reading(place, f"The last commit of {place} cannot be read") as git:
        tree = git.tree(read_head(git.repository).commit)
        changed: dict[str, bytes | None] = {
            path: data for path, data in on_disk.items() if path not in tree or tree[path].id != git.blob_id(data)
        }
    gone = (path for path in tree if not os.path.lexists(place / path))
    return dict(sorted({**changed, **dict.fromkeys(gone)}.items()))


def read_costs(folder: Path) -> bytes | Problem | None:
    """private/costs.csv, or why it is not read; None where there is none."""
    if (folder / files.PRIVATE).is_symlink() or not os.path.lexists(folder / COSTS):
        return None
    return disk.read_plain(folder / COSTS, COSTS, files.MOST_TEXT)


def write_costs(folder: Path, data: bytes) -> None:
    """Replace private/costs.csv, whole or not at all, and make private/ where there is none. Raises CannotWrite."""
    with clearly(CannotWrite, f"{COSTS} cannot be written in {folder}"):
        disk.write_durably(folder / COSTS, data)
