"""What engine.yaml itself states that formulas ask for or rest on."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.quantity.catalogue import catalogue
from logbook.quantity.value import Stated
from logbook.record.facts import PUBLISHED, Fact, Statement
from logbook.record.models import Engine

_VALVES = re.compile(r"([1-9]) ?\+ ?[1-9]")
_KEY = "valves_per_cylinder"


def valves_of_each(engine: Engine | None) -> Iterator[Fact]:
    """The inlet valves of one cylinder, where engine.yaml says `valves_per_cylinder: 2+2`: counted, so exact."""
    text = getattr(engine, _KEY, None) or ""
    if found := _VALVES.fullmatch(text):
        stated = Statement("engine.yaml", (_KEY,), PUBLISHED, source="counted")
        count = Stated(float(found[1]), 0.0, 1.0)
        yield Fact(catalogue()["inlet_valves"], ((count,),), True, False, text, stated, (_KEY,))


def crevice_said(engine: Engine) -> str:
    """What to say beside a ratio: whether the crevice of the top land is in it."""
    return f"{engine.crevice} {'in' if engine.crevice == 'counted' else 'of'} every ratio"
