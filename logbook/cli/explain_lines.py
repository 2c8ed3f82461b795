"""What `explain` says, in sections of lines: each line with its depth, or -1 where it is set already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import floor

from logbook.cli.figures import GREATEST, how_sure, name_of, of_a_table, rests_on, shown_unit, thought_of, told
from logbook.judge.as_tested import AsTested
from logbook.judge.places import at_positions
from logbook.judge.standing import Standing
from logbook.quantity.catalogue import Quantity, catalogue, quantity
from logbook.quantity.rounding import decimals_for
from logbook.quantity.uncertain import COVERAGE
from logbook.quantity.units import unit
from logbook.record.engine_facts import crevice_said
from logbook.record.facts import MEASURED
from logbook.record.models import Engine
from logbook.record.record import Entry
from logbook.specs.better import Better, Next
from logbook.specs.configuration import Configuration
from logbook.specs.curves import CURVES
from logbook.specs.explain import Explanation, Input, Overview, Share, Where
from logbook.specs.graph import Missing, Node
from logbook.specs.groups import RATIOS
from logbook.specs.index import OF_A_TEST
from logbook.specs.page import Page
from logbook.specs.results import spec
from logbook.specs.supposing import SUPPOSED
from logbook.specs.validity import OUTSIDE
from logbook.specs.ways import needs

Line = tuple[int, str]
Section = tuple[str, Sequence[Line]]

#: The one name that is explained only against another build.
KNOCK = "knock_integral"

_LEAST_SHARE = 0.005
_MOST_UNLOCKING = 5


def page_sections(pages: Sequence[Page]) -> Iterator[Section]:
    """Every formula for one name; the first whose arguments are known is taken."""
    for page in pages:
        yield page.title, [(0, page.equation)]
        yield "with", [(0, f"{name} {words}") for name, words in page.arguments]
        yield "gives", [(0, page.returns)]
        yield "valid", [(0, page.validity)]
        yield "source", [(0, source) for source in page.sources]


def explanation_sections(at: Configuration, found: Explanation, point: str) -> Iterator[Section]:
    """One spec at one place."""
    engine = at.life.record.engine
    yield title(at, found.row, found.position, point)
    if found.missing:
        of_test = _of_a_test_only(at, found)
        if of_test:
            yield "It is worked out from one test, out of that test's own figures", []
        yield from cannot(None if of_test else found.missing, found.pages, engine)
        return
    assert found.node is not None
    assert found.root is not None
    yield "", [*_at_speed(at, engine), *_values(at, found, engine)]
    for page in found.pages:
        yield from formula_sections(page, engine)
    yield "Validity", list(_validity(found, found.node))
    rests = found.root.inputs if found.root.page else (found.root,)
    yield "What it rests on", [line for each in rests for line in input_lines(each, engine, 0)]
    yield "Where the ± comes from", list(_shares(found.shares, engine))
    if found.next:
        yield "To halve the ±", list(_next(found.next, engine))


def _of_a_test_only(at: Configuration, found: Explanation) -> bool:
    """Whether it is worked out from one test, and the point names none."""
    return found.row.name in OF_A_TEST and found.row.name not in at.graph.specs


def tests_giving(at: Standing, found: Explanation) -> Iterator[Section]:
    """Which tests have the figures for what is worked out from one test."""
    if found.missing and _of_a_test_only(at, found):
        some = list(at.tests_with(found.row.name))
        yield "Tests that have its figures", [(0, _file_name(each)) for each in some] or [(0, "none yet")]
        one = some[-1] if some else at.likely_test()
        asks = "Worked out" if some else "What a test would have to say"
        yield "", [(0, f"{asks}: logbook explain {found.row.name} {_file_name(one)}")] if one else []


def _file_name(entry: Entry) -> str:
    return entry.id.split("/", 1)[1]


def _at_speed(at: Configuration, engine: Engine) -> Iterator[Line]:
    """Of a run, at which speed."""
    if isinstance(at, AsTested) and len(at.run) > 1:
        node = at.graph.at("engine_speed", "")
        assert isinstance(node, Node)  # a run has a row for each speed
        yield 0, f"At {told(node, engine)}, of the run's speeds the one of the greatest power"


def overview_sections(at: Configuration, found: Overview, point: str) -> Iterator[Section]:
    """All specs; last, where the terminal still shows it, what is worth measuring next."""
    engine = at.life.record.engine
    yield f"{engine.name}: what can be worked out {_when(at, point)}", []
    yield "Of one test, from its own figures", [(0, ", ".join(OF_A_TEST))]
    yield "Over a variable", [(0, f"{name}, over {curve.over}") for name, curve in CURVES.items()]
    yield f"Known: {len(found.known)}", [(0, f"{name}: {_from(node)}") for name, node in found.known]
    yield f"Not yet: {len(found.lacking)}", [(0, f"{name}: {_needs(missing)}") for name, missing in found.lacking]
    if found.unlocks:
        best = found.unlocks[:_MOST_UNLOCKING]
        yield (
            "What unlocks most, measured alone",
            [(0, f"{name} ({name_of(quantity(name), engine)}): {many} more") for name, many in best],
        )


def title(at: Configuration, row: Quantity, position: str, point: str) -> Section:
    """Which engine, what, where and when."""
    engine = at.life.record.engine
    place = at_positions(at.life.arrangement, row, (position,))
    name = name_of(row, engine)
    return f"{engine.name}: {name + ',' if ',' in name and place else name}{place}, {_when(at, point)}", []


def _when(at: Configuration, point: str) -> str:
    return thought_of(at) if at.point.plan else ("now" if point == "now" else f"at {point}")


def cannot(missing: Missing | None, pages: Iterable[Page], engine: Engine) -> Iterator[Section]:
    """What is missing, and the formulas all the same."""
    if missing:
        lines = [(0, _needs(missing)), *((1, line) for line in _where_to_find(missing, engine))]
        yield "It cannot be worked out yet", lines
    for page in pages:
        yield from formula_sections(page, engine)
        yield "Validity", [(0, page.validity)]


def _needs(missing: Missing) -> str:
    if missing.because:
        return f"cannot be: {missing.because}"
    return needs(missing.groups) or "needs a test"


def _where_to_find(missing: Missing, engine: Engine) -> Iterator[str]:
    for name in dict.fromkeys(name for group in missing.groups for name in group):
        yield f"{name}: {name_of(quantity(name), engine)}"


def _values(at: Configuration, found: Explanation, engine: Engine) -> Iterator[Line]:
    node = found.node
    assert node is not None
    yield 0, ", ".join((told(node, engine), *_marks(at, node)))
    others = [
        each for each in at.graph.all(found.row.name) if isinstance(each, Node) and each.position != node.position
    ]
    if others:
        there = ", ".join(f"{each.position}: {told(each, engine)}" for each in others)
        yield 0, f"The other {found.row.place}s are {there}"
    if found.row.name in RATIOS:
        yield 0, f"Top land crevice: {crevice_said(engine)}"


def _marks(at: Configuration, node: Node) -> Iterator[str]:
    """As `specs` has them: what part of the ± is not measured, and what is to be known of the value."""
    its = spec(at.graph, node.name)
    value = dict(zip(its.positions, its.values, strict=True))[node.position]
    assert value is not None  # its node is there
    yield rests_on(value.shares, value.basis) or MEASURED
    if of_a_table(node):
        yield GREATEST
    if node.out_of_date:
        yield "out of date"
    if node.value.curved:
        yield how_sure(node.value, True)
    if node.outside:
        yield "outside its validity"


def formula_sections(page: Page, engine: Engine) -> Iterator[Section]:
    """The formula, what its letters stand for, its source."""
    yield "Formula", [(0, page.equation), *((1, _argument(name, words, engine)) for name, words in page.arguments)]
    yield "Source", [(0, source) for source in page.sources]


def _argument(name: str, words: str, engine: Engine) -> str:
    """What a letter stands for; in which units the program reckons is no matter at the bench."""
    its = name_of(catalogue()[name], engine) if name in catalogue() else name
    said = words.partition("]: ")[2].rstrip(".").split(", ")
    while len(said) > 1 and said[0] in its:  # what the name says already
        del said[0]
    return f"{its}: {', '.join(said)}" if said[0] else its


def _validity(found: Explanation, node: Node) -> Iterator[Line]:
    for page in found.pages:
        yield 0, page.validity
    for reason in node.outside:
        yield 0, f"This case is outside: {reason}."
    if not node.outside and found.pages:
        tested = found.row.name in OUTSIDE
        yield 0, "This case is inside." if tested else "No figure of this case is known to be outside."
    if not found.pages:
        yield 0, "It is a stated figure, not worked out."


def input_lines(each: Input, engine: Engine, depth: int) -> Iterator[Line]:
    """One argument, and below it what it is worked out from or where it is stated."""
    name = name_of(each.row, engine)
    if each.above:
        yield depth, f"{name}: as above"
        return
    equation = f", by {each.page.equation}" if each.page else ""
    greatest = f", {GREATEST}" if of_a_table(each.nodes[0]) else ""
    yield depth, f"{name}: {_figures(each, engine)}{greatest}{equation}"
    if each.page is None:
        yield depth + 1, _stated(each.nodes[0], each.where)
    for inner in each.inputs:
        yield from input_lines(inner, engine, depth + 1)


def _figures(each: Input, engine: Engine) -> str:
    texts = [told(node, engine) for node in each.nodes]
    if len(set(texts)) == 1:
        return texts[0]
    several = ", ".join(f"{node.position}: {text}" for node, text in zip(each.nodes, texts, strict=True))
    return f"{several}; of {each.nodes[0].position}" if each.page else several


def _stated(node: Node, where: Where | None) -> str:
    if where is None:
        return node.basis
    old = ", out of date" if node.out_of_date else ""
    with_ = f" with {where.instrument}" if where.instrument else ""
    said = f" ({where.source})" if where.source and where.source != node.basis else ""
    by = f" by {where.by}" if where.by else ""
    date = f" {where.date}" if where.date else ""
    line = f":{where.line}" if where.line else ""
    file = "what is supposed" if SUPPOSED in where.file else f"{where.file}{line}"
    return f"{node.basis}{date}{by}{with_}{said}{old}: {file}"


def _shares(shares: Sequence[Share], engine: Engine) -> Iterator[Line]:
    seen = [each for each in shares if each.share >= _LEAST_SHARE]
    for each in seen:
        yield 0, f"{each.share:4.0%}  {_source(each, engine)}"
    rest = 1 - sum(each.share for each in seen)
    if shares and rest >= _LEAST_SHARE:
        yield 0, f"{rest:4.0%}  all the rest"
    if not shares:
        yield 0, "It has none: nothing that it rests on is stated with one."


def _source(share: Share, engine: Engine) -> str:
    names = " and ".join(name_of(row, engine) for row in share.rows)
    if not share.shared:
        return names or "what is assumed of the rest"
    instrument, _, day = share.shared.partition(" on ")
    readings = f"its readings of {day}" if day else "its readings"
    return f"the error of {instrument} that {readings} share ({names})"


def _next(found: Next, engine: Engine) -> Iterator[Line]:
    if found.single:
        yield 0, "Any of these alone does it:" if len(found.single) > 1 else "One better figure does it:"
    elif found.together:
        yield 0, f"No single figure does it, not even one known exactly. These {len(found.together)} together do:"
    else:
        yield 0, "No figure that is stated does it: what is left comes from the rule itself."
    for each in found.single or found.together:
        yield 1, _better(each, engine)


def _better(each: Better, engine: Engine) -> str:
    now, wanted = _amount(each.row, each.now, engine), _amount(each.row, each.wanted, engine)
    means = [f"the {name} is good enough" for name in each.instruments]
    if each.readings:
        means.append(f"the mean of {each.readings} readings with the {each.instrument}")
    measure = "" if each.basis == MEASURED else f"measure it; it is only {each.basis}"
    if not means and not measure:
        means.append("no instrument that this record has used for it is as good")
    how = "; ".join(filter(None, (measure, " or ".join(means))))
    return f"{name_of(each.row, engine)} to ± {wanted} (now ± {now})" + (f": {how}" if how else "")


def _amount(row: Quantity, standard: float, engine: Engine) -> str:
    """An expanded uncertainty in the unit shown, two digits, rounded down."""
    its = shown_unit(row, engine.show)
    size = COVERAGE * standard / (unit(its).size(1.0) if its else 1.0)
    places = max(decimals_for(size), 0) if size > 0 else 0
    return f"{floor(size * 10**places + 1e-9) / 10**places:.{places}f} {its}".rstrip()


def _from(node: Node) -> str:
    return f"from {', '.join(node.inputs)}" if node.inputs else node.basis
