"""One step of work, from the state before it to the state after it. Each kind of step has one method, named for it.

In: a record, a state, steps. Out: the new state, the reworks done, and findings for steps that cannot be. Steps that
change nothing in the engine (a note of torque, a service, what is due) have no method here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from string import ascii_uppercase
from typing import Any

from logbook.quantity.catalogue import BANK_KINDS, CYLINDER, catalogue, nearest, quantity
from logbook.record import entries as model
from logbook.record.finding import WRONG, Finding
from logbook.record.operations import OPERATIONS
from logbook.record.read import Entry, Record
from logbook.state.arrangement import Arrangement
from logbook.state.counters import Counters
from logbook.state.states import PLANNED, Fitting, Moment, Reworked, Setting, Slot, State, TuneState

#: Turning the camshaft against the crankshaft moves all of these together.
TIMING = frozenset(
    {"inlet_opens", "inlet_closes", "exhaust_opens", "exhaust_closes", "inlet_lobe_centre", "exhaust_lobe_centre"}
)

#: Kinds of which an engine carries any number.
MANY = frozenset({"other", "bolts"})


class Folder:
    """The running state of the fold."""

    def __init__(self, record: Record, state: State | None = None) -> None:
        self.record = record
        self.arrangement = Arrangement.of(record.engine)
        counters = Counters.of({name: kind.unit for name, kind in record.engine.counters.items()})
        self.start = State(-1, counters)
        self.state = state or self.start
        self.within: dict[Moment, State] = {}
        self.reworks: list[Reworked] = []
        self.findings: list[Finding] = []

    def take(self, number: int, entry: Entry) -> None:
        """One entry: its reading first, then its steps."""
        self.state = replace(self.state, number=number)
        steps = entry.says.work if isinstance(entry.says, model.Change) else ()
        self._read(entry)
        for index, step in enumerate(steps):
            self.within[(number, index)] = self.state
            self.step((number, index), step, entry.file)
        if isinstance(entry.says, model.Change) and entry.says.build:
            self.state = replace(self.state, build=entry.says.build)

    def _read(self, entry: Entry) -> None:
        counters, complaints = self.state.counters.read(entry.says.reading)
        self.state = replace(self.state, counters=counters)
        for complaint in complaints:
            self.findings.append(
                self.record.finding(
                    entry.file,
                    ("reading",),
                    WRONG,
                    complaint,
                    "correct the reading, or enter the change of counter with a `counter:` step",
                )
            )

    def step(self, moment: Moment, step: model.Step, file: str) -> None:
        """One step of work."""
        apply = _STEPS.get(type(step))
        if apply:
            apply(self, moment, step, file)

    def _wrong(self, file: str, moment: Moment, key: str, says: str, mend: str) -> None:
        self.findings.append(self.record.finding(file, ("work", moment[1] % PLANNED, key), WRONG, says, mend))

    def _known(self, part: str, moment: Moment, key: str, file: str) -> bool:
        if part in self.record.parts:
            return True
        if self.record.unreadable(f"parts/{part}"):
            return False  # its own finding says why it could not be read
        near = nearest(part, list(self.record.parts))
        self._wrong(
            file,
            moment,
            key,
            f"there is no part `{part}`",
            f"write `{near}`" if near else f"describe it in parts/{part}.yaml",
        )
        return False

    # fitting and removing

    def fit(self, moment: Moment, step: model.Fit, file: str) -> None:
        if not self._known(step.fit, moment, "fit", file):
            return
        slot = self._slot(step, moment, file)
        if slot is None:
            return
        standing = next((f for f in self.state.fitted.values() if f.part == step.fit), None)
        if standing and (standing.kind, standing.at) != slot:
            return self._wrong(
                file,
                moment,
                "fit",
                f"`{step.fit}` is already fitted{_where(standing.at)}",
                "remove it there first, or give the second part a file of its own",
            )
        there = self.state.fitted.get(slot)
        if there:
            self._take_off(there)
        order = self._order(step, moment, file)
        fitting = Fitting(step.fit, slot[0], step.at or "", moment, order)
        self.state = replace(
            self.state,
            fitted={**self.state.fitted, slot: fitting},
            begun={**self.state.begun, step.fit: self.state.counters.totals},
        )

    def _slot(self, step: model.Fit, moment: Moment, file: str) -> Slot | None:
        kind = self.record.parts[step.fit].kind
        if kind in MANY:
            return kind, step.fit
        banks = list(self.arrangement.banks)
        if step.at is None and kind in BANK_KINDS and len(banks) > 1 and not self._spans_banks(kind):
            self._wrong(
                file,
                moment,
                "fit",
                f"this engine has {len(banks)} banks, and `{step.fit}` serves one of them",
                f"add {' or '.join(f'`at: bank {bank}`' for bank in banks)}"
                + (", or `camshafts: in the block` to engine.yaml" if "camshaft" in kind else ""),
            )
            return None
        if step.at and not self._is_place(step.at):
            self._wrong(
                file,
                moment,
                "at",
                f"`{step.at}` is no place on this engine",
                f"write bank {' or bank '.join(banks)}, or cylinder 1 to {len(self.arrangement.cylinders)}",
            )
            return None
        return kind, "" if step.at and len(banks) == 1 and step.at.startswith("bank") else step.at or ""

    def _spans_banks(self, kind: str) -> bool:
        in_block = "block" in (self.record.engine.camshafts or "")
        return (kind in ("camshaft", "inlet_camshaft", "exhaust_camshaft") and in_block) or kind in (
            "valve_springs",
            "inlet_valves",
            "exhaust_valves",
            "inlet_manifold",
            "exhaust_manifold",
            "turbocharger",
        )

    def _is_place(self, at: str) -> bool:
        where, _, name = at.partition(" ")
        return (where == "bank" and name in self.arrangement.banks) or (
            where == "cylinder" and name in self.arrangement.cylinders
        )

    def _order(self, step: model.Fit, moment: Moment, file: str) -> tuple[int, ...] | None:
        if step.order is None:
            return None
        wanted = len(self.arrangement.covered(step.at or "", CYLINDER))
        letters = ascii_uppercase[: self.record.parts[step.fit].pieces or wanted]
        named = [each.strip() for each in step.order.split("/")]
        if len({*named} & {*letters}) == len(named) == wanted:
            return tuple(map(letters.index, named))
        mend = f"write {wanted} different letters out of A to {letters[-1]}, with ` / ` between"
        self._wrong(file, moment, "order", f"`{step.order}` does not name one piece for each cylinder", mend)
        return None

    def remove(self, moment: Moment, step: model.Remove, file: str) -> None:
        if not self._known(step.remove, moment, "remove", file):
            return
        standing = next((f for f in self.state.fitted.values() if f.part == step.remove), None)
        if standing is None:
            return self._wrong(
                file,
                moment,
                "remove",
                f"`{step.remove}` is not fitted at this moment",
                "leave the step out, or correct the date",
            )
        self._take_off(standing)

    def _take_off(self, fitting: Fitting) -> None:
        run = self.state.has_run(fitting.part)
        fitted = {slot: each for slot, each in self.state.fitted.items() if each.part != fitting.part}
        begun = {part: totals for part, totals in self.state.begun.items() if part != fitting.part}
        self.state = replace(self.state, fitted=fitted, begun=begun, run={**self.state.run, fitting.part: run})

    # everything else

    def rework(self, moment: Moment, step: model.Rework, file: str) -> None:
        if not self._known(step.rework, moment, "rework", file):
            return
        touches = OPERATIONS.get(step.operation)
        if touches is None:
            near = nearest(step.operation, list(OPERATIONS))
            return self._wrong(
                file,
                moment,
                "operation",
                f"`{step.operation}` is not an operation of the table",
                f"write `{near}`" if near else f"write one of {', '.join(OPERATIONS)}",
            )
        depth = self.record.depth_of(file, moment[1])
        self.reworks.append(Reworked(step.rework, step.operation, frozenset(touches), moment, depth))

    def set(self, moment: Moment, step: model.Set, file: str) -> None:
        texts = {name: Setting(raw, moment) for name, raw in step.set.items() if isinstance(raw, str)}
        self.state = replace(self.state, settings={**self.state.settings, **texts})
        for name in step.set:
            if name in catalogue():
                touched = TIMING if name in TIMING else frozenset({name})
                self.reworks += [Reworked(part, "set", touched, moment, adjusted=True) for part in self._owners(name)]

    def _owners(self, name: str) -> tuple[str, ...]:
        """The fitted parts of the first kind that owns a quantity; '' where it belongs to no part."""
        owner = quantity(name).owner
        if not owner:
            return ("",)
        return tuple(fitting.part for fitting in self.state.fitted.values() if fitting.kind in owner[0].split("|"))

    def tune(self, moment: Moment, step: model.Tune, file: str) -> None:
        if step.state != "withdrawn":
            self.state = replace(self.state, tune=TuneState(step.tune, step, moment))
        elif self.state.tune and self.state.tune.label == step.tune:
            self.state = replace(self.state, tune=None)

    def counter(self, moment: Moment, step: model.Counter, file: str) -> None:
        self._change_counters(moment, step.counter, file, "counter")

    def move(self, moment: Moment, step: model.Move, file: str) -> None:
        self._change_counters(moment, step.counters, file, "counters")
        self.state = replace(self.state, vehicle=step.move)

    def _change_counters(self, moment: Moment, changes: Mapping[str, model.Was], file: str, key: str) -> None:
        for name, change in changes.items():
            try:
                counters, complaint = self.state.counters.changed(name, change.was, change.now)
            except ValueError as problem:
                counters, complaint = self.state.counters, str(problem)
            self.state = replace(self.state, counters=counters)
            if complaint:
                self._wrong(file, moment, key, complaint, "write the reading that was found, as `was:` and `now:`")

    def owner(self, moment: Moment, step: model.Owner, file: str) -> None:
        if step.part and step.owner in ("sold", "scrapped"):
            self.state = replace(self.state, gone={**self.state.gone, step.part: step.owner})


def _where(at: str) -> str:
    return f" at {at}" if at else ""


_STEPS: Mapping[type[model.Step], Callable[[Folder, Moment, Any, str], None]] = {
    model.Fit: Folder.fit,
    model.Remove: Folder.remove,
    model.Rework: Folder.rework,
    model.Set: Folder.set,
    model.Tune: Folder.tune,
    model.Counter: Folder.counter,
    model.Move: Folder.move,
    model.Owner: Folder.owner,
}
