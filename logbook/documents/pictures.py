"""Photographs made fit to print: turned upright, no larger than a page needs, without what a camera wrote into them.

A photograph carries where and when it was taken; a document that goes to a buyer must not. Drawings (SVG) go as they
are: the printers fetch nothing that a drawing asks for.
"""

from __future__ import annotations

import warnings
from io import BytesIO
from pathlib import PurePosixPath
from typing import Any

from logbook.documents.pieces import Asset

LARGEST = 2000  # pixels on the longer side, 300 to the inch over the width of the text
MOST_PIXELS = 100_000_000
_PHOTOGRAPHS = (".jpg", ".jpeg", ".png", ".webp", ".gif", ".tif", ".tiff", ".bmp")
DRAWING = ".svg"


def is_picture(path: str) -> bool:
    """Whether a file's name says that it can be shown."""
    return PurePosixPath(path).suffix.lower() in (*_PHOTOGRAPHS, DRAWING)


def printable(data: bytes, path: str) -> Asset | None:
    """The picture as the page may carry it; None where it cannot be read or is larger than any photograph."""
    if PurePosixPath(path).suffix.lower() == DRAWING:
        return Asset(data, "image/svg+xml")
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(BytesIO(data)) as image:
                return _smaller(image) if image.width * image.height <= MOST_PIXELS else None
    except (OSError, ValueError, SyntaxError, UnidentifiedImageError, Image.DecompressionBombError):
        return None


def _smaller(image: Any) -> Asset:
    from PIL import Image, ImageOps

    upright = ImageOps.exif_transpose(image)
    upright.thumbnail((LARGEST, LARGEST), Image.Resampling.LANCZOS)
    clear = upright.has_transparency_data
    plain = upright.convert("RGBA" if clear else "RGB")
    plain.info = {}  # neither place nor camera nor comment
    out = BytesIO()
    if clear or image.format in ("PNG", "GIF", "BMP"):
        plain.save(out, "PNG", optimize=True)
        return Asset(out.getvalue(), "image/png")
    plain.save(out, "JPEG", quality=88, optimize=True)
    return Asset(out.getvalue(), "image/jpeg")
