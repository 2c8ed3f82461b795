"""The first page: what a buyer asks, answered without turning."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice

from logbook.documents.content import Cover, Trust
from logbook.documents.drawing import Cylinder, engine_drawing
from logbook.documents.figures import at_most
from logbook.documents.history.identity import description
from logbook.documents.history.words import Words, capital, day
from logbook.documents.pictures import printable
from logbook.documents.pieces import Asset, Figure, NamedFigure, Picture
from logbook.errors import CannotRead
from logbook.judge.means import mean_value
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.facts import Fact
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.results import Spec
from logbook.state.fold import Life
from logbook.state.sayings import of_entry
from logbook.state.spread import figure

LEADING = ("displacement", "mean_compression_ratio", "effective_compression_ratio", "squish_clearance")
#: What the last test of it says: the worst cylinder, which is the least or the greatest.
OF_THE_LAST_TEST = (("cranking_pressure", "lowest", min), ("leak_down", "highest", max))
OTHERWISE = ("valve_overlap", "lobe_separation", "mean_piston_speed", "rod_ratio", "bore_stroke_ratio", "swept_volume")
_SIX = 6

File = Callable[[str], bytes]


def cover(
    at: Configuration,
    words: Words,
    picture: Picture | None,
    faults: Sequence[str],
    overdue: Sequence[str],
    trust: Trust,
) -> Cover:
    """The cover of a record as it stands now."""
    return Cover(
        picture,
        description(at, words),
        tuple(islice(_leading(at, words), _SIX)),
        tuple(faults),
        tuple(overdue),
        trust,
        at.life.record.engine.demonstration,
    )


def _leading(at: Configuration, words: Words) -> Iterator[NamedFigure]:
    """The leading figures, as far as they are known; others take the place of what is not."""
    yield from (_spec(at.specs[name], words) for name in LEADING if at.specs[name].known)
    for name, word, worst in OF_THE_LAST_TEST:
        yield from _of_last_test(at.life, words, name, word, worst)
    yield from (_spec(at.specs[name], words) for name in OTHERWISE if at.specs[name].known)


def _spec(each: Spec, words: Words) -> NamedFigure:
    """A spec in few words, or the mean of its positions."""
    alike = len({value.nominal for value in each.known}) == 1
    value = each.known[0] if alike else mean_value(each.known)
    mean = not alike or each.name.startswith("mean_compression")
    name = capital(words.name(each.row).split(",")[0]) + (", mean" if mean else "")
    shown = words.figure(each.row, value)
    old = "out of date" if each.out_of_date else shown.basis
    basis = ", ".join(filter(None, (old, "outside its validity" if each.outside else "")))
    return NamedFigure(name, Figure(shown.value, shown.uncertainty, shown.unit, basis),
                       words.conditions(each.conditions))  # fmt: skip


def _of_last_test(life: Life, words: Words, name: str, word: str, worst: Callable[..., int]) -> Iterator[NamedFigure]:
    found = _last_test(life, name)
    if found is None:
        return
    fact, date = found
    taken = {i: position[0].nominal for i, position in enumerate(fact.positions) if position}
    sure = figure(life.record, fact, worst(taken, key=lambda i: taken[i])) if taken else None
    if sure:
        shown = Figure(*_as_read(words, fact, sure.value), words.symbol(fact.row))
        yield NamedFigure(f"{capital(words.name(fact.row))}, {word}", shown, date)


def _as_read(words: Words, fact: Fact, value: Uncertain) -> tuple[str, str]:
    """With the digits that it was written with."""
    scale, most = words.scale(fact.row), words.written_places(fact)
    if most is None:
        return words.pair(fact.row, value)
    return at_most(scale.from_base(value.nominal), scale.from_size(value.expanded), most)


def _last_test(life: Life, name: str) -> tuple[Fact, str] | None:
    """The last reading of a quantity, and its day; a cylinder with oil in it tells another story."""
    for entry in reversed(life.record.entries):
        if isinstance(entry.says, model.Test):
            for fact in of_entry(life.record, entry):
                if fact.name == name and dict(fact.stated.qualifiers).get("oil") != "with oil" and not fact.unknown:
                    return fact, day(entry.says.date)
    return None


# --- the picture -----------------------------------------------------------------------------------------------------


def cover_picture(at: Configuration, file: File) -> tuple[Picture, Asset] | None:
    """The picture that engine.yaml names; without one, a drawing from the engine's own figures, if they are known."""
    engine = at.life.record.engine
    if engine.picture:
        try:
            asset = printable(file(engine.picture), engine.picture)
        except CannotRead:
            asset = None
        if asset:
            alt = engine.caption or f"Picture of {engine.name}"
            return Picture(f"asset:{engine.picture}", alt, engine.caption or ""), asset
    cylinders = list(_cylinders(at))
    if not cylinders:
        return None
    said = "Drawn from the figures of this record: bore, stroke and rod in true proportion."
    banks = at.life.arrangement.banks
    of = f" Bank {next(iter(banks))}." if len(banks) > 1 else ""
    return Picture("asset:drawing.svg", said + of, said + of), Asset(engine_drawing(cylinders), "image/svg+xml")


def _cylinders(at: Configuration) -> Iterator[Cylinder]:
    """The first bank's cylinders, with cylinder 1 at the top of its stroke; none where a figure is not known."""
    stroke = _mm(at, "stroke", "")
    for cylinder in next(iter(at.life.arrangement.banks.values())):
        bore, rod = _mm(at, "bore", cylinder), _mm(at, "rod_length", cylinder)
        if not (bore and stroke and rod):
            return
        height = _mm(at, "compression_height", cylinder) or bore * 0.42
        yield Cylinder(bore, stroke, rod, _angle(at, cylinder), height)


def _mm(at: Configuration, name: str, position: str) -> float | None:
    node = at.graph.at(name, position)
    return unit("mm").from_base(node.value.nominal) if isinstance(node, Node) else None


def _angle(at: Configuration, cylinder: str) -> float:
    """Degrees past the top when cylinder 1 stands there, firing evenly; halfway where the order is not known."""
    order = (at.life.record.engine.firing_order or "").split("-")
    if sorted(order) != sorted(at.life.arrangement.cylinders):
        return 90.0
    interval = 720.0 / len(order)
    return (order.index("1") - order.index(cylinder)) * interval % 360.0
