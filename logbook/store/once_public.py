"""What of private/ was ever committed into the engine's own repository, though the next commit no longer holds it.

One walk of the history along this one entry of each tree, in a scratch repository of ours: nothing of the folder's own
runs.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from logbook.store.files import PRIVATE
from logbook.store.git_read import reading

_COMMIT = "\x01"  # in front of a commit's line; a path never begins with it where all begin with our own folder


@dataclass(frozen=True, slots=True)
class Published:
    """A file of private/, and the first commit that holds it: its id and its day."""

    path: str
    commit: str
    day: str


def once_public(folder: Path) -> tuple[Published, ...]:
    """Every such file of any branch or tag, by the commit that brought it, oldest first. Raises CannotRead."""
    with reading(folder, f"The history of {folder} cannot be read") as git:
        place = git.repository.prefix + PRIVATE
        shape = ("--all", "--topo-order", "--reverse", "--full-history", "--root", "--diff-merges=first-parent")
        output = ("-z", "--name-only", "--diff-filter=A", "--no-renames", "--no-ext-diff", "--no-textconv")
        log = git.run("log", *shape, *output, f"--format={_COMMIT}%H %cs", "--", place)
        found = {each.path: each for each in reversed([*_published(log, git.repository.prefix)])}
    return tuple(reversed(found.values()))


def _published(log: bytes, prefix: str) -> Iterator[Published]:
    commit = day = ""
    for token in log.decode("utf-8", "replace").replace("\n", "").split("\0"):
        if token.startswith(_COMMIT):
            commit, day = token.removeprefix(_COMMIT).split(" ")
        elif token:
            yield Published(token.removeprefix(prefix), commit, day)
