"""What cannot be: the refusals that many formulas share.

above_zero     sizes, volumes and speeds
some_cylinder  a sum or a mean over cylinders

A formula refuses with ValueError, in one sentence that says what cannot be and what to check.
"""

from logbook.quantity.catalogue import quantity
from logbook.specs.every import Every


def above_zero(**given: float) -> None:
    """Refuse a figure that is zero, negative or not a number; keywords are names of the catalogue, in base units."""
    for name, figure in given.items():
        if not figure > 0:
            shown = _shown(name, figure)
            raise ValueError(f"{shown} cannot be: it must be above zero. Check {name}, its unit and its sign")


def some_cylinder(**given: Every) -> None:
    """Refuse a quantity of which no cylinder has a figure."""
    for name, figures in given.items():
        if not figures:
            raise ValueError(f"no cylinder has a {quantity(name).uk}. Check {name}: at least one is needed")


def _shown(name: str, figure: float) -> str:
    from logbook.quantity.units import unit

    row = quantity(name)
    if not row.has_unit:
        return f"{row.uk} {figure:.5g}"
    return f"{row.uk} {unit(row.unit).from_base(figure):.5g} {row.unit}"
