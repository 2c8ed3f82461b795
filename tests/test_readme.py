"""The README is true: its commands run as written, its files read, its keys and commands are all there are."""

from __future__ import annotations

import json
import re
import shlex
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from keyboard import at_home, typed

from logbook.cli.main import COMMANDS
from logbook.logbook import Logbook
from logbook.quantity.catalogue import PART_KINDS, catalogue, quantity
from logbook.quantity.value import parse_line
from logbook.record import entries, models
from logbook.record.strict import Strict
from logbook.specs.metal import LEFT, REMOVED

README = (Path(__file__).parents[1] / "README.md").read_text()
BLOCK = re.compile(r"^( *)```(\w*)\n(.*?)^\1```$", re.DOTALL | re.MULTILINE)


def blocks(text: str, language: str) -> list[str]:
    """The fenced blocks of one language, without the indentation of the list that they stand in."""
    return ["".join(line.removeprefix(indent) for line in body.splitlines(keepends=True))
            for indent, tongue, body in BLOCK.findall(text) if tongue == language]  # fmt: skip


def section(title: str) -> str:
    """What stands under a heading, up to the next of its rank or above."""
    level = re.search(rf"^(#+) {title}$", README, re.MULTILINE)
    assert level, title
    return re.split(rf"^#{{1,{len(level[1])}}} ", README[level.end() :], maxsplit=1, flags=re.MULTILINE)[0]


def run(line: str, at: Path) -> Path:
    """One command line of the README; the folder that the next one stands in."""
    words = shlex.split(line, comments=True)
    if words[0] == "cd":
        return at / words[1]
    ran = typed(*words[1:], at=at)
    assert (words[0], ran.status) == ("logbook", 0), f"{line}\n{ran.err}{ran.out}"
    return at


def command_lines(block: str) -> list[str]:
    return [line for line in block.replace("\\\n", " ").splitlines() if line.strip()]


@pytest.fixture(autouse=True)
def _home(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    at_home(monkeypatch, tmp_path_factory.mktemp("home"))


@pytest.fixture(scope="module")
def tour(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that the five-minute tour leaves, every command run as it is written."""
    text = section("Five minutes with an engine of your own")
    place = tmp_path_factory.mktemp("tour")
    with pytest.MonkeyPatch.context() as patch:
        at_home(patch, tmp_path_factory.mktemp("home"))
        for number, block in enumerate(blocks(text, "")):
            for line in command_lines(block):
                place = run(line, place)
            if number == 0:
                describe_parts(place, text)
    return place


def describe_parts(folder: Path, text: str) -> None:
    """Step 2 by hand: the two files that are shown, and one for each part that is named."""
    for file, kind in re.findall(r"`(?:parts/)?([\w-]+\.yaml)` \(`(?:kind: )?(\w+)`\)", text):
        (folder / "parts" / file).write_text(f"kind: {kind}\nwhat: as found\n")
    for file, block in zip(("head-a.yaml", "gasket-1.yaml"), blocks(text, "yaml"), strict=True):
        (folder / "parts" / file).write_text(block)


def test_the_tour_gives_a_compression_ratio(tour: Path) -> None:
    book = Logbook.open(tour)
    ratios = [value.nominal for value in book.at("as-bought").specs["compression_ratio"].known]
    # 397.3 / (36.2 + 6.18 + 3.02 + 5.8) + 1 and so on; cylinder 3 as the mean of the chambers that were taken, 36.1
    assert ratios == pytest.approx([8.760, 8.807, 8.769, 8.775], abs=0.005)
    assert book.findings == ()
    assert len(book.record.entries) == 6


def test_the_tour_leaves_its_report_beside_the_folder(tour: Path) -> None:
    assert [each.suffix for each in tour.parent.iterdir() if each != tour] in ([".pdf"], [".html"])


def test_python_opens_what_the_tour_has_made(tour: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (block,) = blocks(README, "python")
    monkeypatch.chdir(tour.parent)
    known: dict[str, object] = {}
    exec(block, known)
    assert isinstance(known["book"], Logbook)


def test_the_first_two_shell_blocks_are_the_only_ones() -> None:
    demo, tests = blocks(README, "sh")
    assert "logbook demo" in demo
    assert "logbook report history" in demo
    assert "pytest" in tests
    assert [tongue for _, tongue, _ in BLOCK.findall(README) if tongue][:2] == ["sh", "sh"]


def test_every_command_is_in_the_table() -> None:
    told = re.findall(r"^\| `logbook (\w+)", section("Commands"), re.MULTILINE)
    assert told == list(COMMANDS)


def test_every_option_in_the_table_is_one(demo: Path) -> None:
    for name, row in re.findall(r"^\| `logbook (\w+)(.*)\|$", section("Commands"), re.MULTILINE):
        for option in re.findall(r"--[a-z-]+", row):
            assert option in typed(name, "-h").out, f"{name} {option}"


def examples() -> Iterator[tuple[str, str]]:
    """Every example that the help of a command shows."""
    for name in COMMANDS:
        text = typed(name, "-h").out.partition("Example:")[2].partition("Options:")[0]
        for line in re.sub(r"\n\s++(?!logbook )", " ", text).strip().splitlines():
            yield name, line.strip()


@pytest.mark.parametrize(("name", "line"), list(examples()))
def test_the_examples_of_the_help_run_on_the_demonstration(demo: Path, tmp_path: Path, name: str, line: str) -> None:
    if line in ("logbook demo my-demo", "logbook report history --in my-demo"):
        return  # which is how the demonstration was made, and how tests/documents prints it
    copy = Path(shutil.copytree(demo, tmp_path / "my-demo"))
    ran = typed(*shlex.split(line)[1:], at=tmp_path if name == "new" or "--in my-demo" in line else copy)
    assert ran.status == (1 if name == "check" else 0), ran.err  # it shows what it is meant to show
    assert ran.out


def test_what_it_looks_like_is_what_it_looks_like(demo: Path) -> None:
    (shown,) = blocks(section("What it looks like"), "")
    first, *lines = shown.splitlines()
    printed = typed(*first.removeprefix("$ logbook ").split(), at=demo).out.splitlines()
    assert [line for line in lines if line.strip() not in ("…", "") and line not in printed] == []


@pytest.mark.parametrize("block", blocks(README, "yaml"))
def test_every_file_that_is_shown_reads_without_a_finding(tmp_path: Path, block: str) -> None:
    typed("new", "engine", "--name", "E", "--cylinders", "4", "--arrangement", "inline", "--counter", "km", at=tmp_path)
    folder = tmp_path / "engine"
    engine = (folder / "engine.yaml").read_text()
    (folder / "engine.yaml").write_text(engine.replace("  odometer: km\n", "  odometer: km\n  hour meter: h\n"))
    for part, kind in {"block-1": "block", "head-b": "cylinder_head", "gasket-2": "head_gasket"}.items():
        (folder / f"parts/{part}.yaml").write_text(f"kind: {kind}\nwhat: a part\n")
    (folder / "changes/2024-01-01-bought.yaml").write_text("date: 2024-01-01\nwork:\n  - {fit: block-1, found: yes}\n")
    (folder / f"{place_of(block)}.yaml").write_text(block)
    assert Logbook.open(folder).findings == ()


def place_of(block: str) -> str:
    """Where a file that is shown belongs, told by what it says."""
    marks = {"from: now": "plans/x", "conditions:": "tests/x", "work:": "changes/x", "kind:": "parts/shown"}
    return next((place for mark, place in marks.items() if mark in block), "measurements/x")


def keys() -> set[str]:
    """Every key that any file may hold."""
    kinds = {kind for module in (models, entries) for kind in vars(module).values()
             if isinstance(kind, type) and issubclass(kind, Strict)}  # fmt: skip
    return {key for kind in kinds for key in kind.keys}


def test_every_key_of_every_file_is_told() -> None:
    told = set(re.findall(r"\w+", " ".join(re.findall(r"`([^`\n]+)`", section("The folder")))))
    assert keys() - told == set()


def test_every_step_has_a_row_of_its_own() -> None:
    rows = re.findall(r"^\| (`.*?) \|", section("Every key").partition("| step |")[2], re.MULTILINE)
    assert {name for row in rows for name in re.findall(r"`(\w+)[:`]", row)} >= set(entries.STEPS)


#: The figures of the table, each with a quantity that may be written so.
WRITTEN = {
    "38.1 cc": "gasket_volume",
    "38.1 / 38.3 / x / 38.2 cc": "chamber_volume",
    "34.0, 34.1 / 34.0, 34.0 mm": "inlet_valve_diameter",
    "38.0 ± 0.2 cc": "gasket_volume",
    "38.0 +/- 0.2 cc": "gasket_volume",
    "38.0(1) cc": "gasket_volume",
    "0.30 mm below": "deck_clearance",
    "0.02 mm above": "deck_clearance",
    "32 deg before TDC": "inlet_opens",
    "unknown": "bore",
}


def test_every_way_to_write_a_figure_reads() -> None:
    shown = [text for row in re.findall(r"^\| (`.*?`) \|", section("How figures are written"), re.MULTILINE)
             for text in re.findall(r"`(.*?)`", row)]  # fmt: skip
    assert [text for text in shown if text[0] != "{" and not text.startswith("readings:")] == list(WRITTEN)
    for text, name in WRITTEN.items():
        parse_line(text, quantity(name))


EXPLAIN = ("explain", "explain compression_ratio", "explain piston_speed", "explain --formula swept_volume")


def test_every_key_of_the_json_is_told(demo: Path) -> None:
    told = set(re.findall(r'"(\w+)"', section("JSON")))
    names = {*catalogue(), *PART_KINDS, REMOVED, LEFT}

    def keys_in(tree: object) -> Iterator[str]:
        if isinstance(tree, dict):
            for key, value in tree.items():
                yield key
                if key not in ("conditions", "basis_shares", "facts", "settings", "claims", "arguments", "wants"):
                    yield from keys_in(value)
        for item in tree if isinstance(tree, list) else ():
            yield from keys_in(item)

    seen: set[str] = set()
    for words in (
        "specs start",
        "specs now",
        "specs donor-head",
        "specs 2018-04-14-donor-head",
        "due",
        "timeline",
        "compare donor-head",
        "plan",
        "check",
        "combine cylinder_head=head-a --want squish_clearance>=0.9mm",
        "target compression_ratio=11 --by chamber_volume",
        *EXPLAIN,
    ):
        printed = set(keys_in(json.loads(typed(*words.split(), "--json", at=demo).out)))
        assert printed - names - told == set(), words
        seen |= printed
    # no two builds of the demonstration ran on one fuel: tests/cli/test_explain_knock.py holds what --against prints
    seen |= {"build", "against", "fuel", "cylinders", "ratio", "careful"}
    assert told == seen & told
