"""Is a build nearer to knock than another one of the same engine? An index, in words that promise no more.

In: two configurations of one engine, the later and a named build to set it against. Out: the ratio of their knock
integrals, cylinder by cylinder; or Refused with the reason why no honest figure can be given. Speed, octane number and
the constants of the correlation are the same on both sides and cancel; so does the pressure without boost.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from logbook.errors import Refused
from logbook.quantity.catalogue import CYLINDER, quantity
from logbook.quantity.uncertain import Argument, Uncertain, propagate
from logbook.record.facts import MEASURED, Fact
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.knock import knock_integral
from logbook.state.sayings import mistakes
from logbook.state.spread import figure

TEMPERATURE = "charge_temperature"
PRESSURE = "pressure_at_inlet_closing"
_GEOMETRY = ("compression_ratio", "stroke", "rod_length", "inlet_closes")
_SAME_ON_BOTH_SIDES = {"compression_exponent": 1.35, "octane_number": 95.0, "engine_speed": 50.0}
_OCTANE, _FITTED = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?RON"), (80, 100)
_AIR = 101_325.0  # Pa, of both, where neither is boosted
_BLOWERS = ("turbocharger", "supercharger")

CAUTION = (
    "An index of the motored charge, after Douaud and Eyzat: it says which of two builds is nearer to knock, never "
    "that one does not knock. Listen for knock; the maker's manual comes first."
)


class Nearer(NamedTuple):
    """The knock integral of a build over that of the one it is set against; above 1 is nearer to knock."""

    build: str
    against: str
    fuel: str
    positions: tuple[str, ...]
    ratios: tuple[Uncertain, ...]
    temperatures: tuple[Uncertain, Uncertain]  # K, of the charge: of the build, and of the one against it
    caution: str = CAUTION


def knock_against(at: Configuration, against: Configuration) -> Nearer:
    """The knock integral of a build relative to another build of the same engine on the same fuel.

    Raises Refused, with the reason and what would help, where the figure would mislead.
    """
    _one_engine(at, against)
    build, other = _named(at), _named(against)
    fuel = _one_fuel(at, against)
    _one_checking_lift(at, against)
    temperatures = _temperature(at, build), _temperature(against, other)
    _alike_in_boost(at, against)
    positions = tuple(p for p in at.specs["compression_ratio"].positions if p)
    ratios = tuple(
        _over(_index(at, position, temperatures[0]), _index(against, position, temperatures[1]))
        for position in positions
    )
    return Nearer(build, other, fuel, positions, ratios, temperatures, f"{CAUTION}{_outside(fuel)}")


def _outside(fuel: str) -> str:
    """What to say of a fuel that the correlation was not fitted to; nothing where it was, or names no number."""
    found = _OCTANE.search(fuel)
    low, high = _FITTED
    if not found or low <= float(found[1]) <= high:
        return ""
    return f" {found[0]} is outside the {low} to {high} of octane that it was fitted to."


def _one_engine(at: Configuration, against: Configuration) -> None:
    if at.life.record.engine.engine_number != against.life.record.engine.engine_number or (
        at.life.record.engine.name != against.life.record.engine.name
    ):
        raise Refused("a knock integral is only set against another build of the same engine")


def _named(at: Configuration) -> str:
    """The build that stands at this point."""
    if at.point.plan:
        raise Refused(
            f"plan {at.point.plan} was never run, so nobody measured its {TEMPERATURE}: compare its compression ratio "
            "and its squish clearance instead"
        )
    if not at.state.build:
        raise Refused(f"no build is named at {at.point.text}: write `build:` into the change that finished it")
    return at.state.build


def _one_fuel(at: Configuration, against: Configuration) -> str:
    fuels = [each.state.settings.get("fuel") for each in (at, against)]
    for each, fuel in zip((at, against), fuels, strict=True):
        if fuel is None:
            raise Refused(f"nothing says which fuel build {each.state.build} ran on: write `set: {{fuel: 98 RON}}`")
    one, other = (fuel.text for fuel in fuels if fuel)
    if one != other:
        raise Refused(f"the builds ran on different fuels, {one} and {other}: the index says nothing across fuels")
    return one


def _one_checking_lift(at: Configuration, against: Configuration) -> None:
    lifts = [dict(each.graph.conditions).get("at_lift", "") for each in (at, against)]
    if lifts[0] != lifts[1]:
        raise Refused(f"inlet closing was checked at {lifts[0]} and at {lifts[1]} of lift: check both at one lift")


def _temperature(at: Configuration, build: str) -> Uncertain:
    """What was measured of the charge while this build stood: the last of it."""
    record = at.life.record
    found = [fact for fact in record.facts.get(TEMPERATURE, ()) if _of_build(at, fact, build)]
    sure = figure(record, found[-1], 0) if found else None
    if sure is None:
        raise Refused(
            f"nobody measured the {TEMPERATURE} of build {build}: measure it in the inlet manifold under load and "
            f"write it into a test, `values: {{{TEMPERATURE}: 45 degC}}`; an assumed one would make the index"
        )
    return sure.value


def _of_build(at: Configuration, fact: Fact, build: str) -> bool:
    stated = fact.stated
    if stated.basis != MEASURED or stated.entry is None or fact.unknown or id(fact) in mistakes(at.life.record):
        return False
    return at.life.after(stated.entry).build == build


def _alike_in_boost(at: Configuration, against: Configuration) -> None:
    """Refuse boosted builds whose pressure nobody measured."""
    for each in (at, against):
        blown = any(each.life.record.parts[part].kind in _BLOWERS for part in each.state.parts)
        if blown and not _measured(each, PRESSURE):
            raise Refused(
                f"build {each.state.build} is boosted, and its {PRESSURE} is not measured: without it the index says "
                "nothing"
            )


def _measured(at: Configuration, name: str) -> bool:
    node = at.graph.at(name, "")
    return isinstance(node, Node) and node.basis == MEASURED


def _index(at: Configuration, position: str, temperature: Uncertain) -> Uncertain:
    """The knock integral of one cylinder, from what holds there."""
    arguments: dict[str, Argument] = {name: Uncertain(value) for name, value in _SAME_ON_BOTH_SIDES.items()}
    arguments |= {name: _needed(at, name, position) for name in _GEOMETRY}
    arguments[TEMPERATURE] = temperature
    arguments[PRESSURE] = _needed(at, PRESSURE, "") if _measured(at, PRESSURE) else Uncertain(_AIR)
    function: Callable[..., float] = knock_integral
    return propagate(function, arguments)


def _needed(at: Configuration, name: str, position: str) -> Uncertain:
    node = at.graph.at(name, position if quantity(name).place == CYLINDER else "")
    if not isinstance(node, Node):
        raise Refused(f"the {quantity(name).uk} of build {at.state.build} is not known: `logbook specs --all` says why")
    return node.value


def _over(one: Uncertain, other: Uncertain) -> Uncertain:
    """The quotient, in which what both share cancels (JCGM 100:2008, equation 13)."""
    ratio = one.nominal / other.nominal
    keys = dict.fromkeys((*one.terms, *other.terms))
    terms = {key: (one.terms.get(key, 0.0) - ratio * other.terms.get(key, 0.0)) / other.nominal for key in keys}
    return Uncertain(ratio, terms, one.curved or other.curved)
