"""The example engine as a real logbook: its invented life replayed, commit by commit, each dated as it was lived.

The only place that sets past dates; engine.yaml says that it is a demonstration, and so does every document made of it.
What each entry cost goes into private/ as it is spent, a repository of its own there as everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from logbook.errors import CannotWrite
from logbook.saving import save

#: The evening of the day on which each commit was made.
_HOUR = 19

#: Date, subject, files: what the owner wrote down together.
# fmt: off
LIFE: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("2016-04-09", "Bought running, still in the lorry", (
        "engine.yaml", "files/engine.svg", "parts/block-1.yaml", "parts/crankshaft-1.yaml", "parts/rods-1.yaml",
        "parts/main-shells-1.yaml", "parts/big-end-shells-1.yaml", "parts/pistons-1.yaml", "parts/rings-1.yaml",
        "parts/gasket-1.yaml", "parts/head-a.yaml", "parts/camshaft-1.yaml", "parts/camshaft-1-lift.csv",
        "parts/springs-1.yaml", "parts/carburettors.yaml", "parts/distributor.yaml",
        "changes/2016-04-09-bought-running.yaml",
        "tests/2016-04-09-compression-dry.yaml", "tests/2016-04-09-compression-with-oil.yaml",
        "tests/2016-04-09-leak-down.yaml", "notes/2016-04-09-the-sellers-ratio.yaml",
        "notes/2016-04-09-handbook-speed-limit.yaml")),
    ("2016-05-21", "Baseline on the dynamometer, tune 1", (
        "changes/2016-05-21-tune-1.yaml", "files/tune-1-ignition.csv", "tests/2016-05-21-baseline.yaml",
        "tests/2016-05-21-baseline.csv")),
    ("2016-06-04", "Spares for later: head B, a camshaft, pistons", (
        "parts/head-b.yaml", "parts/camshaft-2.yaml", "parts/camshaft-2-lift.csv", "parts/springs-2.yaml",
        "parts/pistons-2.yaml",
        "parts/rings-2.yaml", "changes/2016-06-04-spares-bought.yaml",
        "measurements/2016-06-04-head-b-as-found.yaml")),
    ("2017-02-11", "Engine out, measured and stripped", (
        "measurements/2017-02-11-as-found.yaml", "changes/2017-02-11-engine-out-and-stripped.yaml")),
    ("2017-02-18", "Plan for 0.50 oversize pistons, withdrawn: over the class limit", (
        "parts/pistons-3.yaml", "plans/half-millimetre-pistons.yaml")),
    ("2017-03-04", "Block bored and decked, crank polished, seats recut", (
        "changes/2017-03-04-machining.yaml", "measurements/2017-03-04-after-machining.yaml",
        "tests/2017-03-04-head-a-flow.yaml", "tests/2017-03-04-head-a-flow.csv")),
    ("2017-04-08", "Assembled with the raised pistons, first start", (
        "parts/main-shells-2.yaml", "parts/big-end-shells-2.yaml", "changes/2017-04-02-assembled.yaml",
        "measurements/2017-04-02-assembly-sheet.yaml", "changes/2017-04-08-first-start.yaml")),
    ("2017-04-22", "First 520 km: more pressure than the figures allow", (
        "changes/2017-04-22-first-service.yaml", "tests/2017-04-22-compression.yaml",
        "tests/2017-04-22-leak-down.yaml", "notes/2017-04-22-more-pressure-than-expected.yaml")),
    ("2017-05-01", "The sign was wrong: 10.8, not 9.8; tune 2", (
        "measurements/2017-05-01-spare-piston.yaml", "changes/2017-05-01-crown-corrected.yaml",
        "files/tune-2-ignition.csv")),
    ("2017-09-16", "The speedometer head was replaced", (
        "changes/2017-09-16-new-speedometer.yaml",)),
    ("2018-03-10", "Out of the lorry and into the hillclimb car", (
        "changes/2018-03-10-into-the-hillclimb-car.yaml",)),
    ("2018-03-31", "Head B milled and fitted with the long camshaft; tune 3", (
        "parts/gasket-2.yaml", "parts/mapped-ignition.yaml", "changes/2018-03-17-head-b-milled.yaml",
        "measurements/2018-03-17-head-b-after-milling.yaml", "tests/2018-03-17-head-b-flow.yaml",
        "tests/2018-03-17-head-b-flow.csv", "measurements/2018-03-24-head-a-off.yaml",
        "changes/2018-03-24-head-b-and-long-camshaft.yaml", "measurements/2018-03-24-timing-on-the-marks.yaml",
        "changes/2018-03-24-camshaft-timed.yaml", "changes/2018-03-31-mapped-ignition.yaml",
        "files/tune-3-ignition.csv")),
    ("2018-04-14", "Tune 4 on the dynamometer, compression", (
        "changes/2018-04-14-tune-4.yaml", "files/tune-4-ignition.csv", "tests/2018-04-14-donor-head.yaml",
        "tests/2018-04-14-donor-head.csv", "tests/2018-04-14-compression.yaml")),
    ("2019-03-23", "Head C on; tune 5 on the dynamometer", (
        "parts/head-c.yaml", "changes/2019-02-09-head-c-seats.yaml", "measurements/2019-02-09-head-c.yaml",
        "tests/2019-02-09-head-c-flow.yaml", "tests/2019-02-09-head-c-flow.csv",
        "changes/2019-02-16-head-c-on.yaml", "measurements/2019-02-16-head-c-clearances.yaml",
        "changes/2019-03-23-tune-5.yaml", "files/tune-5-ignition.csv", "tests/2019-03-23-third-head.yaml",
        "tests/2019-03-23-third-head.csv")),
    ("2019-10-05", "End of season: compression, leak-down, oil; springs over their life", (
        "tests/2019-10-05-compression.yaml", "tests/2019-10-05-leak-down.yaml",
        "tests/2019-10-05-oil-analysis.yaml", "changes/2019-10-05-end-of-season.yaml",
        "notes/2019-10-05-valve-springs-over-their-life.yaml")),
    ("2020-03-07", "Sold, with everything that is known about it", (
        "changes/2020-03-07-sold.yaml",)),
)
# fmt: on


def demo(folder: Path) -> Iterator[str]:
    """Write the example into a new folder; a line for each commit. Raises CannotWrite if the folder holds files."""
    from logbook.store.files import write_texts
    from logbook.store.git_write import create
    from logbook.store.introduce import introduce
    from logbook.store.private import COSTS, write_costs
    from logbook.store.repository import find_repository
    from logbook.store.shipped import example_files

    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise CannotWrite(f"{folder} is not an empty folder; name a new one")
    around = find_repository(folder)
    if around:  # its commits carry past dates: they must not mix with anybody's own
        raise CannotWrite(f"{folder} lies in the git repository {around.root}; name a folder outside it")
    files = example_files()
    create(folder)
    introduce(folder, "owner (demonstration)", "owner@example.invalid")
    write_texts(folder, {"engine.yaml": files["engine.yaml"]})
    written: set[str] = set()
    for day, subject, paths in LIFE:
        written.update(paths)
        write_costs(folder, _costs_of(written, files[COSTS]))
        saved = save(folder, subject, new={path: files[path] for path in paths}, date=_evening(day))
        yield f"{day}  {saved.commit[:10] if saved.commit else ''}  {subject}"


def _costs_of(written: set[str], costs: bytes) -> bytes:
    """The lines of private/costs.csv for the entries that are written down by now, below its head."""
    head, *lines = costs.splitlines(keepends=True)
    return head + b"".join(line for line in lines if f"{line.decode().partition(',')[0]}.yaml" in written)


def _evening(day: str) -> datetime:
    return datetime.fromisoformat(day).replace(hour=_HOUR, tzinfo=UTC)
