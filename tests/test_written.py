"""When entries were written down, what was amended since, and the record as it stood at a revision."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from keyboard import at_home, typed

from logbook.beginning import Answers, begin
from logbook.errors import PointUnknown
from logbook.logbook import Logbook
from logbook.saving import save

PARTS = {f"parts/{name}.yaml": f"kind: {kind}\nwhat: a\n" for name, kind in (
    ("block-1", "block"), ("crank-1", "crankshaft"))}  # fmt: skip
WORK = "date: 2024-01-01\nwork:\n  - {fit: block-1, found: yes}\n  - {fit: crank-1, found: yes}\n"
BORE = "date: 2024-02-01\npart: block-1\nvalues: {bore: {all: 80.00 ± 0.01 mm}}\n"
STROKE = "date: 2024-02-02\npart: crank-1\nvalues: {stroke: 79.00 ± 0.01 mm}\n"


@pytest.fixture(scope="module", autouse=True)
def _home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        at_home(patch, tmp_path_factory.mktemp("home"))
        yield


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An engine of two parts, measured in February 2024 and written down at once; one bore amended in May. To read."""
    engine = tmp_path_factory.mktemp("written") / "engine"
    begin(engine, Answers("Quarry four", None, "4", "inline", "km"))
    first = {**PARTS, "changes/2024-01-01-as-bought.yaml": WORK, "measurements/2024-02-01-bore.yaml": BORE}
    _save(engine, first, "2024-02-03")
    _save(engine, {"measurements/2024-02-02-stroke.yaml": STROKE}, "2024-05-01")
    (engine / "measurements/2024-02-01-bore.yaml").write_text(BORE.replace("80.00", "80.50"), encoding="utf-8")
    save(engine, date=datetime(2024, 5, 2, tzinfo=UTC))
    return engine


def _save(engine: Path, texts: dict[str, str], day: str) -> None:
    new = {path: text.encode() for path, text in texts.items()}
    save(engine, new=new, date=datetime.fromisoformat(f"{day}T12:00:00+00:00"))


def test_an_entry_says_how_long_after_its_day_it_was_written(folder: Path) -> None:
    written = Logbook.open(folder).written
    assert written["measurements/2024-02-01-bore.yaml"].days_after == 2
    assert not written["measurements/2024-02-01-bore.yaml"].late
    assert written["measurements/2024-02-02-stroke.yaml"].days_after == 89
    assert written["measurements/2024-02-02-stroke.yaml"].late


def test_an_amended_entry_shows_the_lines_that_differ(folder: Path) -> None:
    (amendment,) = Logbook.open(folder).written["measurements/2024-02-01-bore.yaml"].amended
    assert amendment.when.date().isoformat() == "2024-05-02"
    assert amendment.lines == (
        "-values: {bore: {all: 80.00 ± 0.01 mm}}",
        "+values: {bore: {all: 80.50 ± 0.01 mm}}",
    )
    assert Logbook.open(folder).written["measurements/2024-02-02-stroke.yaml"].amended == ()


def test_a_revision_is_the_record_as_it_stood(folder: Path) -> None:
    book = Logbook.open(folder)
    before = book.at("rev:HEAD~1").specs["displacement"].known[0]
    assert before.nominal == pytest.approx(4 * 3.14159265 / 4 * 0.080**2 * 0.079)
    assert book.at("rev:HEAD~2").specs["displacement"].known == ()
    assert (folder / "measurements/2024-02-02-stroke.yaml").exists()


def test_a_figure_rewritten_between_revisions_is_amended_not_a_real_change(folder: Path) -> None:
    comparison = Logbook.open(folder).compare("rev:HEAD~1", "now")
    assert comparison.specs["displacement"].verdicts == ("amended",)


def test_no_such_revision_is_one_sentence(folder: Path) -> None:
    with pytest.raises(PointUnknown, match="no revision 'gone'"):
        Logbook.open(folder).at("rev:gone")


def test_a_folder_without_git_has_nothing_written_down(tmp_path: Path) -> None:
    (tmp_path / "engine.yaml").write_text("format: 1\nname: a\ncylinders: 1\narrangement: single\n")
    assert Logbook.open(tmp_path).written == {}


def _told(folder: Path) -> list[str]:
    ran = typed("timeline", "--in", str(folder))
    return [line.strip() for line in ran.out.splitlines() if "written down" in line or line.endswith("own.")]


def test_a_single_late_entry_says_so_in_its_own_line(folder: Path) -> None:
    assert _told(folder) == [
        "written down 33 days later, on 2024-02-03",
        "written down 89 days later, on 2024-05-01",
    ]


def test_a_book_copied_at_one_go_says_it_once_for_all(folder: Path, tmp_path: Path) -> None:
    """Two more written down on one day: that day is said once, at the end; the other days keep their lines."""
    notes = {f"notes/2019-0{month}-01-n.yaml": f"date: 2019-0{month}-01\ntitle: Old\n" for month in (2, 5)}
    own = Path(shutil.copytree(folder, tmp_path / "engine"))
    _save(own, notes, "2024-06-01")
    assert _told(own) == [
        "written down 33 days later, on 2024-02-03",
        "written down 89 days later, on 2024-05-01",
        "2 entries, of 2019-02-01 to 2019-05-01, were written down on 2024-06-01, over 31",
        "days after their own.",
    ]
