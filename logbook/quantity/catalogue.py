"""The catalogue: what the trade measures and works out, and where each figure lives.

One row for each quantity: its names, its kind of unit, the range in which a workshop believes it, and two answers
that the rest of the program builds on: its *place* (one for the engine, one for each cylinder, ...) and its *owner*
(the part, or the set of parts, that it travels with). The rows stand in the files *_rows.py beside this one. No
formulas here.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import cache
from re import findall
from typing import NamedTuple

ENGINE, BANK, CYLINDER = "engine", "bank", "cylinder"
MAIN_JOURNAL, ROD_JOURNAL = "main journal", "rod journal"

#: Part kinds a file may name, with their words in UK and US usage.
PART_KINDS: Mapping[str, tuple[str, str]] = {
    "block": ("cylinder block", "engine block"),
    "crankshaft": ("crankshaft", "crankshaft"),
    "connecting_rods": ("connecting rods", "connecting rods"),
    "pistons": ("pistons", "pistons"),
    "piston_rings": ("piston rings", "piston rings"),
    "main_bearings": ("main shells", "main bearings"),
    "rod_bearings": ("big-end shells", "rod bearings"),
    "cylinder_head": ("cylinder head", "cylinder head"),
    "head_gasket": ("head gasket", "head gasket"),
    "camshaft": ("camshaft", "camshaft"),
    "inlet_camshaft": ("inlet camshaft", "intake camshaft"),
    "exhaust_camshaft": ("exhaust camshaft", "exhaust camshaft"),
    "valve_springs": ("valve springs", "valve springs"),
    "inlet_valves": ("inlet valves", "intake valves"),
    "exhaust_valves": ("exhaust valves", "exhaust valves"),
    "inlet_manifold": ("inlet manifold", "intake manifold"),
    "exhaust_manifold": ("exhaust manifold", "exhaust manifold"),
    "carburettor": ("carburettor", "carburetor"),
    "injectors": ("injectors", "injectors"),
    "ignition": ("ignition", "ignition"),
    "turbocharger": ("turbocharger", "turbocharger"),
    "supercharger": ("supercharger", "supercharger"),
    "flywheel": ("flywheel", "flywheel"),
    "oil_pump": ("oil pump", "oil pump"),
    "water_pump": ("water pump", "water pump"),
    "timing_drive": ("timing drive", "timing drive"),
    "bolts": ("bolts", "bolts"),
    "other": ("other part", "other part"),
}

#: Kinds of which each bank carries one of its own.
BANK_KINDS = frozenset(
    {
        "cylinder_head",
        "head_gasket",
        "inlet_manifold",
        "exhaust_manifold",
        "camshaft",
        "inlet_camshaft",
        "exhaust_camshaft",
        "valve_springs",
        "inlet_valves",
        "exhaust_valves",
        "turbocharger",
    }
)

#: Kinds of which each cylinder has a piece of its own, exchanged singly if need be.
CYLINDER_KINDS = frozenset(
    {
        "connecting_rods",
        "pistons",
        "piston_rings",
        "rod_bearings",
        "valve_springs",
        "inlet_valves",
        "exhaust_valves",
    }
)

#: What can be set without a unit: recorded as written, compared as text.
SETTINGS = (
    "fuel",
    "main_jet",
    "air_jet",
    "idle_jet",
    "needle",
    "float_height",
    "choke_tube",
    "plugs",
    "plug_gap",
    "oil",
    "advance_springs",
    "vacuum_advance",
    "camshaft_key",
    "boost_control",
)


class Quantity(NamedTuple):
    """One row of the catalogue.

    low and high bound what a workshop believes, spread is the usual expanded uncertainty (k = 2) of a figure that was
    not measured; all three are in `unit`. `sides` names the two directions of a signed figure, plus first. `owner`
    lists the part kinds a figure belongs to; several kinds are a set, `a|b` is either. `card`: the figure may also be
    stated of the first owner alone (a camshaft's card), and is then replaced by what was measured on the assembled
    engine. `reading`: one named reading of another quantity, its name and the label that it is written under.
    """

    name: str
    uk: str
    us: str
    kind: str
    unit: str
    place: str = ENGINE
    owner: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    spread: float | None = None
    imperial: str = ""
    sides: tuple[str, str] | None = None
    qualifiers: tuple[str, ...] = ()
    wears: bool = False
    result: bool = False
    derived_only: bool = False
    event: bool = False
    card: bool = False
    reading: tuple[str, str] | None = None

    def __hash__(self) -> int:
        return hash(self.name)  # tells any two rows apart, in a fraction of the time

    @property
    def has_unit(self) -> bool:
        """False for ratios, counts and numbers, which are written bare."""
        return self.unit != ""


class Qualifier(NamedTuple):
    """A condition that belongs to a figure's identity: figures under other conditions never compete with it."""

    name: str
    kind: str
    unit: str
    words: tuple[str, ...] = ()


QUALIFIERS: Mapping[str, Qualifier] = {
    row.name: row
    for row in (
        Qualifier("at_lift", "length", "mm"),
        Qualifier("at_lash", "length", "mm"),
        Qualifier("at_depression", "pressure_difference", "inH2O"),
        Qualifier("oil", "words", "", ("dry", "with oil")),
    )
}


@cache
def catalogue() -> Mapping[str, Quantity]:
    """Every quantity by its name."""
    from logbook.quantity.air_rows import AIR_ROWS
    from logbook.quantity.clearance_rows import CLEARANCE_ROWS
    from logbook.quantity.condition_rows import CONDITION_ROWS
    from logbook.quantity.curve_rows import CURVE_ROWS
    from logbook.quantity.geometry_rows import GEOMETRY_ROWS
    from logbook.quantity.running_rows import RUNNING_ROWS
    from logbook.quantity.valve_rows import VALVE_ROWS

    rows = (
        *GEOMETRY_ROWS,
        *RUNNING_ROWS,
        *VALVE_ROWS,
        *AIR_ROWS,
        *CLEARANCE_ROWS,
        *CONDITION_ROWS,
        *CURVE_ROWS,
    )
    return {row.name: row for row in rows}


def quantity(name: str) -> Quantity:
    """The row of that name; KeyError if there is none."""
    return catalogue()[name]


#: Words of the one usage inside a name, with those that the catalogue's own names have.
_OWN_WORDS = {"intake": "inlet", "center": "centre", "quench": "squish", "carburetor": "carburettor", "vapor": "vapour",
              "cam": "camshaft", "cams": "camshaft", "conrods": "connecting_rods"}  # fmt: skip
_MOST_AKIN = 6
_A_SLIP = 0.85  # so like a name that only the typing went wrong


def own_name(typed: str) -> str:
    """The name under which the catalogue keeps what the trade calls so, in either usage; as typed where nothing is.

    >>> own_name("quench clearance"), own_name("intake_lobe_center"), own_name("Engine block"), own_name("boar")
    ('squish_clearance', 'inlet_lobe_centre', 'block', 'boar')
    """
    if typed in catalogue():
        return typed
    return next((_called()[each] for each in (_key(typed), _in_own_words(typed)) if each in _called()), typed)


def _in_own_words(typed: str) -> str:
    return "_".join(_OWN_WORDS.get(word, word) for word in _key(typed).split("_"))


def _key(words: str) -> str:
    return "_".join(findall("[a-z0-9]+", words.lower()))


@cache
def _called() -> Mapping[str, str]:
    """The own name by everything that it may be called, as a key: shortened at a comma, in full, and itself."""
    spoken = [(name, words) for name, usages in PART_KINDS.items() for words in usages]
    spoken += [(row.name, words) for row in catalogue().values() for words in (row.uk, row.us)]
    own = {name: name for name in (*SETTINGS, *PART_KINDS, *catalogue())}
    return _unshared((name, words.partition(",")[0]) for name, words in spoken) | _unshared(spoken) | own


def _unshared(spoken: Iterable[tuple[str, str]]) -> dict[str, str]:
    """The name by the key of its words, where no other name has the same."""
    names: dict[str, set[str]] = {}
    for name, words in spoken:
        names.setdefault(_key(words), set()).add(name)
    return {called: some.pop() for called, some in names.items() if len(some) == 1}


def nearest(name: str, known: Collection[str], alike: float = 0.6) -> str | None:
    """The known name that `name` was probably meant to be, or None."""
    from difflib import get_close_matches  # needed for a mistake only

    if own_name(name) in known:
        return own_name(name)
    found = get_close_matches(name.lower(), known, n=1, cutoff=alike)
    return found[0] if found else None


def _has_words_of(typed: str, known: str) -> bool:
    """Whether every word that was typed begins a word of the name."""
    words = list(filter(None, _in_own_words(typed).split("_")))
    return bool(words) and all(f"_{word}" in f"_{known}" for word in words)


def did_you_mean(name: str, known: Collection[str], otherwise: str = "") -> str:
    """What to say behind a name that is not known: the nearest, those that have its words in them, or `otherwise`."""
    akin = [each for each in known if _has_words_of(name, each)]
    near = nearest(name, known, _A_SLIP if len(akin) > 1 else 0.6)
    if akin and not near:
        return f"; there is {', '.join(akin[:_MOST_AKIN])}" + (" …" if len(akin) > _MOST_AKIN else "")
    return f"; did you mean {near}?" if near else f"; {otherwise}" if otherwise else ""
