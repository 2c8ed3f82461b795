"""Where on the engine a figure is, in words: ` of cylinder 2`, ` of cylinders 1, 2 and 4`.

Nothing is said of the engine as a whole, and nothing of the one bank of an engine in line.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.quantity.catalogue import BANK, Quantity
from logbook.state.arrangement import Arrangement


def at_positions(arrangement: Arrangement, row: Quantity, positions: Sequence[str]) -> str:
    """` of cylinder 1`, ` of cylinders 1, 2 and 4`, or nothing."""
    named = [position for position in positions if position]
    if not named or (row.place == BANK and len(arrangement.banks) == 1):
        return ""
    several = f"{', '.join(named[:-1])} and {named[-1]}" if len(named) > 1 else named[0]
    return f" of {row.place}{'s' if len(named) > 1 else ''} {several}"
