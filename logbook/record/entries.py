"""What a dated file may say: a measurement, a change with its steps, a test, a note; and a plan, which has no reading.

The list of steps is closed. Each step is told by its first key (`fit:`, `rework:`, ...); what else it may say stands in
its model.
"""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from logbook.quantity.catalogue import nearest
from logbook.record.models import (
    ADate,
    AReading,
    ATime,
    FactBlock,
    Qualified,
    Text,
    Values,
    Yes,
    count_to,
)
from logbook.record.strict import NOTHING, Parsed, Strict, ToldBy, complain


class Step(Strict):
    """What every step may add to itself."""

    why: Text | None = None
    by: Text | None = None
    with_: Text | None = None
    note: Text | None = None


class Fit(Step):
    fit: Text
    at: Text | None = None
    order: Text | None = None
    found: Yes = False


class Remove(Step):
    remove: Text
    at: Text | None = None
    to: Text | None = None


class Rework(Step, Qualified):
    rework: Text
    operation: Text
    depth: Text | None = None
    to: Values | None = None


class Set(Step, Qualified):
    set: Values


class Tune(Step):
    tune: Text
    from_: Text | None = None
    tables: dict[str, Text] = NOTHING
    state: Literal["trial", "in use", "withdrawn"]
    fuel: Text | None = None


class Tighten(Step):
    tighten: Text
    stages: Text | None = None
    stretch: Text | None = None
    target: Text | None = None
    thread: Text | None = None
    order: Text | None = None
    lubricant: Text | None = None
    bolts: Text | None = None
    tightenings: Text | None = None


class Service(Step):
    service: Text


class Repair(Step):
    repair: Text
    how: Text | None = None


class Was(Strict):
    was: Text
    now: Text


class Counter(Step):
    counter: dict[str, Was]


class Move(Step):
    move: Text
    counters: dict[str, Was] = NOTHING


class Correction(Strict):
    entry: Text
    part: Text | None = None
    quantity: Text
    position: Annotated[int, Parsed(count_to(99))] | None = None
    why: Text


class Correct(Step):
    correct: Correction


class Adoption(Strict):
    quantity: Text
    from_: Text
    part: Text | None = None
    why: Text


class Adopt(Step):
    adopt: Adoption


class Acceptance(Strict):
    limit: Text
    value: Text | None = None
    why: Text


class Accept(Step):
    accept: Acceptance


class Owner(Step):
    owner: Literal["bought", "sold", "scrapped"]
    part: Text | None = None


class HandedOver(Step):
    handed_over: Text


class Due(Step):
    due: Text
    after: Text


class Closes(Step):
    closes: Text


STEPS: Mapping[str, type[Step]] = {
    "fit": Fit,
    "remove": Remove,
    "rework": Rework,
    "set": Set,
    "tune": Tune,
    "tighten": Tighten,
    "service": Service,
    "repair": Repair,
    "counter": Counter,
    "move": Move,
    "correct": Correct,
    "adopt": Adopt,
    "accept": Accept,
    "owner": Owner,
    "handed_over": HandedOver,
    "due": Due,
    "closes": Closes,
}


def _step_key(raw: Any) -> str | None:
    if isinstance(raw, Step):
        return next(name for name, model in STEPS.items() if type(raw) is model)
    return next((key for key in raw if key in STEPS), None) if isinstance(raw, dict) else None


def _a_step(raw: Any) -> Any:
    if _step_key(raw):
        return raw
    first = next(iter(raw), None) if isinstance(raw, dict) else None
    near = nearest(first, list(STEPS)) if first else None
    mend = f"write `{near}`" if near else f"begin it with one of {', '.join(f'{name}:' for name in STEPS)}"
    raise complain(f"{f'`{first}`' if first else 'this'} is no step of work", mend)


AStep = Annotated[
    Fit | Remove | Rework | Set | Tune | Tighten | Service | Repair | Counter | Move | Correct | Adopt | Accept | Owner
    | HandedOver | Due | Closes,
    ToldBy(STEPS, _step_key, _a_step),
]  # fmt: skip


class Dated(Strict):
    """What every entry may say of itself."""

    date: ADate
    time: ATime | None = None
    after: Text | None = None
    reading: AReading = ()
    by: Text | None = None
    title: Text | None = None
    note: Text | None = None
    written_from: Text | None = None


class Taking(Qualified):
    """Figures taken of one part, or of the assembled engine, with one instrument."""

    part: Text | None = None
    with_: Text | None = None
    by: Text | None = None
    values: Values = NOTHING
    tables: dict[str, Text] = NOTHING
    note: Text | None = None


class Measurement(Dated, Qualified):
    part: Text | None = None
    with_: Text | None = None
    values: Values = NOTHING
    tables: dict[str, Text] = NOTHING
    taken: tuple[Taking, ...] = ()
    conditions: dict[str, Text] = NOTHING


class Forecast(Strict):
    """What a plan said the engine would be, kept when it was carried out: figures of that day, never facts."""

    from_: Text
    assume: Values = NOTHING
    specs: Values = NOTHING


class Change(Dated):
    kind: Text | None = None
    build: Text | None = None
    forecast: Forecast | None = None
    work: tuple[AStep, ...] = ()


class Test(Dated, Qualified):
    kind: Text
    part: Text | None = None
    with_: Text | None = None
    conditions: dict[str, Text] = NOTHING
    data: Text | None = None
    sheet: dict[str, Text] = NOTHING
    values: Values = NOTHING
    observed: dict[str, Text] = NOTHING


class Note(Dated):
    title: Text
    open: Yes = False
    facts: tuple[FactBlock, ...] = ()


class Plan(Strict):
    title: Text
    date: ADate
    from_: Text = "now"
    assume: Values = NOTHING
    withdrawn: ADate | None = None
    why: Text | None = None
    by: Text | None = None
    note: Text | None = None
    work: tuple[AStep, ...] = ()


Entry = Measurement | Change | Test | Note
