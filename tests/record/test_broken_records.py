"""Each mistake beside the exact complaint: tests/broken_records/NAME.txt holds the files that differ from the sound
record in tests/broken_records/sound/, and everything that `logbook check` then says, in its order."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from logbook.logbook import Logbook
from logbook.record.finding import Finding

FOLDER = Path(__file__).parents[1] / "broken_records"
SOUND = {path.relative_to(FOLDER / "sound").as_posix(): path.read_bytes() for path in FOLDER.rglob("sound/**/*.yaml")}
MISTAKES = sorted(FOLDER.glob("*.txt"))
SAYS = "check says"
HEADING = re.compile(r"^>>> (.+)\n", re.MULTILINE)


def mistake(text: str) -> tuple[dict[str, bytes], list[str]]:
    """The record with that mistake in it, and what the check must say."""
    _, *pieces = HEADING.split(text)
    files = dict(zip(pieces[::2], pieces[1::2], strict=True))
    said = files.pop(SAYS).splitlines()
    gone = {heading.removesuffix(" is not there") for heading in files if heading.endswith(" is not there")}
    changed = {file: content.encode() for file, content in files.items() if file not in gone}
    return {file: data for file, data in {**SOUND, **changed}.items() if file not in gone}, said


def check(texts: dict[str, bytes]) -> list[str]:
    return [str(finding) for finding in Logbook.of_texts(texts).findings]


def test_the_sound_record_is_sound() -> None:
    assert check(SOUND) == []
    assert len(Logbook.of_texts(SOUND).at().specs["compression_ratio"].known) == 4


@pytest.mark.parametrize("file", MISTAKES, ids=lambda file: file.stem)
def test_a_mistake_gets_exactly_its_complaint_at_its_place(file: Path) -> None:
    texts, said = mistake(file.read_text(encoding="utf-8"))
    assert said, "a mistake without a complaint is none"
    findings = Logbook.of_texts(texts).findings
    assert [str(finding) for finding in findings] == said
    for finding in findings:
        is_one_sentence_with_its_place(finding, texts.get(finding.file, b"").decode().split("\n"))


def is_one_sentence_with_its_place(finding: Finding, lines: list[str]) -> None:
    assert 1 <= finding.line <= len(lines)
    assert 1 <= finding.column <= len(lines[finding.line - 1]) + 1
    assert finding.says
    assert not finding.says.endswith(".")
    assert not re.search(r"Traceback|None|pydantic|\bNode\b|<class|Input should", str(finding))


@pytest.mark.parametrize(
    ("data", "complaint"),
    [
        (b"\x89PNG\r\n\x1a\n\x00\x00", "1:1: wrong: this is not UTF-8 text; save the file as UTF-8"),
        (
            b"date: 2024-03-02\ntitle: a\x00b\n",
            "2:9: wrong: there is a control character here; is this a text file?; keep plain text only",
        ),
        (b"date: 2024-03-02\ntitle: Z\xfcndung\n", "2:9: wrong: this is not UTF-8 text; save the file as UTF-8"),
        (b"a: " + b"b" * (1 << 20), "1:1: wrong: the file is larger than 1 MiB; keep data tables in CSV files"),
        (b"[" * 5000, "1:1001: wrong: nested too deep; keep to 20 levels"),
        (b"".join(b" " * n + b"a:\n" for n in range(30)), "22:22: wrong: nested too deep; keep to 20 levels"),
    ],
    ids=["binary", "control character", "another encoding", "too large", "brackets without end", "nested without end"],
)  # fmt: skip
def test_what_is_no_text_of_ours(data: bytes, complaint: str) -> None:
    file = "notes/2024-03-02-note.yaml"
    assert check({**SOUND, file: data}) == [f"{file}:{complaint}"]


def test_every_mistake_of_a_file_is_told_at_once() -> None:
    file = "measurements/2024-03-02-head-b.yaml"
    text = b"date: 2024-03-02\npart: head-b\nvalues:\n  chamber_volum: 38 cc\n  head_thickness: 90\n  stroke: 79 mm\n"
    assert [finding.line for finding in Logbook.of_texts({**SOUND, file: text}).findings] == [4, 5, 6]


def test_an_engine_file_that_cannot_be_read_brings_no_flood() -> None:
    """Only what does not depend on the engine is judged then."""
    assert len(check({**SOUND, "engine.yaml": b"cylinders: four\n"})) == 4  # format, name, arrangement; cylinders


def test_an_unreadable_file_hides_nothing_else() -> None:
    broken = {"notes/2024-03-02-a.yaml": b"\xff", "notes/2024-03-03-b.yaml": b"date: 2024-02-30\ntitle: a\n"}
    assert [finding.file for finding in Logbook.of_texts({**SOUND, **broken}).findings] == list(broken)
