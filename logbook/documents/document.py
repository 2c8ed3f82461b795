"""A history as PDF or as one HTML file: content, template, printer in one line each."""

from __future__ import annotations

from logbook.documents.content import History
from logbook.documents.pdf import Printed, print_page
from logbook.documents.pieces import Asset
from logbook.documents.render import history_page
from logbook.documents.single_page import self_contained


def history_pdf(content: History, *, paper: str = "A4") -> Printed:
    """The history as PDF. Raises CannotRender where the machine lacks a library for it."""
    return print_page(history_page(content, paper=paper), {**content.assets, **_plots(content)})


def history_html(content: History) -> str:
    """The history as one HTML file that needs nothing beside it."""
    return self_contained(history_page(content, self_contained=True), content.assets)


def _plots(content: History) -> dict[str, Asset]:
    named = {"life": content.life, "test": content.test_plots}
    return {
        f"asset:plots/{name}-{number}.svg": Asset(plot.svg, "image/svg+xml")
        for name, plots in named.items()
        for number, plot in enumerate(plots, 1)
    }
