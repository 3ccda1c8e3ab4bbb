"""One photo to its copy: decode once, destroy what is to be hidden, cut the insets, shrink, convert, write.

Comes in: an `Order` (plain values, so that it can cross to a worker). Goes out: a `Copy`, and JPEG files in
the scratch folder named by what they hold. Runs in a worker. The original is only read.
"""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from reporter.develop import colour
from reporter.door import formats, pixels
from reporter.door.refusal import Refusal

if TYPE_CHECKING:
    from PIL.Image import Image

_QUALITY = 85
_SMALLEST_INSET = 16
_NEAR = 1.05
"""A picture up to so many times as wide as asked for stays as it was decoded: finer than asked, and not mixed again."""
_MARGIN = 2
"""Pixels by which a hidden rectangle is made larger on each side: scaling mixes neighbours."""

Rect = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class InsetOrder:
    """A square piece: centre as fractions of width and height, half side of the width; pixels wanted."""

    x: float
    y: float
    radius: float
    pixels: int


@dataclass(frozen=True, slots=True)
class Order:
    """What is wanted of one file. `box` is the upright width and height (pixels) that the copy fits in."""

    path: str
    root: str
    scratch: str
    sha256: str
    box: tuple[int, int]
    hidden: tuple[Rect, ...] = ()
    insets: tuple[InsetOrder, ...] = ()


@dataclass(frozen=True, slots=True)
class Copy:
    """What was written: file names in the scratch folder, and the copy's size in pixels."""

    name: str
    width: int
    height: int
    insets: tuple[str, ...] = ()


def copy(order: Order) -> Copy:
    """Makes one copy. Raises `Refusal` when the file cannot be shown, or changed since it was read."""
    path = Path(order.path)
    data = formats.take(path, Path(order.root))
    if order.sha256 and hashlib.sha256(data).hexdigest() != order.sha256:
        raise Refusal("it changed during the run", "leave the job folder alone meanwhile, and start again")
    opened, scratch = pixels.open_photo(data, path), Path(order.scratch)
    profile = opened.image.info.get("icc_profile", b"")
    if not profile and opened.tags.adobe_rgb:
        profile = colour.matrix_profile(colour.ADOBE_RGB, colour.ADOBE_CURVE)
    insets: tuple[str, ...] = ()
    size = _fit(opened.size, order.box)
    if order.insets:
        # They need every pixel. To decode a JPEG once more at a fraction costs less than to shrink it from here.
        whole = _hidden(pixels.upright(opened, None), order.hidden)
        insets = tuple(_write(_inset(whole, each), profile, scratch) for each in order.insets)
        if opened.image.format not in {"JPEG", "MPO"}:
            return _made(whole, size, profile, scratch, insets)
        del whole
        opened = pixels.open_photo(data, path)
    image = pixels.upright(opened, size)
    del data, opened
    return _made(_hidden(image, order.hidden), size, profile, scratch, insets)


def _made(
    image: Image, size: tuple[int, int], profile: bytes, scratch: Path, insets: tuple[str, ...]
) -> Copy:
    image = _shrunk(image, size)
    return Copy(_write(image, profile, scratch), *image.size, insets)


def _fit(size: tuple[int, int], box: tuple[int, int]) -> tuple[int, int]:
    """The largest size of the same shape inside `box`, never larger than the original."""
    scale = min(1.0, box[0] / size[0], box[1] / size[1])
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def _shrunk(image: Image, size: tuple[int, int]) -> Image:
    from PIL import Image as Pillow

    if image.width <= size[0] * _NEAR and image.height <= size[1] * _NEAR:
        return image
    # With a gap Pillow averages whole blocks first and filters only what is left to shrink, which costs less.
    return _workable(image).resize(size, Pillow.Resampling.LANCZOS, reducing_gap=2.0)


def _workable(image: Image) -> Image:
    """Palettes and single bits cannot be mixed; they become full colours first."""
    return image.convert("RGBA") if image.mode in {"1", "P", "PA"} else image


def _hidden(image: Image, rects: tuple[Rect, ...]) -> Image:
    if rects:
        image = _workable(image)
    for rect in rects:
        _destroy(image, rect)
    return image


def _destroy(image: Image, rect: Rect) -> None:
    """Puts four averaged colours in place of a rectangle: nothing else of it is left to be brought back."""
    from PIL import Image as Pillow

    width, height = image.size
    left, top, right, bottom = rect
    box = (
        max(0, int(left * width) - _MARGIN),
        max(0, int(top * height) - _MARGIN),
        min(width, -int(-right * width) + 1 + _MARGIN),
        min(height, -int(-bottom * height) + 1 + _MARGIN),
    )
    piece = image.crop(box)
    four = piece.resize((2, 2), Pillow.Resampling.BOX)
    image.paste(four.resize(piece.size, Pillow.Resampling.BILINEAR), box)


def _inset(image: Image, order: InsetOrder) -> Image:
    """The square round the centre, moved inside the photo where it would stick out."""
    width, height = image.size
    side = max(min(round(2 * order.radius * width), width, height), min(_SMALLEST_INSET, width, height))
    left = min(max(round(order.x * width - side / 2), 0), width - side)
    top = min(max(round(order.y * height - side / 2), 0), height - side)
    piece = image.crop((left, top, left + side, top + side))
    return _shrunk(piece, (min(side, order.pixels),) * 2)


def _write(image: Image, profile: bytes, scratch: Path) -> str:
    """Writes sRGB JPEG without metadata."""
    buffer = BytesIO()
    colour.to_srgb(image, profile).save(buffer, "JPEG", quality=_QUALITY, subsampling="4:2:0")
    return put(buffer.getvalue(), scratch)


def put(content: bytes, scratch: Path) -> str:
    """Writes a picture under the name of its content, which is returned; writing it twice does no harm."""
    name = hashlib.sha256(content).hexdigest()[:32] + ".jpg"
    unfinished = scratch / f"{name}.{os.getpid()}"
    unfinished.write_bytes(content)
    unfinished.replace(scratch / name)
    return name
