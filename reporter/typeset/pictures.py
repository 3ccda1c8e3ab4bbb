"""Photos with their marks, pairs of photos, and drawings: each one Figure element with its caption inside.

Comes in: `Photo`, `PhotoPair`, `Figure`. Goes out: slices; a photo may be shrunk a little to end a page. Must not decode pictures.
"""

from __future__ import annotations

from dataclasses import dataclass

from reporter.model.drawing import XY
from reporter.model.report import Figure, Photo, PhotoPair
from reporter.typeset.drawings import Easel, leads, lettered
from reporter.typeset.overlays import laid_out, paint_overlay
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext, SetText
from reporter.typeset.slices import Paint, Slice, Stick, stick_edges
from reporter.typeset.styles import (
    ABOVE_FIGURE,
    BELOW_FIGURE,
    CAPTION,
    FIGURE_HEIGHT,
    LEAST_PHOTO,
    MM,
    PHOTO_HEIGHT,
    SECOND,
    SMALL_FIGURE,
)
from reporter.typeset.tags import Tag

CAPTION_GAP = 1.6 * MM
_WIDEST_CAPTION = 80 * MM
_LONGEST_CAPTION = 0.25
"""A caption taller than this part of a page is dealt out line by line."""
_TALLEST = 0.6
"""A photo is never taller than this part of a page."""


@dataclass(slots=True, eq=False)
class Print:
    """A photo at its natural size on the page, its element, and its caption set to a measure."""

    photo: Photo
    size: XY
    tag: Tag
    keyed: tuple[str, ...]
    """The labels that found no room on the photo and stand in the caption."""
    caption: SetText

    def set_caption(self, context: PrintContext, measure: float) -> None:
        """Set the caption, with the words of labels that found no room, to a measure."""
        text = context.caption_of(self.photo, self.keyed)
        self.caption = context.lines(text, self.caption.kind, Tag("Caption", self.tag), measure)

    def at(self, height: float) -> XY:
        """Width and height when only `height` is there."""
        scale = min(1.0, height / self.size[1])
        return (self.size[0] * scale, self.size[1] * scale)


def photo(context: PrintContext, block: Photo) -> list[Slice]:
    """A photo: full width with its caption below, else with its caption beside it where the page has room for that."""
    look = context.look
    if block.size == "full" or look.is_narrow:
        return _row(context, [print_of(context, block, look.block, PHOTO_HEIGHT["full"])])
    item = print_of(
        context, block, look.photo if block.size == "column" else look.half, PHOTO_HEIGHT[block.size]
    )
    across = item.size[0] + look.gutter
    item.set_caption(context, min(look.block - across, _WIDEST_CAPTION))
    if item.caption.height > _longest_caption(context):
        return _row(context, [item])

    def paint(pen: Pen, top: float, height: float) -> None:
        paint_photo(context, pen, item, (pen.left, top), item.at(height))
        item.caption.paint(pen, pen.left + across, top)

    least = max(item.size[1] * LEAST_PHOTO, item.caption.height)
    return [framed(max(item.size[1], item.caption.height), paint, least)]


def photo_pair(context: PrintContext, block: PhotoPair) -> list[Slice]:
    """Two or three photos of one height side by side, captions below; one after another on a narrow page."""
    photos = block.photos
    if context.look.is_narrow:
        return [piece for one in photos for piece in photo(context, one)]
    wide = context.look.part(len(photos))
    return _row(context, [print_of(context, one, wide, PHOTO_HEIGHT["half"]) for one in photos])


def _row(context: PrintContext, prints: list[Print]) -> list[Slice]:
    """Photos side by side with their captions below; captions too long for that follow line by line."""
    look = context.look
    wide = look.part(len(prints))
    for item in prints:
        item.set_caption(context, min(wide, look.column))
    tallest = max(item.size[1] for item in prints)
    long = [item for item in prints if item.caption.height > _longest_caption(context)]
    for item in long:
        item.set_caption(context, look.column)
    shown = [item for item in prints if item not in long]
    below = CAPTION_GAP + max((item.caption.height for item in shown), default=0.0)

    def paint(pen: Pen, top: float, height: float) -> None:
        room = height - below
        for number, item in enumerate(prints):
            left = pen.left + number * (wide + look.gutter)
            size = item.at(room * item.size[1] / tallest)
            paint_photo(context, pen, item, (left, top), size)
            if item in shown:
                item.caption.paint(pen, left, top + (room if len(prints) > 1 else size[1]) + CAPTION_GAP)

    whole = framed(tallest + below, paint, tallest * LEAST_PHOTO + below)
    return _with_lines(whole, [item.caption for item in long])


def _with_lines(whole: Slice, captions: list[SetText]) -> list[Slice]:
    """A figure and the lines of captions that did not fit beside or below it."""
    rest = [piece for caption in captions for piece in caption.slices()]
    if rest:
        whole.stick, whole.below, rest[-1].below = Stick.FIRM, 0.0, BELOW_FIGURE
    return [whole, *stick_edges(rest, Stick.FIRM)]


def framed(height: float, paint: Paint, least: float) -> Slice:
    """The slice of a picture: on the grid, with air about it."""
    return Slice(height, paint, above=ABOVE_FIGURE, least=least, wide=True, snap=True, below=BELOW_FIGURE)


def _longest_caption(context: PrintContext) -> float:
    return context.look.room * _LONGEST_CAPTION


def figure(context: PrintContext, block: Figure) -> list[Slice]:
    """A drawing as wide as asked, or narrower where it would be too tall; caption below.

    On a narrow page a drawing broader than it is high is set on its side, since its words keep their size.
    """
    look, drawing = context.look, block.drawing
    tag = context.tag("Figure", alt=drawing.alt)
    caption = SetText([], look.of(CAPTION))
    if block.caption:
        caption = context.lines(block.caption, caption.kind, Tag("Caption", tag), look.column)
    beneath = caption.height + (CAPTION_GAP if block.caption else 0.0)
    is_long = beneath > _longest_caption(context)
    below = 0.0 if is_long else beneath
    wide = {"small": SMALL_FIGURE, "column": look.column, "full": look.block}[block.width]
    turned = look.is_narrow and drawing.width > drawing.height
    tallest = min(FIGURE_HEIGHT, look.room * block.most - below)
    scale, lettering = lettered(drawing, (tallest, wide) if turned else (wide, tallest), context)
    across, down = drawing.width * scale, drawing.height * scale + lettering.key
    size = (down, across) if turned else (across, down)

    def paint(pen: Pen, top: float, _height: float) -> None:
        corner = (pen.left + (wide - size[0]) / 2, top)
        tag.bbox = pen.box(*corner, *size)
        tag.attach()
        with pen.mark(tag), pen.on_its_side((corner[0] + size[0], top), turned=turned):
            easel = Easel(context, pen, (corner[0] + size[0], top) if turned else corner, scale)
            easel.draw(drawing, lettering)
            # An annotation cannot be turned with the picture: there the key beneath has the links.
            for shape in filter(leads, drawing.shapes if turned else ()):
                easel.show(shape)
        for shape in filter(leads, () if turned else drawing.shapes):
            easel.link(shape, tag)
        if not is_long:
            caption.paint(pen, pen.left, top + size[1] + CAPTION_GAP)

    whole = Slice(
        size[1] + below, paint, above=ABOVE_FIGURE, wide=block.width == "full", snap=True, below=BELOW_FIGURE
    )
    return _with_lines(whole, [caption] if is_long else [])


def print_of(context: PrintContext, block: Photo, wide: float, tallest: float) -> Print:
    """A photo as large as a width and a height allow, its caption not yet set."""
    picture = context.picture(block.file)
    ratio = picture.height / picture.width
    tallest = min(tallest, context.look.room * _TALLEST)
    size = (wide, wide * ratio) if wide * ratio <= tallest else (tallest / ratio, tallest)
    tag = context.tag("Figure", alt=context.alt_of(block))
    return Print(block, size, tag, _keyed(context, block, size), SetText([], context.look.of(CAPTION)))


def _keyed(context: PrintContext, block: Photo, size: XY) -> tuple[str, ...]:
    """Labels without room at full or at least size; most photos have none."""
    small = (size[0] * LEAST_PHOTO, size[1] * LEAST_PHOTO)
    found = [
        text for one in (size, small) for _, text in laid_out(context, context.marks_of(block), one).keyed
    ]
    return tuple(dict.fromkeys(found))


def paint_photo(context: PrintContext, pen: Pen, item: Print, corner: XY, size: XY) -> None:
    """Picture, frame, marks and labels are one figure."""
    picture = context.picture(item.photo.file)
    marks = context.marks_of(item.photo)
    laid = laid_out(context, marks, size, item.keyed)
    if not laid.is_clean:
        size = item.at(item.size[1] * LEAST_PHOTO)
        laid = laid_out(context, marks, size, item.keyed)
    item.tag.bbox = pen.box(*corner, *size)
    with pen.mark(item.tag):
        pen.image(picture.file, corner, size)
        paint_overlay(pen, laid, context.insets(item.photo.file, marks), (corner, size))
        pen.rectangle(corner, size, stroke=SECOND, weight=0.35)
