"""Text that looks private: what a buyer, or anybody who gets a copy, should not read in the public record.

Each pattern stands with what it looks like and what it must leave alone; both kinds of samples are tests. A pattern
that cries wolf is worse than none, so each wants a mark that a workshop's own numbers do not carry.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from logbook.record.finding import DOUBTFUL, Finding

if TYPE_CHECKING:
    from logbook.record.record import Record

#: What is the engine's own exempts a find that holds it; shorter than this it would exempt by chance.
_LONG_ENOUGH = 4


class Pattern(NamedTuple):
    """One kind of private text: what it is, how it looks, samples that are such and samples that are not."""

    what: str
    looks: re.Pattern[str]
    samples: tuple[str, ...]
    innocent: tuple[str, ...]


class Suspect(NamedTuple):
    """A piece of text that looks private: what kind it is, and where it stands (lines and columns from 1)."""

    what: str
    text: str
    line: int
    column: int


PATTERNS: tuple[Pattern, ...] = (
    Pattern(
        "an e-mail address",
        re.compile(r"[\w.+-]{1,64}@[\w-]{1,63}(?:\.[\w-]{1,63}){1,8}"),
        ("write to jo.doe@example.org", "a_b+c@mail.example.co.uk"),
        ("head-b@2017-05-01", "tightened @ 75 N m", "2 pieces @ bank 1"),
    ),
    Pattern(
        "a telephone number",
        re.compile(
            r"(?<![\w+])(?:\+\d{1,3}[ /.-]?(?:\(0\)[ ]?)?\d{1,4}(?:[ /.-]?\d{2,4}){2,4}"
            r"|(?i:tel\.?|phone|mobile)[:.]? ?0?\d[\d /.-]{5,14}\d)(?!\w)"
        ),
        ("call +49 170 1234567", "+44 20 7946 0018", "tel. 0170 1234567", "phone: 555-0134 77"),
        ("38.1 / 38.3 / 38.0 cc", "98211 km", "0912-44", "+0.27", "2019-03-23", "1-3-4-2"),
    ),
    Pattern(
        "a 17-character vehicle number",
        re.compile(r"(?<![\w-])(?=[A-Z0-9]*\d)(?=[A-Z0-9]*[A-Z])[A-HJ-NPR-Z0-9]{17}(?![\w-])"),
        ("chassis 1M8GDM9AXKP042788", "WVWZZZ1JZ3W386752"),
        ("ABCDEFGHJKLMNPRST", "12345678901234567", "4e17a2ba1e7e93398fff49de3e2ce2ed"),
    ),
    Pattern(
        "a vehicle registration",
        re.compile(
            r"(?i:(?:registration|reg\.|licence plate|license plate|number plate)[: ]+)"
            r"(?=[A-Z0-9 -]*[A-Z])(?=[A-Z0-9 -]*\d)[A-Z0-9]{1,4}[ -]?[A-Z0-9]{1,4}(?:[ -][A-Z0-9]{1,4})?(?!\w)"
        ),
        ("registration: AB12 CDE", "number plate B-XY 1234", "reg. K 27 ABC"),
        (
            "casting number H-214",
            "order number 0912-44",
            "re-registration of the timing marks",
            "reference plate: 101.2",
        ),
    ),
    Pattern(
        "a price",
        re.compile(
            r"(?:[€£$] ?\d[\d.,]{0,15}"
            r"|\d[\d.,]{0,15} ?(?:€|£|(?:EUR|GBP|USD|CHF|euros?|pounds sterling|dollars)\b))"
        ),
        ("cost € 450", "£1,250.00", "paid 685 EUR", "120 euros for the bench"),
        ("60 lbf ft", "12.5 h", "90 deg", "14.7 psi gauge", "30 pounds of boost"),
    ),
    Pattern(
        "a bank account",
        re.compile(r"(?<!\w)[A-Z]{2}\d{2}(?: ?[A-Z0-9]{4}){3,7}(?: ?[A-Z0-9]{1,3})?(?!\w)"),
        ("DE89 3704 0044 0532 0130 00", "GB29NWBK60161331926819"),
        ("TW10 oil", "M10 bolts", "BR07 0731"),
    ),
)


def private_text(text: str, exempt: frozenset[str] = frozenset()) -> Iterator[Suspect]:
    """Each piece of `text` that looks private; `exempt` holds what is the engine's own and may stand."""
    patterns = [pattern for pattern in PATTERNS if pattern.looks.search(text)]  # most files: none, in one go
    for number, line in enumerate(text.splitlines() if patterns else (), 1):
        for pattern in patterns:
            for found in pattern.looks.finditer(line):
                if not any(own in found[0] or (found[0] in own and own in line) for own in exempt):
                    yield Suspect(pattern.what, found[0], number, found.start() + 1)


def nothing_looks_private(record: Record) -> Iterator[Finding]:
    """What does not belong into a record that others get to read. The engine's own number and name may stand."""
    own = (text for text in (record.engine.engine_number, record.engine.name) if text) if record.engine_known else ()
    exempt = frozenset(text for text in own if len(text) >= _LONG_ENOUGH)
    for file, data in record.texts.items():
        for suspect in private_text(data.decode("utf-8", "replace"), exempt):
            says = f"`{suspect.text}` looks like {suspect.what}: everybody who gets a copy can read it"
            mend = "move it to private/, which is never committed here"
            yield Finding(file, suspect.line, suspect.column, DOUBTFUL, says, mend)
