"""Colours: from whatever a camera, a scanner or a phone wrote to 8-bit sRGB. Runs in a worker.

Comes in: a Pillow image with its ICC profile, if it has one. Goes out: an RGB image in sRGB (IEC 61966-2-1),
without any metadata. The target profile is a file of ours: one made by the library differs from run to run.

Some cameras say "Adobe RGB" in their EXIF and write no profile: `matrix_profile` makes one. ICC.1:2001-04 (version 2):
header 6.1, tags 6.3 and 6.4, matrix profile 6.3.1.2, `curv` 6.5.3. The colorants are worked out in the tests from the
primaries of Adobe RGB (1998), version 2005-05. Clause numbers are from memory.
"""

from __future__ import annotations

import struct
from collections.abc import Sequence
from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageCms import ImageCmsProfile, ImageCmsTransform

_PAPER = (255, 255, 255)
ADOBE_RGB = ((0.60974, 0.31111, 0.01947), (0.20528, 0.62567, 0.06087), (0.14919, 0.06322, 0.74457))
ADOBE_CURVE = (563,)
"""One number is a gamma, in parts of 256."""
_WHITE = (0.9642, 1.0, 0.8249)


def to_srgb(image: Image, profile: bytes) -> Image:
    """`image` in sRGB on white paper. `profile` is its ICC profile; without one, RGB counts as sRGB already.

    A profile that is damaged, or for another kind of colour than the image has, is passed over.
    """
    plain = _flat(image)
    converted = _converted(plain, profile) if profile else None
    result = converted if converted is not None else plain if plain.mode == "RGB" else plain.convert("RGB")
    result.info.clear()
    return result


def _flat(image: Image) -> Image:
    """Without transparency, palette or more than 8 bits a channel."""
    from PIL import Image as Pillow

    if image.mode.startswith("I"):
        # Sixteen bits: Pillow's own conversion to eight cuts them off at 255 instead of scaling. The special modes ("I;16B")
        # know no arithmetic, so they become whole numbers first, which are the same for "I".
        return image.convert("I").point(lambda level: level / 256).convert("L")
    if image.mode == "F":
        return image.convert("L")
    if image.has_transparency_data:
        solid = image.convert("RGBA")
        paper = Pillow.new("RGB", image.size, _PAPER)
        paper.paste(solid, mask=solid.getchannel("A"))
        return paper
    if image.mode in {"P", "1"}:
        return image.convert("RGB")
    return image.convert("RGB") if image.mode in {"YCbCr", "HSV"} else image


def _converted(image: Image, profile: bytes) -> Image | None:
    from PIL import ImageCms

    try:
        transform = _transform(profile, image.mode)
        return None if transform is None else ImageCms.applyTransform(image, transform)
    except (ImageCms.PyCMSError, OSError, ValueError):
        return None


@lru_cache(maxsize=8)
def _transform(profile: bytes, mode: str) -> ImageCmsTransform | None:
    """The way from a profile to sRGB; None when it is sRGB already, by its usual name."""
    from PIL import ImageCms

    source = ImageCms.ImageCmsProfile(BytesIO(profile))
    if mode == "RGB" and ImageCms.getProfileDescription(source).startswith("sRGB"):
        return None
    # Relative, since white of the source is to be the paper's white; black is fitted too, else dark gear loses its detail.
    return ImageCms.buildTransform(
        source,
        _srgb(),
        mode,
        "RGB",
        ImageCms.Intent.RELATIVE_COLORIMETRIC,
        ImageCms.Flags.BLACKPOINTCOMPENSATION,
    )


@lru_cache(maxsize=1)
def _srgb() -> ImageCmsProfile:
    from PIL import ImageCms

    return ImageCms.ImageCmsProfile(BytesIO(files("reporter.develop").joinpath("sRGB2014.icc").read_bytes()))


def matrix_profile(colorants: Sequence[Sequence[float]], levels: Sequence[int]) -> bytes:
    """A display profile from the XYZ (D50) of red, green and blue, and one `curv` for all three."""
    curve = b"curv" + struct.pack(f">4xI{len(levels)}H", len(levels), *levels)
    words = b"RGB"
    tags = {
        b"desc": b"desc" + struct.pack(">4xI", len(words) + 1) + words + bytes(1 + 12 + 67),
        b"cprt": b"text" + bytes(4) + b"none\0",
        b"wtpt": _xyz(_WHITE),
        **{name: _xyz(colour) for name, colour in zip((b"rXYZ", b"gXYZ", b"bXYZ"), colorants, strict=True)},
        **dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve),
    }
    table, body, place = struct.pack(">I", len(tags)), b"", 128 + 4 + 12 * len(tags)
    for name, content in tags.items():
        padded = content + bytes(-len(content) % 4)
        table += name + struct.pack(">II", place + len(body), len(content))
        body += padded
    header = struct.pack(
        ">I4xI4s4s4s12x4s", place + len(body), 0x02200000, b"mntr", b"RGB ", b"XYZ ", b"acsp"
    )
    return header.ljust(68, b"\0") + _numbers(_WHITE) + bytes(48) + table + body


def _xyz(values: Sequence[float]) -> bytes:
    return b"XYZ " + bytes(4) + _numbers(values)


def _numbers(values: Sequence[float]) -> bytes:
    """s15Fixed16 numbers."""
    return b"".join(struct.pack(">i", round(value * 65536)) for value in values)
