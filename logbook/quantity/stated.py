"""A quantity as stated: its figures by position, and the problem of a text that states none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple


class ValueProblem(ValueError):
    """A text that is no value: what is wrong with it, what to write instead, and the column (from 0) where."""

    def __init__(self, says: str, mend: str, offset: int = 0) -> None:
        super().__init__(f"{says}: {mend}")
        self.says = says
        self.mend = mend
        self.offset = offset


@dataclass(frozen=True, slots=True)
class Stated:
    """One figure in base units; of a signed figure the first of the row's sides is positive.

    standard is the standard uncertainty as stated (half of ±, which is expanded with k = 2; digits in brackets as they
    are), None if none was; last_digit the size of one in the last digit written. How it was written is kept beside it:
    the number without its side, '(1)' or ' ± 0.2', the symbol of its unit.
    """

    nominal: float
    standard: float | None
    last_digit: float
    number: str = field(default="", compare=False)
    spread: str = field(default="", compare=False)
    unit: str = field(default="", compare=False)


#: What stands at one position: the several figures taken there, None if none was.
Position = tuple[Stated, ...] | None


class Line(NamedTuple):
    """All positions of one quantity in the order written; `unit` is the symbol of the last figure's unit.

    A line that is `unknown` (looked at, not known) has no positions.
    """

    positions: tuple[Position, ...]
    unit: str
    unknown: bool = False

    @property
    def figures(self) -> Iterator[Stated]:
        """Every figure that was taken, in order."""
        return (figure for position in self.positions for figure in position or ())
