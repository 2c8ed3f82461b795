"""The engine at one point, as it is handed out from here upwards: with its facts, its specs, and its limits."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from logbook.specs.configuration import Configuration

if TYPE_CHECKING:  # limits are judged when they are first asked for
    from logbook.judge.limits import Judged


class Standing(Configuration):
    """A configuration that can also be asked whether it is within its limits."""

    @classmethod
    def of(cls, at: Configuration) -> Standing:
        """The same configuration, asked from above."""
        return cls(at.life, at.point, at.state, at.holding)

    @cached_property
    def limits(self) -> tuple[Judged, ...]:
        """Every figure that a limit speaks of: within, outside or not proven either way, and what was accepted."""
        from logbook.judge.limits import judged

        return judged(self)
