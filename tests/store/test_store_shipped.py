"""The program's own files: found, read, and told plainly where the installation lacks one."""

import pytest

from logbook.errors import CannotRead
from logbook.store import shipped


def test_what_is_there_is_read() -> None:
    assert shipped.shipped_file(shipped.TEMPLATES, "fonts/OFL.txt").startswith(b"Copyright")
    assert shipped.example_files()["private/costs.csv"].startswith(b"entry,amount,currency")


@pytest.mark.parametrize(("folder", "path"), [("templates", "fonts/None.otf"), ("no_such_folder", "x")])
def test_what_is_missing_is_told(folder: str, path: str) -> None:
    with pytest.raises(CannotRead, match=r"the program's own f.* is missing; install it again"):
        shipped.shipped_file(folder, path)
