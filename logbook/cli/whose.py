"""How the two sides of a comparison are called: before and after of one engine, or A and B where they are two."""

from __future__ import annotations

from typing import NamedTuple


class Whose(NamedTuple):
    """The words for each side, and for a figure that only one of them has.

    `marks` stand before what belongs to either side, `columns` over its figures and their difference.
    """

    marks: tuple[str, str]
    columns: tuple[str, str, str]
    only: tuple[str, str]
    known: tuple[str, str]  # of the first side alone, of the second alone
    heading: str = ""  # behind the titles of what follows

    def both(self, before: str | None, after: str | None) -> tuple[str, str]:
        """Each side's words with its mark."""
        return f"{self.marks[0]}{before}", f"{self.marks[1]}{after}"


ONE_ENGINE = Whose(("", ""), ("before", "after", "change"), ("the first", "the second"),
                   ("no longer known", "now known"))  # fmt: skip
TWO_ENGINES = Whose(("A: ", "B: "), ("A", "B", "B - A"), ("A", "B"), ("known of A only", "known of B only"), ", A → B")
