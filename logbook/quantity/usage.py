"""How an owner reads: the trade's words in UK or US usage, metric or imperial units."""

from __future__ import annotations

import re
from dataclasses import dataclass

from logbook.quantity.catalogue import PART_KINDS, Quantity
from logbook.quantity.units import BARE, Unit, unit

#: Words of our own sentences that US usage has otherwise; names of quantities and parts are in the catalogue.
_US_WORDS = {
    "centre": "center", "colour": "color", "crankpins": "rod journals", "inlet": "intake", "joint face": "deck face",
    "petrol": "gasoline", "squish": "quench", "tyres": "tires", "vapour": "vapor",
}  # fmt: skip
_UK_WORD = re.compile(rf"(?<![\w-])(?:{'|'.join(_US_WORDS)})(?![\w-])", re.IGNORECASE)


@dataclass(frozen=True)
class Usage:
    """The words and units of one owner."""

    us: bool = False
    imperial: bool = False

    def name(self, row: Quantity) -> str:
        """The trade's name, as it stands in a sentence."""
        return row.us if self.us else row.uk

    def kind(self, kind: str) -> str:
        """A part kind in words."""
        return PART_KINDS[kind][self.us]

    def prose(self, sentence: str) -> str:
        """A sentence of ours, written in UK usage, in the owner's; a name such as inlet-1 stays as it is.

        >>> Usage(us=True).prose("Petrol: its vapour is heavier than air.")
        'Gasoline: its vapor is heavier than air.'
        """
        return _UK_WORD.sub(lambda found: _as_us(found[0]), sentence) if self.us else sentence

    def unit(self, row: Quantity) -> str:
        """The symbol of the unit that the quantity is read in; '' for none."""
        return row.imperial if self.imperial and row.imperial else row.unit

    def scale(self, row: Quantity) -> Unit:
        """That unit; one that leaves a number as it is for none."""
        return unit(self.unit(row)) if row.unit else BARE

    def said(self, row: Quantity, base: float, digits: int = 4) -> str:
        """A base value with its unit, in that many digits; of a signed figure with its side.

        >>> from logbook.quantity.catalogue import quantity
        >>> Usage().said(quantity("inlet_closes"), -4.0)
        '4 deg before BDC'
        >>> Usage(imperial=True).said(quantity("bore"), 0.0762)
        '3 in'
        """
        number = self.scale(row).from_base(abs(base) if row.sides else base)
        side = f" {row.sides[base < 0]}" if row.sides and base else ""
        return f"{number:.{digits}g} {self.unit(row)}".rstrip() + side


def _as_us(word: str) -> str:
    us = _US_WORDS[word.lower()]
    return us.capitalize() if word[0].isupper() else us
