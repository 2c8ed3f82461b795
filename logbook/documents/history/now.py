"""The engine now: what follows from it, what was measured or stated of each part, cylinder by cylinder, how it is set.

A quantity stands once: in the groups where it is one for the engine or the same at every position, else in the table
across the cylinders (or journals, or banks).
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.documents import figures
from logbook.documents.history.stale import since
from logbook.documents.history.tune import tune_lines
from logbook.documents.history.words import Words, capital, outside_note, plain
from logbook.documents.pieces import CylinderRow, CylinderTable, Group, NamedFigure
from logbook.judge.means import mean_value
from logbook.quantity.catalogue import (
    BANK,
    CYLINDER,
    MAIN_JOURNAL,
    PART_KINDS,
    ROD_JOURNAL,
    SETTINGS,
    Quantity,
    catalogue,
)
from logbook.record.facts import INFERRED
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.groups import GROUPS
from logbook.specs.results import Spec, Value, spec

_ACROSS = {CYLINDER: "Cylinder by cylinder", MAIN_JOURNAL: "Main journals", ROD_JOURNAL: "Crankpins",
           BANK: "Bank by bank"}  # fmt: skip


def groups(at: Configuration, words: Words) -> tuple[Group, ...]:
    """The specs in their groups, then the figures of each part, as far as they are known."""
    of_specs = [(title, [at.specs[name] for name in names if _is_told(at, name)]) for title, names in GROUPS.items()]
    found = [Group(title, tuple(_named(at, words, each) for each in some if each.known)) for title, some in of_specs]
    return tuple(group for group in [*found, *_of_parts(at, words)] if group.rows)


def _is_told(at: Configuration, name: str) -> bool:
    """Not what its own mean tells already."""
    mean = at.specs.get(f"mean_{name}")
    return name in at.specs and not (mean and mean.known)


def _of_parts(at: Configuration, words: Words) -> Iterator[Group]:
    """What was measured or stated of parts, and is the same at every position."""
    stated = [spec(at.graph, row.name) for row in _stated(at)]
    once = [each for each in stated if each.known and not _by_position(at, each)]
    for kind in PART_KINDS:
        rows = tuple(_named(at, words, each) for each in once if _owner(each.row) == kind)
        yield Group(capital(words.kind(kind)), rows)
    yield Group("The whole engine", tuple(_named(at, words, each) for each in once if not each.row.owner))


def _stated(at: Configuration) -> Iterator[Quantity]:
    """Quantities that are not worked out here, in the order of the catalogue."""
    for row in catalogue().values():
        stated = at.life.record.facts.get(row.name, ())
        of_the_engine = any(fact.stated.occasion != "cut" for fact in stated)  # how deep a cut went is told with it
        if row.name not in at.specs and not row.event and not row.derived_only and of_the_engine:
            yield row


def _owner(row: Quantity) -> str | None:
    return row.owner[0].split("|")[0] if row.owner else None


def _named(at: Configuration, words: Words, each: Spec) -> NamedFigure:
    """One line: the value, or the mean of the positions where they differ."""
    value = each.known[0] if _alike(each) else mean_value(each.known)
    name = words.sided(each.row, value.nominal)
    if len(each.known) > 1:
        name += "" if _alike(each) else ", mean"
    most = None if each.name in at.specs else _written(at, each, words)
    figure = words.figure(each.row, _right_way_up(each.row, value), since(at, each), most)
    each_of = f"each {each.row.place}" if len(each.known) > 1 and _alike(each) else ""
    stood_at = words.conditions(_qualifiers(at, each))
    greatest = "the greatest of its table" if _of_a_table(at, each) else ""
    return NamedFigure(name, figure, ", ".join(filter(None, (each_of, greatest, stood_at))))


def _of_a_table(at: Configuration, each: Spec) -> bool:
    """Whether one figure stands for a table of lifts or flows."""
    nodes = [node for node in at.graph.all(each.name) if isinstance(node, Node)]
    return any(node.held and node.held.fact.curve and node.held.fact.name == each.name for node in nodes)


def _right_way_up(row: Quantity, value: Value) -> Value:
    """Without its sign where the name says the side."""
    return value._replace(nominal=abs(value.nominal)) if row.sides else value


def _written(at: Configuration, each: Spec, words: Words) -> int | None:
    """The most decimals that any of the figures behind it was written with, where all are as they were written."""
    nodes = [node for node in at.graph.all(each.name) if isinstance(node, Node)]
    places = [words.written_places(node.held.fact) for node in nodes if node.held]
    known = [each for each in places if each is not None]
    return max(known) if known and len(known) == len(nodes) else None


def _alike(each: Spec) -> bool:
    return len({value.nominal for value in each.known}) == 1


def _qualifiers(at: Configuration, each: Spec) -> dict[str, str]:
    """The conditions that belong to what the figure is."""
    if each.conditions:
        return dict(each.conditions)
    held = [node.held for node in at.graph.all(each.name) if isinstance(node, Node) and node.held]
    return dict(held[0].fact.stated.qualifiers) if held else {}


# --- across ----------------------------------------------------------------------------------------------------------


def cylinder_tables(at: Configuration, words: Words) -> tuple[CylinderTable, ...]:
    """A table for each place that has several positions: cylinders, journals, banks."""
    tables = []
    for place, title in _ACROSS.items():
        heads = at.life.arrangement.positions(place)
        rows = tuple(_row(at, words, each) for each in _across(at, place))
        if rows and len(heads) > 1:
            across = "journal" if "journal" in place else place
            tables.append(CylinderTable(words.prose(title), heads, rows, _convention(at, place), across))
    return tuple(tables)


def _across(at: Configuration, place: str) -> Iterator[Spec]:
    for row in catalogue().values():
        if row.place != place or row.event or row.derived_only:
            continue
        each = spec(at.graph, row.name)
        if each.known and _by_position(at, each):
            yield each


def _by_position(at: Configuration, each: Spec) -> bool:
    """Whether it differs by position, or was taken at each of them."""
    if len(each.positions) < 2:
        return False
    nodes = [node for node in at.graph.all(each.name) if isinstance(node, Node)]
    taken = [node.held for node in nodes if node.held and not node.held.fact.for_all]
    return bool(taken) or (not _alike(each) and not each.row.derived_only)


def _row(at: Configuration, words: Words, each: Spec) -> CylinderRow:
    each = _as_taken(at, each)
    row, numbers = each.row, _shown(each, words)
    known = [number for number in numbers if number is not None]
    widest = max(words.scale(row).from_size(value.expanded) for value in each.known)
    most = _written(at, each, words)
    mean = mean_value(each.known)

    note = since(at, each) or words.conditions(_qualifiers(at, each))

    def text(number: float) -> tuple[str, str]:
        return figures.pair(number, widest) if most is None else figures.at_most(number, widest, most)

    return CylinderRow(
        words.sided(row, mean.nominal) if _one_sided(each) else words.title(row),
        words.symbol(row),
        tuple("" if number is None else text(number)[0] for number in numbers),
        text(sum(known) / len(known))[0] if len(known) > 1 else "",
        text(max(known) - min(known))[0] if len(known) > 1 else "",
        text(0.0)[1],
        words.figure(row, mean).basis,
        "; ".join(filter(None, (note, outside_note(*each.known)))),
    )


def _as_taken(at: Configuration, each: Spec) -> Spec:
    """Without the positions that are only inferred from those that were taken."""
    nodes = at.graph.all(each.name)
    inferred = [isinstance(node, Node) and node.held is not None and node.held.made == INFERRED for node in nodes]
    if all(inferred):
        return each
    values = tuple(None if left else value for value, left in zip(each.values, inferred, strict=True))
    return each._replace(values=values)


def _shown(each: Spec, words: Words) -> list[float | None]:
    """The values in the unit shown, without their sign where the title says the side."""
    scale = words.scale(each.row)
    numbers = [None if value is None else scale.from_base(value.nominal) for value in each.values]
    return [None if n is None else abs(n) for n in numbers] if _one_sided(each) else numbers


def _one_sided(each: Spec) -> bool:
    return bool(each.row.sides) and len({value.nominal < 0 for value in each.known if value.nominal}) == 1


def _convention(at: Configuration, place: str) -> str:
    numbering = at.life.record.engine.numbering
    sums = "Mean and spread (greatest less least) are of the values shown; ± belongs to each single one."
    if place == CYLINDER and numbering:
        return f"Cylinders are numbered: {numbering}. {sums}"
    return sums if place == CYLINDER else ""


# --- how it is set ---------------------------------------------------------------------------------------------------


def settings(at: Configuration) -> tuple[tuple[str, str], ...]:
    """What is set without a unit, in the order of the catalogue, and which tune is in."""
    own = at.state.settings
    known = [name for name in SETTINGS if name in own] + sorted(name for name in own if name not in SETTINGS)
    return (*((capital(plain(name)), own[name].text) for name in known if name not in catalogue()), *tune_lines(at))
