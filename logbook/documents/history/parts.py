"""Parts: where each is and came from, how far it has run here and before, what is left of its life and its metal."""

from __future__ import annotations

from collections.abc import Iterator
from string import ascii_uppercase

from logbook.documents.content import PartRow
from logbook.documents.figures import NONE, at_most, joined
from logbook.documents.history.words import Words, amount, count, day, listed, measured, number_of, reading
from logbook.judge.due import Due
from logbook.judge.since import since_newest
from logbook.quantity.catalogue import CYLINDER, CYLINDER_KINDS, PART_KINDS, quantity
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.record.models import CameFrom, Engine, Part
from logbook.record.when import parse_reading
from logbook.state.arrangement import Arrangement
from logbook.state.counters import DISTANCE, HOURS
from logbook.state.fold import Life
from logbook.state.metal import Surface, surface
from logbook.state.runs import whole_run
from logbook.state.states import Fitting, State

#: Kinds of which every cylinder has exactly one, so that more pieces are spares.
_ONE_A_CYLINDER = frozenset({"pistons", "connecting_rods"})


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


def since_newest_told(life: Life) -> str:
    """'Since 16 February 2019, Head C on, the engine and the parts in it have run 20.2 h.'; '' where nothing ran."""
    told = since_newest(life)
    if told is None:
        return ""
    units = ((DISTANCE, distance_unit(life.record.engine)), (HOURS, "h"))
    ran = [measured(run, symbol) for kind, symbol in units if (run := told.engine.of(kind))]
    what = f"{day(told.entry.says.date)}, {told.entry.title}"
    return f"Since {what}, the engine and the parts in it have run {listed(ran)}." if ran else ""


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
        _before(part),
        _life_left(part, [each for each in over if each.part == name]),
        _in_all(life, state, name),
        tuple(_lines(life, words, state, name)),
    )


def _before(part: Part) -> str:
    """What it ran before this record began, as its file says it."""
    said = part.used_before
    if said is None:
        return "not said" if part.came_from is None else ""
    return said if said in ("new", "unknown") else reading(parse_reading(said))


def _in_all(life: Life, state: State, name: str) -> str:
    """The whole run, where its file adds something to what it ran here."""
    whole = whole_run(life.record, state, name)
    if not whole.elsewhere:
        return ""
    units = ((DISTANCE, distance_unit(life.record.engine)), (HOURS, "h"))
    told = [(whole.hedge(kind), whole.of(kind), symbol) for kind, symbol in units]
    return ", ".join(f"{hedge}{measured(run, symbol)}" for hedge, run, symbol in told if run)


def _lines(life: Life, words: Words, state: State, name: str) -> Iterator[str]:
    part = life.record.parts[name]
    if part.came_from:
        yield _came_from(part.came_from)
    fitting = next((each for each in state.fitted.values() if each.part == name), None)
    off = _pieces_off(life.arrangement, part, fitting) if fitting else []
    if off:
        yield f"piece{'s' if len(off) > 1 else ''} {listed(off)} not in the engine"
    its = surface(life, name)
    if its:
        yield from _metal(words, its)


def _came_from(came: CameFrom) -> str:
    """'from Quarry four, where it ran 12 000 km; record 00112233…'."""
    ran = listed([amount(each) for each in (came.distance, came.hours) if each])
    sealed = f"; its record there {came.fingerprint[:12]}" if came.fingerprint else ""
    return f"from {came.engine}" + (f", where it ran {ran}" if ran else "") + sealed


def _pieces_off(arrangement: Arrangement, part: Part, fitting: Fitting) -> list[str]:
    """The pieces of a fitted set that are in no cylinder, by their letters."""
    if part.kind not in CYLINDER_KINDS:
        return []
    cylinders = arrangement.covered(fitting.at, CYLINDER)
    order = fitting.order or tuple(range(len(cylinders)))
    inside = {piece for cylinder, piece in zip(cylinders, order, strict=False) if cylinder not in fitting.off}
    pieces = range((part.pieces if part.kind in _ONE_A_CYLINDER else None) or len(cylinders))
    return [_letter(piece) for piece in sorted({*pieces, *order} - inside)]


def _letter(piece: int) -> str:
    return ascii_uppercase[piece] if piece < len(ascii_uppercase) else str(piece + 1)


def _metal(words: Words, its: Surface) -> Iterator[str]:
    """What has come off a surface, and what may still come off; nothing where neither is known."""
    told = []
    if its.metal_removed.nominal or not its.at_least:
        told.append(f"{'at least ' if its.at_least else ''}{_thick(words, its.metal_removed)} removed")
    if its.metal_left is not None:
        told.append(f"{'at most ' if its.at_least else ''}{_thick(words, its.metal_left)} left to remove")
    if told:
        yield f"{words.prose(its.name)}: {', '.join(told)}"


def _thick(words: Words, metal: Uncertain) -> str:
    """With no more digits than a cut is told with: hundredths of a millimetre, or tenths of a thou."""
    row = quantity("metal_removed")
    scale = words.scale(row)
    pair = at_most(scale.from_base(metal.nominal), scale.from_size(metal.expanded), 2 if scale.symbol == "mm" else 4)
    return joined(*pair, words.symbol(row))


def _what(part: Part) -> str:
    said = (
        part.what,
        part.casting_number and f"casting {part.casting_number}",
        part.part_number and f"part number {part.part_number}",
        part.marks and f"marked {part.marks}",
        part.pieces and number_of(part.pieces, "piece"),
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
