"""What is shipped beside the code for the page: the templates and the typeface."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from logbook.documents.pieces import Asset


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


@cache
def template_folder() -> Path:
    """The templates: inside the package where it is installed, beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "templates"
    return installed if installed.is_dir() else package.parent / "templates"


def font_path(face: Face) -> Path:
    """Where that face lies on this machine."""
    return template_folder() / "fonts" / face.file


def font_assets() -> dict[str, Asset]:
    """Every face by its address."""
    return {face.address: Asset(font_path(face).read_bytes(), "font/otf") for face in FACES}
