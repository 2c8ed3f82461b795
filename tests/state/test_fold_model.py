"""The fold against a model of a few lines that is written another way: it keeps the whole story and looks back.

Random lives of two heads and two sets of pistons: fitted, removed, worked on, measured, driven.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from lives import Life, told

from logbook.specs.configuration import configuration_after

PARTS = {"head-a": "cylinder_head", "head-b": "cylinder_head", "pistons-1": "pistons", "pistons-2": "pistons"}
HEADS = ("head-a", "head-b")
EVENT = st.one_of(
    st.tuples(st.just("fit"), st.sampled_from(list(PARTS))),
    st.tuples(st.just("remove"), st.sampled_from(list(PARTS))),
    st.tuples(st.just("rework"), st.sampled_from(HEADS)),
    st.tuples(st.just("measure"), st.sampled_from(HEADS)),
)


@dataclass
class Story:
    """Everything that happened, one event a day, and the reading of each day."""

    events: list[tuple[str, str]]
    readings: list[int] = field(default_factory=list)

    def fitted(self, day: int) -> dict[str, str]:
        """Kind -> part: of each kind what was fitted last, unless just that was removed since."""
        so_far, found = self.events[: day + 1], {}
        for kind in set(PARTS.values()):
            fits = [n for n, (what, part) in enumerate(so_far) if what == "fit" and PARTS[part] == kind]
            part = so_far[fits[-1]][1] if fits else None
            if part and ("remove", part) not in so_far[fits[-1] :]:
                found[kind] = part
        return found

    def distance(self, part: str, day: int) -> int:
        """Sum over the days of what was driven while the part was in."""
        driven = [self.readings[n + 1] - self.readings[n] for n in range(day)]
        return sum(way for n, way in enumerate(driven) if part in self.fitted(n).values())

    def chamber(self, day: int) -> str | None:
        """The measurement that holds for the fitted head: of this stretch, the latest before, else the first after."""
        head = self.fitted(day).get("cylinder_head")
        if head is None:
            return None
        cuts = [n for n, event in enumerate(self.events) if event == ("rework", head)]
        taken = [n for n, event in enumerate(self.events) if event == ("measure", head)]
        stretch = sum(cut <= day for cut in cuts)
        fresh = [n for n in taken if sum(cut < n for cut in cuts) == stretch]
        stale = [n for n in taken if sum(cut < n for cut in cuts) < stretch]
        before = [n for n in fresh if n <= day]
        if fresh:
            return f"{value(before[-1])}" if before else f"{value(fresh[0])} later"
        return f"{value(stale[-1])} out of date" if stale else None


def value(day: int) -> int:
    return 30 + day


@settings(max_examples=120, deadline=None)
@given(st.lists(st.tuples(EVENT, st.integers(0, 900)), min_size=1, max_size=14))
def test_who_is_fitted_how_far_it_ran_and_which_figure_holds(days: list[tuple[tuple[str, str], int]]) -> None:
    story, life, reading = Story([event for event, _ in days]), Life(), 1000
    for part, kind in PARTS.items():
        life.part(part, kind)
    for number, ((what, part), way) in enumerate(days):
        reading += way
        story.readings.append(reading)
        when = str(date(2024, 1, 1) + timedelta(days=number))
        if what == "measure":
            life.measure(when, part, more=f"reading: {reading} km\n", chamber_volume=f"{{all: {value(number)} cc}}")
        else:
            more = ", operation: surface milled" if what == "rework" else ""
            life.work(when, f"{what}: {part}{more}", at=f"{reading} km")
    for number in range(len(days)):
        at = configuration_after(life.fold, number)
        assert set(at.state.parts) == set(story.fitted(number).values())
        assert told(at, "chamber_volume") == story.chamber(number)
        for part in PARTS:
            assert round((at.state.has_run(part).distance or 0) / 1000) == story.distance(part, number)
