"""Facts: the figures of a file, read by the catalogue.

In: the `values` of a part, a measurement, a step, a test or a note, as texts. Out: facts that know their quantity,
their positions, what they rest on and where they stand; and findings for what cannot be so.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from math import hypot, sqrt
from typing import Any, NamedTuple

from logbook.quantity.catalogue import Quantity, catalogue, nearest
from logbook.quantity.curve import Curve
from logbook.quantity.value import Line, Position, Stated, ValueProblem, outside_range, parse_line
from logbook.record.finding import DOUBTFUL, WRONG, Path
from logbook.record.lift_tables import LIFTS
from logbook.record.when import When

MEASURED, PREDICTED, PUBLISHED, INFERRED, HEARSAY, ASSUMED = (
    "measured",
    "predicted",
    "published",
    "inferred",
    "hearsay",
    "assumed",
)
#: From the strongest to the weakest.
BASES = (MEASURED, PREDICTED, PUBLISHED, INFERRED, HEARSAY, ASSUMED)


class Statement(NamedTuple):
    """Who says it and how: what all figures of one `values` share. A tuple: a record makes thousands of them."""

    file: str
    path: Path
    basis: str = MEASURED
    entry: int | None = None  # None: stated in a part's file, without a place in time
    step: int = 0
    part: str | None = None
    when: When | None = None
    instrument: str | None = None
    by: str | None = None
    source: str | None = None
    qualifiers: tuple[tuple[str, str], ...] = ()
    stated_for: tuple[tuple[str, str], ...] = ()
    occasion: str = ""  # 'set', 'test' or '': how it came to be stated


class Fact(NamedTuple):
    """One stated value of one quantity.

    positions holds one Position for each position of its owner, or a single one if `for_all`.
    """

    row: Quantity
    positions: tuple[Position, ...]
    for_all: bool
    unknown: bool
    text: str
    stated: Statement
    path: Path
    curve: Curve | None = None  # of a lift table, whose greatest lift is the figure

    @property
    def name(self) -> str:
        return self.row.name

    @property
    def claim(self) -> bool:
        """A stated, not measured value of a result: shown and reconciled, never a value."""
        return self.row.result and self.stated.basis != MEASURED

    def at(self, index: int) -> Position:
        """What is stated of the owner's position `index`, None where it was not taken."""
        if self.for_all:
            return self.positions[0]
        return self.positions[index] if index < len(self.positions) else None


class Trouble(NamedTuple):
    """A problem inside `values`: the path of the key, whether the key itself is meant, level, words."""

    path: Path
    says: str
    mend: str
    level: str = WRONG
    key: bool = False
    offset: int = 0


def read_values(values: Mapping[str, Any], statement: Statement) -> Iterator[Fact | Trouble]:
    """The facts in one `values`, and the troubles with those that are none."""
    for name, raw in values.items():
        path = (*statement.path, name)
        row = catalogue().get(name)
        if row is None or row.derived_only:
            yield _no_such_quantity(name, row, path)
            continue
        yield from _unfit_qualifiers(row, statement, path)
        if name in LIFTS:
            mend = "name its CSV file under `tables:`; a greatest lift alone is " + name.replace("_", "_valve_")
            yield Trouble(path, f"`{name}` is a table and not one figure", mend, key=True)
            continue
        try:
            line, strange, for_all, text = _read(raw, row)
        except ValueProblem as problem:
            yield Trouble(path, problem.says, problem.mend, offset=problem.offset if isinstance(raw, str) else 0)
            continue
        except _WrongShape as shape:
            yield Trouble(path, shape.says, shape.mend)
            continue
        if strange:
            yield Trouble(path, strange, "correct the figure or its unit if it is a slip", DOUBTFUL)
        yield Fact(
            row, line.positions, for_all or _holds_for_all(line, row, statement), line.unknown, text, statement, path
        )


class _WrongShape(Exception):
    def __init__(self, says: str, mend: str) -> None:
        super().__init__(says)
        self.says, self.mend = says, mend


@lru_cache(maxsize=1 << 14)
def _line(text: str, name: str) -> tuple[Line, str | None]:
    """A line of one quantity, and what is strange about its size; most figures of a record are read more than once."""
    row = catalogue()[name]
    line = parse_line(text, row)
    return line, outside_range(line, row)


def _read(raw: Any, row: Quantity) -> tuple[Line, str | None, bool, str]:
    """The line, what is strange in it, whether it was written as known once for all, and the text as written."""
    if isinstance(raw, str):
        return *_line(raw, row.name), False, raw
    line, for_all, text = _read_nested(raw, row)
    return line, outside_range(line, row), for_all, text


def _read_nested(raw: Any, row: Quantity) -> tuple[Line, bool, str]:
    if isinstance(raw, dict) and set(raw) == {"all"} and isinstance(raw["all"], str):
        return _single(parse_line(raw["all"], row)), True, f"all: {raw['all']}"
    if isinstance(raw, dict) and set(raw) == {"readings"} and isinstance(raw["readings"], list):
        texts = [text for text in raw["readings"] if isinstance(text, str)]
        if len(texts) < 2 or len(texts) < len(raw["readings"]):
            raise _WrongShape("`readings` wants two lines or more", "list each reading of the set on a line of its own")
        return _mean_of_readings([parse_line(text, row) for text in texts]), False, "; ".join(texts)
    if isinstance(raw, dict) and raw and all(isinstance(text, str) for text in raw.values()):
        lines = [parse_line(text, row) for text in raw.values()]
        return _together(lines), False, "; ".join(f"{label} {text}" for label, text in raw.items())
    raise _WrongShape(f"`{row.name}` wants a value", "write it on one line, for example 38.1 / 38.3 cc")


def _single(line: Line) -> Line:
    if len(line.positions) != 1:
        raise _WrongShape("`all:` holds one value", "write the values of the positions without `all:`")
    return line


def _together(lines: list[Line]) -> Line:
    """Named sub-positions (top along, top across, …) as the several values of each position."""
    counts = {len(line.positions) for line in lines}
    if len(counts) > 1:
        raise _WrongShape("the lines do not have the same number of positions", "write x where one was not taken")
    positions = []
    for several in zip(*(line.positions for line in lines), strict=True):
        taken = tuple(stated for position in several if position for stated in position)
        positions.append(taken or None)
    return Line(tuple(positions), lines[0].unit)


def _mean_of_readings(lines: list[Line]) -> Line:
    """Mean of repeated readings with its type A uncertainty, s/√n (JCGM 100:2008, 4.2).

    Readings that agree to the last digit still hide half of it, rectangular (JCGM 100:2008, F.2.2.1).
    """
    together = _together(lines)
    return Line(tuple(position and (_mean(position),) for position in together.positions), together.unit)


def _mean(several: tuple[Stated, ...]) -> Stated:
    values = [stated.nominal for stated in several]
    if len(values) == 1:
        return several[0]
    mean = sum(values) / len(values)
    deviation = hypot(*(value - mean for value in values)) / sqrt(len(values) - 1)
    scatter = max(deviation / sqrt(len(values)), several[0].last_digit / sqrt(12))
    return Stated(mean, scatter, several[0].last_digit)


def _holds_for_all(line: Line, row: Quantity, statement: Statement) -> bool:
    """A published or heard value of a per-position quantity that gives one figure means every position."""
    return len(line.positions) == 1 and row.place != "engine" and statement.basis != MEASURED


def _no_such_quantity(name: str, row: Quantity | None, path: Path) -> Trouble:
    if row is None:
        near = nearest(name, [each.name for each in catalogue().values() if not each.derived_only])
        return Trouble(
            path,
            f"`{name}` is not a quantity of the catalogue",
            f"write `{near}`" if near else "`logbook measure` and a part lists what there is; or put it into `note:`",
            key=True,
        )
    if name == "crown_volume":
        return Trouble(
            path, "the sign of `crown_volume` would be left to guess", "write dish_volume or dome_volume", key=True
        )
    return Trouble(path, f"`{name}` is always worked out, never stated", "state the figures it comes from", key=True)


def _unfit_qualifiers(row: Quantity, statement: Statement, path: Path) -> Iterator[Trouble]:
    if not row.qualifiers:
        return
    given = dict(statement.qualifiers)
    if "at_lift" in row.qualifiers and row.kind == "angle" and "at_lift" not in given:
        yield Trouble(
            path,
            f"`{row.name}` says nothing without the lift it was read at",
            "add `at_lift:` beside `values:`, for example at_lift: 1.00 mm",
            DOUBTFUL,
            key=True,
        )
    if "at_depression" in row.qualifiers and statement.basis != ASSUMED:
        yield Trouble(
            path,
            f"nothing is worked out of `{row.name}` where it is one figure without the valve lift",
            "write the flow over the lift into a CSV file, and name it as `data:` of a test of the part",
            DOUBTFUL,
            key=True,
        )
