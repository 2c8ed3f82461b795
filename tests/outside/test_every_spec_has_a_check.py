"""Every spec is held against something outside the project, and DEVELOPERS.md counts by what kind of source."""

from __future__ import annotations

import re
from importlib import import_module
from pathlib import Path

import pytest
from sources import CHECKS, KINDS, Check

from logbook.specs.curves import CURVES
from logbook.specs.index import ALL_SPECS, OF_A_TEST

HERE = Path(__file__).parent
DEVELOPERS = (HERE.parents[1] / "DEVELOPERS.md").read_text()
EVERY = {*ALL_SPECS, *OF_A_TEST, *CURVES}
#: Formulas that no record can feed, so that the index does not have them.
BESIDE_THE_INDEX = {"ignition_delay", "knock_integral"}


@pytest.fixture(scope="module")
def made() -> frozenset[Check]:
    """What all modules of this folder have registered."""
    for module in sorted(HERE.glob("test_*.py")):
        import_module(module.stem)
    return frozenset(CHECKS)


def rows(made: frozenset[Check]) -> list[str]:
    """The table: of each kind, how many specs have a source of it, and of how many it is the strongest."""
    kinds = {spec: {check.kind for check in made if check.spec == spec} for spec in EVERY}
    strongest = [min(found, key=KINDS.index) for found in kinds.values() if found]
    return [
        f"| {kind} | {sum(kind in found for found in kinds.values())} | {strongest.count(kind)} |" for kind in KINDS
    ]


def test_every_spec_has_a_check(made: frozenset[Check]) -> None:
    missing = sorted(EVERY - {check.spec for check in made})
    assert not missing, f"no outside check names {', '.join(missing)}: mark one with @checks, or write it"


def test_every_check_names_a_spec(made: frozenset[Check]) -> None:
    strange = sorted({f"{check.spec} ({check.test})" for check in made if check.spec not in EVERY | BESIDE_THE_INDEX})
    assert not strange, f"no spec of the index: {', '.join(strange)}"


def test_what_stands_beside_the_index_is_not_in_it(made: frozenset[Check]) -> None:
    assert not BESIDE_THE_INDEX & EVERY
    assert {check.spec for check in made} >= BESIDE_THE_INDEX


def test_a_figure_from_memory_is_no_textbooks(made: frozenset[Check]) -> None:
    """Where its source says so: it may stand beside another way of working it out, never for a text that was read."""
    allowed = {"from memory": {"from memory", "independent computation"}, "common practice": {"common practice"}}
    for words, kinds in allowed.items():
        assert [check for check in made if words in check.source and check.kind not in kinds] == []


def test_the_developers_table_is_true(made: frozenset[Check]) -> None:
    wanted = rows(made)
    found = re.findall(rf"^\| (?:{'|'.join(KINDS)}) \|.*\|$", DEVELOPERS, re.MULTILINE)
    assert found == wanted, "DEVELOPERS.md, Tests, should have:\n" + "\n".join(wanted)
