"""The user's own index: what he has staged under our paths, and bringing it up to date after our commit.

These are the only commands besides moving the branch that work in the folder's own git directory (a split or sparse
index needs it); its hooks and file monitor are switched off by the fixed environment.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from logbook.store import git_run
from logbook.store.files import GENERATED
from logbook.store.git_run import NOTHING, Environment
from logbook.store.repository import Repository


@dataclass(frozen=True, slots=True)
class Change:
    """One file of a commit. `path` is relative to the repository's root; ids are git's blob ids, None for no file.

    `old` is what the last commit has, `new` what this one has, `disk` what stood in the work tree when it was checked.
    """

    path: str
    mode: str
    old: str | None
    new: str | None
    disk: str | None


def run_live(repository: Repository, *arguments: str, data: bytes = b"", environment: Environment = NOTHING) -> bytes:
    """One git command in the folder's own git directory."""
    where = {
        "GIT_DIR": str(repository.git_dir),
        "GIT_COMMON_DIR": str(repository.git_dir),
        "GIT_WORK_TREE": str(repository.root),
        "GIT_INDEX_FILE": str(repository.git_dir / "index"),
        "GIT_OBJECT_DIRECTORY": str(repository.objects),
    }
    return git_run.run(arguments, repository.root, {**where, **environment}, data)


def staged(repository: Repository, paths: Iterable[str]) -> dict[str, set[str]]:
    """The blob ids that the user's index holds under each of these paths; more than one in an unfinished merge."""
    paths = list(paths)
    if not paths:
        return {}
    listing = run_live(repository, "ls-files", "--stage", "-z", "--", *paths).decode("utf-8", "surrogateescape")
    entries: dict[str, set[str]] = {}
    for about, path in (line.split("\t", 1) for line in listing.split("\0") if line):
        entries.setdefault(path, set()).add(about.split()[1])
    return entries


def staged_otherwise(repository: Repository, changes: Iterable[Change], empty: str) -> list[Change]:
    """The changes whose path the user has staged with content of his own, which setting the index would lose.

    An empty entry (`empty` is the empty blob's id; `git add -N` makes one) holds nothing that could be lost, and no
    more does a specs.yaml, which is generated.
    """
    changes = [one for one in changes if one.path.rpartition("/")[2] != GENERATED]
    entries = staged(repository, [change.path for change in changes])
    return [one for one in changes if not _ours(entries.get(one.path, set()), one, empty)]


def _ours(held: set[str], change: Change, empty: str) -> bool:
    if not held:
        return change.old is None or change.new is None
    return len(held) == 1 and held <= {change.old, change.new, empty}


def set_staged(repository: Repository, changes: Iterable[Change]) -> None:
    """Set the changes' paths in the user's index to what was committed, all in one step; other entries stay."""
    run_live(repository, "update-index", "-z", "--index-info", data=index_lines(changes))


def index_lines(changes: Iterable[Change]) -> bytes:
    """The changes in the form that `git update-index -z --index-info` reads."""
    lines = (
        f"{change.mode if change.new else '0'} {change.new or '0' * len(change.old or '')}\t{change.path}\0"
        for change in changes
    )
    return "".join(lines).encode()
