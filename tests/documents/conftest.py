"""The example's history, printed once for all tests and all workers."""

from __future__ import annotations

import os
from io import BytesIO
from pathlib import Path

import pytest
from filelock import FileLock
from keyboard import at_home, typed
from lives import EXAMPLE
from pypdf import PdfReader

from logbook.documents.content import History
from logbook.documents.history.fill import history
from logbook.logbook import Logbook

THIN = "\N{NARROW NO-BREAK SPACE}"


@pytest.fixture(autouse=True)
def _home(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    at_home(monkeypatch, tmp_path_factory.mktemp("home"))


@pytest.fixture(scope="session")
def example() -> History:
    """The content of the example's history."""
    return history(Logbook.open(EXAMPLE))


@pytest.fixture(scope="session")
def report(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example's history as the command writes it; what it said stands beside it in said.txt."""
    base = tmp_path_factory.getbasetemp()
    shared = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "report"
    path = shared / "history.pdf"
    with FileLock(f"{shared}.lock"):
        if not path.exists():
            ran = typed("report", "history", "--in", str(demo), "--out", str(path))
            assert (ran.status, ran.err) == (0, "")
            (shared / "said.txt").write_text(ran.out)
    return path


@pytest.fixture(scope="session")
def pages(report: Path) -> list[str]:
    """The text of each page, a blank wherever the page has any space."""
    return texts_of(report.read_bytes())


def texts_of(data: bytes) -> list[str]:
    """The text of each page of a PDF, thousands together, every space one blank."""
    reader = PdfReader(BytesIO(data))
    return [" ".join(page.extract_text().replace(THIN, "").split()) for page in reader.pages]
