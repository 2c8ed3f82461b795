"""A page to PDF. The only file that imports the PDF library, and only when a PDF is asked for."""

from __future__ import annotations

import logging
import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from logbook.documents.pieces import Asset
from logbook.documents.typeface import font_assets
from logbook.errors import CannotRender

NEEDED = "apt-get install --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
_WIDEST_PICTURE_DPI = 200


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, its number of pages, and what the PDF library found wanting (a picture that would not load, ...)."""

    data: bytes
    pages: int
    warnings: tuple[str, ...]


def print_page(html: str, assets: Mapping[str, Asset]) -> Printed:
    """The page as tagged PDF: the same bytes for the same page and assets, with the same library and fonts.

    Asks for nothing but `assets` and the shipped typeface. Raises CannotRender, with what to install or to shorten.
    """
    with _collected() as found:
        library = _library()
        fetcher = _asset_fetcher({**font_assets(), **assets})
        try:
            document = library.HTML(string=html, url_fetcher=fetcher, base_url="asset:").render(
                dpi=_WIDEST_PICTURE_DPI, pdf_tags=True
            )
            data = document.write_pdf(pdf_tags=True)
        except RecursionError:
            raise CannotRender("the PDF cannot be made: a note is nested too deeply; make its lists flatter") from None
    return Printed(data, len(document.pages), tuple(dict.fromkeys(found)))


def _library() -> Any:
    try:
        import weasyprint
    except OSError:
        raise CannotRender(f"the PDF cannot be made: this machine lacks a library; install it with: {NEEDED}") from None
    return weasyprint


def _asset_fetcher(assets: Mapping[str, Asset]) -> Any:
    """A fetcher that knows `asset:` and `data:` addresses and refuses every other: no file, no network."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class Assets(URLFetcher):  # type: ignore[misc]  # the library is untyped
        def fetch(self, url: str, headers: Any = None) -> Any:
            asset = assets.get(url)
            if asset is None:
                return super().fetch(url, headers)
            return URLFetcherResponse(url, asset.data, {"Content-Type": asset.media_type})

    return Assets(allowed_protocols={"data"}, allow_redirects=False)


@contextmanager
def _collected() -> Iterator[list[str]]:
    """What the library logs or warns of while it works, as sentences; nothing of it reaches the terminal."""
    found: list[str] = []
    handler = _Collector(found)
    logger = logging.getLogger("weasyprint")
    before = logger.handlers[:], logger.propagate
    logger.handlers, logger.propagate = [handler], False
    try:
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always")
            yield found
    finally:
        logger.handlers, logger.propagate = before
    messages = [str(each.message) for each in caught]
    found += [message for message in messages if "No fonts configured" not in message]  # ours are shipped


class _Collector(logging.Handler):
    def __init__(self, found: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._found = found

    def emit(self, record: logging.LogRecord) -> None:
        self._found.append(record.getMessage())
