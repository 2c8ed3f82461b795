"""The record fingerprint: one number for everything that is public in a record, and for nothing else.

It depends on no git and on no program version, so that it can be printed, stamped and checked by anybody. The bytes
that are hashed are what `sha256sum` prints, sorted by path:

    <64 hexadecimal digits><space><space><path><line feed>

one line for each public file, paths relative to the engine folder with / between, in the order of their UTF-8 bytes;
the fingerprint is the SHA-256 of these lines. Public files are engine.yaml, the entries in parts/, measurements/,
changes/, tests/, plans/, notes/ and log/, and everything in files/. Left out are specs.yaml (generated) and .gitignore.
By hand, in the engine folder of a fresh clone:

    find engine.yaml parts measurements changes tests plans notes log files -type f 2>/dev/null |
        LC_ALL=C sort | tr '\\n' '\\0' | xargs -0 sha256sum | sha256sum
"""

from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from logbook.store.files import kind_of, read_public

TRAILER = "Record-Fingerprint"


def is_fingerprinted(path: str) -> bool:
    """Whether a path counts: texts and files/ do, specs.yaml and .gitignore do not."""
    return kind_of(path) in ("text", "file")


def record_fingerprint(texts: Mapping[str, bytes]) -> str:
    """The fingerprint of these files, 64 hexadecimal digits. Paths that do not count are left out.

    >>> record_fingerprint({"engine.yaml": b"format: 1\\n"})[:16]
    'ea0d27419a834b3b'
    """
    return fingerprint_of({path: sha256(data).hexdigest() for path, data in texts.items()})


def fingerprint_of(digests: Mapping[str, str]) -> str:
    """The same from each file's SHA-256 in hexadecimal digits, for files that are too many to hold at once."""
    lines = (f"{digests[path]}  {path}\n" for path in sorted(digests) if is_fingerprinted(path))
    return sha256("".join(lines).encode()).hexdigest()


def folder_fingerprint(folder: Path) -> str:
    """The fingerprint of what stands on the disk now. Raises CannotRead for a file that cannot be read safely."""
    return record_fingerprint(read_public(folder))
