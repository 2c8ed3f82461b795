"""The git repository round a folder: found, judged and its references read, all as plain files and without git.

A logbook is a repository of its own or a folder inside a larger one. What would lead out of the work tree (a `.git`
file, links, alternates) is refused here, before git is started at all.
"""

import os
import re
from dataclasses import dataclass
from pathlib import Path

from logbook.errors import CannotRead

OBJECT_ID = re.compile(r"[0-9a-f]{40}(?:[0-9a-f]{24})?\Z")
_GIT_FOLDERS = (
    "",
    "objects",
    "objects/info",
    "objects/pack",
    "refs",
    "refs/heads",
    "logs",
    "logs/refs",
    "logs/refs/heads",
)
_REFERENCE = re.compile(r"refs/(?!.*(?:\.\.|//|/\.|@\{|\.lock\Z))[^\x00-\x20\x7f~^:?*\[\\]+\Z")


@dataclass(frozen=True, slots=True)
class Repository:
    """`root` is the work tree; `prefix` is the logbook's place in it: '' or for instance 'engines/quarry-six/'."""

    root: Path
    git_dir: Path
    prefix: str

    @property
    def objects(self) -> Path:
        """Where the repository keeps its objects."""
        return self.git_dir / "objects"

    @property
    def shallow(self) -> Path:
        """The list of commits whose parents were not fetched; there is one only in a shallow clone."""
        return self.git_dir / "shallow"


@dataclass(frozen=True, slots=True)
class Head:
    """What is checked out: `branch` is None on a detached head, `commit` is None before the first commit."""

    branch: str | None
    commit: str | None


def find_repository(folder: Path) -> Repository | None:
    """The repository that the folder lies in, None if there is none. Raises CannotRead for one that leads elsewhere."""
    place = folder.resolve()
    for root in (place, *place.parents):
        git_dir = root / ".git"
        if os.path.lexists(git_dir):
            _refuse_odd(git_dir)
            inside = place.relative_to(root).as_posix()
            return Repository(root, git_dir, "" if inside == "." else inside + "/")
        if os.path.isfile(root / "HEAD") and all(os.path.isdir(root / name) for name in ("objects", "refs")):
            raise CannotRead(f"{root} is a bare repository, without files to read; clone it: git clone {root} DIR")
    return None


def open_repository(folder: Path) -> Repository:
    """As `find_repository`, but a folder without git is CannotRead."""
    repository = find_repository(folder)
    if repository is None:
        raise CannotRead(f"{folder} is in no git repository; make it one: git init -b main {folder}")
    return repository


def _refuse_odd(git_dir: Path) -> None:
    """Refuse what would make git read or write outside the work tree, and what is no repository."""
    if git_dir.is_symlink():
        raise CannotRead(f"{git_dir} is a symbolic link and is not followed; work in the repository it leads to")
    if git_dir.is_file() or (git_dir / "commondir").exists():
        raise CannotRead(
            f"{git_dir} leads to a repository elsewhere (a linked work tree or a submodule); use a clone: git clone"
        )
    if not all((git_dir / name).exists() for name in ("HEAD", "objects", "refs")):
        raise CannotRead(f"{git_dir} is not a whole git repository; move it away or restore it from a copy")
    for link in _links(git_dir):
        raise CannotRead(f"{link} is a symbolic link and is not followed; use a clone: git clone")
    for line in _alternates(git_dir / "objects"):
        raise CannotRead(
            f"{git_dir} borrows its objects from {line}, outside it; make it whole: git repack -a -d, "
            f"then delete {git_dir / 'objects' / 'info' / 'alternates'}"
        )


def _links(git_dir: Path) -> list[Path]:
    """Symbolic links where git would read or write through them; hooks are never run, so theirs do not matter."""
    places = [place for place in (git_dir / name for name in _GIT_FOLDERS) if place.is_dir()]
    entries = [entry for place in places for entry in os.scandir(place)]
    return [Path(entry.path) for entry in entries if entry.is_symlink() and entry.name != "hooks"]


def _alternates(objects: Path) -> list[str]:
    """Alternates that lead out of this repository's own objects."""
    listed = read_text(objects / "info" / "alternates") or ""
    lines = [line for line in listed.splitlines() if line and not line.startswith("#")]
    return [line for line in lines if not (objects / line).resolve().is_relative_to(objects.resolve())]


def read_text(file: Path) -> str | None:
    """A small text file of git's, None where there is none or it is a link."""
    if file.is_symlink() or not file.is_file():
        return None
    return file.read_text("utf-8", "replace")


def read_head(repository: Repository) -> Head:
    """What is checked out. Raises CannotRead where HEAD says neither a branch nor a commit."""
    text = (read_text(repository.git_dir / "HEAD") or "").strip()
    if OBJECT_ID.match(text):
        return Head(None, text)
    branch = text.removeprefix("ref:").strip()
    if branch == "refs/heads/.invalid":
        raise CannotRead(
            "This repository keeps its branches in the reftable form, which is not supported; "
            "use a clone: git clone --ref-format=files"
        )
    if not text.startswith("ref:") or not is_reference(branch):
        raise CannotRead(f"{repository.git_dir / 'HEAD'} names no branch and no commit; restore it from a copy")
    return Head(branch, read_reference(repository, branch))


def is_reference(name: str) -> bool:
    """Whether git would allow this full name of a branch or tag (it is used as a path below .git)."""
    return bool(_REFERENCE.match(name))


def read_reference(repository: Repository, name: str) -> str | None:
    """The commit that a branch stands at; None before its first commit."""
    file = repository.git_dir / name
    if not file.parent.resolve().is_relative_to(repository.git_dir.resolve()):
        raise CannotRead(f"{file.parent} is a symbolic link and is not followed; use a clone: git clone")
    loose = (read_text(file) or "").strip()
    return loose if OBJECT_ID.match(loose) else _packed(repository).get(name)


def read_references(repository: Repository) -> dict[str, str]:
    """Every branch and tag with its object id; references to references are left out."""
    references = _packed(repository)
    for place, folders, names in os.walk(repository.git_dir / "refs"):
        folders.sort()
        for file in sorted(Path(place) / name for name in names):
            name, text = file.relative_to(repository.git_dir).as_posix(), (read_text(file) or "").strip()
            if is_reference(name) and OBJECT_ID.match(text):
                references[name] = text
    return references


def has_remote(repository: Repository) -> bool:
    """Whether its configuration, read as text, names another place; what it includes is not read."""
    return bool(re.search(r'^\s*\[remote "', read_text(repository.git_dir / "config") or "", re.MULTILINE))


def _packed(repository: Repository) -> dict[str, str]:
    lines = (read_text(repository.git_dir / "packed-refs") or "").splitlines()
    pairs = [line.split(" ", 1) for line in lines if line[:1] not in ("#", "^") and " " in line]
    return {name: number for number, name in pairs if OBJECT_ID.match(number) and is_reference(name)}
