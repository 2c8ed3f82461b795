"""Findings on what does not agree: a claim with what was found, claims with each other, a gauge with the arithmetic."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.judge.agreement import Agreement, agreements
from logbook.judge.claims import conflicts
from logbook.judge.reconcile import reconcile
from logbook.quantity.catalogue import quantity
from logbook.record import entries as model
from logbook.record.facts import MEASURED, Fact
from logbook.record.finding import DOUBTFUL, NOTE, Finding
from logbook.specs.configuration import Configuration, configuration_after
from logbook.specs.index import ALL_SPECS
from logbook.state.fold import Life


def standing(life: Life) -> Iterator[Configuration]:
    """The configurations worth judging: each build, those of which something is claimed, and now."""
    numbers = [
        number
        for number, entry in enumerate(life.record.entries)
        if (isinstance(entry.says, model.Change) and entry.says.build) or any(fact.claim for fact in entry.facts)
    ]
    last = len(life.states) - 1
    for number in dict.fromkeys([*numbers, last]):
        yield configuration_after(life, number)


def claims_agree(life: Life) -> Iterator[Finding]:
    """A claim that what was measured does not bear out. What rests on a claim itself is judged by the next check."""
    told = set()
    for at in standing(life):
        for name in ALL_SPECS:
            for each in reconcile(at, at.specs[name]) if quantity(name).result else ():
                if not each.agrees and not each.on_claim and id(each.claim.fact) not in told:
                    told.add(id(each.claim.fact))
                    mend = "it is shown as a claim and never used"
                    yield _finding(life, each.claim.fact, DOUBTFUL, each.sentence, mend)


def claims_agree_with_each_other(life: Life) -> Iterator[Finding]:
    """Quoted ratios over one block and gasket that cannot all be true."""
    for each in conflicts(configuration_after(life, len(life.states) - 1)):
        mend = "one of them is for another gasket or deck, or wrong: measure these, and one chamber"
        yield _finding(life, each.claim, DOUBTFUL, each.sentence, mend)


def gauge_and_arithmetic_agree(life: Life) -> Iterator[Finding]:
    """A measured figure that others, taken together, do not give; only a note where these are not measured."""
    told = set()
    for at in standing(life):
        for each in agreements(at):
            held = each.measured.held
            if held and not each.agrees and id(held.fact) not in told:
                told.add(id(held.fact))
                yield _finding(life, held.fact, *_how_grave(each))


def _how_grave(each: Agreement) -> tuple[str, str, str]:
    """Two measurements that contradict each other are doubtful; that an engine is not like its papers is a note."""
    behind = each.computed.facts.values()
    papers = dict.fromkeys(held.fact.name for held in behind if held.basis != MEASURED)
    if papers:
        return NOTE, each.sentence, f"measure {', '.join(papers)}; until then the measured figure is used"
    measured = dict.fromkeys(held.fact.name for held in behind)
    return DOUBTFUL, each.sentence, f"measure again, it or {', '.join(measured)}"


def _finding(life: Life, fact: Fact, level: str, says: str, mend: str) -> Finding:
    return life.record.finding(fact.stated.file, fact.path, level, says, mend)
