"""Parts: where each is, how far it has run in this engine and before, and how much of its life that is."""

from __future__ import annotations

from logbook.documents.content import PartRow
from logbook.documents.figures import NONE, joined
from logbook.documents.history.words import Words, count
from logbook.judge.due import Due
from logbook.quantity.catalogue import PART_KINDS
from logbook.quantity.units import unit
from logbook.record.models import Engine, Part
from logbook.state.counters import DISTANCE, HOURS
from logbook.state.fold import Life
from logbook.state.states import State


def distance_unit(engine: Engine) -> str:
    """Kilometres or miles, as the first counter of distance counts; without one, as the owner reads."""
    counted = [kind.unit for kind in engine.counters.values() if kind.unit in ("km", "mi")]
    return counted[0] if counted else "mi" if engine.show == "imperial" else "km"


def part_rows(life: Life, words: Words, over: list[Due]) -> tuple[PartRow, ...]:
    """Every part that is more than a thought, what is fitted first within its kind."""
    state = life.states[-1] if life.states else life.start
    kinds = list(PART_KINDS)
    parts = [name for name, part in life.record.parts.items() if part.state != "thought of"]
    parts.sort(key=lambda name: (kinds.index(life.record.parts[name].kind), name not in state.parts, name))
    return tuple(_row(life, words, state, name, over) for name in parts)


def _row(life: Life, words: Words, state: State, name: str, over: list[Due]) -> PartRow:
    part, run = life.record.parts[name], state.has_run(name)
    fitted_ever = name in state.parts or name in state.run
    return PartRow(
        name,
        words.kind(part.kind),
        _what(part),
        _where(state, name),
        _shown(run.of(DISTANCE), distance_unit(life.record.engine)) if fitted_ever else NONE,
        _shown(run.of(HOURS), "h") if fitted_ever else NONE,
        part.used_before or "not said",
        _life_left(part, [each for each in over if each.part == name]),
    )


def _what(part: Part) -> str:
    said = (
        part.what,
        part.casting_number and f"casting {part.casting_number}",
        part.part_number and f"part number {part.part_number}",
        part.marks and f"marked {part.marks}",
        part.pieces and f"{part.pieces} pieces",
    )
    return ", ".join(each for each in said if each)


def _where(state: State, name: str) -> str:
    fitting = next((each for each in state.fitted.values() if each.part == name), None)
    if fitting:
        return f"fitted, {fitting.at}" if fitting.at else "fitted"
    return state.gone.get(name, "on the shelf")


def _shown(run: float | None, symbol: str) -> str:
    return "" if run is None else count(unit(symbol).from_base(run))


def _life_left(part: Part, over: list[Due]) -> str:
    if over:
        return f"{shown_due(over[0].over, over[0].unit)} over its service life of {part.service_life}"
    return f"service life {part.service_life}" if part.service_life else ""


def shown_due(amount: float, its: str) -> str:
    """'11.6 h', '1 month'."""
    return joined(count(amount), unit="month" if its == "months" and amount == 1 else its)
