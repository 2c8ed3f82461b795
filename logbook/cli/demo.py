"""`logbook demo DIR`: the example engine as a real logbook."""

from __future__ import annotations

from pathlib import Path
from shlex import quote

import click

from logbook.cli import options
from logbook.demo import demo


@click.command("demo")
@click.argument("folder", type=options.LINE, metavar="DIR")
def command(folder: str) -> None:
    """Write the example engine into DIR as a real logbook: an invented engine
    whose life is replayed commit by commit, each dated as it was lived.

    \b
    Example:  logbook demo my-demo
              logbook timeline --in my-demo
    """
    for line in demo(Path(folder)):
        click.echo(line)
    click.echo(f"Written to {folder}. Try: logbook timeline --in {quote(folder)}")
