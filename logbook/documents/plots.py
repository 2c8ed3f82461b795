"""Plots as SVG in the page's own typeface and sizes.

Every size is real: drawn 160 mm wide and printed so, 8 pt in the plot is 8 pt on the page. No frame, no grid, no
legend box; lines are named at their ends, uncertainty is a band, and the titles of changes are set so that none
overlaps another or is crossed by a line (titles.py).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from logbook.documents import figures
from logbook.documents.plotting import TEXT, WIDTH, drawing, figure_of, svg
from logbook.documents.titles import Title, spread_out, stacked

INK, GREY, FAINT, BAND, ACCENT = "#111111", "#5c5c5c", "#b4b4b4", "#dcdcdc", "#0d6283"
_COLOURS = (GREY, INK, ACCENT)  # the newest stands out
_GAP = 2.5  # mm from the end of a title to the next line
_WIDEST_LATE = 30.0  # mm kept free for the last title; a longer one goes without
_ROW = 3.8  # mm from one row of titles to the next
_TICK = 2.0  # mm from the end of a number to its axis: a gap and a stroke


@dataclass(frozen=True, slots=True)
class Step:
    """A spec's value from a reading on, None where it is not known; expanded is its ± (k = 2).

    filled: it rests on measurement.
    """

    at: float
    value: float | None
    expanded: float
    filled: bool = True


@dataclass(frozen=True, slots=True)
class Mark:
    """A change at a reading; strong where it moved the plotted spec. Without a title it keeps a stroke at the axis."""

    at: float
    title: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Panel:
    """A stretch of the life on one counter; label names counter and unit and stands at the axis' end."""

    label: str
    start: float
    end: float
    steps: tuple[Step, ...]
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Curve:
    """A line named at its end; expanded is the ± (k = 2) of each value."""

    name: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    expanded: tuple[float, ...] = ()


def life_line(panels: Sequence[Panel], *, decimals: int = 1) -> bytes:
    """One spec over the engine's life, a panel for each counter side by side: steps, band, and the changes by title."""
    with drawing() as (figure_class, width_of):
        limits = _limits(panels)
        lefts, widths = _panel_places(panels, _numbers_width(limits, decimals, width_of), width_of)
        titles = _titles(panels, lefts, widths, width_of)
        rows = 1 + max((title.row for title in titles), default=-1)
        foot, plot = 11.0, 40.0
        height = foot + plot + 3 + rows * _ROW
        figure = figure_of(figure_class, height)
        for index, panel in enumerate(panels):
            axes = figure.add_axes((lefts[index] / WIDTH, foot / height, widths[index] / WIDTH, plot / height))
            _draw_panel(axes, panel, limits, decimals, first=index == 0)
            _name_values(axes, panel, widths[index], width_of)
        _draw_titles(figure, titles, foot, foot + plot + 3, height)
        return svg(figure, "life")


def curves(lines: Sequence[Curve], *, x_label: str, y_label: str, from_zero: bool = False) -> bytes:
    """Several lines over one axis, each with its band and its name at its end."""
    with drawing() as (figure_class, width_of):
        height, foot, top = 76.0, 11.0, 6.0
        name_width = max(width_of(line.name) for line in lines) + 4
        figure = figure_of(figure_class, height)
        axes = figure.add_axes((0, foot / height, 1, (height - foot - top) / height))
        for line, colour in zip(lines, _colours(len(lines)), strict=True):
            _draw_curve(axes, line, colour)
        if from_zero:
            axes.set_ylim(bottom=0)
        left = max(11.0, _numbers_width(axes.get_ylim(), _decimals(axes.get_ylim()), width_of))
        room = (WIDTH - left - name_width) / WIDTH
        axes.set_position((left / WIDTH, foot / height, room, (height - foot - top) / height))
        _dress(axes, x_label, decimals=(_decimals(axes.get_xlim()), _decimals(axes.get_ylim())))
        axes.text(0, 1.02, y_label, transform=axes.transAxes, ha="left", va="bottom", color=GREY)
        _name_ends(axes, lines, height - foot - top)
        return svg(figure, "curves")


# --- the life line ---------------------------------------------------------------------------------------------------


def _panel_places(
    panels: Sequence[Panel], numbers: float, width_of: Callable[[str], float]
) -> tuple[list[float], list[float]]:
    """Where each panel stands, in mm: as wide as it has changes to name, with room on the right for the last title.
    `numbers`: what those of the axis take on the left."""
    left, gap = max(9.0, numbers), 9.0
    late = [width_of(mark.title) + _GAP for mark in panels[-1].marks if mark.at > _at(panels[-1], 0.8)]
    right = WIDTH - min(max(late, default=0.0), _WIDEST_LATE) - 1
    shares = [2.0 + len(panel.marks) for panel in panels]
    room = right - left - gap * (len(panels) - 1)
    widths = [room * share / sum(shares) for share in shares]
    lefts = [left + sum(widths[:index]) + gap * index for index in range(len(panels))]
    return lefts, widths


def _at(panel: Panel, share: float) -> float:
    return panel.start + share * (panel.end - panel.start)


def _titles(
    panels: Sequence[Panel], lefts: Sequence[float], widths: Sequence[float], width_of: Callable[[str], float]
) -> list[Title]:
    wanted = [
        Title(left + width * _share(panel, mark.at), width_of(mark.title) + _GAP, mark.title, mark.strong)
        for panel, left, width in zip(panels, lefts, widths, strict=True)
        for mark in panel.marks
    ]
    named = stacked([title for title in wanted if title.text], edge=WIDTH, most_rows=6)
    return [*named, *(title for title in wanted if not title.text)]


def _share(panel: Panel, at: float) -> float:
    return (at - panel.start) / (panel.end - panel.start or 1.0)


def _limits(panels: Sequence[Panel]) -> tuple[float, float]:
    known = [(step.value, step.expanded) for panel in panels for step in panel.steps if step.value is not None]
    low = min(value - expanded for value, expanded in known)
    high = max(value + expanded for value, expanded in known)
    margin = 0.10 * (high - low or 1.0)
    return low - margin, high + 1.8 * margin


def _draw_panel(axes: Any, panel: Panel, limits: tuple[float, float], decimals: int, first: bool) -> None:
    axes.set_xlim(panel.start, panel.end if panel.end > panel.start else panel.start + 1)
    axes.set_ylim(*limits)
    for step, end, value in _known(panel):
        axes.fill_between([step.at, end], value - step.expanded, value + step.expanded, color=BAND, lw=0)
        axes.plot([step.at, end], [value] * 2, color=INK, lw=1.2, solid_capstyle="butt")
        axes.plot([step.at], [value], "o", ms=4.2, mfc=INK if step.filled else "white", mec=INK, clip_on=False)
    _dress(axes, panel.label, decimals=(_on_counter(panel), decimals), left=first)


def _on_counter(panel: Panel) -> int:
    """Decimals of a counter's axis: none, but for a life of an hour or two."""
    return 0 if panel.end - panel.start > 2 or panel.end <= panel.start else _decimals((panel.start, panel.end))


def _name_values(axes: Any, panel: Panel, width: float, width_of: Callable[[str], float]) -> None:
    """Each value over its step, on white so that no line crosses it; a step shorter than its number goes without."""
    patch = {"facecolor": "white", "edgecolor": "none", "pad": 0.6}
    for step, end, value in _known(panel):
        text, _ = figures.pair(value, step.expanded)
        if step is panel.steps[-1] or width * (_share(panel, end) - _share(panel, step.at)) > width_of(text) + 2:
            place = step.at, value + step.expanded
            axes.annotate(text, place, (3, 0), textcoords="offset points", va="bottom", color=INK, bbox=patch)


def _known(panel: Panel) -> list[tuple[Step, float, float]]:
    """Each step whose value is known, where it ends, and its value."""
    ends = [*(step.at for step in panel.steps[1:]), panel.end]
    return [(step, end, step.value) for step, end in zip(panel.steps, ends, strict=True) if step.value is not None]


def _draw_titles(figure: Any, titles: Sequence[Title], foot: float, top: float, height: float) -> None:
    for title in titles:
        colour = INK if title.strong else GREY
        named = title.row >= 0
        level = top + title.row * _ROW if named else foot + 2
        figure.add_artist(_line([title.x / WIDTH] * 2, [foot / height, (level + 2.2 * named) / height]))
        if named:
            figure.text((title.start + 0.8) / WIDTH, level / height, title.text, ha="left", va="bottom", color=colour)


def _line(x: list[float], y: list[float]) -> Any:
    from matplotlib.lines import Line2D

    return Line2D(x, y, color=FAINT, lw=0.5, zorder=-1)


# --- curves ----------------------------------------------------------------------------------------------------------


def _draw_curve(axes: Any, line: Curve, colour: str) -> None:
    if line.expanded:
        low = [value - give for value, give in zip(line.y, line.expanded, strict=True)]
        high = [value + give for value, give in zip(line.y, line.expanded, strict=True)]
        axes.fill_between(line.x, low, high, color=colour, alpha=0.12, lw=0)
    axes.plot(line.x, line.y, "-o", color=colour, lw=1.2, ms=3, mec=colour, mfc=colour)


def _name_ends(axes: Any, lines: Sequence[Curve], height: float) -> None:
    """Each line's name at its end, moved apart where two ends lie together."""
    low, high = axes.get_ylim()
    scale = height / (high - low)
    levels = spread_out([(line.y[-1] - low) * scale for line in lines], 3.6)
    for line, level, colour in zip(lines, levels, _colours(len(lines)), strict=True):
        place = line.x[-1], low + level / scale
        end = axes.annotate(line.name, place, (5, 0), textcoords="offset points", va="center", color=colour)
        end.set_annotation_clip(False)


def _colours(count: int) -> list[str]:
    """One for each line, the last of them the accent."""
    return [_COLOURS[max(0, len(_COLOURS) - count + index)] for index in range(count)]


# --- common ----------------------------------------------------------------------------------------------------------


def _dress(axes: Any, label: str, decimals: tuple[int, int], left: bool = True) -> None:
    """Bare axes: a fine line below, short ticks, numbers as on the page, what is counted at the axis' end."""
    for side, spine in axes.spines.items():
        spine.set_visible(side == "bottom" or (side == "left" and left))
        spine.set_linewidth(0.5)
        spine.set_color(GREY)
    axes.tick_params(length=2.5, width=0.5, color=GREY, labelcolor=GREY, pad=2.5, left=left, labelleft=left)
    axes.xaxis.set_major_locator(_locator(max(3, int(axes.get_position().width * 14)), whole=not decimals[0]))
    axes.xaxis.set_major_formatter(lambda value, _: figures.number(value, decimals[0]))
    axes.yaxis.set_major_locator(_locator(6, whole=not decimals[1]))
    axes.yaxis.set_major_formatter(lambda value, _: figures.number(value, decimals[1]))
    axes.annotate(label, (1, 0), (0, -TEXT * 2.75), xycoords="axes fraction", textcoords="offset points",
                  ha="right", va="center", color=GREY)  # fmt: skip


def _numbers_width(limits: tuple[float, float], decimals: int, width_of: Callable[[str], float]) -> float:
    """The room in mm that the numbers of an upright axis want left of it."""
    return max(width_of(figures.number(value, decimals)) for value in limits) + _TICK


def _decimals(limits: tuple[float, float]) -> int:
    """As many as tell the numbers of an axis apart; none where whole numbers do."""
    span = abs(limits[1] - limits[0])
    return 0 if span > 4 else 1 if span > 0.4 else 2 if span > 0.04 else 3


def _locator(most: int, whole: bool) -> Any:
    """At round numbers; at whole ones where no decimals are printed, so that none stands twice."""
    from matplotlib.ticker import MaxNLocator

    return MaxNLocator(most, steps=[1, 2, 5, 10], integer=whole)
