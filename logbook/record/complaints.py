"""Turns what the models object to into findings in the words of the workshop, each at its line and column."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator
from functools import cache
from typing import Any

from pydantic import BaseModel, ValidationError

from logbook.quantity.catalogue import nearest
from logbook.record.finding import WRONG, Finding
from logbook.record.strict_yaml import Path, place_of


def complaints(error: ValidationError, model: type[BaseModel], file: str, data: bytes) -> Iterator[Finding]:
    """One finding for each thing the model objects to."""
    for problem in error.errors(include_url=False):
        says, mend = _in_words(problem, model)
        line, column = place_of(data, problem["loc"], key=problem["type"] == "extra_forbidden")
        yield Finding(file, line, column, WRONG, says, mend)


def _in_words(problem: Any, model: type[BaseModel]) -> tuple[str, str]:
    kind, loc, context = problem["type"], problem["loc"], problem.get("ctx", {})
    name = _last_name(loc)
    if kind == "logbook":
        return context["says"], context["mend"]
    if kind == "missing":
        return f"`{name}` is missing", f"add a line `{name}: …`"
    if kind == "extra_forbidden":
        near = nearest(name, sorted(_keys(model)))
        return f"`{name}` is not a key that belongs here", f"write `{near}`" if near else "put it into `note:`"
    if kind == "literal_error":
        return f"`{problem['input']}` is not possible for `{name}`", f"write {_or(context['expected'])}"
    return _wrong_shape(kind, name, problem)


def _wrong_shape(kind: str, name: str, problem: Any) -> tuple[str, str]:
    if kind in ("dict_type", "model_type", "mapping_type", "model_attributes_type"):
        return f"`{name}` wants lines of `key: value`", "indent them under it"
    if kind in ("tuple_type", "list_type"):
        return f"`{name}` wants a list", "begin each item with `- `"
    return f"`{name}`: {problem['msg'][0].lower()}{problem['msg'][1:]}", "see the file format in the README"


def _last_name(loc: Path) -> str:
    return next((str(step) for step in reversed(loc) if isinstance(step, str)), "the file")


def _or(expected: str) -> str:
    return expected.replace("'", "")


@cache
def _keys(model: type[BaseModel]) -> frozenset[str]:
    """Every key that the model or a model inside it knows."""
    found: set[str] = set()
    waiting: list[Any] = [model]
    while waiting:
        kind = waiting.pop()
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            for name, field in kind.model_fields.items():
                found.add(field.alias or name)
                waiting.append(field.annotation)
        elif isinstance(kind, types.GenericAlias | types.UnionType) or typing.get_origin(kind):
            waiting.extend(typing.get_args(kind))
    return frozenset(found)
