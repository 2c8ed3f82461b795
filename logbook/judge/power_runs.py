"""Power runs: what was observed, brought to the air of each standard, and one run set beside another like with like.

A sheet's own figure is corrected by the sheet's own standard; two sheets are set beside each other as they stand only
beside the same two runs by one standard. A run is not corrected where the air of its day was not written down, where it
is corrected already, and where the boost is controlled, which makes up for the air by itself: the reason is given then.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from math import pi
from typing import NamedTuple

from logbook.errors import CannotRead
from logbook.judge.power_air import SAID, Air, Refused, air_of
from logbook.judge.tables import data_of
from logbook.quantity.catalogue import Quantity, catalogue
from logbook.quantity.stated import Stated
from logbook.quantity.uncertain import COVERAGE, Uncertain
from logbook.quantity.units import unit
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.facts import Fact, Statement
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.record import Entry, Record
from logbook.record.tables import Table, read_table
from logbook.record.when import When
from logbook.specs import correction
from logbook.specs.correction_bounds import OUTSIDE
from logbook.state.fold import Life
from logbook.state.spread import figure
from logbook.state.states import State

File = Callable[[str], bytes]

#: The standards by the name they are shown under: the name of the correction, and what else sheets call them.
STANDARDS: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "ISO 1585": ("correction_iso_1585", ("80/1269/EEC", "UN R85", "ECE R85", "EEC")),
    "SAE J1349": ("correction_sae_j1349", ("J1349",)),
    "DIN 70020": ("correction_din_70020", ("DIN", "DIN 70 020")),
    "SAE J607": ("correction_sae_j607", ("J607", "STD")),
}
#: Expanded, of a run whose instrument states no error: one error for all of its readings. Common practice, no source.
USUAL = 0.03
_USUAL_KEY = "usual spread of a run"
LIKE_WITH_LIKE = "ISO 1585"  # by which two runs are set beside each other where no other is asked for
OBSERVED = ("observed", "uncorrected", "none")


class Corrected(NamedTuple):
    """A run's greatest power by one standard, its factor, and why this lies outside the standard, '' if it does not."""

    factor: float
    power: Uncertain
    outside: str


class Run(NamedTuple):
    """One run: greatest power as observed and where, its sheet, and what it is by each standard.

    `why_not`: why nothing is corrected, '' where it is. `sheet` is in W.
    """

    number: int
    entry: Entry
    power: Uncertain
    speed: float
    torque: Uncertain
    torque_speed: float
    sheet: float | None
    sheet_standard: str | None
    corrected: Mapping[str, Corrected]
    why_not: str

    @property
    def spread_assumed(self) -> bool:
        """Whether its ± is the usual one, as its instrument states none."""
        return any(key.startswith(_USUAL_KEY) for key in self.power.terms)


class Beside(NamedTuple):
    """Two runs: the difference of their sheets as they stand, whether these are alike, and by each standard in common.

    `why_not`: why nothing stands under the standards.
    """

    first: Run
    second: Run
    sheets: float | None
    alike: bool
    observed: Uncertain
    by_standard: Mapping[str, Uncertain]
    why_not: str


def standard_named(text: str) -> str | None:
    """The standard that a sheet means, None where it is not one of them."""
    wanted = text.strip().casefold()
    for name, (_, others) in STANDARDS.items():
        if wanted in (name.casefold(), *(each.casefold() for each in others)):
            return name
    return None


def power_runs(life: Life, file: File) -> tuple[Run, ...]:
    """Every run whose data can be read, in order."""
    return tuple(_runs(life, file))


def _runs(life: Life, file: File) -> Iterator[Run]:
    for number, entry in enumerate(life.record.entries):
        if isinstance(entry.says, model.Test) and not entry.says.part:
            read = list(readings(life.record, entry, file))
            if read:
                yield _run(life, number, entry, read)


Point = tuple[float, Uncertain, Uncertain]  # engine speed, torque, power


def readings(record: Record, entry: Entry, file: File) -> Iterator[Point]:
    """Speed, torque and power of each row of a run's table that has them."""
    table = _table(entry, file)
    heads = [head.name for head in table.heads] if table and not table.across else []
    read = next((name for name in ("torque", "power") if name in heads), None)
    if table is None or "engine_speed" not in heads or read is None:
        return
    at, its = heads.index("engine_speed"), heads.index(read)
    for row in table.rows:
        speed, value = row[at], row[its]
        if speed and value and speed.value > 0 and value.value > 0:
            turns = unit(table.heads[at].unit).to_base(speed.value)
            sure = _sure(record, entry, read, unit(table.heads[its].unit).to_base(value.value), f"{turns:.6g}")
            yield (turns, sure, scaled(sure, 2 * pi * turns)) if read == "torque" else (
                turns, scaled(sure, 1 / (2 * pi * turns)), sure
            )  # fmt: skip


def _table(entry: Entry, file: File) -> Table | None:
    path = data_of(entry.says)
    try:
        return read_table(file(path), path)[0] if path else None
    except CannotRead:
        return None


def _sure(record: Record, entry: Entry, name: str, base: float, at: str) -> Uncertain:
    """A reading with the errors of its instrument: what all of a day share cancels between two runs of that day."""
    row: Quantity = catalogue()[name]
    said = Statement(entry.file, ("data", at), when=entry.says.date, instrument=entry.says.with_, source=at)
    sure = figure(record, Fact(row, ((Stated(base, None, 0.0),),), True, False, "", said, said.path), 0)
    if sure and not sure.assumed:
        return sure.value
    return usual(base, entry.file)


def usual(base: float, file: str) -> Uncertain:
    """A torque or a power of a run of which nobody stated an error: all of them are off by the same share."""
    return Uncertain(base, {f"{_USUAL_KEY}|{file}": USUAL * base / COVERAGE})


def spread_words(runs: Iterable[Run], day: Callable[[When], str] = str) -> str:
    """Whose ± is only the usual one; '' of none."""
    days = [day(run.entry.says.date) for run in runs if run.spread_assumed]
    its = f"taken as {USUAL * 100:g} %, as no instrument with its errors is named"
    return f"± of the run{'s' if len(days) > 1 else ''} of {' and '.join(days)} {its}" if days else ""


def scaled(value: Uncertain, by: float) -> Uncertain:
    """A value with its errors, multiplied."""
    return Uncertain(value.nominal * by, {key: term * by for key, term in value.terms.items()}, value.curved)


def _run(life: Life, number: int, entry: Entry, read: list[Point]) -> Run:
    speed, _, power = max(read, key=lambda point: point[2].nominal)
    torque_speed, torque, _ = max(read, key=lambda point: point[1].nominal)
    sheet, standard = _sheet(entry)
    corrected, why_not = _by_standards(life, entry, life.after(number), power)
    return Run(number, entry, power, speed, torque, torque_speed, sheet, standard, corrected, why_not)


def _sheet(entry: Entry) -> tuple[float | None, str | None]:
    text, standard = entry.says.sheet.get("power"), entry.says.sheet.get("standard")
    try:
        power = _sheet_power(text) if text else None
    except ValueProblem:
        power = None  # its own finding says so
    return power, (standard_named(standard) or standard) if standard else None


def _sheet_power(text: str) -> float:
    """In W. Raises ValueProblem for what is no power that an engine gives."""
    power, _ = parse_measure(text, "power")
    if power <= 0:
        raise ValueProblem(f"{text} is no power that an engine gives", "write what the sheet says, above 0")
    return power


def _by_standards(life: Life, entry: Entry, state: State, power: Uncertain) -> tuple[Mapping[str, Corrected], str]:
    already = entry.says.conditions.get("corrected", "none")
    if already.casefold() not in OBSERVED:
        name = standard_named(already)
        why = f"its readings are corrected already, to {name or already}"
        return ({name: Corrected(1.0, power, "")} if name else {}), why
    why_not = boost(life, state) or _compression_ignition(life)
    if why_not:
        return {}, why_not
    try:
        air = air_of(entry.says.conditions)
        return {name: _one(spec, air, power) for name, (spec, _) in STANDARDS.items() if _asked(spec, air)}, ""
    except Refused as refused:
        return {}, str(refused)


def boost(life: Life, state: State) -> str:
    """Why an engine's boost makes a correction for the air untrue; '' where it has none."""
    for part in state.parts:
        if life.record.parts[part].kind in ("turbocharger", "supercharger"):
            return f"{part} is fitted: boost makes up for the air, as far as it is controlled"
    setting = state.settings.get("boost_control")
    return f"boost control is set to {setting.text}: it makes up for the air" if setting else ""


def _compression_ignition(life: Life) -> str:
    if life.record.engine.ignition != "compression":
        return ""
    return "compression ignition is corrected by the fuel of each cycle, which is not known here"


def _asked(spec: str, air: Air) -> bool:
    """DIN 70020 asks for no humidity; the others do."""
    return air.dry_pressure is not None or spec == "correction_din_70020"


def _one(spec: str, air: Air, power: Uncertain) -> Corrected:
    day = {"air_temperature": air.temperature}
    if spec == "correction_din_70020":
        day["air_pressure"] = air.pressure
    else:
        assert air.dry_pressure is not None
        day["dry_air_pressure"] = air.dry_pressure
    factor: float = getattr(correction, spec)(**day)
    return Corrected(factor, scaled(power, factor), OUTSIDE[spec](**day))


def set_beside(first: Run, second: Run) -> Beside:
    """The later run less the earlier one."""
    common = [name for name in first.corrected if name in second.corrected]
    sheets = None if first.sheet is None or second.sheet is None else second.sheet - first.sheet
    alike = first.sheet_standard is not None and first.sheet_standard == second.sheet_standard
    by_standard = {name: second.corrected[name].power - first.corrected[name].power for name in common}
    why_not = "" if common else first.why_not or second.why_not or "no standard in common"
    return Beside(first, second, sheets, alike, second.power - first.power, by_standard, why_not)


# --- what is wrong in what is said of a run --------------------------------------------------------------------------


def runs_can_be_corrected(life: Life) -> Iterator[Finding]:
    """Air that cannot be, and a sheet's power that cannot be or does not say which standard it follows."""
    record = life.record
    for entry in record.entries:
        if isinstance(entry.says, model.Test) and (entry.says.kind.startswith("dynamometer") or entry.says.sheet):
            yield from _air_can_be(record, entry)
            yield from _sheet_can_be(record, entry)
            yield from _sheet_names_its_standard(record, entry)


def _air_can_be(record: Record, entry: Entry) -> Iterator[Finding]:
    for name, text in entry.says.conditions.items():
        if name.replace(" ", "_") in SAID:
            try:
                SAID[name.replace(" ", "_")](text)
            except Refused as refused:
                yield record.finding(entry.file, ("conditions", name), WRONG, str(refused), refused.mend)


def _sheet_can_be(record: Record, entry: Entry) -> Iterator[Finding]:
    power = entry.says.sheet.get("power")
    if power is None:
        return
    try:
        _sheet_power(power)
    except ValueProblem as problem:
        yield record.finding(entry.file, ("sheet", "power"), WRONG, problem.says, problem.mend)


def _sheet_names_its_standard(record: Record, entry: Entry) -> Iterator[Finding]:
    sheet = entry.says.sheet
    standard = sheet.get("standard")
    known = ", ".join(STANDARDS)
    if standard and standard.casefold() not in OBSERVED and standard_named(standard) is None:
        says = f"`{standard}` is none of the standards that power is corrected by here"
        yield record.finding(entry.file, ("sheet", "standard"), NOTE, says, f"known are {known}")
    elif "power" in sheet and not standard:
        says = "a sheet's power says little without the standard that it is corrected by"
        yield record.finding(entry.file, ("sheet",), NOTE, says, f"add `standard:`, one of {known}, or `observed`")
