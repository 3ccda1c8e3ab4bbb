"""Colours: from whatever a camera, a scanner or a phone wrote to 8-bit sRGB. Runs in a worker.

Comes in: a Pillow image with its ICC profile, if it has one. Goes out: an RGB image in sRGB (IEC 61966-2-1),
without any metadata. The target profile is a file of ours: one made by the library differs from run to run.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageCms import ImageCmsProfile, ImageCmsTransform

_PAPER = (255, 255, 255)


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
