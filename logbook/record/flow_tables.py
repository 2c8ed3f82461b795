"""Flow tests: what a bench drew through a head, over the valve lift, from the CSV that a test names as its `data:`.

In: a test that names its part, and the bytes of its table as record/tables.py reads them:

    valve_lift mm,inlet_flow cfm,exhaust_flow cfm
    1,18,15

Out: of each valve one fact of that part, measured, whose figure is the greatest flow and whose curve is the flow over
the lift, from nothing at no lift. The test says `at_depression:`; without it its figures could not be set beside
others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from logbook.quantity.catalogue import catalogue
from logbook.quantity.curve import Curve
from logbook.quantity.units import unit
from logbook.quantity.value import Stated, ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.facts import Fact, Statement
from logbook.record.finding import DOUBTFUL, WRONG, Finding
from logbook.record.tables import Table, column_of, read_table

FLOWS = ("inlet_flow", "exhaust_flow")
LIFT = "valve_lift"
DEPRESSION = "at_depression"

Reading = tuple[int, float, float]  # line, lift in m, flow in m3/s


def flow_facts(
    entries: Iterable[tuple[str, model.Dated]], texts: Mapping[str, bytes], findings: list[Finding]
) -> Iterator[Fact]:
    """The flows of every test among the entries (file and what it says, in their order) that names a part and whose
    table has any; findings for what cannot be used.
    """
    for number, (file, says) in enumerate(entries):
        if isinstance(says, model.Test) and says.part and says.data:
            path = says.data if "/" in says.data else f"tests/{says.data}"
            table = read_table(texts[path], path)[0] if path in texts else None
            if table and not {*FLOWS}.isdisjoint(head.name for head in table.heads) and not table.across:
                yield from _of_table(table, path, _stated(file, number, says), texts, findings)


def depression(stated: Statement) -> float | None:
    """Below the air outside, in Pa, at which a flow was read; None where that is not said."""
    text = dict(stated.qualifiers).get(DEPRESSION)
    try:
        return parse_measure(text, "pressure_difference")[0] if text else None
    except ValueProblem:
        return None  # its own finding says so


def _stated(file: str, number: int, says: model.Test) -> Statement:
    conditions = ((DEPRESSION, says.at_depression),) if says.at_depression else ()
    return Statement(file, ("data",), entry=number, part=says.part, when=says.date, instrument=says.with_, by=says.by,
                     qualifiers=conditions)  # fmt: skip


def _of_table(
    table: Table, path: str, stated: Statement, texts: Mapping[str, bytes], findings: list[Finding]
) -> Iterator[Fact]:
    names = [head.name for head in table.heads]
    if depression(stated) is None:
        from logbook.record.strict_yaml import place_of  # a good record needs no place

        says, mend = "a flow says nothing without the test pressure it was read at", "add `at_depression: 28 inH2O`"
        place = place_of(texts[stated.file], ("data",), key=True)
        findings.append(Finding(stated.file, *place, DOUBTFUL, says, mend))
        return
    if LIFT not in names:
        says, mend = "flows, but no lifts they were read at", f"name a column `{LIFT} mm`"
        findings.append(Finding(path, 1, 1, WRONG, says, mend))
        return
    for name in FLOWS:
        if name in names:
            yield from _flow(name, table, path, texts[path], stated, findings)


def _flow(
    name: str, table: Table, path: str, data: bytes, stated: Statement, findings: list[Finding]
) -> Iterator[Fact]:
    readings, names = list(_readings(table, name)), [head.name for head in table.heads]
    wrong = _trouble(readings, name)
    if wrong:
        line, column, says, mend = wrong
        findings.append(Finding(path, line, column_of(data, line, names.index(column)), WRONG, says, mend))
        return
    lifts = tuple(lift for _, lift, _ in readings)
    curve = Curve.through((0.0, *lifts), (0.0, *(flow for _, _, flow in readings)))
    digit = unit(table.heads[names.index(name)].unit).size(1.0)
    figure = Stated(curve.top, None, digit)
    yield Fact(catalogue()[name], ((figure,),), True, False, f"table {path}", stated, ("data",), curve)


def _readings(table: Table, name: str) -> Iterator[Reading]:
    names = [head.name for head in table.heads]
    lift, flow = names.index(LIFT), names.index(name)
    of_lift, of_flow = unit(table.heads[lift].unit), unit(table.heads[flow].unit)
    for line, row in enumerate(table.rows, 2):
        there, read = row[lift], row[flow]
        if there is not None and read is not None:
            yield line, of_lift.to_base(there.value), of_flow.to_base(read.value)


def _trouble(readings: list[Reading], name: str) -> tuple[int, str, str, str] | None:
    """Line, column, what is wrong and how to mend it, where a flow over the lift is none."""
    if len(readings) < 2:
        mend = "read it every millimetre, up to full lift at least"
        return 1, name, "one reading makes no flow over the lift", mend
    for line, lift, flow in readings:
        if lift <= 0:
            return line, LIFT, "a flow is read at a lift above 0", "take the row out: that nothing flows there is known"
        if flow <= 0:
            return line, name, "a flow that was read is above 0", "correct it, or write x where nothing was taken"
    for (_, lower, _), (line, higher, _) in pairwise(readings):
        if not higher > lower:
            mend = "put the rows in the order of their lifts, each once"
            return line, LIFT, "the lift must rise from row to row", mend
    return None
