"""The JSON that commands print: documented in the README, stable; values in the usual metric unit."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

import click

from logbook.judge.compare import Difference
from logbook.judge.forecast import Score
from logbook.judge.standing import Standing
from logbook.judge.timeline import Happening
from logbook.quantity.catalogue import Quantity, quantity
from logbook.quantity.units import unit
from logbook.record import entries as model
from logbook.record.finding import Finding
from logbook.record.record import Record
from logbook.specs.configuration import Configuration
from logbook.specs.firing import firing_of
from logbook.specs.metal import metal_removed
from logbook.specs.results import Claim, Spec, Value
from logbook.state.sayings import closed_by
from logbook.written import WrittenDown

FORMAT = 1


def print_json(shape: Mapping[str, Any]) -> None:
    """One JSON object with its format number; never NaN or Infinity."""
    click.echo(json.dumps({"format": FORMAT, **shape}, ensure_ascii=False, indent=1, allow_nan=False))


def _value(row: Quantity, value: Value | None) -> float | None:
    return None if value is None else usual(row, value.nominal)


def usual(row: Quantity, base: float) -> float:
    """A base value in the row's usual metric unit, to twelve significant digits."""
    return float(f"{unit(row.unit).from_base(base) if row.unit else base:.12g}")


def size(row: Quantity, base: float) -> float:
    """A difference in the row's usual metric unit."""
    return float(f"{base / unit(row.unit).size(1.0) if row.unit else base:.12g}")


def specs_shape(at: Configuration, point: str) -> dict[str, Any]:
    """`specs` of the documented shape; what came off stands by surface beside what the graph gives."""
    specs = {name: spec_shape(spec) for name, spec in at.specs.items()}
    return {"point": point, "specs": {**specs, **_metal(at)}, "firing": _firing(at)}


def of_the_test_shape(at: Standing) -> dict[str, Any] | None:
    """What the test that the point names comes to; of a run at its greatest power, and which speed that is."""
    if at.tested is None:
        return None
    speed = at.tested.best.speed
    return {
        "entry": at.tested.entry.id,
        "engine_speed": None if speed is None else usual(quantity("engine_speed"), speed),
        "specs": {name: spec_shape(spec) for name, spec in at.tested.specs.items()},
    }


def _firing(at: Configuration) -> dict[str, Any] | None:
    """When each cylinder fires, in the firing order; None where no order is stated."""
    firing = firing_of(at.life.record.engine, at.life.arrangement)
    if firing is None:
        return None
    return {
        "order": list(firing.angles),
        "angles": [float(angle) for angle in firing.angles.values()],
        "intervals": list(firing.intervals),
        "even": firing.even,
        "basis": firing.basis,
        "pin_split": firing.split,
        "fits": firing.fits,
    }


def _metal(at: Configuration) -> dict[str, Any]:
    """What came off, with the word for a sum that is only a bound, because nobody knows all that came off."""
    removed = metal_removed(at)
    return {removed[0].name: {**spec_shape(removed[0]), "bound": list(removed[1])}} if removed else {}


def spec_shape(spec: Spec) -> dict[str, Any]:
    """One spec."""
    return {
        "unit": spec.row.unit,
        "positions": [position for position in spec.positions if position],
        "values": [_value(spec.row, value) for value in spec.values],
        "uncertainty": [None if value is None else size(spec.row, value.expanded) for value in spec.values],
        "basis": spec.basis,
        "basis_shares": {name: round(share, 6) for name, share in spec.shares.items()},
        "out_of_date": spec.out_of_date,
        "linear_rule_doubtful": any(value.doubtful for value in spec.known),
        "missing": list(spec.missing),
        "missing_any": [list(group) for group in spec.missing_any],
        "because": spec.because,
        "conditions": dict(spec.conditions),
        "outside_validity": list(spec.outside),
        "claims": [_claim(spec.row, claim) for claim in spec.claims],
    }


def _claim(row: Quantity, claim: Claim) -> dict[str, Any]:
    return {"value": usual(row, claim.value), "uncertainty": size(row, claim.expanded), "basis": claim.basis,
            "source": claim.source, "stated_for": dict(claim.stated_for), "file": claim.file}  # fmt: skip


def difference_shape(each: Difference) -> dict[str, Any]:
    """One spec at two points."""
    return {
        "unit": each.row.unit,
        "positions": [position for position in each.positions if position],
        "from": [_value(each.row, value) for value in each.before],
        "to": [_value(each.row, value) for value in each.after],
        "difference": [None if delta is None else size(each.row, delta.nominal) for delta in each.differences],
        "uncertainty": [None if delta is None else size(each.row, delta.expanded) for delta in each.differences],
        "verdict": list(each.verdicts),
        "outside_validity": {"from": _reasons(each.before), "to": _reasons(each.after)},
    }


def _reasons(values: Iterable[Value | None]) -> list[str]:
    """Why values lie outside the validity of a formula, each reason once."""
    return list(dict.fromkeys(reason for value in values if value for reason in value.outside))


def timeline_shape(
    happenings: Iterable[Happening], written: Mapping[str, WrittenDown], record: Record
) -> dict[str, Any]:
    """`timeline` of the documented shape; `written`: when each file was committed, and amended."""
    return {"entries": [
        {
            "id": each.entry.id,
            "date": str(each.entry.says.date),
            "reading": ", ".join(map(str, each.entry.says.reading)),
            "title": each.entry.title,
            **_of_itself(each, record),
            **_written(written.get(each.entry.file)),
            "told_as": each.told_as,
            "effect": {name: difference_shape(change) for name, change in each.effect.items()},
            "forecast": [score_shape(score) for score in each.scores],
            "of_the_test": {name: spec_shape(spec) for name, spec in each.tested.own.items()} if each.tested else None,
        }
        for each in happenings
    ]}  # fmt: skip


def _of_itself(each: Happening, record: Record) -> dict[str, Any]:
    """What an entry was copied from; of a note whether its question is open, and by which entry it was closed."""
    says = each.entry.says
    closing = closed_by(record, each.number) if isinstance(says, model.Note) and says.open else None
    return {"written_from": says.written_from,
            "open": bool(says.open) and closing is None if isinstance(says, model.Note) else None,
            "closed": closing.id if closing else None}  # fmt: skip


def _written(written: WrittenDown | None) -> dict[str, Any]:
    if written is None:
        return {"written": None, "days_after": None, "amended": []}
    amended = [{"date": each.when.isoformat(), "commit": each.commit, "lines": list(each.lines)}
               for each in written.amended]  # fmt: skip
    return {"written": written.first.isoformat(), "days_after": written.days_after, "amended": amended}


def score_shape(each: Score) -> dict[str, Any]:
    """One figure of a forecast."""
    return {
        "spec": each.name,
        "position": each.position,
        "unit": each.row.unit,
        "forecast": usual(each.row, each.forecast.nominal),
        "uncertainty": size(each.row, each.forecast.expanded),
        "found": usual(each.row, each.found.nominal) if each.found else None,
        "e_n": None if each.e_n is None else round(each.e_n, 6),
        "verdict": each.words,
        "mistakes": list(each.mistakes),
        "anew": usual(each.row, each.anew.nominal) if each.anew else None,
        "anew_uncertainty": size(each.row, each.anew.expanded) if each.anew else None,
        "anew_e_n": None if each.e_n_anew is None else round(each.e_n_anew, 6),
    }


def check_shape(findings: Iterable[Finding]) -> dict[str, Any]:
    """`check` of the documented shape."""
    return {"findings": [
        {"file": f.file, "line": f.line, "column": f.column, "level": f.level, "says": f.says, "mend": f.mend}
        for f in findings
    ]}  # fmt: skip
