"""What stands on the page of a history: plain words, and numbers that are already text.

Nothing here computes and nothing knows HTML. Whoever fills these shapes has decided every figure's digits (figures.py),
every word and the order; the templates decide only where it stands. An empty text or tuple means: not printed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from logbook.documents.pieces import (
    NO_NOTE,
    Asset,
    CylinderTable,
    Figure,
    Group,
    NamedFigure,
    Picture,
    PlotBlock,
    SafeHtml,
    Table,
)


@dataclass(frozen=True, slots=True)
class PartRow:
    """One part: where it is, how far it has run since this record began, before, and in all.

    lines: where it came from, which pieces are off the engine, what has come off a surface. in_all is empty where
    nothing can be added to what it ran here.
    """

    id: str
    kind: str
    what: str
    state: str
    distance: str = ""
    hours: str = ""
    before: str = ""
    remark: str = ""
    in_all: str = ""
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EffectRow:
    """What a change did to one spec. before and after may be '—'; verdict in words; strong where it is real."""

    name: str
    unit: str
    before: Figure
    after: Figure
    difference: Figure
    verdict: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class ChangeBlock:
    """One entry of the life. effect_title says which of the two is told: the work's effect, or what is known since.

    corrected: which of its figures a later entry has put right.
    """

    anchor: str
    title: str
    date: str
    reading: str
    kind: str
    entry: str
    by: str = ""
    build: str = ""
    work: tuple[str, ...] = ()
    corrected: tuple[str, ...] = ()
    effect_title: str = ""
    effect: tuple[EffectRow, ...] = ()
    rest: str = ""
    forecast: str = ""
    note: SafeHtml = NO_NOTE
    pictures: tuple[Picture, ...] = ()


@dataclass(frozen=True, slots=True)
class TestBlock:
    """One test run: under what conditions, what was read, what is to be seen in it."""

    __test__ = False  # not a pytest class

    anchor: str
    title: str
    date: str
    reading: str
    conditions: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    sentence: str = ""
    corrected: tuple[str, ...] = ()
    note: SafeHtml = NO_NOTE


@dataclass(frozen=True, slots=True)
class TuneBlock:
    """One table of the tune in use: what is in it, and its figures as a grid."""

    title: str
    tables: tuple[Table, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class ClaimRow:
    """A stated result against what the record gives for it; found is empty where it gives nothing.

    volumes: by what the engine differs from its papers, volume by volume, where the claim is not borne out.
    """

    what: str
    claimed: str
    source: str
    found: Figure
    difference: Figure
    sentence: str
    volumes: Table | None = None


@dataclass(frozen=True, slots=True)
class StaleRow:
    """A figure that work has put out of date, and what would mend it."""

    what: str
    figure: Figure
    since: str
    mend: str


@dataclass(frozen=True, slots=True)
class PlanBlock:
    """A change that was thought of: carried out, withdrawn, or neither."""

    title: str
    date: str
    state: str
    lines: tuple[str, ...]
    why: str = ""


@dataclass(frozen=True, slots=True)
class CorrectionRow:
    """A mistake in the record, put right by a later entry; both stay readable."""

    date: str
    what: str
    was: str
    now: str
    why: str
    entry: str


@dataclass(frozen=True, slots=True)
class InstrumentRow:
    """One instrument and its errors as text, expanded (k = 2)."""

    id: str
    what: str
    each: str = ""
    common: str = ""
    day: str = ""
    checked: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    topic: str
    text: str


@dataclass(frozen=True, slots=True)
class Trust:
    """How far the record can be trusted: how many facts of each basis stand behind today's figures."""

    counts: tuple[tuple[str, str], ...]
    sentence: str


@dataclass(frozen=True, slots=True)
class Cover:
    """The first page: what a buyer asks, answered without turning."""

    picture: Picture | None
    description: str
    figures: tuple[NamedFigure, ...]
    faults: tuple[str, ...]
    overdue: tuple[str, ...]
    trust: Trust
    is_demonstration: bool = False


@dataclass(frozen=True, slots=True)
class RecordStatus:
    """The state of the record itself. fingerprint is the full SHA-256 in hexadecimal, recipe how to find it anew.

    findings are those on how the record is kept, of_engine those on the engine.
    """

    fingerprint: str
    entries: str
    program: str
    recipe: str
    findings: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    of_engine: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Engine:
    """Identity; lines are what the arrangement says ('firing order', '1-3-4-2')."""

    name: str
    number: str
    lines: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class History:
    """The whole history document.

    date is ISO (metadata), empty where the record has no entry; point, reading and day are as printed; shown is what
    the counters show, for the foot. distance_unit is that of the parts' distances; since says what the engine has run
    since the newest change.
    """

    engine: Engine
    point: str
    reading: str
    day: str
    date: str
    cover: Cover
    groups: tuple[Group, ...]
    settings: tuple[tuple[str, str], ...]
    cylinders: tuple[CylinderTable, ...]
    parts: tuple[PartRow, ...]
    life: tuple[PlotBlock, ...]
    changes: tuple[ChangeBlock, ...]
    tests: tuple[TestBlock, ...]
    test_plots: tuple[PlotBlock, ...]
    claims: tuple[ClaimRow, ...]
    stale: tuple[StaleRow, ...]
    plans: tuple[PlanBlock, ...]
    corrections: tuple[CorrectionRow, ...]
    instruments: tuple[InstrumentRow, ...]
    cautions: tuple[Caution, ...]
    status: RecordStatus
    tune: tuple[TuneBlock, ...] = ()
    limits: Table | None = None
    builds: tuple[Table, ...] = ()
    accepted: tuple[str, ...] = ()
    distance_unit: str = "km"
    since: str = ""
    shown: str = ""
    lang: str = "en"
    assets: Mapping[str, Asset] = field(default_factory=dict)
