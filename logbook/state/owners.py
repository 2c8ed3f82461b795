"""Whose a figure is at a position: the one part, or the set of parts, with the piece of each that serves it.

A fact of a set is told apart by what was fitted when it was taken, position by position: it sleeps while one of these
parts is off, and wakes when they are together again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from logbook.quantity.catalogue import ENGINE, Quantity
from logbook.state.arrangement import Arrangement
from logbook.state.states import Fitting, State

Signature = tuple[tuple[str, int], ...]  # the parts that own a figure at a position, with the piece of each


@dataclass(frozen=True)
class Owners:
    """Answers for one state and for those that led to it; each is worked out once."""

    arrangement: Arrangement
    state: State
    _pieces: dict[tuple[str, str, str], int | None] = field(default_factory=dict)
    _signatures: dict[tuple[int, str, str], Signature] = field(default_factory=dict)

    def piece_of(self, part: str, row: Quantity, position: str) -> int | None:
        """Which of a fitted part's own positions serves an engine position; None if it does not serve it now."""
        key = (part, row.name, position)
        if key not in self._pieces:
            fitting = next((each for each in self.state.fitted.values() if each.part == part), None)
            self._pieces[key] = self._piece(fitting, row, position) if fitting else None
        return self._pieces[key]

    def signature(self, row: Quantity, position: str, state: State | None = None) -> Signature:
        """The parts that own a quantity at a position, with the piece of each, in this state or an earlier one."""
        state = state or self.state
        key = (id(state.fitted), row.name, position)  # states share what is fitted until it changes
        if key not in self._signatures:
            self._signatures[key] = tuple(self._owners(state, row, position))
        return self._signatures[key]

    def _owners(self, state: State, row: Quantity, position: str) -> Iterator[tuple[str, int]]:
        for kinds in row.owner:
            for fitting in state.fitted.values():
                piece = self._piece(fitting, row, position) if fitting.kind in kinds.split("|") else None
                if piece is not None:
                    yield fitting.part, piece

    def _piece(self, fitting: Fitting, row: Quantity, position: str) -> int | None:
        if row.place == ENGINE:
            return 0
        covered = self.arrangement.covered(fitting.at, row.place)
        if position not in covered or (fitting.off and self._is_off(fitting, row.place, position)):
            return None
        index = covered.index(position)
        if fitting.order is None:
            return index
        return fitting.order[index] if index < len(fitting.order) else None

    def _is_off(self, fitting: Fitting, place: str, position: str) -> bool:
        """Whether the piece of a set that serves a position has been exchanged or is off."""
        return any(position in self.arrangement.covered(f"cylinder {each}", place) for each in fitting.off)
