"""Decoding at a fraction, and a copy near enough to the size asked for, against the whole photo shrunk by Pillow."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageStat

from reporter.develop.copying import Copy, InsetOrder, Order, copy
from reporter.door import pixels

from .scenes import scene

NAME = Path("x.jpg")


def _off(one: Image.Image, other: Image.Image) -> float:
    """Mean difference of two pictures of one size, in levels of 255."""
    return max(ImageStat.Stat(ImageChops.difference(one.convert("RGB"), other.convert("RGB"))).mean)


@pytest.mark.parametrize("eighths", [1, 2, 3, 4, 8])
@pytest.mark.parametrize("size", [(1003, 757), (640, 481)])
@pytest.mark.parametrize(
    ("mode", "how"),
    [
        ("RGB", {"subsampling": "4:2:0"}),
        ("RGB", {"subsampling": "4:2:2", "progressive": True}),
        ("RGB", {"subsampling": "4:4:4", "restart_marker_rows": 1}),
        ("L", {}),
        ("CMYK", {}),
    ],
)
def test_every_scale_shows_the_whole_photo(
    eighths: int, size: tuple[int, int], mode: str, how: dict[str, object]
) -> None:
    """The size that libjpeg gives is the ceiling of the fraction (its jdmaster.c); no row or column is lost or moved."""
    buffer = BytesIO()
    scene(*size).convert(mode).save(buffer, "JPEG", quality=92, **how)
    wanted = -(-size[0] * eighths // 8), -(-size[1] * eighths // 8)
    image = pixels.upright(pixels.open_photo(buffer.getvalue(), NAME), wanted)
    assert image.size == wanted
    with Image.open(BytesIO(buffer.getvalue())) as whole:
        blocks = (
            wanted[0] * 8 / eighths,
            wanted[1] * 8 / eighths,
        )  # what the last row and column reach over the edge
        flat = whole.convert("RGB")
        shrunk = flat.transform(wanted, Image.Transform.EXTENT, (0, 0, *blocks), Image.Resampling.BILINEAR)
    inner = (2, 2, wanted[0] - 2, wanted[1] - 2)
    near = _off(image.crop(inner), shrunk.crop(inner))
    assert near < 2.2
    moved = ImageChops.offset(image.convert("RGB"), 1, 1)
    assert near * 1.2 < _off(moved.crop(inner), shrunk.crop(inner))


@pytest.mark.parametrize(
    ("least", "expected"), [(375, 375), (376, 500), (501, 1000), (251, 375), (126, 250), (3, 125)]
)
def test_the_fewest_eighths_that_are_enough(least: int, expected: int) -> None:
    buffer = BytesIO()
    scene(1000, 800).save(buffer, "JPEG")
    assert pixels.upright(pixels.open_photo(buffer.getvalue(), NAME), (least, 1)).width == expected


def _order(folder: Path, width: int, *insets: InsetOrder) -> Copy:
    (folder / "out").mkdir(exist_ok=True)
    return copy(
        Order(str(folder / "x.jpg"), str(folder), str(folder / "out"), "", (width, width), (), insets)
    )


def test_near_enough_stays_as_decoded_and_the_rest_is_shrunk(tmp_path: Path) -> None:
    """375 pixels are 1.047 and 1.053 times as many as asked for; a copy is never smaller than that."""
    scene(1000, 750).save(tmp_path / "x.jpg")
    assert [_order(tmp_path, width).width for width in (375, 359, 356, 999, 980, 4000)] == [
        375, 375, 356, 1000, 1000, 1000,
    ]  # fmt: skip


def test_an_inset_leaves_the_copy_as_it_is(tmp_path: Path) -> None:
    scene(1000, 750).save(tmp_path / "x.jpg")
    plain, marked = _order(tmp_path, 370), _order(tmp_path, 370, InsetOrder(0.5, 0.5, 0.1, 150))
    assert (plain.name, plain.width) == (marked.name, marked.width)
    with Image.open(tmp_path / "out" / marked.insets[0]) as piece:
        assert piece.size == (150, 150)
