"""`logbook work`: enter work that was done, as a list of steps in the order in which they were done."""

from __future__ import annotations

import re
from typing import Any

import click

from logbook.cli import options
from logbook.cli.entering import Told, Tree, enter, figure_typed, without_gaps
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


def _step_option(name: str, shape: str, says: str) -> options.Decorator:
    return options.text(f"--{name}", f"_{name}", shape=shape, says=says, multiple=True, cls=_Steps, expose_value=False)


@click.command("work")
@options.text("--title", shape="TEXT", required=True, says="One line for the timeline.")
@_step_option("fit", "PART", 'Fit a part: head-b, "head-b at bank 1", "pistons-2 order B / A / C".')
@_step_option("remove", "PART", "Take a part off.")
@_step_option("rework", "TEXT", 'Machine a part: "head-b: surface milled 0.30 mm".')
@_step_option("set", "NAME=VALUE", 'Set something: "valve_lash_inlet={all: 0.25 mm}", fuel="98 RON".')
@_step_option("service", "TEXT", "A service: oil and filter.")
@_step_option("step", "YAML", 'Any other step as in the files: "tighten: head bolts".')
@options.text("--with", "instrument", shape="INSTRUMENT", says="What the figures of --set were read with.")
@options.text("--at-lift", shape="LIFT", says="Checking lift of camshaft events that are set.")
@options.text("--build", shape="NAME", says="Name what stands after this work.")
@options.text("--kind", shape="WORDS", says="What kind of work: head swap, camshaft install, retune.")
@options.dated
@click.pass_context
def command(ctx: click.Context, /, title: str, instrument: str | None, at_lift: str | None, build: str | None,
            kind: str | None, **told: Any) -> None:  # fmt: skip
    """Enter work that was done. The steps are kept in the order in which you
    write them. What stands in the place of a part that is fitted comes off.

    \b
    Example:  logbook work --title "Head A on again" --fit head-a
                --build head-a-again --date 2020-04-18 --reading "41.6 h"
    """
    steps = [_step(name, text.strip(), instrument, at_lift) for name, text in ctx.meta.get("steps", [])]
    if not steps and not told["note"]:
        raise click.UsageError("write at least one step, for example --fit head-b, or a --note")
    enter("changes", {"title": title, "kind": kind, "build": build, "work": steps}, title, Told(**told), title)


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
