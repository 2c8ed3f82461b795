"""How this owner reads: the trade's words in UK or US usage, metric or imperial units, days and readings in words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from logbook.documents import figures
from logbook.documents.pieces import Figure
from logbook.quantity.catalogue import Quantity, catalogue
from logbook.quantity.uncertain import Uncertain
from logbook.quantity.units import unit
from logbook.quantity.usage import Usage
from logbook.quantity.value import condition_in_inches
from logbook.record.facts import MEASURED, Fact
from logbook.record.models import Engine
from logbook.record.when import Amount, Reading, When
from logbook.specs.results import Value

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")  # fmt: skip
_SIGNS = {"cm2": "cm²", "mm2": "mm²", "m2": "m²", "m3": "m³", "inH2O": "inH₂O", "degC": "°C", "degF": "°F",
          "um": "µm", "kg/m3": "kg/m³", "m3/s": "m³/s", "m3/h": "m³/h", "m3/min": "m³/min",
          "m/s2": "m/s²", "ft/s2": "ft/s²"}  # fmt: skip
_UNSIGNED = re.compile(rf"(?<![\w/])(?:{'|'.join(sorted(_SIGNS, key=len, reverse=True))})(?![\w/])")
_QUALIFIERS = {"at_lift": "at {} lift", "at_lash": "at {} lash", "at_depression": "at {}", "oil": "{}"}
_QUOTED = re.compile(r"`([^`]*)`")
_ALL = re.compile(r"all: (.*)")


class Words(Usage):
    """The words and units of one engine's owner, as they are printed."""

    def __init__(self, engine: Engine) -> None:
        super().__init__(engine.usage.us, engine.usage.imperial)

    def conditions(self, qualifiers: Mapping[str, str]) -> str:
        """'at 0.1 mm lift, dry', a length in the owner's unit."""
        if not self.imperial:
            return conditions(qualifiers)
        return conditions({name: condition_in_inches(name, text) for name, text in qualifiers.items()})

    def name(self, row: Quantity) -> str:
        """The trade's name; a unit in it as it is printed."""
        return _signs(super().name(row))

    def short(self, row: Quantity) -> str:
        """The name without what follows its first comma, where no other quantity begins so."""
        head = self.name(row).partition(",")[0]
        alike = [each for each in catalogue().values() if self.name(each).partition(",")[0] == head]
        return head if len(alike) == 1 else self.name(row)

    def title(self, row: Quantity) -> str:
        """The trade's name at the beginning of a line; of a figure with two sides, which of them counts plus."""
        side = f", {row.sides[0]} +" if row.sides else ""
        return capital(self.name(row) + side)

    def sided(self, row: Quantity, base: float) -> str:
        """The title with the side that this figure lies on."""
        side = f", {row.sides[base < 0]}" if row.sides and base else ""
        return capital(self.name(row) + side)

    def symbol(self, row: Quantity) -> str:
        """The unit that this owner reads a quantity in, as it is printed; '' for none."""
        return sign(self.unit(row))

    def pair(self, row: Quantity, value: Value | Uncertain) -> tuple[str, str]:
        """Value and ± as text."""
        scale = self.scale(row)
        return figures.pair(scale.from_base(value.nominal), scale.from_size(value.expanded), 2)

    def figure(self, row: Quantity, value: Value, note: str = "", most: int | None = None) -> Figure:
        """A figure with all that belongs to it; `most` decimals where it was written with no more."""
        scale = self.scale(row)
        nominal, expanded = scale.from_base(value.nominal), scale.from_size(value.expanded)
        decimals = 0 if row.kind == "count" else 2
        pair = figures.pair(nominal, expanded, decimals) if most is None else figures.at_most(nominal, expanded, most)
        notes = (note or _rough(value), outside_note(value))
        return Figure(*pair, self.symbol(row), rests_on(value), "; ".join(filter(None, notes)))

    def written_places(self, fact: Fact) -> int | None:
        """The decimals that a fact was written with, in the unit shown; None where it was written in another unit."""
        written = [figure for position in fact.positions for figure in position or ()]
        if any(unit(each.unit).symbol != self.scale(fact.row).symbol for each in written if each.unit):
            return None
        return max((figures.places_of(each.number) for each in written if each.number), default=None)

    def difference(self, row: Quantity, delta: Uncertain) -> Figure:
        """A difference with its sign; errors that both sides share have cancelled."""
        scale = self.scale(row)
        return Figure(*figures.difference(scale.from_size(delta.nominal), scale.from_size(delta.expanded)))


#: Beside a figure where there is no room for the reason.
OUTSIDE = "†"


def _rough(value: Value) -> str:
    if value.doubtful and not value.expanded:
        return "no ±: the errors of what it is worked out from cancel"
    return "its ± is a rough one: within it the formula bends" if value.doubtful else ""


def outside_note(*values: Value) -> str:
    """Why a figure lies outside the validity of a formula that it rests on; '' where no number says so."""
    reasons = dict.fromkeys(reason for value in values for reason in value.outside)
    return f"{OUTSIDE} outside what its formula holds for: {'; '.join(reasons)}" if reasons else ""


def rests_on(value: Value) -> str:
    """What a figure rests on, where not on measurement alone: 'published', '43 % published', '48 % not measured'."""
    others = {basis: share for basis, share in value.shares.items() if basis != MEASURED and share >= 0.005}
    if not others:
        return "" if value.basis == MEASURED or value.shares else value.basis
    share = sum(others.values())
    word = next(iter(others)) if len(others) == 1 else "not measured"
    return word if share >= 0.995 else f"{share:.0%}".replace("%", f"{figures.NO_BREAK}% {word}")


def sign(symbol: str) -> str:
    """A unit as it is printed: cm² for cm2."""
    return _SIGNS.get(symbol, symbol)


def conditions(qualifiers: Mapping[str, str]) -> str:
    """'at 0.1 mm lift, dry'."""
    return ", ".join(_QUALIFIERS.get(name, name + " {}").format(_signs(text)) for name, text in qualifiers.items())


def as_written(text: str) -> str:
    """A figure as its file writes it, made fit to print: 'all: 0.30 mm' is '0.30 mm, all'."""
    found = _ALL.fullmatch(text)
    return _signs(f"{found[1]}, all" if found else text).replace("+/-", "±")


def _signs(text: str) -> str:
    return _UNSIGNED.sub(lambda found: _SIGNS[found[0]], text)


def bracketed(name: str) -> str:
    """A name without a comma, to stand in a list: 'compression ratio (mean of the cylinders)'."""
    first, comma, rest = name.partition(", ")
    return f"{first} ({rest})" if comma else name


def plain(name: str) -> str:
    """A key of a file as words: main_jet is 'main jet'."""
    return name.replace("_", " ")


def in_words(message: str) -> str:
    """A message that quotes keys of a file, for a reader who does not know them: `dish_volume` is 'dish volume'."""
    return _QUOTED.sub(lambda found: plain(found[1]), message)


def capital(text: str) -> str:
    """With a capital letter, whatever follows."""
    return text[:1].upper() + text[1:]


def day(when: When) -> str:
    """'9 April 2016', 'April 2016', 'about 1998'."""
    about, text = ("about ", when.text[6:]) if when.text.startswith("about ") else ("", when.text)
    year, *rest = text.split("-")
    words = [year, *(MONTHS[int(rest[0]) - 1 :][:1] if rest else ()), *(str(int(each)) for each in rest[1:])]
    return about + " ".join(reversed(words))


def amount(shown: Amount) -> str:
    """'104 300 km', 'about 61 000 mi'."""
    return shown.hedge + measured(shown.base, shown.unit)


def measured(base: float, symbol: str) -> str:
    """An amount in base units as a counter would show it: '104 300 km', '41.6 h'."""
    return figures.joined(count(unit(symbol).from_base(base)), unit=symbol)


def count(value: float) -> str:
    """A number with no more decimals than it has, up to three, thousands apart."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return figures.number(value, figures.places_of(text))


def reading(shown: Reading) -> str:
    """'104 300 km, 12.5 h'; '' where nobody knows."""
    return ", ".join(map(amount, shown))


def listed(words: Sequence[str]) -> str:
    """'a, b and c'."""
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def number_of(count: int, word: str, words: str = "") -> str:
    """'1 entry', '16 entries'."""
    return f"{count} {word if count == 1 else words or word + 's'}"


def shortened(title: str, most: int) -> str:
    """The title up to its first comma or colon, or to a whole word, where it is too long for a plot."""
    if len(title) <= most:
        return title
    for mark in (":", ",", ";"):
        head = title.partition(mark)[0]
        if 4 <= len(head) <= most:
            return head
    words = title[: most - 1].rsplit(" ", 1)[0] or title[: most - 1]
    return f"{words} …"
