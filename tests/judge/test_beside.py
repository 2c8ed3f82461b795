"""What stands beside a comparison: machining in between, tables of tunes, another engine, and the usual cautions."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.judge.compare import REAL
from logbook.judge.hurts import MAKER_FIRST
from logbook.logbook import Logbook


def twin(name: str = "Quarry engine", chambers: str = "36.0 / 36.0 cc", using: str = "burette") -> Life:
    more = f"  burette: {{what: burette, common: 1.0 cc, each: 0.1 cc}}\nengine_number: {name}\n"
    life = Life(2).part("head-a", "cylinder_head").part("gasket", "head_gasket", gasket_bore="82 mm")
    life.texts["engine.yaml"] += more
    life.part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm").part("pistons", "pistons")
    life.work("2024-01-01", *(f"fit: {part}" for part in ("head-a", "gasket", "block", "crank", "pistons")))
    life.measure("2024-01-02", "gasket", gasket_thickness="1.2 mm")
    life.measure("2024-01-03", deck_clearance="{all: 0.30 mm below}")
    life.measure("2024-01-04", "pistons", dish_volume="{all: 5.0 cc}")
    return life.measure("2024-01-05", "head-a", using=using, chamber_volume=chambers)


def test_machining_in_between_is_told_with_its_depth_and_day() -> None:
    life = twin().work("2024-02-01", "rework: head-a, operation: surface milled, depth: 0.30 mm")
    life.part("head-b", "cylinder_head").work("2024-02-02", "rework: head-b, operation: surface milled")
    (worked,) = life.book.compare("2024-01-05").worked
    assert worked == ("head-a", "surface milled", "0.30 mm", "2024-02-01") or (
        worked.part, worked.operation, worked.depth, worked.when) == (
        "head-a", "surface milled", "0.30 mm", "2024-02-01")  # fmt: skip
    assert life.book.compare("now", "2024-01-05").worked == (worked,)
    assert life.book.compare("2024-02-01").worked == ()


def test_what_is_supposed_is_machined_on_no_day() -> None:
    told = twin().book.compare("now", "now", suppose=["rework=head-a: surface milled 0.30 mm"])
    assert [(each.part, each.depth, each.when) for each in told.worked] == [("head-a", "0.30 mm", "")]


def test_one_burette_measures_two_engines_alike() -> None:
    """Its common error of 1.0 cc is in both chambers, so 1.0 cc of difference is real; two burettes prove nothing."""
    other = twin("other", "37.0 / 37.0 cc").book
    told = twin("one").book.compare("now", "now", other=other)
    volume = told.specs["clearance_volume"]
    assert volume.differences[0]
    assert volume.differences[0].nominal == pytest.approx(1e-6)
    burette = [key for key in volume.differences[0].terms if key == "instrument burette"]
    assert volume.differences[0].terms[burette[0]] == pytest.approx(0.0, abs=1e-18)
    apart = twin("other", "37.0 / 37.0 cc", using="fine").book
    terms = twin("one").book.compare("now", "now", other=apart).specs["clearance_volume"].differences[0]
    assert terms
    assert abs(terms.terms["instrument burette"]) == pytest.approx(0.5e-6)


def test_parts_of_one_name_in_two_engines_are_two_parts() -> None:
    told = twin("one").book.compare("now", "now", other=twin("other").book)
    assert told.off == told.on == ("block", "crank", "pistons", "head-a", "gasket")


def test_engines_with_unlike_numbers_of_cylinders_show_all_of_them() -> None:
    four = Life(4).part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    four.work("2024-01-01", "fit: block", "fit: crank")
    for first, second in ((four, twin()), (twin(), four)):
        told = first.book.compare("now", "now", other=second.book)
        assert told.specs["swept_volume"].positions == ("1", "2", "3", "4")


def test_tables_of_tunes_are_set_side_by_side_and_what_is_not_there_is_said() -> None:
    book = Logbook.open(EXAMPLE)
    ignition = next(each for each in book.compare("donor-head", "third-head").tables if each.name == "ignition")
    assert [row[0].change for row in ignition.cells][:3] == [4, 4, 1]
    texts = {**{path: data for path, data in book.record.texts.items()}}
    (grid,) = (each for each in Logbook.of_texts(texts).compare("donor-head", "third-head").tables
               if each.name == "ignition")  # fmt: skip
    assert grid.why_not == "there is no file files/tune-2-ignition.csv in this record"


def test_flow_over_lift_is_set_side_by_side_in_the_units_of_the_bench() -> None:
    """Head B and head C of the example, cfm at 28 inches of water: 19 and 20 at 1 mm, 117 and 116 at 11 mm."""
    tables = Logbook.open(EXAMPLE).compare("donor-head", "third-head").tables
    (grid,) = (each for each in tables if each.inside.name == "inlet_flow")
    assert (grid.down, grid.inside.unit) == (("valve_lift", "mm"), "cfm")
    read = {round(row): cells[0] for row, cells in zip(grid.rows, grid.cells, strict=True)}
    assert [round(value, 3) for value in (read[1].before, read[1].after, read[11].before, read[11].after) if value] == [
        19, 20, 117, 116]  # fmt: skip


def test_flow_at_another_depression_is_not_set_side_by_side() -> None:
    texts = dict(Logbook.open(EXAMPLE).record.texts)
    file = "tests/2019-02-09-head-c-flow.yaml"
    texts[file] = texts[file].replace(b"at_depression: 28 inH2O", b"at_depression: 10 inH2O")
    tables = Logbook.of_texts(texts).compare("donor-head", "third-head").tables
    assert {each.why_not for each in tables if each.inside.name == "inlet_flow"} == {
        "they were not read under the same conditions"}  # fmt: skip


def test_a_higher_ratio_has_its_caution_and_a_lower_one_has_none() -> None:
    life = twin().part("head-b", "cylinder_head").measure("2024-01-06", "head-b", chamber_volume="30.0 / 30.0 cc")
    up = life.book.compare("now", "now", suppose=["fit=head-b"]).cautions
    assert up[0].startswith("More compression: listen for knock")
    assert up[-1] == MAKER_FIRST
    life.work("2024-02-01", "fit: head-b")
    assert life.book.compare("now", "now", suppose=["fit=head-a"]).cautions == ()


def test_a_thinner_gasket_warns_of_the_squish_and_a_deep_cut_of_the_metal() -> None:
    told = twin().book.compare("now", "now", suppose=["gasket_thickness=0.6 ± 0.01 mm"])
    assert any(each.startswith("The piston comes nearer to the head") for each in told.cautions)
    life = twin().measure("2024-01-06", "head-a", metal_removed="0.5 mm", metal_limit="0.8 mm")
    deep = life.book.compare("now", "now", suppose=["rework=head-a: surface milled 0.40 mm"])
    assert any(each.startswith("More has come off the joint face of head-a") for each in deep.cautions)
    assert not any("joint face" in each for each in life.book.compare("now", "now").cautions)


def test_a_difference_within_the_error_warns_of_nothing() -> None:
    told = twin().book.compare("now", "now", suppose=["gasket_thickness=1.19 ± 0.10 mm"])
    assert told.specs["squish_clearance"].verdicts[0] != REAL
    assert told.cautions == ()
