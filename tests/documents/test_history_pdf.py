"""The example's history on paper: its leading figures, its furniture, its number, and one cubic centimetre more."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from io import BytesIO
from math import pi
from pathlib import Path

import pytest
import yaml
from conftest import texts_of
from keyboard import typed
from lives import EXAMPLE
from pypdf import PdfReader

from logbook.documents.content import History
from logbook.documents.history.standing import RECIPE
from logbook.logbook import Logbook

pytestmark = pytest.mark.slow


def test_the_command_says_where_it_is_and_how_long(report: Path, pages: list[str]) -> None:
    assert (report.parent / "said.txt").read_text() == f"{report}  ({len(pages)} pages)\n"
    assert len(pages) > 20


def test_the_first_page_answers_a_buyer(pages: list[str], example: History) -> None:
    counted = [f"{count} {basis}" for count, basis in example.cover.trust.counts]
    wanted = ("Bracken special", "BR-0731", "41.6 h on the hour meter", "112640 km of true distance", "7 March 2020",
              "In-line four, 1.6 litres, overhead camshaft", "1599.13 ± 0.46 cc", "10.843 ± 0.075", "0.950 ± 0.054 mm",
              "8.676 ± 0.075", "13.6 ± 0.3 bar gauge", "9 ± 2 %", "Valve springs over their 30 hours",
              "springs-2: 41.6 h of 30 h, 11.6 h over", *counted,
              "A demonstration: engine, figures and people are invented")  # fmt: skip
    assert [each for each in wanted if each not in pages[0]] == []


def test_what_each_head_did_stands_with_its_verdict(pages: list[str]) -> None:
    text = " ".join(pages)
    assert "11.111 ± 0.079 → 10.843 ± 0.075 −0.268 ± 0.035 real" in text
    assert "10.792 ± 0.052 → 11.111 ± 0.079 +0.320 ± 0.086 real if the published figures hold" in text


def test_a_wrong_entry_is_marked_where_it_stands(pages: list[str]) -> None:
    assert any("corrected on 1 May 2017: dish volume" in text and "dish volume 2.2 cc, all" in text for text in pages)


def test_every_page_says_what_it_belongs_to(pages: list[str]) -> None:
    number = Logbook.open(EXAMPLE).fingerprint[:12]
    for index, text in enumerate(pages, 1):
        assert f"Demonstration, all invented · 41.6 h, 7 March 2020 · record {number}" in text
        assert f"{index} of {len(pages)}" in text
        assert index == 1 or ("Bracken special BR-0731" in text and "History, build third-head" in text)


def test_bookmarks_name_the_parts_and_every_entry(report: Path, example: History) -> None:
    titles = [" ".join(title.split()) for title in _titles(PdfReader(BytesIO(report.read_bytes())).outline)]
    assert titles[:3] == ["Bracken special", "Contents", "How the figures are to be read"]
    assert [each.title for each in example.changes if each.title not in titles] == []
    assert [each.title for each in example.tests if each.title not in titles] == []


def _titles(outline: list[object]) -> list[str]:
    return [title for item in outline for title in (_titles(item) if isinstance(item, list) else [str(item.title)])]  # type: ignore[attr-defined]


def test_it_is_dated_by_the_last_entry_and_by_no_clock(report: Path) -> None:
    data = PdfReader(BytesIO(report.read_bytes())).metadata
    assert data is not None
    assert str(data["/CreationDate"]).startswith("D:20200307")
    assert str(data["/ModDate"]).startswith("D:20200307")


def test_the_printed_number_is_what_the_printed_recipe_finds(demo: Path, pages: list[str]) -> None:
    """The recipe runs in a shell, in a folder with git and specs.yaml beside the record."""
    assert (demo / ".git").is_dir()
    assert (demo / "specs.yaml").is_file()
    found = subprocess.run(["sh", "-c", RECIPE], cwd=demo, capture_output=True, text=True, check=True).stdout.split()[0]
    last = " ".join(pages[-2:])
    assert found in last
    assert " ".join(RECIPE.split()) in last


def test_one_cubic_centimetre_goes_all_the_way(demo: Path, tmp_path: Path) -> None:
    """Cylinder 4's chamber, measured anew with 1.0 cc more: specs, timeline, JSON, specs.yaml and the PDF's text."""
    folder = Path(shutil.copytree(demo, tmp_path / "demonstration"))
    more = "37.8 / 37.7 / 37.9 / 38.8 cc"
    assert typed("measure", "head-c", "chamber_volume", more, "--with", "burette-50", "--date", "2020-03-08",
                 "--reading", "41.6 h", "--note", "Once more", at=folder).status == 0  # fmt: skip
    bores, volumes = (80.268, 80.270, 80.272, 80.270), map(_above, (37.8, 37.7, 37.9, 38.8))
    mean = sum(1 + pi / 4 * bore**2 * 79 / (1000 * each) for bore, each in zip(bores, volumes, strict=True)) / 4
    assert f"{mean:.3f}" == "10.784"  # it was 10.843

    assert "10.784" in typed("specs", at=folder).out
    assert "10.784" in typed("timeline", at=folder).out
    said = json.loads(typed("specs", "--json", at=folder).out)["specs"]["mean_compression_ratio"]["values"]
    assert said == [pytest.approx(mean, abs=2e-4)]
    entries = json.loads(typed("timeline", "--json", at=folder).out)["entries"]
    assert entries[-1]["effect"]["mean_compression_ratio"]["to"] == [pytest.approx(mean, abs=2e-4)]
    written = yaml.safe_load((folder / "specs.yaml").read_text())["specs"]["mean_compression_ratio"]
    assert float(written["value"]) == pytest.approx(mean, abs=6e-4)
    out, printed = tmp_path / "after.pdf", tmp_path / "without its tests, which it does not touch"
    shutil.copytree(folder, printed, ignore=shutil.ignore_patterns("tests"))
    assert typed("report", "--in", str(printed), "--out", str(out)).status == 0
    pages = texts_of(out.read_bytes())
    assert "10.784 ± 0.0" in pages[0]
    assert re.search(r"10\.843 ± 0\.075 → 10\.784 ± 0\.0\d\d −0\.059", " ".join(pages))


def _above(chamber: float) -> float:
    """cc above a piston of the example: chamber, raised crown 2.2, gasket 52.9 cm2 by 0.90 mm, deck 0.05 mm."""
    return chamber - 2.2 + 52.9 * 0.090 + pi / 4 * 8.027**2 * 0.005
