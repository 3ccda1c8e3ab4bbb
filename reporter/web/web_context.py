"""What every block needs at hand while it becomes HTML: words, names of places, levels of headings, pictures.

Comes in: the report and its developed pictures. Goes out: checked links, ids, levels. Must not write a block itself.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from reporter.model.pages import Picture
from reporter.model.report import Block, Contents, GradeLine, Heading, Report, Span, Text
from reporter.typeset.manuscript import Manuscript
from reporter.web.markup import Markup, breakable, joined, tag
from reporter.wording import catalogue

_NAME = re.compile(r"(?!g-)\w[\w.-]*")
_STYLED = {"strong": "strong", "below": "sub", "above": "sup"}


class WebContext(Manuscript):
    """The shared state of one run; nothing in it outlives the run."""

    def __init__(self, report: Report, pictures: Mapping[str, Picture]) -> None:
        super().__init__(report, pictures)
        self.words = catalogue(report.lang)
        self.heading = ""
        """The id of the heading that the block at hand stands under; it names tables without a caption."""

    def name(self, index: int, block: Block, anchor: str) -> str:
        """A place keeps its own name where an id can hold it, so that a link to it can be sent to somebody."""
        if not anchor and not isinstance(block, Heading | GradeLine | Contents):
            return ""
        return anchor if _NAME.fullmatch(anchor) else f"g-{index}"

    def text(self, text: Text) -> Markup:
        """A text as HTML."""
        return joined(self._span(span) for span in text if span.text)

    def _span(self, span: Span) -> Markup:
        lang = self.lang_of(span.lang)
        name, look = _STYLED.get(span.style, "span"), span.style if span.style in {"quiet", "accent"} else ""
        href = self.address(span.href)
        inner = breakable(span.text)
        if name != "span" or look or (lang and not href):
            inner = tag(name, inner, class_=look, lang="" if href else lang)
        if not href:
            return inner
        return tag(
            "a", inner, href=href, lang=lang, rel="" if href.startswith("#") else "noopener noreferrer"
        )
