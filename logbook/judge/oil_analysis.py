"""Oil analyses as the laboratory's sheet has them, and what they come to for each hour on the oil.

A test of the kind `oil analysis` keeps the sheet under `observed:`; `hours on this oil` and the metals by their names
are understood, each with its unit. What else the sheet says stays as it was written.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.finding import NOTE, Finding
from logbook.record.record import Entry
from logbook.specs.condition import oil_viscosity_change, wear_rate
from logbook.state.fold import Life

KIND = "oil analysis"
HOURS = ("hours on this oil", "hours on oil", "oil hours")
METALS = ("iron", "copper", "lead", "tin", "aluminium", "aluminum", "chromium", "nickel", "silicon", "sodium")
VISCOSITY, NEW_VISCOSITY = "viscosity at 100 degC", "viscosity when new"

_KINDS = {**dict.fromkeys(HOURS, "time"), **dict.fromkeys(METALS, "share"),
          VISCOSITY: "viscosity", NEW_VISCOSITY: "viscosity"}  # fmt: skip


class Analysis(NamedTuple):
    """One analysis: hours on the oil (s) where they are said, and of each metal its share for each second on it."""

    number: int
    entry: Entry
    hours: float | None
    rates: Mapping[str, float]
    viscosity_change: float | None


def oil_analyses(life: Life) -> Iterator[Analysis]:
    """Every analysis of the record, in order."""
    for number, entry in enumerate(life.record.entries):
        if _is_one(entry):
            read = {name: base for name, text in entry.says.observed.items() if (base := _read(name, text)) is not None}
            hours = next((read[name] for name in HOURS if read.get(name)), None)
            rates = {name: wear_rate(metal_in_oil=read[name], hours_on_oil=hours)
                     for name in METALS if name in read and hours}  # fmt: skip
            yield Analysis(number, entry, hours, rates, _change(read))


def _is_one(entry: Entry) -> bool:
    return isinstance(entry.says, model.Test) and entry.says.kind.casefold() == KIND


def _read(name: str, text: str) -> float | None:
    """What the sheet says of one name, in base units; None where it is not understood."""
    try:
        base = parse_measure(text, _KINDS[name])[0] if name in _KINDS else None
    except ValueProblem:
        return None
    return base if base is not None and base >= 0 and (_KINDS[name] != "share" or base <= 1) else None


def _change(read: Mapping[str, float]) -> float | None:
    used, new = read.get(VISCOSITY), read.get(NEW_VISCOSITY)
    return oil_viscosity_change(oil_viscosity=used, new_oil_viscosity=new) if used and new else None


def analyses_can_be_read(life: Life) -> Iterator[Finding]:
    """Figures of an oil analysis that are not understood, and an analysis without its hours."""
    for entry in life.record.entries:
        if not _is_one(entry):
            continue
        observed = entry.says.observed
        for name, text in observed.items():
            if name in _KINDS and _read(name, text) is None:
                unit = {"time": "h", "share": "mg/kg", "viscosity": "cSt"}[_KINDS[name]]
                says, mend = f"`{text}` is not understood as {name}", f"write a number and its unit, such as 31 {unit}"
                yield life.record.finding(entry.file, ("observed", name), NOTE, says, mend)
        if observed.keys() & set(METALS) and not observed.keys() & set(HOURS):
            says = "metal in the oil says little without the hours on this oil"
            mend = f"add `{HOURS[0]}:` to `observed:`"
            yield life.record.finding(entry.file, ("observed",), NOTE, says, mend, key=True)
