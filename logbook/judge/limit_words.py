"""A judged limit in words, in any unit that is asked for: the figure, the rule, the verdict, what was accepted."""

from __future__ import annotations

from collections.abc import Iterable

from logbook.judge.bounds import OUTSIDE, UNDECIDED, parse_bound
from logbook.judge.limits import Judged
from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.rounding import plain
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import Unit
from logbook.quantity.usage import Usage

#: Beside whatever can hurt the engine or a person.
CAUTION = "the maker's manual comes first"


def figure_of(each: Judged, usage: Usage) -> str:
    """`1.900 ± 0.020 mm`."""
    symbol = usage.unit(each.row)
    number, plus_minus = _plain(each.value, usage.scale(each.row))
    return f"{number} ± {plus_minus} {symbol}".rstrip() if plus_minus else f"{number} {symbol}".rstrip()


def _plain(value: Uncertain, scale: Unit) -> tuple[str, str]:
    return plain(scale.from_base(value.nominal), value.expanded / scale.size(1.0))


def bounds_of(each: Judged, usage: Usage) -> str:
    """`at least 2.0 mm`, `0.1 to 0.2 mm`, `at least 0.3211 mm = 0.0040 × bore`."""
    symbol = usage.unit(each.row)
    bounds = (each.low, each.limit.low), (each.high, each.limit.high)
    low, high = (_bound(value, text, each.row, usage) for value, text in bounds)
    rule = _rule([text for value, text in bounds if text and value is not None], each.row, usage)
    if low and high:
        return f"{low.removesuffix(symbol).strip()} to {high}{rule}"
    return f"at least {low}{rule}" if low else f"at most {high}{rule}"


def _bound(value: Uncertain | None, text: str | None, row: Quantity, usage: Usage) -> str:
    if value is None or text is None:
        return ""
    if not value.terms and text.endswith(usage.unit(row)):
        return text  # as the owner wrote it, or its source
    return usage.said(row, value.nominal)


def _rule(texts: list[str], row: Quantity, usage: Usage) -> str:
    """` = 0.0010 × main journal diameter ± 0.013 mm`; nothing for plain amounts."""
    is_multiple = any(parse_bound(text, row).of for text in texts)
    return f" = {written(texts, row, usage)}" if is_multiple else ""


def written(texts: Iterable[str | None], row: Quantity, usage: Usage) -> str:
    """Bounds as they are written, with the trade's names in them: `0.0045 × bore`, `0.10 mm to 0.20 mm`."""
    words = [_in_words(text, row, usage) for text in texts if text]
    if len(words) == 2 and words[0].replace(" - ", " + ") == words[1]:
        return words[1].replace(" + ", " ± ")
    return " to ".join(words)


def _in_words(text: str, row: Quantity, usage: Usage) -> str:
    bound = parse_bound(text, row)
    amount = text.partition(f" {bound.of}")[2].lstrip(" +-") if bound.of else text
    if amount and not amount.endswith(usage.unit(row)):
        text = text.replace(amount, usage.said(row, abs(bound.amount), 2))
    if not bound.of:
        return text
    return text.replace(f" {bound.of}", f" × {usage.name(quantity(bound.of))}").replace("x ×", "×")


def name_of(each: Judged, usage: Usage) -> str:
    """`inlet valve to piston, least`, of a spread `combustion chamber volume, greatest less least`."""
    name = usage.name(each.row)
    return f"{name}, greatest less least" if each.limit.spread else name


def verdict_of(each: Judged) -> str:
    """`outside, accepted 2018-03-24: …`, `not proven either way, 97 % likely within`."""
    words = each.verdict
    if each.verdict == UNDECIDED:
        words += f", {likely_of(each)}"
    if each.verdict == OUTSIDE and each.accepted:
        words += f"; {accepted_of(each)}"
    return words


def likely_of(each: Judged) -> str:
    """`97 % likely within`; never all or nothing, which an undecided figure is not."""
    return f"{min(max(round(100 * each.standing.likely), 1), 99)} % likely within"


def accepted_of(each: Judged) -> str:
    """`accepted 2018-03-24: a tenth under the rule`, and that it has ended where it has; empty where nothing was."""
    said = each.accepted
    if said is None:
        return ""
    day, its = said.entry.says.date, f" ({said.value})" if said.value else ""
    told = f"accepted {day}{its}: {said.why}"
    return f"what was {told}, has ended: {said.ended}" if said.ended else told
