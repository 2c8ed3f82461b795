"""The command `logbook`: parse, call, print, exit. No logic of its own.

Each command stands in a module of its own, imported when it is called, so that a reading command starts at once.
Exit status: 0 fine; 1 findings of level doubtful or wrong; 2 the call or a file is wrong and nothing was written.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from io import StringIO
from traceback import extract_tb

import click

from logbook import __version__
from logbook.cli import layout, streams
from logbook.errors import LogbookError

#: Command -> (module, one line of help), in the order in which a newcomer meets them.
COMMANDS = {
    "new": ("new", "Begin a logbook in a new folder."),
    "demo": ("demo", "Write the example engine as a real logbook, its life replayed commit by commit."),
    "measure": ("measure", "Enter figures that were measured."),
    "work": ("work", "Enter work that was done."),
    "save": ("save", "Check, recompute and commit what was edited by hand."),
    "undo": ("undo", "Take back the newest change to the record, as one more commit."),
    "check": ("check", "Say everything that is wrong, doubtful or out of date."),
    "specs": ("specs", "Show what the engine is at a point of its life."),
    "explain": ("explain", "Show how a value came about, and what to measure next."),
    "timeline": ("timeline", "Show the engine's life, each entry with what it did."),
    "compare": ("compare", "Set two points side by side."),
    "combine": ("combine", "Work out every combination of the parts you name."),
    "target": ("target", "Work out what a quantity must become."),
    "due": ("due", "Show what is due by distance, hours or date."),
    "plan": ("plan", "List what is thought of, and carry it out."),
    "report": ("report", "Write a document."),
}


class _Commands(click.Group):
    """A group that imports a command's module only when that command is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command:
        if name not in COMMANDS:
            raise click.UsageError(_no_command(name), ctx)
        module = import_module(f"logbook.cli.{COMMANDS[name][0]}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, says) for name, (_, says) in COMMANDS.items()])


#: What people type who know other programs, or look for what is done in a file.
_MEANT = {
    "add": "logbook measure, or logbook work",
    "commit": "logbook save",
    "diff": "logbook compare",
    "history": "logbook report history, or logbook timeline",
    "init": "logbook new",
    "log": "logbook timeline",
    "part": "a part is a file in parts/; logbook timeline --part tells its life",
    "pdf": "logbook report",
    "revert": "logbook undo",
    "show": "logbook specs",
    "status": "logbook check",
    "test": "a test is a file in tests/, then logbook save",
    "note": "a note is a file in notes/, then logbook save",
}


def _no_command(name: str) -> str:
    from logbook.quantity.catalogue import nearest

    if name in _MEANT:
        return f"there is no command `{name}`; {_MEANT[name]}"
    near = nearest(name, list(COMMANDS))
    return f"there is no command `{name}`; " + (f"did you mean {near}?" if near else "logbook -h lists them")


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
    """Run the command that was typed and leave with its exit status."""
    gc.set_threshold(50_000, 50, 50)  # a command lives for a moment and keeps what it makes
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")  # nothing that is installed beside us runs with us
    streams.print_what_can_be_printed()
    ended = status(sys.argv[1:])
    streams.let_go()
    sys.exit(ended)


def status(arguments: Sequence[str]) -> int:
    """The exit status of one call; where it cannot be done, a sentence on the error stream and 2."""
    try:
        color = False if os.environ.get("NO_COLOR") else None
        with logbook.make_context("logbook", list(arguments), color=color) as context:
            logbook.invoke(context)
        return 0
    except click.exceptions.Exit as ended:
        return ended.exit_code
    except BrokenPipeError:  # the reader of our output (a pager, `head`) has seen enough
        streams.print_no_more()
        return 0
    except (Exception, KeyboardInterrupt) as error:
        if sys.flags.dev_mode:
            raise
        with suppress(OSError):  # an error stream that takes nothing
            click.echo(layout.narrow(_sentence(error)), err=True)
    return 2


def _where_words_go(error: click.ClickException) -> str:
    """What to do with a word too many: it may belong to the words before it, or to an option."""
    if not isinstance(error, click.UsageError) or not error.message.startswith("Got unexpected extra") or not error.ctx:
        return ""
    options = [each for each in error.ctx.command.params if isinstance(each, click.Option) and not each.is_flag]
    named = ", ".join(each.opts[0] for each in options[:6])
    behind = f", and those of an option stand behind it ({named})" if named else ""
    return f"; words with blanks between them go into quotes{behind}"


def _sentence(error: BaseException) -> str:
    """What stopped the command and what to do; no traceback reaches a user."""
    match error:
        case LogbookError():
            return str(error)
        case click.ClickException():
            told = StringIO()
            error.show(told)
            return told.getvalue().rstrip() + _where_words_go(error)
        case click.Abort() | KeyboardInterrupt() | EOFError():
            return "\nStopped. The record is whole: as it was before this command, or as it is after it."
        case RecursionError():
            return "The record is nested too deep to be read. Look for a file that was not written by hand."
        case OSError():
            where = f" ({error.filename})" if error.filename else ""
            return f"The disk refused: {error.strerror or error}{where}. The record is whole; mend that and try again."
    last = extract_tb(error.__traceback__)[-1]
    return (
        f"This is a mistake in the program, not in your record: {type(error).__name__}: {error} "
        f"({last.filename}:{last.lineno}). The record is whole. `python -X dev -m logbook …` shows all of it."
    )
