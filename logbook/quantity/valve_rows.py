"""Catalogue rows for valve lift over the crank angle, valve springs, the room above the piston, and compression."""

from logbook.quantity.catalogue import CYLINDER, Quantity
from logbook.quantity.running_rows import EXHAUST_CAM, INLET_CAM, LIFT, VALVE_MEETS_PISTON


def _length(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "length", "mm", low=low, high=high, imperial="in", **more)  # type: ignore[arg-type]


def _angle(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "angle", "deg", low=low, high=high, **more)  # type: ignore[arg-type]


def _absolute(name: str, words: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, words, words.replace("inlet", "intake"), "pressure_absolute", "kPa absolute", low=low,
                    high=high, imperial="psi absolute", **more)  # type: ignore[arg-type]  # fmt: skip


# fmt: off
VALVE_ROWS: tuple[Quantity, ...] = (
    # the lift table: its greatest lift stands for it as a figure, its curve goes with it
    _length("inlet_lift", "inlet valve lift, by table", "intake valve lift, by table", 1, 60, owner=INLET_CAM,
            spread=0.1, card=True),
    _length("exhaust_lift", "exhaust valve lift, by table", "exhaust valve lift, by table", 1, 60, owner=EXHAUST_CAM,
            spread=0.1, card=True),
    _length("checking_lift", "checking lift", "checking lift", 0.01, 10),
    _angle("inlet_peak_centre", "inlet lobe centre near the peak, after TDC",
           "intake lobe center near the peak, after TDC", 60, 160, owner=INLET_CAM, spread=4),
    _angle("exhaust_peak_centre", "exhaust lobe centre near the peak, before TDC",
           "exhaust lobe center near the peak, before TDC", 60, 160, owner=EXHAUST_CAM, spread=4),
    Quantity("inlet_lift_area", "area under the inlet lift curve", "area under the intake lift curve", "lift_area",
             "deg mm", low=10, high=20000, imperial="deg in", qualifiers=LIFT, derived_only=True),
    Quantity("exhaust_lift_area", "area under the exhaust lift curve", "area under the exhaust lift curve",
             "lift_area", "deg mm", low=10, high=20000, imperial="deg in", qualifiers=LIFT, derived_only=True),
    _length("inlet_lift_at_tdc", "inlet valve lift at TDC", "intake valve lift at TDC", 0, 30, owner=INLET_CAM,
            spread=0.2),
    _length("exhaust_lift_at_tdc", "exhaust valve lift at TDC", "exhaust valve lift at TDC", 0, 30,
            owner=EXHAUST_CAM, spread=0.2),
    # how the camshaft stands
    _angle("camshaft_advance", "camshaft advance against its lobe separation",
           "camshaft advance against its lobe separation", -40, 40, derived_only=True),
    _angle("card_inlet_lobe_centre", "inlet lobe centre by the card", "intake lobe center by the card", 60, 160,
           owner=INLET_CAM, spread=4, qualifiers=LIFT, card=True),
    _angle("card_exhaust_lobe_centre", "exhaust lobe centre by the card", "exhaust lobe center by the card", 60, 160,
           owner=EXHAUST_CAM, spread=4, qualifiers=LIFT, card=True),
    _angle("card_inlet_duration", "inlet duration by the card", "intake duration by the card", 120, 400,
           owner=INLET_CAM, spread=4, qualifiers=LIFT, card=True),
    _angle("card_exhaust_duration", "exhaust duration by the card", "exhaust duration by the card", 120, 400,
           owner=EXHAUST_CAM, spread=4, qualifiers=LIFT, card=True),
    _angle("inlet_early", "inlet camshaft ahead of its card", "intake camshaft ahead of its card",
           -90, 90, qualifiers=LIFT, derived_only=True),
    _angle("exhaust_early", "exhaust camshaft ahead of its card", "exhaust camshaft ahead of its card",
           -90, 90, qualifiers=LIFT, derived_only=True),
    # from the lobe to the valve
    _length("inlet_lobe_lift", "inlet lobe lift", "intake lobe lift", 1, 40, owner=INLET_CAM, spread=0.1, card=True),
    _length("exhaust_lobe_lift", "exhaust lobe lift", "exhaust lobe lift", 1, 40, owner=EXHAUST_CAM, spread=0.1,
            card=True),
    Quantity("rocker_ratio", "rocker ratio", "rocker ratio", "ratio", "", low=0.8, high=2.5, spread=0.04),
    # valve springs
    _length("spring_free_height", "valve spring height, free", "valve spring height, free", 15, 250,
            owner=("valve_springs",), spread=0.5, wears=True),
    Quantity("spring_open_load_inlet", "inlet valve spring load, valve open", "intake valve spring load, valve open",
             "force", "N", owner=("valve_springs", "camshaft|inlet_camshaft"), low=20, high=20000, spread=60,
             imperial="lbf", wears=True),
    Quantity("spring_open_load_exhaust", "exhaust valve spring load, valve open",
             "exhaust valve spring load, valve open", "force", "N",
             owner=("valve_springs", "camshaft|exhaust_camshaft"), low=20, high=20000, spread=60, imperial="lbf",
             wears=True),
    _length("coil_bind_margin_inlet", "inlet valve spring, way left to coil bind",
            "intake valve spring, travel left to coil bind", -20, 100, derived_only=True),
    _length("coil_bind_margin_exhaust", "exhaust valve spring, way left to coil bind",
            "exhaust valve spring, travel left to coil bind", -20, 100, derived_only=True),
    # valve and piston
    _length("valve_room_inlet", "inlet valve to piston at TDC, valve closed",
            "intake valve to piston at TDC, valve closed", 0, 60, place=CYLINDER, owner=VALVE_MEETS_PISTON, spread=0.5),
    _length("valve_room_exhaust", "exhaust valve to piston at TDC, valve closed",
            "exhaust valve to piston at TDC, valve closed", 0, 60, place=CYLINDER, owner=VALVE_MEETS_PISTON,
            spread=0.5),
    _angle("inlet_valve_tilt", "inlet valve, angle to the bore", "intake valve, angle to the bore", 0, 80,
           owner=("cylinder_head",), spread=2),
    _angle("exhaust_valve_tilt", "exhaust valve, angle to the bore", "exhaust valve, angle to the bore", 0, 80,
           owner=("cylinder_head",), spread=2),
    _angle("valve_to_piston_inlet_angle", "inlet valve nearest to the piston, after TDC",
           "intake valve nearest to the piston, after TDC", -90, 90, place=CYLINDER, sides=("after TDC", "before TDC"),
           derived_only=True),
    _angle("valve_to_piston_exhaust_angle", "exhaust valve nearest to the piston, before TDC",
           "exhaust valve nearest to the piston, before TDC", -90, 90, place=CYLINDER,
           sides=("before TDC", "after TDC"), derived_only=True),
    # compression in use
    Quantity("cranking_exponent", "cranking pressure, its exponent over the effective ratio",
             "cranking pressure, its exponent over the effective ratio", "ratio", "", CYLINDER, low=0.8, high=1.5,
             derived_only=True, event=True),
    Quantity("compression_exponent", "exponent of compression", "exponent of compression", "ratio", "", low=1.0,
             high=1.45, spread=0.05),
    _absolute("pressure_at_inlet_closing", "cylinder pressure at inlet closing", 20, 1000, spread=10),
    Quantity("temperature_at_inlet_closing", "cylinder temperature at inlet closing",
             "cylinder temperature at intake closing", "temperature", "degC", low=0, high=300, spread=20,
             imperial="degF"),
    _absolute("polytropic_end_pressure", "end of compression, polytropic: pressure", 100, 40000, place=CYLINDER,
              qualifiers=LIFT, derived_only=True),
    Quantity("polytropic_end_temperature", "end of compression, polytropic: temperature",
             "end of compression, polytropic: temperature", "temperature", "degC", CYLINDER, low=0, high=1500,
             imperial="degF", qualifiers=LIFT, derived_only=True),
    _absolute("isentropic_end_pressure", "end of compression, isentropic air: pressure", 100, 40000, place=CYLINDER,
              qualifiers=LIFT, derived_only=True),
    Quantity("isentropic_end_temperature", "end of compression, isentropic air: temperature",
             "end of compression, isentropic air: temperature", "temperature", "degC", CYLINDER, low=0, high=1500,
             imperial="degF", qualifiers=LIFT, derived_only=True),
    Quantity("ideal_efficiency", "air-standard efficiency", "air-standard efficiency", "share", "%", low=20, high=80,
             derived_only=True),
)
# fmt: on
