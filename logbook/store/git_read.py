"""History, trees and texts as they were written down, read without the folder's own git configuration.

Git works in a scratch repository of ours (an empty one in a temporary folder) that borrows the folder's objects. The
folder's configuration, hooks and attributes are never read, so nothing that a stranger put there can run; its branches
were read as text and are written into the scratch repository, so that revisions can be named as usual.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from hashlib import new as new_hash
from pathlib import Path
from tempfile import TemporaryDirectory

from logbook.errors import CannotRead
from logbook.store import git_run
from logbook.store.files import MOST_FILE, MOST_TEXT, kind_of, read_public
from logbook.store.git_run import NOTHING, Environment, GitFailed, clearly
from logbook.store.repository import Repository, open_repository, read_head, read_references

_BATCH = 32 * 2**20  # this much of files/ is held at once
_FIELDS = "%H%x00%an%x00%ae%x00%aI%x00%cI%x00%s%x00%(trailers:only,unfold)"
PLAIN_FILES = ("100644", "100755")


@dataclass(frozen=True, slots=True)
class ChangedPath:
    """What a commit did to one file: 'A' added, 'M' changed, 'D' deleted, 'T' became another kind of file."""

    path: str
    status: str
    old: str | None
    new: str | None


@dataclass(frozen=True, slots=True)
class Written:
    """One commit as git tells it: when something was written down, not when the work was done."""

    commit: str
    author: str
    email: str
    authored: datetime
    committed: datetime
    subject: str
    trailers: Mapping[str, str]
    paths: tuple[ChangedPath, ...]


@dataclass(frozen=True, slots=True)
class Blob:
    """A file in a tree: its mode, object id and size in bytes."""

    mode: str
    id: str
    size: int


@dataclass(frozen=True)
class Scratch:
    """An empty repository of ours that sees the folder's objects and none of its configuration."""

    repository: Repository
    place: Path
    algorithm: str = "sha1"
    settings: Mapping[str, str] = field(default_factory=dict)

    def run(self, *arguments: str, data: bytes = b"", environment: Environment = NOTHING) -> bytes:
        """One git command in the scratch repository, with the folder's objects."""
        where = {
            "GIT_DIR": str(self.place),
            "GIT_COMMON_DIR": str(self.place),
            "GIT_WORK_TREE": str(self.place),
            "GIT_INDEX_FILE": str(self.place / "index"),
            "GIT_OBJECT_DIRECTORY": str(self.repository.objects),
        }
        if self.repository.shallow.is_file():
            where["GIT_SHALLOW_FILE"] = str(self.repository.shallow)
        return git_run.run(arguments, self.place, {**where, **environment}, data)

    def blob_id(self, data: bytes) -> str:
        """The id that git gives to this content: the same as `git hash-object --no-filters`, without a process."""
        return new_hash(self.algorithm, b"blob %d\0" % len(data) + data).hexdigest()

    def tree(self, revision: str | None) -> dict[str, Blob]:
        """The logbook's plain files at a commit or tree, by path inside the logbook; no links, no submodules."""
        prefix = self.repository.prefix
        entries = self.entries(revision, [prefix] if prefix else [], "-r")
        return {path.removeprefix(prefix): one for path, one in entries.items() if one.mode in PLAIN_FILES}

    def entries(self, revision: str | None, paths: Sequence[str], *options: str) -> dict[str, Blob]:
        """What a commit or tree has under these paths, which are relative to the repository's root."""
        if revision is None:
            return {}
        listing = self.run("ls-tree", "-l", "-z", "--full-tree", *options, revision, "--", *paths)
        lines = (line.split("\t", 1) for line in listing.decode("utf-8", "surrogateescape").split("\0") if line)
        return {path: _blob(*about.split()) for about, path in lines}

    def contents(self, blobs: Sequence[Blob]) -> Iterator[bytes]:
        """The content of each blob in turn, read in batches."""
        batch: list[Blob] = []
        for blob in blobs:
            if batch and sum(one.size for one in batch) + blob.size > _BATCH:
                yield from self._contents(batch)
                batch = []
            batch.append(blob)
        yield from self._contents(batch)

    def _contents(self, blobs: Sequence[Blob]) -> Iterator[bytes]:
        output = (
            self.run("cat-file", "--batch", data="".join(f"{blob.id}\n" for blob in blobs).encode()) if blobs else b""
        )
        position = 0
        for blob in blobs:
            end = output.index(b"\n", position)
            header = output[position:end].split()
            if header[1:2] != [b"blob"]:
                raise GitFailed(("cat-file",), 1, b"object %s is missing" % blob.id.encode())
            position = end + 1 + int(header[2]) + 1
            yield output[end + 1 : position - 1]


def _blob(mode: str, kind: str, number: str, size: str) -> Blob:
    return Blob(mode, number, int(size) if size.isdigit() else 0)


@contextmanager
def scratch(repository: Repository) -> Iterator[Scratch]:
    """A scratch repository for as long as the block lasts; its configuration is ours, its branches the folder's."""
    with TemporaryDirectory(prefix="logbook-") as name:
        place = Path(name)
        (place / "refs").mkdir()
        (place / "HEAD").write_text("ref: refs/heads/main\n")
        (place / "config").write_text("[core]\n\trepositoryformatversion = 0\n\tbare = true\n")
        settings = _settings(Scratch(repository, place))
        algorithm = settings.get("extensions.objectformat", "sha1")
        shared = settings.get("core.sharedrepository", "")
        with (place / "config").open("a") as config:
            if re.fullmatch(r"\w+", shared):
                config.write(f"\tsharedRepository = {shared}\n")
            if algorithm == "sha256":
                config.write("\trepositoryformatversion = 1\n[extensions]\n\tobjectFormat = sha256\n")
        _write_references(repository, place)
        yield Scratch(repository, place, algorithm, settings)


def _settings(git: Scratch) -> dict[str, str]:
    """The folder's configuration as data: names (small letters) and values. Reading it this way follows no include."""
    file = git.repository.git_dir / "config"
    if not file.is_file():
        return {}
    listing = git.run("config", "--file", str(file), "--no-includes", "--list", "-z").decode("utf-8", "replace")
    pairs = (entry.partition("\n") for entry in listing.split("\0") if entry)
    return {name: value for name, _, value in pairs}


def _write_references(repository: Repository, place: Path) -> None:
    head = read_head(repository)
    lines = (f"{number} {name}\n" for name, number in sorted(read_references(repository).items()))
    (place / "packed-refs").write_text("".join(lines))
    (place / "HEAD").write_text(f"ref: {head.branch}\n" if head.branch else f"{head.commit}\n")


@contextmanager
def reading(folder: Path, says: str) -> Iterator[Scratch]:
    """A scratch repository on the folder's; every failure of git becomes CannotRead with `says` before the reason."""
    with clearly(CannotRead, says), scratch(open_repository(folder)) as git:
        yield git


def history(folder: Path) -> tuple[Written, ...]:
    """Every commit that touched the logbook, **oldest first**, parents always before children.

    Paths are relative to the logbook's folder. A merge shows what it brought to its first parent. Raises CannotRead.
    """
    with reading(folder, f"The history of {folder} cannot be read") as git:
        head = read_head(git.repository).commit
        return _parse_log(_log(git, head), git.repository.prefix) if head else ()


def _log(git: Scratch, commit: str) -> str:
    prefix = git.repository.prefix
    shape = ("--topo-order", "--reverse", "--full-history", "--root", "--diff-merges=first-parent")
    output = (
        "-z",
        "--raw",
        "--no-abbrev",
        "--no-renames",
        "--no-ext-diff",
        "--no-textconv",
        f"--format={_FIELDS}",
    )
    log = git.run("log", *shape, *output, commit, "--", *([prefix] if prefix else []))
    return log.decode("utf-8", "surrogateescape")


def _parse_log(log: str, prefix: str) -> tuple[Written, ...]:
    """Seven fields for each commit, then a pair of tokens for each path, the first of which starts with ':'."""
    tokens = iter(log.split("\0")[:-1])
    commits: list[tuple[list[str], list[ChangedPath]]] = []
    for token in tokens:
        if token.lstrip("\n").startswith(":"):
            commits[-1][1].append(_changed(token, next(tokens).removeprefix(prefix)))
        elif token:
            commits.append(([token, *(next(tokens) for _ in range(6))], []))
    return tuple(_written(fields, paths) for fields, paths in commits)


def _changed(about: str, path: str) -> ChangedPath:
    _, _, old, new, status = about.split()
    return ChangedPath(path, status, _present(old), _present(new))


def _present(number: str) -> str | None:
    return None if set(number) == {"0"} else number


def _written(fields: list[str], paths: list[ChangedPath]) -> Written:
    commit, author, email, authored, committed, subject, trailers = fields
    pairs = (line.partition(":") for line in trailers.splitlines())
    return Written(
        commit,
        author,
        email,
        datetime.fromisoformat(authored),
        datetime.fromisoformat(committed),
        subject,
        {key: value.strip() for key, _, value in pairs},
        tuple(paths),
    )


def first_written(folder: Path) -> dict[str, datetime]:
    """When each path first came into the record: the committer's date of the oldest commit that has it."""
    dates: dict[str, datetime] = {}
    for written in history(folder):
        for changed in written.paths:
            dates.setdefault(changed.path, written.committed)
    return dates


def resolve(git: Scratch, revision: str) -> str:
    """The commit id of a branch, tag, id or `HEAD~3`. Raises CannotRead for a revision that does not exist."""
    try:
        return git.run("rev-parse", "--verify", "--end-of-options", f"{revision}^{{commit}}").decode().strip()
    except GitFailed as error:
        last = read_head(git.repository).commit
        if last:
            git.run("cat-file", "commit", last)  # where that is damaged, it says so itself
        raise CannotRead(
            f"There is no revision {revision!r} in {git.repository.root}; see: git log --oneline"
        ) from error


def texts_at(folder: Path, revision: str) -> dict[str, bytes]:
    """The record's YAML and CSV files as they stood at a git revision, like files.read_texts. Raises CannotRead."""
    with reading(folder, f"The record at {revision} cannot be read") as git:
        tree = git.tree(resolve(git, revision))
        texts = {path: _of_size(path, tree[path], MOST_TEXT) for path in sorted(tree) if kind_of(path) == "text"}
        return dict(zip(texts, git.contents(list(texts.values())), strict=True))


def text_at(folder: Path, revision: str, path: str) -> bytes:
    """One file as it stood at a git revision. Raises CannotRead where it was not there."""
    with reading(folder, f"{path} at {revision} cannot be read") as git:
        blob = git.tree(resolve(git, revision)).get(path)
        if blob is None:
            raise CannotRead(f"There was no {path} at {revision}")
        return next(git.contents([_of_size(path, blob, MOST_FILE)]))


def _of_size(path: str, blob: Blob, most: int) -> Blob:
    if blob.size > most:
        raise CannotRead(f"{path} is larger than {most // 2**20} MiB in this revision and is not read")
    return blob


def edited(folder: Path) -> dict[str, bytes | None]:
    """The public files that differ from the last commit, with what stands on the disk; None: deleted.

    This is what `save` commits. Found by hashing, never by `git status`, which would run what the folder's
    configuration says. Raises CannotRead.
    """
    on_disk = read_public(folder)
    with reading(folder, f"The last commit of {folder} cannot be read") as git:
        tree = git.tree(read_head(git.repository).commit)
        changed: dict[str, bytes | None] = {
            path: data for path, data in on_disk.items() if path not in tree or tree[path].id != git.blob_id(data)
        }
    gone = (path for path in tree if path not in on_disk and kind_of(path) in ("text", "file", "beside"))
    return dict(sorted({**changed, **dict.fromkeys(gone)}.items()))


def status(folder: Path) -> list[str]:
    """The public files that differ from the last commit, sorted."""
    return list(edited(folder))
