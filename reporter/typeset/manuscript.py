"""What every form of a report needs of it at hand: its pictures, where its links lead, the levels of its headings.

Comes in: the report and its developed pictures. Goes out: pictures, checked addresses, names of places, levels from 1 to 3
without jumps (PDF/UA-1, ISO 14289-1, 7.4.2). It sets nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path
from string import ascii_lowercase

from reporter.errors import LayoutError
from reporter.model.pages import Picture
from reporter.model.photo import Inset, Mark
from reporter.model.report import (
    Block,
    Contents,
    GradeLine,
    Heading,
    Paragraph,
    Photo,
    Report,
    Span,
    Text,
    words_of,
)

LOWEST = 3
"""The deepest level of heading."""
# An address that is not plain ASCII is printed, not linked: it could look like another one.
_OUTWARD = re.compile(r"(https?://|mailto:)[!#-;=?-~]+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ListedHeading:
    """A heading that the contents list, and the name by which it is reached."""

    text: str
    anchor: str
    level: int


class Levels:
    """The levels of headings, grade lines and contents; the first is of level 1, and none skips a level downwards."""

    def __init__(self, blocks: Sequence[Block]) -> None:
        self._levels: dict[int, int] = {}
        last = 0
        for index, block in enumerate(blocks):
            wished = _wished(block)
            if wished:
                last = min(wished, last + 1)
                self._levels[index] = last
        first = blocks[0] if blocks else None
        self._title = isinstance(first, Heading) and first.level == 1

    def of(self, index: int) -> int:
        """The level of the block at `index`."""
        return self._levels[index]

    def is_title(self, index: int) -> bool:
        """True for the heading that opens the document."""
        return index == 0 and self._title


def _wished(block: Block) -> int:
    if isinstance(block, Heading | GradeLine):
        return block.level
    return 2 if isinstance(block, Contents) else 0


class Manuscript:
    """A report with its pictures, and the names by which its blocks are reached."""

    def __init__(self, report: Report, pictures: Mapping[str, Picture]) -> None:
        self.report = report
        self.levels = Levels(report.blocks)
        self._pictures = pictures
        self._names: dict[int, str] = {}
        self._places: dict[str, str] = {}
        for index, block in enumerate(report.blocks):
            anchor = block.anchor if isinstance(block, Heading | GradeLine | Paragraph) else ""
            if anchor in self._places:
                raise LayoutError(
                    f"Two blocks have the anchor “{anchor}”.", "Give each component its own id."
                )
            self._names[index] = self.name(index, block, anchor)
            if anchor:
                self._places[anchor] = self._names[index]

    def name(self, index: int, block: Block, anchor: str) -> str:
        """The name that a block is given, its own anchor being known; empty where nothing needs to reach it."""
        raise NotImplementedError

    def anchor_of(self, index: int) -> str:
        """The name by which a block (by its place in the report) is reached, empty when nothing needs to reach it."""
        return self._names.get(index, "")

    @property
    def headings(self) -> list[ListedHeading]:
        """What contents list: every listed heading but the title."""
        return [
            ListedHeading(block.text, self.anchor_of(index), self.levels.of(index))
            for index, block in enumerate(self.report.blocks)
            if isinstance(block, Heading) and block.listed and not self.levels.is_title(index)
        ]

    def lang_of(self, lang: str) -> str:
        """A language to be named: one that is not the report's own."""
        return lang if lang != self.report.lang else ""

    def picture(self, file: str) -> Picture:
        """The developed copy of a photo."""
        try:
            return self._pictures[file]
        except KeyError:
            raise LayoutError(
                f"The photo {file} was not developed.", "Check that the photo can be read."
            ) from None

    def insets(self, file: str, marks: Sequence[Mark]) -> list[Path]:
        """The magnified pieces for the inset marks among `marks`, in their order.

        Developing makes each different inset of a file once, in the order in which the report first shows them.
        """
        wanted = [mark for mark in marks if isinstance(mark, Inset)]
        every = (mark for photo in self.report.photos if photo.file == file for mark in photo.marks)
        order = list(dict.fromkeys(mark for mark in every if isinstance(mark, Inset)))
        made = self.picture(file).insets
        if wanted and len(made) < len(order):
            raise LayoutError(
                f"An inset of {file} was not developed.", "This is a fault of the program: report it."
            )
        return [made[order.index(mark)] for mark in wanted]

    def marks_of(self, block: Photo) -> tuple[Mark, ...]:
        """A photo's marks; on the plate that stands for one that cannot be shown nothing is pointed out."""
        return () if self.picture(block.file).problem else block.marks

    def alt_of(self, block: Photo) -> str:
        """What a photo shows, in words; why it cannot be shown, where that is so."""
        return self.picture(block.file).problem or block.alt or words_of(block.caption) or block.file

    def caption_of(self, block: Photo, keyed: Iterable[str]) -> Text:
        """The photo's number, unless its caption begins with that, the caption, and the words of labels that found no room."""
        opening = words_of(block.caption)[:16].split()
        spans = list(block.caption)
        if str(block.plate) not in {word.strip(".:,·") for word in opening}:
            spans = [Span(text=str(block.plate), style="strong"), Span(text="  "), *spans]
        for letter, words in zip(cycle(ascii_lowercase), keyed, strict=False):
            spans += [Span(text="\n"), Span(text=letter, style="strong"), Span(text=f"  {words}")]
        return tuple(spans)

    def address(self, href: str) -> str:
        """The address when it may be linked: within the report, to the web or to a mailbox; never a file or a script."""
        if href.startswith("#"):
            if href[1:] not in self._places:
                raise LayoutError(
                    f"A link leads to “{href}”, which is not in the report.", "Report this fault."
                )
            return f"#{self._places[href[1:]]}"
        return href if _OUTWARD.fullmatch(href) else ""
