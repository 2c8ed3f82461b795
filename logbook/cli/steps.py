"""Steps of work as options of a command, kept in the order in which they are typed: `--fit`, `--rework`, the rest."""

from __future__ import annotations

import re
from typing import Any

import click

from logbook.cli import options
from logbook.cli.entering import Tree, figure_typed, without_gaps
from logbook.quantity.catalogue import own_name
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
    """The steps of a call, in their order; what is set was read with the instrument, at the lift."""
    return [_step(name, text.strip(), instrument, at_lift) for name, text in ctx.meta.get("steps", [])]


def _step(name: str, text: str, instrument: str | None, at_lift: str | None) -> Tree:
    if name == "fit":
        return _fit(text)
    if name == "rework":
        return _rework(text)
    if name == "set":
        return _set(text, instrument, at_lift)
    return _as_written(text) if name == "step" else {name: text}


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


def _set(text: str, instrument: str | None, at_lift: str | None) -> Tree:
    name, _, value = text.partition("=")
    if not name.strip() or not value.strip():
        raise click.UsageError(f'--set "{text}": write a name, = and the value, for example main_jet=140')
    figures = {own_name(name.strip()): figure_typed(value.strip(), f"--set {name.strip()}")}
    return without_gaps({"set": figures, "with": instrument, "at_lift": at_lift})


def _as_written(text: str) -> Tree:
    tree, findings = read_yaml(text.encode(), "--step")
    if findings or not isinstance(tree, dict):
        says = (
            f"{findings[0].says}; {findings[0].mend}" if findings else 'write it as in the files, "tighten: head bolts"'
        )
        raise click.UsageError(f'--step "{text}": {says}')
    return tree
