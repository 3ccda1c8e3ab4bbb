"""Pictures are appended to the laid-out file as they are, each once, and read back by two independent libraries."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest
from PIL import Image
from pypdfium2 import PdfDocument

from reporter.errors import LayoutError
from reporter.typeset.canvas import TaggedCanvas
from reporter.typeset.tags import Artifact
from reporter.typeset.update import updated

RED, GREY = (200, 10, 10), 90


def jpeg(folder: Path, name: str, mode: str = "RGB") -> Path:
    """A small picture of one colour."""
    file = folder / f"{name}.jpg"
    Image.new(mode, (40, 30), RED if mode == "RGB" else GREY).save(file, quality=95)
    return file


def paint(target: Path, *pages: Path) -> Path:
    """A file with one picture on each page."""
    canvas = TaggedCanvas(target, (200, 200))
    for picture in pages:
        with canvas.mark(Artifact("layout")):
            canvas.picture(picture, (50, 50), (100, 100))
        canvas.showPage()
    canvas.save()
    return target


def pictures(file: Path) -> Iterator[tuple[int, bytes, int, int, str]]:
    """Object number, bytes, size and colours of the picture on each page."""
    with pikepdf.open(file) as pdf:
        for page in pdf.pages:
            (found,) = page.obj.Resources.XObject.values()
            colours = str(found.ColorSpace)
            yield found.objgen[0], found.read_raw_bytes(), int(found.Width), int(found.Height), colours


def test_bytes_go_in_as_they_are(tmp_path: Path) -> None:
    """DCTDecode holds a JPEG file (ISO 32000-1, 7.4.8); grey and colour are told apart (8.9.5)."""
    red, grey = jpeg(tmp_path, "red"), jpeg(tmp_path, "grey", "L")
    found = list(pictures(paint(tmp_path / "out.pdf", red, grey)))
    assert [each[1:] for each in found] == [
        (red.read_bytes(), 40, 30, "/DeviceRGB"),
        (grey.read_bytes(), 40, 30, "/DeviceGray"),
    ]


def test_equal_pictures_are_one_object(tmp_path: Path) -> None:
    red = jpeg(tmp_path, "red")
    twin = tmp_path / "twin.jpg"
    twin.write_bytes(red.read_bytes())
    file = paint(tmp_path / "out.pdf", red, twin, red)
    assert len({number for number, *_ in pictures(file)}) == 1
    assert file.read_bytes().count(red.read_bytes()) == 1


def test_another_reader_shows_them(tmp_path: Path) -> None:
    document = PdfDocument(paint(tmp_path / "out.pdf", jpeg(tmp_path, "red")))
    pixels = document[0].render().to_pil().convert("RGB")
    document.close()
    assert all(abs(one - other) <= 4 for one, other in zip(pixels.getpixel((100, 100)), RED, strict=True))
    assert pixels.getpixel((10, 10)) == (255, 255, 255)


def test_a_file_that_ends_otherwise_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "other.pdf"
    file.write_bytes(b"%PDF-1.4\n")
    with pytest.raises(LayoutError), updated(file):
        pass
