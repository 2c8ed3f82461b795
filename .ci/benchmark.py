"""Three comparisons, both sides in one run, ratios printed. Not a test: a busy machine must not fail anything.

.venv/bin/python .ci/benchmark.py
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import yaml

from logbook.logbook import Logbook
from logbook.quantity.uncertain import Uncertain
from logbook.specs import node

EXAMPLE = Path(__file__).resolve().parents[1] / "example_engine"


def seconds(run: Callable[[], object], times: int) -> float:
    """Median of several runs."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        run()
        taken.append(time.perf_counter() - begun)
    return statistics.median(taken)


def alternating(first: Callable[[], object], second: Callable[[], object], times: int) -> tuple[float, float]:
    """Medians of two runs taken in turns, so that a busy spell meets both."""
    pairs = [(seconds(first, 1), seconds(second, 1)) for _ in range(times)]
    return statistics.median(a for a, _ in pairs), statistics.median(b for _, b in pairs)


def start_up() -> None:
    """`logbook specs` on the example against importing what it is built on."""
    ours = [sys.executable, "-m", "logbook", "specs", "--in", str(EXAMPLE)]
    base = [sys.executable, "-c", "import pydantic, yaml, uncertainties, click"]
    for words, beside in (("imports alone    ", base), ("its models built ", [sys.executable, "-c", MODELS])):
        a, b = alternating(lambda: subprocess.run(ours, capture_output=True, check=True),
                           lambda: subprocess.run(beside, capture_output=True, check=True), 15)  # fmt: skip  # noqa: B023
        print(f"logbook specs               {a * 1000:7.0f} ms   {words} {b * 1000:7.0f} ms   ratio {a / b:.2f}")


#: The least that a command must do before it can read a word of a record.
MODELS = """import click, yaml
from logbook.record import entries, models
for each in (models.Engine, models.Part, entries.Measurement, entries.Change, entries.Test, entries.Note, entries.Plan):
    each.model_rebuild()
"""


def thousand_entries() -> None:
    """Reading a generated record of 1,000 entries and deriving now, against CSafeLoader on the same files."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        paths = write_record(root)
        ours = lambda: dict(Logbook.open(root).at("now").specs.items())  # noqa: E731
        loaded = lambda: [yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader) for path in paths]  # noqa: E731
        a, b = alternating(ours, loaded, 7)
    print(f"1,000 entries, now derived  {a * 1000:7.0f} ms   CSafeLoader alone {b * 1000:7.0f} ms   ratio {a / b:.2f}")


def write_record(root: Path) -> list[Path]:
    """The example engine's parts, and 1,000 dated entries of the size that people write."""
    for name in ("parts", "measurements", "changes", "tests"):
        (root / name).mkdir()
    for file in ("engine.yaml", *(f"parts/{part.name}" for part in (EXAMPLE / "parts").glob("*.yaml"))):
        (root / file).write_bytes((EXAMPLE / file).read_bytes())
    (root / "changes/2016-04-09-bought-running.yaml").write_bytes(
        (EXAMPLE / "changes/2016-04-09-bought-running.yaml").read_bytes()
    )
    for number in range(1000):
        day = f"20{17 + number // 336:02d}-{1 + number // 28 % 12:02d}-{1 + number % 28:02d}"
        (root / f"measurements/{day}-checked.yaml").write_text(MEASUREMENT.format(day=day, km=96500 + 10 * number))
    return sorted(root.rglob("*.yaml"))


MEASUREMENT = """\
date: {day}
reading: {km} km
by: owner
title: Checked in the yard
# a remark of the kind that people leave in their files
taken:
  - part: head-a
    with: burette-50
    values:
      chamber_volume: 36.2 / 36.0 / 36.4 / 36.1 cc
  - part: block-1
    with: bore gauge
    values: {{bore: 80.025 / 80.030 / 80.035 / 80.030 mm}}
  - with: dial indicator
    values:
      deck_clearance: 0.60 / 0.60 / 0.60 / 0.60 mm below
      crank_end_float: 0.14 mm
  - part: camshaft-1
    with: feeler
    values: {{valve_lash_inlet: 0.25 / 0.25 / 0.26 / 0.25 mm, valve_lash_exhaust: 0.30 / 0.30 / 0.31 / 0.30 mm}}
note: |
  Nothing leaks. The lash on the third inlet valve has opened a little since the last time;
  it is still inside what the card allows, so it stays as it is until the next oil change.
"""


def uncertainty() -> None:
    """All specs of the example with their uncertainty, against the same graph on plain floats."""
    book = Logbook.open(EXAMPLE)
    book.life  # noqa: B018  folded once, outside the timing

    def all_specs() -> object:
        return dict(book.at("now").specs.items())

    with_it = seconds(all_specs, 15)
    sure = node.propagate
    node.propagate = lambda function, arguments: Uncertain(
        function(**{name: plain(a) for name, a in arguments.items()})
    )
    plain_floats = seconds(all_specs, 15)
    node.propagate = sure
    print(f"all specs with uncertainty  {with_it * 1000:7.1f} ms   on plain floats   {plain_floats * 1000:7.1f} ms   "
          f"ratio {with_it / plain_floats:.2f}")  # fmt: skip


def plain(argument: object) -> object:
    return argument.nominal if isinstance(argument, Uncertain) else tuple(each.nominal for each in argument)


if __name__ == "__main__":
    start_up()
    thousand_entries()
    uncertainty()
