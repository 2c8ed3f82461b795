"""The typeface of the page: its faces, and where they lie."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from logbook.documents.pieces import Asset
from logbook.store.shipped import TEMPLATES, shipped_file, shipped_folder


@dataclass(frozen=True, slots=True)
class Face:
    """One face of the typeface; file is its name in templates/fonts/."""

    file: str
    weight: int
    style: str

    @property
    def address(self) -> str:
        """The address by which page.css asks for it."""
        return f"asset:fonts/{self.file}"


FAMILY = "Inter"
FACES = (
    Face("Inter-Regular.otf", 400, "normal"),
    Face("Inter-Italic.otf", 400, "italic"),
    Face("Inter-SemiBold.otf", 600, "normal"),
    Face("Inter-SemiBoldItalic.otf", 600, "italic"),
)


def font_path(face: Face) -> Path:
    """Where that face lies on this machine."""
    return shipped_folder(TEMPLATES) / "fonts" / face.file


def font_data(face: Face) -> bytes:
    """The face itself."""
    return shipped_file(TEMPLATES, f"fonts/{face.file}")


def font_assets() -> dict[str, Asset]:
    """Every face by its address."""
    return {face.address: Asset(font_data(face), "font/otf") for face in FACES}
