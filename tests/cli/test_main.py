"""The command itself: its name, its help, its streams and its end, whatever happens."""

from __future__ import annotations

import re
from importlib import import_module
from pathlib import Path

import click
import pytest
from keyboard import git, started, typed

from logbook import __version__
from logbook.cli import streams
from logbook.cli.main import COMMANDS


def test_it_is_called_logbook_however_it_is_started(twin: Path) -> None:
    assert typed("--version") == (0, f"logbook {__version__}\n", "")
    ran = started("logbook specs --inn x", twin)
    assert ran.returncode == 2
    assert ran.stderr.startswith("Usage: logbook specs [OPTIONS] [POINT]\n")
    assert "Usage: logbook [OPTIONS] COMMAND" in typed("-h").out


def test_alone_it_says_what_it_can_do() -> None:
    ran = typed()
    assert (ran.status, ran.out) == (2, "")
    assert ran.err == typed("--help").out


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself_with_an_example(name: str) -> None:
    ran = typed(name, "-h")
    assert (ran.status, ran.err) == (0, "")
    assert re.search(rf"Example: +logbook {name}\b", ran.out)
    assert all(len(line) <= 80 for line in ran.out.splitlines())


def options_of(name: str) -> list[str]:
    command = import_module(f"logbook.cli.{COMMANDS[name][0]}").command
    return [option.opts[0] for option in command.params if isinstance(option, click.Option)]


def test_options_that_commands_share_stand_in_one_order() -> None:
    shared = ["--all", "--title", "--with", "--at-lift", "--date", "--time", "--after", "--reading", "--by", "--note",
              "--file", "--even-so", "--in", "--json", "--csv", "--markdown"]  # fmt: skip
    for name in set(COMMANDS) - {"work", "report"}:
        ours = [option for option in options_of(name) if option in shared]
        assert sorted(ours, key=shared.index) == ours or name == "measure", name
    of_entries = [[o for o in options_of(name) if o in shared[4:]] for name in ("measure", "work")]
    assert of_entries[0] == of_entries[1] == shared[4:13]


def test_a_mistake_of_ours_is_told_in_one_sentence(monkeypatch: pytest.MonkeyPatch, twin: Path) -> None:
    def stumble(self: object, *_: object) -> None:
        raise KeyError("bore")

    monkeypatch.setattr("logbook.logbook.Logbook.at", stumble)
    ran = typed("specs", at=twin)
    assert (ran.status, ran.out) == (2, "")
    assert ran.told[0].startswith("This is a mistake in the program, not in your record: KeyError: 'bore' (")
    assert "test_main.py:" in ran.err
    assert "Traceback" not in ran.err


@pytest.mark.parametrize(
    ("stopped_by", "says"),
    [
        (KeyboardInterrupt(), "Stopped. The record is whole: as it was before this command, or as it is after it."),
        (OSError(28, "No space left on device", "/tm/x"),
         "The disk refused: No space left on device (/tm/x). The record is whole; mend that and try again."),
        (RecursionError(), "The record is nested too deep to be read. Look for a file that was not written by hand."),
    ],
)  # fmt: skip
def test_what_may_stop_a_command(
    monkeypatch: pytest.MonkeyPatch, twin: Path, stopped_by: BaseException, says: str
) -> None:
    def stop(self: object, *_: object) -> None:
        raise stopped_by

    monkeypatch.setattr("logbook.logbook.Logbook.at", stop)
    ran = typed("specs", at=twin)
    assert (ran.status, ran.out, "\n".join(ran.told).strip()) == (2, "", says)


def test_developers_see_all_of_a_mistake(twin: Path) -> None:
    ran = started("logbook specs nowhere", twin, env={"FLAGS": "-X dev"})
    assert "Traceback" in ran.stderr
    assert "logbook.errors.PointUnknown: `nowhere` is no point" in ran.stderr


@pytest.mark.parametrize("encoding", ["latin-1", "cp1252", "cp437", "ascii"])
def test_signs_that_a_terminal_lacks_are_written_in_letters(twin: Path, encoding: str) -> None:
    ran = started("logbook compare as-bought", twin, encoding=None, env={"PYTHONIOENCODING": encoding})
    assert (ran.returncode, ran.stderr) == (0, b"")
    if encoding == "latin-1":
        assert "7.887 ->  8.589  +0.702 ± 0.037  real".encode("latin-1") in ran.stdout


def test_signs_in_letters() -> None:
    streams.print_what_can_be_printed()
    assert "± → − … é ² 測".encode("ascii", "plain letters") == b"+/- -> - ... e 2 ?"


def test_the_c_locale_is_no_obstacle(twin: Path) -> None:
    ran = started("logbook specs", twin, env={"LC_ALL": "C", "LANG": "C"})
    assert (ran.returncode, ran.stdout) == (0, typed("specs", at=twin).out)


@pytest.mark.parametrize("words", ["specs --json", "timeline --all"])
def test_a_reader_who_has_seen_enough_ends_it_quietly(demo: Path, words: str) -> None:
    ran = started(f"logbook {words} | head -c 10; echo ${{PIPESTATUS[0]}}", demo)
    assert (ran.stdout[10:], ran.stderr) == ("0\n", "")


def test_with_every_stream_closed_an_entry_is_saved_all_the_same(own: Path) -> None:
    ran = started("logbook work --title Oil --service oil --date 2024-03-09 <&- >&- 2>&-", own)
    assert ran.returncode == 0
    assert git(own, "log", "-1", "--format=%s") == "Oil\n"
    assert git(own, "status", "--porcelain") == ""


def test_with_no_input_nobody_is_asked(tmp_path: Path) -> None:
    ran = started("logbook new x <&-", tmp_path)
    assert (ran.returncode, ran.stdout) == (2, "")
    assert ran.stderr.endswith("nobody is there to be asked; add --name, --cylinders, --arrangement,\n  --counter\n")


def test_a_full_disk_under_the_output_is_no_finding(twin: Path) -> None:
    ran = started("logbook specs >/dev/full", twin)
    assert ran.returncode == 2
    assert ran.stderr.startswith("The disk refused: No space left on device")
    assert started("logbook specs nowhere 2>/dev/full", twin).returncode == 2


def test_nothing_heavy_is_imported_to_read(twin: Path) -> None:
    ran = started("logbook specs 2>&1 >/dev/null", twin, env={"FLAGS": "-X importtime"})
    loaded = {line.rpartition("|")[2].strip() for line in ran.stdout.splitlines()}
    assert "logbook.cli.layout" in loaded
    assert "logbook.cli.effects" not in loaded  # which only the other commands need
    assert not loaded & {"git", "weasyprint", "jinja2", "matplotlib", "markdown", "PIL", "uncertainties", "filelock"}
