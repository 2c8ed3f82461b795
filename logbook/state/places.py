"""Parts in their places: fitted, taken off, and single pieces of a set exchanged.

In: a state and a step. Out: the state after it, and a complaint where it cannot be so. A part that is fitted takes the
place of every part of its kind that it covers; of a greater set only the piece in that cylinder comes off, and the rest
of the set stays where it is. What each part and each piece has run is kept from fit to fit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from string import ascii_uppercase
from typing import NamedTuple

from logbook.quantity.catalogue import BANK_KINDS, CYLINDER, CYLINDER_KINDS, PART_KINDS
from logbook.record import entries as model
from logbook.record.record import Record
from logbook.state.arrangement import Arrangement
from logbook.state.states import Fitting, Moment, Slot, State, piece_name

#: Kinds of which an engine carries any number.
MANY = frozenset({"other", "bolts"})

#: Kinds of which one serves the whole engine.
ONE_FOR_ALL = frozenset({"crankshaft", "flywheel", "oil_pump", "water_pump", "timing_drive"})

#: The key of the step that is meant, what cannot be, what to do.
Complaint = tuple[str, str, str]


class Places(NamedTuple):
    """Fits and takes off, for one record."""

    record: Record
    arrangement: Arrangement

    def fit(self, state: State, moment: Moment, step: model.Fit) -> tuple[State, Complaint | None]:
        """The state once the part is in its place, and what is wrong with the step."""
        slot, complaint = self._slot(step)
        if slot is None:
            return state, complaint
        standing = _slot_of(state, step.fit)
        if standing and standing != slot:
            if self._is_set(state.fitted[standing]) and self._within(slot, standing):
                return self._own_piece(state, standing, step)
            mend = "remove it there first, or give the second part a file of its own"
            return state, ("fit", f"`{step.fit}` is already fitted{_where(standing[1])}", mend)
        order, complaint = self._order(step)
        at = "" if slot[0] in MANY else slot[1]
        return self._begin(self._clear(state, slot), slot, Fitting(step.fit, slot[0], at, moment, order)), complaint

    def remove(self, state: State, step: model.Remove) -> tuple[State, Complaint | None]:
        """The state once the part, or its piece in one cylinder, is off."""
        slot, at = _slot_of(state, step.remove), step.at
        if slot is None:
            mend = "leave the step out, or correct the date"
            return state, ("remove", f"`{step.remove}` is not fitted at this moment", mend)
        fitting = state.fitted[slot]
        if at is None or at == fitting.at or fitting.kind in MANY:
            return self._take_off(state, slot), None
        cylinders = self.arrangement.covered(at, CYLINDER) if self._is_place(at) else ()
        if cylinders and set(cylinders) <= self._served(fitting):
            return self._pieces_off(state, slot, cylinders), None
        return state, ("at", f"`{step.remove}` is not at {at} at this moment", "correct the place, or leave out `at:`")

    # where a part goes

    def _slot(self, step: model.Fit) -> tuple[Slot | None, Complaint | None]:
        kind, at = self.record.parts[step.fit].kind, step.at
        banks = list(self.arrangement.banks)
        if kind in MANY:
            return (kind, step.fit), None
        if at is None and self.one_for_each_bank(kind):
            says = f"this engine has {len(banks)} banks, and `{step.fit}` serves one of them"
            mend = f"add {' or '.join(f'`at: bank {bank}`' for bank in banks)}"
            in_block = ", or `camshafts: in the block` to engine.yaml" if "camshaft" in kind else ""
            return None, ("fit", says, mend + in_block)
        if at and not self._is_place(at):
            mend = f"write bank {' or bank '.join(banks)}, or cylinder 1 to {len(self.arrangement.cylinders)}"
            return None, ("at", f"`{at}` is no place on this engine", mend)
        if at and kind in ONE_FOR_ALL and len(self._cylinders(at)) < len(self.arrangement.cylinders):
            return None, ("at", f"the {PART_KINDS[kind][0]} serves the whole engine, not {at}", "leave out `at:`")
        if at is None and self._too_few(step.fit):
            pieces, cylinders = self.record.parts[step.fit].pieces, len(self.arrangement.cylinders)
            says = f"`{step.fit}` has {_pieces_of(pieces)}, and there are {cylinders} cylinders"
            return None, ("fit", says, "say where it goes: add `at: cylinder …`")
        return (kind, "" if at and len(banks) == 1 and at.startswith("bank") else at or ""), None

    def one_for_each_bank(self, kind: str) -> bool:
        """Whether each of several banks has a part of that kind of its own."""
        return kind in BANK_KINDS and len(self.arrangement.banks) > 1 and not self._spans_banks(kind)

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

    def _too_few(self, part: str) -> bool:
        said = self.record.parts[part]
        return said.kind in CYLINDER_KINDS and 0 < (said.pieces or 0) < len(self.arrangement.cylinders)

    def _cylinders(self, at: str) -> tuple[str, ...]:
        return self.arrangement.covered(at, CYLINDER)

    def _served(self, fitting: Fitting) -> set[str]:
        """The cylinders that a part serves, without those whose piece is off."""
        return {*self._cylinders(fitting.at)} - fitting.off

    def _within(self, slot: Slot, other: Slot) -> bool:
        return slot[0] == other[0] and {*self._cylinders(slot[1])} < {*self._cylinders(other[1])}

    def _is_set(self, fitting: Fitting) -> bool:
        """Whether a part is made of pieces that can be exchanged one by one."""
        many = len(self._cylinders(fitting.at)) > 1
        return many and (fitting.kind in CYLINDER_KINDS or (self.record.parts[fitting.part].pieces or 1) > 1)

    # which piece goes where

    def _order(self, step: model.Fit) -> tuple[tuple[int, ...] | None, Complaint | None]:
        wanted, pieces = len(self._cylinders(step.at or "")), self.record.parts[step.fit].pieces
        if step.order is None:
            if wanted == 1 and len(self.arrangement.cylinders) > 1 and (pieces or 1) > 1:
                says = f"`{step.fit}` has {pieces} pieces, and one goes to {step.at}"
                return None, ("fit", says, "say which: add `order: A`")
            return None, None
        letters = ascii_uppercase[: pieces or wanted]
        named = [each.strip() for each in step.order.split("/")]
        if len({*named} & {*letters}) == len(named) == wanted:
            return tuple(map(letters.index, named)), None
        which = f"{wanted} different letters out of A to {letters[-1]}" if wanted > 1 else f"one of A to {letters[-1]}"
        mend = f"write {which}, with ` / ` between" if wanted > 1 else f"write {which}"
        return None, ("order", f"`{step.order}` does not name one piece for each cylinder", mend)

    def _own_piece(self, state: State, slot: Slot, step: model.Fit) -> tuple[State, Complaint | None]:
        """A piece of a set whose other pieces are in: the one that stood there, or another one of it."""
        standing, cylinders = state.fitted[slot], self._cylinders(step.at or "")
        order, complaint = self._order(step) if step.order else (None, None)
        if complaint:
            return state, complaint
        fitting = self._with_pieces(standing, cylinders, order)
        at = dict(self._pieces(fitting))
        twice = [piece for cylinder, piece in self._pieces(standing) if cylinder not in cylinders]
        taken = next((at[cylinder] for cylinder in cylinders if at[cylinder] in twice), None)
        if taken is not None:
            says = f"{piece_name(step.fit, taken)} is already in another cylinder"
            return state, ("order", says, "name another piece, or take that one off first")
        if dict(self._pieces(standing)) == at:
            says = f"the piece of `{step.fit}` is already at {step.at}"
            return state, ("at", says, "leave the step out, or correct the place")
        cleared = self._clear(state, (slot[0], step.at or ""))
        begun = dict.fromkeys((piece_name(step.fit, at[each]) for each in cylinders), state.counters.totals)
        the_set = {step.fit: cleared.begun.get(step.fit, state.counters.totals)}
        fitted = {**cleared.fitted, slot: fitting}
        return cleared._replace(fitted=fitted, begun={**cleared.begun, **the_set, **begun}), None

    def _with_pieces(self, standing: Fitting, cylinders: tuple[str, ...], order: tuple[int, ...] | None) -> Fitting:
        """The same set with pieces in these cylinders: in the order given, else those that belong there."""
        if order is None:
            return standing._replace(off=standing.off - {*cylinders})
        covered = self._cylinders(standing.at)
        pieces = list(standing.order or range(len(covered)))
        for cylinder, piece in zip(cylinders, order, strict=True):
            pieces[covered.index(cylinder)] = piece
        return standing._replace(order=tuple(pieces), off=standing.off - {*cylinders})

    def _pieces(self, fitting: Fitting) -> Iterator[tuple[str, int]]:
        """Each cylinder that a set serves, with the number of its piece there."""
        for index, cylinder in enumerate(self._cylinders(fitting.at)):
            if cylinder not in fitting.off:
                yield cylinder, fitting.order[index] if fitting.order else index

    # into the state and out of it

    def _begin(self, state: State, slot: Slot, fitting: Fitting) -> State:
        names = (fitting.part, *self._names(fitting, self._served(fitting)))
        begun = {**state.begun, **dict.fromkeys(names, state.counters.totals)}
        return state._replace(fitted={**state.fitted, slot: fitting}, begun=begun)

    def _names(self, fitting: Fitting, cylinders: Iterable[str]) -> list[str]:
        """The pieces of a set in these cylinders, by their names; none for a part that is one."""
        if fitting.kind in MANY or not self._is_set(fitting):
            return []
        return [piece_name(fitting.part, piece) for cylinder, piece in self._pieces(fitting) if cylinder in cylinders]

    def _clear(self, state: State, slot: Slot) -> State:
        """Whatever of that kind stood there comes off."""
        if slot[0] in MANY:
            return self._take_off(state, slot) if slot in state.fitted else state
        wanted = {*self._cylinders(slot[1])}
        for there, fitting in state.fitted.items():
            overlap = wanted & {*self._cylinders(fitting.at)} if fitting.kind == slot[0] else set()
            if overlap and there != slot and self._is_set(fitting):
                state = self._pieces_off(state, there, overlap - fitting.off)
            elif overlap:
                state = self._take_off(state, there)
        return state

    def _pieces_off(self, state: State, slot: Slot, cylinders: Iterable[str]) -> State:
        """Single pieces of a set off; the set itself once none is left."""
        fitting = state.fitted[slot]
        left = fitting._replace(off=fitting.off | {*cylinders})
        if not self._served(left):
            return self._take_off(state, slot)
        closed = _closed(state, self._names(fitting, cylinders))
        return closed._replace(fitted={**closed.fitted, slot: left})

    def _take_off(self, state: State, slot: Slot) -> State:
        fitting = state.fitted[slot]
        closed = _closed(state, [fitting.part, *self._names(fitting, self._served(fitting))])
        return closed._replace(fitted={place: each for place, each in closed.fitted.items() if place != slot})


def _closed(state: State, names: Iterable[str]) -> State:
    """What these parts or pieces have run so far is kept, and they run no further."""
    closed = {name: state.has_run(name) for name in names}
    begun = {name: totals for name, totals in state.begun.items() if name not in closed}
    return state._replace(begun=begun, run={**state.run, **closed})


def _slot_of(state: State, part: str) -> Slot | None:
    return next((slot for slot, fitting in state.fitted.items() if fitting.part == part), None)


def _pieces_of(count: int | None) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"


def _where(at: str) -> str:
    return f" at {at}" if at else ""
