"""The engine as one test found it: the parts of its day, with the test's own figures over whatever else is known.

What a test states under `values:`, what its `conditions:` and `observed:` say of the catalogue's quantities, and each
row of its table by engine speed stand in the engine's own graph as readings of that day; the formulas that are for one
test alone (`OF_A_TEST`) stand beside those of the engine. Nothing of it is carried to any other day.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from logbook.errors import CannotRead
from logbook.judge.oil_analysis import HOURS, NEW_VISCOSITY, VISCOSITY
from logbook.judge.power_runs import OBSERVED, boost, usual
from logbook.judge.tables import data_of
from logbook.quantity.catalogue import Quantity, catalogue, quantity
from logbook.quantity.value import ValueProblem, parse_line
from logbook.record import entries as model
from logbook.record.facts import ASSUMED, Fact, Statement
from logbook.record.record import Entry
from logbook.record.tables import Cell, Head, Table, read_table
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.curves import Point
from logbook.specs.explain import CurveExplanation, Explanation
from logbook.specs.graph import Node
from logbook.specs.index import OF_A_TEST, Index
from logbook.specs.results import Spec, spec
from logbook.state.fold import Life
from logbook.state.holding import Held
from logbook.state.sayings import of_entry
from logbook.state.spread import figure

Lent = Mapping[tuple[str, str], Held | None]

#: How tests name what the catalogue calls otherwise.
CALLED: Mapping[str, str] = {
    "pressure": "air_pressure",
    "barometer": "air_pressure",
    "temperature": "air_temperature",
    "humidity": "air_humidity",
    "wet_bulb": "wet_bulb_temperature",
    "supply": "leak_down_supply",
    "orifice": "leak_down_orifice",
    VISCOSITY: "oil_viscosity",
    NEW_VISCOSITY: "new_oil_viscosity",
    **dict.fromkeys(HOURS, "hours_on_oil"),
}
_SPEED, _READ_BY_THE_BRAKE = "engine_speed", ("torque", "power")
_RULE, _BESIDE_RULE = "oil_pressure_usual", "oil_pressure"  # a rule of thumb says nothing beside no reading
_USUAL_AIR = "100 ± 6 kPa absolute"  # any place up to some 300 m, any weather
_AIR_MATTERS_LITTLE = frozenset({"leak_down", "leak_down_held", "cranking_pressure"})
_SPARK = ("correction_iso_1585", "correction_sae_j1349", "correction_din_70020", "correction_sae_j607")
_COMPRESSION = "correction_iso_1585_compression"


class AsTested(Configuration):
    """The engine with what one test read, of a run at one engine speed."""

    run: tuple[AsTested, ...] = ()  # every row of the table that this is one of

    def __init__(self, at: Configuration, lent: Lent, refused: Index) -> None:
        besides = {**OF_A_TEST, **refused}
        super().__init__(at.life, at.point, at.state, replace(at.holding, lent=lent), besides=besides)

    @property
    def speed(self) -> float | None:
        """Revolutions per second, None where the test says none."""
        found = self.graph.at(_SPEED, "")
        return found.value.nominal if isinstance(found, Node) else None

    def explain(self, name: str, cylinder: str | None = None) -> Explanation | CurveExplanation:
        """As of any configuration; of a run also over its engine speeds. Raises CannotExplain."""
        found = super().explain(name, cylinder)
        if isinstance(found, Explanation) and found.node and found.pages and not found.curve:
            points = list(self._over_the_run(name, found.position))
            if len({point.value.nominal for point in points}) > 1:
                over = quantity(_SPEED)
                page = found.pages[0]
                curve = CurveExplanation(found.row, over, found.position, tuple(points), None, (), page)
                return found._replace(curve=curve)
        return found

    def _over_the_run(self, name: str, position: str) -> Iterator[Point]:
        for row in self.run:
            node = row.graph.at(name, position)
            if isinstance(node, Node) and row.speed is not None:
                yield Point(row.speed, node.value)


class Tested(NamedTuple):
    """A test with the engine of its day: `rows` by engine speed, one alone where the test is no run."""

    entry: Entry
    rows: tuple[AsTested, ...]
    plain: Configuration

    @property
    def best(self) -> AsTested:
        """The row of the greatest power, or of the highest speed where no power was read."""
        return max(self.rows, key=lambda row: (_nominal(row, "power") or 0.0, row.speed or 0.0))

    def greatest(self, name: str) -> AsTested:
        """The row at which a figure is greatest."""
        return max(self.rows, key=lambda row: _nominal(row, name) or 0.0)

    def gives(self, name: str) -> bool:
        """Whether a figure is worked out from this test, or could not be without it."""
        worked_out = any(isinstance(node, Node) and node.formula for node in self.best.graph.all(name))
        return worked_out and (name in OF_A_TEST or not self.plain.specs[name].known)

    @property
    def own(self) -> Mapping[str, Spec]:
        """What is only ever worked out from one test, at the best row."""
        asked = [name for name in OF_A_TEST if name != _RULE or self._says(_BESIDE_RULE)]
        return {name: spec(self.best.graph, name) for name in asked if self.gives(name)}

    @property
    def specs(self) -> Mapping[str, Spec]:
        """And what else the engine would not have without this test."""
        also = {name: spec(self.best.graph, name) for name in self.plain.graph.specs if self.gives(name)}
        return {**self.own, **also}

    def _says(self, name: str) -> bool:
        return isinstance(self.best.graph.at(name, ""), Node)


def tests(life: Life, file: Callable[[str], bytes]) -> Iterator[Tested]:
    """Every test of the engine, in order; a part alone on a bench is no engine."""
    numbers = (number for number, entry in enumerate(life.record.entries) if isinstance(entry.says, model.Test))
    found = (test_of(configuration_after(life, number), file) for number in numbers)
    return (each for each in found if each)


def test_of(plain: Configuration, file: Callable[[str], bytes]) -> Tested | None:
    """The test that a configuration stands after; None where its entry is none of the whole engine."""
    entry = plain.life.record.entries[plain.point.number]
    if not isinstance(entry.says, model.Test) or entry.says.part:
        return None
    stated, refused = list(_stated(plain.life, entry)), _refused(plain, entry)
    rows = list(_rows(entry, file)) or [[]]
    lent = [_lent(plain, [*stated, *row]) for row in rows]
    engines = tuple(AsTested(plain, each, refused) for each in lent)
    for each in engines:
        each.run = engines
    return Tested(entry, engines, plain)


def _nominal(at: Configuration, name: str) -> float | None:
    node = at.graph.at(name, "")
    return node.value.nominal if isinstance(node, Node) else None


def _lent(at: Configuration, facts: Sequence[Fact]) -> Lent:
    """The test's figures by quantity and position."""
    lent: dict[tuple[str, str], Held | None] = {}
    for fact in facts:
        for index, position in enumerate(at.life.arrangement.positions(fact.row.place)):
            sure = figure(at.life.record, fact, index)
            if sure:
                rough = sure.assumed and fact.name in _READ_BY_THE_BRAKE
                value = usual(sure.value.nominal, fact.stated.file) if rough else sure.value
                lent[fact.name, position] = Held(fact, value, spread_assumed=sure.assumed)
    return lent


# --- what the test says ----------------------------------------------------------------------------------------------


def _stated(life: Life, entry: Entry) -> Iterator[Fact]:
    """Under what conditions, and what was read once; the air of a compression or leak-down test as it usually is."""
    own = Statement(entry.file, (), when=entry.says.date, by=entry.says.by)
    read = [*_said(entry, own), *of_entry(life.record, entry)]
    names = {fact.name for fact in read}
    if names & _AIR_MATTERS_LITTLE and "air_pressure" not in names:
        source = "as it usually is, since no barometer was read"
        usual = _fact(quantity("air_pressure"), _USUAL_AIR, own._replace(basis=ASSUMED, by=None, source=source))
        yield from filter(None, (usual,))
    yield from read


def _said(entry: Entry, own: Statement) -> Iterator[Fact]:
    for key in ("conditions", "observed"):
        for name, text in getattr(entry.says, key).items():
            row = _meant(name)
            fact = _fact(row, text, own._replace(path=(key, name))) if row else None
            if fact:
                yield fact


def _meant(name: str) -> Quantity | None:
    """The quantity that a condition is of; None for what is no figure, such as `throttle: open`."""
    plain = name.replace(" ", "_")
    row = catalogue().get(CALLED.get(name) or CALLED.get(plain) or plain)
    return None if row is None or row.derived_only else row


def _fact(row: Quantity, text: str, said: Statement) -> Fact | None:
    try:
        line = parse_line(text, row)
    except ValueProblem:
        return None  # told by the check, or no figure at all
    return None if line.unknown else Fact(row, line.positions, len(line.positions) == 1, False, text, said, said.path)


# --- a run, row by row -----------------------------------------------------------------------------------------------


def _rows(entry: Entry, file: Callable[[str], bytes]) -> Iterator[list[Fact]]:
    """The readings of each row that has a speed."""
    path, table = data_of(entry.says), _table(entry, file)
    if table is None or table.across or _SPEED not in [head.name for head in table.heads]:
        return
    for number, row in enumerate(table.rows, 2):
        said = Statement(entry.file, ("data",), when=entry.says.date, by=entry.says.by, source=f"{path}:{number}")
        found = list(_of_row(table.heads, row, said, entry.says.with_))
        if any(fact.name == _SPEED and fact.positions[0] and fact.positions[0][0].nominal > 0 for fact in found):
            yield found


def _table(entry: Entry, file: Callable[[str], bytes]) -> Table | None:
    path = data_of(entry.says)
    try:
        return read_table(file(path), path)[0] if path else None
    except CannotRead:
        return None


def _of_row(heads: Sequence[Head], row: Sequence[Cell | None], said: Statement, by: str | None) -> Iterator[Fact]:
    """An instrument's errors are those of the brake where there is one, else of all but the speed."""
    brake = [head.name for head in heads if head.name in _READ_BY_THE_BRAKE]
    for head, cell in zip(heads, row, strict=True):
        its = catalogue().get(head.name)
        if its and cell and not its.derived_only:
            named = head.name in brake if brake else head.name != _SPEED
            fact = _fact(its, f"{cell.text} {head.unit}".rstrip(), said._replace(instrument=by if named else None))
            if fact:
                yield fact


# --- what must not be worked out -------------------------------------------------------------------------------------


def _refused(at: Configuration, entry: Entry) -> Index:
    """Corrections that would be untrue, each with the reason in place of its formula."""
    spark = at.life.record.engine.ignition != "compression"
    kind = "compression" if spark else "spark"
    of_other = dict.fromkeys(
        (_COMPRESSION,) if spark else _SPARK, f"it is for {kind} ignition, and this engine has none"
    )
    already = entry.says.conditions.get("corrected", "none")
    why = "" if already.casefold() in OBSERVED else f"its readings are corrected already, to {already}"
    burnt = {"specific_fuel_consumption": why} if why else {}
    why = why or boost(at.life, at.state)
    of_all = dict.fromkeys((*_SPARK, _COMPRESSION), why) if why else {}
    return {name: (_refusing(reason),) for name, reason in {**of_other, **of_all, **burnt}.items()}


def _refusing(reason: str) -> Callable[[], float]:
    def refuse() -> float:
        raise ValueError(reason)

    return refuse
