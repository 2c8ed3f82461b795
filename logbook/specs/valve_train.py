"""From the lobe to the valve, and the valve's spring.

inlet_valve_lift_of_lobe, exhaust_valve_lift_of_lobe   by rocker ratio and lash
spring_seat_load                                       from the free height
spring_open_load_inlet, spring_open_load_exhaust       at full lift
coil_bind_margin_inlet, coil_bind_margin_exhaust       what is left of the spring's way

Lengths in m, loads in N, rates in N/m. One spring, or a pair with its loads and rates added.
"""

from logbook.specs.every import Every
from logbook.specs.possible import above_zero, some_cylinder


def inlet_valve_lift_of_lobe(*, inlet_lobe_lift: float, rocker_ratio: float, valve_lash_inlet: Every) -> float:
    """Inlet valve lift from that of the lobe, net of the lash.

    h = h_lobe · ρ − lash

    inlet_lobe_lift [m]: of the follower, h_lobe.
    rocker_ratio [bare]: movement of the valve to that of the follower, ρ; 1 where the lobe runs on a bucket.
    valve_lash_inlet [m]: between rocker and valve, mean of the cylinders; hydraulic followers have none.
    Returns [m].
    Validity: the ratio as measured at full lift; a rocker's ratio changes as it swings. Lash as it runs, hot.
    Source: [1] Common practice, no source.

    >>> lift = inlet_valve_lift_of_lobe(inlet_lobe_lift=0.320, rocker_ratio=1.5, valve_lash_inlet=[0.020])
    >>> round(lift, 3)
    0.46
    """
    return _at_the_valve(inlet_lobe_lift, rocker_ratio, valve_lash_inlet, "inlet")


def exhaust_valve_lift_of_lobe(*, exhaust_lobe_lift: float, rocker_ratio: float, valve_lash_exhaust: Every) -> float:
    """Exhaust valve lift from that of the lobe, net of the lash.

    h = h_lobe · ρ − lash

    exhaust_lobe_lift [m]: of the follower, h_lobe.
    rocker_ratio [bare]: movement of the valve to that of the follower, ρ; 1 where the lobe runs on a bucket.
    valve_lash_exhaust [m]: between rocker and valve, mean of the cylinders; hydraulic followers have none.
    Returns [m].
    Validity: the ratio as measured at full lift; a rocker's ratio changes as it swings. Lash as it runs, hot.
    Source: [1] Common practice, no source.

    >>> lift = exhaust_valve_lift_of_lobe(exhaust_lobe_lift=0.320, rocker_ratio=1.5, valve_lash_exhaust=[0.020])
    >>> round(lift, 3)
    0.46
    """
    return _at_the_valve(exhaust_lobe_lift, rocker_ratio, valve_lash_exhaust, "exhaust")


def spring_seat_load(*, spring_rate: float, spring_free_height: float, spring_installed_height: float) -> float:
    """Valve spring seat load, from the free height.

    F = c · (H₀ − H)

    spring_rate [N/m]: c.
    spring_free_height [m]: unloaded, H₀.
    spring_installed_height [m]: valve closed, H.
    Returns [N].
    Validity: a spring of one rate all its way; a spring tester at the installed height is better.
    Source: [1] Hooke's law.

    >>> round(spring_seat_load(spring_rate=31e3, spring_free_height=0.0474, spring_installed_height=0.0380), 1)
    291.4
    """
    above_zero(spring_rate=spring_rate, spring_installed_height=spring_installed_height)
    if not spring_free_height > spring_installed_height:
        raise ValueError(
            f"a spring {1e3 * spring_free_height:.4g} mm high when free has no load at "
            f"{1e3 * spring_installed_height:.4g} mm. Check spring_free_height and spring_installed_height"
        )
    return spring_rate * (spring_free_height - spring_installed_height)


def spring_open_load_inlet(*, spring_seat_load: float, spring_rate: float, inlet_valve_lift: float) -> float:
    """Inlet valve spring load at full lift.

    F = F_seat + c · h

    spring_seat_load [N]: valve closed, at the installed height, F_seat.
    spring_rate [N/m]: c.
    inlet_valve_lift [m]: h.
    Returns [N].
    Validity: a spring of one rate all its way, at rest: at speed the coils swing and the load with them.
    Source: [1] Hooke's law.

    >>> round(spring_open_load_inlet(spring_seat_load=290, spring_rate=31e3, inlet_valve_lift=0.0106), 1)
    618.6
    """
    return _open_load(spring_seat_load, spring_rate, inlet_valve_lift)


def spring_open_load_exhaust(*, spring_seat_load: float, spring_rate: float, exhaust_valve_lift: float) -> float:
    """Exhaust valve spring load at full lift.

    F = F_seat + c · h

    spring_seat_load [N]: valve closed, at the installed height, F_seat.
    spring_rate [N/m]: c.
    exhaust_valve_lift [m]: h.
    Returns [N].
    Validity: a spring of one rate all its way, at rest: at speed the coils swing and the load with them.
    Source: [1] Hooke's law.

    >>> round(spring_open_load_exhaust(spring_seat_load=290, spring_rate=31e3, exhaust_valve_lift=0.0106), 1)
    618.6
    """
    return _open_load(spring_seat_load, spring_rate, exhaust_valve_lift)


def coil_bind_margin_inlet(
    *, spring_installed_height: float, spring_coil_bind: float, inlet_valve_lift: float
) -> float:
    """Way left to the inlet valve spring at full lift, before its coils touch.

    H − h − H_bind

    spring_installed_height [m]: valve closed, H.
    spring_coil_bind [m]: height with all coils touching, H_bind.
    inlet_valve_lift [m]: h.
    Returns [m]: minus where the spring would bind.
    Validity: measured heights; 1.0 to 1.5 mm in all are asked for (common practice, no source).
    Source: [1] Common practice, no source.

    >>> margin = coil_bind_margin_inlet(spring_installed_height=0.038, spring_coil_bind=0.0259, inlet_valve_lift=0.0106)
    >>> round(margin * 1e3, 3)
    1.5
    """
    return _margin(spring_installed_height, spring_coil_bind, inlet_valve_lift)


def coil_bind_margin_exhaust(
    *, spring_installed_height: float, spring_coil_bind: float, exhaust_valve_lift: float
) -> float:
    """Way left to the exhaust valve spring at full lift, before its coils touch.

    H − h − H_bind

    spring_installed_height [m]: valve closed, H.
    spring_coil_bind [m]: height with all coils touching, H_bind.
    exhaust_valve_lift [m]: h.
    Returns [m]: minus where the spring would bind.
    Validity: measured heights; 1.0 to 1.5 mm in all are asked for (common practice, no source).
    Source: [1] Common practice, no source.

    >>> margin = coil_bind_margin_exhaust(
    ...     spring_installed_height=0.038, spring_coil_bind=0.0259, exhaust_valve_lift=0.0103)
    >>> round(margin * 1e3, 3)
    1.8
    """
    return _margin(spring_installed_height, spring_coil_bind, exhaust_valve_lift)


def _at_the_valve(lobe: float, ratio: float, lash: Every, valve: str) -> float:
    """Net lift, refused where the lash takes all of it."""
    some_cylinder(**{f"valve_lash_{valve}": lash})
    above_zero(**{f"{valve}_lobe_lift": lobe, "rocker_ratio": ratio})
    net = lobe * ratio - sum(lash) / len(lash)
    if not net > 0:
        raise ValueError(f"the lash takes all of the {valve} valve's lift. Check valve_lash_{valve} and its unit")
    return net


def _open_load(seat: float, rate: float, lift: float) -> float:
    above_zero(spring_seat_load=seat, spring_rate=rate)
    return seat + rate * lift


def _margin(installed: float, bind: float, lift: float) -> float:
    """The way left, refused where the spring would bind with its valve closed."""
    above_zero(spring_installed_height=installed, spring_coil_bind=bind)
    if not installed > bind:
        raise ValueError(
            f"a spring that binds at {1e3 * bind:.4g} mm cannot be {1e3 * installed:.4g} mm high in place. Check "
            "spring_coil_bind and spring_installed_height"
        )
    return installed - lift - bind
