"""Turns what the models object to into findings in the words of the workshop, each at its line and column."""

from __future__ import annotations

import types
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Annotated, Any, Union, get_args, get_origin, get_type_hints

from logbook.quantity.catalogue import nearest
from logbook.record.finding import WRONG, Finding, Path
from logbook.record.strict import Strict, ToldBy
from logbook.record.strict_yaml import place_of

if TYPE_CHECKING:
    from pydantic import ValidationError

#: So many keys are listed where none of them is meant; more would hide the sentence.
_FEW = 12


def complaints(error: ValidationError, model: type[Strict], file: str, data: bytes) -> Iterator[Finding]:
    """One finding for each thing the model objects to."""
    for problem in error.errors(include_url=False):
        path, inside = _follow(model, problem["loc"])
        says, mend = _in_words(problem, path, inside)
        line, column = place_of(data, path, key=problem["type"] == "extra_forbidden")
        yield Finding(file, line, column, WRONG, says, mend)


def _in_words(problem: Any, path: Path, inside: type[Strict]) -> tuple[str, str]:
    kind, context, name = problem["type"], problem.get("ctx", {}), _last_name(path)
    if kind == "logbook":
        return context["says"], context["mend"]
    if kind == "missing":
        return f"`{name}` is missing", f"add a line `{name}: …`"
    if kind == "extra_forbidden":
        return f"`{name}` is not a key that belongs here", _another_key(name, inside)
    if kind == "literal_error" and isinstance(problem["input"], str):
        return f"`{problem['input']}` is not possible for `{name}`", f"write {context['expected'].replace(chr(39), '')}"
    if kind == "string_too_short":
        return "there is nothing after this key", "write the value, or delete the line"
    if path[:1] == ("banks",):
        return f"`{name}` wants its cylinders as one text", "write them with dashes between: 1-3-5"
    return _wrong_shape(kind, name)


def _another_key(name: str, inside: type[Strict]) -> str:
    keys = _keys(inside)
    near = nearest(name, keys)
    if near:
        return f"write `{near}`"
    return f"the keys here are {', '.join(keys)}" if len(keys) <= _FEW else "put it into `note:`"


def _wrong_shape(kind: str, name: str) -> tuple[str, str]:
    if kind in ("dict_type", "model_type", "mapping_type", "model_attributes_type"):
        return f"`{name}` wants lines of `key: value`", "indent them under it"
    if kind in ("tuple_type", "list_type"):
        return f"`{name}` wants a list", "begin each item with `- `"
    return f"`{name}` wants a single text, not a list or a mapping", "write it on one line"


def _last_name(path: Path) -> str:
    return next((str(step) for step in reversed(path) if isinstance(step, str)), "the file")


def _keys(model: type[Strict]) -> list[str]:
    return sorted(model.keys)


# The models' way to a value is not the file's: a kind of step is chosen by a tag that stands in no file.


def _follow(model: type[Strict], loc: Path) -> tuple[Path, type[Strict]]:
    """The path in the file, and the model whose keys stand at its end."""
    here: Any = model
    inside, path = model, []
    for step in loc:
        tagged = _tagged(here)
        if tagged:
            here = tagged[str(step)]
        else:
            path.append(step)
            here = _plain(_below(here, step))
        if isinstance(here, type) and issubclass(here, Strict):
            inside = here
    return tuple(path), inside


def _plain(kind: Any) -> Any:
    """A type without what is annotated to it, and without `or None`; but a union of steps with its keys."""
    while get_origin(kind) is Annotated and not _tagged(kind):
        kind = get_args(kind)[0]
    if isinstance(kind, types.UnionType) or get_origin(kind) is Union:
        some = [each for each in get_args(kind) if each is not type(None)]
        return _plain(some[0]) if len(some) == 1 else kind
    return kind


def _tagged(kind: Any) -> Mapping[str, type[Strict]]:
    """The members of a union that are told apart by a key, by these keys."""
    notes = get_args(kind)[1:] if get_origin(kind) is Annotated else ()
    return next((note.kinds for note in notes if isinstance(note, ToldBy)), {})


def _below(kind: Any, step: str | int) -> Any:
    """What stands one step further in: a field of a model, an item of a list, a value of a mapping."""
    if isinstance(kind, type) and issubclass(kind, Strict):
        name = kind.keys.get(str(step), "")
        return get_type_hints(kind, include_extras=True).get(name)
    inner = [each for each in get_args(kind) if each is not Ellipsis]
    return inner[-1] if inner else None
