"""What a quantity must become: the answer, put back, gives what was wanted; and what cannot be aimed at."""

from __future__ import annotations

from math import pi

import pytest

from logbook.judge.hurts import cautions
from logbook.judge.target import CannotAim, metal_after, target
from logbook.judge.timeline import changed
from logbook.logbook import Logbook
from logbook.specs.configuration import Configuration
from tests.lives import EXAMPLE, Life


@pytest.fixture(scope="module")
def now() -> Configuration:
    return Logbook.open(EXAMPLE).at("now")


GIVEN = ["bore=80 mm", "stroke=80 mm", "gasket_volume=5 cc", "deck_clearance=0.5 mm below", "dome_volume=1 cc"]


def test_the_chamber_that_a_ratio_needs_agrees_with_the_arithmetic_by_hand() -> None:
    """V_c = V_s / (ε − 1), less gasket, deck and, added, the dome: W. W. Pulkrabek, 1997, 2-1 (from memory)."""
    found = target(Logbook.given(GIVEN), "compression_ratio", 10.0, "chamber_volume").needed[0]
    swept = pi / 4 * 8.0**2 * 8.0
    assert found.value * 1e6 == pytest.approx(swept / 9 - 5 - pi / 4 * 8.0**2 * 0.05 + 1, rel=1e-9)


def test_its_uncertainty_is_that_of_what_it_rests_on() -> None:
    """Every cc of gasket is a cc of chamber, every mm of stroke a ninth of its swept volume: by hand."""
    found = target(Logbook.given(["bore=80 ± 0.0001 mm", "stroke=80 ± 0.0001 mm", "gasket_volume=5.0 ± 0.4 cc",
                                  "deck_clearance=0.5 ± 0.0001 mm below", "dome_volume=1 ± 0.0001 cc"]),
                   "compression_ratio", 10.0, "chamber_volume").needed[0]  # fmt: skip
    assert found.expanded * 1e6 == pytest.approx(0.4, rel=1e-3)


@pytest.mark.parametrize(
    ("spec", "wanted", "by"),
    [
        ("compression_ratio", 11.5, "chamber_volume"),
        ("compression_ratio", 9.0, "gasket_volume"),
        ("mean_compression_ratio", 11.2, "surface_milled"),
        ("mean_compression_ratio", 11.2, "decked"),
        ("squish_clearance", 1.0e-3, "deck_clearance"),
        ("displacement", 1650e-6, "bore"),
        ("mean_piston_speed", 18.0, "engine_speed_limit"),
        ("effective_compression_ratio", 8.0, "inlet_closes"),
    ],
)
def test_the_answer_put_back_gives_what_was_wanted(now: Configuration, spec: str, wanted: float, by: str) -> None:
    found = target(now, spec, wanted, by)
    assert all(each.solved for each in found.needed)
    values = [value.nominal for value in found.at.specs[spec].values if value]
    assert sum(values) / len(values) == pytest.approx(wanted, rel=1e-6)


def test_each_cylinder_has_its_own_answer(now: Configuration) -> None:
    found = target(now, "compression_ratio", 11.5, "chamber_volume")
    assert [value.nominal for value in found.at.specs["compression_ratio"].values if value] == [pytest.approx(11.5)] * 4
    assert len({each.value for each in found.needed}) > 1


def test_a_ratio_out_of_reach_says_how_near_one_gets(now: Configuration) -> None:
    found = target(now, "compression_ratio", 20.0, "gasket_thickness").needed[0]
    assert not found.solved
    assert found.value == pytest.approx(0.1e-3)
    assert 11.5 < found.reached < 12.5


def test_more_compression_is_noticed_and_less_is_not(now: Configuration) -> None:
    higher, lower = (target(now, "compression_ratio", ratio, "chamber_volume").at for ratio in (11.5, 9.5))
    assert any("knock" in caution for caution in cautions(changed(now, higher), now, higher))
    assert not any("knock" in caution for caution in cautions(changed(now, lower), now, lower))


def test_the_metal_that_a_cut_leaves() -> None:
    life = Life()
    life.part("head-a", "cylinder_head", chamber_volume="{all: 36 cc}", chamber_opening="{all: 48 cm2}",
              metal_limit="1.00 mm")  # fmt: skip
    life.part("block-a", "block", more="removed_before: 0.00 mm\n", bore="{all: 80 mm}")
    life.work("2024-01-01", "fit: head-a, found: yes", "fit: block-a, found: yes", at="100 km")
    at = life.book.at("now", ["stroke=80 mm", "gasket_volume=5 cc", "deck_clearance=0.1 mm below", "dish_volume=5 cc"])
    found = target(at, "compression_ratio", 9.6, "surface_milled")
    (part, surface), *others = metal_after(found)
    assert (part, others) == ("head-a", [])
    assert surface.metal_removed.nominal == pytest.approx(found.needed[0].value)


@pytest.mark.parametrize(
    ("spec", "by", "says"),
    [
        ("compresion_ratio", "bore", "did you mean compression_ratio?"),
        ("compression_ratio", "bor", "did you mean bore?"),
        ("rod_ratio", "chamber_volume", "rod_ratio does not rest on chamber_volume here"),
        ("compression_ratio", "compression_ratio", "itself is what is wanted"),
        ("compression_ratio", "cranking_pressure", "nothing that can be changed"),
    ],
)
def test_what_cannot_be_aimed_at(now: Configuration, spec: str, by: str, says: str) -> None:
    with pytest.raises(CannotAim, match=says.replace("?", r"\?")):
        target(now, spec, 9.0, by)


def test_a_spec_that_lacks_something_else_says_what() -> None:
    with pytest.raises(CannotAim, match="stroke"):
        target(Logbook.given(["bore=80 mm"]), "compression_ratio", 9.0, "chamber_volume")


def test_no_head_no_cut() -> None:
    with pytest.raises(CannotAim, match="no cylinder_head is fitted"):
        target(Logbook.given(GIVEN), "compression_ratio", 9.0, "surface_milled")
