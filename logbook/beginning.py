"""How a logbook begins: engine.yaml with a table of usual instruments, the folders, git, and a first commit."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from shlex import quote

from logbook.errors import CannotWrite, LogbookError
from logbook.record.engine_checks import cylinders_fit_their_arrangement
from logbook.record.finding import WRONG, Finding
from logbook.record.read import read_record
from logbook.saving import save

ARRANGEMENTS = ("inline", "vee", "flat", "single")


@dataclass(frozen=True, slots=True)
class Answers:
    """What `new` asks; all as text, as it goes into engine.yaml."""

    name: str
    number: str | None
    cylinders: str
    arrangement: str
    counter: str
    show: str = "metric"
    words: str = "uk"


def begin(folder: Path, answers: Answers) -> tuple[Finding, ...]:
    """Make the folder and its first commit; the findings that forbid it, and then nothing was made."""
    from logbook.store.disk import make_folder
    from logbook.store.files import write_texts
    from logbook.store.git_write import create
    from logbook.store.identity import identity
    from logbook.store.repository import open_repository

    _refuse_occupied(folder)
    text = engine_text(answers)
    record = read_record({"engine.yaml": text})
    wrong = tuple(f for f in (*record.findings, *cylinders_fit_their_arrangement(record)) if f.level == WRONG)
    if wrong:
        return wrong
    create(folder)
    identity(open_repository(folder))  # who nobody knows is told so before there is a logbook
    for name in ("parts", "measurements", "changes", "tests", "plans", "notes", "files"):
        make_folder(folder / name)
    write_texts(folder, {"engine.yaml": text})
    _first_commit(folder, answers.name)
    return ()


def _refuse_occupied(folder: Path) -> None:
    """A logbook begins where none is and in none: a folder inside another's would be lost to the other."""
    if folder.exists() and not folder.is_dir():
        raise CannotWrite(f"{folder} is a file; name a new folder")
    if (folder / "engine.yaml").exists():
        raise CannotWrite(f"{folder} holds a logbook already; open it with: logbook specs --in {quote(str(folder))}")
    around = next((up for up in folder.resolve().parents if (up / "engine.yaml").exists()), None)
    if around:
        raise CannotWrite(f"{folder} lies inside the logbook {around}; name a folder outside it")


def _first_commit(folder: Path, name: str) -> None:
    try:
        save(folder, f"Begin the logbook of {name}")
    except LogbookError as error:
        raise CannotWrite(
            f"{error}. The logbook lies in {folder}, not saved yet. Then: logbook save --in {quote(str(folder))}"
        ) from error


def engine_text(answers: Answers) -> bytes:
    """engine.yaml: what was answered, what is still to be answered as comments, and the instruments of the trade."""
    counter = "hour meter" if answers.counter == "h" else "odometer"
    lines = [
        "format: 1",
        f"name: {_quoted(answers.name)}",
        f"engine_number: {_quoted(answers.number)}" if answers.number else "# engine_number: as it is stamped",
        f"cylinders: {answers.cylinders}",
        f"arrangement: {answers.arrangement}",
        *_banks(answers),
        "# numbering: 1 at the end opposite the flywheel      # printed beside every figure by cylinder",
        *_firing_order(answers),
        "# valves_per_cylinder: 1+1                           # inlet + exhaust",
        "# camshafts: overhead                                # or: in the block",
        "cycle: four-stroke",
        "ignition: spark                                      # or: compression",
        "counters:",
        f"  {counter}: {answers.counter}",
        "crevice: left out                                    # or: counted, the top land above the first ring",
        f"show: {answers.show}",
        f"words: {answers.words}",
    ]
    return ("\n".join(lines) + "\n" + _INSTRUMENTS + _EACH[answers.show]).encode()


def _banks(answers: Answers) -> Iterator[str]:
    """As they are taken where nothing else is said, and the angle between them."""
    if answers.arrangement == "vee":
        yield f"# bank_angle: {'60' if answers.cylinders == '6' else '90'} deg"
    if answers.arrangement in ("vee", "flat"):
        odd, even = ("-".join(map(str, range(first, int(answers.cylinders) + 1, 2))) for first in (1, 2))
        yield f"# banks: {{1: {odd}, 2: {even}}}".ljust(_REMARKS) + " # left as it is: odd and even"


def _firing_order(answers: Answers) -> tuple[str, ...]:
    """A common one as a comment; none where there is none to be called so."""
    usual = _FIRING.get((answers.arrangement, answers.cylinders))
    if not usual:
        return ("# firing_order: each cylinder once, with - between",) if answers.cylinders != "1" else ()
    return (f"# firing_order: {usual}".ljust(_REMARKS) + " # a common one; see the maker's manual",)


def _quoted(text: str) -> str:
    """In double quotes, which YAML reads as JSON writes them."""
    return json.dumps(text, ensure_ascii=False)


_REMARKS = 52

#: Firing orders that most engines of that sort have, with odd numbers on the first bank; common practice, no source.
#: A vee of eight or a flat six has several.
_FIRING = {
    ("inline", "2"): "1-2",
    ("inline", "3"): "1-3-2",
    ("inline", "4"): "1-3-4-2",
    ("inline", "5"): "1-2-4-5-3",
    ("inline", "6"): "1-5-3-6-2-4",
    ("vee", "2"): "1-2",
    ("vee", "6"): "1-2-3-4-5-6",
    ("flat", "2"): "1-2",
    ("flat", "4"): "1-3-2-4",
}

#: Realistic expanded uncertainties (k = 2) of a careful user in a small workshop. Common practice and from memory; the
#: certificate of the instrument comes first.
_INSTRUMENTS = """
# Your instruments. Each error is expanded (k = 2): `each` is the scatter of one reading in use, `common` one error of
# all readings with it, `day` one error of all readings of a day. These are usual figures for a careful user; put your
# own in, and delete what you do not have.
instruments:
"""
_EACH = {
    "metric": """\
  burette-50: {what: 50 ml burette with a clear plate, each: 0.20 ml, common: 0.05 ml}
  micrometer: {what: outside micrometer 0.01 mm, each: 0.005 mm}
  bore gauge: {what: two-point bore gauge set to a micrometer, each: 0.005 mm, common: 0.005 mm}
  caliper: {what: caliper 0.02 mm, each: 0.05 mm}
  depth gauge: {what: depth micrometer, each: 0.02 mm, common: 0.01 mm}
  dial indicator: {what: dial indicator 0.01 mm on a bridge, each: 0.02 mm}
  feeler: {what: feeler blades, each: 0.02 mm}
  degree wheel: {what: 280 mm degree wheel with a positive stop, each: 0.5 deg, day: 0.5 deg}
  compression gauge: {what: compression gauge, each: 0.3 bar gauge}
""",
    "imperial": """\
  burette-50: {what: 50 ml burette with a clear plate, each: 0.20 ml, common: 0.05 ml}
  micrometer: {what: outside micrometer 0.0001 in, each: 0.0002 in}
  bore gauge: {what: two-point bore gauge set to a micrometer, each: 0.0002 in, common: 0.0002 in}
  caliper: {what: caliper 0.001 in, each: 0.002 in}
  depth gauge: {what: depth micrometer, each: 0.001 in, common: 0.0005 in}
  dial indicator: {what: dial indicator 0.0005 in on a bridge, each: 0.001 in}
  feeler: {what: feeler blades, each: 0.001 in}
  degree wheel: {what: 11 in degree wheel with a positive stop, each: 0.5 deg, day: 0.5 deg}
  compression gauge: {what: compression gauge, each: 4 psi gauge}
""",
}
