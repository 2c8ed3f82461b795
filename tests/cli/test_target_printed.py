"""What `target` prints of what is there now."""

from __future__ import annotations

import csv
from pathlib import Path

from keyboard import typed


def test_what_is_there_now_keeps_the_decimals_that_it_was_written_with(twin: Path) -> None:
    """30.0 and 30.2 cc by the burette: a nought behind the point says how it was read."""
    ran = typed("target", "compression_ratio=8.0", "--by", "chamber_volume", "--at", "as-bought", at=twin)
    assert "    cylinder 1: 29.39 ± " in ran.out
    assert "(now 30.0 cc)" in ran.out
    assert "(now 30.2 cc)" in ran.out
    rows = csv.DictReader(
        typed(
            "target", "compression_ratio=8.0", "--by", "chamber_volume", "--at", "as-bought", "--csv", at=twin
        ).out.splitlines()
    )
    assert [row["now"] for row in rows] == ["30.0 cc", "30.2 cc"]
