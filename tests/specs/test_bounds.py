"""Every bound of validity that a number can tell: at the bound nothing is said, just outside it the reason."""

from __future__ import annotations

from typing import Any

import pytest
from figures_air import BENCH, LOBE
from lives import EXAMPLE

from logbook.logbook import Logbook
from logbook.specs import air_bounds, clearance_bounds, correction_bounds, running_bounds
from logbook.specs.validity import OUTSIDE, outside_validity

MM, BAR = 1e-3, 1e5

#: Spec, figures at its bound, what is a little outside, words of the reason.
BOUNDS: tuple[tuple[str, dict[str, Any], dict[str, Any], str], ...] = (
    ("saturation_pressure", {"air_temperature": 173.15}, {"air_temperature": 173.0}, "-100 to 200"),
    ("saturation_pressure", {"air_temperature": 473.15}, {"air_temperature": 473.3}, "-100 to 200"),
    ("air_density", {"air_pressure": 10 * BAR}, {"air_pressure": 10.1 * BAR}, "ideal gas"),
    ("inlet_port_velocity", {"result": 171.0}, {"result": 172.0}, "half the speed of sound"),
    ("inlet_mach_index", {"result": 0.6}, {"result": 0.601}, "above 0.6"),
    ("volumetric_efficiency", {"result": 1.3}, {"result": 1.31}, "130 %"),
    ("inlet_discharge_coefficient", {"result": 1.0}, {"result": 1.01}, "wrong area"),
    ("inlet_flow_at_full_lift", {"inlet_test_pressure": 1e4}, {"inlet_test_pressure": 1.001e4}, "expands"),
    ("exhaust_flow_at_full_lift", {"exhaust_test_pressure": 1e4}, {"exhaust_test_pressure": 1.001e4}, "expands"),
    ("inlet_flow_coefficient", {"inlet_test_pressure": 1e4}, {"inlet_test_pressure": 1.001e4}, "expands"),
    ("inlet_flow_at_full_lift", {"inlet_flow": BENCH, "inlet_valve_lift": 11 * MM}, {"inlet_valve_lift": 11.1 * MM},
     "up to 11 mm of lift and is taken to stay so to 11.1 mm"),
    ("exhaust_flow_at_full_lift", {"exhaust_flow": BENCH, "exhaust_valve_lift": 11 * MM},
     {"exhaust_valve_lift": 11.1 * MM}, "up to 11 mm"),
    ("inlet_flow_coefficient", {"inlet_flow": BENCH, "inlet_lift": LOBE},
     {"inlet_lift": LOBE.raised(0.5 * MM)}, "up to 11 mm"),
    ("compressor_outlet_temperature", {"pressure_ratio": 8.0}, {"pressure_ratio": 8.01}, "above a ratio of 8"),
    ("injector_flow_in_use", {"injector_pressure": 6 * BAR, "injector_rated_pressure": 3 * BAR},
     {"injector_pressure": 6.01 * BAR}, "twice its rated pressure"),
    ("injector_duty", {"result": 0.85}, {"result": 0.851}, "85 to 90 %"),
    ("compression_ratio", {"result": 4.0}, {"result": 3.99}, "below 4 or above 25"),
    ("compression_ratio", {"result": 25.0}, {"result": 25.1}, "below 4 or above 25"),
    ("polytropic_end_pressure", {"compression_exponent": 1.35}, {"compression_exponent": 1.36}, "1.25 to 1.35"),
    ("polytropic_end_temperature", {"compression_exponent": 1.25}, {"compression_exponent": 1.24}, "1.25 to 1.35"),
    ("isentropic_end_temperature", {"temperature_at_inlet_closing": 200.0, "result": 2000.0}, {"result": 2001.0},
     "200 to 2000 K"),
    ("isentropic_end_pressure", {"temperature_at_inlet_closing": 200.0}, {"temperature_at_inlet_closing": 199.0},
     "200 to 2000 K"),
    ("cranking_exponent", {"result": 1.0}, {"result": 0.99}, "leaks"),
    ("oil_pressure_usual", {"result": 6 * BAR}, {"result": 6.01 * BAR}, "relief valves"),
    ("brake_mean_effective_pressure", {"result": 16 * BAR}, {"result": 16.1 * BAR}, "boost, or a slip"),
    ("brake_thermal_efficiency", {"result": 0.55}, {"result": 0.551}, "55 %"),
    ("bolt_preload", {"nut_factor": 0.12}, {"nut_factor": 0.119}, "0.12"),
    ("bolt_preload", {"nut_factor": 0.30}, {"nut_factor": 0.301}, "0.30"),
    ("bolt_preload", {"thread_friction": 0.04, "head_friction": 0.30}, {"head_friction": 0.31}, "0.04 to 0.30"),
    ("bolt_torque_limit", {"thread_friction": 0.30, "head_friction": 0.04}, {"head_friction": 0.03}, "0.04 to 0.30"),
    ("bolt_preload_least", {"tightening_factor": 4.0}, {"tightening_factor": 4.1}, "1.05 to 4"),
    ("bolt_preload_most", {"tightening_factor": 4.0}, {"tightening_factor": 4.1}, "1.05 to 4"),
    ("top_ring_gap_ratio", {"result": 0.003}, {"result": 0.0029}, "may meet"),
)  # fmt: skip
#: Held at their bounds in test_clearance_truths.py and test_condition_and_power.py.
ELSEWHERE = {"head_cut_wanted", "bolt_proof_share", "squish_clearance_running", "piston_to_wall_hot",
             "top_ring_gap_hot", *correction_bounds.OUTSIDE}  # fmt: skip


@pytest.mark.parametrize(("spec", "at", "beyond", "words"), BOUNDS, ids=[f"{each[0]} {each[2]}" for each in BOUNDS])
def test_at_its_bound_a_formula_holds_and_beyond_it_says_why_not(
    spec: str, at: dict[str, Any], beyond: dict[str, Any], words: str
) -> None:
    assert outside_validity(spec, at) == ()
    (reason,) = outside_validity(spec, at | beyond)
    assert words in reason


def test_every_bound_is_held() -> None:
    assert {each[0] for each in BOUNDS} | ELSEWHERE == OUTSIDE.keys()
    families = (air_bounds.OUTSIDE, clearance_bounds.OUTSIDE, running_bounds.OUTSIDE, correction_bounds.OUTSIDE)
    assert sum(map(len, families)) == len(OUTSIDE)  # no spec stands in two of them


def test_the_reason_stands_beside_the_value_in_the_engine_itself() -> None:
    at = Logbook.open(EXAMPLE).at("now", ["inlet_valve_lift=14.0 mm"])
    (reason,) = at.specs["inlet_flow_at_full_lift"].outside
    assert "is taken to stay so to 14 mm" in reason
    assert reason in at.specs["inlet_discharge_coefficient"].outside
    assert at.specs["inlet_discharge_coefficient"].known
