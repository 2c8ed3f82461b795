"""Where things are in an engine: cylinders, banks, journals, and which of them a part serves.

The only code that knows positions. In: engine.yaml. Out: position names ('1' … '16', banks '1' and '2', '' for the
engine) and the way from a position of one place to those of another.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from logbook.quantity.catalogue import BANK, CYLINDER, ENGINE, MAIN_JOURNAL, ROD_JOURNAL
from logbook.record.models import Engine

WHOLE = ("",)  # the one position of the place 'engine'


@dataclass(frozen=True, eq=False)  # one for each engine, told apart by being it
class Arrangement:
    """Positions of one engine, in its own numbering."""

    cylinders: tuple[str, ...]
    banks: Mapping[str, tuple[str, ...]]
    main_journals: int
    rod_journals: int

    @classmethod
    def of(cls, engine: Engine) -> Arrangement:
        """From engine.yaml. Without `banks:` a vee or flat engine has its odd cylinders in bank 1, even in bank 2."""
        cylinders = tuple(str(number) for number in range(1, engine.cylinders + 1))
        banks = _banks(engine, cylinders)
        shared = engine.arrangement == "vee" and len(cylinders) % 2 == 0
        rod_journals = len(cylinders) // 2 if shared else len(cylinders)
        return cls(cylinders, banks, engine.main_bearings or len(cylinders) + 1, rod_journals)

    @cached_property
    def _positions(self) -> Mapping[str, tuple[str, ...]]:
        return {
            ENGINE: WHOLE,
            BANK: tuple(self.banks),
            CYLINDER: self.cylinders,
            MAIN_JOURNAL: tuple(str(number) for number in range(1, self.main_journals + 1)),
            ROD_JOURNAL: tuple(str(number) for number in range(1, self.rod_journals + 1)),
        }

    def positions(self, place: str) -> tuple[str, ...]:
        """Every position of a place, in the engine's numbering."""
        return self._positions[place]

    @cached_property
    def bank_of(self) -> Mapping[str, str]:
        """The bank of each cylinder."""
        return {cylinder: bank for bank, some in self.banks.items() for cylinder in some}

    def across(self, place: str, position: str, other: str) -> tuple[str, ...]:
        """Positions of `other` that belong to one of `place`.

        Cylinder 5 -> its bank, its crankpin; bank 1 or crankpin 1 -> its cylinders; anything else -> all of them.
        """
        if place == other:
            return (position,)
        if place == CYLINDER and other == BANK:
            return (self.bank_of[position],)
        if place == BANK and other == CYLINDER:
            return self.banks[position]
        if place == CYLINDER and other == ROD_JOURNAL:
            return (self._rod_journal(position),)
        if place == ROD_JOURNAL and other == CYLINDER:
            return tuple(each for each in self.cylinders if self._rod_journal(each) == position)
        return self.positions(other)

    def covered(self, at: str, place: str) -> tuple[str, ...]:
        """Positions of `place` that a part fitted at `at` ('' everywhere, 'bank 1', 'cylinder 4') serves."""
        if not at or place == MAIN_JOURNAL:
            return self.positions(place)
        where, name = at.split(" ", 1)
        if place == ROD_JOURNAL:
            return (self._rod_journal(name),) if where == CYLINDER else self.positions(place)
        return self.across(where, name, place)

    def _rod_journal(self, cylinder: str) -> str:
        """The crankpin of a cylinder: its own, or in a vee that of its place in the bank."""
        if self.rod_journals == len(self.cylinders):
            return cylinder
        return str(self.banks[self.bank_of[cylinder]].index(cylinder) + 1)


def _banks(engine: Engine, cylinders: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    if engine.named_banks:
        return engine.named_banks
    if engine.arrangement in ("vee", "flat") and len(cylinders) > 1:
        return {"1": cylinders[0::2], "2": cylinders[1::2]}
    return {"1": cylinders}
