"""What cannot be: the refusals that many formulas share.

above_zero     sizes, volumes and speeds
some_cylinder  a sum or a mean over cylinders
some_room      a clearance volume
room_for       what runs in what
throw_of       a crank that cannot turn

A formula refuses with ValueError, in one sentence that says what cannot be and what to check.
"""

from logbook.quantity.catalogue import quantity
from logbook.quantity.units import unit
from logbook.specs.every import Every


def above_zero(**given: float) -> None:
    """Refuse a figure that is zero, negative or not a number; keywords are names of the catalogue, in base units."""
    for name, figure in given.items():
        if not figure > 0:
            raise ValueError(
                f"{_shown(name, figure)} cannot be the {quantity(name).uk}: it must be above zero. "
                f"Check {name}, its unit and its sign"
            )


def some_cylinder(**given: Every) -> None:
    """Refuse a quantity of which no cylinder has a figure."""
    for name, figures in given.items():
        if not figures:
            raise ValueError(f"no cylinder has a {quantity(name).uk}. Check {name}: at least one is needed")


def some_room(clearance: float) -> float:
    """The clearance volume (m3) handed back, refused where the crown would fill the chamber."""
    if not clearance > 0:
        raise ValueError(
            f"the clearance volume comes to {1e6 * clearance:.4g} cc, which leaves no room above the piston at TDC. "
            "Check chamber_volume, dome_volume against dish_volume, and deck_clearance, above or below"
        )
    return clearance


def room_for(**sizes: float) -> float:
    """The room that the second of two sizes (m) has in the first, refused where it does not go in."""
    above_zero(**sizes)
    (outer, room), (inner, size) = sizes.items()
    if not size < room:
        raise ValueError(
            f"what is {1e3 * size:.6g} mm does not go into {1e3 * room:.6g} mm with any clearance. "
            f"Check {inner} against {outer}"
        )
    return room - size


def throw_of(stroke: float, rod_length: float, pin_offset: float = 0.0) -> float:
    """Half the stroke, refused where the rod is too short for the crank to turn."""
    above_zero(stroke=stroke, rod_length=rod_length)
    throw = stroke / 2
    if rod_length <= throw:
        raise ValueError(
            f"a connecting rod of {1e3 * rod_length:.5g} mm is not longer than the throw of {1e3 * throw:.5g} mm, "
            "and the crank could not turn. Check rod_length, centre to centre, and stroke"
        )
    if rod_length - throw <= abs(pin_offset):
        raise ValueError(
            f"with a gudgeon pin {1e3 * abs(pin_offset):.4g} mm off its axis a connecting rod of "
            f"{1e3 * rod_length:.5g} mm could not pass the throw of {1e3 * throw:.5g} mm. "
            "Check pin_offset, rod_length and stroke"
        )
    return throw


def _shown(name: str, figure: float) -> str:
    row = quantity(name)
    return f"{unit(row.unit).from_base(figure):.5g} {row.unit}" if row.has_unit else f"{figure:.5g}"
