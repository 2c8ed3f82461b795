"""The record fingerprint: recomputed by the shell's own tools, and by nothing that is ours."""

import subprocess
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from logbook.store import fingerprint

RECIPE = """
find engine.yaml parts measurements changes tests plans notes log files -type f 2>/dev/null |
    LC_ALL=C sort | tr '\\n' '\\0' | xargs -0 sha256sum | sha256sum
"""


def test_the_recipe_of_the_docstring_gives_the_same(tmp_path: Path) -> None:
    for name in (
        "engine.yaml",
        "specs.yaml",
        ".gitignore",
        "parts/a b.yaml",
        "parts/ä.yaml",
        "parts/Z.yaml",
        "files/x/y.jpg",
    ):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name)
    printed = subprocess.run(["sh", "-c", RECIPE], cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    assert printed.split()[0] == fingerprint.folder_fingerprint(tmp_path)
    assert RECIPE.split() == (fingerprint.__doc__ or "").replace("\\\\", "\\").split("clone:")[1].split()


def test_what_is_generated_does_not_count() -> None:
    plain = {"engine.yaml": b"format: 1\n"}
    assert fingerprint.record_fingerprint(
        {**plain, "specs.yaml": b"1", ".gitignore": b"x"}
    ) == fingerprint.record_fingerprint(plain)


paths = st.sampled_from(["engine.yaml", "parts/a.yaml", "parts/b.yaml", "files/p.jpg", "log/fuel.csv"])


@given(st.dictionaries(paths, st.binary(max_size=4)), st.dictionaries(paths, st.binary(max_size=4)))
def test_two_records_share_a_fingerprint_only_if_they_are_the_same(a: dict[str, bytes], b: dict[str, bytes]) -> None:
    same = fingerprint.record_fingerprint(a) == fingerprint.record_fingerprint(b)
    assert same == (a == b)
