"""`logbook new`: begin a logbook in a new folder, from options or from a few questions."""

from __future__ import annotations

import sys
from pathlib import Path
from shlex import quote
from typing import Any

import click

from logbook.beginning import ARRANGEMENTS, Answers, begin
from logbook.cli import options

COUNTERS = "km", "mi", "h"


@click.command("new")
@click.argument("folder", type=options.LINE, metavar="DIR")
@options.text("--name", shape="TEXT", says="What you call the engine.")
@options.text("--number", shape="TEXT", says="The engine number, as it is stamped.")
@options.text("--cylinders", shape="N", says="1 to 16.")
@click.option("--arrangement", type=click.Choice(ARRANGEMENTS), help="How the cylinders stand.")
@click.option("--counter", metavar="UNIT", type=click.Choice(COUNTERS), help="What its counter counts.")
@click.option("--show", type=click.Choice(("metric", "imperial")), default="metric", help="Units that are shown.")
@click.option("--words", type=click.Choice(("uk", "us")), default="uk", help="The trade's words in UK or US usage.")
def command(folder: str, name: str | None, number: str | None, cylinders: str | None, arrangement: str | None,
            counter: str | None, show: str, words: str) -> None:  # fmt: skip
    """Begin a logbook in DIR: a folder with engine.yaml, a table of usual
    instruments, and a git repository of its own (or the one that DIR lies in).

    For four-stroke reciprocating engines of 1 to 16 cylinders: inline, vee,
    flat or single, spark or compression ignition.

    \b
    Example:  logbook new quarry-six --name "Quarry six" --cylinders 6
                --arrangement vee --counter km
    """
    asked = {"--name": name, "--cylinders": cylinders, "--arrangement": arrangement, "--counter": counter}
    _refuse_silence([option for option, given in asked.items() if given is None])
    answers = Answers(
        _ask(name, "What do you call the engine?"),
        _ask(number, "Engine number, as it is stamped (may stay empty)?", "") if _somebody_answers() else number,
        _ask(cylinders, "How many cylinders?", kind=click.IntRange(1, 16)),
        _ask(arrangement, "How do they stand?", kind=click.Choice(ARRANGEMENTS)),
        _ask(counter, "What does its counter count?", kind=click.Choice(COUNTERS)),
        show,
        words,
    )
    findings = begin(Path(folder), answers)
    if findings:
        listed = "\n".join(f"{finding.says}; {finding.mend}" for finding in findings)
        raise click.UsageError(f"{listed}\nNothing was made.")
    for line in _next(folder):
        click.echo(line)


def _next(folder: str) -> tuple[str, ...]:
    return (
        f"Begun in {folder}. Next:",
        f"  1. cd {quote(folder)}",
        "  2. Complete engine.yaml: numbering, firing order, your instruments.",
        "  3. Describe what is in the engine in parts/, one file for each part.",
        "  4. Say that it is in there:",
        '       logbook work --title "As bought" --fit "block-1 found" ...',
        "  5. logbook specs. How a file is written stands in the README.",
    )


def _refuse_silence(missing: list[str]) -> None:
    if missing and not _somebody_answers():
        raise click.UsageError(f"nobody is there to be asked; add {', '.join(missing)}")


def _somebody_answers() -> bool:
    return sys.stdin is not None and sys.stdin.isatty()


def _ask(given: str | None, question: str, default: str | None = None, kind: Any = options.LINE) -> str:
    if given is not None:
        return given
    kind = str if default is not None else kind
    return str(click.prompt(question, default, type=kind, show_default=False, prompt_suffix=" "))
