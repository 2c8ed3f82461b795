"""What a test of the engine's condition tells.

cranking_pressure_least  of a compression test: how far the worst cylinder falls behind the best

Pressures in Pa, gauge: above that of the air around.
"""

from logbook.specs.every import Every
from logbook.specs.possible import some_cylinder


def cranking_pressure_least(*, cranking_pressure: Every) -> float:
    """Least cranking pressure of a compression test, as a share of the greatest.

    least p / greatest p

    cranking_pressure [Pa gauge]: of every cylinder, p, in one test: one gauge, one state of the engine, all dry or
        all with oil.
    Returns [share]: 1 where all are alike.
    Validity: gauge pressures, as the trade compares them; of absolute pressures the share is greater.
    Source: [1] Common practice, no source.

    >>> round(cranking_pressure_least(cranking_pressure=[12.0e5, 11.4e5, 12.0e5, 9.0e5]), 3)
    0.75
    """
    some_cylinder(cranking_pressure=cranking_pressure)
    greatest = max(cranking_pressure)
    if not greatest > 0:
        raise ValueError("no cylinder gave any cranking pressure, so none can be compared. Check cranking_pressure")
    return min(cranking_pressure) / greatest
