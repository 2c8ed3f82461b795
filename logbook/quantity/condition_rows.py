"""Catalogue rows for what a test of condition, of power or of oil tells."""

from logbook.quantity.catalogue import Quantity

CONDITION_ROWS: tuple[Quantity, ...] = ()
