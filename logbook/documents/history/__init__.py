"""The history document filled from a logbook: fill.history() is the door; each file beside it fills one part of it."""
