"""Which plans were carried out: a later change did everything that the plan meant to do to the engine.

A plan says nothing of it itself; what was done is told by the changes alone.
"""

from __future__ import annotations

from logbook.record import entries as model
from logbook.record.read import Entry
from logbook.state.fold import Life

#: What is done to the engine; how it is tightened or serviced on the way may differ.
_DOES = (model.Fit, model.Remove, model.Rework)


def carried_out(life: Life, name: str) -> Entry | None:
    """The first change since the plan's day that holds all of its steps; None also for a plan without such steps."""
    plan = life.record.plans[name]
    wanted = [_what(step) for step in plan.work if isinstance(step, _DOES)]
    for entry in life.record.entries if wanted and not plan.withdrawn else ():
        if isinstance(entry.says, model.Change) and entry.says.date.last >= plan.date.first:
            done = [_what(step) for step in entry.says.work if isinstance(step, _DOES)]
            if all(any(_does(one, step) for one in done) for step in wanted):
                return entry
    return None


def _what(step: model.Step) -> tuple[str, str, str]:
    """What a step does to which part, and where: '' where it does not say."""
    if isinstance(step, model.Fit):
        return "fit", step.fit, step.at or ""
    if isinstance(step, model.Rework):
        return step.operation, step.rework, ""
    return ("remove", step.remove, step.at or "") if isinstance(step, model.Remove) else ("", "", "")


def _does(done: tuple[str, str, str], wanted: tuple[str, str, str]) -> bool:
    return done[:2] == wanted[:2] and (not wanted[2] or done[2] in ("", wanted[2]))
