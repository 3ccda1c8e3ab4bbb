"""From a file's bytes to upright pixels. Runs in a worker.

Comes in: bytes. Goes out: a Pillow image the way up that the photographer held it, in the file's own colours,
and how it came to be turned. Colours are the business of who asks.

A HEIF file's boxes: ISO/IEC 23008-12, 6.5.10 and 6.5.12; their layout: ISO/IEC 14496-12, 4.2 (clause numbers from memory).
Decoders apply them, and the EXIF orientation must then not be applied again; phones exist that write neither.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reporter.door import formats, metadata

if TYPE_CHECKING:
    from PIL.Image import Image

TURNED = "turned as its EXIF says; the file holds no rotation of its own"
_EIGHTHS = {1: 8, 2: 4, 3: 3, 4: 2}
"""Parts of eight at which a JPEG is decoded for little more than its entropy decoding, each by the divisor that gives it.

The library has every whole number of eighths and rounds eight by the divisor up to one: a third asks for three. Pillow's
own `draft` halves only, and a phone's photo at the full width of a page is a little less than three eighths.
"""


@dataclass(frozen=True, slots=True)
class OpenedPhoto:
    """An image whose header is read; `orientation` still has to be applied (CP-3451, tag 0x0112)."""

    image: Image
    tags: metadata.Tags
    orientation: int
    turned: str = ""

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels of the upright photo."""
        width, height = self.image.size
        return (height, width) if self.orientation >= 5 else (width, height)  # noqa: PLR2004


def open_photo(data: bytes, path: Path) -> OpenedPhoto:
    """Reads the header. Raises `Refusal` when the file is no photo or is not to be rendered."""
    image = formats.open_image(data)
    tags = metadata.read_tags(data, image)
    formats.check_renderable(image, raw=tags.raw or formats.is_raw_name(path))
    if image.format != "HEIF":
        # Pillow turns a TIFF while decoding it, and gives its upright size from the start.
        return OpenedPhoto(image, tags, 1 if image.format == "TIFF" else tags.orientation)
    # The reader has applied irot and imir already; only a file with neither still lies on its side.
    told = image.info.get("original_orientation") or 1
    if told not in range(2, 9) or _turns_itself(data):
        return OpenedPhoto(image, tags, 1)
    return OpenedPhoto(image, tags, told, TURNED)


def upright(opened: OpenedPhoto, at_least: tuple[int, int] | None) -> Image:
    """Decodes and turns. A JPEG is decoded at the smallest scale not below `at_least` (upright pixels)."""
    from PIL import Image

    image, orientation = opened.image, opened.orientation
    if at_least:
        width, height = at_least
        _scale(image, (height, width) if orientation >= 5 else (width, height))  # noqa: PLR2004
    image.load()
    how = {
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_270,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_90,
    }.get(orientation)
    return image.transpose(how) if how is not None else image


def _scale(image: Any, at_least: tuple[int, int]) -> None:
    """Lets a JPEG be decoded at the fewest eighths that give `at_least`; other formats have no such way.

    Size, tile and divisor are set as Pillow's `draft` sets them; a test holds every scale against the whole photo.
    """
    width, height = image.size
    for eighths, divisor in _EIGHTHS.items():
        size = -(-width * eighths // 8), -(-height * eighths // 8)
        if size[0] >= at_least[0] and size[1] >= at_least[1] and image.draft(None, image.size):
            image._size, image.decoderconfig = size, (divisor, 0)  # noqa: SLF001
            image.tile = [image.tile[0]._replace(extents=(0, 0, *size))]
            return


def _turns_itself(data: bytes) -> bool:
    """True when a HEIF file has a rotation or mirror property (`irot`, `imir`); a damaged one has none."""
    for meta in _boxes(data, b"meta"):
        for properties in _boxes(meta[4:], b"iprp"):  # `meta` begins with four bytes of version and flags
            for container in _boxes(properties, b"ipco"):
                return any(kind in {b"irot", b"imir"} for kind, _ in _walk(container))
    return False


def _boxes(data: bytes, wanted: bytes) -> Iterator[bytes]:
    return (content for kind, content in _walk(data) if kind == wanted)


def _walk(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """The kind and content of each box in a row."""
    place = 0
    while place + 8 <= len(data):
        size, head = int.from_bytes(data[place : place + 4]), 8
        if size == 1:
            size, head = int.from_bytes(data[place + 8 : place + 16]), 16
        end = len(data) if size == 0 else place + size
        if end < place + head or end > len(data):
            return
        yield data[place + 4 : place + 8], data[place + head : end]
        place = end
