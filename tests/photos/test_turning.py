"""All eight orientations (JEITA CP-3451, tag 0x0112) in every format that can be made here: all must come out alike."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from reporter.develop import develop
from reporter.model.photo import PhotoFile

from .conftest import ReportOf
from .scenes import CORNERS, corners_of, near, scene

# How to undo each orientation's display: stored = the upright picture turned the other way round.
STORED = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


def _stored(orientation: int, file: Path) -> None:
    upright = scene()
    how = STORED[orientation]
    stored = upright if how is None else upright.transpose(how)
    exif = Image.Exif()
    exif[0x0112] = orientation
    stored.save(file, exif=exif, quality=95)


@pytest.mark.parametrize("ending", ["jpg", "png", "webp", "tif", "avif"])
def test_all_come_out_alike(ending: str, tmp_path: Path, report_of: ReportOf) -> None:
    names = [f"{orientation}.{ending}" for orientation in STORED]
    for orientation, name in zip(STORED, names, strict=True):
        _stored(orientation, tmp_path / name)
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    pictures = develop(report_of(tmp_path, *((name, "half", ()) for name in names)), tmp_path, scratch)
    for name in names:
        picture = pictures[name]
        assert (picture.width, picture.height) == (400, 300), name
        with Image.open(picture.file) as copy:
            assert copy.size == (400, 300), name
            assert all(near(*pair) for pair in zip(corners_of(copy), CORNERS, strict=True)), name


@pytest.mark.parametrize("date", ["", "2027:05:12 10:11:12"])
def test_an_orientation_in_xmp_alone_is_not_applied(
    date: str, tmp_path: Path, read_one: Callable[[Path], PhotoFile]
) -> None:
    """EXIF is what counts, and it must not depend on whether there is a date."""
    exif = Image.Exif()
    if date:
        exif.get_ifd(0x8769)[0x9003] = date
    packet = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:Description tiff:Orientation="6"/></x:xmpmeta>'
    scene(80, 60).save(tmp_path / "x.jpg", exif=exif, xmp=packet)
    photo = read_one(tmp_path / "x.jpg")
    assert (photo.width, photo.height, bool(photo.taken)) == (80, 60, bool(date))


@pytest.mark.parametrize("absurd", [0, 9, 12330, 51713])
def test_reserved_values_change_nothing(
    absurd: int, tmp_path: Path, read_one: Callable[[Path], PhotoFile]
) -> None:
    exif = Image.Exif()
    exif[0x0112] = absurd
    scene(80, 60).save(tmp_path / "x.jpg", exif=exif)
    photo = read_one(tmp_path / "x.jpg")
    assert (photo.width, photo.height, photo.problem) == (80, 60, "")
