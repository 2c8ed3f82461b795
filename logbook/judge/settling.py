"""What would settle a figure of which neither is proven: how well which reading would have to be known, and with what.

The figure is taken to stay as it is; what is asked for is the uncertainty at which the guard band is as wide as the
margin. Only instruments that this record has used for that quantity are named: nobody measures a gap with a burette.
"""

from __future__ import annotations

from math import sqrt

from logbook.judge.bounds import parse_bound
from logbook.judge.limits import Judged
from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.rounding import decimals_for
from logbook.quantity.uncertain import COVERAGE, Uncertain
from logbook.quantity.usage import Usage
from logbook.record.facts import MEASURED
from logbook.specs.better import good_instruments, leaves, readings_for
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node

ON_THE_LIMIT = 0.05  # of the uncertainty: a margin so small that no better instrument is likely to tell
BEST = 0.02  # of what it is now: better than fifty times no reading becomes, and a round-off is no error to aim at


def weightiest(each: Judged) -> Node:
    """The stated figure that brings most of the uncertainty into the margin: the one to look at first."""
    margin = each.standing.margin
    return max(leaves(each.node), key=lambda leaf: _share(leaf, margin))


def _share(leaf: Node, margin: Uncertain) -> float:
    """The variance that one stated figure brings into a margin."""
    return sum(margin.terms.get(key, 0.0) ** 2 for key in leaf.value.terms)


def settles(at: Configuration, each: Judged) -> str:
    """What would settle an undecided figure, as a sentence without its point."""
    margin, leaf, usage = each.standing.margin, weightiest(each), at.life.record.engine.usage
    reach, own = abs(margin.nominal), _share(leaf, margin)
    if reach < ON_THE_LIMIT * margin.expanded:
        return "it lies on the limit itself, and no better reading is likely to settle that"
    other = _of_the_bound(each)
    if other and own < margin.standard**2 / 2:
        return f"a better reading of the {usage.name(quantity(other))} would help most"
    allowed = (reach / COVERAGE) ** 2 - (margin.standard**2 - own)
    if allowed <= BEST**2 * own or leaf.held is None:
        return f"no single reading settles it: take {_two(each, usage)} better"
    wanted = sqrt(allowed) * leaf.value.standard / sqrt(own)
    readings, used = readings_for(leaf, wanted), leaf.held.fact.stated.instrument
    better = [f"the {name} is as good" for name in good_instruments(at.life.record, leaf.held, wanted)]
    means = " or ".join(better + ([f"the mean of {readings} readings with the {used}"] if readings else []))
    measured = "" if leaf.held.basis == MEASURED else ": measure it"
    row = leaf.held.fact.row
    told = f"knowing the {_named(row, usage)} to ± {_amount(row, wanted, usage)} would settle it{measured}"
    return f"{told} ({means})" if means else told


def _named(row: Quantity, usage: Usage) -> str:
    """The name in the middle of a sentence: what it has behind a comma stands between two."""
    name = usage.name(row)
    return f"{name}," if "," in name else name


def _of_the_bound(each: Judged) -> str:
    texts = (text for text in (each.limit.low, each.limit.high) if text)
    return next((of for of in (parse_bound(text, each.row).of for text in texts) if of), "")


def _two(each: Judged, usage: Usage) -> str:
    margin = each.standing.margin
    shares: dict[str, float] = {}
    for leaf in leaves(each.node):
        shares[leaf.name] = max(shares.get(leaf.name, 0.0), _share(leaf, margin))
    first = sorted(shares, key=lambda name: -shares[name])[:2]
    return " and ".join(usage.name(quantity(name)) for name in first)


def _amount(row: Quantity, wanted: float, usage: Usage) -> str:
    """An expanded uncertainty in the owner's unit, with one or two digits, rounded down."""
    size = COVERAGE * wanted / usage.scale(row).size(1.0)
    places = max(decimals_for(size), 0)
    return f"{int(size * 10**places) / 10**places:.{places}f} {usage.unit(row)}".rstrip()
