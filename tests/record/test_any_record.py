"""Whatever a folder says, it is read, folded, checked and worked out without an exception.

The sound record of tests/broken_records with texts exchanged at random: values of one key under another, words cut off,
lines doubled or lost.
"""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from logbook.errors import LogbookError
from logbook.judge.timeline import timeline
from logbook.logbook import Logbook
from logbook.specs.specs_file import specs_file

FOLDERS = (Path(__file__).parents[1] / "broken_records" / "sound", Path(__file__).parents[2] / "example_engine")
TEXTS = [
    {path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8") for path in sorted(folder.rglob("*.yaml"))}
    for folder in FOLDERS
]
WORD = re.compile(r"[\w.±:/-]+")
WORDS = sorted({word for texts in TEXTS for text in texts.values() for word in WORD.findall(text)})
ODD = ["", "0", "-1", "1e9", "999999999", "x", "unknown", "none", "all", "{}", "[]", "about 1 km", "0 mm", "0 cc",
       "0 deg", "bank 2", "cylinder 9", "plan:x", "± 1", "1 / 2 / 3", "now", "\u0663 km", "'", "? "]  # fmt: skip


def everything(texts: dict[str, str]) -> None:
    """All that a reading command may ask of a record."""
    book = Logbook.of_texts({file: text.encode() for file, text in texts.items()})
    assert all(str(finding) for finding in book.findings)
    points = ["now", "start", *(f"plan:{name}" for name in book.record.plans)]
    for point in points:
        try:
            at = book.at(point)
        except LogbookError:
            continue
        specs_file(at, "0", "f")
        book.compare("now", point)
    for _ in timeline(book.life):
        pass


@settings(max_examples=20, deadline=None)
@given(st.data())
def test_no_exchange_of_words_raises(data: st.DataObject) -> None:
    texts = dict(TEXTS[0])
    for _ in range(data.draw(st.integers(1, 3))):
        file = data.draw(st.sampled_from(sorted(texts)))
        words = list(WORD.finditer(texts[file]))
        if words:
            word = data.draw(st.sampled_from(words))
            other = data.draw(st.sampled_from(ODD) | st.sampled_from(WORDS))
            texts[file] = texts[file][: word.start()] + other + texts[file][word.end() :]
    everything(texts)


@settings(max_examples=12, deadline=None)
@given(st.data())
def test_no_lost_or_doubled_line_raises(data: st.DataObject) -> None:
    texts = dict(TEXTS[0])
    for _ in range(data.draw(st.integers(1, 4))):
        file = data.draw(st.sampled_from(sorted(texts)))
        lines = texts[file].splitlines(keepends=True)
        if lines:
            number = data.draw(st.integers(0, len(lines) - 1))
            lines[number : number + 1] = data.draw(st.sampled_from([[], [lines[number]] * 2]))
            texts[file] = "".join(lines)
    everything(texts)


@settings(max_examples=3, deadline=None)
@given(st.sets(st.sampled_from(sorted(TEXTS[1])), min_size=1, max_size=12))
@example(set(TEXTS[1]))
@example({"engine.yaml"})
def test_no_lost_file_raises(lost: set[str]) -> None:
    everything({file: text for file, text in TEXTS[1].items() if file not in lost})
