"""Content and templates to one HTML page. The only file that knows the template language."""

from __future__ import annotations

from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from logbook.documents import figures
from logbook.documents.content import Cover, History
from logbook.store.shipped import TEMPLATES, shipped_folder

PAPERS = ("A4", "letter")


def history_page(content: History, *, paper: str = "A4", self_contained: bool = False) -> str:
    """The history document as HTML that asks for `asset:` addresses only.

    self_contained: the plots stand in the page itself, so that a browser sets them in the page's own typeface.
    """
    if paper not in PAPERS:
        raise ValueError(f"paper '{paper}': write one of {', '.join(PAPERS)}")
    template = _environment().get_template("history.html")
    return template.render(history=content, paper=paper, self_contained=self_contained)


def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(shipped_folder(TEMPLATES)),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_kept_together,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(
        lacking=figures.lacking,
        most_places=_most_places,
        in_page=_in_page,
        batches=batches,
        room_for_picture=room_for_picture,
    )
    return environment


def _kept_together(value: Any) -> Any:
    """Every plain text on its way to the page; what is HTML already is left as it is."""
    return figures.kept_together(value) if type(value) is str else value


def _most_places(texts: Any) -> int:
    """The most decimal places in a column of printed numbers."""
    return max((figures.places_of(text) for text in texts), default=0)


#: Height of the paper inside its margins, mm.
_INSIDE = {"A4": 253.0, "letter": 235.0}
_TALLEST, _LEAST = 100, 28  # mm of a picture


def room_for_picture(content: History, paper: str) -> int:
    """How high the cover's picture may be, mm, so that the first page stays one page; 0 where no room is left."""
    cover, engine = content.cover, content.engine
    name = _lines(engine.name, 34) * 9 if len(engine.name) <= 40 else _lines(engine.name, 52) * 7
    state = f"Engine number {engine.number} · {content.reading}, {content.day}"
    said = _lines(cover.description, 82) + _lines(state, 78)
    six = 15 * -(-len(cover.figures) // 3) + 8
    caption = _lines(cover.picture.caption, 110) * 4 + 2 if cover.picture and cover.picture.caption else 0
    used = 15 + name + said * 6 + 11 + caption + six + 12 + _longest_column(cover) * 4.8
    left = int(min(_INSIDE[paper] - used, _TALLEST))
    return left if left >= _LEAST else 0


def _longest_column(cover: Cover) -> int:
    """Lines of the longest of the cover's three columns."""
    shown = [[line[:150] for line in lines[:4]] for lines in (cover.faults, cover.overdue)]
    faults, overdue = (sum(_lines(line, most) for line in some) for some, most in zip(shown, (26, 22), strict=True))
    return max(faults + len(shown[0]) // 2, overdue, len(cover.trust.counts) + _lines(cover.trust.sentence, 27))


def _lines(text: str, characters: int) -> int:
    """About how many lines a text takes."""
    return -(-len(text) // characters)


def _in_page(svg: bytes) -> str:
    """A drawing of ours to stand in the page: without the XML head that only a file of its own may have."""
    text = svg.decode("utf-8")
    return text[text.index("<svg") :]


def batches(count: int, most: int) -> list[range]:
    """Indices 0 .. count-1 in runs of nearly equal length, none longer than `most`: 12 cylinders become 6 and 6."""
    runs = -(-count // most) or 1
    size = -(-count // runs)
    return [range(start, min(start + size, count)) for start in range(0, count, size)]
