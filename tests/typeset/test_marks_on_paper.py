"""Marks land where they were put: measured in the rendered page, by an independent renderer."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from reporter.model.pages import Picture
from reporter.model.photo import Box, Mark, Ring
from reporter.model.report import Heading, Photo, plain
from reporter.typeset import typeset
from tests.typeset.samples import report

SCALE = 5
GREY = (150, 150, 150)
WIDTH, HEIGHT = 1200, 900


def rendered(mark: Mark, place: Path) -> tuple[Image.Image, tuple[int, int, int, int]]:
    """The page with one marked grey photo as pixels, and the photo's own box on it."""
    file = place / "grey.jpg"
    Image.new("RGB", (WIDTH, HEIGHT), GREY).save(file, quality=95)
    photo = Photo(
        file="grey.jpg", sha256="0" * 64, width_px=WIDTH, height_px=HEIGHT, plate=1, caption=plain("Photo 1."),
        alt="grey", marks=(mark,), size="full",
    )  # fmt: skip
    pages = typeset(
        report(Heading(level=1, text="Marks", listed=False), photo),
        {"grey.jpg": Picture(file, WIDTH, HEIGHT)},
        place / "p.pdf",
    )
    document = pypdfium2.PdfDocument(pages.file)
    image = document[pages.count - 1].render(scale=SCALE).to_pil().convert("RGB")
    document.close()
    return image, photo_box(image)


def photo_box(image: Image.Image) -> tuple[int, int, int, int]:
    """The rows and columns of the page that are mostly the photo's grey."""
    near = np.abs(np.asarray(image.convert("L")).astype(int) - GREY[0]) <= 2
    rows, columns = np.flatnonzero(near.mean(axis=1) > 0.5), np.flatnonzero(near.mean(axis=0) > 0.25)
    return int(columns[0]), int(rows[0]), int(columns[-1]) + 1, int(rows[-1]) + 1


def dark(image: Image.Image, box: tuple[int, int, int, int]) -> tuple[float, float, float, float]:
    """The extent of the dark core of the mark, in fractions of the photo's width and height."""
    left, top, right, bottom = box
    inside = image.crop((left + 12, top + 12, right - 12, bottom - 12)).convert("L")
    core = Image.eval(inside, lambda level: 255 if level < 90 else 0).getbbox()
    assert core is not None
    width, height = right - left, bottom - top
    return (core[0] + 12) / width, (core[1] + 12) / height, (core[2] + 12) / width, (core[3] + 12) / height


@pytest.mark.parametrize("centre", [(0.30, 0.40), (0.50, 0.50), (0.72, 0.61)])
def test_a_ring_stands_where_it_was_put(centre: tuple[float, float], tmp_path: Path) -> None:
    """Within 0.5 % of the photo's width."""
    left, top, right, bottom = dark(*rendered(Ring(at=centre, radius=0.05), tmp_path))
    assert (left + right) / 2 == pytest.approx(centre[0], abs=0.005)
    assert (top + bottom) / 2 * HEIGHT / WIDTH == pytest.approx(centre[1] * HEIGHT / WIDTH, abs=0.005)
    assert (right - left) / 2 == pytest.approx(0.05, abs=0.005)


def test_a_box_stands_where_it_was_put(tmp_path: Path) -> None:
    """Within 0.5 % of the photo's width, each side."""
    left, top, right, bottom = dark(*rendered(Box(corner=(0.2, 0.3), opposite=(0.6, 0.7)), tmp_path))
    assert (left, right) == pytest.approx((0.2, 0.6), abs=0.005)
    ratio = HEIGHT / WIDTH
    assert (top * ratio, bottom * ratio) == pytest.approx((0.3 * ratio, 0.7 * ratio), abs=0.005)
