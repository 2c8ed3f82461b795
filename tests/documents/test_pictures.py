"""Photographs made fit to print: upright, small enough, and silent about where and with what they were taken."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image

from logbook.documents import pictures
from logbook.documents.pictures import LARGEST, is_picture, printable

ORIENTATION, MAKER, PLACE = 0x0112, 0x010F, 0x8825


def photograph(width: int, height: int, kind: str = "JPEG", mode: str = "RGB") -> bytes:
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # taken with the camera on its side
    exif[MAKER] = "A maker of cameras"
    exif.get_ifd(PLACE)[1] = "N"
    out = BytesIO()
    Image.new(mode, (width, height), 128 if mode == "L" else (10, 20, 30, 40)[: len(mode)]).save(out, kind, exif=exif)
    return out.getvalue()


def test_it_is_turned_upright_and_carries_nothing_of_the_camera() -> None:
    asset = printable(photograph(3000, 1000), "files/a.jpg")
    assert asset is not None
    assert asset.media_type == "image/jpeg"
    assert b"maker of cameras" not in asset.data
    with Image.open(BytesIO(asset.data)) as image:
        assert image.size == (667, LARGEST)
        assert dict(image.getexif()) == {}


def test_a_picture_with_clear_parts_stays_one() -> None:
    asset = printable(photograph(20, 10, "PNG", "RGBA"), "files/a.png")
    assert asset is not None
    assert asset.media_type == "image/png"
    with Image.open(BytesIO(asset.data)) as image:
        assert (image.mode, image.size) == ("RGBA", (10, 20))


def test_the_same_photograph_gives_the_same_bytes() -> None:
    data = photograph(300, 200, mode="L")
    assert printable(data, "a.jpg") == printable(data, "a.jpg")


def test_a_drawing_goes_as_it_is() -> None:
    asset = printable(b"<svg/>", "files/a.SVG")
    assert asset is not None
    assert (asset.data, asset.media_type) == (b"<svg/>", "image/svg+xml")


@pytest.mark.parametrize("data", [b"", b"no picture", photograph(300, 200)[:200], b"\x89PNG\r\n\x1a\n" + b"\0" * 40])
def test_what_cannot_be_read_is_no_picture(data: bytes) -> None:
    assert printable(data, "files/a.jpg") is None


def test_what_is_larger_than_any_photograph_is_no_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_PIXELS", 100 * 100)
    assert printable(photograph(101, 100), "files/a.jpg") is None
    assert printable(photograph(100, 100), "files/a.jpg") is not None


def test_a_files_name_says_whether_it_can_be_shown() -> None:
    assert [each for each in ("a.jpg", "a.JPEG", "a.svg", "a.csv", "a.pdf", "a") if is_picture(each)] == [
        "a.jpg", "a.JPEG", "a.svg"
    ]  # fmt: skip
