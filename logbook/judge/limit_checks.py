"""Findings about limits: what engine.yaml and an `accept:` say of them, and which figures are not within them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.judge.bounds import OUTSIDE, WITHIN, parse_bound
from logbook.judge.limit_rules import GUIDE, RULE, RULES, Rule
from logbook.judge.limit_words import CAUTION, accepted_of, bounds_of, figure_of, name_of, written
from logbook.judge.limits import Judged, judged
from logbook.judge.places import at_positions
from logbook.judge.settling import settles, weightiest
from logbook.quantity.catalogue import catalogue, nearest, quantity
from logbook.quantity.usage import Usage
from logbook.quantity.value import ValueProblem, parse_line
from logbook.record import entries as model
from logbook.record import models
from logbook.record.facts import MEASURED
from logbook.record.finding import DOUBTFUL, NOTE, WRONG, Finding, Path
from logbook.record.record import Record
from logbook.specs.configuration import Configuration, configuration_after
from logbook.state.fold import Life
from logbook.state.holding import Held

_RULES = {rule.id: rule for rule in RULES}


def limits_can_be_read(life: Life) -> Iterator[Finding]:
    """A limit of no quantity, of a wrong unit, of no rule, or with a choice that is none."""
    for index, limit in enumerate(life.record.engine.limits):
        path: Path = ("limits", index)
        rule = _RULES.get(limit.id)
        for key, says, mend in (*_of_the_spec(limit, rule), *_of_the_choice(limit, rule), *_of_the_bounds(limit, rule)):
            yield life.record.finding("engine.yaml", (*path, *((key,) if key else ())), WRONG, says, mend)


Trouble = tuple[str, str, str]  # key, what is wrong, what to do


def _of_the_spec(limit: models.Limit, rule: Rule | None) -> Iterator[Trouble]:
    if limit.spec is None and rule is None:
        near = nearest(limit.id, list(_RULES))
        mend = f"write `{near}`, or add spec:" if near else "add spec: with the quantity that it limits"
        yield "id", f"`{limit.id}` is no rule of the program's, so it needs a quantity", mend
    elif limit.spec is not None and limit.spec not in catalogue():
        near = nearest(limit.spec, list(catalogue()))
        mend = f"write `{near}`" if near else "write the name of a quantity or spec"
        yield "spec", f"`{limit.spec}` is not in the catalogue", mend
    elif limit.spec is not None and rule and limit.spec != rule.spec:
        yield (
            "spec",
            f"`{limit.id}` is the program's rule of {rule.spec}",
            "give a limit of another quantity another id",
        )


def _of_the_choice(limit: models.Limit, rule: Rule | None) -> Iterator[Trouble]:
    sources = [option.source for option in rule.options] if rule else []
    if limit.choose and limit.choose not in sources:
        listed = "; ".join(sources)
        mend = f"write one of: {listed}" if listed else "leave it out: a limit of your own has `min`, `max` and `rule`"
        yield "choose", f"`{limit.choose}` is no published form of this rule", mend
    if not rule and not limit.min and not limit.max and not limit.off:
        yield "", f"`{limit.id}` has neither `min` nor `max`", "add one of them"
    if (limit.min or limit.max) and not limit.rule:
        yield "", f"`{limit.id}` does not say where it is from", "add rule:, for example rule: maker's manual"


def _of_the_bounds(limit: models.Limit, rule: Rule | None) -> Iterator[Trouble]:
    row = catalogue().get(limit.spec or (rule.spec if rule else ""))
    for key in ("min", "max") if row else ():
        text = getattr(limit, key)
        try:
            if text is not None and row:
                parse_bound(text, row)
        except ValueProblem as problem:
            yield key, problem.says, problem.mend


def acceptances_name_a_limit(life: Life) -> Iterator[Finding]:
    """An `accept:` of a limit that there is not, or of a value that is none."""
    record = life.record
    limits = {rule.id: rule.spec for rule in RULES}
    limits |= {limit.id: limit.spec for limit in record.engine.limits if limit.spec}
    for file, path, said in _acceptances(record):
        if said.limit not in limits and said.limit not in catalogue():
            own = [limit.id for limit in record.engine.limits]
            near = nearest(said.limit, own) or nearest(said.limit, list(limits))
            mend = f"write `{near}`" if near else "write the id of a limit of engine.yaml, or a quantity"
            yield record.finding(file, (*path, "limit"), WRONG, f"there is no limit `{said.limit}`", mend)
        elif said.value:
            yield from _readable(record, file, (*path, "value"), said.value, limits.get(said.limit, said.limit))


def _readable(record: Record, file: str, path: Path, text: str, spec: str) -> Iterator[Finding]:
    try:
        if spec in catalogue():
            parse_line(text, quantity(spec))
    except ValueProblem as problem:
        yield record.finding(file, path, WRONG, problem.says, problem.mend)


def _acceptances(record: Record) -> Iterator[tuple[str, Path, model.Acceptance]]:
    for entry in record.entries:
        for index, step in enumerate(entry.says.work) if isinstance(entry.says, model.Change) else ():
            if isinstance(step, model.Accept):
                yield entry.file, ("work", index, "accept"), step.accept


# --- which figures are not within ------------------------------------------------------------------------------------


def figures_are_within_limits(life: Life) -> Iterator[Finding]:
    """Figures of the engine as it stands now that are outside a limit, or not proven to be within it."""
    if life.states:
        at = configuration_after(life, len(life.states) - 1)
        for some in together(judged(at)):
            yield from _finding(at, some)


def _is_worth_a_note(each: Judged, held: Held) -> bool:
    """An undecided figure: what somebody measured, and where harm can come of it what nobody has measured yet."""
    return each.limit.danger or held.basis == MEASURED


def together(found: Sequence[Judged]) -> list[tuple[Judged, ...]]:
    """The positions of one limit with one verdict and one word of the owner on it, the worst of them first."""
    groups: dict[tuple[str, str, bool], list[Judged]] = {}
    for each in found:
        groups.setdefault((each.limit.id, each.verdict, each.in_force), []).append(each)
    return [tuple(sorted(some, key=_how_good)) for some in groups.values()]


def _how_good(each: Judged) -> tuple[float, float]:
    """Less is worse; far outside or inside all are as unlikely or likely, and the distance to the bound decides."""
    return each.standing.likely, each.standing.margin.nominal


def _finding(at: Configuration, some: tuple[Judged, ...]) -> Iterator[Finding]:
    worst = some[0]
    if worst.verdict == WITHIN or worst.limit.weight == GUIDE:
        return
    says, mend = told(at, some), "; ".join(filter(None, _mend(at, worst, at.life.record.engine.usage)))
    doubtful = worst.verdict == OUTSIDE and not worst.in_force and worst.limit.weight == RULE
    held = weightiest(worst).held
    if held and (worst.verdict == OUTSIDE or _is_worth_a_note(worst, held)):
        place = held.fact.stated.file, held.fact.path
        yield at.life.record.finding(*place, DOUBTFUL if doubtful else NOTE, says, mend)


def told(at: Configuration, some: tuple[Judged, ...]) -> str:
    """What a finding says of the positions of one limit, the worst of them first."""
    worst, usage = some[0], at.life.record.engine.usage
    places = at_positions(at.life.arrangement, worst.row, in_order(some))
    which = f"{'at worst ' if len(some) > 1 else ''}{figure_of(worst, usage)}"
    verdict = "outside" if worst.verdict == OUTSIDE else "not proven within or outside"
    source = f" ({worst.limit.source})" if worst.limit.source else ""
    says = f"{name_of(worst, usage)}{places}, {which}, is {verdict} its limit, {bounds_of(worst, usage)}{source}"
    return f"{says}; {accepted_of(worst)}" if worst.accepted and worst.verdict == OUTSIDE else says


def in_order(some: tuple[Judged, ...]) -> tuple[str, ...]:
    """The positions of these, in the engine's numbering."""
    return tuple(sorted({each.position for each in some}, key=_number))


def _number(position: str) -> tuple[int, str]:
    return (int(position) if position.isdigit() else 0, position)


def _mend(at: Configuration, each: Judged, usage: Usage) -> Iterator[str]:
    """What to do about it, what the rule says besides, what others say, and what comes first; some may be empty."""
    if each.verdict != OUTSIDE or not each.in_force:
        accept = f"mend it, or say in a change why it stays: accept: {{limit: {each.limit.id}, why: …}}"
        yield accept if each.verdict == OUTSIDE else settles(at, each)
        yield usage.prose(each.limit.remark)
        yield from _other_forms(each, usage)
    yield CAUTION if each.limit.danger else ""


def _other_forms(each: Judged, usage: Usage) -> list[str]:
    """Where the published forms of a rule conflict: the others, to choose from."""
    others = [f"{written((form.low, form.high), each.row, usage)} ({form.source})" for form in each.limit.others]
    if not others or each.limit.own:
        return []
    return [f"published rules differ: {', '.join(others)}; choose in engine.yaml: {{id: {each.limit.id}, choose: …}}"]
