"""From a path to an opened image: which files are taken, and what is said about those that are not.

Comes in: a path. Goes out: the file's bytes, read once, and a Pillow image whose pixels are not decoded yet.
Runs in a worker. Follows no link, waits for no pipe, changes nothing.
"""

from __future__ import annotations

import os
import stat
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from reporter.door.refusal import Refusal

if TYPE_CHECKING:
    from io import BufferedReader

    from PIL.Image import Image
    from PIL.ImageFile import ImageFile

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "HEIF", "AVIF")
"""What Pillow may open. Files of several JPEGs (MPO) come in by the JPEG reader."""
MOST_PIXELS = 210_000_000
"""The largest phone sensors give 200 megapixels (16384 x 12288 = 201 million)."""
MOST_BYTES = 400_000_000
PLAIN = sum(getattr(os, name, 0) for name in ("O_NOFOLLOW", "O_NONBLOCK", "O_BINARY"))
"""How a file is opened that must be no link and no pipe; not every system has each flag."""
_LONGEST_TEXT = 16 * 1024**2
"""What an editing program may write into a PNG about its own work, unpacked; Pillow's own limit is a sixteenth."""
_UNSCALED = {"I": "whole numbers of 32 bits", "F": "numbers with decimals"}
"""Modes of measured fields: nothing in the file says which value is black and which is white."""

_JPEG = b"\xff\xd8\xff"
_EXPORT = "export it as JPEG and put that here instead"
_BEGINNINGS: tuple[tuple[int, bytes, str], ...] = (
    (0, b"%PDF", "a PDF document"),
    (0, b"GIF8", "a GIF image"),
    (0, b"BM", "a BMP image"),
    (0, b"PK\x03\x04", "a ZIP archive or an office document"),
    (0, b"8BPS", "a Photoshop document"),
    (0, b"\x1a\x45\xdf\xa3", "a film"),
    (0, b"<svg", "an SVG drawing"),
    (0, b"<?xml", "an XML document"),
    (0, b"<!DOCTYPE", "a web page"),
    (0, b"<html", "a web page"),
    (0, b"\xff\x0a", "a JPEG XL image"),
    (4, b"JXL ", "a JPEG XL image"),
    (4, b"ftypcrx", "a camera raw file"),
    (0, b"FUJIFILMCCD-RAW", "a camera raw file"),
    (4, b"ftypqt", "a film"),
    (4, b"ftypmp4", "a film"),
    (4, b"ftypisom", "a film"),
    (4, b"ftypM4V", "a film"),
    (4, b"ftyp3g", "a film"),
    (4, b"moov", "a film"),
)
_IMAGE_BEGINNINGS = (b"\xff\xd8", b"\x89PNG", b"RIFF")
_TIFF_BEGINNINGS = (b"II*\0", b"MM\0*")
_RAW_SUFFIXES = {".dng", ".cr2", ".cr3", ".nef", ".arw", ".orf", ".rw2", ".raf", ".pef", ".srw"}


def _readers(data: bytes) -> tuple[str, ...]:
    """The formats that `data` can be, their readers loaded: the one that most photos need, else all of `FORMATS`."""
    from importlib import import_module

    from PIL import Image

    Image.MAX_IMAGE_PIXELS = None  # `check_renderable` has a limit of its own
    if data.startswith(_JPEG):
        return FORMATS[:1]
    from pi_heif import register_heif_opener
    from PIL import PngImagePlugin

    for name in ("Png", "WebP", "Tiff", "Avif"):
        import_module(f"PIL.{name}ImagePlugin")  # Image.open with formats= does not load them all by itself
    register_heif_opener(thumbnails=False, decode_threads=1)
    PngImagePlugin.MAX_TEXT_CHUNK = _LONGEST_TEXT
    return FORMATS


def take(path: Path, root: Path) -> bytes:
    """The bytes of a photo file, read once. Raises `Refusal` for all but ordinary, readable files below `root`."""
    if not path.parent.resolve().is_relative_to(root.resolve()):
        raise Refusal("it lies outside the job folder", "copy it into the folder")
    try:
        if path.is_symlink():
            raise Refusal("it is a link", "put the photo itself here")
        if path.is_dir():
            raise Refusal("it is a folder", "rename the folder, or take it out")
        with os.fdopen(os.open(path, os.O_RDONLY | PLAIN), "rb") as file:
            return _ordinary(file)
    except FileNotFoundError:
        raise Refusal(
            "it is not there any more", "put it back, and leave the folder alone while it is read"
        ) from None
    except PermissionError:
        raise Refusal("you may not read it", "change its permissions so that you can open it") from None
    except OSError as fault:
        raise Refusal(
            f"it cannot be read ({fault.strerror or fault})", "copy it again from the camera"
        ) from None


def _ordinary(file: BufferedReader) -> bytes:
    about = os.fstat(file.fileno())
    if not stat.S_ISREG(about.st_mode):
        raise Refusal("it is not an ordinary file", "take it out")
    if about.st_size == 0:
        raise Refusal("it is empty", "copy it again from the camera")
    data = file.read(min(about.st_size, MOST_BYTES) + 1)
    if len(data) > MOST_BYTES:
        raise Refusal(f"it is larger than {MOST_BYTES // 1_000_000} MB", _EXPORT)
    return data


def open_image(data: bytes) -> ImageFile:
    """The image in `data`, header only. Raises `Refusal` for what is no photo, by its format's name."""
    from PIL import Image, UnidentifiedImageError

    try:
        return Image.open(BytesIO(data), formats=_readers(data))
    except UnidentifiedImageError:
        raise Refusal(*_instead(data)) from None


def check_renderable(image: Image, *, raw: bool) -> None:
    """Raises `Refusal` when the pixels are not to be used although the header is good."""
    if raw:
        raise Refusal("it is a camera raw file", _EXPORT)
    if image.mode in _UNSCALED:
        said = f"it holds {_UNSCALED[image.mode]}, and nothing says which of them is black or white"
        raise Refusal(said, _EXPORT)
    width, height = image.size
    if width * height > MOST_PIXELS:
        size = f"{width} x {height} = {width * height / 1e6:.0f} megapixels"
        most = f"export it with at most {MOST_PIXELS // 1_000_000} megapixels"
        raise Refusal(f"it is too large to render ({size})", most)


def is_raw_name(path: Path) -> bool:
    """True for the usual endings of camera raw files, whose first image is only a small preview."""
    return path.suffix.lower() in _RAW_SUFFIXES


def _instead(data: bytes) -> tuple[str, str]:
    """What a file is that is no photo, and what to do."""
    for offset, beginning, name in _BEGINNINGS:
        if data[offset : offset + len(beginning)] == beginning:
            return (
                f"it is {name}, not a photo",
                _EXPORT if "image" in name or "raw" in name else "take it out",
            )
    if data.startswith(_TIFF_BEGINNINGS):
        return "it is a TIFF that is damaged or of a kind that cannot be read", _EXPORT
    if data.startswith(_IMAGE_BEGINNINGS) or data[4:8] == b"ftyp":
        return "it begins like a photo but is damaged", "copy it again from the camera"
    if not data.strip(b"\0"):
        return "it holds nothing but zeros", "copy it again from the camera"
    return "it is not a photo, whatever its name says", "take it out, or copy the photo again from the camera"
