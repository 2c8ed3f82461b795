"""A finding: what the check has to say about one place in the record. A value, never an exception."""

from __future__ import annotations

from typing import NamedTuple

WRONG, DOUBTFUL, NOTE = "wrong", "doubtful", "note"
LEVELS = (WRONG, DOUBTFUL, NOTE)

Path = tuple[str | int, ...]  # the way to a value in a file: keys, and numbers in a list


class Finding(NamedTuple):
    """Where, how bad, what is wrong, and what to write instead. Lines and columns count from 1."""

    file: str
    line: int
    column: int
    level: str
    says: str
    mend: str = ""

    def __str__(self) -> str:
        mend = f"; {self.mend}" if self.mend else ""
        return f"{self.file}:{self.line}:{self.column}: {self.level}: {self.says}{mend}"


def worst(findings: tuple[Finding, ...]) -> str | None:
    """The worst level among them, or None."""
    present = {finding.level for finding in findings}
    return next((level for level in LEVELS if level in present), None)
