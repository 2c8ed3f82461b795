"""The units that a workshop writes, as a closed table; the table itself stands in unit_rows.py.

A unit belongs to one *kind*. Torque and energy, gauge and absolute pressure, a temperature and a difference of two are
different kinds, although physics measures them alike: a figure in the wrong one of them is a mistake that costs metal.

Base units: m, m2, m3, kg, s, N, N m, J, W, Pa, K and what follows from them, but the *degree* for angles (of the crank)
and revolutions per second for engine speed. A share of 1 is 100 %. Ratios and counts have no unit (BARE).
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from logbook.quantity.unit_rows import BARE, SLIPS, UNITS, Unit

__all__ = ["BARE", "BARE_KINDS", "KIND_WORDS", "UNITS", "Unit", "UnknownUnit", "is_unit", "unit", "units_of"]

#: Kinds in words, for messages.
KIND_WORDS: Mapping[str, str] = {
    "length": "a length",
    "distance": "a distance",
    "area": "an area",
    "lift_area": "an area under a lift curve",
    "volume": "a volume",
    "mass": "a mass",
    "time": "a time",
    "angle": "an angle",
    "engine_speed": "an engine speed",
    "speed": "a speed",
    "acceleration": "an acceleration",
    "force": "a force",
    "spring_rate": "a spring rate",
    "torque": "a torque",
    "energy": "an energy",
    "power": "a power",
    "pressure_gauge": "a gauge pressure",
    "pressure_absolute": "an absolute pressure",
    "pressure_difference": "a pressure difference",
    "temperature": "a temperature",
    "temperature_difference": "a temperature difference",
    "stress": "a stress",
    "expansion": "an expansion with heat",
    "volume_flow": "a volume flow",
    "mass_flow": "a mass flow",
    "density": "a density",
    "share": "a share",
    "share_rate": "a share for each hour",
    "viscosity": "a viscosity",
    "consumption": "a consumption over distance",
    "specific_output": "a power of each volume",
    "specific_consumption": "a mass for each energy",
    "specific_energy": "an energy for each mass",
    "ratio": "a ratio",
    "count": "a count",
}

#: Kinds that are written bare.
BARE_KINDS = frozenset({"ratio", "count"})


class UnknownUnit(ValueError):
    """A text that is no unit of the table. `says` is what is wrong, `mend` what to write instead."""

    def __init__(self, says: str, mend: str) -> None:
        super().__init__(f"{says}: {mend}")
        self.says = says
        self.mend = mend


_BY_NAME: Mapping[str, Unit] = {name: row for row in UNITS for name in (row.symbol, *row.aliases)}
_BY_FOLDED: Mapping[str, Unit] = {name.casefold(): row for name, row in reversed([*_BY_NAME.items()])}


def unit(symbol: str) -> Unit:
    """The unit of that symbol or alias; UnknownUnit, whose message says what to write, if there is none."""
    found = _BY_NAME.get(symbol) or _BY_NAME.get(" ".join(symbol.split()))
    if found is None:
        raise _unknown(" ".join(symbol.split()))
    return found


def is_unit(symbol: str) -> bool:
    """Whether the table has that symbol or alias."""
    return symbol in _BY_NAME


@cache
def units_of(kind: str) -> tuple[Unit, ...]:
    """The units of a kind, the usual one first; none for ratios, counts and kinds that do not exist."""
    return tuple(row for row in UNITS if row.kind == kind)


def _unknown(text: str) -> UnknownUnit:
    shown = text if len(text) <= 30 else text[:29] + "…"
    return UnknownUnit(f"'{shown}' is not a unit that is known here", _what_to_write(text))


def _what_to_write(text: str) -> str:
    """The usual slip, the same letters in another case, or the nearest known unit, which may be one of another size."""
    folded = text.casefold()
    if slip := SLIPS.get(_bones(folded)):
        return f"write {slip}"
    if same := _BY_FOLDED.get(folded):
        return f"write {same.symbol}"
    from difflib import get_close_matches  # needed for a mistake only

    near = get_close_matches(text[:30], _BY_NAME, n=1, cutoff=0.6)
    return f"write {_BY_NAME[near[0]].symbol} if that is meant" if near else "write one that is, such as mm, cc or deg"


def _bones(folded: str) -> str:
    """ft-lb, ft.lb, ft lb and ft·lb are one slip."""
    return "".join(letter for letter in folded if letter not in " .-·⋅*_").replace("²", "2").replace("³", "3")
