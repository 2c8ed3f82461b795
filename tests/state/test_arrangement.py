"""Where things are: which cylinders a bank has, and which positions a part serves from its place."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.quantity.catalogue import BANK, CYLINDER, ENGINE, MAIN_JOURNAL, ROD_JOURNAL
from logbook.record.models import Engine
from logbook.record.validating import validated
from logbook.state.arrangement import Arrangement

PLACES = (ENGINE, BANK, CYLINDER, MAIN_JOURNAL, ROD_JOURNAL)


def arrangement(cylinders: int, kind: str = "inline", **more: object) -> Arrangement:
    texts = {"format": "1", "name": "a", "cylinders": str(cylinders), "arrangement": kind, **more}
    engine, objections = validated(Engine, texts, "engine.yaml", b"")
    assert engine is not None, objections
    return Arrangement.of(engine)


def test_a_vee_without_named_banks_has_its_odd_cylinders_in_bank_1() -> None:
    assert arrangement(6, "vee").banks == {"1": ("1", "3", "5"), "2": ("2", "4", "6")}
    assert arrangement(4, "flat").banks == {"1": ("1", "3"), "2": ("2", "4")}


def test_banks_as_they_are_named() -> None:
    named = arrangement(6, "vee", banks={"left": "1-2-3", "right": "4-5-6"})
    assert named.banks == {"left": ("1", "2", "3"), "right": ("4", "5", "6")}
    assert named.across(CYLINDER, "5", BANK) == ("right",)
    assert named.across(BANK, "left", CYLINDER) == ("1", "2", "3")


@pytest.mark.parametrize("banks", [{"1": "1-3-5", "2": "2-4"}, {"1": "1-3-5", "2": "2-4-6-6"}, {"1": "all"}])
def test_banks_that_miss_a_cylinder_are_as_if_none_were_named(banks: dict[str, str]) -> None:
    assert arrangement(6, "vee", banks=banks).banks == arrangement(6, "vee").banks


@pytest.mark.parametrize(
    ("cylinders", "kind", "rod_journals"),
    [(4, "inline", 4), (6, "vee", 3), (8, "vee", 4), (4, "flat", 4), (1, "single", 1)],
)
def test_a_vee_has_two_rods_to_a_crankpin(cylinders: int, kind: str, rod_journals: int) -> None:
    assert len(arrangement(cylinders, kind).positions(ROD_JOURNAL)) == rod_journals


def test_main_journals_as_told_or_one_more_than_cylinders() -> None:
    assert len(arrangement(4, main_bearings="3").positions(MAIN_JOURNAL)) == 3
    assert len(arrangement(4).positions(MAIN_JOURNAL)) == 5


@given(st.integers(1, 16), st.sampled_from(["inline", "vee", "flat", "single"]))
def test_each_cylinder_is_in_one_bank_and_there_and_back_is_home(cylinders: int, kind: str) -> None:
    its = arrangement(cylinders, kind)
    assert sorted(each for some in its.banks.values() for each in some) == sorted(its.cylinders)
    for cylinder in its.cylinders:
        (bank,) = its.across(CYLINDER, cylinder, BANK)
        assert cylinder in its.across(BANK, bank, CYLINDER)
        assert its.covered(f"cylinder {cylinder}", BANK) == (bank,)
        assert its.covered(f"cylinder {cylinder}", CYLINDER) == (cylinder,)
        assert its.across(CYLINDER, cylinder, ENGINE) == ("",)
    for bank in its.banks:
        assert its.covered(f"bank {bank}", CYLINDER) == its.banks[bank]
    for place in PLACES:
        assert its.covered("", place) == its.positions(place)
