"""What can be wrong in engine.yaml although it reads well: banks, firing order, errors of instruments."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.quantity.catalogue import catalogue
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record.finding import WRONG, Finding
from logbook.record.read import Record


def banks_name_each_cylinder_once(record: Record) -> Iterator[Finding]:
    """A bank that names a cylinder that is not there, twice, or leaves one out."""
    engine = record.engine
    if engine.banks and not engine.named_banks:
        yield record.finding(
            "engine.yaml",
            ("banks",),
            WRONG,
            "the banks do not name each cylinder once",
            f"write the numbers 1 to {engine.cylinders}, for example 1: 1-3-5",
        )


def firing_order_names_each_cylinder_once(record: Record) -> Iterator[Finding]:
    """A firing order with a cylinder too many or too few."""
    engine = record.engine
    if not engine.firing_order:
        return
    named = [each.strip() for each in engine.firing_order.split("-")]
    if sorted(named) != sorted(str(number) for number in range(1, engine.cylinders + 1)):
        yield record.finding(
            "engine.yaml",
            ("firing_order",),
            WRONG,
            "the firing order does not name each cylinder once",
            f"write the numbers 1 to {engine.cylinders} with - between",
        )


def instruments_say_their_error(record: Record) -> Iterator[Finding]:
    """An instrument's error that is no amount."""
    for name, instrument in record.engine.instruments.items():
        for key in ("each", "common", "day"):
            text = getattr(instrument, key)
            if text is not None and not _is_amount(text):
                yield record.finding(
                    "engine.yaml",
                    ("instruments", name, key),
                    WRONG,
                    f"`{text}` says no size of an error",
                    "write an amount with its unit or a share of the reading, for example 0.20 ml or 1 %; "
                    "a number begins with a digit (0.0002 in)",
                )


def _is_amount(text: str) -> bool:
    kinds = sorted({row.kind for row in catalogue().values() if row.unit} | {"pressure_difference", "ratio"})
    try:
        parse_measure(text, *kinds)
    except ValueProblem:
        return False
    return True
