"""Every combination of the parts that are named, each worked out as if it were fitted: what goes with what.

A part may be taken as it stood at a point (`head-b@2017-05-01`), or from another engine's shelf. Then its own figures
are lent to the engine under question; what it would share with others (deck, squish) is left to the formulas.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain, product
from typing import NamedTuple

from logbook.errors import LogbookError
from logbook.judge.compare import difference
from logbook.judge.hurts import FALLS, RISES, of_specs
from logbook.judge.tuned import TAKE_CARE, unproven
from logbook.judge.wants import MISSED, OPEN, Want, judge
from logbook.quantity.catalogue import PART_KINDS, Quantity, catalogue, did_you_mean
from logbook.record import entries as model
from logbook.record.collecting import collection_paused
from logbook.record.facts import MEASURED
from logbook.specs.configuration import Configuration
from logbook.specs.results import Spec
from logbook.specs.sharing import Common, Known
from logbook.state.fold import Life, also
from logbook.state.holding import Held, Holding
from logbook.state.intended import intended
from logbook.state.places import Places
from logbook.state.points import find_point

MOST = 20_000
#: What every combination is asked for; what is wanted comes on top.
SPECS = ("mean_compression_ratio", "compression_ratio", "squish_clearance", "effective_compression_ratio",
         "filling_falls_from", "filling_falls_by")  # fmt: skip
THEIRS = "with:"  # in front of an id that both shelves have, where the other's is meant

Lent = Mapping[tuple[str, str], Held | None]


class CannotCombine(LogbookError):
    """A combination that cannot be: one line that says what would work."""


class Choice(NamedTuple):
    """One part for one kind: its ids in the order of the banks, how it is named, and what it lends if not as it is."""

    kind: str
    label: str
    parts: tuple[str, ...]
    lent: Lent | None = None
    theirs: bool = False


class Combination(NamedTuple):
    """The engine with these parts: `at` works out any spec of it."""

    parts: Mapping[str, str]
    choices: tuple[Choice, ...]
    at: Configuration
    wants: Mapping[str, str]  # as written -> met, not proven either way, missed

    @property
    def specs(self) -> Mapping[str, Spec]:
        return self.at.specs

    def cautions(self, beside: Configuration) -> tuple[str, ...]:
        """What can hurt the engine, beside the engine that the parts would go on."""
        hurting = [name for name in SPECS if name in RISES or name in FALLS]
        found = of_specs({name: difference(beside.specs[name], self.specs[name]) for name in hurting})
        tune = unproven(self.at)
        if tune and unproven(beside) is None:
            found = chain(found, [f"{tune.tune.label} was not found with these parts: {TAKE_CARE}."])
        return tuple(dict.fromkeys(found))

    @property
    def unmeasured(self) -> tuple[str, ...]:
        """What its ratio lacks altogether."""
        spec = self.specs["compression_ratio"]
        return tuple(dict.fromkeys((*spec.missing, *(" or ".join(group) for group in spec.missing_any))))

    @property
    def rests_on_unmeasured(self) -> bool:
        """Whether the ratio rests on figures that nobody measured."""
        return self.specs["compression_ratio"].basis not in (None, MEASURED)

    @property
    def not_owned(self) -> tuple[str, ...]:
        """Parts that are only thought of, or were sold or scrapped."""
        return tuple(part for choice in self.choices for part in choice.parts if _not_owned(self.at, choice, part))

    @property
    def misfits(self) -> tuple[str, ...]:
        """What the parts' `fits:` says against it; and where nobody wrote what a part fits."""
        return tuple(_misfits(self))


@collection_paused()
def combine(
    at: Configuration, wanted: Mapping[str, Sequence[str]], wants: Sequence[Want] = (), shelf: Life | None = None
) -> tuple[Combination, ...]:
    """Every combination, best first. `wanted`: part kind -> parts as typed. Raises CannotCombine, PointUnknown."""
    choices = [[_choice(at, kind, typed, shelf) for typed in some] for kind, some in wanted.items()]
    many = 1
    for some in choices:
        many *= len(some)
    if many > MOST:
        raise CannotCombine(f"{many} combinations; name fewer parts, {MOST} combinations at most")
    common = Common(tuple(wanted), at.life.record)
    found = [_combination(at, combined, wants, common) for combined in product(*choices)]
    return tuple(sorted(found, key=_rank))


def _rank(each: Combination) -> tuple[int, int, float]:
    """The fewest misses first, then the fewest open ones; of equals the one with the closer squish."""
    verdicts = list(each.wants.values())
    squish = [value.nominal for value in each.specs["squish_clearance"].known]
    return verdicts.count(MISSED), verdicts.count(OPEN), min(squish, default=float("inf")) if verdicts else 0.0


def _combination(at: Configuration, choices: tuple[Choice, ...], wants: Sequence[Want], common: Common) -> Combination:
    ours = [choice for choice in choices if not choice.theirs]
    work = [step for choice in ours for step in _fits(at.life, choice.kind, choice.parts)]
    state, _, wrong = also(at.life, at.state, work, "what is combined")
    if wrong:
        raise CannotCombine(f"{wrong[0].says}; {wrong[0].mend}")
    lent = intended(at.life, state, at.point.plan, at.holding.planned)
    for choice in choices:
        lent.update(choice.lent or {})
    parts = {choice.kind: choice.label for choice in choices}
    holding = replace(at.holding, state=state, lent=lent or None)
    new = Configuration(at.life, at.point, state, holding, Known(common, parts))
    verdicts = {want.text: judge(want, new.specs[want.row.name].values) for want in wants}
    return Combination(parts, choices, new, verdicts)


def _fits(life: Life, kind: str, parts: tuple[str, ...]) -> Iterator[model.Fit]:
    for part, place in zip(parts, _places(life, kind), strict=False):
        yield model.Fit(fit=part, at=place or None)


def _places(life: Life, kind: str) -> tuple[str, ...]:
    """Where parts of a kind stand: one for the engine, or one for each bank."""
    each = Places(life.record, life.arrangement).one_for_each_bank(kind)
    return tuple(f"bank {bank}" for bank in life.arrangement.banks) if each else ("",)


# one part as it was typed


def _choice(at: Configuration, kind: str, typed: str, shelf: Life | None) -> Choice:
    if kind not in PART_KINDS:
        known = did_you_mean(kind, list(PART_KINDS), f"the kinds of this record are {_kinds(at)}")
        raise CannotCombine(f"`{kind}` is not a kind of part{known}")
    name, _, point = typed.strip().partition("@")
    theirs = shelf is not None and (name.startswith(THEIRS) or _first(name) not in at.life.record.parts)
    parts = tuple(part.strip() for part in name.removeprefix(THEIRS).split("+"))
    life = shelf if theirs and shelf is not None else at.life
    for part in parts:
        _check(life, kind, part)
    places = _places(at.life, kind)
    if len(parts) != len(places):
        raise CannotCombine(
            f"`{typed}` names {len(parts)} of {kind}, and this engine has {len(places)} banks; join them with +"
            if len(places) > 1 else f"`{typed}` names {len(parts)} of {kind}, and this engine has one"
        )  # fmt: skip
    lent = _lent(at, life, kind, parts, point or "now", theirs) if theirs or point else None
    return Choice(kind, typed.strip(), parts, lent, theirs)


def _kinds(at: Configuration) -> str:
    return ", ".join(dict.fromkeys(part.kind for part in at.life.record.parts.values()))


def _first(name: str) -> str:
    return name.split("+")[0].strip()


def _check(life: Life, kind: str, part: str) -> None:
    its = life.record.parts.get(part)
    fitting = [name for name, each in life.record.parts.items() if each.kind == kind]
    if its is None:
        known = did_you_mean(part, fitting, f"there are {', '.join(fitting) or 'none'} of {kind}")
        raise CannotCombine(f"there is no part `{part}`{known}")
    if its.kind != kind:
        raise CannotCombine(f"`{part}` is of the kind {its.kind}, not {kind}; there are {', '.join(fitting) or 'none'}")


def _lent(at: Configuration, life: Life, kind: str, parts: tuple[str, ...], point: str, theirs: bool) -> Lent:
    """The part's own figures at every position it would serve, as they stood; of another shelf also what it lacks."""
    if len(life.arrangement.cylinders) != len(at.life.arrangement.cylinders):
        raise CannotCombine(
            f"the other engine has {len(life.arrangement.cylinders)} cylinders, this one "
            f"{len(at.life.arrangement.cylinders)}; a part of it cannot be laid out on this one"
        )
    number = find_point(life, point).number
    work = list(_fits(life, kind, parts))
    state, _, wrong = also(life, life.after(number), work, "what is combined")
    if wrong:
        raise CannotCombine(f"{wrong[0].says}; {wrong[0].mend}")
    holding = Holding(life, state)
    return {
        (row.name, position): holding.best(row, position) if alone else None
        for row, alone in _touched(kind, theirs)
        for position in at.graph.arrangement.positions(row.place)
    }


def _touched(kind: str, theirs: bool) -> Iterator[tuple[Quantity, bool]]:
    """Quantities of the kind, and whether they are of it alone; a stranger's part shares none with ours."""
    for row in catalogue().values():
        owners = [owner.split("|") for owner in row.owner]
        if len(owners) == 1 and kind in owners[0]:
            yield row, True
        elif row.card and owners and kind in owners[0]:
            yield row, True
        elif theirs and not row.result and any(kind in some for some in owners):
            yield row, False


# what stands beside it


def _not_owned(at: Configuration, choice: Choice, part: str) -> bool:
    its = at.life.record.parts.get(part)
    return choice.theirs or (its is not None and its.state == "thought of") or part in at.state.gone


def _misfits(each: Combination) -> Iterator[str]:
    unsaid = []
    for choice in each.choices:
        for part in choice.parts:
            its = each.at.life.record.parts.get(part) if not choice.theirs else None
            if its is None or its.fits is None:
                unsaid.append(choice.label)
            elif not _fits_something(each, part, its.fits):
                yield f"`{part}` fits {its.fits}, and nothing of that is fitted"
    if unsaid:
        yield f"physical fit not checked: nobody wrote what {', '.join(dict.fromkeys(unsaid))} fits"


def _fits_something(each: Combination, part: str, fits: str) -> bool:
    """Whether a fitted part has the id, part number or casting number that `fits:` names."""
    named = {name.strip() for name in fits.split(",")}
    for other in each.at.state.parts:
        its = each.at.life.record.parts.get(other)
        if its and other != part and named & {other, its.part_number, its.casting_number}:
            return True
    return False
