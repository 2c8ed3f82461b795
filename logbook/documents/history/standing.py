"""How the record stands: its instruments, what its figures rest on, its fingerprint, what the check has to say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from logbook import __version__
from logbook.documents.content import InstrumentRow, RecordStatus, Trust
from logbook.documents.figures import NO_BREAK
from logbook.documents.history.words import as_written, capital, day, in_words, listed, number_of
from logbook.record import entries as model
from logbook.record.facts import BASES, HEARSAY, MEASURED
from logbook.record.finding import NOTE, Finding
from logbook.record.models import Engine, Instrument
from logbook.specs.configuration import Configuration
from logbook.specs.graph import Node
from logbook.specs.specs_file import FORMULAS
from logbook.state.fold import Life

#: What `sha256sum` needs to hear; the words of logbook/store/fingerprint.py.
RECIPE = (
    "find engine.yaml parts measurements changes tests plans notes log files -type f 2>/dev/null | "
    "LC_ALL=C sort | tr '\\n' '\\0' | xargs -0 sha256sum | sha256sum"
)


def instruments(engine: Engine) -> tuple[InstrumentRow, ...]:
    """Every instrument of engine.yaml with its errors and its last check."""
    return tuple(_instrument(name, row) for name, row in engine.instruments.items())


def _instrument(name: str, row: Instrument) -> InstrumentRow:
    each, common, a_day = (as_written(text or "") for text in (row.each, row.common, row.day))
    return InstrumentRow(name, row.what, each, common, a_day, day(row.checked) if row.checked else "")


def trust(life: Life, at: Configuration, of_record: Sequence[Finding]) -> Trust:
    """What today's figures rest on, who wrote how many entries over what time, and whether the record is in order."""
    counts = Counter(basis for basis in _bases(at))
    shown = tuple((str(counts[basis]), _said(basis)) for basis in BASES if counts[basis])
    sentence = " ".join(filter(None, (_ratio(at), _entries(life), _corrected(life), _in_order(of_record))))
    return Trust(shown, sentence)


def _bases(at: Configuration) -> Iterator[str]:
    """The basis of every fact that today's specs rest on, each fact once."""
    seen = {}
    for name in at.specs:
        for node in at.graph.all(name):
            for held in node.facts.values() if isinstance(node, Node) else ():
                seen[id(held.fact)] = held.basis
    yield from seen.values()


def _said(basis: str) -> str:
    return "from hearsay" if basis == HEARSAY else basis


def _ratio(at: Configuration) -> str:
    """How much of the ± of the ratio comes from what was measured."""
    spec = at.specs["mean_compression_ratio"]
    if not spec.known:
        return ""
    share = f"{spec.shares.get(MEASURED, 0.0):.0%}".replace("%", f"{NO_BREAK}%")
    return f"That is what today’s figures rest on. Of the ± of the compression ratio {share} comes from measuring."


def _entries(life: Life) -> str:
    entries = life.record.entries
    if not entries:
        return "The record has no entry yet."
    who = list(dict.fromkeys(entry.says.by for entry in entries if entry.says.by))
    by = f" by {listed(who)}" if who else ""
    span = f"{day(entries[0].says.date)} to {day(entries[-1].says.date)}"
    return f"{number_of(len(entries), 'entry', 'entries').capitalize()}, {span}{by}."


def _corrected(life: Life) -> str:
    steps = [step for entry in life.record.entries if isinstance(entry.says, model.Change) for step in entry.says.work]
    count = sum(isinstance(step, model.Correct) for step in steps)
    return f"{number_of(count, 'correction')}." if count else ""


def _in_order(of_record: Sequence[Finding]) -> str:
    """What is not as it should be in how the record is kept: no fault of the engine's."""
    count = sum(finding.level != NOTE for finding in of_record)
    if not count:
        return ""
    return f"The check finds {number_of(count, 'slip')} in how the record is kept; the state of this record names them."


def status(life: Life, fingerprint: str, of_engine: Iterable[Finding], of_record: Iterable[Finding]) -> RecordStatus:
    """The record itself: its number, its extent, and every finding at its place."""
    entries = life.record.entries
    told = _entries(life).removesuffix(".") if entries else "none yet"
    notes = ("This is a demonstration: the engine, the figures and the people are invented.",)
    return RecordStatus(
        fingerprint,
        told,
        f"engine-logbook {__version__}, formulas {FORMULAS}",
        RECIPE,
        tuple(map(_finding, of_record)),
        notes if life.record.engine.demonstration else (),
        tuple(map(_finding, of_engine)),
    )


def _finding(each: Finding) -> str:
    return f"{capital(each.level)}: {in_words(each.says)} ({each.file}:{each.line})"
