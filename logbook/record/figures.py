"""Every figure of a part's file or an entry, with all that its place in the file says of it.

In: what a file says (models), and its place in the order of entries. Out: facts; troubles go to the findings, each at
its line and column.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from logbook.quantity.catalogue import QUALIFIERS, SETTINGS, catalogue, nearest
from logbook.quantity.units import unit
from logbook.quantity.value import Stated, ValueProblem, parse_measure
from logbook.record import entries as model
from logbook.record.facts import HEARSAY, Fact, Statement, Trouble, read_values
from logbook.record.finding import NOTE, WRONG, Finding, Path
from logbook.record.lift_tables import LIFTS, LiftTable, beside, read_lift_table
from logbook.record.models import FactBlock, Part, Qualified
from logbook.record.operations import SURFACES
from logbook.record.strict_yaml import place_of

Conditions = tuple[tuple[str, str], ...]


class Figures:
    """Reads the figures of parts, entries and plans, collecting findings on the way."""

    def __init__(self, texts: Mapping[str, bytes], findings: list[Finding]) -> None:
        self.texts, self.findings = texts, findings

    def of_part(self, name: str, part: Part) -> Iterator[Fact]:
        """What is published or said of a part in its own file."""
        file = f"parts/{name}.yaml"
        for number, block in enumerate(part.facts):
            yield from self._of_block(block, Statement(file, ("facts", number, "values"), part=name))
        surface = SURFACES.get(part.kind)
        if surface and part.removed_before:
            said = Statement(file, (), HEARSAY, part=name, source="removed before")
            yield from self._alone(surface.removed, part.removed_before, said, ("removed_before",))

    def of_entry(self, file: str, says: model.Dated, number: int) -> Iterator[Fact]:
        """What one dated file states, as the entry of that number."""
        base = Statement(file, ("values",), entry=number, when=says.date, by=says.by)
        if isinstance(says, model.Measurement):
            yield from self._of_measurement(says, base)
        elif isinstance(says, model.Test):
            yield from self._of_test(says, base)
        elif isinstance(says, model.Note):
            for index, block in enumerate(says.facts):
                yield from self._of_block(block, base._replace(path=("facts", index, "values")))
        elif isinstance(says, model.Change):
            for index, step in enumerate(says.work):
                yield from self._of_step(step, base._replace(step=index, path=("work", index)))

    def of_plan(self, file: str, plan: model.Plan, basis: str) -> Iterator[Fact]:
        """What a plan assumes and would set."""
        yield from self._read(plan.assume, Statement(file, ("assume",), basis=basis))
        for index, step in enumerate(plan.work):
            yield from self._of_step(step, Statement(file, ("work", index), basis=basis, step=index))

    def _of_test(self, says: model.Test, base: Statement) -> Iterator[Fact]:
        conditions = self._conditions(says, base, ())
        stated = base._replace(part=says.part, instrument=says.with_, occasion="test", qualifiers=conditions)
        yield from self._read(says.values, stated)

    def _of_measurement(self, says: model.Measurement, base: Statement) -> Iterator[Fact]:
        top = base._replace(part=says.part, instrument=says.with_, qualifiers=self._conditions(says, base, ()))
        yield from self._read(says.values, top)
        yield from self._tables(says.tables, top)
        for index, taking in enumerate(says.taken):
            path: Path = ("taken", index)
            stated = Statement(
                top.file,
                (*path, "values"),
                entry=top.entry,
                part=taking.part or says.part,
                when=top.when,
                instrument=taking.with_ or says.with_,
                by=taking.by or says.by,
                qualifiers=self._conditions(taking, base, path) or top.qualifiers,
            )
            yield from self._figures(taking, stated)

    def _of_step(self, step: model.Step, base: Statement) -> Iterator[Fact]:
        if not isinstance(step, model.Set | model.Rework):
            return
        conditions = self._conditions(step, base, base.path)
        stated = base._replace(instrument=step.with_, by=step.by or base.by, qualifiers=conditions)
        if isinstance(step, model.Rework):
            stated = stated._replace(part=step.rework)
            yield from self._read(step.to or {}, stated._replace(path=(*base.path, "to")))
            yield from self._depth(step, stated)
            return
        self._unknown_settings(step, base)
        figures = {name: raw for name, raw in step.set.items() if name in catalogue()}
        yield from self._read(figures, stated._replace(path=(*base.path, "set"), occasion="set"))

    def _depth(self, step: model.Rework, stated: Statement) -> Iterator[Fact]:
        """How deep a cut went: a figure of the step itself, from which others are predicted."""
        if step.depth:
            yield from self._alone("cut_depth", step.depth, stated._replace(occasion="cut"), (*stated.path, "depth"))

    def _alone(self, name: str, text: str, stated: Statement, path: Path) -> Iterator[Fact]:
        """A figure that has a key of its own, and not its quantity's name."""
        for item in read_values({name: text}, stated):
            if isinstance(item, Fact):
                yield item._replace(path=path)
            else:
                self._tell(stated.file, item._replace(path=path))

    def _of_block(self, block: FactBlock, base: Statement) -> Iterator[Fact]:
        stated = base._replace(
            basis=block.basis,
            when=block.date or base.when,
            instrument=block.with_,
            by=block.by or base.by,
            source=block.source,
            stated_for=tuple(sorted((block.stated_for or {}).items())),
            qualifiers=self._conditions(block, base, base.path[:-1]),
        )
        yield from self._figures(block, stated)

    def _figures(self, says: FactBlock | model.Taking, stated: Statement) -> Iterator[Fact]:
        """What stands under `values` and `tables`, of which there must be something."""
        if not says.values and not says.tables:
            trouble = Trouble(stated.path[:-1], "no figure is stated here", "add `values:` or `tables:`")
            self._tell(stated.file, trouble)
        yield from self._read(says.values, stated)
        yield from self._tables(says.tables, stated)

    def _tables(self, tables: Mapping[str, str], stated: Statement) -> Iterator[Fact]:
        """Each lift table as the greatest lift that it shows, its curve with it."""
        for name, path in tables.items():
            where: Path = (*stated.path[:-1], "tables", name)
            table = self._lift_table(name, path, stated.file, where)
            if table:
                yield from _of_table(name, path, table, stated, where)

    def _lift_table(self, name: str, path: str, file: str, where: Path) -> LiftTable | None:
        found = beside(path, file)
        if name not in LIFTS:
            trouble = Trouble(where, f"`{name}` is no lift table", f"write {' or '.join(LIFTS)}", key=True)
        elif found not in self.texts:
            mend = "put the CSV file beside this one, in the same folder, and write its name"
            trouble = Trouble(where, f"there is no table {found}", mend)
        else:
            table, wrong = read_lift_table(self.texts[found], found, name)
            self.findings += [each for each in wrong if each not in self.findings]
            return table
        self._tell(file, trouble)
        return None

    def _read(self, values: Mapping[str, Any], statement: Statement) -> Iterator[Fact]:
        for item in read_values(values, statement):
            if isinstance(item, Fact):
                yield item
            else:
                self._tell(statement.file, item)

    def _tell(self, file: str, trouble: Trouble) -> None:
        line, column = place_of(self.texts[file], trouble.path, key=trouble.key)
        self.findings.append(Finding(file, line, column + trouble.offset, trouble.level, trouble.says, trouble.mend))

    def _conditions(self, says: Qualified, base: Statement, path: Path) -> Conditions:
        """The conditions beside `values`, each in one spelling, so that 0.1 mm and 0.10 mm are the same."""
        given = says.qualifiers()
        if not given:
            return ()
        found = []
        for name, text in given.items():
            try:
                found.append((name, _in_one_spelling(name, text)))
            except ValueProblem as problem:
                row = QUALIFIERS[name]
                mend = problem.mend if row.words else f"write a number and its unit, for example 1.00 {row.unit}"
                self._tell(base.file, Trouble((*path, name), problem.says, mend, offset=problem.offset))
        return tuple(sorted(found))

    def _unknown_settings(self, step: model.Set, base: Statement) -> None:
        for name in step.set:
            if name not in catalogue() and name not in SETTINGS:
                self._tell(base.file, _no_such_setting(name, (*base.path, "set", name)))


def _of_table(name: str, path: str, table: LiftTable, stated: Statement, where: Path) -> Iterator[Fact]:
    """The lift, and of a table of the assembled engine the lobe centre that it shows."""
    alone = stated._replace(qualifiers=())
    peak = Stated(table.curve.top, None, table.last_digit)
    yield Fact(catalogue()[name], ((peak,),), False, False, f"table {path}", alone, where, table.curve)
    if table.centre is not None:
        centre, way = LIFTS[name]
        mid_point = Stated(way * table.centre, None, table.angle_digit)
        yield Fact(catalogue()[centre], ((mid_point,),), False, False, f"table {path}", alone, where)


def _in_one_spelling(name: str, text: str) -> str:
    row = QUALIFIERS[name]
    if row.kind != "words":
        amount, _ = parse_measure(text, row.kind)
        return f"{unit(row.unit).from_base(amount):.6g} {row.unit}"
    if text not in row.words:
        raise ValueProblem(f"`{text}` is not possible for `{name}`", f"write {' or '.join(row.words)}")
    return text


def _no_such_setting(name: str, path: Path) -> Trouble:
    near = nearest(name, [*catalogue(), *SETTINGS])
    says = f"`{name}` is neither a quantity nor a setting of the catalogue"
    if near:
        return Trouble(path, says, f"write `{near}`", WRONG, key=True)
    return Trouble(path, says, "it is kept as text; see the list of settings in the README", NOTE, key=True)
