"""When the cylinders of this engine fire, from what engine.yaml says of order, banks and crankpins."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from logbook.quantity.catalogue import CYLINDER, ROD_JOURNAL
from logbook.record.firing import stated_intervals
from logbook.record.models import Engine
from logbook.specs.layout import (
    CYCLE,
    even_firing_angle,
    even_firing_interval,
    evenly_spaced,
    firing_angle_of_shared_pin,
    firing_intervals,
    pin_split_needed,
)
from logbook.state.arrangement import Arrangement

STATED = "as stated"
OF_PINS = "as plain shared crankpins give it"
TAKEN = "as is usual, as none are stated"
_SAME = 0.5  # deg

Pair = tuple[str, str]  # the two cylinders of one crankpin, the leading bank's first


class Firing(NamedTuple):
    """Firing TDC of each cylinder, deg of crank after that of the first, in the firing order.

    `basis`: STATED, OF_PINS or TAKEN. `split`: what shared crankpins are split by for the intervals stated or, where
    nothing is stated, what they would have to be split by to fire evenly; None where no pin is shared. `fits`: whether
    the same split does for every crankpin, which an order that cannot be would not have.
    """

    angles: Mapping[str, float]
    basis: str
    split: float | None = None
    fits: bool = True

    @property
    def intervals(self) -> tuple[float, ...]:
        return firing_intervals(tuple(self.angles.values()))

    @property
    def even(self) -> bool:
        return evenly_spaced(self.intervals)


def firing_of(engine: Engine, arrangement: Arrangement) -> Firing | None:
    """None where the firing order is not stated or does not name each cylinder once."""
    order = engine.firing_places
    if sorted(order) != sorted(arrangement.cylinders):
        return None
    evenly = {each: even_firing_angle(place=place, cylinders=len(order)) for place, each in enumerate(order, 1)}
    stated = stated_intervals(engine)
    angles = {each: sum(stated[:place]) for place, each in enumerate(order)} if stated else evenly
    if engine.bank_angle is None or not (pairs := _pairs(arrangement)):
        return Firing(angles, STATED if stated else TAKEN)
    bank_angle = _leading(angles, pairs, engine.bank_angle.base)
    splits = [_split(angles, pair, bank_angle) for pair in pairs]
    split, fits = max(splits, key=abs), all(abs(each - splits[0]) <= _SAME for each in splits)
    if stated:
        return Firing(angles, STATED, split, fits)
    on_pins = Firing(_on_plain_pins(evenly, pairs, bank_angle), OF_PINS, split)
    in_order = all(each >= 0 for each in on_pins.intervals)
    return on_pins if fits and in_order else Firing(evenly, TAKEN, split, fits=False)


def _pairs(arrangement: Arrangement) -> list[Pair]:
    """The cylinders that share a crankpin, the first bank's first."""
    together = [arrangement.across(ROD_JOURNAL, pin, CYLINDER) for pin in arrangement.positions(ROD_JOURNAL)]
    banks = list(arrangement.banks)
    return [
        (some[0], some[1])
        for some in (sorted(each, key=lambda one: banks.index(arrangement.bank_of[one])) for each in together)
        if len(some) == 2
    ]


def _leading(angles: Mapping[str, float], pairs: list[Pair], bank_angle: float) -> float:
    """The bank angle, minus where the firing order fits a second bank that leads the first."""
    return min((bank_angle, -bank_angle), key=lambda way: sum(abs(_split(angles, pair, way)) for pair in pairs))


def _split(angles: Mapping[str, float], pair: Pair, bank_angle: float) -> float:
    return pin_split_needed(first=angles[pair[0]], second=angles[pair[1]], bank_angle=bank_angle)


def _on_plain_pins(evenly: Mapping[str, float], pairs: list[Pair], bank_angle: float) -> dict[str, float]:
    """The first bank's cylinders where they fire evenly, each of the second where the same pin puts it."""
    angles = dict(evenly)
    for first, second in pairs:
        angles[second] = firing_angle_of_shared_pin(first=evenly[first], even=evenly[second], bank_angle=bank_angle)
    start = angles[next(iter(angles))]
    return {each: (angle - start) % CYCLE for each, angle in angles.items()}


def firing_lines(firing: Firing) -> Iterator[str]:
    """What is to be said of it, a sentence each."""
    if firing.even:
        yield f"Even, every {firing.intervals[0]:g} deg ({firing.basis})"
    else:
        yield f"Uneven, {'-'.join(f'{each:g}' for each in firing.intervals)} deg ({firing.basis})"
    yield f"Firing TDC in degrees of crank: {', '.join(f'{each} at {at:g}' for each, at in firing.angles.items())}"
    yield from _pin_lines(firing)


def _pin_lines(firing: Firing) -> Iterator[str]:
    split = firing.split
    if split is None or (firing.basis == OF_PINS and abs(split) <= _SAME):
        return
    if not firing.fits:
        yield "No crankpins shared by two banks at this angle fire so: check firing_order, banks and bank_angle"
    elif firing.basis == STATED:
        plain = abs(split) <= _SAME
        yield f"For it the shared crankpins are {'plain' if plain else f'split by {abs(split):g} deg'}"
    else:
        every = even_firing_interval(cylinders=len(firing.angles))
        split_pins = f"need a split of {abs(split):g} deg (with it: firing_intervals: even)"
        yield f"To fire evenly, every {every:g} deg, they {split_pins}"
