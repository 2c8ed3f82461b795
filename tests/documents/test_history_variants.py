"""Other records than the example: nothing in them, twelve cylinders in two banks, American words, texts without end."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pytest
from conftest import texts_of
from lives import Life
from lxml import html as markup
from PIL import Image

from logbook.documents import document, render
from logbook.documents.content import History
from logbook.documents.history.fill import history
from logbook.documents.history.words import Words
from logbook.logbook import Logbook

LONG = "The engine that came out of the threshing machine behind the second barn and never had a proper name"
WORD = "Dampfschifffahrtselektrizitaetenhauptbetriebswerkbauunterbeamtengesellschaft" * 2


def twelve() -> Life:
    """A vee of twelve in inches, with a head milled on one bank only."""
    more = "show: imperial\nwords: us\nbanks: {1: 1-3-5-7-9-11, 2: 2-4-6-8-10-12}\nvalves_per_cylinder: 2+2\n"
    told = Life(12, "vee", more)
    told.texts["engine.yaml"] = told.texts["engine.yaml"].replace("odometer: km", "odometer: mi")
    told.part("block", "block").part("crank", "crankshaft", stroke="3.000 in").part("rods", "connecting_rods")
    told.part("pistons", "pistons", dome_volume="3.0 cc").part("left", "cylinder_head").part("right", "cylinder_head")
    for side in ("left", "right"):
        told.part(f"gasket-{side}", "head_gasket", gasket_bore="3.60 in", gasket_thickness="0.040 in")
    told.work("2020-05-01", "fit: block", "fit: crank", "fit: rods", "fit: pistons", "fit: right, at: bank 1",
              "fit: left, at: bank 2", "fit: gasket-right, at: bank 1", "fit: gasket-left, at: bank 2",
              at="41200 mi", build="as-bought")  # fmt: skip
    told.measure("2020-05-02", "block", bore=" / ".join(f"3.54{n:02}" for n in range(12)) + " in")
    told.measure("2020-05-02", deck_clearance="{all: 0.015 in below}")
    for side, volume in (("left", 54), ("right", 55)):
        told.measure("2020-05-03", side, chamber_volume=" / ".join([f"{volume}.{n}" for n in range(6)]) + " cc")
    told.work("2021-05-02", "rework: left, operation: surface milled, depth: 0.020 in", at="44100 mi")
    told.measure("2021-05-03", "left", chamber_volume="51.0 / 51.1 / 51.2 / 51.3 / 51.4 / 51.5 cc")
    told.texts["tests/2021-05-04-t.yaml"] = (
        "date: 2021-05-04\nreading: 44100 mi\nkind: compression test\noil: dry\n"
        f"values: {{cranking_pressure: {' / '.join(['180'] * 11)} / 150 psi gauge}}\n"
    )
    return told


def endless() -> Logbook:
    """Every field as long as somebody may make it, a note with pictures, and a run of eighty readings."""
    told = Life(2, "flat", f'engine_number: "{WORD}"\nnumbering: "{LONG} {WORD}"\nnote: "{LONG} {WORD}"\n')
    told.texts["engine.yaml"] = told.texts["engine.yaml"].replace("name: Quarry engine", f'name: "{LONG}"')
    told.part("block", "block", f'part_number: "{WORD}"\nused_before: "{LONG}"\n', bore="80 mm")
    told.part("crank", "crankshaft", stroke="79 mm").part("rods", "connecting_rods", rod_length="130 mm")
    steps = [f'service: "{LONG}", note: "{LONG} {number}"' for number in range(12)]
    told.work("2020-01-01", "fit: block", "fit: crank", "fit: rods", *steps, at="3 h", build=WORD[:40])
    pictures = "![A deck](files/deck.jpg) ![A drawing](files/b.svg) ![Elsewhere](https://example.invalid/c.jpg)"
    told.texts["notes/2020-01-02-n.yaml"] = (
        f'date: 2020-01-02\ntitle: "{LONG} {WORD}"\nopen: yes\nnote: |\n  {LONG} {WORD}\n\n  {pictures}\n\n'
        f"  | {WORD} | b |\n  |---|---|\n  | {LONG} | 2 |\n"
    )
    for day in range(3, 9):
        told.texts[f"notes/2020-01-{day:02}-n.yaml"] = f'date: 2020-01-{day:02}\ntitle: "{LONG} {day}"\nopen: yes\n'
    told.texts["tests/2020-03-01-t.yaml"] = (
        f'date: 2020-03-01\nkind: road\ndata: t.csv\nconditions: {{"{LONG}": "{WORD}"}}\n'
        f'observed: {{"{WORD}": "{LONG}"}}\n'
    )
    texts = {file: text.encode() for file, text in told.texts.items()}
    rows = "".join(f"{1000 + 50 * n},{80 + n % 30}.5,0.9{n % 10}\n" for n in range(80))
    texts["tests/t.csv"] = f"engine_speed rpm,torque N m,lambda\n{rows}".encode()
    out = BytesIO()
    Image.linear_gradient("L").resize((900, 500)).save(out, "JPEG")
    texts |= {"files/deck.jpg": out.getvalue(), "files/b.svg": b'<svg xmlns="http://www.w3.org/2000/svg"/>'}
    return Logbook.of_texts(texts)


def page(content: History) -> markup.HtmlElement:
    return markup.fromstring(render.history_page(content))


def words(content: History) -> str:
    return " ".join(page(content).text_content().split())


def test_a_logbook_with_nothing_in_it_has_its_document() -> None:
    content = history(Life(1, "single").book)
    said = words(content)
    assert "Single cylinder, spark ignition" in said
    assert "no entries yet" in said
    assert "Nothing can be worked out yet" in said
    assert (content.date, content.changes, content.parts, content.tests, content.life) == ("", (), (), (), ())
    assert "dcterms" not in render.history_page(content)


def test_a_logbook_with_no_entry_but_a_plan_tells_the_plan() -> None:
    life = Life(1, "single").part("block-1", "block").part("pistons-1", "pistons")
    life.texts["plans/next.yaml"] = (
        "title: A larger bore\ndate: 2024-03-02\nwork:\n  - {rework: block-1, operation: bored}\n  - fit: pistons-1\n"
    )
    said = words(history(life.book))
    assert "A larger bore" in said
    assert "rework" in said
    assert "fit pistons-1" in said


def test_a_life_is_drawn_once_the_counter_has_run() -> None:
    told = Life().part("block", "block", bore="80 mm").part("head", "cylinder_head", chamber_volume="40 cc")
    told.part("crank", "crankshaft", stroke="79 mm").part("gasket", "head_gasket", gasket_volume="5 cc")
    told.part("pistons", "pistons", dish_volume="5 cc")
    told.work("2020-05-01", *(f"fit: {name}" for name in ("block", "crank", "pistons", "head", "gasket")), at="10 km")
    told.measure("2020-05-02", deck_clearance="{all: 0.5 mm below}")
    assert told.book.at("now").specs["mean_compression_ratio"].known
    assert history(told.book).life == ()
    told.work("2020-05-03", "service: oil", at="11 km")
    assert len(history(told.book).life) == 1


def test_twelve_cylinders_stand_in_two_runs_of_six() -> None:
    content = history(twelve().book)
    cells = page(content).xpath("//table[contains(@class,'cylinders')]//th[@scope='col']")
    heads = [cell.text_content() for cell in cells]
    assert heads[:8] == ["cylinder", "1", "2", "3", "4", "5", "6", "cylinder"]
    assert [[column.head for column in table.columns][2:] for table in content.tests[0].tables] == [
        ["1", "2", "3", "4", "5", "6"], ["7", "8", "9", "10", "11", "12", "least of greatest"],
    ]  # fmt: skip
    chambers = next(row for row in content.cylinders[0].rows if row.name == "Chamber volume")
    assert chambers.values[0::2] != chambers.values[1::2]  # odd cylinders on the right bank, even on the left
    assert ("Banks", "1: 1-3-5-7-9-11; 2: 2-4-6-8-10-12") in content.engine.lines


def test_american_words_and_inches() -> None:
    content = history(twelve().book)
    assert content.cover.description.startswith("Vee twelve, 354\N{NO-BREAK SPACE}cu in, four valves a cylinder")
    assert content.distance_unit == "mi"
    names = [row.name for group in content.groups for row in group.rows]
    assert "Displacement" in names
    assert "Quench clearance, mean" in names or "Quench clearance" in names
    stroke = next(row for group in content.groups for row in group.rows if row.name == "Stroke")
    assert (stroke.figure.value, stroke.figure.unit) == ("3.000", "in")
    assert "distance, mi" in words(content)
    parts = {row.id: row for row in content.parts}
    assert (parts["left"].state, parts["left"].distance) == ("fitted, bank 2", "2\N{NARROW NO-BREAK SPACE}900")


def test_a_checking_lift_is_told_in_the_owners_unit() -> None:
    inches, metric = (Words(Life(more=more).book.record.engine) for more in ("show: imperial\n", ""))
    said = {"at_lift": "1.27 mm", "oil": "dry"}
    assert inches.conditions(said).replace("\N{NO-BREAK SPACE}", " ") == "at 0.05 in lift, dry"
    assert metric.conditions(said).replace("\N{NO-BREAK SPACE}", " ") == "at 1.27 mm lift, dry"


def test_a_column_that_nobody_needs_is_left_out() -> None:
    assert "hours, h" not in words(history(twelve().book))


def test_a_note_shows_the_records_own_pictures_and_no_others() -> None:
    content = history(endless())
    note = next(change.note for change in content.changes if "asset:" in change.note)
    assert note.count("<img") == 3
    assert 'src="asset:files/deck.jpg"' in note
    assert "example.invalid" not in note
    assert sorted(path for path in content.assets if path.startswith("asset:files/")) == [
        "asset:files/b.svg", "asset:files/deck.jpg"
    ]  # fmt: skip


def test_a_long_run_says_where_its_readings_are() -> None:
    content = history(endless())
    told = [table.note for test in content.tests for table in test.tables]
    assert [note for note in told if note.startswith("80 readings")] == ["80 readings in tests/t.csv."], told
    assert [plot.title for plot in content.test_plots] == ["Torque over engine speed", "Lambda over engine speed"]
    assert "0.92" in content.test_plots[1].svg.decode()  # the axis tells its numbers apart


@pytest.mark.slow
def test_texts_without_end_stay_on_their_pages() -> None:
    """The cover stays one page, and every letter of a word without a break is still there."""
    printed = document.history_pdf(history(endless()))
    pages = texts_of(printed.data)
    assert printed.warnings == ()
    assert "How far to trust it" in pages[0]
    assert pages[1].find("Contents") >= 0
    assert WORD in "".join("".join(pages).split())


@pytest.mark.slow
def test_a_record_with_nothing_in_it_prints_on_letter_paper_without_a_warning() -> None:
    printed = document.history_pdf(history(Life(1, "single").book), paper="letter")
    assert printed.warnings == ()
    assert "Contents" in texts_of(printed.data)[1]


@pytest.mark.parametrize(
    ("faults", "trust", "paper", "least", "most"),
    [
        (0, 10, "A4", 90, 100),
        (2, 150, "A4", 60, 100),
        (4, 400, "A4", 28, 90),
        (4, 1500, "A4", 0, 0),
        (4, 300, "letter", 0, 80),
    ],
)
def test_the_picture_gives_way_to_words(
    example: History, faults: int, trust: int, paper: str, least: int, most: int
) -> None:
    said = replace(example.cover.trust, sentence="w" * trust)
    cover = replace(example.cover, faults=("a fault of some length, and where it is",) * faults, trust=said)
    assert least <= render.room_for_picture(replace(example, cover=cover), paper) <= most
