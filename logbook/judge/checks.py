"""What is wrong or worth saying once the engine's life is known: what was fitted, what holds, what a test told.

Each check takes the life and gives findings; to see what is checked, read the lists at the end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from logbook.errors import PointUnknown
from logbook.judge.agree_checks import (
    claims_agree,
    claims_agree_with_each_other,
    gauge_and_arithmetic_agree,
    standing,
)
from logbook.judge.consumption import logs_can_be_read
from logbook.judge.cranking import tests_are_as_foretold as tests_are_as_foretold
from logbook.judge.disagreements import measured_figures_agree
from logbook.judge.evenness import tests_are_even as tests_are_even
from logbook.judge.forecast import forecasts_can_be_read
from logbook.judge.impossible import figures_can_be, one_set_of_bolts
from logbook.judge.limit_checks import acceptances_name_a_limit, figures_are_within_limits, limits_can_be_read
from logbook.judge.metal import cuts_leave_enough, removed_before_is_known
from logbook.judge.oil_analysis import analyses_can_be_read
from logbook.judge.places import at_positions
from logbook.judge.power_runs import runs_can_be_corrected
from logbook.judge.tuned import tunes_are_proven
from logbook.quantity.catalogue import quantity
from logbook.quantity.units import unit
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.checks import ENGINE_CHECKS, RECORD_CHECKS
from logbook.record.facts import PREDICTED
from logbook.record.finding import DOUBTFUL, NOTE, WRONG, Finding
from logbook.record.operations import SURFACES
from logbook.specs.configuration import configuration_after
from logbook.specs.graph import Node
from logbook.specs.index import ALL_SPECS
from logbook.state.fold import Life, also
from logbook.state.holding import Held
from logbook.state.points import find_point
from logbook.state.runs import whole_run

Check = Callable[[Life], Iterator[Finding]]


def steps_can_be(life: Life) -> Iterator[Finding]:
    """Work that cannot have been done so, as the fold met it."""
    yield from life.findings


def plans_can_be(life: Life) -> Iterator[Finding]:
    """A plan that stands on no point of the record, or with a step that cannot be."""
    for name, plan in life.record.plans.items():
        file = f"plans/{name}.yaml"
        try:
            point = find_point(life, f"plan:{name}")
        except PointUnknown as problem:
            yield life.record.finding(file, ("from",), WRONG, str(problem))
        else:
            yield from also(life, life.after(point.number), plan.work, file)[2]


def one_sign_for_each_crown(life: Life) -> Iterator[Finding]:
    """A piston cannot hold a dish and a raised crown: enter the net volume under one name."""
    told = set()
    for at in standing(life):
        for position in life.arrangement.cylinders:
            dish = at.holding.best(quantity("dish_volume"), position)
            dome = at.holding.best(quantity("dome_volume"), position)
            if dish and dome and dish.value.nominal and dome.value.nominal and id(dome.fact) not in told:
                told.add(id(dome.fact))
                line, _ = life.record.where(dish.fact.stated.file, dish.fact.path)
                yield life.record.finding(
                    dome.fact.stated.file,
                    dome.fact.path,
                    WRONG,
                    f"dome_volume here and dish_volume in {dish.fact.stated.file}:{line} hold for the same piston",
                    "enter the net volume under one of the two names, or correct the wrong entry",
                    key=True,
                )


def specs_are_plausible(life: Life) -> Iterator[Finding]:
    """Worked-out values that no workshop would believe although it would believe each figure behind them."""
    at = configuration_after(life, len(life.states) - 1)
    for name in ALL_SPECS:
        nodes = [node for node in at.graph.all(name) if isinstance(node, Node) and not node.held]
        node = next(filter(_unbelievable, nodes), None)
        if node is None or any(map(_unbelievable, _behind(node))):
            continue
        row, facts = quantity(name), [held.fact for held in node.facts.values()]
        usage, where = life.record.engine.usage, at_positions(life.arrangement, row, (node.position,))
        says = f"the {usage.name(row)}{where} works out as {usage.said(row, node.value.nominal)}"
        mend = f"check {', '.join(dict.fromkeys(fact.name for fact in facts))}"
        place = facts[0].stated.file, facts[0].path
        yield life.record.finding(*place, DOUBTFUL, says, mend)


def _unbelievable(node: Node) -> bool:
    row = quantity(node.name)
    value = unit(row.unit).from_base(node.value.nominal) if row.unit else node.value.nominal
    return (row.low is not None and value < row.low) or (row.high is not None and value > row.high)


def _behind(node: Node) -> Iterator[Node]:
    """Every value that a node rests on."""
    for some in node.inputs.values():
        for each in some:
            yield each
            yield from _behind(each)


_SUMS = {its.removed for its in SURFACES.values()}


def facts_in_use_are_current(life: Life) -> Iterator[Finding]:
    """Figures still used although work has put them out of date; not a sum that known cuts have made greater."""
    at = configuration_after(life, len(life.states) - 1)
    told = set()
    for name in ALL_SPECS:
        for node in at.graph.all(name):
            for held in node.facts.values() if isinstance(node, Node) else ():
                foreseen = held.basis == PREDICTED and held.fact.name not in _SUMS
                if (held.out_of_date or foreseen) and id(held.fact) not in told:
                    told.add(id(held.fact))
                    yield _not_current(life, held)


def _not_current(life: Life, held: Held) -> Finding:
    fact, part = held.fact, held.fact.stated.part or "the assembled engine"
    if held.basis == PREDICTED:
        level, says = NOTE, f"`{fact.name}` of {part} is only predicted since work changed it"
        mend = "measure it; until then the prediction is used and marked"
    else:
        level, mend = DOUBTFUL, "measure it again"
        says = f"`{fact.name}` of {part} is out of date since it was worked on"
    return life.record.finding(fact.stated.file, fact.path, level, says, mend, key=True)


def parts_are_within_their_life(life: Life) -> Iterator[Finding]:
    """Fitted parts that have run longer than their service life."""
    now = life.after(len(life.states) - 1)
    for part in now.parts:
        text = life.record.parts[part].service_life
        if not text:
            continue
        try:
            allowed, its = parse_measure(text, "distance", "time")
        except ValueProblem:
            says, mend = f"`{text}` is no service life", "write hours or a distance, for example 30 h or 16000 km"
            yield life.record.finding(f"parts/{part}.yaml", ("service_life",), WRONG, says, mend)
            continue
        whole = whole_run(life.record, now, part)
        run, hedge = whole.of(its.kind), whole.hedge(its.kind)
        if run is not None and run > allowed:
            yield life.record.finding(
                f"parts/{part}.yaml",
                ("service_life",),
                DOUBTFUL,
                f"{part} has run {hedge}{its.from_base(run):.6g} {its.symbol}, its service life is {text}",
                "replace it, or say in a note why it stays",
            )


#: Whether what is written can be so.
OF_THE_RECORD: tuple[Check, ...] = (
    steps_can_be,
    plans_can_be,
    forecasts_can_be_read,
    one_sign_for_each_crown,
    figures_can_be,
    one_set_of_bolts,
    specs_are_plausible,
    removed_before_is_known,
    analyses_can_be_read,
    runs_can_be_corrected,
    limits_can_be_read,
    acceptances_name_a_limit,
)

#: Whether the engine is as it should be, and is known well enough to say so.
OF_THE_ENGINE: tuple[Check, ...] = (
    measured_figures_agree,
    claims_agree,
    claims_agree_with_each_other,
    gauge_and_arithmetic_agree,
    facts_in_use_are_current,
    cuts_leave_enough,
    parts_are_within_their_life,
    tests_are_even,
    tests_are_as_foretold,
    figures_are_within_limits,
    tunes_are_proven,
)


def engine_checks(life: Life) -> Iterator[Finding]:
    """Every finding on the engine itself."""
    for check in OF_THE_ENGINE if life.record.engine_known else ():
        yield from check(life)


def record_checks(life: Life, present: frozenset[str]) -> Iterator[Finding]:
    """Every finding on how the record is kept, but for reading a file. `present`: the folder's files, for what names
    one."""
    for of_record in (*RECORD_CHECKS, *(ENGINE_CHECKS if life.record.engine_known else ())):
        yield from of_record(life.record)
    yield from logs_can_be_read(life.record)
    for of_life in OF_THE_RECORD if life.record.engine_known else ():
        yield from of_life(life)
    if present:
        yield from files_are_there(life, present)


def files_are_there(life: Life, present: frozenset[str]) -> Iterator[Finding]:
    """Pictures, tables and data that an entry names."""
    record = life.record
    named: list[tuple[str, tuple[str | int, ...], str]] = []
    if record.engine.picture:
        named.append(("engine.yaml", ("picture",), record.engine.picture))
    for entry in record.entries:
        says = entry.says
        if says.written_from:
            named.append((entry.file, ("written_from",), says.written_from))
        if isinstance(says, model.Test) and says.data:
            beside = says.data if "/" in says.data else f"tests/{says.data}"
            named.append((entry.file, ("data",), beside))
        if isinstance(says, model.Change):
            for index, step in enumerate(says.work):
                if isinstance(step, model.Tune):
                    named += [(entry.file, ("work", index, "tables", key), path) for key, path in step.tables.items()]
    for file, path, wanted in named:
        if wanted not in present:
            yield record.finding(file, path, DOUBTFUL, f"there is no file {wanted}", "add it, or correct the name")
