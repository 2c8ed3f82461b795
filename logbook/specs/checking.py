"""At which lift the camshaft's events are taken, so that events at different lifts never meet in one figure.

The lift that is asked for (`checking_lift` supposed or assumed), else the lowest at which any event holds, else the
`checking_lift` that the record states for its lift tables.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.quantity.catalogue import QUALIFIERS, quantity
from logbook.quantity.stated import Stated
from logbook.quantity.uncertain import exact
from logbook.quantity.units import unit
from logbook.record.facts import Fact
from logbook.specs.node import Missing, Node, of_fact
from logbook.state.holding import Conditions, Held, Holding

CHECKING_LIFT = "checking_lift"
CENTRES = frozenset({"inlet_lobe_centre", "exhaust_lobe_centre"})
#: What may be supposed of a camshaft and leaves a figure as it is: a lobe stands where it stands, whatever the lift of
#: its events, and turning it leaves its duration.
UNMOVED: Mapping[str, frozenset[str]] = {
    "inlet_peak_centre": frozenset({CHECKING_LIFT}),
    "exhaust_peak_centre": frozenset({CHECKING_LIFT}),
    "inlet_duration": CENTRES,
    "exhaust_duration": CENTRES,
}
#: The events whose lift is the lift of all.
EVENTS = ("inlet_closes", "inlet_opens", "exhaust_opens", "exhaust_closes", "inlet_lobe_centre")


def conditions_of(holding: Holding) -> Conditions:
    """The conditions of the events that count at a state: `at_lift`, and `at_lash` where they say so."""
    found = {held.fact.stated.qualifiers for held in _events(holding)}
    asked = holding.best(quantity(CHECKING_LIFT), "")
    if asked and (asked.overrules or not found):
        wanted = _spelt(asked.value.nominal)
        alike = {each for each in found if dict(each).get("at_lift") == wanted}
        return min(alike, key=_lift, default=(("at_lift", wanted),))
    return min(found, key=_lift, default=())


def checking_lift_of(holding: Holding, conditions: Conditions) -> Node | Missing:
    """The lift of those conditions as a figure: as it was stated, or from the event that holds at it."""
    row, text = quantity(CHECKING_LIFT), dict(conditions).get("at_lift")
    asked = holding.best(row, "")
    if text is None:
        return Missing(((CHECKING_LIFT,),))
    if asked and _spelt(asked.value.nominal) == text:
        return of_fact(CHECKING_LIFT, "", asked)
    lift = unit(_UNIT).to_base(float(text.split()[0]))
    event = next(held for held in _events(holding) if held.fact.stated.qualifiers == conditions)
    path = (*event.fact.stated.path[:-1], "at_lift")
    fact = Fact(row, ((Stated(lift, 0.0, 0.0),),), True, False, text, event.fact.stated, path)
    return of_fact(CHECKING_LIFT, "", Held(fact, exact(lift), out_of_date=event.out_of_date, made=event.made))


_UNIT = QUALIFIERS["at_lift"].unit


def _events(holding: Holding) -> Iterator[Held]:
    return (held for name in EVENTS for held in holding.all(quantity(name), ""))


def _spelt(lift: float) -> str:
    """A lift as record/figures.py spells a qualifier."""
    return f"{unit(_UNIT).from_base(lift):.6g} {_UNIT}"


def _lift(conditions: Conditions) -> tuple[float, int, str]:
    lift = dict(conditions).get("at_lift")
    return (float(lift.split()[0]) if lift else float("inf"), len(conditions), str(conditions))
