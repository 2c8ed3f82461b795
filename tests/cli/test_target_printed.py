"""What `target` prints of what is there now."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
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


@pytest.mark.parametrize("by", ["surface_milled", "chamber_volume"])
def test_a_depth_says_what_it_takes_for_granted(twin: Path, by: str) -> None:
    """Nobody shall cut metal by an opening that was never measured without knowing it; measured, nothing is said."""
    words = ("target", "compression_ratio=8.3", "--by", by, "--at", "as-bought")
    taken = "is taken as 0.93 ± 0.15 of the bore's area: measure chamber_opening before cutting"
    ran = typed(*words, at=twin)
    assert ran.status == 0
    assert taken in " ".join(ran.out.split())
    ran = typed(*words, "--suppose", "chamber_opening={all: 42 cm2}", at=twin)
    assert ran.status == 0
    assert taken not in " ".join(ran.out.split())
