"""What is only supposed: on top of a point, on top of a plan, and of an engine that has no record."""

from __future__ import annotations

import pytest

from logbook.logbook import Logbook
from logbook.specs.supposing import CannotSuppose
from tests.lives import EXAMPLE, Life


@pytest.fixture(scope="module")
def book() -> Logbook:
    return Logbook.open(EXAMPLE)


def ratio(book: Logbook, *said: str, point: str = "now") -> float:
    value = book.at(point, said).specs["mean_compression_ratio"].values[0]
    assert value is not None
    return value.nominal


def test_a_supposed_figure_overrules_what_is_recorded(book: Logbook) -> None:
    assert ratio(book, "gasket_thickness=1.0 mm") < ratio(book) - 0.05
    assert book.at("now", ["gasket_thickness=1.0 mm"]).specs["mean_compression_ratio"].basis == "assumed"


def test_a_supposed_head_is_as_it_would_be_if_it_were_fitted(book: Logbook) -> None:
    assert ratio(book, "fit=head-b") == pytest.approx(ratio(book, point="donor-head"), abs=1e-9)


def test_suppositions_stand_on_a_plan_too(book: Logbook) -> None:
    name = next(iter(book.record.plans))
    planned = ratio(book, point=f"plan:{name}")
    assert ratio(book, "gasket_thickness=5 mm", point=f"plan:{name}") < planned
    assert ratio(book, f"fit={book.at(f'plan:{name}').state.part_at('pistons')}", point=f"plan:{name}") == planned


def test_a_supposed_cut_takes_metal_off(book: Logbook) -> None:
    assert ratio(book, "rework=head-c: surface milled 0.30 mm") > ratio(book)


def test_the_record_itself_stays_as_it_is(book: Logbook) -> None:
    before = ratio(book)
    ratio(book, "fit=head-b", "gasket_thickness=1.0 mm")
    assert ratio(book) == before
    assert all("suppose" not in name for name in book.record.plans)


def test_a_ratio_without_any_folder() -> None:
    at = Logbook.given(["bore=84 mm", "stroke=90 mm", "clearance_volume=50 cc"])
    value = at.specs["compression_ratio"].values[0]
    assert value is not None
    assert value.nominal == pytest.approx((84**2 * 3.14159265 / 4 * 90 / 1000 + 50) / 50, rel=1e-6)
    assert value.shares == {"assumed": pytest.approx(1.0)}


def test_as_many_cylinders_as_figures() -> None:
    at = Logbook.given(["bore=84 mm", "stroke=90 mm", "clearance_volume=50 / 51 / 50 / 49 cc"])
    assert len(at.specs["compression_ratio"].known) == 4


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("gasket_thicknes=1 mm", "`gasket_thicknes` is not a quantity; did you mean gasket_thickness?"),
        ("gasket_thickness=1", "'1' has no unit; write 1 mm or 1 in"),
        ("gasket_thickness", "`gasket_thickness`: write a name, = and the rest, such as gasket_thickness=1.0 mm"),
        ("bore=", "nothing stands behind the =; write what bore should be"),
        ("gasket_thickness=unknown", "supposes nothing; write a figure"),
        ("cylinders=6", "engine.yaml says it"),
        ("removed_before=0.2 mm", "the file of the head or the block says it"),
        ("compression_ratio_spread=1", "`compression_ratio_spread` is only worked out, never given"),
        ("fit=head-x", "there is no part `head-x`"),
        ("fit=head-b at bank 9", "`bank 9` is no place on this engine"),
        ("fit=head-b at the back", "write a part and, where it needs one, a place"),
        ("rework=head-b", 'write "rework=head-b: surface milled 0.30 mm"'),
        ("rework=head-b: surface mild 0.3 mm", "write `surface milled`"),
        ("bore=80 / 81 mm", "2 values of bore, which this engine has at 4 places"),
        ("bore={all: 80 mm", "a bracket or brace is not closed"),
    ],
)
def test_what_cannot_be_supposed_is_told_with_what_would_work(book: Logbook, said: str, answer: str) -> None:
    with pytest.raises(CannotSuppose) as told:
        book.at("now", [said]).specs["compression_ratio"]
    assert answer in str(told.value)


def test_the_same_figure_twice_is_refused(book: Logbook) -> None:
    with pytest.raises(CannotSuppose, match="given twice"):
        book.at("now", ["bore=80 mm", "bore=81 mm"])


def test_figures_of_two_and_of_three_cylinders_are_refused() -> None:
    with pytest.raises(CannotSuppose, match="2 and of 3 cylinders"):
        Logbook.given(["bore=80 / 80 mm", "clearance_volume=50 / 50 / 50 cc"])


def test_a_head_supposed_on_an_engine_of_two_banks_says_where() -> None:
    life = Life(6, "vee")
    for name in ("head-l", "head-r", "head-s"):
        life.part(name, "cylinder_head", chamber_volume="35 cc")
    life.work("2024-01-01", "fit: head-l, at: bank 1", "fit: head-r, at: bank 2", at="100 km")
    book = life.book
    assert book.at("now", ["fit=head-s at bank 2"]).state.part_at("cylinder_head", "bank 2") == "head-s"
    with pytest.raises(CannotSuppose):
        book.at("now", ["fit=head-s"])


def test_the_number_of_cylinders_and_what_else_the_engine_is_can_be_given() -> None:
    said = ["cylinders=6", "arrangement=vee", "crevice=counted", "show=imperial", "bore=84 mm", "stroke=80 mm"]
    at = Logbook.given(said)
    engine = at.life.record.engine
    assert (engine.cylinders, engine.arrangement, engine.crevice, engine.show) == (6, "vee", "counted", "imperial")
    assert at.specs["displacement"].known[0].nominal == pytest.approx(2660e-6, rel=1e-3)
    assert Logbook.given(["cylinders=2"]).life.record.engine.arrangement == "inline"


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        (["cylinders=many", "bore=80 mm"], "`many` is not a whole number"),
        (["cylinders=40", "bore=80 mm"], "40"),
        (["cylinders=4", "bore=80 mm", "cylinders=6"], "`cylinders` is given twice"),
        (["cylinders=", "bore=80 mm"], "nothing stands behind the ="),
        (["cylinders=6", "firing_order=1-2-3"], "leaves out cylinder 4 and 5 and 6"),
        (["cylinders=4", "arrangement=single"], "an engine of 4 cylinders is not `single`"),
        (["cylinders=6", "arrangement=vee", "bank_angle=400 deg"], "at most 180 deg"),
        (["cylinders=4", "valves_per_cylinder=0+0"], "says no number of valves"),
        (["cylinders=4", "bore=80 / 80 mm"], "2 values of bore, which this engine has at 4 places"),
        (["cylindres=4"], "did you mean cylinders?"),
        (["show=imperail", "bore=80 mm"], "imperial"),
    ],
)
def test_what_cannot_be_given_of_the_engine_is_told(said: list[str], answer: str) -> None:
    with pytest.raises(CannotSuppose) as told:
        Logbook.given(said)
    assert answer in str(told.value)


def test_values_by_cylinder_with_commas_between_are_not_taken_for_readings_of_one() -> None:
    life = Life(4).part("b", "block").work("2024-01-01", "fit: b")
    with pytest.raises(CannotSuppose, match="80 / 81 / 82 / 80 mm"):
        life.book.at("now", ["bore=80, 81, 82, 80 mm"])
