"""Content and templates to one HTML page. The only file that knows the template language."""

from __future__ import annotations

from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from logbook.documents import figures
from logbook.documents.content import History
from logbook.documents.shipped import template_folder

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
        loader=FileSystemLoader(template_folder()),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_kept_together,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters.update(lacking=figures.lacking, most_places=_most_places, in_page=_in_page, batches=batches)
    return environment


def _kept_together(value: Any) -> Any:
    """Every plain text on its way to the page; what is HTML already is left as it is."""
    return figures.kept_together(value) if type(value) is str else value


def _most_places(texts: Any) -> int:
    """The most decimal places in a column of printed numbers."""
    return max((figures.places_of(text) for text in texts), default=0)


def _in_page(svg: bytes) -> str:
    """A drawing of ours to stand in the page: without the XML head that only a file of its own may have."""
    text = svg.decode("utf-8")
    return text[text.index("<svg") :]


def batches(count: int, most: int) -> list[range]:
    """Indices 0 .. count-1 in runs of nearly equal length, none longer than `most`: 12 cylinders become 6 and 6."""
    runs = -(-count // most) or 1
    size = -(-count // runs)
    return [range(start, min(start + size, count)) for start in range(0, count, size)]
