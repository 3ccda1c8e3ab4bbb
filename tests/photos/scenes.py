"""Pictures that the tests of photos are made of, and how to look at what came out."""

from __future__ import annotations

import random
from collections.abc import Sequence

from PIL import Image

CORNERS = ((220, 30, 30), (30, 200, 30), (30, 30, 220), (220, 220, 30))
"""Colours of the corners of `scene`: top left, top right, bottom right, bottom left."""


def scene(width: int = 400, height: int = 300, seed: int = 1) -> Image.Image:
    """A picture with four different corners and a little noise, so that every turn and mirror shows."""
    source = random.Random(seed)  # noqa: S311 - nothing secret
    small = Image.new("RGB", (4, 3))
    small.putdata([tuple(source.randrange(40, 216) for _ in range(3)) for _ in range(12)])
    picture = small.resize((width, height), Image.Resampling.BICUBIC)
    across, down = width // 5, height // 5
    for (right, low), colour in zip(((0, 0), (1, 0), (1, 1), (0, 1)), CORNERS, strict=True):
        left, top = right * (width - across), low * (height - down)
        picture.paste(colour, (left, top, left + across, top + down))
    return picture


def corners_of(image: Image.Image) -> list[tuple[int, ...]]:
    """The colours well inside the four corners, in the order of `CORNERS`."""
    width, height = image.size
    places = ((0.08, 0.08), (0.92, 0.08), (0.92, 0.92), (0.08, 0.92))
    return [pixel(image, int(x * width), int(y * height)) for x, y in places]


def pixel(image: Image.Image, x: int, y: int) -> tuple[int, ...]:
    """Red, green and blue at one place."""
    levels = image.convert("RGB").getpixel((x, y))
    assert isinstance(levels, tuple)
    return levels


def near(first: Sequence[int], second: Sequence[int], units: int = 14) -> bool:
    """Whether two colours differ by no more than `units` in any channel."""
    return all(abs(a - b) <= units for a, b in zip(first, second, strict=True))
