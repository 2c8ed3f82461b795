"""One step of work, from the state before it to the state after it. Each kind of step has one method, named for it.

In: a record, a state, steps. Out: the new state, the reworks done, and findings for steps that cannot be. Steps that
change nothing in the engine (a note of torque, a service, what is due) have no method here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from logbook.quantity.catalogue import catalogue, nearest, quantity
from logbook.record import entries as model
from logbook.record.finding import NOTE, WRONG, Finding
from logbook.record.operations import OPERATIONS
from logbook.record.record import Entry, Record
from logbook.state.arrangement import Arrangement
from logbook.state.counters import Counters
from logbook.state.places import Complaint, Places
from logbook.state.states import PLANNED, Moment, Reworked, Setting, State, TuneState

#: Turning the camshaft against the crankshaft moves all of these together.
TIMING = frozenset(
    {
        "inlet_opens",
        "inlet_closes",
        "exhaust_opens",
        "exhaust_closes",
        "inlet_lobe_centre",
        "exhaust_lobe_centre",
        "inlet_peak_centre",
        "exhaust_peak_centre",
        "inlet_lift_at_tdc",
        "exhaust_lift_at_tdc",
    }
)


class Folder:
    """The running state of the fold."""

    def __init__(self, record: Record, state: State | None = None, arrangement: Arrangement | None = None) -> None:
        self.record = record
        self.arrangement = arrangement or Arrangement.of(record.engine)
        self.places = Places(record, self.arrangement)
        counters = Counters.of({name: kind.unit for name, kind in record.engine.counters.items()})
        self.start = State(-1, counters)
        self.state = state or self.start
        self.within: dict[Moment, State] = {}
        self.reworks: list[Reworked] = []
        self.findings: list[Finding] = []

    def take(self, number: int, entry: Entry) -> None:
        """One entry: its reading first, then its steps."""
        steps = entry.says.work if isinstance(entry.says, model.Change) else ()
        self._read(number, entry)
        for index, step in enumerate(steps):
            self.within[(number, index)] = self.state
            self.step((number, index), step, entry.file)
        if isinstance(entry.says, model.Change) and entry.says.build:
            self.state = self.state._replace(build=entry.says.build)

    def _read(self, number: int, entry: Entry) -> None:
        counters, complaints = self.state.counters.read(entry.says.reading)
        self.state = self.state._replace(number=number, counters=counters)
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
        if self._known(step.fit, moment, "fit", file):
            if moment[1] < PLANNED:  # what is only thought of may be thought of with any part
                self._complain(file, moment, self._not_here(step.fit))
            self.state, complaint = self.places.fit(self.state, moment, step)
            self._complain(file, moment, complaint)

    def _not_here(self, part: str) -> Complaint | None:
        """Why a part cannot be fitted that is no longer the owner's, or is not his yet."""
        gone = self.state.gone.get(part)
        if gone:
            mend = f"correct the date, or enter that it came back: `owner: bought` with `part: {part}`"
            return "fit", f"`{part}` was {gone} before this", mend
        if self.record.parts[part].state == "thought of":
            mend = f"take `state: thought of` out of parts/{part}.yaml once it is there"
            return "fit", f"`{part}` is only thought of", mend
        return None

    def remove(self, moment: Moment, step: model.Remove, file: str) -> None:
        if self._known(step.remove, moment, "remove", file):
            self.state, complaint = self.places.remove(self.state, step)
            self._complain(file, moment, complaint)

    def _complain(self, file: str, moment: Moment, complaint: Complaint | None) -> None:
        if complaint:
            self._wrong(file, moment, *complaint)

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
        depth = self.record.depth_of(file, moment[1] % PLANNED)
        self.reworks.append(Reworked(step.rework, step.operation, frozenset(touches), moment, depth))

    def set(self, moment: Moment, step: model.Set, file: str) -> None:
        texts = {name: Setting(raw, moment) for name, raw in step.set.items() if isinstance(raw, str)}
        self.state = self.state._replace(settings={**self.state.settings, **texts})
        self._tell_of_turned(moment, step, file)
        for name in step.set:
            if name in catalogue():
                touched = TIMING if name in TIMING else frozenset({name})
                self.reworks += [Reworked(part, "set", touched, moment, adjusted=True) for part in self._owners(name)]

    def _tell_of_turned(self, moment: Moment, step: model.Set, file: str) -> None:
        """What an earlier step of the entry read of the camshaft holds no more once a later one turns it: easily meant
        otherwise, and then a figure is lost without a word."""
        turning = TIMING.intersection(step.set)
        if not turning or moment[1] >= PLANNED:
            return
        for index, before in enumerate(self.record.entries[moment[0]].says.work[: moment[1]]):
            read = isinstance(before, model.Set) and TIMING.intersection(before.set)
            if read and not turning >= read:
                lost, by = sorted(read - turning), sorted(turning)
                self.findings.append(
                    self.record.finding(
                        file,
                        ("work", index, "set", lost[0]),
                        NOTE,
                        f"{_quoted(lost)} set here holds no more: a later step sets {_quoted(by)}, which turns the "
                        "camshaft",
                        "where all were read as it now stands, write them in one step",
                    )
                )

    def _owners(self, name: str) -> tuple[str, ...]:
        """The fitted parts of the first kind that owns a quantity; '' where it belongs to no part."""
        owner = quantity(name).owner
        if not owner:
            return ("",)
        return tuple(fitting.part for fitting in self.state.fitted.values() if fitting.kind in owner[0].split("|"))

    def tune(self, moment: Moment, step: model.Tune, file: str) -> None:
        if step.state != "withdrawn":
            self.state = self.state._replace(tune=TuneState(step.tune, step, moment))
        elif self.state.tune and self.state.tune.label == step.tune:
            self.state = self.state._replace(tune=None)

    def counter(self, moment: Moment, step: model.Counter, file: str) -> None:
        self._change_counters(moment, step.counter, file, "counter")

    def move(self, moment: Moment, step: model.Move, file: str) -> None:
        self._change_counters(moment, step.counters, file, "counters")
        self.state = self.state._replace(vehicle=step.move)

    def _change_counters(self, moment: Moment, changes: Mapping[str, model.Was], file: str, key: str) -> None:
        for name, change in changes.items():
            try:
                counters, complaint = self.state.counters.changed(name, change.was, change.now)
            except ValueError as problem:
                counters, complaint = self.state.counters, str(problem)
            self.state = self.state._replace(counters=counters)
            if complaint:
                self._wrong(file, moment, key, complaint, "write the reading that was found, as `was:` and `now:`")

    def owner(self, moment: Moment, step: model.Owner, file: str) -> None:
        if step.part and step.owner in ("sold", "scrapped"):
            self.state = self.state._replace(gone={**self.state.gone, step.part: step.owner})
        elif step.part in self.state.gone:
            left = {part: where for part, where in self.state.gone.items() if part != step.part}
            self.state = self.state._replace(gone=left)


def _quoted(names: list[str]) -> str:
    return ", ".join(f"`{name}`" for name in names)


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
