"""`logbook work`: enter work that was done, as a list of steps in the order in which they were done."""

from __future__ import annotations

import re
from typing import Any

import click

from logbook.cli import options
from logbook.cli.entering import Tree, enter, today, without_gaps
from logbook.record.strict_yaml import read_yaml

_FIT = re.compile(r"(?P<fit>\S+)(?: at (?P<at>bank \S+|cylinder \S+))?(?: order (?P<order>.+?))?(?P<found> found)?")
_REWORK = re.compile(r"(?P<rework>[^:\s]+): (?P<operation>[a-z ]+?)(?: (?P<depth>\d[\d.]* ?\S+))?")


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


def _step_option(name: str, metavar: str, says: str) -> options.Decorator:
    return click.option(
        f"--{name}", f"_{name}", metavar=metavar, multiple=True, cls=_Steps, help=says, expose_value=False
    )


@click.command("work")
@click.option("--title", metavar="TEXT", required=True, help="One line for the timeline.")
@_step_option("fit", "PART", 'Fit a part: head-b, "head-b at bank 1", "pistons-2 order B / A / C".')
@_step_option("remove", "PART", "Take a part off.")
@_step_option("rework", "TEXT", 'Machine a part: "head-b: surface milled 0.30 mm".')
@_step_option("set", "NAME=VALUE", 'Set something: "valve_lash_inlet={all: 0.25 mm}", fuel="98 RON".')
@_step_option("service", "TEXT", "A service: oil and filter.")
@_step_option("step", "YAML", 'Any other step as in the files: "tighten: head bolts".')
@click.option("--with", "instrument", metavar="INSTRUMENT", help="What the figures of --set were read with.")
@click.option("--at-lift", metavar="LIFT", help="Checking lift of camshaft events that are set.")
@click.option("--build", metavar="NAME", help="Name what stands after this work.")
@click.option("--kind", metavar="WORDS", help="What kind of work: head swap, camshaft install, retune.")
@options.dated
@options.even_so
@options.in_folder
@click.pass_context
def command(ctx: click.Context, title: str, instrument: str | None, at_lift: str | None, build: str | None,
            kind: str | None, date: str | None, time: str | None, reading: str | None, by: str | None,
            note: str | None, slug: str | None, even_so: str | None, folder: str) -> None:  # fmt: skip
    """Enter work that was done. The steps are kept in the order in which you
    write them. What stands in the place of a part that is fitted comes off.

    \b
    Example:  logbook work --title "Head B on" --fit head-b --fit gasket-2
                --build head-b-on --date 2024-03-02 --reading "61204 km"
    """
    steps = [_step(name, text, instrument, at_lift) for name, text in ctx.meta.get("steps", [])]
    if not steps and not note:
        raise click.UsageError("write at least one step, for example --fit head-b, or a --note")
    tree: Tree = without_gaps({
        "date": date or today(), "time": time, "reading": reading, "by": by, "title": title, "kind": kind,
        "build": build, "work": steps, "note": note,
    })  # fmt: skip
    enter(folder, "changes", tree, slug or title, even_so, title)


def _step(name: str, text: str, instrument: str | None, at_lift: str | None) -> Tree:
    if name == "fit":
        return _fit(text)
    if name == "rework":
        return _rework(text)
    if name == "set":
        return _set(text, instrument, at_lift)
    return _as_written(text) if name == "step" else {name: text}


def _fit(text: str) -> Tree:
    found = _FIT.fullmatch(text.strip())
    if not found:
        raise click.UsageError(f'--fit "{text}": write a part, or "head-b at bank 1", or "pistons-2 order B / A / C"')
    step = without_gaps(found.groupdict())
    return {**step, "found": "yes"} if "found" in step else step


def _rework(text: str) -> Tree:
    found = _REWORK.fullmatch(text.strip())
    if not found:
        raise click.UsageError(
            f'--rework "{text}": write a part, a colon and the operation, for example "head-b: surface milled 0.30 mm"'
        )
    return without_gaps(found.groupdict())


def _set(text: str, instrument: str | None, at_lift: str | None) -> Tree:
    name, sign, value = text.partition("=")
    if not sign or not value.strip():
        raise click.UsageError(f'--set "{text}": write a name, = and the value, for example main_jet=140')
    return without_gaps({"set": {name.strip(): _braces(value.strip())}, "with": instrument, "at_lift": at_lift})


def _braces(value: str) -> Any:
    """`{all: 0.25 mm}` as in the files; anything else is text."""
    if not value.startswith("{"):
        return value
    tree, findings = read_yaml(value.encode(), "--set")
    if findings:
        raise click.UsageError(f"--set: {findings[0].says}; {findings[0].mend}")
    return tree


def _as_written(text: str) -> Tree:
    tree, findings = read_yaml(text.encode(), "--step")
    if findings or not isinstance(tree, dict):
        says = (
            f"{findings[0].says}; {findings[0].mend}" if findings else 'write it as in the files, "tighten: head bolts"'
        )
        raise click.UsageError(f'--step "{text}": {says}')
    return tree
