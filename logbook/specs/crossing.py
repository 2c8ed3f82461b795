"""Where a lift table passes through a lift: the angle at which the valve opens to it, and closes from it."""

from logbook.quantity.curve import Curve
from logbook.specs.possible import above_zero

#: Below the end of a table its flank carries on in a line, as far as this share of the greatest lift: what is lost in
#: rounding, and how sure the events at just the lift of its end are.
_CARRIES_ON = 2e-3


def rises_through(lift: Curve, height: float) -> float:
    """The angle at which the valve opens through a lift."""
    above_zero(checking_lift=height)
    return _within(lift, height, lift.before_peak(height), 0)


def falls_through(lift: Curve, height: float) -> float:
    """The angle at which the valve closes through a lift."""
    above_zero(checking_lift=height)
    return _within(lift, height, lift.after_peak(height), -1)


def _within(lift: Curve, height: float, found: float | None, end: int) -> float:
    """The angle handed back, refused where the table never passes through that lift."""
    if found is not None:
        return found
    if height > lift.top:
        raise ValueError(
            f"a checking lift of {1e3 * height:.4g} mm is above the greatest of the lift table, {1e3 * lift.top:.4g} "
            "mm. Check checking_lift and its unit"
        )
    if lift.values[end] - height <= _CARRIES_ON * lift.top and lift.slopes[end]:
        return lift.at[end] + (height - lift.values[end]) / lift.slopes[end]
    side = "closing" if end else "opening"
    raise ValueError(
        f"the lift table ends at {1e3 * lift.values[end]:.4g} mm on the {side} side and says nothing of "
        f"{1e3 * height:.4g} mm. Check checking_lift, or read the table on until the valve is closed"
    )
