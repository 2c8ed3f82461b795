"""Catalogue rows for the camshaft and valves, for what turns, and for what a test tells."""

from logbook.quantity.catalogue import CYLINDER, Quantity

INLET_CAM = ("camshaft|inlet_camshaft", "crankshaft")
EXHAUST_CAM = ("camshaft|exhaust_camshaft", "crankshaft")
VALVE_MEETS_PISTON = ("block", "pistons", "cylinder_head", "head_gasket")
LIFT = ("at_lift", "at_lash")


def _event(name: str, uk: str, us: str, owner: tuple[str, ...], sides: tuple[str, str]) -> Quantity:
    return Quantity(
        name,
        uk,
        us,
        "angle",
        "deg",
        owner=owner,
        low=-120,
        high=160,
        spread=4,
        sides=sides,
        qualifiers=LIFT,
        card=True,
    )


def _angle(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "angle", "deg", low=low, high=high, qualifiers=LIFT, **more)  # type: ignore[arg-type]


def _length(name: str, uk: str, us: str, low: float, high: float, **more: object) -> Quantity:
    return Quantity(name, uk, us, "length", "mm", low=low, high=high, imperial="in", **more)  # type: ignore[arg-type]


# fmt: off
RUNNING_ROWS: tuple[Quantity, ...] = (
    # camshaft and valves
    _event("inlet_opens", "inlet opens", "intake opens", INLET_CAM, ("before TDC", "after TDC")),
    _event("inlet_closes", "inlet closes", "intake closes", INLET_CAM, ("after BDC", "before BDC")),
    _event("exhaust_opens", "exhaust opens", "exhaust opens", EXHAUST_CAM, ("before BDC", "after BDC")),
    _event("exhaust_closes", "exhaust closes", "exhaust closes", EXHAUST_CAM, ("after TDC", "before TDC")),
    _angle("inlet_lobe_centre", "inlet lobe centre, after TDC", "intake lobe center, after TDC", 60, 160,
           owner=INLET_CAM, spread=4, card=True),
    _angle("exhaust_lobe_centre", "exhaust lobe centre, before TDC", "exhaust lobe center, before TDC", 60, 160,
           owner=EXHAUST_CAM, spread=4, card=True),
    _angle("inlet_duration", "inlet duration", "intake duration", 120, 400, owner=INLET_CAM, spread=4, card=True),
    _angle("exhaust_duration", "exhaust duration", "exhaust duration", 120, 400, owner=EXHAUST_CAM, spread=4,
           card=True),
    _angle("lobe_separation", "lobe separation, camshaft degrees", "lobe separation, cam degrees", 80, 140,
           derived_only=True),
    _angle("valve_overlap", "valve overlap", "valve overlap", -120, 200, derived_only=True),
    _length("inlet_valve_lift", "inlet valve lift", "intake valve lift", 1, 60, owner=INLET_CAM, spread=0.2,
            card=True),
    _length("exhaust_valve_lift", "exhaust valve lift", "exhaust valve lift", 1, 60, owner=EXHAUST_CAM, spread=0.2,
            card=True),
    _length("valve_lash_inlet", "inlet valve lash", "intake valve lash", 0, 2, place=CYLINDER,
            owner=("camshaft|inlet_camshaft", "cylinder_head"), spread=0.05, wears=True, card=True),
    _length("valve_lash_exhaust", "exhaust valve lash", "exhaust valve lash", 0, 2, place=CYLINDER,
            owner=("camshaft|exhaust_camshaft", "cylinder_head"), spread=0.05, wears=True, card=True),
    _length("valve_to_piston_inlet", "inlet valve to piston, least", "intake valve to piston, least", 0, 30,
            place=CYLINDER, owner=(*VALVE_MEETS_PISTON, "camshaft|inlet_camshaft"), spread=0.5),
    _length("valve_to_piston_exhaust", "exhaust valve to piston, least", "exhaust valve to piston, least", 0, 30,
            place=CYLINDER, owner=(*VALVE_MEETS_PISTON, "camshaft|exhaust_camshaft"), spread=0.5),
    Quantity("spring_seat_load", "valve spring seat load", "valve spring seat load", "force", "N",
             owner=("valve_springs",), low=20, high=5000, spread=30, imperial="lbf", wears=True),
    Quantity("spring_rate", "valve spring rate", "valve spring rate", "spring_rate", "N/mm", owner=("valve_springs",),
             low=1, high=500, spread=3, imperial="lbf/in", wears=True),
    _length("spring_installed_height", "valve spring installed height", "valve spring installed height", 10, 200,
            owner=("valve_springs", "cylinder_head"), spread=0.5, card=True),
    _length("spring_coil_bind", "valve spring height at coil bind", "valve spring height at coil bind", 5, 150,
            owner=("valve_springs",), spread=0.5),
    # what turns
    Quantity("engine_speed_limit", "engine speed limit", "engine speed limit", "engine_speed", "rpm", low=200,
             high=25000,
             spread=100),
    Quantity("mean_piston_speed", "mean piston speed at the limit", "mean piston speed at the limit", "speed", "m/s",
             low=1, high=35, imperial="ft/min", derived_only=True),
    Quantity("effective_compression_ratio", "effective compression ratio, at inlet closing",
             "effective compression ratio, at intake closing", "ratio", "", CYLINDER, low=2, high=25,
             qualifiers=LIFT,
             result=True),
    # what a test tells: events of their day, never carried
    Quantity("cranking_pressure", "cranking pressure", "cranking pressure", "pressure_gauge", "bar gauge",
             CYLINDER, (),
             0, 60, 0.7, "psi gauge", qualifiers=("oil",), event=True),
    Quantity("cranking_pressure_least", "cranking pressure, least as a share of the greatest",
             "cranking pressure, least as a share of the greatest", "share", "%", low=0, high=100, event=True,
             qualifiers=("oil",), derived_only=True),
    Quantity("leak_down", "leak-down", "leak-down", "share", "%", CYLINDER, (), 0, 100, 4, event=True),
    Quantity("oil_pressure", "oil pressure", "oil pressure", "pressure_gauge", "bar gauge", low=0, high=20,
             spread=0.5,
             imperial="psi gauge", event=True),
    Quantity("power", "power", "power", "power", "kW", low=0.5, high=50000, spread=3, imperial="hp", result=True,
             event=True),
    Quantity("torque", "torque", "torque", "torque", "N m", low=1, high=500000, spread=5, imperial="lbf ft",
             event=True),
)
# fmt: on
