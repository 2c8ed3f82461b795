"""Lift tables: a valve's lift over the crank angle, from the CSV that a part or a measurement names under `tables:`.

In: the bytes of a table as record/tables.py reads them, and which valve's column is wanted. Out: its curve with the
greatest lift, or the findings that say why there is none, each at its line and column. The first column says from where
the angle counts:

    from_lobe_centre deg   degrees of crank from the lobe centre, opening side minus: a card
    camshaft_angle deg     the same in degrees of camshaft, as on a bench between centres
    crank_angle deg        degrees of crank from the TDC of the overlap, before it minus: an assembled engine

A lift is that of the valve itself, with its lash as it runs.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import NamedTuple

from logbook.quantity.catalogue import catalogue
from logbook.quantity.curve import Curve
from logbook.quantity.units import unit
from logbook.record.finding import WRONG, Finding
from logbook.record.tables import Cell, Head, Table, read_table

#: Of each lift, the quantity of its lobe centre, and the sign that makes a crank angle after TDC count as that does.
LIFTS: Mapping[str, tuple[str, int]] = {
    "inlet_lift": ("inlet_peak_centre", 1),
    "exhaust_lift": ("exhaust_peak_centre", -1),
}
#: What a degree of each column is in degrees of crank.
_ANGLES = {"from_lobe_centre": 1, "camshaft_angle": 2, "crank_angle": 1}
_ABSOLUTE = "crank_angle"
_FEWEST = 5
_BELOW_PEAK = 1.27e-3  # m, 0.050 in: where the trade takes the lobe centre by mid-points


class LiftTable(NamedTuple):
    """A lift over degrees of crank from the lobe centre, m; last digits in base units.

    `centre`: the lobe centre after TDC by mid-points near the peak, where the table is of an assembled engine.
    """

    curve: Curve
    last_digit: float
    centre: float | None
    angle_digit: float


class _Reading(NamedTuple):
    line: int
    angle: Cell
    lift: Cell


class _Bad(Exception):
    def __init__(self, line: int, says: str, mend: str) -> None:
        super().__init__(says)
        self.line, self.says, self.mend = line, says, mend


def read_lift_table(data: bytes, file: str, name: str) -> tuple[LiftTable | None, tuple[Finding, ...]]:
    """The lift of that name in a table, or what is wrong with it."""
    table, troubles = read_table(data, file)
    if table is None:
        return None, troubles
    try:
        return _lift(table, name), ()
    except _Bad as bad:
        return None, (Finding(file, bad.line, 1, WRONG, bad.says, bad.mend),)


def _lift(table: Table, name: str) -> LiftTable:
    angles, lifts = _column(table, _the_angle(table).name), _column(table, name)
    head, its = table.heads[angles], unit(table.heads[lifts].unit)
    readings = [(line, row[angles], row[lifts]) for line, row in enumerate(table.rows, 2)]
    taken = [_Reading(line, angle, lift) for line, angle, lift in readings if angle is not None and lift is not None]
    _rises_and_falls(taken)
    per_degree = _ANGLES[head.name]
    curve = Curve.through(
        tuple(each.angle.value * per_degree for each in taken), tuple(its.to_base(each.lift.value) for each in taken)
    )
    centre = _centre(curve, name) if head.name == _ABSOLUTE else None
    digits = its.size(min(_digit(each.lift) for each in taken)), min(_digit(each.angle) for each in taken)
    return LiftTable(curve.shifted(-centre) if centre is not None else curve, digits[0], centre, digits[1] * per_degree)


def _the_angle(table: Table) -> Head:
    found = [head for head in table.heads if head.name in _ANGLES]
    if len(found) != 1 or table.across or found[0].unit != "deg":
        says = "a lift table has one column of angles, which says from where they count"
        raise _Bad(1, says, f"name it {', '.join(f'`{name} deg`' for name in _ANGLES)}")
    return found[0]


def _column(table: Table, name: str) -> int:
    names = [head.name for head in table.heads]
    if name not in names:
        raise _Bad(1, f"no column is named `{name}`", f"name the one that holds it `{name} mm`")
    return names.index(name)


def _rises_and_falls(taken: list[_Reading]) -> None:
    """Refuse a table whose angles do not go on, or whose lift does not rise to one peak and fall from it."""
    if len(taken) < _FEWEST:
        raise _Bad(1, f"{len(taken)} readings make no lift curve", "read it every 5 or 10 degrees, closed to closed")
    peak = max(range(len(taken)), key=lambda index: taken[index].lift.value)
    for index, (before, reading) in enumerate(pairwise(taken)):
        _goes_on(before, reading)
        _keeps_its_way(before, reading, rising=index < peak, peak=taken[peak].lift.text)
    if not 0 < peak < len(taken) - 1:
        raise _Bad(taken[peak].line, "the peak is the first or the last reading", "read both flanks, closed to closed")


def _goes_on(before: _Reading, reading: _Reading) -> None:
    if not reading.angle.value > before.angle.value:
        says = f"the angle goes from {before.angle.text} to {reading.angle.text}: it must rise from row to row"
        raise _Bad(reading.line, says, "put the rows in the order of their angles, each once")


def _keeps_its_way(before: _Reading, reading: _Reading, *, rising: bool, peak: str) -> None:
    step = reading.lift.value - before.lift.value
    if step < 0 if rising else step > 0:
        flank, way = ("below", "falls") if rising else ("beyond", "rises")
        says = f"{flank} its peak of {peak} the lift {way} from {before.lift.text} to {reading.lift.text}"
        raise _Bad(reading.line, says, "correct the slip, or write x where the reading is not to be trusted")


def _centre(curve: Curve, name: str) -> float:
    """The lobe centre after TDC, refused where no lobe can stand."""
    (centre, way), found = LIFTS[name], _mid_point(curve)
    row = catalogue()[centre]
    if not (row.low or 0) <= way * found <= (row.high or 0):
        says = f"the {row.uk} comes to {way * found:.4g} deg, where no lobe stands"
        raise _Bad(1, says, "count crank_angle from the TDC of the overlap: before it minus, after it plus")
    return found


def _mid_point(curve: Curve) -> float:
    """The lobe centre by mid-points: midway between equal lifts on both flanks, near the peak."""
    near = curve.top - min(_BELOW_PEAK, curve.top / 2)
    rises, falls = curve.before_peak(near), curve.after_peak(near)
    if rises is None or falls is None:
        raise _Bad(1, "the table does not reach down both flanks", "read both flanks, closed to closed")
    return (rises + falls) / 2


def _digit(cell: Cell) -> float:
    """The size of one in the last digit written."""
    return float(10.0 ** -len(cell.text.partition(".")[2]))


def beside(path: str, file: str) -> str:
    """The path of a table, which may be named without the folder of the file that names it."""
    return path if "/" in path else f"{file.rpartition('/')[0]}/{path}"
