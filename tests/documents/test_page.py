"""The page itself, before it is printed: what it says, how it is marked up, and what may not get in."""

from __future__ import annotations

import re
from dataclasses import replace

import bracken
import pytest
import weasyprint
from jinja2 import UndefinedError
from lxml import html as markup

from logbook.documents import document, render, single_page
from logbook.documents.pieces import Figure, SafeHtml
from logbook.documents.typeface import FACES, font_path
from logbook.store.shipped import TEMPLATES, shipped_folder

WHITE, BLACK = 1.0, 0.0


@pytest.fixture(scope="module")
def page() -> str:
    return render.history_page(bracken.history())


@pytest.fixture(scope="module")
def tree(page: str) -> markup.HtmlElement:
    return markup.fromstring(page)


def test_every_table_says_what_its_rows_and_columns_are(tree: markup.HtmlElement) -> None:
    heads = [cell for cell in tree.iter("th") if cell.text_content().strip()]
    assert all(cell.get("scope") in ("row", "col", "colgroup") for cell in heads)
    assert all(row.xpath("./th") for row in tree.xpath("//tbody/tr"))


def test_every_picture_says_what_it_shows(tree: markup.HtmlElement) -> None:
    assert all(picture.get("alt") for picture in tree.iter("img"))


def test_contents_point_at_what_is_there(tree: markup.HtmlElement) -> None:
    targets = [link.get("href")[1:] for link in tree.xpath("//nav//a")]
    assert len(targets) > 15
    assert set(targets) <= set(tree.xpath("//@id"))


def test_no_id_is_given_twice(tree: markup.HtmlElement) -> None:
    ids = tree.xpath("//@id")
    assert len(ids) == len(set(ids))


def test_the_page_asks_for_nothing_outside(page: str) -> None:
    assert not re.findall(r'(?:src|href)="(?!#|asset:)[^"]*"', page)
    assert set(re.findall(r'url\("([^"]*)"\)', page)) == {face.address for face in FACES}


def test_the_first_page_answers_the_buyer(tree: markup.HtmlElement) -> None:
    cover = tree.xpath("//header")[0].text_content()
    for wanted in ("Bracken special", "BR-0731", "7\N{NO-BREAK SPACE}March 2020", "10.84", "Valve springs", "measured"):
        assert wanted in cover


def test_a_changes_effect_is_told_before_and_after_with_its_verdict(tree: markup.HtmlElement) -> None:
    rows = [" ".join(row.text_content().split()) for row in tree.xpath("//article[.//h3[@id='c10']]//tbody/tr")]
    assert "Compression ratio, mean 11.11± 0.12→ 10.84± 0.11 −0.271± 0.039 real" in rows


def test_a_name_with_marks_of_html_is_only_a_name() -> None:
    history = bracken.history()
    hostile = replace(history, engine=replace(history.engine, name='<script>"x"</script>'))
    page = render.history_page(hostile)
    assert "<script" not in page
    assert 'data-engine="&lt;script&gt;&#34;x&#34;' in page


def test_a_missing_piece_of_content_is_an_error_and_not_a_gap() -> None:
    with pytest.raises(UndefinedError, match="no attribute 'what'"):
        render.history_page(replace(bracken.history(), claims=(Figure("9.2"),)))  # type: ignore[arg-type]


def test_a_record_with_next_to_nothing_in_it_has_its_page_too() -> None:
    history = bracken.history()
    bare = replace(
        history, groups=(), settings=(), cylinders=(), parts=(), life=(), changes=(), tests=(), test_plots=(),
        claims=(), stale=(), plans=(), corrections=(), instruments=(),
        cover=replace(history.cover, picture=None, faults=(), overdue=()),
    )  # fmt: skip
    assert "None recorded." in render.history_page(bare)


@pytest.mark.parametrize(("count", "runs"), [(1, [1]), (6, [6]), (8, [4, 4]), (12, [6, 6]), (16, [6, 6, 4])])
def test_many_cylinders_stand_in_runs_that_fit_the_page(count: int, runs: list[int]) -> None:
    found = render.batches(count, 6)
    assert [len(run) for run in found] == runs
    assert [index for run in found for index in run] == list(range(count))


def test_paper_is_one_of_two() -> None:
    assert "size: letter" in render.history_page(bracken.history(), paper="letter")
    with pytest.raises(ValueError, match="A4"):
        render.history_page(bracken.history(), paper="A4 } body { display: none")


def test_colours_can_be_read_on_white_and_told_from_black() -> None:
    """Contrast as WCAG 2.2 defines it (1.4.3): 4.5 to 1 for text; the accent 3 to 1 against black beside it."""
    sheet = (shipped_folder(TEMPLATES) / "page.css").read_text()
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", sheet))
    assert all(_contrast(_luminance(colours[name]), WHITE) >= 4.5 for name in ("ink", "grey", "accent"))
    assert _contrast(_luminance(colours["accent"]), BLACK) >= 3.0


def _luminance(colour: str) -> float:
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: float, other: float) -> float:
    low, high = sorted((one, other))
    return (high + 0.05) / (low + 0.05)


def test_five_sizes_and_two_rules_are_enough() -> None:
    sheet = (shipped_folder(TEMPLATES) / "page.css").read_text()
    assert len(set(re.findall(r"--\w+: ([\d.]+pt);", sheet))) == 5
    assert set(re.findall(r"border-(?:top|bottom): ([^;} ]+)", sheet)) == {"var(--heavy)", "var(--fine)"}


def test_the_typeface_is_shipped_with_its_licence() -> None:
    assert all(font_path(face).stat().st_size > 200_000 for face in FACES)
    assert "SIL OPEN FONT LICENSE Version 1.1" in (shipped_folder(TEMPLATES) / "fonts" / "OFL.txt").read_text()


@pytest.mark.slow
def test_the_single_file_carries_everything_with_it() -> None:
    html = document.history_html(bracken.history())
    assert not re.search(r'(?:src=|url\()"asset:', html)
    assert html.count("data:font/woff2;base64,") == 4
    assert len(html) < 400_000


@pytest.mark.slow
def test_a_face_is_cut_down_to_the_same_bytes_each_time() -> None:
    face = font_path(FACES[0]).read_bytes()
    assert single_page.cut_down(face, "0.9 ± km") == single_page.cut_down(face, "0.9 ± km")


@pytest.mark.slow
def test_on_a_screen_no_heading_of_the_contents_is_set_in_further_than_its_entries() -> None:
    """The column in which paper has the page numbers is not kept free where there are none."""
    history = bracken.history()
    page = render.history_page(replace(history, changes=history.changes * 4), self_contained=True)
    contents = page[page.index('<nav class="contents') : page.index("</nav>")]
    headings = re.findall(r'<li><a href="#([^"]+)"', contents)
    contents = re.sub('<li>(?=<span class="when")', '<li id="an-entry">', contents)
    places = "".join(f'<p id="{anchor}">.' for anchor in headings)
    alone = f"{page[: page.index('<body')]}<body>{contents}</nav>{places}"
    alone = alone.replace("@page { size: A4 }", "@page { size: 1280px 9000px; margin: 0 }")
    (laid_out,) = weasyprint.HTML(string=alone, media_type="screen").render().pages
    begins = [link[2][0] for link in laid_out.links]
    assert len(begins) == len(headings) > 6
    assert max(begins) <= laid_out.anchors["an-entry"][0]


def test_a_long_table_of_effects_goes_on_over_the_page_and_a_short_one_stays(tree: markup.HtmlElement) -> None:
    """Kept whole, five rows and more would leave a third of the page before them empty."""
    tables = tree.xpath("//table[starts-with(@class, 'effect')]")
    rows = [len(table.xpath("tbody/tr")) for table in tables]
    assert min(rows) <= 4 < max(rows)
    for table, many in zip(tables, rows, strict=True):
        kept = "first-half" in [each.get("class") for each in table.iterancestors()]
        assert kept == (many <= 4)
        assert ("may-go-on" in table.get("class")) == (many > 4)
        title = table.xpath("ancestor::article//h3")[0].text
        assert table.find("tbody").get("data-continued") == (f"{title}, continued" if many > 4 else None)


def test_many_words_below_a_test_may_break_and_few_stand_beside_its_conditions() -> None:
    history = bracken.history()
    for sentence, kept in (("A word.", True), ("Many words. " * 60, False)):
        tests = (replace(history.tests[0], sentence=sentence, note=SafeHtml("")),)
        page = markup.fromstring(render.history_page(replace(history, tests=tests)))
        (said,) = page.xpath("//article[contains(@class, 'test')]//p[@class='seen']")
        assert ("first-half" in [each.get("class") for each in said.iterancestors()]) == kept
