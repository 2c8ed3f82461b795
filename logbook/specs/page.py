"""A formula's page: what its docstring says, in its parts. Title, equation, arguments, validity, source."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from inspect import cleandoc
from typing import NamedTuple

from logbook.specs.index import Function


class Page(NamedTuple):
    """The parts of one formula's page, each as one line of text; `arguments` by name, with unit and words."""

    function: str
    title: str
    equation: str
    arguments: tuple[tuple[str, str], ...]
    returns: str
    validity: str
    sources: tuple[str, ...]


@cache
def page(function: Function) -> Page:
    """The page of a formula; tests hold every formula to this form."""
    paragraphs = [block for block in cleandoc(function.__doc__ or "").split("\n\n") if not block.startswith(">>>")]
    title, equation, items = (*paragraphs, "", "", "")[:3]
    said = list(_items(items))
    by_word = {words.split(" ")[0].rstrip(":"): words for words in said}
    sources = tuple(words.removeprefix("Source: ") for words in said if words.startswith("Source: "))
    arguments = tuple(_argument(words) for words in said if not words.startswith(("Returns", "Validity: ", "Source: ")))
    return Page(function.__name__, _one_line(title).rstrip("."), _one_line(equation), arguments,
                by_word.get("Returns", "").removeprefix("Returns ").rstrip("."),
                by_word.get("Validity", "").removeprefix("Validity: "), sources)  # fmt: skip


def _items(block: str) -> Iterator[str]:
    """The lines of the list, each with those that carry it on."""
    item: list[str] = []
    for line in block.splitlines():
        if item and not line.startswith(" "):
            yield _one_line(" ".join(item))
            item = []
        item.append(line)
    if item:
        yield _one_line(" ".join(item))


def _argument(words: str) -> tuple[str, str]:
    name, _, rest = words.partition(" ")
    return name.rstrip(":"), rest


def _one_line(text: str) -> str:
    return " ".join(text.split())
