"""The air of a run, as its conditions say it: pressure, temperature, humidity, each read strictly.

A pressure is absolute, by barometer where the engine stands: a weather report reduces it to the sea. Of 98 kPa it makes
101, and that is three per cent of power.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.quantity.units import unit
from logbook.quantity.value import ValueProblem, parse_measure
from logbook.specs.atmosphere import saturation_pressure, vapour_pressure
from logbook.specs.correction import dry_air_pressure


class Refused(ValueError):
    """What of the air cannot be used, and what to write."""

    def __init__(self, says: str, mend: str = "") -> None:
        super().__init__(says)
        self.mend = mend


class Air(NamedTuple):
    """Base units; dry_pressure is None where the humidity was not written down."""

    pressure: float
    temperature: float
    dry_pressure: float | None


def _read(text: str, name: str, example: str) -> float:
    row = quantity(name)
    try:
        base, _ = parse_measure(text, row.kind)
    except ValueProblem as problem:
        raise Refused(f"`{text}` is no {row.uk.split(',')[0]}: {problem.says}", f"write it as {example}") from None
    shown = unit(row.unit).from_base(base)
    assert row.low is not None
    assert row.high is not None
    if not row.low <= shown <= row.high:
        says = f"{shown:.5g} {row.unit} cannot be the {row.uk.split(',')[0]} around an engine"
        raise Refused(says, f"it lies from {row.low:g} to {row.high:g} {row.unit}: correct the figure or its unit")
    return base


def _pressure(text: str) -> float:
    return _read(text, "air_pressure", "98.2 kPa absolute or 29.0 inHg, by barometer where the engine stands")


def _temperature(text: str) -> float:
    return _read(text, "air_temperature", "21.0 degC")


def _humidity(text: str) -> float:
    return _read(text, "air_humidity", "52 %")


#: By the name of the condition.
SAID: Mapping[str, Callable[[str], float]] = {
    **dict.fromkeys(("pressure", "air_pressure", "barometer"), _pressure),
    **dict.fromkeys(("temperature", "air_temperature"), _temperature),
    **dict.fromkeys(("humidity", "air_humidity"), _humidity),
}


def air_pressure_said(conditions: Mapping[str, str]) -> float | None:
    """The air's pressure alone, absolute, None where it is not said. Raises Refused where it cannot be."""
    said = (text for name, text in conditions.items() if SAID.get(name.replace(" ", "_")) is _pressure)
    return next((_pressure(text) for text in said), None)


def air_of(conditions: Mapping[str, str]) -> Air:
    """The air that a run's conditions tell. Raises Refused where it is not said, or cannot be."""
    said = {SAID[key]: SAID[key](text) for name, text in conditions.items() if (key := name.replace(" ", "_")) in SAID}
    missing = [word for read, word in ((_pressure, "pressure"), (_temperature, "temperature")) if read not in said]
    if missing:
        raise Refused(f"the {' and the '.join(missing)} of the air was not written down")
    pressure, temperature = said[_pressure], said[_temperature]
    if _humidity not in said:
        return Air(pressure, temperature, None)
    try:
        most = saturation_pressure(air_temperature=temperature)
        water = vapour_pressure(air_humidity=said[_humidity], saturation_pressure=most)
        return Air(pressure, temperature, dry_air_pressure(air_pressure=pressure, vapour_pressure=water))
    except ValueError as problem:
        raise Refused(str(problem)) from None
