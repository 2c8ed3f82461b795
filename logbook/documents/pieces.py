"""The smallest things on a page: a figure, a line, a table, a picture. All text; nothing here computes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NewType

#: HTML that went through notes.py; nothing else may make one.
SafeHtml = NewType("SafeHtml", str)
NO_NOTE = SafeHtml("")


@dataclass(frozen=True, slots=True)
class Asset:
    """Bytes that a page asks for by an `asset:` address."""

    data: bytes
    media_type: str


@dataclass(frozen=True, slots=True)
class Figure:
    """One number as printed: value and ± (k = 2) in the same unit.

    basis is empty for what was measured; otherwise the word that stands beside the figure ('published', 'hearsay',
    ...). note says what the reader must know of this figure ('out of date since the milling of 10 March').
    """

    value: str
    uncertainty: str = ""
    unit: str = ""
    basis: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class NamedFigure:
    """A line of a specification; conditions are part of what is meant ('at 0.10 mm lift')."""

    name: str
    figure: Figure
    conditions: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Lines of the specification that belong together."""

    title: str
    rows: tuple[NamedFigure, ...]


@dataclass(frozen=True, slots=True)
class CylinderRow:
    """One quantity across the cylinders; values in the engine's numbering, '' where none was taken."""

    name: str
    unit: str
    values: tuple[str, ...]
    mean: str = ""
    spread: str = ""
    uncertainty: str = ""
    basis: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class CylinderTable:
    """Cylinders (or journals) across, readings down; the convention is printed once below."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[CylinderRow, ...]
    convention: str = ""
    across: str = "cylinder"


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph or drawing; asset is its address in History.assets."""

    asset: str
    alt: str
    caption: str = ""


@dataclass(frozen=True, slots=True)
class PlotBlock:
    """A drawn plot and the one sentence that says what is to be seen in it."""

    title: str
    svg: bytes
    alt: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a plain table; figures are set under each other by their decimal points."""

    head: str
    figures: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A plain table of words and numbers-as-text; the first column names the row."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
