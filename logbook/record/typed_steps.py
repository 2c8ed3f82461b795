"""Steps of work as they are typed on a line: `head-b at bank 1`, `pistons-2 order B / A / C`, `head-b: surface milled
0.30 mm`. What they say is read by the same models as a file's."""

from __future__ import annotations

import re

_FIT = re.compile(r"(?P<fit>\S+)(?: at (?P<at>bank \S+|cylinder \S+))?(?: order (?P<order>.+))?")
_REWORK = re.compile(r"(?P<rework>[^:\s]+): *(?P<operation>[^.\d]+?)(?: (?P<depth>[.\d].*))?")


def fit_typed(text: str) -> dict[str, str] | None:
    """The keys of a `fit` step; None where the text is none."""
    return _keys(_FIT.fullmatch(text))


def rework_typed(text: str) -> dict[str, str] | None:
    """The keys of a `rework` step; None where the text is none."""
    return _keys(_REWORK.fullmatch(text))


def _keys(found: re.Match[str] | None) -> dict[str, str] | None:
    return {key: value for key, value in found.groupdict().items() if value} if found else None
