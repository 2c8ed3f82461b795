"""The life line: the mean compression ratio by reading, as known now, a panel for each counter in turn; and the builds.

The ratio is asked for after each entry that is work; where several entries share a reading the last ratio stands, and
the entry that moved it gives the line its title.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from logbook.documents import figures, plots
from logbook.documents.history.words import OUTSIDE, Words, capital, day, listed, measured, outside_note, shortened
from logbook.documents.pieces import Column, PlotBlock, Table
from logbook.documents.render import batches
from logbook.judge.compare import REAL, SAME, difference
from logbook.judge.means import mean_value
from logbook.judge.timeline import TOLD, WORK, how_told
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.facts import MEASURED, PREDICTED
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.results import Spec
from logbook.state.fold import Life

PLOTTED = "mean_compression_ratio"
_LONGEST_TITLE = 30
_MOST_BUILDS = 4


@dataclass(frozen=True, slots=True)
class _Event:
    """One change where it stands on its counter: `at` is the engine's true total there, in the counter's unit.

    `spec`: the ratio after it; `moved`: whether that is another than before; `leaving`: it ends the counter's panel.
    """

    number: int
    entry: Entry
    counter: str
    unit: str
    at: float
    spec: Spec
    moved: bool = False
    leaving: bool = False


def life_plots(life: Life, words: Words) -> tuple[PlotBlock, ...]:
    """The one plot of the life, or none where the ratio was never known or no counter has run yet."""
    events = list(_events(life))
    panels = [_panel(life, some) for some in _by_counter(life, events)]
    if not any(panel.end > panel.start and any(step.value is not None for step in panel.steps) for panel in panels):
        return ()
    name, told = words.name(events[-1].spec.row), _told(events)
    alt = f"The {name} over the life of the engine: {told or 'it did not change'}"
    drawn = plots.life_line(panels, decimals=_decimals(panels))
    return (PlotBlock(f"{capital(name)}, by reading", drawn, alt, _sentence(told, panels)),)


def _decimals(panels: Sequence[plots.Panel]) -> int:
    """As many on the axis as tell its numbers apart."""
    known = [(step.value, step.expanded) for panel in panels for step in panel.steps if step.value is not None]
    span = max(value + give for value, give in known) - min(value - give for value, give in known)
    return 1 if span > 0.6 else 2 if span > 0.06 else 3


# --- where things stand ----------------------------------------------------------------------------------------------


def _events(life: Life) -> Iterator[_Event]:
    """Every change with a known place on the counter that runs after it."""
    before: Spec | None = None
    for number, entry in enumerate(life.record.entries):
        counter = _counter(life, number)
        if counter is None or not isinstance(entry.says, model.Change):
            continue
        worked = before is None or how_told(entry) == WORK
        spec = configuration_after(life, number).specs[PLOTTED] if worked or before is None else before
        yield _Event(number, entry, *counter, spec, before is not None and _moved(before, spec))
        before = spec


def _counter(life: Life, number: int) -> tuple[str, str, float] | None:
    """The first counter of engine.yaml that runs after an entry, its unit, and the engine's true total in it."""
    counters = life.after(number).counters
    for name, kind in life.record.engine.counters.items():
        total = counters.totals.of(unit(kind.unit).kind)
        if name in counters.running and total is not None:
            return name, kind.unit, unit(kind.unit).from_base(total)
    return None


def _moved(before: Spec, after: Spec) -> bool:
    """Whether the ratio is another than before, or known again."""
    return bool(after.known) and (not before.known or _change(before, after) is not None)


def _by_counter(life: Life, events: Sequence[_Event]) -> list[list[_Event]]:
    """The changes of each counter's time; the one that leaves it for the next counter ends its time too."""
    groups = [list(some) for _, some in groupby(events, lambda event: event.counter)]
    for group, following in pairwise(groups):
        total = life.after(following[0].number).counters.totals.of(unit(group[0].unit).kind)
        if total is not None:
            at = unit(group[0].unit).from_base(total)
            left = replace(group[-1], entry=following[0].entry, at=at, moved=False, leaving=True)
            group.append(left)
            following[0] = replace(following[0], leaving=True)
    return groups


def _panel(life: Life, events: Sequence[_Event]) -> plots.Panel:
    name, symbol = events[0].counter, events[0].unit
    replaced = sum(section.counter == name for section in life.states[-1].counters.sections) > 1
    label = f"{name}, {symbol} of true distance" if replaced and symbol != "h" else f"{name}, {symbol}"
    return plots.Panel(label, events[0].at, _end(life, events), _steps(events), _marks(events))


def _end(life: Life, events: Sequence[_Event]) -> float:
    """The last reading on this counter, also of entries that are no change."""
    there = (_counter(life, number) for number in range(events[0].number, len(life.states)))
    ends = [each[2] for each in there if each and each[0] == events[0].counter]
    return max([*ends, *(event.at for event in events)])


def _steps(events: Sequence[_Event]) -> tuple[plots.Step, ...]:
    """The ratio from each reading on where it is another; the last one known at a reading counts."""
    steps: list[plots.Step] = []
    for at, some in groupby(events, lambda event: event.at):
        step = _step(at, list(some)[-1].spec)
        if not steps or (step.value, step.expanded) != (steps[-1].value, steps[-1].expanded):
            steps.append(step)
    return tuple(steps)


def _step(at: float, spec: Spec) -> plots.Step:
    if not spec.known:
        return plots.Step(at, None, 0.0)
    value = spec.known[0]
    return plots.Step(at, value.nominal, value.expanded, value.basis in (MEASURED, PREDICTED))


def _marks(events: Sequence[_Event]) -> tuple[plots.Mark, ...]:
    """One title for each reading: of the entry that moved the ratio, else of the first."""
    marks = []
    for at, some in groupby(events, lambda event: event.at):
        here = list(some)
        chosen = next((event for event in reversed(here) if event.moved), here[0])
        if not (chosen.leaving and chosen is events[0]):  # named where it left the counter before
            told = chosen.moved or chosen is events[0] or any(_weighs(event) for event in here)
            title = shortened(_titled(here, chosen).entry.title, _LONGEST_TITLE) if told else ""
            marks.append(plots.Mark(at, title, chosen.moved or chosen is events[0]))
    return tuple(marks)


def _titled(here: Sequence[_Event], chosen: _Event) -> _Event:
    """The entry to name: the one that moved the ratio, else the first that weighs."""
    return chosen if chosen.moved else next((event for event in here if _weighs(event)), chosen)


def _weighs(event: _Event) -> bool:
    """Whether a change is worth a name in the plot: parts, machining, counters, the owner; not a service or a tune."""
    return any(
        isinstance(step, model.Remove | model.Rework | model.Counter | model.Move)
        or (isinstance(step, model.Fit) and not step.found)
        or (isinstance(step, model.Owner) and step.part is None)
        for step in event.entry.says.work
    )


# --- what is to be seen ----------------------------------------------------------------------------------------------


def _told(events: Sequence[_Event]) -> str:
    """'was 8.70 at the beginning, rose by 2.09 at 104 300 km (Rebuilt) and fell by 0.27 at 21.4 h (Head C on)'."""
    known = [event for event in events if event.spec.known]
    told = [f"was {figures.joined(*_pair(known[0].spec))} when it was first known"]
    last = known[0]
    for event in known[1:]:
        change = _change(last.spec, event.spec)
        if change:
            told.append(f"{change[0]} at {_place(event)} ({event.entry.title}{change[1]})")
            last = event
    return listed(told) if len(told) > 1 else ""


def _change(before: Spec, after: Spec) -> tuple[str, str] | None:
    """('rose by 2.09 ± 0.06', ', within the error'); the verdict is empty where it is real.

    None where no digit that is shown would change, whatever else is known of it since.
    """
    told = difference(before, after)
    delta, verdict = told.differences[0], told.verdicts[0]
    if verdict in (None, SAME) or delta is None:
        return None
    way = "rose" if delta.nominal > 0 else "fell"
    size, plus_minus = figures.pair(abs(delta.nominal), delta.expanded)
    if not size.strip("0."):
        return None
    return f"{way} by {figures.joined(size, plus_minus)}", "" if verdict == REAL else f", {verdict}"


def _pair(spec: Spec) -> tuple[str, str]:
    return figures.pair(spec.known[0].nominal, spec.known[0].expanded)


def _place(event: _Event) -> str:
    return measured(unit(event.unit).to_base(event.at), event.unit)


def _sentence(told: str, panels: Sequence[plots.Panel]) -> str:
    first = f"The ratio {told}." if told else "The ratio did not change."
    beside = " Side by side: one counter after another." if len(panels) > 1 else ""
    return f"{first} Bands are ± (k = 2); the axis does not begin at zero.{beside}"


# --- builds side by side ---------------------------------------------------------------------------------------------


def build_tables(life: Life, words: Words) -> tuple[Table, ...]:
    """The leading specs of every named build beside each other, as known now; none where there is only one build."""
    numbers = [n for n, entry in enumerate(life.record.entries) if getattr(entry.says, "build", None)]
    builds = [configuration_after(life, number) for number in numbers]
    if len(builds) < 2:
        return ()
    return tuple(_beside([builds[index] for index in run], words) for run in batches(len(builds), _MOST_BUILDS))


def _beside(builds: Sequence[Configuration], words: Words) -> Table:
    names = [name for name in TOLD if any(at.specs[name].known for at in builds)]
    dates = ("since", *(day(at.life.record.entries[at.point.number].says.date) for at in builds))
    rows = (dates, *((_title(builds[0].specs[name], words), *(_cell(at.specs[name], words) for at in builds))
                     for name in names))  # fmt: skip
    note = outside_note(*(value for at in builds for name in names for value in at.specs[name].known))
    return Table((Column("build"), *(Column(at.state.build or "") for at in builds)), rows, note)


def _title(spec: Spec, words: Words) -> str:
    symbol = words.symbol(spec.row)
    return (
        capital(words.short(spec.row))
        + (", mean" if len(spec.positions) > 1 else "")
        + (f", {symbol}" if symbol else "")
    )


def _cell(spec: Spec, words: Words) -> str:
    if not spec.known:
        return figures.NONE
    mark = f"{figures.NO_BREAK}{OUTSIDE}" if spec.outside else ""
    return figures.joined(*words.pair(spec.row, mean_value(spec.known))) + mark
