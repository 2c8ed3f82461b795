"""What only `check` says, for its owner's ear: advice about the folder, not about the engine.

Git is started once, in a scratch repository of ours, to see whether private/ was ever public; .git/config is read as
text.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterator
from io import BytesIO
from itertools import islice
from pathlib import PurePosixPath

from logbook.errors import CannotRead
from logbook.logbook import Logbook
from logbook.record.costs import costs_can_be_read
from logbook.record.finding import DOUBTFUL, NOTE, WRONG, Finding
from logbook.saving import SPECS_FILE, current_specs
from logbook.store import disk, files
from logbook.upkeep import made_by_us, private_in_public, private_once_public

_PICTURES = {".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".heic", ".heif", ".gif", ".bmp"}
_MOST_PICTURE = 8 * 2**20
_OF_A_CAMERA = {".jpg", ".jpeg", ".heic", ".heif"}
_HEAD = 2**18  # a camera's remarks stand before the picture itself
_TIFF = re.compile(rb"II\*\0|MM\0\*")  # how a camera's remarks begin, whatever they are packed into
_MOST_PLACES = 64
_GPS = 0x8825


def advice(book: Logbook) -> Iterator[Finding]:
    """Every piece of advice about the folder that a logbook was opened in."""
    yield from _second_copy(book)
    yield from _private_is_apart(book)
    yield from _specs_are_of_these_files(book)
    yield from _pictures(book)
    yield from _costs(book)


def _second_copy(book: Logbook) -> Iterator[Finding]:
    from logbook.store.repository import find_repository, has_remote

    try:
        repository = find_repository(book.folder)
    except CannotRead:  # every writing command says so
        return
    if repository is None:
        yield Finding(files.ENGINE, 1, 1, NOTE, "this folder is in no git repository: what is overwritten is lost",
                      "make it one: git init -b main, then: logbook save")  # fmt: skip
    elif not has_remote(repository) and not book.record.engine.demonstration:
        mend = "git remote add backup PLACE, then git push backup HEAD, now and after each day's work"
        says = "there is no second copy: the git repository names no other place"
        yield Finding(files.ENGINE, 1, 1, NOTE, says, mend)


def _private_is_apart(book: Logbook) -> Iterator[Finding]:
    try:
        yield from private_in_public(book.folder, book.record.engine.demonstration)
        yield from private_once_public(book.folder, book.record.engine.demonstration)
    except CannotRead:  # every writing command says so
        return


def _specs_are_of_these_files(book: Logbook) -> Iterator[Finding]:
    """A stale or conflicted specs.yaml; not while something else forbids a save."""
    if any(finding.level == WRONG for finding in book.findings):
        return
    public = files.read_public(book.folder)
    stands = public.get(SPECS_FILE)
    if stands is None or stands == current_specs(book, public):
        return
    lines = stands.splitlines()
    marks = [number for number, line in enumerate(lines, 1) if line.startswith((b"<<<<<<< ", b">>>>>>> "))]
    if marks:
        says = "two versions stand between the marks of a merge; finish it with git, with this file as it is"
    elif made_by_us(stands):
        says = "it was worked out before the files beside it were edited"
    else:
        says = "another version of the program worked it out"
    yield Finding(SPECS_FILE, (marks or [1])[0], 1, NOTE, says, "logbook save mends it; it is never read as input")


def _pictures(book: Logbook) -> Iterator[Finding]:
    for path in sorted(book.present):
        suffix = PurePosixPath(path).suffix.lower()
        if files.kind_of(path) != "file" or suffix not in _PICTURES:
            continue
        size = disk.size(book.folder / path)
        if size > _MOST_PICTURE:
            says = f"this picture has {size / 2**20:.0f} MiB, and git keeps it for ever"
            yield Finding(path, 1, 1, NOTE, says, "make it smaller before it is saved: 2000 pixels across are plenty")
        if suffix in _OF_A_CAMERA and _tells_where(book, path):
            yield Finding(path, 1, 1, NOTE, "this photograph tells where it was taken (GPS position in its EXIF)",
                          "take the position out before you save or share it, if the place is private")  # fmt: skip


def _tells_where(book: Logbook, path: str) -> bool:
    try:
        files.refuse_linked_parents(book.folder, path)
        if path.lower().endswith((".heic", ".heif")):
            return _tells_where_inside(disk.beginning(book.folder / path, files.MOST_FILE))
        return _tells_where_at_the_head(disk.beginning(book.folder / path, _HEAD))
    except Exception:  # what cannot be read as a photograph tells nobody where it was taken
        return False


def _tells_where_at_the_head(data: bytes) -> bool:
    from PIL import Image

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of pictures that are very large or not quite right
        with Image.open(BytesIO(data), formats=["JPEG", "MPO"]) as picture:
            return bool(picture.getexif().get_ifd(_GPS))


def _tells_where_inside(data: bytes) -> bool:
    """Of a HEIC file (ISO/IEC 23008-12), which Pillow does not open: the remarks lie somewhere in it, as they are."""
    places = (found.start() for found in islice(_TIFF.finditer(data), _MOST_PLACES))
    return any(_has_position(data[place : place + _HEAD]) for place in places)


def _has_position(remarks: bytes) -> bool:
    from PIL import Image

    exif = Image.Exif()
    try:
        exif.load(b"Exif\0\0" + remarks)
        return bool(exif.get_ifd(_GPS))
    except Exception:  # the bytes of a picture only looked like remarks
        return False


def _costs(book: Logbook) -> Iterator[Finding]:
    from logbook.store.private import COSTS, read_costs

    data = read_costs(book.folder)
    if isinstance(data, disk.Problem):
        yield Finding(data.path, 1, 1, DOUBTFUL, data.says, data.mend)
    elif data is not None:
        yield from costs_can_be_read(COSTS, data, book.record)
