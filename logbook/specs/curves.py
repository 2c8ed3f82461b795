"""What is worked out over a variable, not as one figure: piston travel over crank angle, Mach index over engine speed.

By hand, as index.py: name of the curve -> its formula, the argument that varies, and the range that is shown. The other
arguments come from the graph like those of any formula, and the catalogue has a row for the curve's name and for the
variable.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import NamedTuple

from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain
from logbook.specs import breathing, lift, motion, openings, swing, swing_offset, valve_to_piston
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Graph, Missing, Node
from logbook.specs.index import Formula, Function, formula
from logbook.specs.node import worked_out

_OFFSET = "pin_offset"
_ROUNDING = 1e-9  # of a step: so that the last one is not lost


class Curve(NamedTuple):
    """A formula, the argument `over` which it is shown, and from where to where in which steps, in base units.

    `offset`: the formula that stands for it where the gudgeon pin's offset is known.
    """

    function: Function
    over: str
    low: float
    high: float
    step: float
    offset: Function | None = None

    @property
    def places(self) -> tuple[float, ...]:
        """Every value of the variable that is shown."""
        many = int((self.high - self.low) / self.step + _ROUNDING)
        return tuple(self.low + number * self.step for number in range(many + 1))


class Point(NamedTuple):
    """A value of the curve, with its uncertainty, at a value of the variable; both in base units."""

    at: float
    value: Uncertain


CURVES: Mapping[str, Curve] = {
    "piston_travel": Curve(motion.piston_travel, "crank_angle", 0, 360, 15),
    "piston_travel_with_offset": Curve(motion.piston_travel_with_offset, "crank_angle", 0, 360, 15),
    "piston_speed": Curve(swing.piston_speed, "crank_angle", 0, 360, 15, swing_offset.piston_speed_with_offset),
    "piston_acceleration": Curve(
        swing.piston_acceleration, "crank_angle", 0, 360, 15, swing_offset.piston_acceleration_with_offset
    ),
    "cylinder_volume": Curve(motion.cylinder_volume, "crank_angle", 0, 360, 15, motion.cylinder_volume_with_offset),
    "inlet_mach_index": Curve(breathing.inlet_mach_index_at_speed, "engine_speed", 1000 / 60, 9000 / 60, 500 / 60),
    "inlet_port_velocity": Curve(
        breathing.inlet_port_velocity_at_speed, "engine_speed", 1000 / 60, 9000 / 60, 500 / 60
    ),
    "inlet_lift": Curve(lift.inlet_lift_at, "crank_angle", -60, 300, 10),
    "exhaust_lift": Curve(lift.exhaust_lift_at, "crank_angle", -300, 60, 10),
    "valve_to_piston_inlet": Curve(valve_to_piston.valve_to_piston_inlet_at, "crank_angle", -30, 60, 5),
    "valve_to_piston_exhaust": Curve(valve_to_piston.valve_to_piston_exhaust_at, "crank_angle", -60, 30, 5),
    "inlet_valve_area": Curve(openings.inlet_valve_area_at_lift, "valve_lift", 0, 0.014, 0.001),
}

Inputs = Mapping[str, tuple[Node, ...]]


def curve_values(at: Configuration, name: str, position: str = "") -> tuple[Point, ...] | Missing:
    """A curve at a position of its place ('' the engine), point by point; Missing where an argument is not known.

    Points at which the formula refuses are left out; Missing, with the reason, where it refuses at all of them.
    """
    inputs = curve_inputs(at.graph, name, position)
    if isinstance(inputs, Missing):
        return inputs
    found = [(place, curve_point(name, place, position, inputs)) for place in CURVES[name].places]
    points = tuple(Point(place, node.value) for place, node in found if isinstance(node, Node))
    refused = next((node for _, node in found if isinstance(node, Missing)), None)
    return points if points or refused is None else refused


def curve_inputs(graph: Graph, name: str, position: str) -> Inputs | Missing:
    """What the arguments are, but for the one that varies."""
    its = formula(name, curve_formula(graph, name, position))
    return graph.inputs(_but_the_variable(its), quantity(name), position)


def curve_formula(graph: Graph, name: str, position: str) -> Function:
    """The formula that a curve is of at a position: that with the pin's offset where it is known."""
    curve = CURVES[name]
    known = curve.offset and isinstance(graph.at(_OFFSET, position), Node)
    return curve.offset if curve.offset and known else curve.function


def curve_point(name: str, place: float, position: str, inputs: Inputs) -> Node | Missing:
    """One point of a curve, as a node with all that it rests on."""
    curve = CURVES[name]
    its = _but_the_variable(formula(name, curve.offset if curve.offset and _OFFSET in inputs else curve.function))
    there = partial(its.function, **{CURVES[name].over: place})
    return worked_out(its._replace(function=there), position, inputs)


def _but_the_variable(its: Formula) -> Formula:
    return its._replace(needs=tuple(need for need in its.needs if need != CURVES[its.name].over))
