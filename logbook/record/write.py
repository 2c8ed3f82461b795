"""New entries as YAML text: plain, in the order a person would write, and read back before they are believed.

Writers create new files. The text is checked by the one strict reader: what it reads must be what was meant.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from typing import Any

import yaml
from yaml.emitter import Emitter
from yaml.representer import SafeRepresenter
from yaml.resolver import BaseResolver
from yaml.serializer import Serializer

from logbook.record.strict_yaml import read_yaml

_LONGEST = 48  # letters of a file's name, after its date


class _Writer(Emitter, Serializer, SafeRepresenter, BaseResolver):
    """PyYAML's writer without a resolver: as every scalar is text, none needs quotes to stay text."""

    def __init__(self, stream: Any, **options: Any) -> None:
        Emitter.__init__(self, stream, indent=2, width=100, allow_unicode=True)
        Serializer.__init__(self)
        SafeRepresenter.__init__(self, default_flow_style=False, sort_keys=False)
        BaseResolver.__init__(self)

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:
        Emitter.increase_indent(self, flow, False)

    def ignore_aliases(self, data: Any) -> bool:
        return True


def _text(writer: SafeRepresenter, text: str) -> yaml.ScalarNode:
    return writer.represent_scalar("tag:yaml.org,2002:str", text, style="|" if "\n" in text else None)


_Writer.add_representer(str, _text)


def entry_text(tree: Mapping[str, Any]) -> bytes:
    """A file that reads back as exactly `tree` (nested dicts, lists and texts). ValueError if none does."""
    import io

    stream = io.StringIO()
    writer = _Writer(stream)
    writer.open()
    writer.represent(dict(tree))
    writer.close()
    data = stream.getvalue().encode()
    read, findings = read_yaml(data, "the new entry")
    if findings or read != tree:
        raise ValueError(
            f"this cannot be written as YAML: {findings[0].says if findings else 'it reads back otherwise'}"
        )
    return data


def slug(title: str) -> str:
    """`Head B on, thinner gasket` -> `head-b-on-thinner-gasket`; `entry` where no letter is left."""
    plain = unicodedata.normalize("NFKD", title.casefold()).encode("ascii", "ignore").decode()
    words = re.findall(r"[a-z0-9]+", plain)
    short = "-".join(words)
    if len(short) > _LONGEST:
        short = short[: _LONGEST + 1].rpartition("-")[0] or short[:_LONGEST]
    return short or "entry"
