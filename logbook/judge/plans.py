"""Plans: what each would make of the engine, what has become of it, and the change that carries it out.

A plan says nothing of its end itself, unless it is withdrawn. A change that keeps its forecast carried it out; so did
the first one since the plan's day that did everything that the plan meant to do to the engine.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from logbook.errors import LogbookError, PointUnknown
from logbook.judge.compare import Difference
from logbook.judge.departures import DOES, departures, does, what
from logbook.judge.forecast import Score, kept, scores
from logbook.judge.hindsight import on_top_of
from logbook.judge.hurts import cautions
from logbook.judge.timeline import changed
from logbook.quantity.catalogue import nearest
from logbook.record import entries as model
from logbook.record.finding import WRONG
from logbook.record.record import Entry
from logbook.record.strict_yaml import read_yaml
from logbook.specs.configuration import configuration, configuration_after
from logbook.state.fold import Life
from logbook.state.points import find_point, keeper_of, start_of_plan
from logbook.state.steps import Folder

OPEN, DONE, WITHDRAWN = "open", "carried out", "withdrawn"


class CannotCarryOut(LogbookError):
    """A plan that cannot become a change, or that is not there: one line that says what would work."""


@dataclass(frozen=True, slots=True)
class Planned:
    """One plan with what it would make of the engine that it stands on.

    `start`: the point that it stands on; `done`: the change that carried it out, and `scores` how good its forecast
    was; `departures`: where it was done otherwise than planned; `because`: why its effect cannot be told.
    """

    name: str
    plan: model.Plan
    start: str
    became: str
    effect: Mapping[str, Difference] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()
    done: Entry | None = None
    scores: tuple[Score, ...] = ()
    because: str = ""
    departures: tuple[str, ...] = ()


def planned(life: Life) -> Iterator[Planned]:
    """Every plan, by its name."""
    for name in life.record.plans:
        yield one_plan(life, name)


def one_plan(life: Life, name: str) -> Planned:
    """One plan. Raises CannotCarryOut if there is none of that name."""
    plan = _plan(life, name)
    done = carried_out(life, name)
    became = WITHDRAWN if plan.withdrawn else DONE if done else OPEN
    start = start_of_plan(life, name)
    told = _with_effect(Planned(name, plan, start, became), life)
    if done is None:
        return told
    number = life.record.entries.index(done)
    return replace(told, done=done, scores=scores(life, number), departures=tuple(departures(life, name, number)))


def _with_effect(each: Planned, life: Life) -> Planned:
    """With what it would do, or else why that cannot be told."""
    try:
        before, after = configuration(life, each.start), configuration(life, f"plan:{each.name}")
    except PointUnknown as problem:
        return replace(each, because=str(problem))
    effect = changed(before, after)
    return replace(each, effect=effect, cautions=cautions(effect, before, after))


def _plan(life: Life, name: str) -> model.Plan:
    plan: model.Plan | None = life.record.plans.get(name)
    if plan is not None:
        return plan
    if life.record.unreadable(f"plans/{name}"):
        raise CannotCarryOut(f"plans/{name}.yaml cannot be read: logbook check says why")
    near = nearest(name, list(life.record.plans))
    known = ", ".join(life.record.plans) or "none yet"
    raise CannotCarryOut(f"there is no plan `{name}`; " + (f"did you mean {near}?" if near else f"there is {known}"))


# --- carrying out


def carrying_out(life: Life, name: str, day: str) -> dict[str, Any]:
    """What the change says that carries a plan out on a day: its title, its work, and the forecast that it keeps.

    The forecast is of the engine on that day, from what was known of it. Raises CannotCarryOut, PointUnknown.
    """
    plan = _plan(life, name)
    _refuse_ended(life, name, plan)
    number = find_point(life, day.removeprefix("about ")).number if life.states else -1
    _refuse_impossible(life, name, plan, number)
    tree, _ = read_yaml(life.record.texts[f"plans/{name}.yaml"], name)
    said = tree if isinstance(tree, dict) else {}
    before = configuration_after(life, number)
    effect = changed(before, on_top_of(life, name, number)) if number >= 0 else {}
    return {"title": plan.title, "forecast": kept(name, said.get("assume", {}), effect), "work": _as_done(said["work"])}


def _as_done(work: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The steps without the figures that a rework was meant to leave: nobody has measured them yet."""
    return [{key: value for key, value in step.items() if key != "to"} for step in work]


def _refuse_ended(life: Life, name: str, plan: model.Plan) -> None:
    done = carried_out(life, name)
    if plan.withdrawn:
        raise CannotCarryOut(
            f"`{name}` was withdrawn on {plan.withdrawn}; take that line out of plans/{name}.yaml first"
        )
    if done:
        raise CannotCarryOut(f"`{name}` was carried out already, in {done.id}")
    if not plan.work:
        raise CannotCarryOut(f"`{name}` has no steps of work; add them to plans/{name}.yaml, or enter what was done")


def _refuse_impossible(life: Life, name: str, plan: model.Plan, number: int) -> None:
    """The plan's steps, done on that day: the first that cannot be is told."""
    folder = Folder(life.record, life.after(number))
    for index, step in enumerate(plan.work):
        if isinstance(step, model.Fit) and not step.at and step.fit in folder.state.parts:
            raise CannotCarryOut(f"`{name}` cannot be carried out: `{step.fit}` is in the engine already; enter what "
                                 "was done besides with logbook work")  # fmt: skip
        folder.step((number + 1, index), step, f"plans/{name}.yaml")
    wrong = next((finding for finding in folder.findings if finding.level == WRONG), None)
    if wrong:
        raise CannotCarryOut(f"`{name}` cannot be carried out: {wrong.says}; {wrong.mend}")


# --- carried out


def carried_out(life: Life, name: str) -> Entry | None:
    """The change that keeps its forecast, or else the first since its day that holds all of its steps."""
    plan = life.record.plans[name]
    keeper = keeper_of(life, name)
    if keeper is not None:
        return life.record.entries[keeper]
    wanted = [what(step) for step in plan.work if isinstance(step, DOES)]
    for entry in life.record.entries if wanted and not plan.withdrawn else ():
        if isinstance(entry.says, model.Change) and entry.says.date.last >= plan.date.first:
            done = [what(step) for step in entry.says.work if isinstance(step, DOES)]
            if all(any(does(one, step) for one in done) for step in wanted):
                return entry
    return None
