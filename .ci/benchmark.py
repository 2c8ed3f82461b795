"""Comparisons, both sides in one run, ratios printed. Not a test: a busy machine must not fail anything.

.venv/bin/python .ci/benchmark.py
"""

from __future__ import annotations

import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import yaml

from logbook.judge.combine import SPECS
from logbook.logbook import Logbook
from logbook.quantity import value
from logbook.quantity.uncertain import Uncertain
from logbook.record import facts
from logbook.specs import node
from logbook.specs.configuration import Configuration
from logbook.specs.index import ALL_SPECS

EXAMPLE = Path(__file__).resolve().parents[1] / "example_engine"


def seconds(run: Callable[[], object], times: int) -> float:
    """Median of several runs."""
    taken = []
    for _ in range(times):
        forget()
        begun = time.perf_counter()
        run()
        taken.append(time.perf_counter() - begun)
    return statistics.median(taken)


def forget() -> None:
    """What was worked out or read in an earlier run counts for nothing in the next one."""
    node.forget()
    facts._line.cache_clear()
    value._plain_figure.cache_clear()


def alternating(first: Callable[[], object], second: Callable[[], object], times: int) -> tuple[float, float]:
    """Medians of two runs taken in turns, so that a busy spell meets both."""
    pairs = [(seconds(first, 1), seconds(second, 1)) for _ in range(times)]
    return statistics.median(a for a, _ in pairs), statistics.median(b for _, b in pairs)


def start_up() -> None:
    """`logbook specs` on the example against importing what it is built on: of a record that was read before, and of
    one that never was."""
    ours = [sys.executable, "-m", "logbook", "specs", "--in", str(EXAMPLE)]
    base = [sys.executable, "-c", "import pydantic, yaml, uncertainties, click"]
    with tempfile.TemporaryDirectory() as cache:
        environment = {**os.environ, "XDG_CACHE_HOME": cache}

        def again() -> None:
            subprocess.run(ours, env=environment, capture_output=True, check=True)

        def anew() -> None:
            shutil.rmtree(Path(cache) / "engine-logbook", ignore_errors=True)
            again()

        for run, words, beside, to in (
            (again, "           ", base, "imports alone    "),
            (anew, ", first time", base, "imports alone    "),
            (anew, ", first time", [sys.executable, "-c", MODELS], "its models built "),
        ):
            run()
            a, b = alternating(run, lambda: subprocess.run(beside, capture_output=True, check=True), 15)  # noqa: B023
            print(f"logbook specs{words:12}   {a * 1000:7.0f} ms   {to} {b * 1000:7.0f} ms   ratio {a / b:.2f}")


#: The least that a command must do before it can read a word of a record.
MODELS = """import click
from logbook.record import entries, models
from logbook.record.validating import reader
for each in (models.Engine, models.Part, entries.Measurement, entries.Change, entries.Test, entries.Note, entries.Plan):
    reader(each)
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


def thousand_told() -> None:
    """The timeline of the same record, what each entry did to every spec, against deriving now once."""
    with tempfile.TemporaryDirectory() as folder:
        write_record(Path(folder))
        many = of_fresh(folder, lambda book: list(book.timeline()), 1)
        once = of_fresh(folder, lambda book: asked(book.at("now"), tuple(ALL_SPECS)), 5)
    print(f"1,000 entries told          {many * 1000:7.0f} ms   now derived once  {once * 1000:7.1f} ms   "
          f"ratio {many / once:.0f}")  # fmt: skip


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
        text = MEASUREMENT.format(day=day, km=96500 + 10 * number, **readings(number))
        (root / f"measurements/{day}-checked.yaml").write_text(text)
    return sorted(root.rglob("*.yaml"))


def readings(number: int) -> dict[str, str]:
    """What was read on one day: other last digits than on any other, always the same for the same number."""
    drawn = random.Random(number)
    return {
        name: " / ".join(f"{drawn.uniform(low, high):.{digits}f}" for _ in range(positions))
        for name, (low, high, digits, positions) in READINGS.items()
    }


#: Between which bounds, with how many decimals, at how many positions.
READINGS = {
    "chamber": (35.5, 36.9, 1, 4),
    "bore": (80.02, 80.06, 3, 4),
    "deck": (0.5, 0.7, 2, 4),
    "end_float": (0.1, 0.2, 3, 1),
    "inlet_lash": (0.2, 0.3, 2, 4),
    "exhaust_lash": (0.25, 0.35, 2, 4),
}


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
      chamber_volume: {chamber} cc
  - part: block-1
    with: bore gauge
    values: {{bore: {bore} mm}}
  - with: dial indicator
    values:
      deck_clearance: {deck} mm below
      crank_end_float: {end_float} mm
  - part: camshaft-1
    with: feeler
    values: {{valve_lash_inlet: {inlet_lash} mm, valve_lash_exhaust: {exhaust_lash} mm}}
note: |
  Nothing leaks. The lash on the third inlet valve has opened a little since the last time;
  it is still inside what the card allows, so it stays as it is until the next oil change.
"""


def fresh(folder: Path | str) -> Logbook:
    """A record just read, and folded outside the timing."""
    book = Logbook.open(folder)
    book.life  # noqa: B018
    return book


def of_fresh(folder: Path | str, run: Callable[[Logbook], object], times: int) -> float:
    """Median of several runs, each on a record just read: what an earlier run looked up counts for nothing."""
    taken = []
    for _ in range(times):
        book = fresh(folder)
        taken.append(seconds(lambda: run(book), 1))  # noqa: B023
    return statistics.median(taken)


def uncertainty() -> None:
    """All specs of the example with their uncertainty, against the same graph on plain floats."""

    def all_specs(book: Logbook) -> object:
        return dict(book.at("now").specs.items())

    with_it = of_fresh(EXAMPLE, all_specs, 15)
    plain_floats = on_plain_floats(lambda: of_fresh(EXAMPLE, all_specs, 15))
    print(f"all specs with uncertainty  {with_it * 1000:7.1f} ms   on plain floats   {plain_floats * 1000:7.1f} ms   "
          f"ratio {with_it / plain_floats:.2f}")  # fmt: skip


def on_plain_floats(timed: Callable[[], float]) -> float:
    """The same, with formulas that carry no uncertainty."""
    sure = node.propagate
    node.propagate = lambda function, arguments: Uncertain(
        function(**{name: plain(a) for name, a in arguments.items()})
    )
    taken = timed()
    node.propagate = sure
    return taken


def plain(argument: object) -> object:
    return argument.nominal if isinstance(argument, Uncertain) else tuple(each.nominal for each in argument)


def eight_cylinders() -> None:
    """All specs of a vee of eight with uncertainty, and those that need an integral or a search one by one."""
    with tempfile.TemporaryDirectory() as folder:
        for file, text in EIGHT.items():
            (Path(folder) / file).parent.mkdir(exist_ok=True)
            (Path(folder) / file).write_text(text)
        quick = [name for name in ALL_SPECS if name not in SLOW]
        with_it = of_fresh(folder, lambda book: asked(book.at("now"), quick), 7)
        plain_floats = on_plain_floats(lambda: of_fresh(folder, lambda book: asked(book.at("now"), quick), 7))
        book = fresh(folder)
        at = book.at("now")
        known = sum(bool(at.specs[name].known) for name in quick)
        print(f"vee of eight, {known:3} specs known {with_it * 1000:5.1f} ms   on plain floats   "
              f"{plain_floats * 1000:7.1f} ms   ratio {with_it / plain_floats:.2f}")  # fmt: skip
        for name in SLOW:
            at = book.at("now")
            asked(at, quick)
            taken = seconds(lambda: asked(at, [name]), 1)  # noqa: B023
            print(f"  and {name:30} {taken * 1000:7.1f} ms" + ("" if at.specs[name].known else "   (not known)"))


def asked(at: Configuration, names: Sequence[str]) -> object:
    return [at.specs[name] for name in names]


def combinations() -> None:
    """1,000 combinations beside one configuration, and a comparison beside deriving both of its points."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(EXAMPLE, folder, dirs_exist_ok=True)
        parts = write_shelf(Path(folder))
        many = of_fresh(folder, lambda book: [asked(each.at, SPECS) for each in book.combine(parts)], 3)
        for words, names in (("its four specs   ", SPECS), ("all of its specs ", tuple(ALL_SPECS))):
            one = of_fresh(folder, lambda book: asked(book.at("now"), names), 15)  # noqa: B023
            print(f"1,000 combinations          {many * 1000:7.0f} ms   {words} {one * 1000:7.2f} ms   "
                  f"ratio {many / one:.0f}")  # fmt: skip
    both = lambda book: [asked(book.at(point), tuple(ALL_SPECS)) for point in ("as-bought", "now")]  # noqa: E731
    a = of_fresh(EXAMPLE, lambda book: book.compare("as-bought", "now"), 7)
    b = of_fresh(EXAMPLE, both, 7)
    print(f"two points compared         {a * 1000:7.1f} ms   both derived      {b * 1000:7.1f} ms   ratio {a / b:.2f}")


def write_shelf(root: Path) -> dict[str, list[str]]:
    """Ten heads, ten sets of pistons and ten gaskets, no two alike."""
    values = {"cylinder_head": "chamber_volume: {{all: 3{}.0 cc}}",
              "pistons": "dish_volume: {{all: {}.2 cc}}\n      compression_height: {{all: 33.{} mm}}",
              "head_gasket": "gasket_thickness: 1.{} mm\n      gasket_opening: 5{}.3 cm2"}  # fmt: skip
    for kind, text in values.items():
        for number in range(10):
            (root / f"parts/{kind}-of-ten-{number}.yaml").write_text(
                f"kind: {kind}\nwhat: invented\nfacts:\n  - basis: published\n    source: card\n    values:\n"
                f"      {text.format(number, number)}\n"
            )
    return {kind: [f"{kind}-of-ten-{number}" for number in range(10)] for kind in values}


#: Each needs an integral or a search over the cycle.
SLOW = tuple(name for name in ALL_SPECS if name.startswith("valve_to_piston_"))

#: Invented figures of a vee of eight.
EIGHT = {
    "engine.yaml": "format: 1\nname: Vee\ncylinders: 8\narrangement: vee\nmain_bearings: 5\ncamshafts: in the block\n"
    "counters: {odometer: km}\ninstruments:\n  gauge: {what: a gauge, each: 0.2 %}\n",
    **{f"parts/{kind}-{number}.yaml": f"kind: {kind}\nwhat: invented\n"
       for kind, many in {"block": 1, "crankshaft": 1, "connecting_rods": 1, "pistons": 1, "camshaft": 1,
                          "cylinder_head": 2, "head_gasket": 2}.items() for number in range(1, many + 1)},
    "changes/2020-01-01-assembled.yaml": "date: 2020-01-01\nreading: 1 km\ntitle: Assembled\nbuild: first\nwork:\n"
    "  - fit: block-1\n  - fit: crankshaft-1\n  - fit: connecting_rods-1\n  - fit: pistons-1\n  - fit: camshaft-1\n"
    + "".join(f"  - {{fit: {kind}-{bank}, at: bank {bank}}}\n"
              for kind in ("head_gasket", "cylinder_head") for bank in (1, 2)),
    "parts/camshaft-1.yaml": "kind: camshaft\nwhat: invented\n"
    "facts:\n  - {basis: published, source: card, tables: {inlet_lift: lift.csv, exhaust_lift: lift.csv}}\n",
    "parts/lift.csv": "from_lobe_centre deg,inlet_lift mm,exhaust_lift mm\n"
    + "".join(f"{turn},{lift},{lift}\n" for turn in range(-140, 141, 5)
              for lift in (round(11 * (1 - (turn / 140) ** 2) ** 2, 3),)),
    "measurements/2020-01-02-sheet.yaml": "date: 2020-01-02\nreading: 1 km\ntitle: Sheet\ntaken:\n"
    "  - with: gauge\n    values:\n      stroke: 88.4 mm\n"
    "      bore: {all: 101.6 mm}\n      rod_length: {all: 144.8 mm}\n      chamber_volume: {all: 64 cc}\n"
    "      valve_room_inlet: {all: 4.8 mm}\n      valve_room_exhaust: {all: 5 mm}\n"
    "      inlet_valve_tilt: 20 deg\n      exhaust_valve_tilt: 20 deg\n      dish_volume: {all: 5 cc}\n"
    "      gasket_bore: {all: 103 mm}\n      gasket_thickness: {all: 1.0 mm}\n"
    "      deck_clearance: {all: 0.3 mm below}\n      inlet_valve_lift: {all: 11 mm}\n"
    "  - with: gauge\n    at_lift: 0.10 mm\n    values:\n"
    "      inlet_lobe_centre: 110 deg\n      exhaust_lobe_centre: 110 deg\n"
    "      inlet_opens: 28 deg before TDC\n"
    "      inlet_closes: 68 deg after BDC\n      exhaust_opens: 62 deg before BDC\n"
    "      exhaust_closes: 34 deg after TDC\n",
}  # fmt: skip


if __name__ == "__main__":
    start_up()
    thousand_entries()
    thousand_told()
    uncertainty()
    eight_cylinders()
    combinations()
