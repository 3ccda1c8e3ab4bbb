"""Headings, opening lines of parts, paragraphs with their asides, and lists, composed into slices: one slice per line.

Comes in: blocks of the report. Goes out: slices. Must not know pages or the canvas.
"""

from __future__ import annotations

from string import ascii_lowercase
from typing import Literal

from reporter.model.report import GradeLine, Heading, Item, List, Paragraph, Span, plain
from reporter.typeset.look import Look
from reporter.typeset.manuscript import LOWEST
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext, beside, paint_line
from reporter.typeset.signs import paint_sign
from reporter.typeset.slices import Paint, Slice, Stick, no_paint, paint_first, stick_all, stick_edges
from reporter.typeset.styles import (
    ABOVE,
    ABOVE_TITLES,
    BELOW_TITLES,
    INK,
    MM,
    PARAGRAPHS,
    RGB,
    RULE,
    TITLE,
    TITLES,
    WASH,
    WASH_PAD,
    Type,
)
from reporter.typeset.tags import Artifact, Tag

_SPACE = {"body": ABOVE, "lead": 3 * MM, "small": ABOVE, "note": 1.5 * MM, "formula": ABOVE, "answer": 4 * MM}
_SIDES = {1: 6.2 * MM, 2: 5.6 * MM, 3: 4.6 * MM}
_NAMES = {1: Type("Semibold", 16, 21), 2: Type("Semibold", 14, 18), 3: Type("Semibold", 12, 16)}
_SENTENCE = Type("Regular", 10, 13.5)
_BAR = 1.6
"""How thick the bars beside an answer and above a title are."""


def heading(context: PrintContext, block: Heading, index: int, level: int, *, title: bool) -> list[Slice]:
    """A heading at `level` (1 to 3, without jumps); `title` is the one that opens the first page."""
    look = context.look
    kind = look.of(TITLE if title else TITLES[level])
    tag = context.tag(f"H{level}")
    text = context.clean(block.text).strip() or "–"
    is_wide = level < LOWEST
    slices = context.balanced(plain(text), kind, tag, look.block if is_wide else look.column).slices()
    for piece in slices:
        piece.wide, piece.stick = is_wide, Stick.FIRM
    slices[0].above = ABOVE_TITLES[level] * look.air
    slices[0].new_page = block.new_page
    slices[0].snap = look.air == 1.0
    context.bookmark(slices[0], context.anchor_of(index), block.text, level)
    if is_wide and block.listed and not title:
        slices[0].section = block.tab.strip() or text
    if title:
        slices.insert(
            0,
            Slice(
                _BAR, _ground("layout", 26 * MM, INK), wide=True, below=4 * MM * look.air, stick=Stick.FIRM
            ),
        )
    slices[-1].below = BELOW_TITLES[level] * look.air
    return slices


def paragraph(context: PrintContext, block: Paragraph, index: int) -> list[Slice]:
    """A paragraph, its aside in the side column; a formula is centred in a wash, an answer has a bar at its left."""
    kind = context.look.of(PARAGRAPHS[block.style])
    tag = context.tag("P")
    indent, measure = _measure(context.look, block.style)
    slices = []
    for line in context.lines(block.text, kind, tag, measure).lines:
        shift = (measure - line.width) / 2 if block.style == "formula" else 0.0
        slices.append(Slice(kind.leading, paint_line(line, indent + shift, kind.leading)))
    slices[0].above = _SPACE[block.style] * context.look.air
    slices[0].snap = block.style == "body"
    stick_edges(slices, Stick.FIRM)
    if block.style == "formula":
        slices = washed(slices, context.look.column)
    elif block.style == "answer":
        for piece in slices:
            piece.wide = True
            paint_first(piece, _ground("layout", _BAR, INK, more=0.2))
    if notes := beside(context, block.aside, slices[0], kind):
        slices[-1].stick = Stick.FIRM
        slices += stick_edges(notes, Stick.FIRM)
    if anchor := context.anchor_of(index):
        context.bookmark(slices[0], anchor)
    if block.keep:
        stick_all(slices, Stick.SOFT)
        slices[-1].stick = Stick.FIRM
    return slices


def _measure(look: Look, style: str) -> tuple[float, float]:
    """Indent and line length of a paragraph style."""
    if style == "formula":
        return WASH_PAD, look.column - 2 * WASH_PAD
    if style == "answer":
        return 5 * MM, look.block - (5 if look.is_narrow else 20) * MM
    return 0.0, look.column


def washed(slices: list[Slice], across: float) -> list[Slice]:
    """The slices on a tinted ground `across` points wide, with a margin above and below."""
    edges = [Slice(WASH_PAD, no_paint, wide=slices[0].wide), Slice(WASH_PAD, no_paint, wide=slices[0].wide)]
    edges[0].above, slices[0].above = slices[0].above, 0.0
    edges[1].below = ABOVE
    edges[0].anchor, slices[0].anchor = slices[0].anchor, ""
    edges[0].stick = Stick.FIRM
    slices[0].snap = False
    slices[-1].stick = Stick.FIRM
    whole = [edges[0], *slices, edges[1]]
    for piece in whole:
        piece.wash = True
        paint_first(piece, _ground("background", across, WASH, more=0.3))
    return whole


def _ground(kind: Literal["layout", "background"], across: float, tone: RGB, *, more: float = 0.0) -> Paint:
    """A tinted rectangle at the block's left edge; it reaches `more` below a slice, so that no seam shows to the next."""

    def paint(pen: Pen, top: float, height: float) -> None:
        with pen.mark(Artifact(kind)):
            pen.rectangle((pen.left, top), (across, height + more), fill=tone)

    return paint


def listing(context: PrintContext, block: List) -> list[Slice]:
    """A bulleted or numbered list with its sub-lists."""
    slices = _items(context, block.items, context.root, 0, block.start if block.ordered else None)
    if slices:
        slices[0].above = ABOVE
        slices[0].snap = True
    return slices


def _items(
    context: PrintContext, items: tuple[Item, ...], parent: Tag, depth: int, start: int | None
) -> list[Slice]:
    whole = Tag("L", parent, numbering=_numbering(depth, start))
    slices: list[Slice] = []
    for number, item in enumerate(items):
        slices += _item(context, item, whole, depth, None if start is None else start + number)
    return slices


def _item(context: PrintContext, item: Item, whole: Tag, depth: int, number: int | None) -> list[Slice]:
    """Label and text of an item share its first line; sub-items follow inside the same body."""
    kind = context.look.of(PARAGRAPHS["body"])
    element = Tag("LI", whole)
    label, body = Tag("Lbl", element), Tag("LBody", element)
    indent = min(depth, 6) * 5 * MM
    word = context.lines(plain(_label(depth, number)), kind, label, 20 * MM).lines[0]
    hang = max(5 * MM, word.width + 1.5 * MM)
    left = indent + hang
    slices = context.lines(item.text, kind, body, context.look.column - left).slices(left)

    def begin(pen: Pen, top: float, _height: float) -> None:
        pen.line(word, pen.left + indent, top, kind.leading)
        body.attach()

    paint_first(slices[0], begin)
    slices[0].above = 0.75 * MM
    stick_edges(slices, Stick.FIRM)
    if item.items:
        slices[-1].stick = Stick.SOFT
        slices += _items(context, item.items, body, depth + 1, 1 if number is not None else None)
    return slices


def _label(depth: int, number: int | None) -> str:
    if number is None:
        return "•" if depth == 0 else "–"
    if depth == 1 and 1 <= number <= len(ascii_lowercase):
        return f"{ascii_lowercase[number - 1]})"
    return f"{number}."


def _numbering(depth: int, start: int | None) -> str:
    if start is None:
        return "Disc" if depth == 0 else "None"
    return "LowerAlpha" if depth == 1 else "Decimal"


def grade_line(context: PrintContext, block: GradeLine, index: int, level: int) -> list[Slice]:
    """Sign, grade word, name, place and finding of a part under a thin rule; its bookmark carries the grade as a word."""
    look = context.look
    kind, said, side = look.of(_NAMES[level]), look.of(_SENTENCE), _SIDES[level]
    hang = side + 3 * MM
    tag = context.tag(f"H{level}")
    named = (Span(text=f"{block.word}  ", style="quiet"), Span(text=block.name))
    slices = context.lines(named, kind, tag, look.column - hang).slices(hang)
    paint_first(slices[0], _sign(block, side, kind))
    slices.insert(0, Slice(3 * MM, _rule, wide=True, above=5.5 * MM, snap=True))
    context.bookmark(slices[0], context.anchor_of(index), f"{block.name} · {block.word}", level)
    slices += beside(context, (Span(text=block.place, href=block.place_href),), slices[1], kind, hang)
    if block.sentence:
        sentence = context.lines(plain(block.sentence), said, context.tag("P"), look.column - hang)
        slices += sentence.slices(hang)
    slices[-1].below = 1.5 * MM
    slices[-1].stick = Stick.FIRM
    return stick_all(slices, Stick.FIRM)


def _rule(pen: Pen, top: float, _height: float) -> None:
    with pen.mark(Artifact("layout")):
        pen.rule((pen.left, top), (pen.left + pen.look.block, top), 0.7, RULE)


def _sign(block: GradeLine, side: float, kind: Type) -> Paint:
    """The sign is an artifact here: the word beside it says the same."""

    def paint(pen: Pen, top: float, _height: float) -> None:
        with pen.mark(Artifact("layout")):
            paint_sign(pen, (pen.left, top + (kind.leading - side) / 2), side, block.grade)

    return paint
