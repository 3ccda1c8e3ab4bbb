"""The table of contents, made from the listed headings; page numbers are known before anything is painted.

Comes in: the listed headings. Goes out: one slice per line. Must not know how pages are broken.
"""

from __future__ import annotations

from reporter.model.report import Contents, plain
from reporter.typeset.glyphs import text_width
from reporter.typeset.manuscript import LOWEST, ListedHeading
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext, SetText
from reporter.typeset.setting import Run, SetLine, set_lines
from reporter.typeset.slices import Paint, Slice, Stick, stick_all
from reporter.typeset.styles import ABOVE_TITLES, BELOW_TITLES, BODY, MM, RISE, SECOND, TITLES, Type
from reporter.typeset.tags import Artifact, Tag

_NUMBER_ROOM = 10 * MM
_DOT_STEP = 1.6 * MM
_ONE_PIECE = 36
"""Contents of at most so many lines stay on one page."""


def contents(context: PrintContext, block: Contents, level: int, anchor: str) -> list[Slice]:
    """Heading and lines."""
    kind = context.look.of(TITLES[level])
    title = context.lines(plain(block.title), kind, context.tag(f"H{level}"), context.look.column)
    slices = title.slices()
    slices[0].above = ABOVE_TITLES[level]
    slices[0].new_page = block.new_page
    context.bookmark(slices[0], anchor, block.title, level)
    slices[-1].below = BELOW_TITLES[level]
    for piece in slices:
        piece.stick = Stick.FIRM
    whole = context.tag("TOC")
    for entry in context.headings:
        slices += _entry(context, entry, whole)
    return stick_all(slices, Stick.GROUP) if len(slices) <= _ONE_PIECE else slices


def _entry(context: PrintContext, entry: ListedHeading, whole: Tag) -> list[Slice]:
    """Title, dots and page number: one link; each fragment of the line has its own annotation."""
    is_section = entry.level < LOWEST
    kind = context.look.of(BODY.but(face="Semibold") if is_section else BODY)
    indent = 0.0 if is_section else 5 * MM
    link = Tag("Link", Tag("Reference", Tag("TOCI", whole)))
    run = Run(context.clean(entry.text).strip() or "–", kind, link, f"#{entry.anchor}")
    lines = set_lines([run], context.look.column - indent - _NUMBER_ROOM)
    slices = SetText(lines, kind).slices(indent)
    slices[0].above = 1 * MM if is_section else 0.0
    slices[-1].paint = _last(context, entry, lines[-1], indent, kind)
    return stick_all(slices, Stick.FIRM)


def _last(context: PrintContext, entry: ListedHeading, line: SetLine, indent: float, kind: Type) -> Paint:
    across = context.look.column

    def paint(pen: Pen, top: float, _height: float) -> None:
        base = top + kind.leading / 2 + kind.size * RISE
        page = str(context.page_of.get(entry.anchor, 0) + 1)
        run = Run(page, kind, line.pieces[0].run.tag, f"#{entry.anchor}")
        start, end = indent + line.width + 2 * MM, across - text_width(page, kind) - 2 * MM
        line.pieces[-1].trail = " "
        pen.line(line, pen.left + indent, top, kind.leading)
        with pen.mark(Artifact("layout")):
            at = across - _DOT_STEP * int((across - start) / _DOT_STEP)
            while at < end:
                pen.words(".", kind.but(ink=SECOND), pen.left + at, base)
                at += _DOT_STEP
        number = SetLine()
        number.put(page, run)
        pen.line(number, pen.left + across - number.width, top, kind.leading)

    return paint
