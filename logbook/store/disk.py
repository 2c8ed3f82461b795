"""One file: read without being led astray, replaced without being torn.

A file is replaced by a temporary beside it that is written, flushed to the disk and renamed over it; then its folder is
flushed. Whoever looks, at any moment and after any power cut, sees the whole old file or the whole new one.
"""

import errno
import io
import os
import stat
from pathlib import Path
from typing import NamedTuple

TEMPORARY = ".logbook-new"


class Problem(NamedTuple):
    """A file that is not read, why, and what to do: `path` is relative to the engine folder."""

    path: str
    says: str
    mend: str

    def __str__(self) -> str:
        return f"{self.path}: {self.says}; {self.mend}"


def read_plain(file: Path | str, path: str, most: int) -> bytes | Problem:
    """The bytes of a plain file of at most `most` bytes; a link, a pipe or a device is never opened for reading."""
    try:
        data = _read(file, most + 1)
    except OSError as error:
        return Problem(path, f"cannot be read ({error.strerror})", "put a plain, readable file here or remove it")
    if len(data) > most:
        return Problem(path, *too_large(most))
    return data


def too_large(most: int) -> tuple[str, str]:
    """What is said of a file of more than `most` bytes, and what to do."""
    return f"is larger than {most // 2**20} MiB", "make it smaller or keep it outside the logbook"


def content(file: Path) -> bytes | None:
    """What stands on the disk, None if nothing does. Raises OSError for what is no plain, readable file."""
    try:
        return _read(file, -1)
    except FileNotFoundError:
        return None


def beginning(file: Path, most: int) -> bytes:
    """The first `most` bytes at most. Raises OSError for what is no plain, readable file."""
    return _read(file, most)


def size(file: Path) -> int:
    """Its size in bytes, 0 if it is not there; a link is not followed."""
    return file.lstat().st_size if os.path.lexists(file) else 0


def _read(file: Path | str, most: int) -> bytes:
    """Neither follows a link nor waits at a pipe."""
    if not hasattr(os, "O_NOFOLLOW") and os.path.islink(file):
        raise OSError(errno.ELOOP, "it is a symbolic link", str(file))
    try:
        handle = os.open(file, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0))
    except OSError as error:
        if error.errno == errno.ELOOP:
            raise OSError(errno.ELOOP, "it is a symbolic link", str(file)) from None
        raise
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise OSError(errno.EINVAL, "it is not a plain file", str(file))
    with open(handle, "rb", buffering=0) as stream:
        return _whole(stream, most)


def _whole(stream: io.FileIO, most: int) -> bytes:
    """Up to `most` bytes, all if it is negative; a raw stream may give less than is asked for."""
    if most < 0:
        return stream.readall()
    data = stream.read(min(most, os.fstat(stream.fileno()).st_size + 1)) or b""
    while len(data) < most and (more := stream.read(most - len(data))):
        data += more
    return data


def temporary_for(file: Path) -> Path:
    """Hidden, so that no reader takes it for an entry; always the same name, so that the next write clears up."""
    return file.with_name(f".{file.name}{TEMPORARY}")


def prepare(file: Path, data: bytes) -> Path:
    """Write the new content beside `file`, flushed to the disk. Everything that can fail (space, rights) fails here."""
    make_folder(file.parent)
    temporary = temporary_for(file)
    temporary.unlink(missing_ok=True)
    mode = stat.S_IMODE(file.stat().st_mode) if file.exists() else None
    handle = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(handle)
        if mode is not None:
            temporary.chmod(mode)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def place(file: Path) -> None:
    """Rename what `prepare` wrote over `file`."""
    os.replace(temporary_for(file), file)
    flush_folder(file.parent)


def write_durably(file: Path, data: bytes) -> None:
    """Replace one file: after a power cut it holds its old content or all of `data`."""
    prepare(file, data)
    place(file)


def write_quickly(file: Path, data: bytes) -> None:
    """Replace one file that can be made again, for its owner alone: whole, but not safe from a power cut."""
    temporary = file.with_name(f".{file.name}.{os.getpid()}{TEMPORARY}")
    try:
        with os.fdopen(os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as stream:
            stream.write(data)
        os.replace(temporary, file)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise


def remove(file: Path) -> None:
    """Delete a file, gone also after a power cut; no file is fine."""
    file.unlink(missing_ok=True)
    flush_folder(file.parent)


def make_folder(folder: Path) -> None:
    """Make a folder and those above it, each flushed into the one that holds it."""
    if folder.is_dir():
        return
    make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    flush_folder(folder.parent)


def flush_folder(folder: Path) -> None:
    """Make renames and deletions in a folder last. Where folders cannot be opened (Windows), the system sees to it."""
    if os.name == "nt" or not folder.is_dir():
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
