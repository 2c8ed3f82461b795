"""specs.yaml: the specs of today as text, so that plain `git log -p specs.yaml` tells the engine's story.

No clock, no path, fixed digits: the same record with the same program gives the same bytes. Never read as input.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.quantity.rounding import plain
from logbook.quantity.units import unit
from logbook.specs.configuration import Configuration
from logbook.specs.results import Spec, Value

FORMULAS = 1  # counts up when a formula changes its result, so that a recomputation can say why


def specs_file(now: Configuration, version: str, fingerprint: str) -> bytes:
    """The text of specs.yaml for the configuration `now`."""
    lines = [
        "# Worked out by the program from the files beside this one; do not edit. It is never read as input.",
        "# ± is expanded (k = 2).",
        f"program: engine-logbook {version}",
        f"formulas: {FORMULAS}",
        f"record_fingerprint: {fingerprint}",
        f"after: {now.point.text if now.point.number < 0 else now.life.record.entries[now.point.number].id}",
    ]
    if now.state.build:
        lines.append(f"build: {now.state.build}")
    lines += ["fitted:", *(f"  - {part}" for part in now.state.parts)] if now.state.parts else ["fitted: []"]
    lines.append("specs:")
    for name, spec in now.specs.items():
        lines += _spec(name, spec)
    return ("\n".join(lines) + "\n").encode()


def _spec(name: str, spec: Spec) -> Iterator[str]:
    yield f"  {name}:"
    if not spec.known:
        yield from _missing(spec)
        return
    if spec.row.unit:
        yield "    unit: " + ('"%"' if spec.row.unit == "%" else spec.row.unit)  # a sign that YAML keeps for itself
    for qualifier, text in spec.conditions.items():
        yield f"    {qualifier}: {text}"
    if spec.positions == ("",):
        yield from _figures(spec, spec.known[0], "    ")
    else:
        yield "    by_position:"
        for position, value in zip(spec.positions, spec.values, strict=True):
            yield f"      {position}: {_inline(spec, value)}"
    yield f"    rests_on: {_shares(spec.basis, spec.shares)}"
    if spec.out_of_date:
        yield "    out_of_date: yes"


def _figures(spec: Spec, value: Value, indent: str) -> Iterator[str]:
    number, plus_minus = printed(spec, value)
    yield f"{indent}value: {number}"
    if plus_minus:
        yield f"{indent}plus_minus: {plus_minus}"


def _inline(spec: Spec, value: Value | None) -> str:
    if value is None:
        return "missing"
    number, plus_minus = printed(spec, value)
    return f"{number} ± {plus_minus}" if plus_minus else number


def printed(spec: Spec, value: Value) -> tuple[str, str]:
    """Value and ± in the usual metric unit, with the digits that the ± deserves."""
    if not spec.row.unit:
        return plain(value.nominal, value.expanded)
    its = unit(spec.row.unit)
    return plain(its.from_base(value.nominal), abs(its.from_base(value.expanded) - its.from_base(0.0)))


def _shares(basis: str | None, shares: Mapping[str, float]) -> str:
    parts = [f"{name} {share:.0%}" for name, share in shares.items() if share >= 0.005]
    return ", ".join(parts) if parts else str(basis)


def _missing(spec: Spec) -> Iterator[str]:
    if spec.because:
        yield f'    impossible: "{spec.because}"'
    wanted = [*spec.missing, *(" or ".join(group) for group in spec.missing_any)]
    if wanted:
        yield f"    missing: {'; '.join(wanted)}"
