"""What the record was: every public file as a commit has it, and texts by the ids that history gives."""

from collections.abc import Iterable
from pathlib import Path

from logbook.store.files import kind_of
from logbook.store.git_read import reading, resolve


def public_at(folder: Path, revision: str = "HEAD") -> dict[str, bytes]:
    """Every public file as it stood at a git revision, like files.read_public. Raises CannotRead."""
    with reading(folder, f"The record at {revision} cannot be read") as git:
        tree = git.tree(resolve(git, revision))
        public = {path: tree[path] for path in sorted(tree) if kind_of(path) in ("text", "file", "beside")}
        return dict(zip(public, git.contents(list(public.values())), strict=True))


def contents_of(folder: Path, ids: Iterable[str]) -> dict[str, bytes]:
    """The contents of these blobs, by id. Raises CannotRead."""
    with reading(folder, f"The earlier files of {folder} cannot be read") as git:
        return {blob: git.run("cat-file", "blob", blob) for blob in sorted(set(ids))}


def joins_two_lines(folder: Path, commit: str) -> bool:
    """Whether a commit is a merge. Raises CannotRead."""
    with reading(folder, f"The commit {commit[:10]} cannot be read") as git:
        return len(git.run("rev-list", "--parents", "--max-count=1", commit).split()) > 2
