"""Steps of work as options of a command, kept in the order in which they are typed: `--fit`, `--rework`, the rest."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import groupby
from typing import Any

import click

from logbook.cli import options
from logbook.cli.entering import Tree, figure_typed, without_gaps
from logbook.quantity.catalogue import SETTINGS, catalogue, own_name
from logbook.record.strict_yaml import read_yaml
from logbook.record.typed_steps import fit_typed, rework_typed


class _Steps(click.Option):
    """Options that keep the order in which they stand on the command line, all in one list."""

    def add_to_parser(self, parser: Any, ctx: click.Context) -> None:
        super().add_to_parser(parser, ctx)
        long = next(option for option in self.opts if option.startswith("--"))
        ours = parser._long_opt[long]
        usual = ours.process

        def process(value: str, state: Any) -> None:
            ctx.meta.setdefault("steps", []).append((long.removeprefix("--"), value))
            usual(value, state)

        ours.process = process


def _option(name: str, shape: str, says: str) -> options.Decorator:
    return options.text(f"--{name}", f"_{name}", shape=shape, says=says, multiple=True, cls=_Steps, expose_value=False)


fit = _option("fit", "PART", 'Fit a part: head-b, "head-b at bank 1", "pistons-2 order B / A / C".')
remove = _option("remove", "PART", "Take a part off.")
rework = _option("rework", "TEXT", 'Machine a part: "head-b: surface milled 0.30 mm".')
set_to = _option("set", "NAME=VALUE", 'Set something: "valve_lash_inlet={all: 0.25 mm}", fuel="98 RON".')
service = _option("service", "TEXT", "A service: oil and filter.")
step = _option("step", "YAML", 'Any other step as in the files: "tighten: head bolts".')


def typed(ctx: click.Context, instrument: str | None = None, at_lift: str | None = None) -> list[Tree]:
    """The steps of a call, in their order; what is set was read with the instrument, at the lift.

    Raises click.UsageError for a step that cannot be read, and for an instrument or a lift that no figure takes.
    """
    steps: list[Tree] = []
    for to_set, some in groupby(ctx.meta.get("steps", []), lambda each: each[0] == "set"):
        told = [(name, text.strip()) for name, text in some]
        steps += _set_together([text for _, text in told], instrument, at_lift) if to_set else map(_step, told)
    for option, given, of in (("with", instrument, "figures"), ("at_lift", at_lift, "camshaft events")):
        if given and not any(option in each for each in steps):
            name = option.replace("_", "-")
            raise click.UsageError(f"--{name} {given} is of {of} that are set, and none is; leave it out or add --set")
    return steps


def _step(told: tuple[str, str]) -> Tree:
    name, text = told
    if name == "fit":
        return _fit(text)
    if name == "rework":
        return _rework(text)
    return _as_written(text) if name == "step" else {name: text}


def _set_together(texts: Iterable[str], instrument: str | None, at_lift: str | None) -> list[Tree]:
    """What is set in a row, in one step as far as it was read alike: two steps would say that the camshaft was turned
    after its first event was read, and put that event out of date."""
    steps: list[Tree] = []
    for text in texts:
        name, value = _set(text)
        read = _read(name, instrument, at_lift)
        alike = (each["set"] for each in steps if each == {"set": each["set"], **read} and name not in each["set"])
        together = next(alike, None)
        if together is None:
            steps.append({"set": {name: value}, **read})
        else:
            together[name] = value
    return steps


def _read(name: str, instrument: str | None, at_lift: str | None) -> Tree:
    """How it was read: what is kept as text was not, and only events are at a lift."""
    if name in SETTINGS:
        return {}
    row = catalogue().get(name)
    return without_gaps(
        {"with": instrument, "at_lift": at_lift if row is None or "at_lift" in row.qualifiers else None}
    )


def _fit(text: str) -> Tree:
    words, marks = re.subn(r" found(?= |$)", "", text)
    found = fit_typed(words)
    if not found:
        raise click.UsageError(f'--fit "{text}": write a part, then at, order and found as far as they are needed: '
                               '"head-b at bank 1 found", "pistons-2 order B / A / C"')  # fmt: skip
    return {**found, "found": "yes"} if marks else {**found}


def _rework(text: str) -> Tree:
    found = rework_typed(text)
    if not found:
        raise click.UsageError(
            f'--rework "{text}": write a part, a colon and the operation, for example "head-b: surface milled 0.30 mm"'
        )
    return {**found}


def _set(text: str) -> tuple[str, Any]:
    name, _, value = text.partition("=")
    if not name.strip() or not value.strip():
        raise click.UsageError(f'--set "{text}": write a name, = and the value, for example main_jet=140')
    return own_name(name.strip()), figure_typed(value.strip(), f"--set {name.strip()}")


def _as_written(text: str) -> Tree:
    tree, findings = read_yaml(text.encode(), "--step")
    if findings or not isinstance(tree, dict):
        says = (
            f"{findings[0].says}; {findings[0].mend}" if findings else 'write it as in the files, "tighten: head bolts"'
        )
        raise click.UsageError(f'--step "{text}": {says}')
    for said in tree.values():
        if isinstance(said, dict) and isinstance(said.get("quantity"), str):
            said["quantity"] = own_name(said["quantity"])
    return tree
