"""Which paths the user's own index holds, read from its file: no git is started.

The index is the list of what the next commit will hold, so it tells what is public (gitformat-index(5), versions 2 to
4). What a split index keeps in a second file is not seen.
"""

import re
from collections.abc import Iterator
from pathlib import Path

from logbook.store import disk
from logbook.store.files import PRIVATE
from logbook.store.repository import Repository, find_repository, read_text

_HEAD, _MOST = 12, 64 * 2**20
_EXTENDED = 0x4000
_SHA_256 = re.compile(r"^\s*objectformat\s*=\s*sha256\s*$", re.IGNORECASE | re.MULTILINE)


def tracked_private(folder: Path) -> list[str]:
    """The paths in private/ that the engine's own repository holds, relative to `folder`. Raises CannotRead."""
    repository = find_repository(folder)
    if repository is None:
        return []
    place = repository.prefix + PRIVATE  # itself where it was added as a repository within a repository
    return [path[len(repository.prefix) :] for path in _paths(repository) if f"{path}/".startswith(f"{place}/")]


def _paths(repository: Repository) -> Iterator[str]:
    data = disk.read_plain(repository.git_dir / "index", "index", _MOST)
    if isinstance(data, bytes) and data[:4] == b"DIRC":
        longer = _SHA_256.search(read_text(repository.git_dir / "config") or "")
        yield from (path.decode("utf-8", "replace") for path in _entries(data, 32 if longer else 20))


def _entries(data: bytes, hash_size: int) -> Iterator[bytes]:
    """The path of each entry; nothing more where the file ends or says what no index says."""
    version, count = int.from_bytes(data[4:8]), int.from_bytes(data[8:_HEAD])
    at, path = _HEAD, b""
    for _ in range(count):
        flags_at = at + 40 + hash_size
        name = flags_at + (4 if int.from_bytes(data[flags_at : flags_at + 2]) & _EXTENDED else 2)
        if version == 4:
            strip, name = _varint(data, name)
            end = data.find(b"\0", name)
            path = path[: len(path) - strip] + data[name:end]
            following = end + 1
        else:
            end = data.find(b"\0", name)
            path = data[name:end]
            following = at + (end - at + 8) // 8 * 8
        if end < 0:
            return
        yield path
        at = following


def _varint(data: bytes, at: int) -> tuple[int, int]:
    """A number of offset encoding, and where it ends."""
    value = data[at] & 0x7F if at < len(data) else 0
    while at < len(data) and data[at] & 0x80:
        at += 1
        value = ((value + 1) << 7) | (data[at] & 0x7F if at < len(data) else 0)
    return value, at + 1
