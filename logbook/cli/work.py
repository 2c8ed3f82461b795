"""`logbook work`: enter work that was done, as a list of steps in the order in which they were done."""

from __future__ import annotations

from typing import Any

import click

from logbook.cli import options, steps
from logbook.cli.entering import Told, enter


@click.command("work")
@options.text("--title", shape="TEXT", required=True, says="One line for the timeline.")
@steps.fit
@steps.remove
@steps.rework
@steps.set_to
@steps.service
@steps.step
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
    done = steps.typed(ctx, instrument, at_lift)
    if not done and not told["note"]:
        raise click.UsageError("write at least one step, for example --fit head-b, or a --note")
    enter("changes", {"title": title, "kind": kind, "build": build, "work": done}, title, Told(**told), title)
