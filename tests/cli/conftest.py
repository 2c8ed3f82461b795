"""A garden twin: the smallest engine whose specs differ by cylinder, in figures that a pencil can follow.

Bore 80, stroke 60: 301.6 cc a cylinder. Above each piston 30 cc of chamber, 6.18 cc of gasket (81 mm by 1.2), 2.51 cc
of deck (0.5 mm below) and 5 cc of dish: 43.7 cc, so 7.90 to 1. Head B has chambers of 26 cc, so 8.60 to 1.

The gauge is good for 0.010 mm: 0.075 cc of a cylinder's bore and 0.050 cc of the one stroke, 0.091 cc together; of the
engine, whose cylinders share the stroke, 0.15 cc. Two burette readings differ by 0.28 cc or it is within their error.
"""

from __future__ import annotations

import shutil
from datetime import datetime
from pathlib import Path

import pytest
from keyboard import at_home, git

from logbook.saving import save
from logbook.store.files import write_texts
from logbook.store.git_write import create

ENGINE = """\
format: 1
name: Garden twin
engine_number: GT-7
cylinders: 2
arrangement: inline
counters: {hour meter: h}
instruments:
  burette: {what: 50 ml burette, each: 0.20 ml}
  bore gauge: {what: bore gauge, each: 0.010 mm}
"""

FILES = {
    "engine.yaml": ENGINE,
    "parts/block-1.yaml": "kind: block\nwhat: cast iron\n",
    "parts/crankshaft-1.yaml": "kind: crankshaft\nwhat: forged\n",
    "parts/rods-1.yaml": "kind: connecting_rods\nwhat: forged\n",
    "parts/pistons-1.yaml": "kind: pistons\nwhat: dished\n",
    "parts/head-a.yaml": "kind: cylinder_head\nwhat: the first head\n",
    "parts/head-b.yaml": "kind: cylinder_head\nwhat: a spare head\n",
    "parts/gasket-1.yaml": """\
kind: head_gasket
what: composite
facts:
  - basis: published
    source: maker's sheet
    values: {gasket_bore: 81.0 mm, gasket_thickness: 1.20 mm}
""",
    "changes/2024-01-06-bought.yaml": """\
date: 2024-01-06
reading: 100 h
title: Bought
build: as-bought
work:
  - {fit: block-1, found: yes}
  - {fit: crankshaft-1, found: yes}
  - {fit: rods-1, found: yes}
  - {fit: pistons-1, found: yes}
  - {fit: head-a, found: yes}
  - {fit: gasket-1, found: yes}
""",
    "measurements/2024-01-13-on-the-bench.yaml": """\
date: 2024-01-13
reading: 100 h
title: On the bench
taken:
  - {part: block-1, with: bore gauge, values: {bore: 80.00 / 80.01 mm}}
  - {part: crankshaft-1, with: bore gauge, values: {stroke: 60.00 mm}}
  - {part: pistons-1, with: burette, values: {dish_volume: 5.0 / 5.0 cc}}
  - {part: head-a, with: burette, values: {chamber_volume: 30.0 / 30.2 cc}}
  - {part: head-b, with: burette, values: {chamber_volume: 26.0 / 26.1 cc}}
  - values: {deck_clearance: 0.50 / 0.50 ± 0.02 mm below}
""",
    "changes/2024-03-02-head-b-on.yaml": """\
date: 2024-03-02
reading: 120 h
title: Head B on
build: head-b-on
work:
  - fit: head-b
  - set: {main_jet: 115}
""",
}


@pytest.fixture(autouse=True)
def _home(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    at_home(monkeypatch, tmp_path_factory.mktemp("home"))


@pytest.fixture(scope="session")
def twin(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden twin, each entry saved on its day; to be read only."""
    folder = tmp_path_factory.mktemp("garden") / "twin"
    with pytest.MonkeyPatch.context() as patch:
        at_home(patch, tmp_path_factory.mktemp("home"))
        create(folder)
        write_texts(folder, {"engine.yaml": ENGINE.encode()})
        bought = [path for path in FILES if path.startswith("parts/")] + ["changes/2024-01-06-bought.yaml"]
        for paths in (bought, ["measurements/2024-01-13-on-the-bench.yaml"], ["changes/2024-03-02-head-b-on.yaml"]):
            evening = datetime.fromisoformat(f"{paths[-1].partition('/')[2][:10]}T19:00:00+00:00")
            save(folder, new={path: FILES[path].encode() for path in paths}, date=evening)
        git(folder, "remote", "add", "backup", "elsewhere")  # or `check` would advise a second copy
    return folder


@pytest.fixture
def own(twin: Path, tmp_path: Path) -> Path:
    """A copy of the twin to write in."""
    return Path(shutil.copytree(twin, tmp_path / "twin"))
