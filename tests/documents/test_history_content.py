"""What the history says of the example and of small lives: nothing left out, nothing said that is not in the record."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.documents.content import ChangeBlock, History, TestBlock
from logbook.documents.figures import MINUS, NO_BREAK, THIN
from logbook.documents.history.fill import history
from logbook.logbook import Logbook
from logbook.record import entries as model


def plain(text: str) -> str:
    return text.replace(THIN, "").replace(NO_BREAK, " ")


def change(content: History, title: str) -> ChangeBlock:
    return next(each for each in content.changes if each.title == title)


def run(content: History, title: str) -> TestBlock:
    return next(each for each in content.tests if each.title == title)


# the cover


def test_six_figures_lead(example: History) -> None:
    names = [row.name for row in example.cover.figures]
    assert names == ["Engine capacity", "Compression ratio, mean", "Effective compression ratio, mean",
                     "Squish clearance", "Cranking pressure, lowest", "Leak-down, highest"]  # fmt: skip
    assert example.cover.figures[2].conditions == "at 0.1 mm lift"
    assert example.cover.figures[4].conditions == "5 October 2019"  # the last test, and not the one with oil


def test_where_a_leading_figure_is_not_known_another_stands_in() -> None:
    told = Life().part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    content = history(told.work("2024-01-01", "fit: block", "fit: crank").book)
    assert [row.name for row in content.cover.figures] == ["Engine capacity", "Bore to stroke ratio", "Swept volume"]
    assert {row.figure.basis for row in content.cover.figures} == {"published"}


def test_faults_are_open_notes_and_what_the_check_finds(example: History) -> None:
    springs, claim = example.cover.faults
    assert springs == "Valve springs over their 30 hours, open since 5 October 2019"
    assert "9.2" in claim
    assert "3.2 cc less" in claim
    assert not any("More pressure" in fault for fault in example.cover.faults)  # closed on 1 May 2017


def test_how_far_it_can_be_trusted_is_counted(example: History) -> None:
    counts = {basis: int(count) for count, basis in example.cover.trust.counts}
    assert list(counts) == ["measured", "published", "inferred"]  # valve to piston, taken on cylinder 1 alone
    assert counts["measured"] >= 22  # each fact once, however many specs rest on it
    assert counts["published"] >= 3
    said = plain(example.cover.trust.sentence)
    assert "Of the ± of the compression ratio 26 % comes from measuring." in said
    assert "50 entries, 9 April 2016 to 7 March 2020 by owner, tester-1, shop-1 and lab-1. 1 correction." in said


def test_a_picture_is_the_owners_or_drawn_from_the_figures(example: History) -> None:
    assert example.cover.picture is not None
    assert example.cover.picture.asset == "asset:files/engine.svg"
    told = Life(more="firing_order: 1-3-4-2\n").part("block", "block", bore="80 mm")
    told.part("crank", "crankshaft", stroke="79 mm").work("2024-01-01", "fit: block", "fit: crank")
    assert history(told.book).cover.picture is None  # without a rod nothing is in true proportion
    told.part("rods", "connecting_rods", rod_length="134 mm").work("2024-01-02", "fit: rods")
    drawn = history(told.book)
    assert drawn.cover.picture is not None
    assert drawn.assets[drawn.cover.picture.asset].data.startswith(b"<svg")


# the engine now


def test_a_figure_stands_once_with_what_it_rests_on(example: History) -> None:
    rows = {row.name: row for group in example.groups for row in group.rows}
    assert "Compression ratio, mean" not in rows  # its mean of the cylinders is there
    ratio = rows["Compression ratio, mean of the cylinders"].figure
    assert (ratio.value, ratio.uncertainty, plain(ratio.basis)) == ("10.843", "0.075", "74 % published")
    assert rows["Stroke"].figure.basis == ""
    deck = rows["Deck clearance, below"]
    assert (deck.figure.value, deck.figure.unit, deck.conditions) == ("0.050", "mm", "each cylinder")
    in_tables = {row.name for table in example.cylinders for row in table.rows}
    stated = {row.name for group in example.groups[5:] for row in group.rows}
    assert not in_tables & stated


def test_readings_stand_across_the_cylinders_as_they_were_taken(example: History) -> None:
    rows = {row.name: row for row in example.cylinders[0].rows}
    assert rows["Bore"].values == ("80.268", "80.270", "80.272", "80.270")
    assert (rows["Bore"].mean, rows["Bore"].spread, rows["Bore"].uncertainty) == ("80.270", "0.004", "0.007")
    assert rows["Inlet valve to piston, least"].values == ("2.40", "", "", "")  # only cylinder 1 was taken
    assert rows["Compression ratio"].values == ("10.843", "10.868", "10.820", "10.843")
    assert [table.title for table in example.cylinders] == ["Cylinder by cylinder", "Main journals", "Crankpins"]


def test_the_tune_stands_with_its_table(example: History) -> None:
    assert ("Tune", "tune-5, in use since 23 March 2019, made from tune-4") in example.settings
    (tune,) = example.tune
    (table,) = tune.tables
    assert tune.title == "Ignition, tune-5"
    assert [column.head for column in table.columns][1:] == ["1000", "2000", "3000", "4000", "5000", "6000"]
    assert table.rows == (("ignition advance, before TDC, deg", "14", "20", "26", "29", "31", "32"),)


def test_a_table_of_two_dimensions_is_a_grid() -> None:
    told = Life().work("2024-01-01", "tune: t1, state: in use, tables: {ignition: files/t.csv}")
    texts = {**{file: text.encode() for file, text in told.texts.items()},
             "files/t.csv": b"ignition_advance deg," + b",".join(b"%d" % (500 * n) for n in range(1, 15)) + b"\n"
             + b"20" + b",14" * 14 + b"\n"}  # fmt: skip
    (tune,) = history(Logbook.of_texts(texts)).tune
    assert [len(table.columns) for table in tune.tables] == [8, 8]
    assert tune.tables[0].rows == (("20", *["14"] * 7),)


# its life


def test_the_life_line_says_what_is_to_be_seen_in_it(example: History) -> None:
    said = plain(example.life[0].sentence)
    for wanted in ("The ratio was 8.702 ± 0.036 when it was first known", "rose by 2.089 ± 0.0",
                   "at 104300 km (Assembled with the raised pistons)", "fell by 0.268 ± 0.035 at 21.4 h (Head C on)",
                   "the axis does not begin at zero"):  # fmt: skip
        assert wanted in said
    drawn = example.life[0].svg.decode()
    for title in ("Bought running", "Assembled with the raised …", "Head C on", "Sold", "10.843", "hour meter, h"):
        assert title in drawn


def test_an_engine_whose_ratio_is_never_known_has_no_life_line() -> None:
    content = history(Life().part("block", "block").work("2024-01-01", "fit: block", at="100 km").book)
    assert (content.life, content.builds) == ((), ())


def test_builds_stand_side_by_side(example: History) -> None:
    (table,) = example.builds
    assert [column.head for column in table.columns] == ["build", "as-bought", "rebuilt", "donor-head", "third-head"]
    ratios = next(row for row in table.rows if row[0].startswith("Compression ratio"))
    assert [plain(each)[:6] for each in ratios[1:]] == ["8.702 ", "10.792", "11.111", "10.843"]


# each change


def test_every_entry_is_told_once_and_only_once(example: History) -> None:
    record = Logbook.open(EXAMPLE).record
    others = [entry.id for entry in record.entries if not isinstance(entry.says, model.Test)]
    assert [each.entry for each in example.changes] == others


def test_the_effect_of_work_is_told_with_its_difference_and_verdict(example: History) -> None:
    block = change(example, "Head C on")
    assert (block.effect_title, block.build, block.date) == ("What it did", "third-head", "16 February 2019")
    ratio = block.effect[0]
    assert ratio.name == "Compression ratio, mean of the cylinders"
    assert (ratio.before.value, ratio.after.value) == ("11.111", "10.843")
    assert (ratio.difference.value, ratio.difference.uncertainty) == (f"{MINUS}0.268", "0.035")
    assert (ratio.verdict, ratio.strong) == ("real", True)
    assert block.effect[1].name == "Effective compression ratio, mean"


def test_what_is_only_measured_changes_what_is_known(example: History) -> None:
    block = change(example, "As found, measured while it came apart")
    assert block.effect_title == "What is known since"
    assert "head-a: combustion chamber volume 36.2 / 36.0 / 36.4 / 36.1 cc (with burette-50)" in block.work
    assert block.effect[0].verdict == "within the error"


def test_what_is_known_on_one_side_only_is_a_sentence_and_no_difference(example: History) -> None:
    bought = change(example, "Bought running, still in the lorry")
    assert bought.effect == ()
    assert plain(bought.rest).startswith("Known from here on: engine capacity 1589.58 ± 0.46 cc; compression ratio")
    stripped = change(example, "Engine out and stripped")
    assert stripped.rest.startswith("Cannot be worked out after it: compression ratio")


def test_an_open_note_says_whether_it_was_closed(example: History) -> None:
    closed = change(example, "More pressure than the figures allow")
    assert closed.work == ("Open until it was closed on 1 May 2017: ‘The sign was wrong: 10.8, not 9.8’",)
    assert change(example, "Valve springs over their 30 hours").work == ("Still open",)


# parts and tests


def test_parts_say_where_they_are_and_what_they_have_run(example: History) -> None:
    parts = {row.id: row for row in example.parts}
    assert "pistons-3" not in parts  # only thought of
    pistons = parts["pistons-2"]
    assert (plain(pistons.distance), pistons.hours, pistons.before) == ("8340", "41.6", "new")
    assert (parts["head-b"].state, parts["head-b"].hours) == ("sold", "21.4")
    assert (parts["rings-1"].state, parts["head-a"].state) == ("scrapped", "on the shelf")
    assert plain(parts["springs-2"].remark) == "11.6 h over its service life of 30 h"
    assert "casting H-214" in parts["head-a"].what


def test_one_gauges_tests_stand_in_one_table(example: History) -> None:
    series = run(example, "Cranking pressure, gauge-1")
    (table,) = series.tables
    assert [row[0] for row in table.rows] == ["9 April 2016, dry", "9 April 2016, with oil", "22 April 2017, dry",
                                              "14 April 2018, dry", "5 October 2019, dry"]  # fmt: skip
    assert table.rows[0][2:6] == ("11.9", "12.0", "11.8", "9.8")
    assert plain(table.rows[0][6]) == "82 %"
    assert "cylinder 4, 9.8 bar gauge, on 9 April 2016" in plain(series.sentence)
    assert series.conditions == ("throttle open", "engine warm", "plugs all out")
    leak = run(example, "Leak-down, tester")
    assert [row[2:] for row in leak.tables[0].rows] == [
        ("6", "7", "6", "24"),
        ("5", "5", "6", "5"),
        ("7", "8", "7", "9"),
    ]
    assert "air from the exhaust pipe" in leak.note


def test_two_gauges_never_share_a_table() -> None:
    told = Life(2)
    for day, gauge in (("2024-01-01", "fine"), ("2024-01-02", "coarse")):
        told.texts[f"tests/{day}-t.yaml"] = (
            f"date: {day}\nkind: compression test\nwith: {gauge}\noil: dry\n"
            "values: {cranking_pressure: 9 / 10 bar gauge}\n"
        )
    titles = [block.title for block in history(told.book).tests]
    assert titles == ["Cranking pressure, fine", "Cranking pressure, coarse"]


def test_a_run_is_as_observed_and_its_sheet_names_its_standard(example: History) -> None:
    block = run(example, "Dynamometer with head B")
    assert block.sentence == "Its own sheet says: power 71.0 kW, corrected to DIN 70020."
    assert block.tables[0].rows[0][:3] == ("torque, N m", "86", "93")
    assert block.tables[0].note == "As observed, by dyno-1: ± 1 % for each reading, ± 2 % for all of a day."
    torque = example.test_plots[0]
    assert "nothing is corrected for the weather" in torque.sentence
    assert "corrected to ISO 1585 and DIN 70020 and cannot be compared as they stand" in torque.sentence
    assert "114 N m at 5000 rpm (donor-head, tune-4)" in plain(torque.sentence)


def test_flow_is_drawn_across_the_lift_for_every_head(example: History) -> None:
    titles = [plot.title for plot in example.test_plots]
    assert titles == [
        "Torque over engine speed, dyno-1",
        "Inlet flow on the bench over valve lift, bench-1, at 28 inH₂O",
        "Exhaust flow on the bench over valve lift, bench-1, at 28 inH₂O",
    ]
    assert all(head in example.test_plots[1].svg.decode() for head in ("head-a", "head-b", "head-c"))


def test_what_the_oil_says_stands_as_it_was_observed(example: History) -> None:
    rows = run(example, "What the oil says").tables[0].rows
    assert ("lead", "18 mg/kg", "1.07 mg/kg") in rows
    assert ("viscosity at 100 °C", "14.1 cSt", "") in rows


# what is open


def test_a_claim_stands_against_what_was_found_and_is_never_used(example: History) -> None:
    (claim,) = example.claims
    assert (claim.what, claim.claimed) == ("Compression ratio", "9.2")
    assert claim.source == "hearsay, seller, for head-a, gasket-1, pistons-1, 9 April 2016"
    assert claim.found.value.startswith("8.")
    assert claim.difference.value == "+0.50"
    assert "3.2 cc less above each piston" in claim.sentence


def test_a_claim_that_nothing_can_be_set_beside_says_so() -> None:
    told = Life()
    told.texts["notes/2024-01-01-n.yaml"] = (
        "date: 2024-01-01\ntitle: Said\nfacts:\n"
        "  - {basis: hearsay, source: seller, values: {compression_ratio: 9.2}}\n"
    )
    (claim,) = history(told.book).claims
    assert (claim.found.value, claim.sentence) == ("", "Nothing in the record can be set beside it.")


def test_a_correction_keeps_what_was_first_written(example: History) -> None:
    (row,) = example.corrections
    assert (row.what, row.was, row.now) == ("Dish volume of pistons-2", "2.2 cc, all", "withdrawn")
    assert row.why.startswith("The crown is raised and was written down as a dish")


def test_a_plan_says_what_it_would_have_made_and_why_not(example: History) -> None:
    (plan,) = example.plans
    assert plan.state == "withdrawn 18 February 2017"
    assert any("engine capacity 1589.58 ± 0.46 cc → 1608.3" in plain(line) for line in plan.lines)
    assert plan.why == "Over the class limit, 1608.3 cc where 1600 is allowed."


def test_the_last_acceptance_of_each_limit_stays_visible(example: History) -> None:
    assert len(example.accepted) == 2
    assert example.accepted[0].startswith(
        "Effective compression ratio, at inlet closing: 8.7 where the rule is at most"
    )


def test_what_work_put_out_of_date_is_told_with_what_rests_on_it() -> None:
    told = Life().part("head", "cylinder_head").part("block", "block", bore="80 mm")
    told.part("crank", "crankshaft", stroke="79 mm")
    told.work("2024-01-01", "fit: head", "fit: block", "fit: crank").measure("2024-01-02", "block", bore="{all: 80 mm}")
    told.work("2024-02-01", "rework: block, operation: honed")
    content = history(told.book)
    (row,) = content.stale
    assert row.what == "Bore of block"
    assert row.since == "the work of 1 February 2024 (block: honed) came after it"
    assert "on it rests: engine capacity" in row.mend
    capacity = content.groups[0].rows[0].figure
    assert capacity.note == "out of date since 1 February 2024"
    assert content.cover.figures[0].figure.basis == "out of date"


# how it stands


def test_cautions_are_those_that_the_record_calls_for(example: History) -> None:
    topics = {caution.topic for caution in example.cautions}
    assert {"What this is", "Distance", "Compressed air", "Dynamometer", "Petrol", "Knock"} <= topics
    assert "16 September 2017 and 10 March 2018" in next(c.text for c in example.cautions if c.topic == "Distance")
    diesel = {c.topic for c in history(Life(more="ignition: compression\n").book).cautions}
    assert "Fuel under pressure" in diesel
    assert not {"Petrol", "Knock", "Distance", "Compressed air", "Dynamometer"} & diesel


def test_findings_stand_at_their_places(example: History) -> None:
    assert len(example.status.findings + example.status.of_engine) == len(Logbook.open(EXAMPLE).findings)
    assert any(said.endswith("(parts/springs-2.yaml:5)") for said in example.status.of_engine)
    assert example.status.fingerprint == Logbook.open(EXAMPLE).fingerprint


def test_only_a_demonstration_says_that_it_is_one(example: History) -> None:
    assert example.cover.is_demonstration
    assert example.status.notes
    other = history(Life().book)
    assert not other.cover.is_demonstration
    assert other.status.notes == ()


@pytest.mark.parametrize("name", ["Bracken", "BR-0731", "hillclimb", "lorry", "burette-50", "donor"])
def test_no_word_of_the_example_stands_in_the_program(name: str) -> None:
    package = EXAMPLE.parent / "logbook" / "documents"
    shipped = [*package.rglob("*.py"), *(EXAMPLE.parent / "templates").rglob("*.html")]
    assert [file.name for file in shipped if name in file.read_text(encoding="utf-8")] == []


def test_a_flow_that_stands_for_its_table_says_so(example: History) -> None:
    (flow,) = [row for group in example.groups for row in group.rows if row.name == "Inlet flow on the bench"]
    assert flow.conditions == "the greatest of its table, at 28 inH₂O"
