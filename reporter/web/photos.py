"""Photos with their marks, pairs of photos, and drawings: each one figure with its caption.

Comes in: `Photo`, `PhotoPair`, `Spread`, `Figure`. Goes out: markup with the picture inside it. Must not decode pictures.
"""

from __future__ import annotations

from base64 import b64encode
from pathlib import Path

from reporter.errors import LayoutError
from reporter.model.report import Figure, Photo, PhotoPair, Spread
from reporter.web.drawings import drawing
from reporter.web.marks import FluidOverlay
from reporter.web.markup import Markup, tag
from reporter.web.web_context import WebContext

_UPRIGHT = 1.05


def photo(context: WebContext, block: Photo) -> Markup:
    """A photo as large as the report asks, where the screen has the room."""
    picture = context.picture(block.file)
    look = f"photo {block.size}{' upright' if picture.height / picture.width > _UPRIGHT else ''}"
    return tag("figure", *_inside(context, block), class_=look)


def photo_pair(context: WebContext, block: PhotoPair) -> Markup:
    """Two photos side by side, or one below the other on a phone."""
    sides = (tag("figure", *_inside(context, one), class_="photo") for one in block.photos)
    return tag("div", *sides, class_="pair")


def spread(context: WebContext, block: Spread) -> Markup:
    """Photos, and beside them what is said; below one another on a phone."""
    figures = (tag("figure", *_inside(context, one), class_="photo") for one in block.photos)
    texts = (tag("p", context.text(one.text), class_=one.style) for one in block.texts)
    return tag("div", tag("div", *figures), tag("div", *texts), class_="spread")


def figure(context: WebContext, block: Figure) -> Markup:
    """A drawing with its caption; where it does not fit, it is moved sideways."""
    picture = drawing(context, block.drawing, block.width)
    moved = tag(
        "div", picture, class_="scroll", tabindex=0, role="group", aria_label=context.words("web.drawing")
    )
    caption = tag("figcaption", context.text(block.caption)) if block.caption else ""
    return tag("figure", moved, caption, class_="drawn")


def _inside(context: WebContext, block: Photo) -> tuple[Markup, Markup]:
    """The picture under its marks, and the caption."""
    picture, marks = context.picture(block.file), context.marks_of(block)
    overlay = FluidOverlay(
        picture.height / picture.width, [_data(file) for file in context.insets(block.file, marks)]
    )
    laid = overlay.lay(marks)
    image = tag(
        "img",
        src=_data(picture.file),
        alt=" ".join(context.alt_of(block).split()),
        width=picture.width,
        height=picture.height,
    )
    caption = context.text(context.caption_of(block, [words for _, words in overlay.keyed]))
    return tag("div", image, laid, class_="print"), tag("figcaption", caption)


def _data(file: Path) -> str:
    """The picture itself as an address (RFC 2397): developing writes JPEG only."""
    try:
        return f"data:image/jpeg;base64,{b64encode(file.read_bytes()).decode('ascii')}"
    except OSError as error:
        raise LayoutError(
            f"The copy of a photo cannot be read: {error.strerror}.", "Run it again."
        ) from error
