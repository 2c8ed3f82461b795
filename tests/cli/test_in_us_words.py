"""Words and units of an owner in US usage who reads in inches: nothing of ours in the other, what he typed as typed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from keyboard import typed

_UK = re.compile(r"squish|joint face|combustion chamber|engine capacity|inlet|\bmm\b")


@pytest.fixture
def imperial(own: Path) -> Path:
    """The twin with an owner who reads so, head B milled once, and a camshaft."""
    with (own / "engine.yaml").open("a") as file:
        file.write("show: imperial\nwords: us\n")
    (own / "parts/camshaft-1.yaml").write_text("kind: camshaft\nwhat: standard\n")
    (own / "changes/2024-03-03-milled.yaml").write_text("""\
date: 2024-03-03
title: Head milled, camshaft in
work:
  - {fit: camshaft-1, found: yes}
  - {rework: head-b, operation: surface milled, depth: 0.010 in}
""")
    (own / "measurements/2024-03-04-timing.yaml").write_text("""\
date: 2024-03-04
at_lift: 0.050 in
values: {inlet_closes: 40 deg after BDC}
""")
    return own


@pytest.mark.parametrize(
    "words",
    ["specs", "timeline", "timeline --all", "timeline --part head-b", "check", "compare start", "explain displacement",
     "target compression_ratio=9 --by surface_milled", "combine cylinder_head=head-a,head-b"],
)  # fmt: skip
def test_nothing_of_ours_is_in_the_other_usage(imperial: Path, words: str) -> None:
    ran = typed(*words.split(), at=imperial)
    assert ran.status in (0, 1)
    assert ran.out
    ours = [line for line in ran.out.splitlines() if "choose: …" not in line and "parts/gasket" not in line]
    assert not [line for line in ours if _UK.search(line)], ran.out


def test_what_was_typed_stands_as_typed_and_what_follows_in_inches(imperial: Path) -> None:
    told = typed("timeline", "--part", "head-b", at=imperial).out
    assert "surface milled 0.010 in" in told
    assert "chamber volume 26.0 / 26.1 cc, with burette" in told
    assert "Off its deck face came at least 0.01 in." in told
    assert "at lift 0.05 in" in " ".join(typed("specs", at=imperial).out.split())
