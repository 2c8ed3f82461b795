"""One record is printed alike by whatever process, in whatever place and time zone, with git or without."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from keyboard import started, typed


@pytest.mark.slow
def test_another_process_elsewhere_without_git_prints_the_same_bytes(twin: Path, tmp_path: Path) -> None:
    assert typed("report", "--in", str(twin), "--out", str(tmp_path / "here.pdf")).status == 0
    shutil.copytree(twin, tmp_path / "a copy elsewhere", ignore=shutil.ignore_patterns(".git"))
    elsewhere = {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C"}
    ran = started("logbook report --out there.pdf --in 'a copy elsewhere'", tmp_path, env=elsewhere)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert (tmp_path / "there.pdf").read_bytes() == (tmp_path / "here.pdf").read_bytes()
