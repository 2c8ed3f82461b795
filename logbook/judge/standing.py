"""The engine at one point, as it is handed out from here upwards: with its facts, its specs, and its limits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property
from typing import TYPE_CHECKING

from logbook.record import entries as model
from logbook.record.record import Entry
from logbook.specs.configuration import Configuration

if TYPE_CHECKING:  # limits and tests are judged when they are first asked for
    from logbook.judge.as_tested import Tested
    from logbook.judge.limits import Judged
    from logbook.specs.explain import CurveExplanation, Explanation


#: Steps towards other figures of a test, told only where everything is.
ON_THE_WAY = frozenset({"saturation_pressure", "vapour_pressure", "dry_air_pressure"})


class Standing(Configuration):
    """A configuration that can also be asked whether it is within its limits, and what a test of it comes to."""

    file: Callable[[str], bytes]

    @classmethod
    def of(cls, at: Configuration, file: Callable[[str], bytes]) -> Standing:
        """The same configuration, asked from above; `file`: how the tables of tests are read."""
        standing = cls(at.life, at.point, at.state, at.holding)
        standing.file = file
        return standing

    @cached_property
    def limits(self) -> tuple[Judged, ...]:
        """Every figure that a limit speaks of: within, outside or not proven either way, and what was accepted."""
        from logbook.judge.limits import judged

        return judged(self)

    @cached_property
    def tested(self) -> Tested | None:
        """The test that the point names, with what was read in it; None where it names none."""
        from logbook.judge.as_tested import test_of

        return test_of(self, self.file) if self.point.entry else None

    def seen_for(self, name: str) -> Configuration:
        """Where a figure is worked out: in the test that the point names if it is one of a test, else here."""
        known = name in self.graph.specs and self.specs[name].known
        return self if known or self.tested is None else self.tested.best

    def explain(self, name: str, cylinder: str | None = None) -> Explanation | CurveExplanation:
        """How a spec, a curve, a stated figure or a figure of the test came about. Raises CannotExplain."""
        at = self.seen_for(name)
        return super().explain(name, cylinder) if at is self else at.explain(name, cylinder)

    def tests_with(self, name: str) -> Iterator[Entry]:
        """The tests that give a figure of OF_A_TEST."""
        from logbook.judge.as_tested import tests

        return (each.entry for each in tests(self.life, self.file) if each.gives(name))

    def likely_test(self) -> Entry | None:
        """The test that is the likeliest to give more: the latest run, else the latest test."""
        entries = (entry for entry in self.life.record.entries if isinstance(entry.says, model.Test))
        own = [entry for entry in entries if not entry.says.part]
        return max(reversed(own), key=lambda entry: bool(entry.says.data), default=None)
