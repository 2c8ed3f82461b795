"""`logbook new`: begin a logbook in a new folder, from options or from a few questions."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from logbook.beginning import ARRANGEMENTS, Answers, begin
from logbook.cli.check import print_findings


@click.command("new")
@click.argument("folder", type=click.Path(), metavar="DIR")
@click.option("--name", metavar="TEXT", help="What you call the engine.")
@click.option("--number", metavar="TEXT", help="The engine number, as it is stamped.")
@click.option("--cylinders", metavar="N", help="1 to 16.")
@click.option("--arrangement", type=click.Choice(ARRANGEMENTS), help="How the cylinders stand.")
@click.option("--counter", metavar="UNIT", type=click.Choice(("km", "mi", "h")), help="What its counter counts.")
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
    answers = Answers(
        _ask(name, "What do you call the engine?", "--name"),
        number if number is not None or not sys.stdin.isatty() else click.prompt("Engine number (may stay empty)", ""),
        _ask(cylinders, "How many cylinders?", "--cylinders"),
        _ask(arrangement, f"How do they stand ({', '.join(ARRANGEMENTS)})?", "--arrangement"),
        _ask(counter, "What does its counter count (km, mi, h)?", "--counter"),
        show,
        words,
    )
    findings = begin(Path(folder), answers)
    if findings:
        print_findings(findings)
        raise click.exceptions.Exit(2)
    click.echo(f"Begun in {folder}. Next:")
    click.echo(f"  1. Open {folder}/engine.yaml and complete it: numbering, firing order, your instruments.")
    click.echo(f"  2. Describe what is in the engine in {folder}/parts/, one file for each part.")
    click.echo('  3. Say that it is in there:  logbook work --title "As bought" --fit "block-1 found" ...')
    click.echo("  4. logbook save, logbook specs. The file format is in the README.")


def _ask(given: str | None, question: str, option: str) -> str:
    if given is not None:
        return given
    if not sys.stdin.isatty():
        raise click.UsageError(f"{option} is missing")
    answer: str = click.prompt(question)
    return answer
