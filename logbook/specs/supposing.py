"""What if, in a line: figures and parts that are only supposed, on top of a point of the record or of no record at all.

A supposition is a plan without a file: `gasket_thickness=1.0 mm` assumes a figure, `fit=head-b` fits a part,
`rework=head-b: surface milled 0.30 mm` machines one, `remove=` takes one off. Read by the same strict reader.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from logbook.errors import LogbookError
from logbook.quantity.catalogue import ENGINE, catalogue, did_you_mean, own_name
from logbook.record import entries as model
from logbook.record.facts import ASSUMED, Fact
from logbook.record.figures import Figures
from logbook.record.finding import WRONG, Finding
from logbook.record.read import read_record
from logbook.record.record import Record
from logbook.record.strict_yaml import read_yaml
from logbook.record.typed_steps import fit_typed, rework_typed
from logbook.record.validating import validated
from logbook.record.write import entry_text
from logbook.state.arrangement import Arrangement
from logbook.state.fold import Life, also
from logbook.state.points import find_point

SUPPOSED = "what is supposed"  # stands where a plan's name would; no file can have it
_FILE = f"plans/{SUPPOSED}.yaml"


class CannotSuppose(LogbookError):
    """A supposition that cannot be read or cannot be: one line that says what would work."""


def supposing(life: Life, point: str, said: Sequence[str]) -> tuple[Life, str]:
    """The life with one more plan in it, and the point that names it. Raises CannotSuppose, PointUnknown."""
    work, assume = supposed(said)
    below = _plan_below(life, point)
    if below:
        work, start = [*_steps_of(below), *work], below.from_
    else:
        start = point
    plan, record = _planned(life.record, {"title": "Supposed", "date": "2000", "from": start}, work, assume)
    if below:
        its = life.record.planned[point.removeprefix("plan:")]
        own = {fact.name for fact in record.planned[SUPPOSED]}
        kept = tuple(fact for fact in its if fact.name not in own and fact.stated.part is None)
        record.planned[SUPPOSED] = (*kept, *record.planned[SUPPOSED])  # type: ignore[index]
    after = life._replace(record=record)
    _, _, wrong = also(after, life.after(find_point(life, start).number), plan.work, _FILE)
    _refuse(wrong)
    return after, f"plan:{SUPPOSED}"


#: What may be given of the engine itself, as engine.yaml says it.
OF_THE_ENGINE = ("cylinders", "arrangement", "bank_angle", "firing_order", "valves_per_cylinder", "main_bearings",
                 "camshafts", "ignition", "crevice", "show", "words")  # fmt: skip

_SAID_ELSEWHERE = dict.fromkeys(OF_THE_ENGINE, "engine.yaml says it, or --given where there is no folder") | {
    "removed_before": "the file of the head or the block says it"
}


def given(said: Sequence[str]) -> tuple[Record, tuple[str, ...]]:
    """A record of nothing but an engine, and what else is given: its figures.

    With as many cylinders as are said, else as the figures have, to help somebody else. Raises CannotSuppose.
    """
    from logbook.record.checks import ENGINE_CHECKS  # a question without a folder is rare

    of_engine: dict[str, str] = {}
    for name, value in map(_name_and_value, said):
        if name in of_engine:
            raise _twice(name)
        if name in OF_THE_ENGINE:
            of_engine[name] = value
    figures = tuple(text for text in said if _name_and_value(text)[0] not in OF_THE_ENGINE)
    many = of_engine.get("cylinders") or str(_as_many_as(figures))
    text = entry_text({"format": "1", "name": "as given", "cylinders": many,
                       "arrangement": "single" if many == "1" else "inline", **of_engine})  # fmt: skip
    record = read_record({"engine.yaml": text})
    _refuse(record.findings)
    _refuse(finding for check in ENGINE_CHECKS for finding in check(record))
    return record, figures


def _as_many_as(said: Sequence[str]) -> int:
    """How many cylinders the figures are of."""
    counts = {text.count(" / ") + 1 for text in said if " / " in text}
    if len(counts) > 1:
        raise CannotSuppose(
            f"figures of {' and of '.join(map(str, sorted(counts)))} cylinders; give all the same number"
        )
    return next(iter(counts), 1)


def supposed_in_words(plan: model.Plan) -> Iterator[str]:
    """What a supposition says, each figure and step as it was written."""
    for step in _steps_of(plan):
        yield " ".join(f"{name} {value}" for name, value in step.items())
    for name, value in plan.assume.items():
        yield f"{name} {value['all'] if isinstance(value, dict) and 'all' in value else value}"


def _plan_below(life: Life, point: str) -> model.Plan | None:
    """The plan that the supposition stands on, if the point is one."""
    find_point(life, point)  # refuses what does not exist
    return life.record.plans.get(point.removeprefix("plan:")) if point.startswith("plan:") else None


def _steps_of(plan: model.Plan) -> list[dict[str, Any]]:
    return [step.said() for step in plan.work]


def supposed(said: Iterable[str]) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """The steps and the assumed figures, as they stand in a plan. Raises CannotSuppose."""
    work, assume = [], {}
    for name, value in map(_name_and_value, said):
        name = name if name in _STEPS else own_name(name)
        if name in _STEPS:
            work.append(_STEPS[name](value))
        elif name in assume:
            raise _twice(name)
        else:
            assume[name] = _figure(name, value)
    return work, assume


def _name_and_value(text: str) -> tuple[str, str]:
    name, equals, value = (each.strip() for each in text.partition("="))
    if not (name and equals):
        raise CannotSuppose(f"`{text}`: write a name, = and the rest, such as gasket_thickness=1.0 mm")
    if not value:
        raise CannotSuppose(f"`{text}`: nothing stands behind the =; write what {name} should be")
    return name, value


def _twice(name: str) -> CannotSuppose:
    return CannotSuppose(f"`{name}` is given twice; leave one out")


def _figure(name: str, value: str) -> Any:
    """One value holds for every position, as what is supposed is not measured."""
    row = catalogue().get(name)
    if where := _SAID_ELSEWHERE.get(name):
        raise CannotSuppose(f"`{name}` is no figure that is supposed: {where}")
    if row is None or row.derived_only:
        known = [*_STEPS, *OF_THE_ENGINE, *(each.name for each in catalogue().values() if not each.derived_only)]
        why = "is only worked out, never given" if row else "is not a quantity"
        raise CannotSuppose(f"`{name}` {why}" + ("" if row else did_you_mean(name, known)))
    if value in ("unknown", "x"):
        raise CannotSuppose(f"`{name}={value}` supposes nothing; write a figure")
    if value.startswith("{"):
        tree, findings = read_yaml(value.encode(), name)
        _refuse(findings)
        return tree
    return value if " / " in value or row.place == ENGINE else {"all": value}


def _fit(text: str) -> dict[str, Any]:
    found = fit_typed(text)
    if found is None:
        raise CannotSuppose(f'`fit={text}`: write a part and, where it needs one, a place: "fit=head-b at bank 1"')
    return {**found}


def _rework(text: str) -> dict[str, Any]:
    found = rework_typed(text)
    if found is None:
        raise CannotSuppose(f'`rework={text}`: write "rework=head-b: surface milled 0.30 mm"')
    return {**found}


_STEPS = {"fit": _fit, "remove": lambda text: {"remove": text}, "rework": _rework}


def _planned(
    record: Record, head: dict[str, str], work: list[dict[str, Any]], assume: dict[str, Any]
) -> tuple[model.Plan, Record]:
    """The plan, and the record with it."""
    tree = head | ({"assume": assume} if assume else {}) | ({"work": work} if work else {})
    text = entry_text(tree)
    plan, objections = validated(model.Plan, tree, _FILE, text)
    _refuse(objections)
    assert plan is not None  # nothing was objected to
    findings: list[Finding] = []
    facts = tuple(Figures({_FILE: text}, findings).of_plan(_FILE, plan, ASSUMED))
    _refuse(findings)
    _fill_positions(facts, Arrangement.of(record.engine))
    return plan, replace(
        record,
        plans={**record.plans, SUPPOSED: plan},
        planned={**record.planned, SUPPOSED: facts},
        texts={**record.texts, _FILE: text},
    )


def _fill_positions(facts: Iterable[Fact], arrangement: Arrangement) -> None:
    for fact in facts:
        wanted = len(arrangement.positions(fact.row.place))
        if fact.for_all and wanted > 2 and len(fact.positions[0] or ()) == wanted:
            raise CannotSuppose(
                f"`{fact.text.removeprefix('all: ')}` would be several readings of one {fact.row.place}; between the "
                f"{fact.row.place}s of {fact.name} stands ' / ': {fact.text.removeprefix('all: ').replace(',', ' /')}"
            )
        if fact.stated.part is None and not fact.for_all and len(fact.positions) != wanted:
            raise CannotSuppose(
                f"{len(fact.positions)} values of {fact.name}, which this engine has at {wanted} places; "
                "write one for each, or one alone for all"
            )


def _refuse(findings: Iterable[Finding]) -> None:
    for finding in findings:
        if finding.level == WRONG:
            raise CannotSuppose(f"{finding.says}; {finding.mend}")
