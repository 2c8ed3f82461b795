"""A logbook to the content of its history: every part filled by the file that is named for it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape

from logbook.documents.content import ChangeBlock, History, TestBlock
from logbook.documents.history import changes, questions, runs, sheets, standing
from logbook.documents.history.cautions import cautions
from logbook.documents.history.claims import claims
from logbook.documents.history.cover import cover, cover_picture
from logbook.documents.history.identity import identity, reading_now, shown_now
from logbook.documents.history.life import build_tables, life_plots
from logbook.documents.history.now import cylinder_tables, groups, settings
from logbook.documents.history.parts import distance_unit, part_rows, since_newest_told
from logbook.documents.history.stale import stale_rows
from logbook.documents.history.tune import tune_blocks
from logbook.documents.history.within import limit_table
from logbook.documents.history.words import Words, day
from logbook.documents.notes import Notes
from logbook.documents.pictures import is_picture, printable
from logbook.documents.pieces import Asset
from logbook.errors import CannotRead
from logbook.judge.due import overdue
from logbook.logbook import Logbook
from logbook.record import entries as model
from logbook.record.record import Entry

_ASKED = re.compile(r'src="asset:(files/[^"]+)"')


def history(book: Logbook) -> History:
    """The history of the engine in this record, as it stands now: the same content for the same files."""
    life, at = book.life, book.at("now")
    words, engine = Words(book.record.engine), book.record.engine
    notes = Notes([path for path in book.present if is_picture(path)])
    picture, over = cover_picture(at, book.file), overdue(life)
    told = tuple(changes.change_block(life, words, notes, each) for each in book.timeline() if not _is_test(each.entry))
    tests = runs.test_blocks(life, words, notes, book.file)
    last = book.record.entries[-1].says.date if book.record.entries else None
    of_record = [finding for finding in book.findings if finding not in book.engine_findings]
    return History(
        engine=identity(at, words),
        point=f"build {at.state.build}" if at.state.build else "as it stands now",
        reading=reading_now(engine, at.state),
        day=day(last) if last else "no entries yet",
        date=last.first.isoformat() if last else "",
        cover=cover(
            at,
            words,
            picture[0] if picture else None,
            faults=tuple(questions.faults(life, sorted(book.engine_findings))),
            overdue=tuple(questions.overdue_lines(over)),
            trust=standing.trust(life, at, of_record),
        ),
        groups=groups(at, words),
        settings=settings(at),
        cylinders=cylinder_tables(at, words),
        parts=part_rows(life, words, over),
        life=life_plots(life, words),
        changes=told,
        tests=tests,
        test_plots=sheets.test_plots(life, words, book.file),
        claims=tuple(claims(life, words)),
        stale=tuple(stale_rows(at, words)),
        plans=tuple(questions.plans(life, words)),
        corrections=tuple(questions.corrections(life, words)),
        instruments=standing.instruments(engine),
        cautions=cautions(life),
        status=standing.status(life, book.fingerprint, sorted(book.engine_findings), of_record),
        tune=tune_blocks(at, words, book.file),
        limits=limit_table(at, words),
        builds=build_tables(life, words),
        accepted=tuple(questions.accepted(life, words)),
        distance_unit=distance_unit(engine),
        since=since_newest_told(life),
        shown=shown_now(engine, at.state),
        assets=dict([*([(picture[0].asset, picture[1])] if picture else []), *_pictures(book, told, tests)]),
    )


def _is_test(entry: Entry) -> bool:
    return isinstance(entry.says, model.Test)


def _pictures(
    book: Logbook, told: tuple[ChangeBlock, ...], tests: tuple[TestBlock, ...]
) -> Iterator[tuple[str, Asset]]:
    """The pictures that notes show, each once."""
    notes = (*(block.note for block in told), *(block.note for block in tests))
    paths = (unescape(path) for note in notes for path in _ASKED.findall(note))
    for path in dict.fromkeys(paths):
        try:
            asset = printable(book.file(path), path)
        except CannotRead:
            continue
        if asset:
            yield f"asset:{path}", asset
