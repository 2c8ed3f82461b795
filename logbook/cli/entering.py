"""What `measure` and `work` share: the entry's date, its file, and saving it with what was edited by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, NoReturn

import click

from logbook.cli import layout
from logbook.cli.check import print_findings, status_of
from logbook.cli.effects import effect_lines, words_below
from logbook.errors import LogbookError, Refused
from logbook.judge.compare import Difference
from logbook.logbook import Logbook
from logbook.record.finding import Finding
from logbook.record.models import Engine
from logbook.record.strict_yaml import read_yaml
from logbook.record.when import Reading, parse_date, parse_reading
from logbook.record.write import entry_text, slug
from logbook.saving import Saved, save

Tree = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Told:
    """What options.dated asks of every entry, and how it is to be saved."""

    folder: str
    date: str | None
    time: str | None
    after: str | None
    reading: str | None
    by: str | None
    note: str | None
    slug: str | None
    even_so: str | None

    def around(self, says: Mapping[str, Any]) -> Tree:
        """The whole entry: when and by whom, what it says, the remark last; without what was not told."""
        head = {"date": self.date or today(), "time": self.time, "after": self.after, "reading": self.reading}
        return without_gaps({**head, "by": self.by, **says, "note": self.note})


def without_gaps(tree: Mapping[str, Any]) -> Tree:
    """The keys that were given."""
    return {key: value for key, value in tree.items() if value not in (None, "", [], {}, ())}


def figure_typed(text: str, where: str) -> Any:
    """`{all: 0.25 mm}` as it reads in a file; anything else is the text itself. UsageError for broken braces."""
    if not text.startswith("{"):
        return text
    tree, findings = read_yaml(text.encode(), where)
    if findings:
        raise click.UsageError(f"{where}: {findings[0].says}; {findings[0].mend}")
    return tree


def today() -> str:
    """The only place where a command looks at the clock."""
    return date.today().isoformat()


def enter(kind: str, says: Mapping[str, Any], name: str, told: Told, subject: str | None = None) -> None:
    """Save one new entry as `<kind>/<date>-<name>.yaml` and say what it did. Refused leaves all as it was."""
    book = Logbook.open(told.folder)
    follows = None if told.after or told.time else _last_of_the_day(book, told)
    tree = replace(told, after=told.after or follows).around(says)
    path = _free_path(book, kind, f"{tree['date'].removeprefix('about ')}-{slug(told.slug or name)}")
    saved = written(book, path, tree, subject, told.even_so)
    if follows:
        says_so = f"Taken to follow {follows} of the same day; if it does not, correct its `after:`, or tell --time."
        click.echo("\n".join(layout.wrapped(says_so, hanging=2)))
    tell(saved, book.record.engine)


def _last_of_the_day(book: Logbook, told: Told) -> str | None:
    """What is typed later on a day was done later, unless its reading is lower; a remark has no place in the work."""
    day = told.date or today()
    those = [each for each in book.record.entries if each.says.date.text == day and each.kind != "note"]
    return those[-1].id if those and not _reads_less(told.reading, those[-1].says.reading) else None


def _reads_less(typed: str | None, before: Reading) -> bool:
    """Whether a counter showed less than at the entry before."""
    now = {amount.kind: amount.base for amount in parse_reading(typed or "unknown")}
    return any(amount.base > now.get(amount.kind, amount.base) for amount in before)


def written(book: Logbook, path: str, tree: Tree, subject: str | None, even_so: str | None) -> Saved:
    """Save one new file. Where it is refused all stays as it was, and the file is shown."""
    data = entry_text(tree)
    try:
        if not path.startswith("plans/"):
            _refuse_to_come(tree["date"], even_so)
        return save(book.folder, subject, new={path: data}, even_so=even_so)
    except LogbookError as refused:
        click.echo(layout.narrow(str(refused)), err=True)
        click.echo(f"\nThe entry, as it was to stand in {path}:\n\n{data.decode()}", err=True, nl=False)
        raise click.exceptions.Exit(2) from None


def _free_path(book: Logbook, kind: str, stem: str) -> str:
    path, number = f"{kind}/{stem}.yaml", 2
    while path in book.present:
        path, number = f"{kind}/{stem}-{number}.yaml", number + 1
    return path


def _refuse_to_come(day: str, even_so: str | None) -> None:
    """A slip in the year would put the entry behind all that follow."""
    if parse_date(day).first.isoformat() > today() and not even_so:
        raise Refused(
            f"{day} is still to come: this computer's clock says {today()}. Correct the date; what is only thought of "
            'goes into plans/. If the clock is wrong, write --even-so "the clock is wrong"'
        )


def tell(
    saved: Saved, engine: Engine, besides_them: tuple[Finding, ...] = (), effect: Iterable[str] | None = None
) -> None:
    """What a save did: the commit, the files, the specs before and after, and what the check says of the files.

    `besides_them`: findings about the folder and no file of the save's. `effect`: the lines that tell what was done
    where it is no change of the specs of now.
    """
    besides = [sentence for sentence in (saved.finished, saved.recomputed, saved.private, saved.unsaved) if sentence]
    for sentence in besides:
        click.echo("\n".join(layout.wrapped(sentence, hanging=2)))
    if saved.commit is None:
        click.echo("Nothing else has changed." if besides else "Nothing has changed since the last save.")
        _tell_findings(besides_them, saved)
    files = ", ".join(saved.paths[:4]) + (f" and {len(saved.paths) - 4} more" if len(saved.paths) > 4 else "")
    for line in layout.wrapped(f"Saved {files or 'specs.yaml'} as commit {saved.commit[:10]}.", hanging=2):
        click.echo(line)
    for line in _effect(saved.effect, engine) if effect is None else effect:
        click.echo(line)
    about = tuple(finding for finding in saved.findings if finding.file in saved.paths)
    _tell_findings((*about, *besides_them), saved)


def _tell_findings(found: tuple[Finding, ...], saved: Saved) -> NoReturn:
    if found:
        print_findings(found)
    raise click.exceptions.Exit(status_of(found) or int(saved.unsaved is not None))


def tell_effect(effect: Mapping[str, Difference], engine: Engine) -> None:
    """The specs before and after."""
    for line in _effect(effect, engine):
        click.echo(line)


def _effect(effect: Mapping[str, Difference], engine: Engine) -> Iterator[str]:
    changed = tuple(effect.values())
    yield "What this changed in the specs of now:" if changed else "It changed no spec of now."
    yield from effect_lines(changed, engine, 2)
    yield from words_below(changed)
