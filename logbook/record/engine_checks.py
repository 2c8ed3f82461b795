"""What can be wrong in engine.yaml although it reads well: banks, firing, errors of instruments."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from logbook.quantity.catalogue import catalogue
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record.engine_facts import valves_of_each
from logbook.record.finding import WRONG, Finding
from logbook.record.firing import interval_slip
from logbook.record.record import Record

HALF_A_TURN = 180.0  # deg


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


def cylinders_fit_their_arrangement(record: Record) -> Iterator[Finding]:
    """One cylinder is single; two banks need two."""
    engine = record.engine
    if (engine.arrangement == "single") != (engine.cylinders == 1) and engine.arrangement != "inline":
        many = f"{engine.cylinders} cylinder{'s' if engine.cylinders > 1 else ''}"
        says = f"an engine of {many} is not `{engine.arrangement}`"
        mend = "correct `cylinders` or `arrangement`"
        yield record.finding("engine.yaml", ("arrangement",), WRONG, says, mend)


def firing_order_names_each_cylinder_once(record: Record) -> Iterator[Finding]:
    """A firing order that repeats a cylinder, leaves one out or names one that is not there: which."""
    engine = record.engine
    if not engine.firing_order:
        return
    slips = list(_slips(engine.firing_places, [str(number) for number in range(1, engine.cylinders + 1)]))
    if slips:
        says = f"the firing order {' and '.join(slips)}"
        mend = f"write the numbers 1 to {engine.cylinders} with - between"
        yield record.finding("engine.yaml", ("firing_order",), WRONG, says, mend)


def firing_intervals_make_two_turns(record: Record) -> Iterator[Finding]:
    """Firing intervals that are too many, too few, or not two turns together."""
    engine = record.engine
    if engine.firing_intervals and (slip := interval_slip(engine.firing_intervals, engine.cylinders)):
        mend = "write `even`, or one for each firing, for example 90-150-90-150-90-150"
        yield record.finding("engine.yaml", ("firing_intervals",), WRONG, slip, mend)


def _slips(named: Sequence[str], wanted: Sequence[str]) -> Iterator[str]:
    """What is wrong with an order that should name each of `wanted` once."""
    strange = [each for each in dict.fromkeys(named) if each not in wanted]
    repeated = [each for each in wanted if named.count(each) > 1]
    missed = [each for each in wanted if each not in named]
    if strange:
        yield f"names {' and '.join(f'`{each}`' for each in strange)}, which is no cylinder of this engine"
    if repeated:
        yield f"names cylinder {' and '.join(repeated)} more than once"
    if missed:
        yield f"leaves out cylinder {' and '.join(missed)}"


def words_of_the_engine_are_read(record: Record) -> Iterator[Finding]:
    """Valves, camshafts and the angle of the banks, written so that nothing would follow from them."""
    engine = record.engine
    if engine.valves_per_cylinder and not any(valves_of_each(engine)):
        says, mend = f"`{engine.valves_per_cylinder}` says no number of valves", "write inlet + exhaust, such as 2+2"
        yield record.finding("engine.yaml", ("valves_per_cylinder",), WRONG, says, mend)
    if engine.camshafts and not re.search("overhead|block", engine.camshafts):
        says = f"`{engine.camshafts}` does not say where the camshafts are"
        yield record.finding("engine.yaml", ("camshafts",), WRONG, says, "write overhead, or in the block")
    if engine.bank_angle and not 0 < engine.bank_angle.base <= HALF_A_TURN:
        says, mend = "this is no angle between two banks", "write what lies between them, at most 180 deg"
        yield record.finding("engine.yaml", ("bank_angle",), WRONG, says, mend)


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
