"""The program's own files, which travel with it: templates, typeface and example engine.

Inside the package where it is installed, beside it in a checkout.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from logbook.errors import CannotRead

TEMPLATES, EXAMPLE = "templates", "example_engine"


@cache
def shipped_folder(name: str) -> Path:
    """Where `templates` or `example_engine` lies on this machine. Raises CannotRead if the installation lacks it."""
    package = Path(__file__).resolve().parents[1]
    for place in (package / name, package.parent / name):
        if place.is_dir():
            return place
    raise CannotRead(f"the program's own folder {name} is missing; install it again")


def shipped_file(folder: str, path: str) -> bytes:
    """One of the program's own files. Raises CannotRead if the installation lacks it."""
    try:
        return (shipped_folder(folder) / path).read_bytes()
    except OSError as error:
        raise CannotRead(f"the program's own file {folder}/{path} is missing; install it again") from error


def example_files() -> dict[str, bytes]:
    """Every file of the example engine by its path."""
    root = shipped_folder(EXAMPLE)
    return {str(file.relative_to(root).as_posix()): file.read_bytes()
            for file in sorted(root.rglob("*")) if file.is_file()}  # fmt: skip
