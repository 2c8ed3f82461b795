"""What a command made of a folder's texts, kept for the next one: in the user's own cache folder, never in the record.

One file for each engine folder. It counts only as long as not a byte of the texts has changed, nor anything of the
program that reads them; otherwise, or where it cannot be read, it is as if nothing had been kept. It may be thrown away
at any time. The cache folder is for its owner's eyes alone: what a record says of an engine is his business.
"""

import os
import re
import stat
from collections.abc import Mapping
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from sys import hexversion

from logbook.store import disk

_PROGRAM = Path(__file__).resolve().parents[1]
_READ_BY = ("quantity", "record")  # what of the program decides what is made of a text
_SEAL = sha256().digest_size
_MOST_FOLDERS = 50
_OURS = re.compile(r"[0-9a-f]+-[0-9a-f]+|\..+" + re.escape(disk.TEMPORARY))  # and what a killed command left
_MOST = 1 << 26  # more would take longer to take up than to read anew


def mark(texts: Mapping[str, bytes]) -> bytes:
    """What tells these texts, read by this very program, from all others."""
    told = sha256(f"{hexversion}\n".encode())
    for room in _READ_BY:
        for entry in sorted(os.scandir(_PROGRAM / room), key=lambda entry: entry.name):
            if entry.name.endswith(".py"):
                found = entry.stat()
                told.update(f"{room}/{entry.name} {found.st_size} {found.st_mtime_ns}\n".encode())
    for path in sorted(texts):
        told.update(f"{sha256(texts[path]).hexdigest()} {path}\n".encode())
    return told.digest()


def take_up(folder: Path, marked: bytes) -> bytes | None:
    """What was kept of this folder under this mark, None if nothing was."""
    try:
        place = _place(folder)
        found = disk.beginning(place, _MOST) if _is_ours_alone(place.parent) else b""
    except OSError:
        return None
    seal, data = found[:_SEAL], found[_SEAL:]
    return data if seal == _sealed(marked, data) else None


def keep(folder: Path, marked: bytes, data: bytes) -> None:
    """Keep this of the folder, instead of what was kept of it before. Where that cannot be done, nothing is kept."""
    with suppress(OSError):
        if _SEAL + len(data) > _MOST:
            return
        place = _place(folder)
        place.parent.mkdir(0o700, parents=True, exist_ok=True)
        if _is_ours_alone(place.parent):
            disk.write_quickly(place, _sealed(marked, data) + data)
            _make_room(place.parent)


def _sealed(marked: bytes, data: bytes) -> bytes:
    return sha256(marked + data).digest()


def _place(folder: Path) -> Path:
    """By what the folder is, not by what it is called: it may be renamed."""
    from platformdirs import user_cache_path

    found, cache = folder.stat(), user_cache_path("engine-logbook", appauthor=False)
    if not cache.is_absolute():  # nobody's home is known, and a folder named ~ would be made wherever we are
        raise FileNotFoundError(cache)
    return cache / f"{found.st_dev:x}-{found.st_ino:x}"


def _is_ours_alone(cache: Path) -> bool:
    """Nobody else may write there: what he left would be taken for our own."""
    found = cache.lstat()
    ours = not hasattr(os, "getuid") or (found.st_uid == os.getuid() and not found.st_mode & 0o022)
    return stat.S_ISDIR(found.st_mode) and ours


def _make_room(cache: Path) -> None:
    """Without those that were made longest ago, where there are many. What is not of ours stays as it is."""
    with os.scandir(cache) as there:
        kept = [each for each in there if _OURS.fullmatch(each.name) and each.is_file(follow_symlinks=False)]
    kept.sort(key=lambda each: each.stat().st_mtime_ns, reverse=True)
    for each in kept[_MOST_FOLDERS:]:
        Path(each).unlink(missing_ok=True)
