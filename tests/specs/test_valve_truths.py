"""What must be true of lift tables and compression whatever the figures: inverses, directions, lifts kept apart."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lives import Life
from sound_valves import VALVE_SOUND, lifts

from logbook.quantity.curve import Curve
from logbook.specs import lift_table, pressures, valve_to_piston

CRANK = {"stroke": 0.079, "rod_length": 0.134}
TABLE = "from_lobe_centre deg,inlet_lift mm\n" + "".join(
    f"{at},{lift}\n" for at, lift in ((-120, 0.05), (-80, 3), (-40, 8), (0, 10), (40, 8), (80, 3), (120, 0.05))
)


@given(lobe=lifts(), low=st.floats(0.0002, 0.003), more=st.floats(0.0001, 0.003))
def test_the_duration_is_less_at_a_greater_lift(lobe: Curve, low: float, more: float) -> None:
    at_low, at_high = (
        lift_table.inlet_duration_of_table(inlet_lift=lobe, checking_lift=at) for at in (low, low + more)
    )
    assert at_high < at_low


@given(lobe=lifts(), height=VALVE_SOUND["checking_lift"], centre=VALVE_SOUND["inlet_peak_centre"])
def test_lobe_centre_and_peak_centre_undo_each_other(lobe: Curve, height: float, centre: float) -> None:
    given = {"inlet_lift": lobe, "checking_lift": height}
    found = lift_table.inlet_lobe_centre_of_table(**given, inlet_peak_centre=centre)  # type: ignore[arg-type]
    back = lift_table.inlet_peak_centre(**given, inlet_lobe_centre=found)  # type: ignore[arg-type]
    assert back == pytest.approx(centre)


def inlet_gap(lobe: Curve, centre: float) -> float:
    given = {"valve_room_inlet": 0.005, "inlet_valve_tilt": 10, "inlet_peak_centre": centre, **CRANK}
    return valve_to_piston.valve_to_piston_inlet(inlet_lift=lobe, **given)


def exhaust_gap(lobe: Curve, centre: float) -> float:
    given = {"valve_room_exhaust": 0.005, "exhaust_valve_tilt": 10, "exhaust_peak_centre": centre, **CRANK}
    return valve_to_piston.valve_to_piston_exhaust(exhaust_lift=lobe, **given)


@given(lobe=lifts(), centre=st.floats(85, 95), by=st.floats(1, 8))
def test_advance_brings_the_inlet_valve_nearer_and_takes_the_exhaust_valve_away(
    lobe: Curve, centre: float, by: float
) -> None:
    assert inlet_gap(lobe, centre - by) < inlet_gap(lobe, centre)
    assert exhaust_gap(lobe, centre + by) > exhaust_gap(lobe, centre)


@given(kelvin=VALVE_SOUND["temperature_at_inlet_closing"], ratio=st.floats(2, 14), more=st.floats(0.1, 3))
def test_more_compression_is_hotter_and_never_hotter_than_cold_air_would_get(
    kelvin: float, ratio: float, more: float
) -> None:
    ends = [pressures.isentropic_end_temperature(temperature_at_inlet_closing=kelvin, effective_compression_ratio=each)
            for each in (ratio, ratio + more)]  # fmt: skip
    assert ends[0] < ends[1]
    assert ends[0] <= kelvin * ratio**0.402


def cam(supposed: str) -> Life:
    life = Life()
    life.texts["parts/cam.yaml"] = (
        "kind: camshaft\nwhat: a\nfacts:\n  - {basis: published, source: card, tables: {inlet_lift: cam.csv}}\n"
    )
    life.texts["parts/cam.csv"] = TABLE
    life.work("2024-01-01", "fit: cam")
    life.measure(
        "2024-01-02", more="at_lift: 0.10 mm\n", inlet_opens="12 deg before TDC", inlet_closes="46 deg after BDC"
    )
    life.texts["plans/p.yaml"] = f"title: a\ndate: 2024-02-01\nassume: {{{supposed}}}\n"
    return life


def test_at_another_lift_every_event_is_read_from_the_table() -> None:
    life = cam("checking_lift: 3 mm")
    now, asked = life.at("now").specs, life.at("plan:p").specs
    assert (now["inlet_closes"].known[0].nominal, dict(now["inlet_closes"].conditions)) == (46, {"at_lift": "0.1 mm"})
    assert dict(asked["inlet_closes"].conditions) == {"at_lift": "3 mm"}
    assert asked["inlet_duration"].known[0].nominal == pytest.approx(160)
    assert asked["inlet_closes"].known[0].nominal == pytest.approx(107 + 80 - 180)


def test_turning_the_camshaft_moves_its_events_and_keeps_its_duration() -> None:
    specs = cam("inlet_lobe_centre: 103 deg").at("plan:p").specs
    assert specs["inlet_duration"].known[0].nominal == pytest.approx(238)
    assert specs["inlet_closes"].known[0].nominal == pytest.approx(42)
