"""The public files of an engine folder: which there are, reading them, writing them.

A stranger's folder may hold links that lead elsewhere, pipes and giants. None is followed or opened: each is a
`Problem` with its name. Nothing here starts git, and private/ is never entered.
"""

import os
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from logbook.errors import CannotRead, CannotWrite, NotALogbook
from logbook.store import disk
from logbook.store.disk import Problem

ENGINE = "engine.yaml"
GENERATED = "specs.yaml"
IGNORE = ".gitignore"
PRIVATE = "private"
PLACES: Mapping[str, tuple[str, ...]] = {
    "parts": (".yaml", ".csv"),
    "measurements": (".yaml", ".csv"),
    "changes": (".yaml",),
    "tests": (".yaml", ".csv"),
    "plans": (".yaml",),
    "notes": (".yaml",),
    "log": (".csv",),
}
FILES = "files"
IGNORED = f"/{PRIVATE}/\n.*{disk.TEMPORARY}\n".encode()
MOST_TEXT = 2**20  # an entry of a mebibyte is no entry; it would only hold the reader up
MOST_FILE = 20 * 2**20
DEEPEST = 4

_LEFT_BY_EDITORS = re.compile(r"^\.|^#.*#$|~$|\.(?:bak|orig|rej|swp|tmp)$|^Thumbs\.db$")
_UNWRITABLE = re.compile(r"[\x00-\x1f\x7f\\]|[\ud800-\udfff]")


class Survey(NamedTuple):
    """What a folder holds, each list sorted: texts (YAML and CSV), files/, what stands beside them, what not."""

    texts: tuple[str, ...]
    files: tuple[str, ...]
    beside: tuple[str, ...]
    misplaced: tuple[str, ...]
    problems: tuple[Problem, ...]

    @property
    def public(self) -> tuple[str, ...]:
        """Every path that is committed: the record, files/, specs.yaml and .gitignore."""
        return tuple(sorted(self.texts + self.files + self.beside))


def find_folder(start: Path) -> Path:
    """The engine folder itself, or the nearest above it that holds engine.yaml. Raises NotALogbook."""
    place = start.resolve()
    if not os.path.exists(place):
        raise NotALogbook(f"{start} does not exist; name an engine folder or make one with: logbook new {start}")
    for folder in (place, *place.parents):
        if os.path.isfile(folder / ENGINE):  # False also where it cannot be seen
            return folder
    raise NotALogbook(
        f"There is no {ENGINE} in {start} or in any folder above it; go to an engine folder or name it with --in"
    )


def kind_of(path: str) -> str:
    """Which of Survey's lists a path belongs to: 'text', 'file', 'beside', 'misplaced'; '' for none of ours."""
    first, _, rest = path.partition("/")
    suffix = os.path.splitext(path)[1]
    if path == ENGINE or ("/" not in rest and rest and suffix in PLACES.get(first, ())):
        return "text"
    if first == FILES and rest:
        return "file"
    if path in (GENERATED, IGNORE):
        return "beside"
    return "misplaced" if suffix.lower() in (".yaml", ".yml") else ""


def survey(folder: Path) -> Survey:
    """Look through the folder once, without following a link or opening a file."""
    found: dict[str, list[str]] = {"text": [], "file": [], "beside": [], "misplaced": [], "": []}
    problems = []
    for path, entry in _walk(folder, "", DEEPEST):
        kind = kind_of(path)
        problem = _problem(path, entry) if kind in ("text", "file", "beside") or path in (*PLACES, FILES) else None
        if problem:
            problems.append(problem)
        elif not entry.is_symlink():
            found[kind].append(path)
    lists = {kind: tuple(sorted(paths)) for kind, paths in found.items()}
    return Survey(lists["text"], lists["file"], lists["beside"], lists["misplaced"], tuple(sorted(problems)))


def _walk(folder: Path, prefix: str, depth: int) -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Everything but folders, and those links that stand where a folder might; not another engine's folder inside."""
    try:
        entries = list(os.scandir(folder))
    except OSError as error:
        raise CannotRead(f"{folder} cannot be read ({error.strerror}); mend its permissions") from error
    for entry in entries:
        path = prefix + entry.name
        if path != IGNORE and (path == PRIVATE or left_by_editors(entry.name)):
            continue
        if not entry.is_dir(follow_symlinks=False):
            yield path, entry
        elif depth and not os.path.lexists(os.path.join(entry.path, ENGINE)):
            yield from _walk(Path(entry.path), path + "/", depth - 1)


def _problem(path: str, entry: os.DirEntry[str]) -> Problem | None:
    if entry.is_symlink():
        return Problem(path, "is a symbolic link", "put the file itself here")
    if not entry.is_file(follow_symlinks=False):
        return Problem(path, "is not a plain file", "remove it")
    if path in (*PLACES, FILES):
        return Problem(path, "is a file where a folder belongs", "move it away and put the folder back")
    if path.startswith(f"{FILES}/") and entry.stat(follow_symlinks=False).st_size > MOST_FILE:
        return Problem(path, *disk.too_large(MOST_FILE))
    if _UNWRITABLE.search(path):
        shown = path.encode("utf-8", "backslashreplace").decode().encode("unicode_escape").decode("ascii")
        return Problem(shown, "has a name with characters that not every system can write", "rename it")
    return None


def left_by_editors(name: str) -> bool:
    """Whether a file's name is hidden or that of an editor's own copy: no entry, and nothing to save."""
    return bool(_LEFT_BY_EDITORS.search(name))


def refuse(problem: Problem) -> None:
    """What is done about a problem where the caller does not say: stop, rather than leave a file out silently."""
    raise CannotRead(str(problem))


def read_texts(
    folder: Path, on_problem: Callable[[Problem], None] = refuse, seen: Survey | None = None
) -> dict[str, bytes]:
    """The record's YAML and CSV files by path, sorted; bytes, so that a bad encoding is the record's finding.

    A file that is a link, too large or unreadable is left out and given to `on_problem`, which by default raises
    CannotRead. files/ is read one by one with `read_file`; specs.yaml is no input and not among them. `seen`: what
    a look through the folder has found already.
    """
    seen = seen or survey(folder)
    for problem in seen.problems:
        on_problem(problem)
    return _read(folder, seen.texts, on_problem)


def read_public(folder: Path, on_problem: Callable[[Problem], None] = refuse) -> dict[str, bytes]:
    """Every file that is committed: the record, files/, specs.yaml and .gitignore."""
    seen = survey(folder)
    for problem in seen.problems:
        on_problem(problem)
    return _read(folder, seen.public, on_problem)


def _read(folder: Path, paths: tuple[str, ...], on_problem: Callable[[Problem], None]) -> dict[str, bytes]:
    texts = {}
    for path in paths:
        data = disk.read_plain(f"{folder}/{path}", path, MOST_FILE if kind_of(path) == "file" else MOST_TEXT)
        if isinstance(data, bytes):
            texts[path] = data
        else:
            on_problem(data)
    return texts


def read_file(folder: Path, path: str) -> bytes:
    """One public file on request, a picture or a table in files/ as a rule. Raises CannotRead."""
    safe = check_path(path)
    refuse_linked_parents(folder, safe)
    data = disk.read_plain(folder / safe, safe, MOST_FILE)
    if isinstance(data, Problem):
        raise CannotRead(str(data))
    return data


def check_path(path: str) -> str:
    """The path itself if it stays inside the folder and out of private/ and .git; CannotRead otherwise."""
    parts = path.split("/")
    if not path or _UNWRITABLE.search(path) or any(part in ("", ".", "..") or part.lower() == ".git" for part in parts):
        raise CannotRead(f"{path!r} is not a path inside the engine folder")
    if parts[0].lower() == PRIVATE:
        raise CannotRead(f"{path} is private and has no place in the public record")
    return path


def refuse_linked_parents(folder: Path, path: str) -> None:
    """Raise CannotRead where a folder on the way to `path` is a link, which may lead anywhere."""
    for parent in list(PurePosixPath(path).parents)[:-1]:
        if (folder / parent).is_symlink():
            raise CannotRead(f"{parent} is a symbolic link and is not followed; put the folder itself there")


def temporaries(folder: Path) -> list[Path]:
    """What a killed writer left beside the record's files; nobody else's, while one holds the lock."""
    places = [place for place in (folder, *(folder / name for name in (*PLACES, FILES))) if not place.is_symlink()]
    return [left for place in places for left in place.glob(f".*{disk.TEMPORARY}")]


def write_texts(folder: Path, texts: Mapping[str, bytes]) -> None:
    """Write files, each whole or not at all: all are written beside their places first, then renamed.

    Inside a git repository the caller holds the lock. Raises CannotWrite; where the disk is full, nothing was replaced.
    """
    paths = [_writable(folder, path) for path in texts]
    try:
        for path in paths:
            disk.prepare(folder / path, texts[path])
        for path in paths:
            disk.place(folder / path)
    except OSError as error:
        for path in paths:
            disk.temporary_for(folder / path).unlink(missing_ok=True)
        raise CannotWrite(f"{error.filename or folder} cannot be written ({error.strerror})") from error


def _writable(folder: Path, path: str) -> str:
    try:
        refuse_linked_parents(folder, check_path(path))
    except CannotRead as error:
        raise CannotWrite(str(error)) from error
    return path
