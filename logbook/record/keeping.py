"""A record as bytes that can be kept, and made into the same record again.

Reading takes pydantic and the YAML library, and these take longer to start than all else that a command does. So what
was made of a folder's texts is kept (`store/kept.py`), and taken up again as long as no byte of them has changed.
Only what was read is kept, nothing that was worked out.
"""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import replace
from io import BytesIO
from typing import Any

from logbook.quantity.catalogue import Quantity, catalogue, quantity
from logbook.record.record import Record

#: What a record is made of, apart from classes of our own.
_FOREIGN = {("datetime", "date"), ("datetime", "time")}
_OURS = ("logbook.quantity.", "logbook.record.")


def packed(record: Record) -> bytes:
    """The record without its texts, which are there again whenever it is wanted."""
    stream = BytesIO()
    _Packer(stream, pickle.HIGHEST_PROTOCOL).dump(replace(record, texts={}))
    return stream.getvalue()


def unpacked(data: bytes, texts: Mapping[str, bytes]) -> Record:
    """The record that was packed, over the texts that it was read from. Raises UnpicklingError for anything else."""
    record = _Unpacker(BytesIO(data)).load()
    if not isinstance(record, Record):
        raise pickle.UnpicklingError("this is no record")
    return replace(record, texts=texts)


class _Packer(pickle.Pickler):
    def reducer_override(self, thing: Any) -> Any:
        """A row of the catalogue by its name, so that it is the catalogue's own again."""
        if isinstance(thing, Quantity) and catalogue().get(thing.name) is thing:
            return quantity, (thing.name,)
        return NotImplemented


class _Unpacker(pickle.Unpickler):
    """Makes what a record is made of and calls nothing else, whoever wrote the bytes."""

    def find_class(self, module: str, name: str) -> Any:
        ours = module.startswith(_OURS) and "." not in name
        found = super().find_class(module, name) if ours or (module, name) in _FOREIGN else None
        if found is quantity or (isinstance(found, type) and found.__module__ == module):  # not what it only imports
            return found
        raise pickle.UnpicklingError(f"a record holds no {module}.{name}")
