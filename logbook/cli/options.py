"""Options that several commands share, each once, and what may be typed after them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from unicodedata import category

import click

from logbook.record.when import NotThat, parse_date, parse_reading, parse_time

Command = Callable[..., Any]
Decorator = Callable[[Command], Command]


def words(lines: bool = False, parse: Callable[[str], Any] = str) -> Callable[[str], str]:
    """A reader of what is typed: text that a file and a terminal can hold, and that `parse` can read. It stays text."""

    def read(typed: str) -> str:
        text = "\n".join(typed.splitlines())
        wrong = _wrong(text, lines) or _misread(text, parse)
        if wrong:
            raise click.BadParameter(wrong)
        return text

    return read


def _wrong(text: str, lines: bool) -> str | None:
    if not text.strip():
        return "there is nothing in it; write something, or leave it out"
    if "\n" in text and not lines:
        return "this goes over several lines; write one, and the rest into --note"
    kinds = {category(sign) for sign in text if sign not in "\n\t"}
    if "Cs" in kinds:
        return "there are bytes in it that are not UTF-8; type it in a UTF-8 terminal"
    return "there is a control character in it; write plain text" if "Cc" in kinds else None


def _misread(text: str, parse: Callable[[str], Any]) -> str | None:
    try:
        parse(text)
    except NotThat as problem:
        return f"{problem.says}; {problem.mend}"
    return None


LINE, LINES = words(), words(lines=True)
DATE, TIME, READING = words(parse=parse_date), words(parse=parse_time), words(parse=parse_reading)


def text(*names: str, shape: str, says: str, kind: Callable[[str], str] = LINE, **more: Any) -> Decorator:
    """An option that is followed by words; `shape` stands for them in the help."""
    return click.option(*names, metavar=shape, type=kind, help=says, **more)


in_folder = text("--in", "folder", shape="DIR", default=".", says="The engine's folder, or one inside it.")
as_json = click.option("--json", "as_json", is_flag=True, help="Print JSON, as documented in the README.")
even_so = text("--even-so", shape="REASON", says="Save although something is wrong; the reason goes into the commit.")

suppose = text("--suppose", shape="WHAT", multiple=True,
               says='On top of the point, only thought of: "gasket_thickness=1.0 mm", fit=head-b.')  # fmt: skip
given = text("--given", shape="NAME=VALUE", multiple=True,
             says='Without any folder, from these figures alone: "bore=84 mm".')  # fmt: skip


def as_table(command: Command) -> Command:
    """`--csv` and `--markdown`, for commands that print a table."""
    command = click.option("--markdown", "style", flag_value="markdown", help="Print a Markdown table.")(command)
    return click.option("--csv", "style", flag_value="csv", help="Print comma-separated values.")(command)


by = text("--by", shape="WHO", says="Who did it: a role such as owner or shop-1.")
note = text("--note", shape="TEXT", says="A remark, in Markdown.", kind=LINES)


def planned(command: Command) -> Command:
    """What a plan may say of itself, and how it is saved."""
    day = text("--date", shape="DATE", says="Day of the plan, 2024-03-09; today if left out.", kind=DATE)
    for option in (in_folder, even_so, note, by, day):
        command = option(command)
    return command


def dated(command: Command) -> Command:
    """What every entry may say of itself, and how it is saved: the fields of entering.Told."""
    for option in (
        in_folder,
        even_so,
        text("--file", "slug", shape="NAME", says="End of the file's name; made from the title if left out."),
        note,
        by,
        text("--reading", shape="READING", says='What the counters showed: "61204 km, 12.5 h".', kind=READING),
        text("--after", shape="ENTRY", says="The entry of the same day that this one follows."),
        text("--time", shape="HH:MM", says="Time of day, where the order within a day matters.", kind=TIME),
        text("--date", shape="DATE", says="Day of the work, 2024-03-09; today if left out.", kind=DATE),
    ):
        command = option(command)
    return command
