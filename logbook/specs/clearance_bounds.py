"""Where the formulas of cuts, growth and bolts stop being true, as numbers: see validity.py."""

from __future__ import annotations

from collections.abc import Callable, Mapping

#: Deepest cut that the area of the opening alone tells, in m.
DEEPEST_CUT = 1e-3


def _deep_cut(*, wanted_chamber_volume: float, chamber_opening: float, result: float) -> str:
    deep = abs(result) > DEEPEST_CUT
    return (
        f"a cut of {1e3 * result:.3g} mm is deeper than 1 mm, where sloping walls of the chamber count" if deep else ""
    )


def _yielded(*, bolt_stress_area: float, result: float) -> str:
    return "beyond its proof load a bolt yields, and pulls less than Hooke's law says" if result > 1 else ""


def _running_into_the_head(*, rod_growth: float, result: float) -> str:
    return "running, the piston would meet the head" if result <= 0 else ""


def _tight_piston(*, piston_rise: float, result: float) -> str:
    return "hot, the piston would be tight in its bore" if result <= 0 else ""


def _butting_ring(*, ring_rise: float, result: float) -> str:
    return "hot, the ends of the ring would meet" if result <= 0 else ""


def _butting_top_ring(result: float) -> str:
    return "below 0.003 of the bore the ends of the ring may meet when hot" if result < 0.003 else ""


def _strange_nut_factor(nut_factor: float) -> str:
    inside = 0.12 <= round(nut_factor, 9) <= 0.30
    return "" if inside else "nut factors lie from 0.12, with molybdenum grease, to 0.30, black and dry"


def _strange_friction(thread_friction: float, head_friction: float) -> str:
    inside = all(0.04 <= round(each, 9) <= 0.30 for each in (thread_friction, head_friction))
    return "" if inside else "the friction of threads and heads lies from 0.04 to 0.30, by the classes of VDI 2230"


def _strange_factor(tightening_factor: float) -> str:
    return "tightening factors lie from 1.05 to 4, by VDI 2230" if tightening_factor > 4 else ""


OUTSIDE: Mapping[str, tuple[Callable[..., str], ...]] = {
    "head_cut_wanted": (_deep_cut,),
    "bolt_proof_share": (_yielded,),
    "bolt_preload": (_strange_nut_factor, _strange_friction),
    "bolt_torque_limit": (_strange_friction,),
    "bolt_preload_least": (_strange_factor,),
    "bolt_preload_most": (_strange_factor,),
    "top_ring_gap_ratio": (_butting_top_ring,),
    "squish_clearance_running": (_running_into_the_head,),
    "piston_to_wall_hot": (_tight_piston,),
    "top_ring_gap_hot": (_butting_ring,),
}
