"""What cannot be: the refusals that many formulas share.

above_zero     sizes, volumes and speeds
some_cylinder  a sum or a mean over cylinders
some_room      a clearance volume

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


def _shown(name: str, figure: float) -> str:
    row = quantity(name)
    return f"{unit(row.unit).from_base(figure):.5g} {row.unit}" if row.has_unit else f"{figure:.5g}"
