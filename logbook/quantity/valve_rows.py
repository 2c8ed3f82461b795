"""Catalogue rows for valves, valve springs and lift."""

from logbook.quantity.catalogue import Quantity

VALVE_ROWS: tuple[Quantity, ...] = ()
