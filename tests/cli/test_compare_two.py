"""Two engines side by side at the keyboard: whose each part, figure and column is, and no row of what neither has."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from keyboard import typed
from lives import Life

VEE = "firing_order: 1-2-3-4-5-6\n"


@pytest.fixture
def vee(tmp_path: Path) -> Path:
    """A vee of six that shares a part's name with the twin, with unlike chambers in its two heads."""
    life = Life(6, "vee", more=VEE).part("head-a", "cylinder_head").part("right", "cylinder_head")
    life.part("block", "block", bore="{all: 82 mm}").part("crank", "crankshaft", stroke="80 mm")
    life.work("2024-01-01", "fit: head-a, at: bank 1", "fit: right, at: bank 2", "fit: block", "fit: crank")
    life.measure("2024-01-02", "head-a", using="fine", chamber_volume="36.0 / 36.2 / 36.4 cc")
    life.measure("2024-01-02", "right", using="fine", chamber_volume="37.0 / 37.2 / 37.4 cc")
    for name, text in life.texts.items():
        (tmp_path / "vee" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "vee" / name).write_text(text, encoding="utf-8")
    return tmp_path / "vee"


def test_each_side_is_named_for_its_engine(twin: Path, vee: Path) -> None:
    out = typed("compare", "as-bought", "now", "--with", str(vee), at=twin).out
    assert out.startswith("A: Garden twin, as-bought\nB: Quarry engine, now\n")
    assert "  cylinder head    A: head-a → B: head-a, right\n" in out
    assert "\nSpecs, A → B\n" in out
    assert max(map(len, out.splitlines())) <= 80
    head = typed("compare", "now", "now", "--with", str(vee), "--csv", at=twin).out.splitlines()[0]
    assert head.startswith('spec,position,"A: Garden twin, now","B: Quarry engine, now",')
    engines = json.loads(typed("compare", "now", "now", "--with", str(vee), "--json", at=twin).out)["engines"]
    assert engines == {"from": "Garden twin", "to": "Quarry engine"}


def test_the_figures_of_two_heads_say_of_which_cylinders_they_are(twin: Path, vee: Path) -> None:
    out = " ".join(typed("compare", "as-bought", "now", "--with", str(vee), at=twin).out.split())
    left, right = "36.0 / 36.2 / 36.4 cc of cylinders 1, 3 and 5", "37.0 / 37.2 / 37.4 cc of cylinders 2, 4 and 6"
    assert f"A: 30.0 / 30.2 cc → B: {left}; {right}" in out


def test_a_cylinder_of_one_engine_only_is_said_to_be_that(twin: Path, vee: Path) -> None:
    rows = typed("compare", "as-bought", "now", "--with", str(vee), at=twin).out.splitlines()
    start = rows.index("  swept volume, cc")
    third = rows[start + 3].split()
    assert (third[:3], third[-2:]) == (["3", "none", "→"], ["B", "only"])
    assert not [
        row for row in rows if row.split()[:4] in (["3", "unknown", "→", "unknown"], ["3", "none", "→", "none"])
    ]
    lobes = json.loads(typed("compare", "now", "now", "--with", str(vee), "--json", at=twin).out)["specs"]
    assert lobes["compression_ratio"]["positions"] == ["1", "2"], "of the others no engine has a ratio"
