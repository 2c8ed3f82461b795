"""The command `logbook`: parse, call, print, exit. No logic of its own.

Each command stands in a module of its own, imported when it is called, so that a reading command starts at once.
Exit status: 0 fine; 1 findings of level doubtful or wrong; 2 the call or a file is wrong and nothing was written.
"""

from __future__ import annotations

import sys
from importlib import import_module

import click

from logbook import __version__
from logbook.errors import LogbookError

#: Command -> (module, one line of help), in the order in which a newcomer meets them.
COMMANDS = {
    "new": ("new", "Begin a logbook in a new folder."),
    "demo": ("demo", "Write the example engine as a real logbook, its life replayed commit by commit."),
    "measure": ("measure", "Enter figures that were measured."),
    "work": ("work", "Enter work that was done."),
    "save": ("save", "Check, recompute and commit what was edited by hand."),
    "check": ("check", "Say everything that is wrong, doubtful or out of date."),
    "specs": ("specs", "Show what the engine is at a point of its life."),
    "timeline": ("timeline", "Show the engine's life, each entry with what it did."),
    "compare": ("compare", "Set two points side by side."),
    "report": ("report", "Write a document."),
}


class _Commands(click.Group):
    """A group that imports a command's module only when that command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        module = import_module(f"logbook.cli.{COMMANDS[name][0]}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, says) for name, (_, says) in COMMANDS.items()])


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(__version__, prog_name="logbook", message="%(prog)s %(version)s")
def logbook() -> None:
    """One record of one engine: what is in it at any reading, what that makes
    it, how sure each figure is, and proof for a buyer.

    \b
    Example:  logbook demo my-demo
              logbook specs --in my-demo donor-head
    """


def run() -> None:
    """Run the command; one sentence and exit status 2 where it cannot be done."""
    try:
        logbook(standalone_mode=False)
    except click.exceptions.Exit as ended:
        sys.exit(ended.exit_code)
    except click.ClickException as wrong:
        wrong.show()
        sys.exit(2)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped; nothing was written.", err=True)
        sys.exit(2)
    except LogbookError as error:
        click.echo(str(error), err=True)
        sys.exit(2)
    except BrokenPipeError:  # the reader of our output (a pager, `head`) has seen enough
        sys.stderr.close()
        sys.exit(0)
    except RecursionError:
        click.echo("The record is nested too deep to be read. Look for a file that was not written by hand.", err=True)
        sys.exit(2)
    except OSError as error:
        where = f" ({error.filename})" if error.filename else ""
        click.echo(f"The disk refused: {error.strerror or error}{where}. Nothing was lost; try again.", err=True)
        sys.exit(2)
