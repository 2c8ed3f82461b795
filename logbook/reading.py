"""From a folder's texts to its record: read now, or as it was read when they were last the same."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from logbook.record.record import Record
from logbook.store import kept


def read(texts: Mapping[str, bytes]) -> Record:
    """The record in these texts."""
    from logbook.record.read import read_record  # with pydantic and the YAML library

    return read_record(texts)


def read_once(folder: Path, texts: Mapping[str, bytes]) -> Record:
    """The same, kept for the next time that the folder holds just these texts."""
    from logbook.record.keeping import packed, unpacked

    mark = kept.mark(texts)
    data = kept.take_up(folder, mark)
    with suppress(Exception):  # whatever is the matter with what was kept, there are still the texts
        if data is not None:
            return unpacked(data, texts)
    record = read(texts)
    if record.engine_known:
        kept.keep(folder, mark, packed(record))
    return record
