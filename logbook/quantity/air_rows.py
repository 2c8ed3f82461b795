"""Catalogue rows for air, flow, boost, fuel and spark."""

from logbook.quantity.catalogue import Quantity

AIR_ROWS: tuple[Quantity, ...] = ()
