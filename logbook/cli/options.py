"""Options that several commands share, each once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

Command = Callable[..., Any]
Decorator = Callable[[Command], Command]

in_folder = click.option(
    "--in", "folder", default=".", metavar="DIR", type=click.Path(), help="The engine's folder, or one inside it."
)
as_json = click.option("--json", "as_json", is_flag=True, help="Print JSON, as documented in the README.")
even_so = click.option(
    "--even-so", metavar="REASON", help="Save although something is wrong; the reason goes into the commit."
)


def as_table(command: Command) -> Command:
    """`--csv` and `--markdown`, for commands that print a table."""
    command = click.option("--markdown", "style", flag_value="markdown", help="Print a Markdown table.")(command)
    return click.option("--csv", "style", flag_value="csv", help="Print comma-separated values.")(command)


def dated(command: Command) -> Command:
    """What every entry may say of itself."""
    for option in (
        click.option("--file", "slug", metavar="NAME", help="End of the file's name; made from the title if left out."),
        click.option("--note", metavar="TEXT", help="A remark, in Markdown."),
        click.option("--by", metavar="WHO", help="Who did it: a role such as owner or shop-1."),
        click.option("--reading", metavar="READING", help='What the counters showed: "61204 km", "61204 km, 12.5 h".'),
        click.option("--time", metavar="HH:MM", help="Time of day, where the order within a day matters."),
        click.option("--date", metavar="DATE", help="Day of the work, 2024-03-09; today if left out."),
    ):
        command = option(command)
    return command
