"""What the history says of a part's past and metal, of claims, corrections, plans and tests at their own places."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.documents import render
from logbook.documents.content import History, PartRow
from logbook.documents.figures import MINUS, NO_BREAK, THIN
from logbook.documents.history.fill import history


def plain(text: str) -> str:
    return text.replace(THIN, "").replace(NO_BREAK, " ").replace(MINUS, "-")


def row(content: History, part: str) -> PartRow:
    return next(each for each in content.parts if each.id == part)


def lines(content: History, part: str) -> list[str]:
    return [plain(line) for line in row(content, part).lines]


def twin(more: str = "") -> Life:
    """Two cylinders, hours only, nothing but a head and pistons."""
    told = Life(2, more=more)
    told.texts["engine.yaml"] = told.texts["engine.yaml"].replace("odometer: km, ", "")
    return told


# parts


def test_a_part_says_where_it_came_from_and_what_it_has_run_in_all() -> None:
    came = "came_from: {engine: Quarry four, fingerprint: " + "0a" * 32 + ", distance: about 12000 km, hours: 31.5 h}\n"
    told = Life().part("head-a", "cylinder_head", came).part("crank", "crankshaft", "used_before: at least 16000 km\n")
    told.part("block", "block", "used_before: new\n").part("rods", "connecting_rods")
    told.work("2024-01-01", "fit: head-a", "fit: crank", "fit: block", "fit: rods", at="1000 km, 0 h")
    told.work("2024-02-01", "service: oil", at="1400 km, 8.5 h")
    content = history(told.book)
    assert lines(content, "head-a") == [
        "from Quarry four, where it ran about 12000 km and 31.5 h; its record there 0a0a0a0a0a0a"
    ]
    assert plain(row(content, "head-a").in_all) == "about 12400 km, 40 h"
    assert (row(content, "head-a").before, row(content, "block").before) == ("", "new")
    assert plain(row(content, "crank").before) == "at least 16000 km"
    assert plain(row(content, "crank").in_all) == "at least 16400 km, 8.5 h"
    assert (row(content, "block").in_all, row(content, "rods").in_all, row(content, "rods").before) == (
        "", "", "not said")  # fmt: skip


def test_what_ran_since_the_newest_work_stands_under_the_parts() -> None:
    told = Life().part("head-a", "cylinder_head").part("head-b", "cylinder_head")
    told.work("2024-01-01", "fit: head-a", at="1000 km, 0 h").work("2024-02-01", "fit: head-b", at="1400 km, 8.5 h")
    assert history(told.book).since == ""
    told.work("2024-03-01", "service: oil", at="1650 km, 12.5 h")
    content = history(told.book)
    assert plain(content.since) == (
        "Since 1 February 2024, 2024-02-01-004, the engine and the parts in it have run 250 km and 4 h."
    )
    assert plain(content.since) in plain(render.history_page(content))


def test_a_camshaft_that_leaves_the_ratio_alone_is_no_step_of_its_life() -> None:
    """With it went in another gasket of the same published figures: another source of error, and nothing to be seen."""
    told = Life(2).part("head", "cylinder_head", chamber_volume="{all: 36 cc}").part("cam", "camshaft")
    told.part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm").part("cam-2", "camshaft")
    told.part("pistons", "pistons", dish_volume="5.0 cc")
    for gasket in ("gasket", "gasket-2"):
        told.part(gasket, "head_gasket", gasket_bore="82 mm", gasket_thickness="1.2 mm")
    fits = [f"fit: {part}" for part in ("head", "block", "crank", "pistons", "gasket", "cam")]
    told.work("2024-01-01", *fits, at="100 km").measure("2024-01-02", deck_clearance="{all: 0.3 mm below}")
    told.work("2024-02-01", "fit: cam-2", "fit: gasket-2", at="400 km")
    (block,) = history(told.book).life
    assert "The ratio did not change." in block.sentence
    assert "fell by" not in block.alt


@pytest.mark.parametrize(
    ("before", "limit", "depth", "says"),
    [
        ("0.20 mm", "1.00 mm", "0.30 mm", "joint face: 0.50 ± 0.10 mm removed, 0.50 ± 0.10 mm left to remove"),
        ("", "", "0.30 mm", "joint face: at least 0.300 ± 0.006 mm removed"),
        ("unknown", "1.00 mm", "0.30 mm",
         "joint face: at least 0.300 ± 0.006 mm removed, at most 0.700 ± 0.008 mm left to remove"),
        ("", "1.00 mm", "", "joint face: at most 1.000 ± 0.006 mm left to remove"),
        ("", "", "", ""),
    ],
)  # fmt: skip
def test_a_surface_says_what_has_come_off_and_what_is_left(before: str, limit: str, depth: str, says: str) -> None:
    said = f"removed_before: {before}\n" if before else ""
    said += f"facts:\n  - {{basis: measured, values: {{metal_limit: {limit}}}}}\n" if limit else ""
    told = twin().part("head-a", "cylinder_head", said).work("2024-01-01", "fit: head-a", at="1 h")
    if depth:
        told.work("2024-02-01", f"rework: head-a, operation: surface milled, depth: {depth}", at="2 h")
    assert lines(history(told.book), "head-a") == ([says] if says else [])


def test_pieces_that_are_off_are_named() -> None:
    told = twin().part("pistons-1", "pistons", "pieces: 3\n").part("spare", "pistons", "pieces: 1\n")
    told.part("springs", "valve_springs", "pieces: 4\n")
    told.work("2024-01-01", "fit: pistons-1, order: A / C", "fit: springs", at="1 h")
    assert lines(history(told.book), "pistons-1") == ["piece B not in the engine"]
    assert lines(history(told.book), "springs") == []  # two to a cylinder: none is over
    told.work("2024-02-01", "fit: spare, at: cylinder 2", at="2 h")
    assert lines(history(told.book), "pistons-1") == ["pieces B and C not in the engine"]
    assert lines(history(told.book), "spare") == []
    told.work("2024-03-01", "remove: pistons-1", at="3 h")
    assert lines(history(told.book), "pistons-1") == []  # all of it is on the shelf


def test_what_no_counter_counts_has_no_column() -> None:
    told = twin().part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a", at="1 h")
    page = render.history_page(history(told.work("2024-02-01", "service: oil", at="9 h").book))
    assert "hours, h</th>" in page
    assert "distance, km</th>" not in page
    assert "in all" not in page
    driven = (
        Life().part("head-a", "cylinder_head", "used_before: 500 km\n").work("2024-01-01", "fit: head-a", at="1 km")
    )
    page = render.history_page(history(driven.work("2024-02-01", "service: oil", at="90 km").book))
    assert "hours, h</th>" not in page
    assert "distance, km</th>" in page
    assert "in all 589 km" in plain(page)


# claims


def test_a_claim_stands_beside_what_the_engine_has_otherwise_volume_by_volume(example: History) -> None:
    (claim,) = example.claims
    assert claim.volumes is not None
    assert [(name, plain(value)) for name, value, _ in claim.volumes.rows] == [
        ("Deck", "+1.5"), ("Chamber", "+1.2"), ("Gasket", "+0.42"), ("Dish", "+0.30"), ("Together", "+3.4"),
    ]  # fmt: skip
    assert claim.volumes.note == (
        "The published figures give 9.24; what was found differs from them mainly in deck and chamber."
    )
    assert claim.sentence.endswith("it needs 3.2 cc less above each piston than was found.")
    assert "Found less published, cc".lower() in render.history_page(example).lower()


def test_a_claim_that_is_borne_out_has_no_such_table() -> None:
    told = twin().part("block", "block").part("crank", "crankshaft", stroke="60 mm").part("head", "cylinder_head")
    told.part("pistons", "pistons", dish_volume="5 cc").part("gasket", "head_gasket", gasket_bore="81 mm",
                                                             gasket_thickness="1.2 mm")  # fmt: skip
    told.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "head", "pistons", "gasket")), at="1 h")
    told.measure("2024-01-02", "block", bore="80.00 / 80.00 mm").measure("2024-01-02", "head",
                                                                         chamber_volume="30.0 / 30.0 cc")  # fmt: skip
    told.measure("2024-01-02", deck_clearance="0.50 / 0.50 mm below")
    told.texts["notes/2024-01-03-n.yaml"] = (
        "date: 2024-01-03\ntitle: Said\nfacts: [{basis: hearsay, values: {compression_ratio: 7.9}}]\n"
    )
    (claim,) = history(told.book).claims
    assert (claim.volumes, "agrees with the 7.90" in claim.sentence) == (None, True)


# at its own place


def test_a_wrong_figure_says_where_it_stands_that_it_was_corrected(example: History) -> None:
    marked = {each.entry: [plain(line) for line in each.corrected] for each in example.changes if each.corrected}
    assert marked == {
        "measurements/2017-04-02-assembly-sheet": [
            "Dish volume of pistons-2 (2.2 cc, all): corrected by ‘The sign was wrong: 10.8, not 9.8’ of 1 May 2017, "
            "and holds no more"
        ]
    }
    assert "corrected by ‘The sign was wrong" in render.history_page(example)
    (line,) = [plain(line) for each in example.changes for line in each.work if "2.2 cc, all" in line]
    assert line.endswith("; corrected on 1 May 2017: dish volume")


def test_a_setting_that_was_corrected_says_so_in_its_line() -> None:
    told = twin().part("cam", "camshaft").work("2024-01-01", "fit: cam", at="1 h")
    told.work("2024-01-02", "set: {inlet_lobe_centre: 106 deg, main_jet: 140}")
    told.work(
        "2024-01-03", f"correct: {{entry: {told.last}, quantity: inlet_lobe_centre, why: read from the wrong end}}"
    )
    (line,) = history(told.book).changes[1].work
    assert plain(line).endswith("; corrected on 3 January 2024: inlet lobe centre, after TDC")


def test_a_wrong_reading_of_a_test_says_it_too_and_which() -> None:
    told = twin().part("head", "cylinder_head").work("2024-01-01", "fit: head", at="1 h")
    told.texts["tests/2024-01-02-t.yaml"] = (
        "date: 2024-01-02\nkind: compression test\nvalues: {cranking_pressure: 11 / 1.1 bar gauge}\n"
    )
    told.work("2024-01-03", "correct: {entry: tests/2024-01-02-t, quantity: cranking_pressure, position: 2, why: slip}")
    (test,) = history(told.book).tests
    assert [plain(line).partition(" by ")[0] for line in test.corrected] == [
        "2 January 2024: Cranking pressure, cylinder 2 (1.1 bar gauge): corrected"
    ]
    content = history(told.book)
    (table,) = test.tables
    assert table.rows == (("2 January 2024", "", "11.0", "(1.1)", ""),)
    assert "In brackets: as first written" in table.note
    (row,) = content.corrections
    assert (plain(row.what), plain(row.was)) == ("Cranking pressure, cylinder 2", "1.1 bar gauge")
    assert content.cover.faults == ()  # 1.1 bar was a slip, and no cylinder stands out
    assert content.tests[0].sentence == ""
    assert [row.figure.value for row in content.cover.figures if row.name.startswith("Cranking")] == ["11.0"]


def test_a_reading_that_is_wrong_as_a_whole_stands_in_brackets_beside_the_right_one() -> None:
    told = twin().part("head", "cylinder_head").work("2024-01-01", "fit: head", at="1 h")
    compression(told, "2024-01-02", "1.1")
    told.work("2024-01-03", "correct: {entry: tests/2024-01-02-t, quantity: cranking_pressure, why: slip}")
    compression(told, "2024-01-04", "11.1")
    (test,) = history(told.book).tests
    assert [[plain(text) for text in row[2:]] for row in test.tables[0].rows] == [
        ["(11.00)", "(1.10)", ""],
        ["11.00", "11.10", "99 %"],
    ]


# plans


@pytest.mark.parametrize(
    ("steps", "state"),
    [
        (["fit: head-b", "rework: head-b, operation: ported"], "carried out 1 March 2024, ‘Done’"),
        (["fit: head-b"], "thought of, neither done nor withdrawn"),
        (["rework: head-b, operation: ported"], "thought of, neither done nor withdrawn"),
        (["fit: head-b", "rework: head-a, operation: ported"], "thought of, neither done nor withdrawn"),
    ],
)
def test_a_plan_says_what_became_of_it(steps: list[str], state: str) -> None:
    told = twin().part("head-a", "cylinder_head").part("head-b", "cylinder_head")
    told.work("2024-01-01", "fit: head-a", at="1 h")
    told.texts["plans/next.yaml"] = (
        "title: Next\ndate: 2024-02-01\nwork:\n  - {rework: head-b, operation: ported}\n  - {fit: head-b}\n"
    )
    told.work("2024-03-01", *steps)
    told.texts[f"{told.last}.yaml"] += "title: Done\n"
    (plan,) = history(told.book).plans
    assert plain(plan.state) == state


# tests


def compression(told: Life, day: str, worst: str, oil: str = "dry") -> None:
    told.texts[f"tests/{day}-t.yaml"] = (
        f"date: {day}\nkind: compression test\noil: {oil}\nvalues: {{cranking_pressure: 11.0 / {worst} bar gauge}}\n"
    )


def test_what_the_last_compression_test_found_stands_on_the_cover_and_no_older_one() -> None:
    told = twin().part("head", "cylinder_head").work("2024-01-01", "fit: head", at="1 h")
    compression(told, "2024-01-02", "8.0")
    assert [plain(each) for each in history(told.book).cover.faults] == [
        "Cylinder 2 has 73% of the greatest cranking pressure, 2 January 2024"
    ]
    told.__dict__.pop("book")
    compression(told, "2024-01-03", "11.0", oil="with oil")
    assert len(history(told.book).cover.faults) == 1  # oil in it seals the rings, and mends nothing
    told.__dict__.pop("book")
    compression(told, "2024-01-04", "10.9")
    assert history(told.book).cover.faults == ()


def test_the_contents_list_the_tests(example: History) -> None:
    contents = render.history_page(example).partition('<nav class="contents')[2].partition("</nav>")[0]
    listed = [test.title for test in example.tests if f'href="#{test.anchor}"' in contents]
    assert listed == [test.title for test in example.tests]
    assert "Cranking pressure, gauge-1" in contents


def test_a_slip_of_the_record_is_no_fault_of_the_engine() -> None:
    told = Life(2).part("head-a", "cylinder_head").work("2024-01-01", "fit: head-a")
    told.measure("2024-02-01", "head-a", chamber_volume="40 / 41 cc")
    assert history(told.book).cover.trust.sentence.count("slip") == 0
    told.measure("2024-02-01", "head-a", chamber_volume="40.1 / 41.1 cc")
    kept = history(told.book)
    assert kept.cover.faults == ()
    assert "The check finds 1 slip in how the record is kept" in kept.cover.trust.sentence
    assert [said for said in kept.status.findings if "of the same day touches" in said]
    assert not [said for said in kept.status.of_engine if "of the same day touches" in said]


def test_an_owner_in_inches_reads_lifts_and_curves_in_inches_and_our_words_in_his_usage() -> None:
    told = twin("show: imperial\nwords: us\nignition: spark\n").part("cam", "camshaft").part("head", "cylinder_head")
    told.work("2024-01-01", "fit: cam", "fit: head", at="0 h")
    told.texts["measurements/2024-01-02-timing.yaml"] = (
        "date: 2024-01-02\nat_lift: 0.050 in\nvalues: {inlet_closes: 55 deg after BDC}\n"
    )
    told.texts["tests/2024-01-03-run.csv"] = "engine_speed rpm,torque N m\n3000,100\n5000,120\n"
    told.texts["tests/2024-01-03-run.yaml"] = "date: 2024-01-03\nkind: dynamometer\ndata: 2024-01-03-run.csv\n"
    told.__dict__.pop("book", None)
    content = history(told.book)
    said = plain(" ".join(line for change in content.changes for line in change.work))
    assert "at 0.05 in lift" in said
    (plot,) = content.test_plots
    assert plain(plot.sentence).startswith("Greatest torque: 88.51 lbf ft at 5000 rpm")
    topics = [caution.topic for caution in content.cautions]
    assert "Gasoline" in topics
    assert "Petrol" not in topics
