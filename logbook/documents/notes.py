"""A note's Markdown to HTML that is safe to print: no raw HTML, no foreign pictures, no address but web and mail.

A note may come from a stranger's folder. Size, brackets and nesting are capped first (the Markdown reader is
quadratic in some of them), raw HTML comes out as the text it was, and what is left goes through a sanitiser last. A
note over a cap is printed as it was typed.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from html import escape

from markdown import Markdown
from markdown.extensions.footnotes import FootnoteExtension
from markdown.extensions.toc import TocExtension

from logbook.documents.figures import kept_together
from logbook.documents.pieces import SafeHtml

MOST_BYTES = 20_000
MOST_BRACKETS = 1_000
DEEPEST = 12

_BETWEEN_TAGS = re.compile(r"(?<=>)[^<]+")
_TAGS = set(
    "h4 h5 h6 p br hr em strong b i code pre blockquote ul ol li dl dt dd table thead tbody tr th td a img sup sub div "
    "del ins".split()
)
_ATTRIBUTES = {"a": {"href", "title"}, "img": {"src", "alt", "title"}, "th": {"style"}, "td": {"style"},
               "li": {"id"}, "sup": {"id"}, "ol": {"start"}}  # fmt: skip


class Notes:
    """Turns the notes of one document into HTML, always the same for the same notes in the same order.

    pictures are the record's own files that may be shown ('files/bore.jpg'), printed under `asset:files/bore.jpg`;
    every other picture leaves its description.
    """

    def __init__(self, pictures: Collection[str] = ()) -> None:
        self._pictures = frozenset(pictures)
        toc = TocExtension(baselevel=4, anchorlink=False)  # a note's headings stand below the document's own
        self._markdown = Markdown(
            extensions=["tables", FootnoteExtension(UNIQUE_IDS=True), "fenced_code", "def_list", "sane_lists", toc]
        )
        self._markdown.preprocessors.deregister("html_block")
        self._markdown.inlinePatterns.deregister("html")

    def html(self, text: str) -> SafeHtml:
        """The note as safe HTML; '' for an empty one."""
        if not text.strip():
            return SafeHtml("")
        if _beyond_caps(text):
            return _as_typed(text)
        try:
            return self._sanitised(self._markdown.reset().convert(text))
        except RecursionError:
            return _as_typed(text)

    def _sanitised(self, html: str) -> SafeHtml:
        import nh3

        clean = nh3.clean(
            html,
            tags=_TAGS,
            attributes=_ATTRIBUTES,
            attribute_filter=self._attribute,
            filter_style_properties={"text-align"},
            url_schemes={"http", "https", "mailto"},
            link_rel=None,
        )
        return SafeHtml(_BETWEEN_TAGS.sub(lambda text: kept_together(text[0]), clean))

    def _attribute(self, tag: str, name: str, value: str) -> str | None:
        """Called for what the sanitiser would keep, so an `asset:` address can only come from here."""
        if (tag, name) == ("img", "src"):
            return f"asset:{value}" if value in self._pictures and value.startswith("files/") else None
        if (tag, name) == ("a", "href"):
            return value if value.startswith(("http:", "https:", "mailto:", "#fn")) else None
        return value if name != "id" or value.startswith("fn") else None


def _beyond_caps(text: str) -> bool:
    return (
        len(text.encode("utf-8", "replace")) > MOST_BYTES
        or sum(text.count(mark) for mark in "[<") > MOST_BRACKETS
        or max(_depth(line) for line in text.splitlines()) > DEEPEST
    )


def _depth(line: str) -> int:
    """How deep a line sits in lists and quotations, counted generously from its first characters."""
    lead = line[: len(line) - len(line.lstrip(" \t>*+-0123456789.)"))]
    width = len(lead.expandtabs(4)) - len(lead.expandtabs(4).lstrip(" "))
    return width // 4 + sum(lead.count(mark) for mark in ">*+-") // (1 if ">" in lead else 4)


def _as_typed(text: str) -> SafeHtml:
    return SafeHtml(f"<pre>{escape(text)}</pre>")
