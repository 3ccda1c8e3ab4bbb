"""What every block kind needs at hand while it is composed, and what painting leaves behind.

Comes in: the report and its developed pictures. Goes out: cleaned runs of text, tags, anchors and their pages, bookmarks,
signature fields. Must not compose any block itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from reporter.model.pages import FormField, Picture, SignatureField
from reporter.model.report import Block, GradeLine, Heading, Report, Span, Text
from reporter.typeset.glyphs import Cleaner, strip_controls
from reporter.typeset.look import look_of
from reporter.typeset.manuscript import Manuscript
from reporter.typeset.pen import Pen
from reporter.typeset.setting import Run, SetLine, set_lines
from reporter.typeset.slices import Aside, Paint, Slice, paint_first
from reporter.typeset.styles import ACCENT, MM, NOTE, RISE, SECOND, Type
from reporter.typeset.tags import Tag

_BALANCING = 16
_TALLEST_ASIDE = 110 * MM
"""A taller note is set as lines of its own: a page must be able to hold it beside what it stands next to."""


@dataclass(frozen=True, slots=True, eq=False)
class SetText:
    """A text in lines of one type: painted in one piece, or dealt out line by line."""

    lines: list[SetLine]
    kind: Type

    @property
    def height(self) -> float:
        """In points."""
        return len(self.lines) * self.kind.leading

    def paint(self, pen: Pen, left: float, top: float) -> None:
        """All lines, one below the other."""
        for number, line in enumerate(self.lines):
            pen.line(line, left, top + number * self.kind.leading, self.kind.leading)

    def slices(self, indent: float = 0.0) -> list[Slice]:
        """One slice for each line, `indent` right of the block's left edge."""
        leading = self.kind.leading
        return [Slice(leading, paint_line(line, indent, leading)) for line in self.lines]


class PrintContext(Manuscript):
    """The shared state of one typesetting run; nothing in it outlives the run."""

    def __init__(self, report: Report, pictures: Mapping[str, Picture]) -> None:
        super().__init__(report, pictures)
        self.look = look_of(report.page, report.text, dense=report.dense)
        self.cleaner = Cleaner()
        self.root = Tag("Document", lang=report.lang, title=strip_controls(report.title), attached=True)
        self.page_of: dict[str, int] = {}
        self.fields: list[SignatureField] = []
        self.form: list[FormField] = []
        self._bookmark_level = -1

    def name(self, index: int, block: Block, anchor: str) -> str:
        """Destinations have names of our own: an anchor may hold any letters."""
        return f"block-{index}" if anchor or isinstance(block, Heading | GradeLine) else ""

    def clean(self, text: str) -> str:
        """Text as the fonts can print it."""
        return self.cleaner.clean(text)

    def tag(self, role: str, parent: Tag | None = None, *, alt: str = "") -> Tag:
        """A new element under `parent`, or under the document itself."""
        return Tag(role, parent or self.root, alt=strip_controls(alt))

    def runs(self, text: Text, kind: Type, tag: Tag) -> list[Run]:
        """The spans of a text as runs: each link is a Link element, each foreign span a Span with its language."""
        return [self._run(span, kind, tag) for span in text if span.text]

    def lines(self, text: Text, kind: Type, tag: Tag, measure: float) -> SetText:
        """A text set to a measure."""
        return SetText(set_lines(self.runs(text, kind, tag), measure), kind)

    def balanced(self, text: Text, kind: Type, tag: Tag, measure: float) -> SetText:
        """A text set to lines of nearly one length, as many as `measure` needs, so that no word stands alone."""
        runs = self.runs(text, kind, tag)
        lines = set_lines(runs, measure)
        for step in range(1, _BALANCING):
            narrower = set_lines(runs, measure * (1 - step / (2 * _BALANCING)))
            if len(narrower) > len(lines):
                break
            lines = narrower
        return SetText(lines, kind)

    def bookmark(self, piece: Slice, anchor: str, title: str = "", level: int = 0) -> None:
        """Make `piece` leave the destination `anchor` where it is painted; with `title` and `level` (1 to 3) a bookmark too."""
        piece.anchor = anchor

        def leave(pen: Pen, top: float, _height: float) -> None:
            pen.canvas.bookmarkPage(anchor, fit="XYZ", left=0, top=pen.page[1] - top + 6 * MM)
            if level:
                # A lone title stands beside the sections, not above them; none is more than one deeper than the last.
                self._bookmark_level = min(max(0, level - 2), self._bookmark_level + 1)
                listed = " ".join(strip_controls(title).split()) or "–"
                pen.canvas.addOutlineEntry(listed, anchor, self._bookmark_level, closed=0)

        paint_first(piece, leave)

    def _run(self, span: Span, kind: Type, tag: Tag) -> Run:
        text, lang = self.clean(span.text), self.lang_of(span.lang)
        # What leaves no ink can be neither seen nor described as a link.
        href = self.address(span.href) if text.strip() else ""
        look = _styled(span, kind, linked=bool(href))
        if href:
            tag = Tag("Link", tag, lang=lang)
        elif lang:
            tag = Tag("Span", tag, lang=lang)
        return Run(text, look, tag, href)


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


def paint_line(line: SetLine, indent: float, leading: float, shift: float = 0.0) -> Paint:
    """What paints one line `indent` right of the block's left edge and `shift` below the slice's upper edge."""

    def paint(pen: Pen, top: float, _height: float) -> None:
        pen.line(line, pen.left + indent, top + shift, leading)

    return paint


def beside(context: PrintContext, text: Text, at: Slice, kind: Type, hang: float = 0.0) -> list[Slice]:
    """Hang `text` in the side column at a slice of lines in `kind`; what has no room there is returned as lines below.

    The lines returned begin `hang` points from the block's left edge.
    """
    if not any(span.text.strip() for span in text):
        return []
    look, tag = context.look, context.tag("P")
    aside = None if look.is_narrow else _side_note(context, text, tag, kind)
    if aside is None or aside.height > _TALLEST_ASIDE:
        return context.lines(text, look.of(NOTE), tag, look.column - hang).slices(hang)
    at.aside = aside
    return []


def _side_note(context: PrintContext, text: Text, tag: Tag, beside: Type) -> Aside:
    """A note for the side column, its first line on the baseline of the text in `beside` that it stands next to."""
    look, kind = context.look, context.look.of(NOTE)
    note = context.lines(text, kind, tag, look.side)
    shift = (beside.leading - kind.leading) / 2 + (beside.size - kind.size) * RISE
    left = look.column + look.gutter

    def paint(pen: Pen, top: float, _height: float) -> None:
        note.paint(pen, pen.left + left, top + shift)

    return Aside(shift + note.height, paint)
