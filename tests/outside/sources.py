"""What each spec is checked against outside the project, said by the tests themselves.

`@checks("spec_name", source="…", kind="…")` above a test of tests/outside registers its source and leaves the test as
it is. test_every_spec_has_a_check.py reads what was registered.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeVar

Test = TypeVar("Test", bound=Callable[..., object])

#: Kinds of source, the strongest first.
KINDS = (
    "standard",
    "textbook",
    "worked example",
    "library",
    "data set",
    "independent computation",
    "common practice",
    "from memory",
)


class Check(NamedTuple):
    """One spec, what it is checked against, and in which test."""

    spec: str
    source: str
    kind: str
    test: str


CHECKS: list[Check] = []


def checks(*specs: str, source: str, kind: str) -> Callable[[Test], Test]:
    """Say of a test which specs it holds against which source.

    kind: one of KINDS; "from memory" where the figure itself was not seen in print, "common practice" where the trade
    alone has it, "independent computation" where no outside number exists and another way of working it out stands in.
    """
    if kind not in KINDS:
        raise ValueError(f"a check's kind is one of {', '.join(KINDS)}; this is {kind!r}")

    def register(test: Test) -> Test:
        CHECKS.extend(Check(spec, source, kind, f"{test.__module__}.{test.__name__}") for spec in specs)
        return test

    return register


def coolprop(*asked: str | float) -> float:
    """What CoolProp's PropsSI says. To load the library takes longer than all that is asked of it: so not before."""
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI(*asked))
