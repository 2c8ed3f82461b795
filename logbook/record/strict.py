"""What every model of a file is made of: frozen, no unknown key, no empty text.

A model is a plain class with annotations; what a file does not say stays the class's own default. pydantic reads a file
into it, by the schema that the class gives (`validating.py`). It is not imported here: a record that was read before,
and kept, is there again without it, in a fraction of the time that pydantic takes to start.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Self, cast, dataclass_transform, get_type_hints

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler
    from pydantic_core import CoreSchema, PydanticCustomError

#: Where a mapping may stand and a file has none: one for all, so nobody may write into it.
NOTHING = cast(dict[str, Any], MappingProxyType({}))


@dataclass_transform(kw_only_default=True, frozen_default=True)
class Strict:
    """Base of every model. A key that is a word of Python has a field with a stroke behind it: `from`, `from_`."""

    keys = cast(Mapping[str, str], NOTHING)  # those that a file of this model may hold, and the field of each

    def __init_subclass__(cls) -> None:
        own = (vars(each).get("__annotations__", {}) for each in reversed(cls.__mro__))
        cls.keys = {name.rstrip("_"): name for names in own for name in names}

    def __init__(self, **says: Any) -> None:
        self.__dict__.update(says)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} is frozen; make another with but({name}=…)")

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in vars(self).items())})"

    def but(self, **other: Any) -> Self:
        """The same with other values in some fields."""
        return type(self)(**vars(self) | other)

    def said(self) -> dict[str, Any]:
        """What was written, by the keys of the file, as far as it differs from what goes without saying."""
        cls = type(self)
        different = {name: value for name, value in vars(self).items() if getattr(cls, name, None) != value}
        return {key: _as_written(different[name]) for key, name in cls.keys.items() if name in different}

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """A mapping with no key but the fields' own, each by its annotation."""
        from pydantic_core import core_schema

        kinds = get_type_hints(cls, include_extras=True)
        fields = {
            key: core_schema.typed_dict_field(handler.generate_schema(kinds[name]), required=cls._must_be_said(name))
            for key, name in cls.keys.items()
        }
        config = core_schema.CoreConfig(str_min_length=1)
        written = core_schema.typed_dict_schema(fields, extra_behavior="forbid", config=config)
        names = {key: name for key, name in cls.keys.items() if key != name}
        return core_schema.no_info_after_validator_function(lambda says: cls(**_renamed(says, names)), written)

    @classmethod
    def _must_be_said(cls, name: str) -> bool:
        """Where the class that states a field last gives it no default; what an earlier one gave counts no more."""
        return next(name not in vars(each) for each in cls.__mro__ if name in vars(each).get("__annotations__", {}))


def _renamed(says: dict[str, Any], names: Mapping[str, str]) -> dict[str, Any]:
    for key in names.keys() & says.keys():
        says[names[key]] = says.pop(key)
    return says


def _as_written(value: Any) -> Any:
    if isinstance(value, Strict):
        return value.said()
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else value


def complain(says: str, mend: str) -> PydanticCustomError:
    """A validation error that carries our own words (see complaints.py)."""
    from pydantic_core import PydanticCustomError

    return PydanticCustomError("logbook", "{says}", {"says": says, "mend": mend})


# What stands beside a type and reads it: pydantic asks these for the schema, the type itself is for the reader of code.


class Parsed:
    """Annotated to a type: made of a text by a parser of ours."""

    def __init__(self, parse: Callable[[Any], Any]) -> None:
        self.parse = parse

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(self.parse)


class Short:
    """Annotated to a model: what may also be written in a shorter way, brought to the longer one first."""

    def __init__(self, longer: Callable[[Any], Any]) -> None:
        self.longer = longer

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core import core_schema

        return core_schema.no_info_before_validator_function(self.longer, handler(source))


class ToldBy:
    """Annotated to a union of models: told apart by a key of theirs, and refused in our own words if there is none."""

    def __init__(self, kinds: Mapping[str, type[Strict]], key: Callable[[Any], str | None],
                 must: Callable[[Any], Any]) -> None:  # fmt: skip
        self.kinds, self.key, self.must = kinds, key, must

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core import core_schema

        choices = {name: handler.generate_schema(kind) for name, kind in self.kinds.items()}
        told = core_schema.tagged_union_schema(choices, self.key)
        return core_schema.no_info_before_validator_function(self.must, told)
