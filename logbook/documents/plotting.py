"""The plotting library set to the page: its own typeface and sizes, and SVG whose bytes depend on the figure alone.

The only file that imports the plotting library.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import Any

from logbook.documents.typeface import FACES, FAMILY, font_path

WIDTH = 160.0  # mm, the width of the text
TEXT = 8.0  # pt
_MM_PER_PT = 25.4 / 72


def figure_of(figure_class: Any, height: float) -> Any:
    return figure_class(figsize=(WIDTH / 25.4, height / 25.4))


def svg(figure: Any, salt: str) -> bytes:
    """The figure as SVG whose bytes depend on nothing but the figure."""
    import matplotlib

    out = BytesIO()
    with matplotlib.rc_context({"svg.hashsalt": salt}):
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None}, transparent=True)
    return out.getvalue()


@contextmanager
def drawing() -> Iterator[tuple[Any, Callable[[str], float]]]:
    """The plotting library set to the page's typeface: its figure class, and the width in mm of a text at 8 pt."""
    with _quiet():
        import matplotlib
        from matplotlib import font_manager
        from matplotlib.figure import Figure
        from matplotlib.textpath import text_to_path

    _register_faces(font_manager.fontManager)
    face = font_manager.FontProperties(family=FAMILY, size=TEXT)

    def width_of(text: str) -> float:
        return float(text_to_path.get_text_width_height_descent(text, face, ismath=False)[0]) * _MM_PER_PT

    style: Any = dict(matplotlib.rcParamsDefault)  # not what this machine's user prefers
    style |= {"backend": "svg", "svg.fonttype": "none", "font.family": [FAMILY]}
    style |= dict.fromkeys(("font.size", "xtick.labelsize", "ytick.labelsize"), TEXT)
    with matplotlib.rc_context(style):
        yield Figure, width_of


def _register_faces(manager: Any) -> None:
    """Our faces first, so that a machine's own version of the typeface cannot change a plot."""
    ours = [str(font_path(face)) for face in FACES]
    if manager.ttflist and manager.ttflist[0].fname in ours:
        return
    for path in ours:
        manager.addfont(path)
        manager.ttflist.insert(0, manager.ttflist.pop())


@contextmanager
def _quiet() -> Iterator[None]:
    """The library speaks when it finds no home to keep its cache in, and uses a temporary one; nobody need know."""
    logger = logging.getLogger("matplotlib")
    before = logger.level
    logger.setLevel(logging.ERROR)
    try:
        yield
    finally:
        logger.setLevel(before)
