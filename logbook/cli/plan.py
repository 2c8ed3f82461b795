"""`logbook plan`: what is only thought of: list it, set it beside the engine, write one down, carry one out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import click

from logbook.cli import layout, options, steps
from logbook.cli.compare import print_beside
from logbook.cli.effects import effect_lines, words_below
from logbook.cli.entering import Told, enter, tell, today, without_gaps, written
from logbook.cli.forecast_lines import LEGEND, score_lines
from logbook.cli.reading import reading
from logbook.cli.shapes import difference_shape, print_json, score_shape
from logbook.cli.tables import print_table
from logbook.judge.forecast import Score
from logbook.judge.plans import DONE, OPEN, WITHDRAWN, Planned
from logbook.judge.timeline import TOLD
from logbook.logbook import Logbook
from logbook.quantity.catalogue import did_you_mean
from logbook.record.models import Engine
from logbook.record.write import slug

_NAME = click.argument("name", type=options.LINE)


class _Plans(click.Group):
    """A group that says of a word that is no command how plans are listed and shown."""

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in self.commands:
            how = "logbook plan alone lists them, logbook plan show NAME tells of one"
            near = did_you_mean(name, list(self.commands), how)
            raise click.UsageError(f"`{name}` is nothing to do with plans{near}", ctx)
        return super().get_command(ctx, name)


@click.group("plan", cls=_Plans, invoke_without_command=True)
@options.in_folder
@options.as_json
@options.as_table
@click.pass_context
def command(ctx: click.Context, folder: str, as_json: bool, style: str | None) -> None:
    """List the plans: open, carried out or withdrawn, each with what it would
    make of the engine that it stands on.

    A plan is a file in plans/: `plan write` makes one, and it may be edited.

    \b
    Example:  logbook plan
              logbook plan show half-millimetre-pistons
    """
    ctx.obj = folder
    if ctx.invoked_subcommand:
        return
    with reading(folder) as book:
        if as_json:
            print_json({"plans": [_shape(each) for each in book.plans]})
        elif style:
            rows = [_row(each) for each in book.plans]
            print_table(("plan", "date", "title", "became", "specs that it changes"), rows, style)
        else:
            for line in _lines(book):
                click.echo(line)


def _lines(book: Logbook) -> Iterator[str]:
    plans, engine = book.plans, book.record.engine
    if not plans:
        yield "There are no plans. Write one, or ask what if at once:"
        yield '  logbook plan write NAME --title "…" --fit PART'
        yield "  logbook compare now --suppose fit=PART"
    for number, each in enumerate(plans):
        if number:
            yield ""
        yield from _one(each, engine)


def _one(each: Planned, engine: Engine) -> Iterator[str]:
    yield from layout.titled(each.name)
    yield from layout.wrapped(f"{each.plan.date}  {each.plan.title}: {_became(each)}", 4, hanging=2)
    yield from _from(each)
    yield from effect_lines(_told(each), engine, 4)
    hidden = len(each.effect) - len(_told(each))
    if hidden:
        yield f"    and {hidden} more: logbook plan show {each.name}"
    yield from words_below(_told(each), 4)
    if each.cautions and each.became == OPEN:
        yield from layout.wrapped(f"Careful: {' '.join(each.cautions)}", 4, hanging=2)
    yield from _scored(_leading(each.scores), engine, each)


def _told(each: Planned) -> list[Any]:
    return [change for name, change in each.effect.items() if name in TOLD]


def _leading(scores: Sequence[Score]) -> list[Score]:
    return [score for score in scores if score.name in TOLD]


def _became(each: Planned) -> str:
    if each.became == WITHDRAWN:
        return f"withdrawn {each.plan.withdrawn}"
    return f"carried out {each.done.says.date}, {each.done.id}" if each.done else "open"


def _from(each: Planned) -> Iterator[str]:
    """Where it stands, why it was given up, what it takes for granted."""
    if each.plan.why:
        yield from layout.wrapped(f"because {each.plan.why}", 4)
    if each.because:
        yield from layout.wrapped(f"what it would do cannot be told: {each.because}", 4)
    assumed = ", ".join(name.replace("_", " ") for name in each.plan.assume)
    rests = f", and on an assumed {assumed}" if assumed else ""
    yield from layout.wrapped(f"it stands on {each.start}{rests}", 4)
    yield from _as_planned(each)


def _as_planned(each: Planned) -> Iterator[str]:
    """Whether the change did what was planned, and where it did not."""
    if each.became == DONE and not each.departures:
        yield "    carried out as planned"
    elif each.became == DONE:
        yield "    carried out otherwise than planned:"
        for departure in each.departures:
            yield from layout.wrapped(departure, 6, hanging=2)


def _scored(scores: Sequence[Score], engine: Engine, each: Planned) -> Iterator[str]:
    """The forecast that the change kept against what was found since."""
    if scores and each.became == DONE:
        yield "    forecast → found:"
        yield from score_lines(scores, engine, 4)
        yield from layout.wrapped(LEGEND, 4)


def _shape(each: Planned) -> dict[str, Any]:
    return {
        "name": each.name,
        "title": each.plan.title,
        "date": str(each.plan.date),
        "from": each.start,
        "became": each.became,
        "done": each.done.id if each.done else None,
        "withdrawn": str(each.plan.withdrawn) if each.plan.withdrawn else None,
        "why": each.plan.why,
        "assumed": list(each.plan.assume),
        "because": each.because,
        "effect": {name: difference_shape(change) for name, change in each.effect.items()},
        "cautions": list(each.cautions),
        "departures": list(each.departures),
        "scores": [score_shape(score) for score in each.scores],
    }


def _row(each: Planned) -> tuple[str, ...]:
    return each.name, str(each.plan.date), each.plan.title, _became(each), ", ".join(each.effect)


@command.command("show")
@_NAME
@options.text("--against", shape="POINT", says="Set it beside this point; else beside the one it stands on.")
@options.in_folder
@options.as_json
@options.as_table
@click.pass_obj
def show(above: str, name: str, against: str | None, folder: str, as_json: bool, style: str | None) -> None:
    """Set the engine as plan NAME would make it beside the engine that the plan
    stands on, or beside any other point.

    \b
    Example:  logbook plan show half-millimetre-pistons --against now
    """
    with reading(_folder(folder, above)) as book:
        each = book.plan(name)
        point = against or each.start
        print_beside(book.compare(point, f"plan:{name}"), (point, f"plan:{name}"), as_json, style)
        if not (as_json or style):
            for line in (*_as_planned(each), *_scored(each.scores, book.record.engine, each)):
                click.echo(line)


@command.command("write")
@_NAME
@options.text("--title", shape="TEXT", required=True, says="One line that says what is thought of.")
@steps.fit
@steps.remove
@steps.rework
@steps.step
@options.text("--assume", "assumed", shape="NAME=VALUE", multiple=True,
              says='A figure taken for granted: "gasket_thickness=1.0 mm".')  # fmt: skip
@options.text("--from", "point", shape="POINT", default="now", says="What it stands on; now, which slides.")
@options.planned
@click.pass_context
def write(ctx: click.Context, /, name: str, title: str, assumed: tuple[str, ...], point: str, date: str | None,
          by: str | None, note: str | None, folder: str, even_so: str | None) -> None:  # fmt: skip
    """Write a plan, plans/NAME.yaml, and say what it would do. The steps are
    kept in the order in which you write them; nothing of it is done yet.

    \b
    Example:  logbook plan write head-b-again --title "Head B again"
                --rework "head-b: surface milled 0.20 mm" --fit head-b
    """
    from logbook.specs.supposing import supposed

    more, assume = supposed(assumed)
    work = [*steps.typed(ctx), *more]
    if not (work or assume):
        raise click.UsageError("write at least one step or figure, for example --fit head-b")
    book = Logbook.open(_folder(folder, ctx.obj))
    _refuse_name(book, name)
    head = {"title": title, "date": date or today(), "from": point, "by": by}
    tree = without_gaps({**head, "assume": assume, "work": work, "note": note})
    saved = written(book, f"plans/{name}.yaml", tree, f"Plan: {title}", even_so)
    engine = book.record.engine
    tell(saved, engine, effect=_one(Logbook.open(book.folder).plan(name), engine))


def _refuse_name(book: Logbook, name: str) -> None:
    if slug(name) != name:
        raise click.UsageError(f"a plan is called as its file, in small letters: {slug(name)}")
    if f"plans/{name}.yaml" in book.present:
        raise click.UsageError(f"plans/{name}.yaml is there already: edit it, or choose another name")


@command.command("carry-out")
@_NAME
@options.text("--build", shape="NAME", says="Name what stands after this work.")
@options.dated
@click.pass_obj
def carry_out(above: str, /, name: str, build: str | None, **told: Any) -> None:
    """Write the change that plan NAME became: its steps as done, and the
    forecast of this day, which the timeline then holds against what is found.

    What it assumed, and what a rework was meant to leave, becomes no figure of
    the engine: measure it.

    \b
    Example:  logbook plan carry-out head-b-again --date 2020-04-18
    """
    told["folder"] = _folder(told["folder"], above)
    with reading(told["folder"]) as book:
        says = book.carrying_out(name, told["date"] or today())
    title = says.pop("title")
    enter("changes", {"title": title, "build": build, **says}, title, Told(**told), title)


def _folder(own: str, above: str) -> str:
    """`--in` may stand before or behind the word of what to do."""
    return above if own == "." else own
