"""What every block needs at hand while it becomes HTML: words, names of places, levels of headings, pictures.

Comes in: the report and its developed pictures. Goes out: checked links, ids, levels. Must not write a block itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from reporter.errors import LayoutError
from reporter.model.pages import Picture
from reporter.model.photo import Inset, Mark
from reporter.model.report import Block, Contents, GradeLine, Heading, Paragraph, Report, Span, Text
from reporter.web.markup import Markup, breakable, joined, tag
from reporter.wording import catalogue

# An address that is not plain ASCII is printed, not linked: it could look like another one.
_OUTWARD = re.compile(r"(https?://|mailto:)[!#-;=?-~]+", re.IGNORECASE)
_NAME = re.compile(r"(?!g-)\w[\w.-]*")
_STYLED = {"strong": "strong", "below": "sub", "above": "sup"}


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading that the contents list."""

    text: str
    ident: str
    level: int


class WebContext:
    """The shared state of one run; nothing in it outlives the run."""

    def __init__(self, report: Report, pictures: Mapping[str, Picture]) -> None:
        self.report = report
        self.words = catalogue(report.lang)
        self.heading = ""
        """The id of the heading that the block at hand stands under; it names tables without a caption."""
        self._pictures = pictures
        self._ids: dict[int, str] = {}
        self._places: dict[str, str] = {}
        self._levels = dict(_levels(report.blocks))
        self._name_places()

    def id_of(self, index: int) -> str:
        """The id of a block by its place in the report; headings always have one."""
        return self._ids.get(index, "")

    def level_of(self, index: int) -> int:
        """The level of the heading at `index`; none skips a level downwards (WCAG 2.2, technique G141)."""
        return self._levels[index]

    @property
    def entries(self) -> list[Entry]:
        """Every listed heading but the title."""
        return [
            Entry(block.text, self.id_of(index), self.level_of(index))
            for index, block in enumerate(self.report.blocks)
            if isinstance(block, Heading) and block.listed and index
        ]

    def text(self, text: Text) -> Markup:
        """A text as HTML."""
        return joined(self._span(span) for span in text if span.text)

    def picture(self, file: str) -> Picture:
        """The developed copy of a photo."""
        try:
            return self._pictures[file]
        except KeyError:
            raise LayoutError(
                f"The photo {file} was not developed.", "Check that the photo can be read."
            ) from None

    def insets(self, file: str, marks: Sequence[Mark]) -> list[Path]:
        """The magnified pieces of the inset marks among `marks`: developing makes each different one of a file once."""
        every = (mark for photo in self.report.photos if photo.file == file for mark in photo.marks)
        order = list(dict.fromkeys(mark for mark in every if isinstance(mark, Inset)))
        made = self.picture(file).insets
        return [made[order.index(mark)] for mark in marks if isinstance(mark, Inset)]

    def _span(self, span: Span) -> Markup:
        lang = span.lang if span.lang != self.report.lang else ""
        name, look = _STYLED.get(span.style, "span"), span.style if span.style in {"quiet", "accent"} else ""
        href = self._checked(span.href)
        inner = breakable(span.text)
        if name != "span" or look or (lang and not href):
            inner = tag(name, inner, class_=look, lang="" if href else lang)
        if not href:
            return inner
        return tag(
            "a", inner, href=href, lang=lang, rel="" if href.startswith("#") else "noopener noreferrer"
        )

    def _checked(self, href: str) -> str:
        """The address when it may be linked: within the report, to the web or to a mailbox; never a file or a script."""
        if href.startswith("#"):
            if href[1:] not in self._places:
                raise LayoutError(
                    f"A link leads to “{href}”, which is not in the report.", "Report this fault."
                )
            return f"#{self._places[href[1:]]}"
        return href if _OUTWARD.fullmatch(href) else ""

    def _name_places(self) -> None:
        for index, block in enumerate(self.report.blocks):
            anchor = block.anchor if isinstance(block, Heading | GradeLine | Paragraph) else ""
            if anchor in self._places:
                raise LayoutError(
                    f"Two blocks have the anchor “{anchor}”.", "Give each component its own id."
                )
            if anchor or index in self._levels:
                # A place keeps its own name where an id can hold it, so that a link to it can be sent to somebody.
                self._ids[index] = anchor if _NAME.fullmatch(anchor) else f"g-{index}"
            if anchor:
                self._places[anchor] = self._ids[index]


def _levels(blocks: Sequence[Block]) -> Iterator[tuple[int, int]]:
    last = 0
    for index, block in enumerate(blocks):
        if isinstance(block, Heading | GradeLine | Contents):
            last = min(2 if isinstance(block, Contents) else block.level, last + 1)
            yield index, last
