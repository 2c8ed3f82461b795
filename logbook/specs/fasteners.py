"""Bolts: from torque or stretch to preload, with its scatter, and how near that is to yield.

Sizes:     bolt_stress_area
Preload:   bolt_preload_of_stretch, bolt_preload_of_friction, bolt_preload_of_nut_factor
Scatter:   bolt_preload_least, bolt_preload_most
Stretch:   bolt_stretch_expected
Strength:  bolt_proof_share, bolt_preload_limit, bolt_torque_limit

CAUTION. The engine maker's torque, angle, order and lubricant win over every figure here, and bolts made to be used
once are used once. The same torque clamps up to a third more or less than what is reckoned; what is worked out here
shows that scatter and never replaces the manual.

For ISO and unified threads of 60°. Lengths in m, areas in m2, forces in N, torques in N m, stresses in Pa.
"""

from math import pi, sqrt

from logbook.specs.possible import above_zero

_YIELD_SHARE = 0.9  # of the proof stress, VDI 2230


def bolt_stress_area(*, bolt_diameter: float, bolt_pitch: float) -> float:
    """Stress area of a thread.

    A = π/4 · (d − 0.938194 P)²

    bolt_diameter [m]: nominal diameter, d.
    bolt_pitch [m]: from thread to thread, P; of n threads in an inch 25.4 mm / n.
    Returns [m2].
    Validity: ISO threads. For unified threads ASME B1.1 takes 0.9743 P, with a root cut deeper, which is 0.5 to 1.5 %
        less. Not for a shank that is turned down, which is less still.
    Source: [1] ISO 898-1, tables (from memory).
    Source: [2] ASME B1.1, tables of unified threads (from memory), which differ so much.

    >>> round(bolt_stress_area(bolt_diameter=0.010, bolt_pitch=0.0015) * 1e6, 1)
    58.0
    """
    return pi / 4 * _thread(bolt_diameter, bolt_pitch, 0.938194) ** 2


def bolt_preload_of_stretch(
    *, bolt_stretch: float, bolt_loaded_length: float, bolt_diameter: float, bolt_pitch: float, bolt_modulus: float
) -> float:
    """Preload of a bolt from its measured stretch: the surest way, since friction has no part in it.

    F = δ A E / L

    bolt_stretch [m]: length when tight less length when free, δ.
    bolt_loaded_length [m]: from under the head to where the thread holds, L.
    bolt_diameter [m]: nominal diameter, d.
    bolt_pitch [m]: thread, P; A is the stress area of both.
    bolt_modulus [Pa]: elastic modulus, E; steel about 205 kN/mm2.
    Returns [N].
    Validity: below yield; one section over the whole length, so a waisted bolt has less. The maker's stretch wins.
    Source: [1] Hooke's law of a bar; any text on strength of materials.

    >>> bolt = {"bolt_loaded_length": 0.040, "bolt_diameter": 0.010, "bolt_pitch": 0.0015}
    >>> round(bolt_preload_of_stretch(bolt_stretch=0.00013, bolt_modulus=205e9, **bolt) / 1e3, 1)
    38.6
    """
    above_zero(bolt_stretch=bolt_stretch, bolt_loaded_length=bolt_loaded_length, bolt_modulus=bolt_modulus)
    area = bolt_stress_area(bolt_diameter=bolt_diameter, bolt_pitch=bolt_pitch)
    return bolt_stretch * area * bolt_modulus / bolt_loaded_length


def bolt_preload_of_friction(
    *,
    bolt_torque: float,
    bolt_diameter: float,
    bolt_pitch: float,
    bolt_head_diameter: float,
    thread_friction: float,
    head_friction: float,
) -> float:
    """Preload of a bolt from its torque and the friction in the thread and under the head.

    F = M / (0.16 P + 0.58 d₂ μ_G + D_Km/2 · μ_K), with d₂ = d − 0.649519 P

    bolt_torque [N m]: tightening torque, M.
    bolt_diameter [m]: nominal diameter, d.
    bolt_pitch [m]: thread, P.
    bolt_head_diameter [m]: mean diameter of the ring that rubs under the head, D_Km.
    thread_friction [bare]: in the thread, μ_G; 0.08 to 0.16 oiled.
    head_friction [bare]: under the head, μ_K.
    Returns [N].
    Validity: friction is known to a quarter at best, and so is this. The maker's figures win.
    Source: [1] VDI 2230, 2003, equation of the tightening torque (a secondary text was read).

    >>> bolt = {"bolt_diameter": 0.010, "bolt_pitch": 0.00125, "bolt_head_diameter": 0.012815}
    >>> preload = bolt_preload_of_friction(bolt_torque=51.0, thread_friction=0.12, head_friction=0.12, **bolt)
    >>> round(preload / 1e3, 1)
    31.7
    """
    above_zero(bolt_torque=bolt_torque, bolt_head_diameter=bolt_head_diameter)
    return bolt_torque / _lever(bolt_diameter, bolt_pitch, bolt_head_diameter, thread_friction, head_friction)


def bolt_preload_of_nut_factor(*, bolt_torque: float, bolt_diameter: float, nut_factor: float) -> float:
    """Preload of a bolt from its torque, all friction in one factor.

    F = T / (K d)

    bolt_torque [N m]: tightening torque, T.
    bolt_diameter [m]: nominal diameter, d.
    nut_factor [bare]: K; as quoted: black 0.30, zinc 0.20, lubricated 0.18, cadmium 0.16. One found dry says nothing of
        an oiled thread: 0.12 for 0.20 clamps two thirds more.
    Returns [N].
    Validity: a rule of thumb, known to a quarter or a third. The maker's figures win.
    Source: [1] R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th edition, equation 8-27
        (from memory) and table 8-15 (read).

    >>> pounds, inch = 4.4482216152605, 0.0254
    >>> preload = bolt_preload_of_nut_factor(
    ...     bolt_torque=3750 * pounds * inch, bolt_diameter=0.75 * inch, nut_factor=0.2
    ... )
    >>> round(preload / pounds)
    25000
    """
    above_zero(bolt_torque=bolt_torque, bolt_diameter=bolt_diameter, nut_factor=nut_factor)
    return bolt_torque / (nut_factor * bolt_diameter)


def bolt_preload_least(*, bolt_preload: float, tightening_factor: float) -> float:
    """Least preload that bolts tightened alike may have.

    F_least = 2 F / (1 + α)

    bolt_preload [N]: as worked out, the middle of the scatter, F.
    tightening_factor [bare]: greatest preload to least, α; torque wrench 1.4 to 1.6, by angle beyond yield 1.2, by
        measured stretch 1.1 to 1.2.
    Returns [N]: what holds the joint in the worst case.
    Validity: α of the method that was used, from experience. The maker's figures win.
    Source: [1] VDI 2230, 2003, tightening factor (from memory).

    >>> round(bolt_preload_least(bolt_preload=30e3, tightening_factor=1.5) / 1e3, 1)
    24.0
    """
    above_zero(bolt_preload=bolt_preload)
    return 2 * bolt_preload / (1 + _factor(tightening_factor))


def bolt_preload_most(*, bolt_preload: float, tightening_factor: float) -> float:
    """Greatest preload that bolts tightened alike may have.

    F_most = 2 α F / (1 + α)

    bolt_preload [N]: as worked out, the middle of the scatter, F.
    tightening_factor [bare]: greatest preload to least, α; torque wrench 1.4 to 1.6.
    Returns [N]: what strains bolt and thread in the worst case.
    Validity: α of the method that was used, from experience. The maker's figures win.
    Source: [1] VDI 2230, 2003, tightening factor (from memory).

    >>> round(bolt_preload_most(bolt_preload=30e3, tightening_factor=1.5) / 1e3, 1)
    36.0
    """
    above_zero(bolt_preload=bolt_preload)
    return 2 * _factor(tightening_factor) * bolt_preload / (1 + tightening_factor)


def bolt_stretch_expected(
    *, bolt_preload: float, bolt_loaded_length: float, bolt_diameter: float, bolt_pitch: float, bolt_modulus: float
) -> float:
    """Stretch of a bolt under its preload.

    δ = F L / (A E)

    bolt_preload [N]: pull of the bolt, F.
    bolt_loaded_length [m]: from under the head to where the thread holds, L.
    bolt_diameter [m]: nominal diameter, d.
    bolt_pitch [m]: thread, P; A is the stress area of both.
    bolt_modulus [Pa]: elastic modulus, E; steel about 205 kN/mm2.
    Returns [m].
    Validity: below yield; one section over the whole length, so a waisted bolt stretches more. The maker's stretch
        wins.
    Source: [1] Hooke's law of a bar; any text on strength of materials.

    >>> bolt = {"bolt_loaded_length": 0.040, "bolt_diameter": 0.010, "bolt_pitch": 0.0015}
    >>> round(bolt_stretch_expected(bolt_preload=38.6e3, bolt_modulus=205e9, **bolt) * 1e3, 2)
    0.13
    """
    above_zero(bolt_preload=bolt_preload, bolt_loaded_length=bolt_loaded_length, bolt_modulus=bolt_modulus)
    area = bolt_stress_area(bolt_diameter=bolt_diameter, bolt_pitch=bolt_pitch)
    return bolt_preload * bolt_loaded_length / (area * bolt_modulus)


def bolt_proof_share(*, bolt_preload: float, bolt_stress_area: float, bolt_strength: float) -> float:
    """Preload of a bolt as a share of its proof load, the twist of tightening left out.

    F / (A R_p)

    bolt_preload [N]: pull of the bolt, F.
    bolt_stress_area [m2]: of the thread, A.
    bolt_strength [Pa]: 0.2 % proof stress, R_p; 640 N/mm2 of class 8.8, 940 of 10.9, 1100 of 12.9.
    Returns [share].
    Validity: three quarters is usual where a bolt is to be used again; bolts made for it are tightened beyond yield and
        used once. The maker's figures win.
    Source: [1] R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th edition, section 8-8 (from
        memory).

    >>> round(bolt_proof_share(bolt_preload=27.8e3, bolt_stress_area=58.0e-6, bolt_strength=640e6), 2)
    0.75
    """
    above_zero(bolt_preload=bolt_preload, bolt_stress_area=bolt_stress_area, bolt_strength=bolt_strength)
    return bolt_preload / (bolt_stress_area * bolt_strength)


def bolt_preload_limit(
    *, bolt_diameter: float, bolt_pitch: float, bolt_strength: float, thread_friction: float
) -> float:
    """Preload at which pull and twist together reach nine tenths of the bolt's proof stress.

    F_M = 0.9 R_p A₀ / √(1 + 3 [1.5 (d₂/d₀) (P / (π d₂) + 1.155 μ_G)]²), with d₀ = (d₂ + d₃)/2, A₀ = π/4 · d₀²

    bolt_diameter [m]: nominal diameter, d; d₂ = d − 0.649519 P, d₃ = d − 1.226869 P.
    bolt_pitch [m]: thread, P.
    bolt_strength [Pa]: 0.2 % proof stress, R_p; 640 N/mm2 of class 8.8.
    thread_friction [bare]: in the thread, μ_G.
    Returns [N].
    Validity: tightened by turning; the thread as thick as its stress area, no waisted shank; and a nut thread that
        holds. No figure to tighten to: the maker's wins.
    Source: [1] VDI 2230, 2001 and 2003, equation and table of the assembly preload (a secondary text was read).

    >>> limit = bolt_preload_limit(bolt_diameter=0.010, bolt_pitch=0.00125, bolt_strength=640e6, thread_friction=0.12)
    >>> round(limit / 1e3, 1)
    31.6
    """
    above_zero(bolt_strength=bolt_strength, thread_friction=thread_friction)
    flank = _thread(bolt_diameter, bolt_pitch, 0.649519)
    middle = (flank + _thread(bolt_diameter, bolt_pitch, 1.226869)) / 2
    twist = 1.5 * flank / middle * (bolt_pitch / (pi * flank) + 1.155 * thread_friction)
    return _YIELD_SHARE * bolt_strength * pi / 4 * middle**2 / sqrt(1 + 3 * twist**2)


def bolt_torque_limit(
    *,
    bolt_preload_limit: float,
    bolt_diameter: float,
    bolt_pitch: float,
    bolt_head_diameter: float,
    thread_friction: float,
    head_friction: float,
) -> float:
    """Torque at which a bolt is strained to nine tenths of its proof stress.

    M = F_M (0.16 P + 0.58 d₂ μ_G + D_Km/2 · μ_K), with d₂ = d − 0.649519 P

    bolt_preload_limit [N]: preload at nine tenths of yield, F_M.
    bolt_diameter [m]: nominal diameter, d.
    bolt_pitch [m]: thread, P.
    bolt_head_diameter [m]: mean diameter of the ring that rubs under the head, D_Km.
    thread_friction [bare]: in the thread, μ_G.
    head_friction [bare]: under the head, μ_K.
    Returns [N m].
    Validity: with less friction than reckoned the same torque breaks the bolt. No figure to tighten to: the maker's
        wins.
    Source: [1] VDI 2230, 2001 and 2003, equation and table of the tightening torque (a secondary text was read).

    >>> bolt = {"bolt_diameter": 0.010, "bolt_pitch": 0.00125, "bolt_head_diameter": 0.012815}
    >>> torque = bolt_torque_limit(bolt_preload_limit=31.63e3, thread_friction=0.12, head_friction=0.12, **bolt)
    >>> round(torque, 1)
    50.9
    """
    above_zero(bolt_preload_limit=bolt_preload_limit, bolt_head_diameter=bolt_head_diameter)
    return bolt_preload_limit * _lever(bolt_diameter, bolt_pitch, bolt_head_diameter, thread_friction, head_friction)


def _thread(diameter: float, pitch: float, depth: float) -> float:
    """A diameter of the thread, so many pitches below the nominal one."""
    above_zero(bolt_diameter=diameter, bolt_pitch=pitch)
    found = diameter - depth * pitch
    if not found > 0:
        raise ValueError(
            f"a pitch of {1e3 * pitch:.4g} mm leaves nothing of a bolt of {1e3 * diameter:.4g} mm. "
            "Check bolt_pitch, which is from thread to thread, and bolt_diameter"
        )
    return found


def _lever(diameter: float, pitch: float, head: float, thread_friction: float, head_friction: float) -> float:
    """Torque for each newton of preload (VDI 2230)."""
    above_zero(thread_friction=thread_friction, head_friction=head_friction)
    return 0.16 * pitch + 0.58 * _thread(diameter, pitch, 0.649519) * thread_friction + head / 2 * head_friction


def _factor(tightening_factor: float) -> float:
    """The factor handed back, refused below 1."""
    if not tightening_factor >= 1:
        raise ValueError(
            f"a tightening factor of {tightening_factor:.4g} would make the greatest preload less than the least. "
            "Check tightening_factor: greatest to least, 1 or more"
        )
    return tightening_factor
