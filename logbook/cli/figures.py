"""Numbers and words for the terminal: digits by the uncertainty, units, and what a value rests on."""

from __future__ import annotations

from collections.abc import Mapping

from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.quantity.usage import Usage
from logbook.quantity.value import condition_in_inches
from logbook.record.facts import MEASURED
from logbook.record.models import Engine
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.results import Spec, Value
from logbook.specs.ways import needs
from logbook.state.counters import Counters


def shown_unit(row: Quantity, show: str = "metric") -> str:
    """The unit a quantity is printed in: its usual metric one, or the imperial one where it has one."""
    return Usage(imperial=show == "imperial").unit(row)


def figure(row: Quantity, value: Value | Uncertain, show: str = "metric") -> tuple[str, str]:
    """Value and ± as text in the unit shown."""
    its = shown_unit(row, show)
    if not its:
        return plain(value.nominal, value.expanded)
    scale = unit(its)
    return plain(scale.from_base(value.nominal), value.expanded / scale.size(1.0))


def told(node: Node, engine: Engine) -> str:
    """A value with its ± and unit; a signed one by its side."""
    row = quantity(node.name)
    number, plus_minus = figure(row, node.value, engine.show)
    if not row.sides:
        return joined(number, plus_minus, unit_of(row, engine))
    return f"{joined(number.removeprefix('-'), plus_minus, unit_of(row, engine))} {row.sides[number.startswith('-')]}"


#: Beside a figure whose ± is rough, or which has none since what it is worked out from is the same on both sides.
ROUGH, CANCELLED = "± rough", "errors cancel"


def how_sure(value: Value | Uncertain, bent: bool) -> str:
    """`± rough` where the formula bends within it, `errors cancel` where none is left of it; else nothing."""
    return (ROUGH if value.expanded else CANCELLED) if bent else ""


#: What is said of a figure that stands for a table of lifts or flows.
GREATEST = "the greatest of its table"


def of_a_table(node: Node) -> bool:
    """Whether a figure that was read stands for a whole table."""
    return bool(node.held and node.held.fact.curve and node.held.fact.name == node.name)


def stated(row: Quantity, base: float, show: str = "metric") -> str:
    """A stated value with its unit, in as many digits as it deserves without a ± of its own."""
    its = shown_unit(row, show)
    return joined(plain(unit(its).from_base(base) if its else base, 0.0)[0], "", its)


def condition(name: str, text: str, show: str = "metric") -> str:
    """`at lift 0.050 in`: what a figure was taken under, in the unit shown; words stay words."""
    return f"{name.replace('_', ' ')} {condition_in_inches(name, text) if show == 'imperial' else text}"


def signed(row: Quantity, value: Uncertain, show: str = "metric") -> tuple[str, str]:
    """A difference with its sign, and its ±."""
    its = shown_unit(row, show)
    size = unit(its).size(1.0) if its else 1.0
    number, plus_minus = plain(value.nominal / size, value.expanded / size)
    return (number if number.startswith("-") or not float(number) else f"+{number}"), plus_minus


def joined(number: str, plus_minus: str, its_unit: str = "") -> str:
    """`10.84 ± 0.12 cc`."""
    text = f"{number} ± {plus_minus}" if plus_minus else number
    return f"{text} {its_unit}".rstrip()


def rests_on(shares: Mapping[str, float], basis: str | None) -> str:
    """What a value rests on, in words; nothing where all of it was measured."""
    others = {name: share for name, share in shares.items() if name != MEASURED and share >= 0.005}
    if any(share >= 0.995 for share in others.values()):
        return ", ".join(others)
    if others:
        return ", ".join(f"{share:.0%} {name}" for name, share in others.items())
    return "" if basis in (MEASURED, None) else f"{basis}"


def lacks(spec: Spec) -> str:
    """What would have to be known, in words."""
    if spec.because:
        return f"cannot be: {spec.because}"
    return needs(spec.groups) or "cannot be worked out"


def signed_name(row: Quantity, engine: Engine) -> str:
    """The name with the side that counts plus: `inlet opens, before TDC +`."""
    return name_of(row, engine) + (f", {row.sides[0]} +" if row.sides else "")


def name_of(row: Quantity, engine: Engine) -> str:
    """The trade's name in the owner's usage."""
    return engine.usage.name(row)


def thought_of(at: Configuration) -> str:
    """What is only thought of at a point: which plan, or what is supposed or given."""
    from logbook.specs.supposing import SUPPOSED, supposed_in_words

    name = at.point.plan or ""
    plan = at.life.record.plans[name]
    if name != SUPPOSED:
        return f"as plan {name} would make it, on top of {plan.from_}"
    said = ", ".join(supposed_in_words(plan))
    return f"as it would be, on top of {plan.from_}, with {said}" if at.life.record.entries else f"from {said}"


def reading_of(engine: Engine, counters: Counters) -> str:
    """What the counters show now, and the true distance where a counter does not tell it."""
    shown, true = [], []
    for name, section in counters.running.items():
        its = unit(engine.counters[name].unit)
        if section.last is not None:
            shown.append(f"{its.from_base(section.last):.10g} {its.symbol}")
    for name, kind in engine.counters.items():
        its = unit(kind.unit)
        total = counters.totals.of(its.kind)
        running = counters.running.get(name)
        if (
            total is not None
            and (running is None or running.offset)
            and any(s.counter == name for s in counters.sections)
        ):
            true.append(f"{its.from_base(total):.10g} {its.symbol}")
    told = ", ".join(shown)
    return f"{told} (true total {', '.join(true)})".strip() if true else told


def unit_of(row: Quantity, engine: Engine) -> str:
    """The unit that this owner reads the quantity in."""
    return shown_unit(row, engine.show)
