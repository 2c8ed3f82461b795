"""Numbers and words on the lines of a terminal of 80 columns: points under each other, no boxes, one accent.

Without colour nothing is lost: bold and the accent only repeat what words and places say.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import zip_longest
from textwrap import wrap

import click

WIDTH = 80
_GAP = 3


def title(text: str) -> str:
    """What heads a block of lines."""
    return click.style(text, bold=True)


def titled(text: str) -> list[str]:
    """A title of any length, on as many lines as it takes."""
    return [title(line) for line in wrapped(text, hanging=2)]


def accent(text: str) -> str:
    """What a figure rests on where it is not measured."""
    return click.style(text, fg="magenta") if text else ""


def pointed(numbers: Iterable[str]) -> Callable[[str], str]:
    """How to set each of these numbers, so that their points stand under each other; one without a point ends there."""
    parts = [number.partition(".") for number in numbers]
    left = max((len(whole) for whole, _, _ in parts), default=0)
    right = max((len(point + rest) for _, point, rest in parts), default=0)

    def aligned(number: str) -> str:
        whole, point, rest = number.partition(".")
        return whole.rjust(left) + (point + rest).ljust(right)

    return aligned


def wrapped(text: str, indent: int = 0, hanging: int = 0, width: int = WIDTH) -> list[str]:
    """The words of one paragraph on lines of at most `width` columns; later lines stand `hanging` further in."""
    first, later = " " * indent, " " * (indent + hanging)
    return wrap(text, width, initial_indent=first, subsequent_indent=later, break_on_hyphens=False,
                break_long_words=False)  # fmt: skip


def narrow(message: str) -> str:
    """A message within the width: what is longer goes on below, two columns in."""
    lines = message.splitlines()
    return "\n".join("\n".join(wrapped(line, hanging=2)) if len(line) > WIDTH else line for line in lines)


def beside(name: str, wide: int, text: str) -> list[str]:
    """A name in a column `wide`, and its words to the right of it."""
    lines = wrapped(text, indent=wide + 4)
    return [f"  {name:<{wide}}  {lines[0].lstrip()}", *lines[1:]]


def across(cells: Sequence[Sequence[str]], indent: int) -> list[str]:
    """Cells side by side, as many as fit, shared evenly among the lines; each cell may have lines of its own."""
    width = max(len(line) for cell in cells for line in cell) + _GAP
    most = max(1, (WIDTH - indent + _GAP) // width)
    each_line = -(-len(cells) // -(-len(cells) // most))
    lines = []
    for start in range(0, len(cells), each_line):
        for row in zip_longest(*cells[start : start + each_line], fillvalue=""):
            lines.append(" " * indent + "".join(line.ljust(width) for line in row).rstrip())
    return lines


def outside_lines(reasons: Iterable[tuple[str, str]]) -> list[str]:
    """Names of figures and why they lie outside the validity of a formula, each reason once with all of its names."""
    whose: dict[str, dict[str, None]] = {}
    for name, reason in reasons:
        whose.setdefault(reason, {})[name] = None
    told = (f"{'; '.join(names)}: {reason}." for reason, names in whose.items())
    return [line for text in told for line in wrapped(text, indent=2, hanging=2)]
