"""What is printed reaches every terminal: signs that its encoding lacks are written in the letters that it has."""

from __future__ import annotations

import codecs
import os
import sys
import unicodedata
from io import TextIOWrapper

_SIGNS = {"±": "+/-", "→": "->", "−": "-", "…": "...", "×": "x", "–": "-", "’": "'"}


def _in_plain_letters(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    letters = error.object[error.start : error.end]
    return "".join(_SIGNS.get(letter) or _plain(letter) for letter in letters), error.end


def _plain(letter: str) -> str:
    """`ü` as `u`, `²` as `2`, and ? for what has no such form."""
    return unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode() or "?"


def print_what_can_be_printed() -> None:
    """Never stop at a sign that the terminal cannot show."""
    codecs.register_error("plain letters", _in_plain_letters)
    for stream in _open():
        stream.reconfigure(errors="plain letters")


def print_no_more() -> None:
    """Let Python's last flush go nowhere, where the reader of our output has gone."""
    for stream in _open():
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def let_go() -> None:
    """Write what still waits; where it cannot be, drop it: Python's last flush must not change the exit status."""
    try:
        for stream in _open():
            stream.flush()
    except OSError:
        print_no_more()


def _open() -> list[TextIOWrapper]:
    """The streams there are; either may have been closed by the caller."""
    return [stream for stream in (sys.stdout, sys.stderr) if isinstance(stream, TextIOWrapper)]
