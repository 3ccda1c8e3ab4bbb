"""What a photo file says about itself: the EXIF fields that a report may use, and no others.

Comes in: a file's bytes and the image opened from them. Goes out: `Tags`. Runs in a worker. Serial numbers,
names and places are never read out; of a position only that there is one.

Three readers are asked in turn until one knows the date, since none alone knows them all: Pillow's own, exifread on
the EXIF block that Pillow found, exifread on the whole file. Tag numbers and types: JEITA CP-3451 (Exif 2.2), 4.6.
"""

from __future__ import annotations

import logging
import math
import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Any

from reporter.door.frugal import frugal

if TYPE_CHECKING:
    from PIL.Image import Exif, Image

_EXIF, _GPS, _INTEROPERABILITY = 0x8769, 0x8825, 0xA005
_FIELDS = {
    "date": ("EXIF DateTimeOriginal", _EXIF, 0x9003),
    "fraction": ("EXIF SubSecTimeOriginal", _EXIF, 0x9291),
    "offset": ("EXIF OffsetTimeOriginal", _EXIF, 0x9011),
    "make": ("Image Make", 0, 0x010F),
    "model": ("Image Model", 0, 0x0110),
    "orientation": ("Image Orientation", 0, 0x0112),
    "gps_date": ("GPS GPSDate", _GPS, 0x1D),
    "gps_time": ("GPS GPSTimeStamp", _GPS, 7),
    "latitude": ("GPS GPSLatitude", _GPS, 2),
    "longitude": ("GPS GPSLongitude", _GPS, 4),
    "dng": ("Image Tag 0xC612", 0, 0xC612),
    "gamut": ("Interoperability InteroperabilityIndex", _INTEROPERABILITY, 1),
}
"""Each field's name with exifread, and for Pillow its part of the block and its number there."""


@dataclass(frozen=True, slots=True)
class Tags:
    """EXIF fields as text and numbers, still unjudged. A reserved orientation counts as 1."""

    date: str = ""
    fraction: str = ""
    offset: str = ""
    camera: str = ""
    orientation: int = 1
    gps_date: str = ""
    gps_time: tuple[float, ...] = ()
    has_position: bool = False
    raw: bool = False
    adobe_rgb: bool = False


def read_tags(data: bytes, image: Image | None) -> Tags:
    """The fields of one file. Never raises: what cannot be read is missing."""
    found: dict[str, Any] = {}
    with frugal():
        for reader in _readers(data, image):
            found |= {key: value for key, value in reader.items() if not found.get(key)}
            if found.get("date"):
                break
    return Tags(
        date=_text(found.get("date")),
        fraction=_text(found.get("fraction")),
        offset=_text(found.get("offset")),
        camera=_camera(_text(found.get("make")), _text(found.get("model"))),
        orientation=_orientation(found.get("orientation")),
        gps_date=_text(found.get("gps_date")),
        gps_time=_numbers(found.get("gps_time")),
        has_position=bool(_numbers(found.get("latitude")) and _numbers(found.get("longitude"))),
        raw=bool(found.get("dng")),
        adobe_rgb=_text(found.get("gamut")) == "R03",
    )


def _readers(data: bytes, image: Image | None) -> Iterator[Mapping[str, Any]]:
    """Each reader's findings, read only when asked for; the one that made tables cannot hold up stands first."""
    if image is not None:
        yield _by_pillow(image)
        block = image.info.get("exif", b"")
        yield _by_exifread(block[6:] if block.startswith(b"Exif\0\0") else block) if block else {}
    yield _by_exifread(data)


def _by_exifread(data: bytes) -> dict[str, Any]:
    import exifread
    from exifread.core.heic import Box

    logging.getLogger("exifread").setLevel(logging.CRITICAL)
    vars(Box).get("subs", {}).clear()  # a table shared by all files would mix them up
    try:
        tags = exifread.process_file(BytesIO(data), details=False)
    except Exception:  # noqa: BLE001 - nine kinds have been seen, AssertionError among them
        return {}
    found = {key: getattr(tags.get(name), "values", None) for key, (name, *_) in _FIELDS.items()}
    found["dng"] = found["dng"] or getattr(tags.get("Image DNGVersion"), "values", None)
    return found


def _by_pillow(image: Image) -> dict[str, Any]:
    try:
        exif = exif_of(image)
        parts = {0: exif, **{part: exif.get_ifd(part) for part in (_EXIF, _GPS, _INTEROPERABILITY)}}
    except Exception:  # noqa: BLE001 - SyntaxError, ValueError, OSError, struct.error and more on damaged files
        return {}
    found = {key: parts[part].get(number) for key, (_, part, number) in _FIELDS.items()}
    # Without an EXIF block Pillow takes the orientation from XMP, which is not what turns a photo.
    return (
        found if "exif" in image.info or "Raw profile type exif" in image.info else found | {"orientation": 0}
    )


def exif_of(image: Image) -> Exif:
    """The EXIF fields of an image that stand in its EXIF block, where it has one."""
    from PIL import Image as Pillow

    if "exif" not in image.info:
        return image.getexif()
    exif = Pillow.Exif()
    exif.load(image.info["exif"])
    return exif


def _text(value: object) -> str:
    """ASCII text up to the first NUL; readers give text, bytes or a list of characters."""
    if isinstance(value, bytes):
        value = value.decode("ascii", "replace")
    text = value if isinstance(value, str) else ""
    return one_line(text.split("\0")[0], 80)


def one_line(text: str, longest: int) -> str:
    """One line of printable characters, at most so many."""
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())[:longest]


def _numbers(value: object) -> tuple[float, ...]:
    """Three finite numbers, else none: 0/0 is common where there was no fix."""
    try:
        numbers = tuple(float(each) for each in value)  # type: ignore[attr-defined]
    except (TypeError, ValueError, ZeroDivisionError, struct.error):
        return ()
    return numbers if len(numbers) == 3 and all(map(math.isfinite, numbers)) else ()  # noqa: PLR2004


def _orientation(value: object) -> int:
    """CP-3451, tag 0x0112: 1 to 8; anything else is reserved and shown as it lies."""
    first = value[0] if isinstance(value, list | tuple) and len(value) == 1 else value
    return first if isinstance(first, int) and 1 <= first <= 8 else 1  # noqa: PLR2004


def _camera(make: str, model: str) -> str:
    """Make and model, without saying the make twice."""
    return model if model.casefold().startswith(make.casefold()) else f"{make} {model}".strip()
