"""Where the graph gets what a flow bench says, and what stands for it where no head was on one.

In: the facts that hold. Out: the test pressure that belongs to the flow that holds, and a flow coefficient that is only
assumed, and says so.
"""

from __future__ import annotations

from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain, exact
from logbook.quantity.value import Stated
from logbook.record.facts import ASSUMED, Fact, Statement
from logbook.record.flow_tables import depression
from logbook.specs.node import Missing, Node, of_fact
from logbook.state.holding import Held, Holding

#: Of each test pressure, the flow that was read at it.
TEST_PRESSURES = {"inlet_test_pressure": "inlet_flow", "exhaust_test_pressure": "exhaust_flow"}
COEFFICIENT = "inlet_flow_coefficient"

#: Mean flow coefficient of poppet inlet valves by head area: 0.30 to 0.40 by C. F. Taylor, volume 1, chapter 6 (from
#: memory); good race heads reach 0.45. Standard uncertainty: half of ± 0.10.
_USUAL, _STANDARD = 0.35, 0.05


def pressure_of_test(holding: Holding, name: str, bank: str) -> Node | Missing:
    """The pressure at which the flow that holds was read, exact: the bench is set to it."""
    flow = TEST_PRESSURES[name]
    held = holding.best(quantity(flow), bank)
    pressure = depression(held.fact.stated) if held else None
    if held is None or pressure is None:
        return Missing(((flow,),))
    return of_fact(name, bank, held._replace(value=exact(pressure)))


def assumed_coefficient(cylinder: str, *, valve: Node | Missing) -> Node | Missing:
    """The flow coefficient of a head that nobody put on a bench; none of a head whose valves are not known either."""
    if isinstance(valve, Missing):
        return Missing((("inlet_valve_diameter", COEFFICIENT),), valve.because)
    text = f"{_USUAL} ± {2 * _STANDARD:.2f}"
    stated = Statement("engine.yaml", (), ASSUMED, source="usual of poppet inlet valves, nothing measured")
    figure = Stated(_USUAL, _STANDARD, 0.01)
    fact = Fact(quantity(COEFFICIENT), ((figure,),), True, False, text, stated, ())
    value = Uncertain(_USUAL, {f"assumed {COEFFICIENT}": _STANDARD})
    return of_fact(COEFFICIENT, cylinder, Held(fact, value, spread_assumed=True))
