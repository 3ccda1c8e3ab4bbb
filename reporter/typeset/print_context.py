"""The desk: what every block kind needs at hand while it is composed, and what painting leaves behind.

Comes in: the report and its developed pictures. Goes out: cleaned runs of text, tags, anchors and their pages, bookmarks,
signature fields. Must not compose any block itself.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from reporter.errors import LayoutError
from reporter.model.pages import Picture, SignatureField
from reporter.model.photo import Inset, Mark
from reporter.model.report import GradeLine, Heading, Paragraph, Report, Span, Text
from reporter.typeset.glyphs import Cleaner, strip_controls
from reporter.typeset.levels import BookmarkLevels
from reporter.typeset.look import look_of
from reporter.typeset.pen import Pen
from reporter.typeset.setting import Line, Run, set_lines
from reporter.typeset.slices import Aside, Paint
from reporter.typeset.styles import ACCENT, NOTE, RISE, SECOND, Type
from reporter.typeset.tags import Tag

# An address that is not plain ASCII is printed, not linked: it could look like another one.
_OUTWARD = re.compile(r"(https?://|mailto:)[!#-;=?-~]+", re.IGNORECASE)

_BALANCING = 16


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading that the table of contents lists."""

    text: str
    anchor: str
    level: int


class PrintContext:
    """The shared state of one typesetting run; nothing in it outlives the run."""

    def __init__(self, report: Report, pictures: Mapping[str, Picture]) -> None:
        self.report = report
        self.pictures = pictures
        self.look = look_of(report.page, report.text)
        self.cleaner = Cleaner()
        self.root = Tag("Document", lang=report.lang, title=strip_controls(report.title), attached=True)
        self.page_of: dict[str, int] = {}
        self.fields: list[SignatureField] = []
        self.entries: list[Entry] = []
        self.outline = BookmarkLevels()
        # Destinations have names of our own: an anchor may hold any letters.
        self._names: dict[int, str] = {}
        self._places: dict[str, str] = {}
        self._name_anchors()

    def clean(self, text: str) -> str:
        """Text as the fonts can print it."""
        return self.cleaner.clean(text)

    def tag(self, role: str, parent: Tag | None = None, *, alt: str = "") -> Tag:
        """A new element under `parent`, or under the document itself."""
        return Tag(role, parent or self.root, alt=strip_controls(alt))

    def anchor_of(self, index: int) -> str:
        """The name by which a block (by its place in the report) is reached, empty when nothing needs to reach it."""
        return self._names.get(index, "")

    def runs(self, text: Text, kind: Type, tag: Tag) -> list[Run]:
        """The spans of a text as runs: each link is a Link element, each foreign span a Span with its language."""
        return [self._run(span, kind, tag) for span in text if span.text]

    def lines(self, text: Text, kind: Type, tag: Tag, measure: float) -> list[Line]:
        """A text set to a measure."""
        return set_lines(self.runs(text, kind, tag), measure)

    def balanced(self, text: Text, kind: Type, tag: Tag, measure: float) -> list[Line]:
        """A text set to lines of nearly one length, as many as `measure` needs, so that no word stands alone."""
        runs = self.runs(text, kind, tag)
        lines = set_lines(runs, measure)
        for step in range(1, _BALANCING):
            narrower = set_lines(runs, measure * (1 - step / (2 * _BALANCING)))
            if len(narrower) > len(lines):
                break
            lines = narrower
        return lines

    def picture(self, file: str) -> Picture:
        """The developed copy of a photo."""
        try:
            return self.pictures[file]
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

    def _run(self, span: Span, kind: Type, tag: Tag) -> Run:
        lang = span.lang if span.lang != self.report.lang else ""
        href = self._checked(span.href)
        look = _styled(span, kind, linked=bool(href))
        if href:
            tag = Tag("Link", tag, lang=lang)
        elif lang:
            tag = Tag("Span", tag, lang=lang)
        return Run(self.clean(span.text), look, tag, href)

    def _checked(self, href: str) -> str:
        """The address when it may be linked: within the report, to the web or to a mailbox; never a file or a script."""
        if href.startswith("#"):
            if href[1:] not in self._places:
                raise LayoutError(
                    f"A link leads to “{href}”, which is not in the report.", "Report this fault."
                )
            return f"#{self._places[href[1:]]}"
        return href if _OUTWARD.fullmatch(href) else ""

    def _name_anchors(self) -> None:
        for index, block in enumerate(self.report.blocks):
            if not isinstance(block, Heading | GradeLine | Paragraph):
                continue
            if block.anchor or not isinstance(block, Paragraph):
                self._names[index] = f"block-{index}"
            if block.anchor in self._places:
                raise LayoutError(
                    f"Two blocks have the anchor “{block.anchor}”.", "Give each component its own id."
                )
            if block.anchor:
                self._places[block.anchor] = self._names[index]


def _styled(span: Span, kind: Type, *, linked: bool) -> Type:
    """A span's type; a word in a link keeps its face and takes the accent."""
    if span.style == "disc":
        return kind.numbered()
    if span.style == "strong":
        kind = kind.but(face="Bold" if kind.face != "Regular" else "Semibold")
    if span.style in {"below", "above"}:
        kind = kind.script(-0.16 if span.style == "below" else 0.34)
    if span.style == "quiet":
        kind = kind.but(ink=SECOND)
    return kind.but(ink=ACCENT) if linked or span.style == "accent" else kind


def paint_line(line: Line, indent: float, leading: float, shift: float = 0.0) -> Paint:
    """What paints one line `indent` right of the block's left edge and `shift` below the slice's upper edge."""

    def paint(pen: Pen, top: float, _height: float) -> None:
        pen.line(line, pen.left + indent, top + shift, leading)

    return paint


def side_note(context: PrintContext, text: Text, tag: Tag, beside: Type) -> Aside:
    """A note for the side column, its first line on the baseline of the text in `beside` that it stands next to."""
    look, kind = context.look, context.look.of(NOTE)
    lines = context.lines(text, kind, tag, look.side)
    shift = (beside.leading - kind.leading) / 2 + (beside.size - kind.size) * RISE
    left = look.column + look.gutter

    def paint(pen: Pen, top: float, _height: float) -> None:
        for number, line in enumerate(lines):
            pen.line(line, pen.left + left, top + shift + number * kind.leading, kind.leading)

    return Aside(shift + len(lines) * kind.leading, paint)
