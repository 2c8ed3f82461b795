"""Clearances of the crankshaft in its bearings, and endways.

Bores:     main_bearing_bore_of_shells, rod_bearing_bore_of_shells
Bearings:  main_bearing_clearance, rod_bearing_clearance, main_bearing_clearance_ratio, rod_bearing_clearance_ratio
Endways:   crank_end_float, rod_side_clearance

Lengths in m. Every clearance is of the whole diameter, not of one side. The maker's figures win over any rule here.
"""

from logbook.specs.every import Every
from logbook.specs.possible import above_zero, room_for, some_cylinder


def main_bearing_bore_of_shells(*, main_housing_bore: float, main_shell_thickness: float) -> float:
    """Main bearing bore from its housing and the wall of its shells, where it was not measured with the shells in.

    d = D_h − 2 t

    main_housing_bore [m]: housing without shells, its bolts tightened, D_h.
    main_shell_thickness [m]: wall of one shell at its middle, t.
    Returns [m]: read upright, where the load is.
    Validity: both shells alike and seated; a measurement with the shells in and the bolts tightened is better.
    Source: [1] Difference of sizes; common practice, no source.

    >>> round(main_bearing_bore_of_shells(main_housing_bore=0.064000, main_shell_thickness=0.001980) * 1e3, 3)
    60.04
    """
    return _inside_the_shells(main_housing_bore=main_housing_bore, main_shell_thickness=main_shell_thickness)


def rod_bearing_bore_of_shells(*, rod_housing_bore: float, rod_shell_thickness: float) -> float:
    """Big-end bore from its housing and the wall of its shells, where it was not measured with the shells in.

    d = D_h − 2 t

    rod_housing_bore [m]: housing without shells, its bolts tightened, D_h.
    rod_shell_thickness [m]: wall of one shell at its middle, t.
    Returns [m]: read in line with the rod, where the load is.
    Validity: both shells alike and seated; a measurement with the shells in and the bolts tightened is better.
    Source: [1] Difference of sizes; common practice, no source.

    >>> round(rod_bearing_bore_of_shells(rod_housing_bore=0.051000, rod_shell_thickness=0.001475) * 1e3, 3)
    48.05
    """
    return _inside_the_shells(rod_housing_bore=rod_housing_bore, rod_shell_thickness=rod_shell_thickness)


def main_bearing_clearance(*, main_bearing_bore: float, main_journal_diameter: float) -> float:
    """Main bearing clearance (oil clearance) of one journal.

    c = d − j

    main_bearing_bore [m]: bearing with its shells in and its bolts tightened, read upright, d.
    main_journal_diameter [m]: journal of the crankshaft, j.
    Returns [m]: of the whole diameter.
    Validity: not at the parting line, where shells are made wider; the maker's band wins.
    Source: [1] Difference of two sizes; common practice, no source.

    >>> round(main_bearing_clearance(main_bearing_bore=0.060040, main_journal_diameter=0.059990) * 1e3, 3)
    0.05
    """
    return room_for(main_bearing_bore=main_bearing_bore, main_journal_diameter=main_journal_diameter)


def rod_bearing_clearance(*, rod_bearing_bore: float, rod_journal_diameter: float) -> float:
    """Big-end clearance (oil clearance) of one crankpin.

    c = d − j

    rod_bearing_bore [m]: big end with its shells in and its bolts tightened, read in line with the rod, d.
    rod_journal_diameter [m]: crankpin, j.
    Returns [m]: of the whole diameter.
    Validity: not at the parting line, where shells are made wider; the maker's band wins.
    Source: [1] Difference of two sizes; common practice, no source.

    >>> round(rod_bearing_clearance(rod_bearing_bore=0.048050, rod_journal_diameter=0.048000) * 1e3, 3)
    0.05
    """
    return room_for(rod_bearing_bore=rod_bearing_bore, rod_journal_diameter=rod_journal_diameter)


def main_bearing_clearance_ratio(*, main_bearing_clearance: float, main_journal_diameter: float) -> float:
    """Main bearing clearance as a share of its journal.

    c / j

    main_bearing_clearance [m]: of the whole diameter, c.
    main_journal_diameter [m]: journal of the crankshaft, j.
    Returns [bare]: 0.001 is one thousandth.
    Validity: rule of thumb 0.001, within 0.00075 to 0.0015; the maker's band wins.
    Source: [1] Common practice, no source.

    >>> round(main_bearing_clearance_ratio(main_bearing_clearance=0.00006, main_journal_diameter=0.06), 6)
    0.001
    """
    above_zero(main_bearing_clearance=main_bearing_clearance, main_journal_diameter=main_journal_diameter)
    return main_bearing_clearance / main_journal_diameter


def rod_bearing_clearance_ratio(*, rod_bearing_clearance: float, rod_journal_diameter: float) -> float:
    """Big-end clearance as a share of its crankpin.

    c / j

    rod_bearing_clearance [m]: of the whole diameter, c.
    rod_journal_diameter [m]: crankpin, j.
    Returns [bare]: 0.001 is one thousandth.
    Validity: rule of thumb 0.001, within 0.00075 to 0.0015; the maker's band wins.
    Source: [1] Common practice, no source.

    >>> round(rod_bearing_clearance_ratio(rod_bearing_clearance=0.000048, rod_journal_diameter=0.048), 6)
    0.001
    """
    above_zero(rod_bearing_clearance=rod_bearing_clearance, rod_journal_diameter=rod_journal_diameter)
    return rod_bearing_clearance / rod_journal_diameter


def crank_end_float(*, thrust_journal_width: float, thrust_bearing_width: float) -> float:
    """Crankshaft end float (US end play) from the widths, where it was not measured with a dial.

    f = w_j − w_b

    thrust_journal_width [m]: between the thrust faces of the crankshaft, w_j.
    thrust_bearing_width [m]: over the thrust faces of the bearing or its washers, w_b.
    Returns [m].
    Validity: cold; rules of thumb lie between 0.05 and 0.20 mm; the maker's band wins.
    Source: [1] Difference of two sizes; common practice, no source.

    >>> round(crank_end_float(thrust_journal_width=0.03015, thrust_bearing_width=0.03000) * 1e3, 3)
    0.15
    """
    return room_for(thrust_journal_width=thrust_journal_width, thrust_bearing_width=thrust_bearing_width)


def rod_side_clearance(*, crankpin_width: float, big_end_width: Every) -> float:
    """Side clearance of the connecting rods on one crankpin.

    f = w_p − Σ w_r

    crankpin_width [m]: between the cheeks of the crankpin, w_p.
    big_end_width [m]: of each rod that runs on it, w_r: one inline, two side by side in most vees.
    Returns [m]: of all rods on the pin together.
    Validity: cold; rule of thumb 0.15 to 0.40 mm; the maker's band wins.
    Source: [1] Difference of sizes; common practice, no source.

    >>> round(rod_side_clearance(crankpin_width=0.0483, big_end_width=[0.0240, 0.0240]) * 1e3, 3)
    0.3
    """
    some_cylinder(big_end_width=big_end_width)
    return room_for(crankpin_width=crankpin_width, big_end_width=sum(big_end_width))


def _inside_the_shells(**sizes: float) -> float:
    """What two shells leave of a housing."""
    above_zero(**sizes)
    (housing, bore), (shell, wall) = sizes.items()
    if not bore > 2 * wall:
        raise ValueError(
            f"two shells of {1e3 * wall:.5g} mm fill a housing of {1e3 * bore:.5g} mm. Check {shell} and {housing}"
        )
    return bore - 2 * wall
