"""Catalogue rows for clearances and fasteners."""

from logbook.quantity.catalogue import Quantity

CLEARANCE_ROWS: tuple[Quantity, ...] = ()
