"""What a plan forecast, and how good that was: the figures kept with the change, against what was found since.

A forecast is a word of its day. It stands in the change that carried the plan out, is never a fact, and is held against
the engine as it is known now: E_n of ISO 13528:2022, 9.4. Errors that forecast and finding share (the same bore, the
same burette) are in both, so E_n judges a little kindly.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from logbook.judge.compare import Difference
from logbook.judge.hindsight import Anew, anew
from logbook.judge.reconcile import e_n
from logbook.quantity.catalogue import Quantity, catalogue, nearest
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import BARE, unit
from logbook.quantity.value import ValueProblem, parse_line
from logbook.record import entries as model
from logbook.record.finding import DOUBTFUL, WRONG, Finding
from logbook.record.record import Record
from logbook.specs.configuration import configuration_after
from logbook.specs.results import Value
from logbook.state.fold import Life

_UNSURE = "own"  # the one source of error of a figure that was kept without its sources


class Score(NamedTuple):
    """One forecast figure and what was found; `e_n` is None where nothing has been measured since.

    `mistakes`: the figures that it rested on and that were corrected later; with them right it would have been `anew`,
    and `e_n_anew` is the score of that.
    """

    name: str
    row: Quantity
    position: str
    forecast: Uncertain
    found: Value | None
    e_n: float | None
    mistakes: tuple[str, ...] = ()
    anew: Value | None = None
    e_n_anew: float | None = None

    @property
    def words(self) -> str:
        """How good it was."""
        return judged(self.e_n)


def judged(e_n: float | None) -> str:
    """A score in words."""
    if e_n is None:
        return "not measured since"
    return "held" if abs(e_n) <= 1 else "missed"


# --- kept


def kept(plan: str, assumed: Mapping[str, Any], effect: Mapping[str, Difference]) -> dict[str, Any]:
    """`forecast:` as it stands in a change: what the plan would make of each spec, and what it took for granted."""
    specs = {name: text for name, each in effect.items() if (text := forecast_text(each.row, each.after))}
    tree: dict[str, Any] = {"from": f"plan:{plan}"}
    return tree | ({"assume": dict(assumed)} if assumed else {}) | ({"specs": specs} if specs else {})


def forecast_text(row: Quantity, values: tuple[Value | None, ...]) -> str:
    """`40.61 ± 0.30 cc / 40.51 ± 0.30 cc`, as the reader of figures reads it; '' where nothing is known."""
    return " / ".join(_figure(row, value) for value in values) if any(values) else ""


def _figure(row: Quantity, value: Value | None) -> str:
    if value is None:
        return "x"
    its = unit(row.unit) if row.unit else BARE
    size = abs(value.nominal) if row.sides else value.nominal
    number, plus_minus = plain(its.from_base(size), its.from_size(value.expanded))
    side = row.sides[value.nominal < 0] if row.sides else ""
    return " ".join(word for word in (number, plus_minus and f"± {plus_minus}", row.unit, side) if word)


# --- read


def forecasts_can_be_read(life: Life) -> Iterator[Finding]:
    """A forecast of no plan, of what is no quantity, or in figures that cannot be read."""
    record = life.record
    for entry in record.entries:
        if not (isinstance(entry.says, model.Change) and entry.says.forecast):
            continue
        named = entry.says.forecast.from_.removeprefix("plan:")
        if named not in record.plans and not record.unreadable(f"plans/{named}"):
            says, mend = f"there is no plan `{named}` that this could be the forecast of", _nearest_plan(record, named)
            yield record.finding(entry.file, ("forecast", "from"), DOUBTFUL, says, mend)
        for name, raw in entry.says.forecast.specs.items():
            problem = _problem(name, raw)
            if problem:
                yield record.finding(entry.file, ("forecast", "specs", name), WRONG, *problem, key=True)


def _nearest_plan(record: Record, name: str) -> str:
    near = nearest(name, list(record.plans))
    return f"write plan:{near}" if near else "keep plans that were carried out in plans/"


def _problem(name: str, raw: Any) -> tuple[str, str] | None:
    if name not in catalogue():
        return (
            f"`{name}` is not a quantity of the catalogue",
            "leave the line out; a forecast is written by the program",
        )
    if not isinstance(raw, str):
        return f"the forecast of `{name}` is no line of figures", "write it on one line"
    try:
        parse_line(raw, catalogue()[name])
    except ValueProblem as problem:
        return problem.says, problem.mend
    return None


def _figures(row: Quantity, text: str) -> Iterator[Uncertain | None]:
    for several in parse_line(text, row).positions:
        stated = several[0] if several else None
        yield Uncertain(stated.nominal, {_UNSURE: stated.standard or 0.0}) if stated else None


# --- scored


def scores(life: Life, number: int) -> tuple[Score, ...]:
    """Every figure that the change of that number forecast, against the engine after it as it is known now."""
    says = life.record.entries[number].says
    if not (isinstance(says, model.Change) and says.forecast):
        return ()
    at = configuration_after(life, number)
    files = {entry.file for entry in life.record.entries[number:]}
    better = anew(life, number)
    found: list[Score] = []
    for name, raw in says.forecast.specs.items():
        if name in at.specs and _problem(name, raw) is None:
            spec = at.specs[name]
            pairs = zip(spec.positions, spec.values, _figures(spec.row, raw), strict=False)
            found += [_score(name, spec.row, place, said, value, files) for place, value, said in pairs if said]
    return tuple(_with_hindsight(each, better.get((each.name, each.position))) for each in found)


def _score(name: str, row: Quantity, place: str, said: Uncertain, value: Value | None, files: set[str]) -> Score:
    measured = value is not None and _measured_in(value, files)
    if value is None or not measured:
        return Score(name, row, place, said, value, None)
    return Score(name, row, place, said, value, _e_n(said, value))


def _e_n(said: Uncertain | Value, value: Value) -> float | None:
    gap, both = value.nominal - said.nominal, (said.expanded, value.expanded)
    return e_n(gap, *both) if any(both) else (0.0 if not gap else None)


def _with_hindsight(each: Score, better: Anew | None) -> Score:
    if better is None:
        return each
    found = each.found if each.e_n is not None else None
    number = _e_n(better.value, found) if better.value and found else None
    return each._replace(mistakes=better.mistakes, anew=better.value, e_n_anew=number)


def _measured_in(value: Value, files: set[str]) -> bool:
    """Whether something that was measured in one of these entries stands behind a value."""
    sources = (key.split("|") for key in value.terms if key not in value.unmeasured)
    return any(len(source) > 1 and source[1] in files for source in sources)
