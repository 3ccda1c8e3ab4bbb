"""A serious finding in one view: its photos at the left, beside them what was found, what it means, what to do.

Comes in: a `Spread`. Goes out: slices, the first of which holds photos and text, so that no page break parts them; text for
which there is no room beside the photos follows. On a narrow page all of it stands one below the other.
"""

from __future__ import annotations

from collections.abc import Sequence

from reporter.model.report import Paragraph, Spread
from reporter.typeset.pen import Pen
from reporter.typeset.pictures import CAPTION_GAP, Print, framed, paint_photo, photo, print_of
from reporter.typeset.print_context import PrintContext, SetText
from reporter.typeset.prose import paragraph
from reporter.typeset.slices import Slice, Stick, stick_all
from reporter.typeset.styles import ABOVE, LEAST_PHOTO, MM, PARAGRAPHS, PHOTO_HEIGHT
from reporter.typeset.tags import Tag

_BETWEEN = 3 * MM
"""Between one photo and the next below it."""
_BELOW = 1.25
"""Text may reach so much further down than the photos, as a part of their height, before it runs on below them."""
_NO_BLOCK = -1


def spread(context: PrintContext, block: Spread) -> list[Slice]:
    """Photos and text side by side, and what did not fit there."""
    if context.look.is_narrow:
        parts = [photo(context, one) for one in block.photos]
        parts += [paragraph(context, one, _NO_BLOCK) for one in block.texts]
        return [piece for part in parts for piece in part]
    prints = _prints(context, block)
    across = max(item.size[0] for item in prints)
    for item in prints:
        item.set_caption(context, across)
    high = _stack(prints, 1.0)
    left = across + context.look.gutter
    beside, below = _dealt(context, block.texts, context.look.block - left, high * _BELOW)
    deep = _height(beside)

    def paint(pen: Pen, top: float, height: float) -> None:
        _paint_photos(context, pen, prints, top, _scale(prints, height))
        _paint_texts(pen, beside, left, top)

    whole = framed(max(high, deep), paint, max(_stack(prints, LEAST_PHOTO), deep))
    rest = [piece for one in below for piece in paragraph(context, one, _NO_BLOCK)]
    return stick_all([whole, *rest], Stick.GROUP)


def _prints(context: PrintContext, block: Spread) -> list[Print]:
    """Photos of half the block's width, so high that all of them fit a page."""
    count = len(block.photos)
    most = min(PHOTO_HEIGHT["half"], context.look.room * 0.7 / count)
    return [print_of(context, one, context.look.part(2), most) for one in block.photos]


def _stack(prints: Sequence[Print], scale: float) -> float:
    """The height of photos with their captions, one below the other."""
    captions = sum(CAPTION_GAP + item.caption.height for item in prints)
    return sum(item.size[1] * scale for item in prints) + captions + _BETWEEN * (len(prints) - 1)


def _scale(prints: Sequence[Print], height: float) -> float:
    """How much photos are to be shrunk to stand in a height."""
    fixed = _stack(prints, 0.0)
    return min(1.0, (height - fixed) / (_stack(prints, 1.0) - fixed))


def _dealt(
    context: PrintContext, texts: Sequence[Paragraph], measure: float, most: float
) -> tuple[list[SetText], list[Paragraph]]:
    """The paragraphs that fit beside the photos, and those that do not."""
    beside: list[SetText] = []
    for number, block in enumerate(texts):
        kind = context.look.of(PARAGRAPHS[block.style])
        made = context.lines(block.text, kind, Tag("P", context.root), measure)
        if _height([*beside, made]) > most:
            return beside, list(texts[number:])
        beside.append(made)
    return beside, []


def _height(texts: Sequence[SetText]) -> float:
    return sum(text.height for text in texts) + ABOVE * max(0, len(texts) - 1)


def _paint_photos(context: PrintContext, pen: Pen, prints: Sequence[Print], top: float, scale: float) -> None:
    for item in prints:
        size = item.at(item.size[1] * scale)
        paint_photo(context, pen, item, (pen.left, top), size)
        item.caption.paint(pen, pen.left, top + size[1] + CAPTION_GAP)
        top += size[1] + CAPTION_GAP + item.caption.height + _BETWEEN


def _paint_texts(pen: Pen, texts: Sequence[SetText], left: float, top: float) -> None:
    for text in texts:
        text.paint(pen, pen.left + left, top)
        top += text.height + ABOVE
