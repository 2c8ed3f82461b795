"""`logbook explain`, as it is printed of the garden twin and of the example engine."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from keyboard import typed
from lives import EXAMPLE

from logbook.logbook import Logbook
from logbook.specs.curves import CURVES
from logbook.specs.index import ALL_SPECS, OF_A_TEST

SWEPT = """\
Garden twin: swept volume of cylinder 2, now

  301.668 ± 0.091 cc, measured
  The other cylinders are 1: 301.593 ± 0.091 cc

Formula
  V_s = π/4 · B² · S
    bore: diameter of the cylinder, B; of a worn one the mean of several
      readings
    stroke: way of the piston between its dead centres, S

Source
"""

RESTS_ON = """\
What it rests on
  bore: 80.010 ± 0.010 mm
    measured 2024-01-13 with bore gauge:
      measurements/2024-01-13-on-the-bench.yaml:5
  stroke: 60.000 ± 0.010 mm
    measured 2024-01-13 with bore gauge:
      measurements/2024-01-13-on-the-bench.yaml:6

Where the ± comes from
   69%  bore
   31%  stroke

To halve the ±
  No single figure does it, not even one known exactly. These 2 together do:
    bore to ± 0.0050 mm (now ± 0.010 mm): the mean of 4 readings with the bore
      gauge
    stroke to ± 0.0050 mm (now ± 0.010 mm): the mean of 4 readings with the bore
      gauge
"""


def printed(*words: str, at: Path) -> str:
    ran = typed("explain", *words, at=at)
    assert (ran.status, ran.err) == (0, "")
    assert max(map(len, ran.out.splitlines())) <= 80
    return ran.out


def test_swept_volume_by_pencil(twin: Path) -> None:
    out = printed("swept_volume", "--cylinder", "2", at=twin)
    assert out[: len(SWEPT)] == SWEPT
    assert out[out.index("What it rests on") :] == RESTS_ON


def test_every_spec_of_the_example_is_explained_within_80_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    book = Logbook.open(EXAMPLE)  # once for all of them
    monkeypatch.setattr(Logbook, "open", lambda *_, **__: book)
    for name in (*ALL_SPECS, *CURVES, *OF_A_TEST, "bore", "chamber_volume"):
        out = printed(name, at=EXAMPLE)
        assert "nan" not in out.split(), name
        assert "inf" not in out.split(), name


def test_every_formula_has_a_page_without_an_engine(tmp_path: Path) -> None:
    for name in (*ALL_SPECS, *CURVES, *OF_A_TEST):
        assert "source" in printed("--formula", name, at=tmp_path).splitlines(), name


def test_what_is_missing_says_what_would_unlock_it(twin: Path) -> None:
    out = printed("valve_overlap", at=twin)
    assert "It cannot be worked out yet" in out
    assert "needs exhaust_closes, inlet_opens" in out


def test_without_a_spec_all_of_them_and_what_unlocks_most(twin: Path) -> None:
    out = printed(at=twin)
    assert "What unlocks most, measured alone" in out
    assert "  swept_volume: from bore, stroke" in out
    assert "  valve_overlap: needs exhaust_closes, inlet_opens" in out


def test_a_curve_is_a_table_with_its_greatest_and_its_band() -> None:
    out = printed("piston_speed", at=EXAMPLE)
    assert "  Greatest of the table: 29.3316 ± 0.0084 m/s at 75 deg" in out
    assert "   75 deg    29.3316 ± 0.0084 m/s" in out
    assert "  180 deg     0.0000 ± 0.0000 m/s" in out


def test_a_letter_is_not_told_twice_what_the_name_says() -> None:
    out = printed("inlet_mach_index", at=EXAMPLE)
    assert "    inlet valves of one cylinder: n\n" in out
    assert "mean while the valve is open: C̄; not that" in " ".join(out.split())


def test_its_head_says_what_the_specs_say_of_its_basis() -> None:
    """43 % of the ± of all cylinders is published; of the first by itself as much."""
    assert "\n  10.843 ± 0.098, 43% published\n" in printed("compression_ratio", "--cylinder", "1", at=EXAMPLE)
    assert re.search(r"compression ratio, by cylinder +43% published", typed("specs", at=EXAMPLE).out)


def test_a_figure_that_stands_for_a_table_says_so_and_an_engine_in_line_has_no_bank_to_name() -> None:
    out = printed("inlet_flow", at=EXAMPLE)
    assert out.startswith(
        "Bracken special: inlet flow on the bench, now\n\n  116.0 ± 1.6 cfm, measured, the greatest of"
    )
    rests = printed("inlet_mach_index", at=EXAMPLE)
    assert "    inlet flow on the bench: 116.0 ± 1.6 cfm, the greatest of its table\n" in rests
    assert "    test pressure of the inlet flow: 28 inH2O\n" in rests


def test_rows_of_a_curve_outside_its_validity_are_marked() -> None:
    out = printed("inlet_mach_index", at=EXAMPLE)
    assert "  5500 rpm   0.562 ± 0.009\n  6000 rpm   0.613 ± 0.010 †\n" in out
    assert "† outside the validity: above 0.6 filling falls fast" in out
    assert out.count("†") == 8
    points = json.loads(typed("explain", "inlet_mach_index", "--json", at=EXAMPLE).out)["curve"]["points"]
    assert [bool(each["outside_validity"]) for each in points] == [each["value"] > 0.6 for each in points]


def test_what_is_supposed_is_said_to_be_supposed(twin: Path) -> None:
    out = printed("squish_clearance", "--suppose", "gasket_thickness=1.0 mm", at=twin)
    assert "what is supposed" in out
    assert "1.500 ±" in out


def test_from_given_figures_without_a_folder(tmp_path: Path) -> None:
    out = printed("swept_volume", "--given", "bore=80 mm", "--given", "stroke=60 mm", at=tmp_path)
    assert "301.59 ± 0.45 cc, assumed" in out


def test_the_owners_units_and_words(own: Path) -> None:
    engine = own / "engine.yaml"
    engine.write_text(engine.read_text() + "show: imperial\nwords: us\n")
    out = printed("clearance_volume", at=own)
    assert "chamber volume: 26.00 ± 0.20 cc" in out
    assert "deck clearance: 0.01969 ± 0.00079 in below" in out


def test_markdown_is_a_list_under_headings(twin: Path) -> None:
    ran = typed("explain", "swept_volume", "--markdown", at=twin)
    assert "### What it rests on" in ran.out
    assert "\n  - measured 2024-01-13 with bore gauge: measurements/2024-01-13-on-the-bench.yaml:5\n" in ran.out


def test_json_of_a_spec(twin: Path) -> None:
    ran = typed("explain", "compression_ratio", "--json", at=twin)
    shape = json.loads(ran.out)
    assert set(shape) == {"format", "point", "spec", "position", "unit", "value", "uncertainty", "basis", "out_of_date",
                          "outside_validity", "formulas", "inputs", "shares", "next", "missing", "missing_any",
                          "because", "curve"}  # fmt: skip
    assert shape["value"] == pytest.approx(8.597, abs=5e-4)
    assert sum(each["share"] for each in shape["shares"]) == pytest.approx(1, abs=1e-5)
    (whole,) = shape["inputs"]
    assert [each["name"] for each in whole["inputs"]] == ["swept_volume", "clearance_volume"]
    assert whole["inputs"][0]["inputs"][0]["where"]["line"] == 5


def test_json_of_all_of_a_curve_and_of_a_formula(twin: Path) -> None:
    everything = json.loads(typed("explain", "--json", at=twin).out)
    assert everything["known"]["swept_volume"] == ["bore", "stroke"]
    assert everything["lacking"]["valve_overlap"]["missing"] == ["exhaust_closes", "inlet_opens"]
    curve = json.loads(typed("explain", "piston_speed", "--json", at=EXAMPLE).out)
    assert (curve["over"], len(curve["points"])) == ("crank_angle", 25)
    (page,) = json.loads(typed("explain", "--formula", "swept_volume", "--json", at=twin).out)["formulas"]
    assert page["equation"] == "V_s = π/4 · B² · S"


TOP_LAND = """\
facts:
  - basis: published
    source: maker's sheet
    values: {top_land_diameter: 79.60 mm, top_land_height: 6.0 mm}
"""


@pytest.mark.parametrize("crevice", ["left out of", "counted in"])
def test_beside_a_ratio_it_says_whether_the_crevice_is_counted(own: Path, crevice: str) -> None:
    file = own / "engine.yaml"
    if crevice == "counted in":
        pistons = next(own.glob("parts/pistons*.yaml"))
        file.write_text(file.read_text() + "crevice: counted\n")
        pistons.write_text(pistons.read_text() + TOP_LAND)
    line = f"  Top land crevice: {crevice} every ratio"
    assert line in printed("compression_ratio", at=own).splitlines()
    assert f"{line}." in typed("specs", at=own).out.splitlines()
    assert "crevice" not in printed("swept_volume", at=own)


def test_a_card_set_beside_itself_has_no_rough_spread() -> None:
    """As bought nobody had measured the camshaft's timing: it is its card's, and nothing is left."""
    out = printed("inlet_early", "as-bought", at=EXAMPLE)
    assert out.splitlines()[2] == "  0 deg, published, errors cancel"
    assert "± rough" in printed("inlet_mach_index", at=EXAMPLE)
