"""Whether what a file says is what its model allows: pydantic reads it, and its objections become findings."""

from __future__ import annotations

from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError

from logbook.record.complaints import complaints
from logbook.record.finding import Finding
from logbook.record.strict import Strict

Model = TypeVar("Model", bound=Strict)


def validated(kind: type[Model], tree: Any, file: str, data: bytes) -> tuple[Model | None, tuple[Finding, ...]]:
    """The tree of a file as a model of this kind; None where it is none, and why not."""
    try:
        read: Model = reader(kind).validate_python(tree)
        return read, ()
    except ValidationError as error:
        return None, tuple(complaints(error, kind, file, data))


_READERS: dict[type[Strict], TypeAdapter[Any]] = {}  # by model, each made when the first file of its kind is read


def reader(kind: type[Strict]) -> TypeAdapter[Any]:
    """What pydantic makes of a model."""
    if kind not in _READERS:
        _READERS[kind] = TypeAdapter(kind)
    return _READERS[kind]
