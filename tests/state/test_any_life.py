"""Random lives against a model that is written another way: it keeps the story and looks back, cylinder by cylinder.

Parts are fitted, exchanged piece by piece, removed, worked on and measured; counters are replaced; figures are
corrected, adopted and amended; the last entry is taken back. After every step the fold, the distances, the figures that
hold, the compression ratio and specs.yaml must be those of the model and of a record that is read afresh.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import pi
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from lives import Life, told

from logbook.logbook import Logbook
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.specs_file import specs_file
from logbook.state.states import piece_name
from logbook.store.fingerprint import record_fingerprint

HEADS, SETS, SINGLE = ("head-a", "head-b"), ("pistons-1", "pistons-2"), "single-7"
CYLINDERS = "1234"
BORE, STROKE, GASKET_BORE, GASKET = 80.0, 79.0, 81.0, 1.2  # mm
DISH = {"pistons-1": 5.0, "pistons-2": 6.0, SINGLE: 4.0}  # cc
KINDS = {"chamber_volume": "cc", "deck_clearance": "mm below"}


@dataclass
class Happening:
    """One entry: what was done, to which part or in which cylinder, after how many km, with which figure."""

    what: str
    file: str
    part: str = ""
    cylinder: str = ""
    way: int = 0
    quantity: str = ""
    value: float = 0.0
    of: Happening | None = None


@dataclass
class Story:
    """Everything that happened. Nothing is kept but the story; each answer is found by going through it."""

    events: list[Happening] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._scenes: list[tuple[Happening, dict[str, str | None], bool]] = []

    def scenes(self, upto: int) -> list[tuple[Happening, dict[str, str | None], bool]]:
        """Each event with what stood where after it ('head' and each cylinder), and whether it could be."""
        if [id(event) for event, *_ in self._scenes] != [id(event) for event in self.events]:
            self._scenes = self._tell()
        return self._scenes[: upto + 1]

    def _tell(self) -> list[tuple[Happening, dict[str, str | None], bool]]:
        at: dict[str, str | None] = dict.fromkeys(("head", *CYLINDERS))
        found = []
        for event in self.events:
            possible = self._possible(event, at)
            if possible and event.what in ("fit", "remove"):
                places = ("head",) if event.part in HEADS else tuple(event.cylinder or CYLINDERS)
                for place in places:
                    if event.what == "fit":
                        at[place] = event.part
                    elif at[place] == event.part:
                        at[place] = None
            found.append((event, dict(at), possible))
        return found

    @staticmethod
    def _possible(event: Happening, at: dict[str, str | None]) -> bool:
        stands = {place for place, part in at.items() if part == event.part}
        if event.what == "remove":
            return bool(stands) and (not event.cylinder or event.cylinder in stands)
        if event.what == "fit" and event.cylinder:
            return stands <= {event.cylinder} if event.part == SINGLE else event.cylinder not in stands
        return True

    def ran(self, upto: int, there: Callable[[dict[str, str | None]], bool]) -> int:
        """km driven while something was so: the way to each event belongs to what stood before it."""
        scenes = self.scenes(upto)
        return sum(event.way for (event, *_), (_, at, _) in zip(scenes[1:], scenes, strict=False) if there(at))

    def holds(self, upto: int, quantity: str, cylinder: str) -> str | None:
        """As Life.holds tells it: adopted, fresh, or out of date; the latest before, else the earliest after."""
        everything = self.scenes(len(self.events) - 1)
        scene = everything[upto][1]
        owner = scene["head"] if quantity == "chamber_volume" else scene[cylinder]
        if quantity == "chamber_volume" and owner is None:
            return None
        taken_back = [event.of for event in self.events if event.what == "correct"]
        stretch, fresh, stale = 0, [], []
        now = sum(self._cuts(event, quantity, owner) for event in self.events[: upto + 1])
        for number, (event, at, _) in enumerate(everything):
            stretch += self._cuts(event, quantity, owner)
            of = event.part if quantity == "chamber_volume" else at[cylinder]
            if event.what == "measure" and event.quantity == quantity and of == owner and event not in taken_back:
                (fresh if stretch == now else stale if stretch < now else []).append((number, event))
        adopted = [
            (number, event.of) for number, event in enumerate(self.events)
            if event.what == "adopt" and any(event.of is other for _, other in fresh)
        ]  # fmt: skip
        if adopted:
            chosen = _nearest(adopted, upto)[1]
            number = next(n for n, event in fresh if event is chosen)
        elif fresh or stale:
            number, chosen = _nearest(fresh or stale, upto)
        else:
            return None
        marks = " later" * (number > upto) + " out of date" * (not fresh)
        return f"{chosen.value:g}{marks}"

    @staticmethod
    def _cuts(event: Happening, quantity: str, owner: str | None) -> int:
        wanted = owner if quantity == "chamber_volume" else "block"
        return event.what == "rework" and event.part == wanted

    def ratio(self, upto: int, cylinder: str) -> float | None:
        """Compression ratio from the figures that hold, by hand, in cc."""
        piston = self.scenes(upto)[-1][1][cylinder]
        chamber, deck = (self.holds(upto, name, cylinder) for name in KINDS)
        if piston is None or chamber is None or deck is None:
            return None
        area, opening = pi / 4 * BORE**2 / 1e3, pi / 4 * GASKET_BORE**2 / 1e3
        clearance = float(chamber.split()[0]) + opening * GASKET + area * float(deck.split()[0]) + DISH[piston]
        return (area * STROKE + clearance) / clearance


def _nearest(numbered: list[tuple[int, Any]], upto: int) -> tuple[int, Any]:
    before = [each for each in numbered if each[0] <= upto]
    return before[-1] if before else numbered[0]


class AnyLife(RuleBasedStateMachine):
    """One entry a day. `self.life` is edited all along; what it says must not depend on how it came about."""

    @initialize()
    def begin(self) -> None:
        self.life, self.story, self.day, self.shown, self.figure = Life(), Story(), 0, 1000, 30.0
        self.seen: dict[str, Configuration] = {}
        self.life.part("block", "block", bore=f"{BORE} mm").part("crank", "crankshaft", stroke=f"{STROKE} mm")
        self.life.part("rods", "connecting_rods")
        self.life.part("gasket", "head_gasket", gasket_thickness=f"{GASKET} mm", gasket_bore=f"{GASKET_BORE} mm")
        for head in HEADS:
            self.life.part(head, "cylinder_head")
        for piston, dish in DISH.items():
            pieces = "pieces: 1\n" if piston == SINGLE else "pieces: 5\n"
            self.life.part(piston, "pistons", pieces, dish_volume=f"{dish} cc")
        self._work("begin", *(f"fit: {part}" for part in ("block", "crank", "rods", "gasket")))
        for part in (HEADS[0], SETS[0]):
            self._work("fit", f"fit: {part}", way=100, part=part)
        for part in (HEADS[0], ""):
            self._measured_anew(part, 100)

    # what is written

    def _work(self, what: str, *steps: str, way: int = 0, **more: Any) -> None:
        self.day, self.shown = self.day + 1, self.shown + way
        self.life.work(self._date(), *steps, at=f"{self.shown} km")
        self.story.events.append(Happening(what, self.life.last, way=way, **more))

    def _date(self) -> str:
        return str(date(2024, 1, 1) + timedelta(days=self.day))

    def _new_figure(self, quantity: str) -> tuple[float, str]:
        self.figure += 1
        value = self.figure if quantity == "chamber_volume" else round(self.figure / 100, 2)
        number, _, side = KINDS[quantity].partition(" ")
        return value, f"{{all: {value} ± 0.10 {number}{' ' + side if side else ''}}}"

    # rules

    @rule(part=st.sampled_from((*HEADS, *SETS)), way=st.integers(0, 900))
    def fit(self, part: str, way: int) -> None:
        self._work("fit", f"fit: {part}", way=way, part=part)

    @rule(part=st.sampled_from((*SETS, SINGLE, SINGLE)), cylinder=st.sampled_from("14"), way=st.integers(0, 900))
    def exchange(self, part: str, cylinder: str, way: int) -> None:
        if part != SINGLE and part not in self.story.scenes(len(self.story.events))[-1][1].values():
            part = SINGLE  # a piece of a set that is not in would have to be named
        self._work("fit", f"fit: {part}, at: cylinder {cylinder}", way=way, part=part, cylinder=cylinder)

    @rule(part=st.sampled_from((*HEADS, *SETS, SINGLE)), way=st.integers(0, 900))
    def remove(self, part: str, way: int) -> None:
        self._work("remove", f"remove: {part}", way=way, part=part)

    @rule(part=st.sampled_from(SETS), cylinder=st.sampled_from("14"), way=st.integers(0, 900))
    def remove_a_piece(self, part: str, cylinder: str, way: int) -> None:
        self._work("remove", f"remove: {part}, at: cylinder {cylinder}", way=way, part=part, cylinder=cylinder)

    @rule(part=st.sampled_from((*HEADS, "block")))
    def rework(self, part: str) -> None:
        operation = "decked" if part == "block" else "surface milled"
        self._work("rework", f"rework: {part}, operation: {operation}", part=part)

    @rule(part=st.sampled_from((*HEADS, "", "")), way=st.integers(0, 900))
    def measure(self, part: str, way: int) -> None:
        self._measured_anew(part, way)

    def _measured_anew(self, part: str, way: int) -> None:
        self.day, self.shown = self.day + 1, self.shown + way
        quantity = "chamber_volume" if part else "deck_clearance"
        value, text = self._new_figure(quantity)
        self.life.measure(self._date(), part, more=f"reading: {self.shown} km\n", **{quantity: text})
        event = Happening("measure", self.life.last, part, way=way, quantity=quantity, value=value)
        self.story.events.append(event)

    @rule(now=st.integers(0, 90000), way=st.integers(0, 900))
    def counter_replaced(self, now: int, way: int) -> None:
        was = self.shown + way
        self._work("counter", f"counter: {{odometer: {{was: {was} km, now: {now} km}}}}", way=way)
        self.shown = now

    def _measured(self) -> list[Happening]:
        return [event for event in self.story.events if event.what == "measure"]

    @precondition(lambda self: self._measured())
    @rule(word=st.sampled_from(("correct", "adopt")), data=st.data())
    def say_which_is_right(self, word: str, data: st.DataObject) -> None:
        of = data.draw(st.sampled_from(self._measured()))
        key = "entry" if word == "correct" else "from"
        self._work(word, f"{word}: {{{key}: {of.file}, quantity: {of.quantity}, why: a}}", of=of)

    @precondition(lambda self: self._measured())
    @rule(data=st.data())
    def amend(self, data: st.DataObject) -> None:
        of = data.draw(st.sampled_from(self._measured()))
        old = self.life.texts[f"{of.file}.yaml"]
        value, text = self._new_figure(of.quantity)
        head, _, _ = old.partition("values:")
        self.life._write(f"{of.file}.yaml", f"{head}values: {{{of.quantity}: {text}}}\n")
        of.value = value

    @precondition(lambda self: len(self.story.events) > 1)
    @rule()
    def undo(self) -> None:
        gone = self.story.events.pop()
        text = self.life.texts.pop(f"{gone.file}.yaml")
        self.life.__dict__.pop("book", None)
        shown = int(text.split("reading: ")[1].split(" km")[0])
        self.shown = (int(text.split("was: ")[1].split(" km")[0]) if gone.what == "counter" else shown) - gone.way

    # what must be so

    @invariant()
    def now_is_as_the_story_tells(self) -> None:
        at, last = self.life.at("now"), len(self.story.events) - 1
        self._agrees(at, last)
        self._ratios_agree(at, last)
        possible = [possible for *_, possible in self.story.scenes(last)]
        assert len(self.life.fold.findings) == possible.count(False)
        self._one_record_has_one_specs_file(at)

    def _one_record_has_one_specs_file(self, at: Configuration) -> None:
        """Whatever way led to it: after an undo, specs.yaml is what it was."""
        fingerprint = record_fingerprint(self._bytes())
        before = self.seen.setdefault(fingerprint, at)
        if before is not at:
            assert specs_file(before, "0", fingerprint) == specs_file(at, "0", fingerprint)

    def teardown(self) -> None:
        """At the end every moment of the life, and a record that is read afresh, its files in another order."""
        if not hasattr(self, "story"):
            return
        texts = self._bytes()
        afresh = Logbook.of_texts({file: texts[file] for file in sorted(texts, reverse=True)})
        for number in range(len(self.story.events)):
            self._agrees(configuration_after(afresh.life, number), number)
        fingerprint = record_fingerprint(texts)
        assert specs_file(self.life.at("now"), "0", fingerprint) == specs_file(afresh.at("now"), "0", fingerprint)

    def _bytes(self) -> dict[str, bytes]:
        return {file: text.encode() for file, text in self.life.texts.items()}

    def _agrees(self, at: Configuration, upto: int) -> None:
        scene = self.story.scenes(upto)[-1][1]
        assert set(at.state.parts) - {"block", "crank", "rods", "gasket"} == {*scene.values()} - {None}
        for part in (*HEADS, *SETS, SINGLE):
            assert _km(at, part) == self.story.ran(upto, lambda at, part=part: part in at.values()), part
        for piece, cylinder in enumerate(CYLINDERS):
            for part in SETS:
                way = self.story.ran(upto, lambda at, part=part, cylinder=cylinder: at[cylinder] == part)
                assert _km(at, piece_name(part, piece)) == way, (part, cylinder)
        for cylinder in "14":
            for name in KINDS:
                assert told(at, name, cylinder) == self.story.holds(upto, name, cylinder), (name, cylinder)

    def _ratios_agree(self, at: Configuration, upto: int) -> None:
        for cylinder in "14":
            value = at.specs["compression_ratio"].values[int(cylinder) - 1]
            by_hand = self.story.ratio(upto, cylinder)
            assert (value and value.nominal) == (by_hand and pytest.approx(by_hand))


def _km(at: Configuration, part: str) -> int:
    return round((at.state.has_run(part).distance or 0) / 1000)


TestAnyLife = AnyLife.TestCase
TestAnyLife.settings = settings(max_examples=30, stateful_step_count=20, deadline=None)
