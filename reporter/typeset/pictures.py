"""Photos with their marks, pairs of photos, and drawings: each one Figure element with its caption inside.

Comes in: `Photo`, `PhotoPair`, `Figure`. Goes out: slices; a photo may be shrunk a little to end a page. Must not decode pictures.
"""

from __future__ import annotations

from dataclasses import dataclass

from reporter.model.photo import Mark
from reporter.model.report import Figure, Photo, PhotoPair, Span, Text
from reporter.typeset.desk import Desk
from reporter.typeset.drawings import Easel
from reporter.typeset.overlays import laid_out, paint_overlay
from reporter.typeset.pen import Pen, Spot
from reporter.typeset.setting import Line
from reporter.typeset.slices import Slice
from reporter.typeset.styles import (
    ABOVE_FIGURE,
    BELOW_FIGURE,
    BLOCK,
    CAPTION,
    COLUMN,
    FIGURE_HEIGHT,
    GUTTER,
    HALF,
    LEAST_PHOTO,
    MM,
    PHOTO_HEIGHT,
    SECOND,
    SIDE,
)
from reporter.typeset.tags import Tag

_CAPTION_GAP = 1.6 * MM
_WIDTHS = {"full": BLOCK, "column": COLUMN, "half": HALF}
_BESIDE = {"column": (COLUMN + GUTTER, SIDE), "half": (HALF + GUTTER, HALF)}


@dataclass(slots=True, eq=False)
class _Print:
    """A photo at its natural size on the page, its element, and its caption set to a measure."""

    photo: Photo
    size: Spot
    tag: Tag
    caption: list[Line]
    keyed: tuple[str, ...]
    """The labels that found no room on the photo and stand in the caption."""

    @property
    def caption_height(self) -> float:
        return len(self.caption) * CAPTION.leading

    def at(self, height: float) -> Spot:
        """Width and height when only `height` is there."""
        scale = min(1.0, height / self.size[1])
        return (self.size[0] * scale, self.size[1] * scale)


def photo(desk: Desk, block: Photo) -> list[Slice]:
    """A photo: full width with its caption below, column or half width with its caption beside it."""
    item = _print(desk, block, _WIDTHS[block.size], PHOTO_HEIGHT[block.size])
    if block.size == "full":
        below = item.caption_height + _CAPTION_GAP
        least = item.size[1] * LEAST_PHOTO + below

        def paint(pen: Pen, top: float, height: float) -> None:
            size = item.at(height - below)
            _paint(desk, pen, item, (pen.left, top), size)
            _paint_caption(pen, item.caption, pen.left, top + size[1] + _CAPTION_GAP)

        return [
            Slice(
                item.size[1] + below,
                paint,
                above=ABOVE_FIGURE,
                least=least,
                wide=True,
                snap=True,
                below=BELOW_FIGURE,
            )
        ]
    across, _ = _BESIDE[block.size]
    height = max(item.size[1], item.caption_height)
    least = max(item.size[1] * LEAST_PHOTO, item.caption_height)

    def paint_beside(pen: Pen, top: float, height: float) -> None:
        _paint(desk, pen, item, (pen.left, top), item.at(height))
        _paint_caption(pen, item.caption, pen.left + across, top)

    return [
        Slice(height, paint_beside, above=ABOVE_FIGURE, least=least, wide=True, snap=True, below=BELOW_FIGURE)
    ]


def photo_pair(desk: Desk, block: PhotoPair) -> list[Slice]:
    """Two photos of one height side by side, captions below."""
    pair = [_print(desk, one, HALF, PHOTO_HEIGHT["half"]) for one in (block.left, block.right)]
    tallest = max(item.size[1] for item in pair)
    below = _CAPTION_GAP + max(item.caption_height for item in pair)

    def paint(pen: Pen, top: float, height: float) -> None:
        room = height - below
        for number, item in enumerate(pair):
            left = pen.left + number * (HALF + GUTTER)
            size = item.at(room * item.size[1] / tallest)
            _paint(desk, pen, item, (left, top), size)
            _paint_caption(pen, item.caption, left, top + room + _CAPTION_GAP)

    least = tallest * LEAST_PHOTO + below
    return [
        Slice(
            tallest + below, paint, above=ABOVE_FIGURE, least=least, wide=True, snap=True, below=BELOW_FIGURE
        )
    ]


def figure(desk: Desk, block: Figure) -> list[Slice]:
    """A drawing as wide as asked, or narrower where it would be too tall; caption below."""
    drawing = block.drawing
    wide = BLOCK if block.width == "full" else COLUMN
    scale = min(wide / max(drawing.width, 1e-6), FIGURE_HEIGHT / max(drawing.height, 1e-6))
    size = (drawing.width * scale, drawing.height * scale)
    tag = desk.tag("Figure", alt=drawing.alt)
    caption = desk.lines(block.caption, CAPTION, Tag("Caption", tag), COLUMN) if block.caption else []
    gap = _CAPTION_GAP if caption else 0.0

    def paint(pen: Pen, top: float, _height: float) -> None:
        corner = (pen.left + (wide - size[0]) / 2, top)
        tag.bbox = pen.box(*corner, *size)
        tag.attach()
        with pen.mark(tag):
            Easel(desk, pen, corner, scale).draw(drawing)
        _paint_caption(pen, caption, pen.left, top + size[1] + gap)

    height = size[1] + gap + len(caption) * CAPTION.leading
    return [
        Slice(height, paint, above=ABOVE_FIGURE, wide=block.width == "full", snap=True, below=BELOW_FIGURE)
    ]


def _print(desk: Desk, block: Photo, wide: float, tallest: float) -> _Print:
    picture = desk.picture(block.file)
    ratio = picture.height / picture.width
    size = (wide, wide * ratio) if wide * ratio <= tallest else (tallest / ratio, tallest)
    alt = block.alt or "".join(span.text for span in block.caption) or block.file
    tag = desk.tag("Figure", alt=picture.problem or alt)
    measure = _BESIDE[block.size][1] if block.size in _BESIDE and wide != HALF else min(wide, COLUMN)
    keyed = _keyed(desk, block, size)
    caption = desk.lines(_numbered(block) + _key(keyed), CAPTION, Tag("Caption", tag), measure)
    return _Print(block, size, tag, caption, keyed)


def _shown(desk: Desk, block: Photo) -> tuple[Mark, ...]:
    """The marks, but for a photo that cannot be shown: nothing is pointed out on the plate in its place."""
    return () if desk.picture(block.file).problem else block.marks


def _keyed(desk: Desk, block: Photo, size: Spot) -> tuple[str, ...]:
    """Labels without room at full or at least size; most photos have none."""
    small = (size[0] * LEAST_PHOTO, size[1] * LEAST_PHOTO)
    found = [text for one in (size, small) for _, text in laid_out(desk, _shown(desk, block), one).keyed]
    return tuple(dict.fromkeys(found))


def _key(keyed: tuple[str, ...]) -> Text:
    spans: list[Span] = []
    for number, text in enumerate(keyed):
        spans += [Span(text=f"\n{chr(ord('a') + number % 26)}", style="strong"), Span(text=f"  {text}")]
    return tuple(spans)


def _numbered(block: Photo) -> Text:
    """The caption after the photo's number, unless it already begins with that."""
    opening = "".join(span.text for span in block.caption)[:16].split()
    if str(block.plate) in {word.strip(".:,·") for word in opening}:
        return block.caption
    return (Span(text=f"{block.plate}", style="strong"), Span(text="  "), *block.caption)


def _paint(desk: Desk, pen: Pen, item: _Print, corner: Spot, size: Spot) -> None:
    """Picture, frame, marks and labels are one figure."""
    picture = desk.picture(item.photo.file)
    marks = _shown(desk, item.photo)
    laid = laid_out(desk, marks, size, item.keyed)
    if not laid.is_clean:
        size = item.at(item.size[1] * LEAST_PHOTO)
        laid = laid_out(desk, marks, size, item.keyed)
    item.tag.bbox = pen.box(*corner, *size)
    with pen.mark(item.tag):
        pen.image(picture.file, corner, size)
        paint_overlay(pen, laid, desk.insets(item.photo.file, marks), (corner, size))
        pen.rectangle(corner, size, stroke=SECOND, weight=0.35)


def _paint_caption(pen: Pen, lines: list[Line], left: float, top: float) -> None:
    for number, line in enumerate(lines):
        pen.line(line, left, top + number * CAPTION.leading, CAPTION.leading)
