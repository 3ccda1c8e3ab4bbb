"""The copies: size, marks that change pixels, what must not leave the folder, and what happens when one fails."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageStat

from reporter import door
from reporter.develop import develop
from reporter.develop.developing import PLACES
from reporter.errors import JobError
from reporter.model.pages import Picture
from reporter.model.photo import Blur, Inset, Mark, Ring

from .conftest import ReportOf
from .scenes import pixel, scene

Pixels = Image.Image


@pytest.fixture
def scratch(tmp_path: Path) -> Path:
    """Where copies go."""
    (tmp_path / "scratch").mkdir()
    return tmp_path / "scratch"


def _one(report_of: ReportOf, folder: Path, scratch: Path, *marks: Mark, size: str = "full") -> Picture:
    return develop(report_of(folder, ("x.jpg", size, marks)), folder, scratch)["x.jpg"]


@pytest.mark.parametrize(
    ("original", "size", "copy"),
    [
        # 170 mm at 220 dpi = 1472 px wide, 128 mm = 1109 px high; 120 x 96 mm = 1039 x 831; 83 x 80 mm = 719 x 693
        ((4000, 3000), "full", (1500, 1125)),  # three eighths, which is near enough
        ((4000, 3000), "column", (1039, 779)),
        ((4000, 3000), "half", (719, 539)),
        ((3000, 4000), "full", (832, 1109)),
        ((3000, 4000), "half", (520, 693)),
        ((4000, 500), "half", (719, 90)),
        ((300, 200), "full", (300, 200)),
        ((1, 3000), "half", (1, 693)),
    ],
)
def test_size(
    original: tuple[int, int],
    size: str,
    copy: tuple[int, int],
    tmp_path: Path,
    scratch: Path,
    report_of: ReportOf,
) -> None:
    Image.new("RGB", original, (90, 120, 150)).save(tmp_path / "x.jpg")
    picture = _one(report_of, tmp_path, scratch, size=size)
    assert (picture.width, picture.height) == copy
    with Image.open(picture.file) as found:
        assert (found.size, found.format, found.mode) == (copy, "JPEG", "RGB")


def test_places_are_those_that_typesetting_fills() -> None:
    styles = pytest.importorskip("reporter.typeset.styles")
    for size, height in styles.PHOTO_HEIGHT.items():
        assert height / styles.MM <= PLACES[size][1] + 1e-6


def test_dots_per_inch(tmp_path: Path, scratch: Path, report_of: ReportOf) -> None:
    scene(2000, 1500).save(tmp_path / "x.jpg")
    report = report_of(tmp_path, ("x.jpg", "half", ()))
    assert develop(report, tmp_path, scratch, dpi=110)["x.jpg"].width == 359


def test_the_largest_use_decides_and_the_file_is_visited_once(
    tmp_path: Path, scratch: Path, report_of: ReportOf
) -> None:
    scene(2000, 1500).save(tmp_path / "x.jpg")
    seen: list[tuple[int, int]] = []
    report = report_of(tmp_path, ("x.jpg", "half", ()), ("x.jpg", "column", ()), ("x.jpg", "half", ()))
    pictures = develop(report, tmp_path, scratch, told=lambda done, count: seen.append((done, count)))
    assert pictures["x.jpg"].width == 1039
    assert seen == [(1, 1)]
    assert len(list(scratch.iterdir())) == 1


def _chequered(width: int = 1600, height: int = 1200) -> Pixels:
    """Black and white squares of eight pixels: high contrast everywhere."""
    small = Image.new("L", (width // 8, height // 8))
    small.putdata([255 * ((x + y) % 2) for y in range(height // 8) for x in range(width // 8)])
    return small.resize((width, height), Image.Resampling.NEAREST).convert("RGB")


def _contrast(file: Path, box: tuple[float, float, float, float]) -> float:
    """Standard deviation of the brightness inside a rectangle given in fractions."""
    with Image.open(file) as image:
        size = image.size
        piece = image.convert("L").crop(tuple(round(box[i] * size[i % 2]) for i in range(4)))  # type: ignore[arg-type]
    return float(ImageStat.Stat(piece).stddev[0])


def test_blur_destroys_in_every_use_and_before_insets(
    tmp_path: Path, scratch: Path, report_of: ReportOf
) -> None:
    """The blur stands on the second use only, its corners the wrong way round; the inset on the first."""
    _chequered().save(tmp_path / "x.jpg", quality=95)
    blur, inset = Blur(corner=(0.6, 0.7), opposite=(0.3, 0.2)), Inset(at=(0.45, 0.45), radius=0.1)
    report = report_of(tmp_path, ("x.jpg", "full", (inset,)), ("x.jpg", "half", (blur,)))
    picture = develop(report, tmp_path, scratch)["x.jpg"]
    assert _contrast(picture.file, (0.3, 0.2, 0.6, 0.7)) < 6
    assert _contrast(picture.file, (0.0, 0.0, 0.28, 0.18)) > 60
    assert len(picture.insets) == 1
    assert _contrast(picture.insets[0], (0, 0, 1, 1)) < 6


def test_what_was_blurred_cannot_be_told_from_anything_else(
    tmp_path: Path, scratch: Path, report_of: ReportOf
) -> None:
    """Two photos that differ inside the rectangle alone, in detail but not on average, give nearly the same copy."""
    blur = Blur(corner=(0.25, 0.25), opposite=(0.75, 0.75))
    plain = Image.new("RGB", (1600, 1200), (128, 128, 128))
    secret = plain.copy()
    secret.paste(_chequered(640, 480), (480, 360))
    copies = []
    for picture in (plain, secret):
        picture.save(tmp_path / "x.jpg", quality=95)
        copies.append(Image.open(_one(report_of, tmp_path, scratch, blur).file).convert("L").tobytes())
    assert max(abs(a - b) for a, b in zip(*copies, strict=True)) <= 4


@pytest.mark.parametrize("orientation", [1, 6, 3, 8])
def test_blur_and_inset_are_where_the_upright_photo_says(
    orientation: int, tmp_path: Path, scratch: Path, report_of: ReportOf
) -> None:
    upright = Image.new("RGB", (1200, 900), (200, 200, 200))
    upright.paste((220, 20, 20), (900, 100, 1100, 300))
    how = {
        1: None,
        6: Image.Transpose.ROTATE_90,
        3: Image.Transpose.ROTATE_180,
        8: Image.Transpose.ROTATE_270,
    }
    turn = how[orientation]
    exif = Image.Exif()
    exif[0x0112] = orientation
    (upright if turn is None else upright.transpose(turn)).save(tmp_path / "x.jpg", exif=exif)
    inset = Inset(at=(1000 / 1200, 200 / 900), radius=50 / 1200)
    picture = _one(report_of, tmp_path, scratch, inset)
    with Image.open(picture.insets[0]) as piece:
        red, green, _ = pixel(piece, piece.width // 2, piece.height // 2)
        assert (red > 190, green < 60) == (True, True)


def test_insets_come_from_the_full_pixels_in_the_order_of_the_marks(
    tmp_path: Path, scratch: Path, report_of: ReportOf
) -> None:
    photo = Image.new("RGB", (4000, 3000), (0, 0, 200))
    photo.paste((0, 200, 0), (0, 0, 2000, 3000))
    photo.save(tmp_path / "x.jpg")
    right, left = Inset(at=(0.75, 0.5), radius=0.05, zoom=3), Inset(at=(0.25, 0.5), radius=0.05, zoom=1.5)
    picture = _one(report_of, tmp_path, scratch, right, Ring(at=(0.5, 0.5)), left)
    sizes, colours = [], []
    for file in picture.insets:
        with Image.open(file) as piece:
            sizes.append(piece.size)
            colours.append(pixel(piece, 20, 20))
    # 2 x 0.05 of 4000 px = 400 px of the original; wanted 2 x 0.05 x zoom of 1472 px: 442 (more than there is) and 221
    assert sizes == [(400, 400), (221, 221)]
    assert colours[0][2] > 150 > colours[0][1]
    assert colours[1][1] > 150 > colours[1][2]


def test_the_same_inset_in_two_uses_is_one_and_at_the_edge_stays_inside(
    tmp_path: Path, scratch: Path, report_of: ReportOf
) -> None:
    scene(1000, 800).save(tmp_path / "x.jpg")
    corner, other = Inset(at=(0.0, 1.0), radius=0.1), Inset(at=(0.9, 0.1), radius=0.25)
    report = report_of(tmp_path, ("x.jpg", "half", (corner,)), ("x.jpg", "full", (other, corner)))
    picture = develop(report, tmp_path, scratch)["x.jpg"]
    with Image.open(picture.insets[0]) as first, Image.open(picture.insets[1]) as second:
        assert (first.size, second.size) == ((200, 200), (500, 500))
        red, green, blue = pixel(first, 20, 180)
    assert red > 180
    assert green > 180
    assert blue < 90  # the yellow corner at bottom left


def _hashes(folder: Path) -> dict[str, str]:
    return {
        str(each): hashlib.sha256(each.read_bytes()).hexdigest()
        for each in folder.iterdir()
        if each.is_file()
    }


def test_originals_are_not_changed_and_names_are_by_content(tmp_path: Path, report_of: ReportOf) -> None:
    for number in range(4):
        scene(900, 700, number).save(tmp_path / f"{number}.jpg")
    before = _hashes(tmp_path)
    marks = (Blur(corner=(0.1, 0.1), opposite=(0.2, 0.2)), Inset(at=(0.5, 0.5)))
    report = report_of(tmp_path, *((f"{number}.jpg", "column", marks) for number in range(4)))
    results = []
    for run in ("one", "two"):
        (tmp_path / run).mkdir()
        develop(report, tmp_path, tmp_path / run)
        results.append({Path(name).name: digest for name, digest in _hashes(tmp_path / run).items()})
        door.close()
    assert results[0] == results[1]
    assert all(digest.startswith(Path(name).stem) for name, digest in results[0].items())
    assert _hashes(tmp_path) == before


def test_all_failures_are_told_together(tmp_path: Path, scratch: Path, report_of: ReportOf) -> None:
    for name in ("a.jpg", "b.jpg", "c.jpg", "d.jpg"):
        scene(300, 200).save(tmp_path / name, quality=95)
    report = report_of(tmp_path, *((name, "half", ()) for name in ("a.jpg", "b.jpg", "c.jpg", "d.jpg")))
    (tmp_path / "b.jpg").unlink()
    scene(300, 200, 9).save(tmp_path / "d.jpg")
    with pytest.raises(JobError) as caught:
        develop(report, tmp_path, scratch)
    assert [(problem.file, problem.what) for problem in caught.value.problems] == [
        ("b.jpg", "it is not there any more"),
        ("d.jpg", "it changed during the run"),
    ]


def test_keep_going_draws_a_plate(tmp_path: Path, scratch: Path, report_of: ReportOf) -> None:
    scene(300, 200).save(tmp_path / "a.jpg", quality=95)
    (tmp_path / "b.jpg").write_bytes((tmp_path / "a.jpg").read_bytes()[:2000])
    report = report_of(tmp_path, ("a.jpg", "half", ()), ("b.jpg", "half", (Inset(at=(0.5, 0.5)),)))
    pictures = develop(report, tmp_path, scratch, keep_going=True)
    assert pictures["a.jpg"].problem == ""
    plate = pictures["b.jpg"]
    assert "the end of it is missing" in plate.problem
    assert len(plate.insets) == 1
    with Image.open(plate.file) as image:
        assert image.size == (plate.width, plate.height) == (719, 539)
        assert image.convert("L").getpixel((30, 30)) == pytest.approx(222, abs=3)
        assert image.convert("L").getextrema()[0] < 110, "no words on the plate"  # type: ignore[operator]


def test_nothing_wanted_starts_nothing(tmp_path: Path, scratch: Path, report_of: ReportOf) -> None:
    assert develop(report_of(tmp_path), tmp_path, scratch) == {}


@pytest.mark.skipif(not shutil.which("exiftool"), reason="exiftool is not installed")
def test_no_metadata_leaves_the_folder(
    real: list[dict[str, Any]], tmp_path: Path, report_of: ReportOf
) -> None:
    """Exiftool on the copies of all real photos: no EXIF, XMP, IPTC, comment, profile, position, serial or date."""
    usable = [row for row in real if not row["file"].endswith((".dng", "ultrahdr_truncated.jpg"))]
    folder = usable[0]["path"].parents[1]
    report = report_of(folder, *((row["file"], "half", (Inset(at=(0.5, 0.5)),)) for row in usable))
    pictures = develop(report, folder, tmp_path)
    assert len(pictures) == 42
    told = subprocess.run(
        ["exiftool", "-a", "-G1", "-s", "-r", tmp_path],
        capture_output=True, text=True, check=True,
    ).stdout  # fmt: skip
    groups = {line[1:].split("]")[0] for line in told.splitlines() if line.startswith("[")}
    assert groups == {"ExifTool", "System", "File", "JFIF", "Composite"}
    for word in (
        "GPS",
        "Serial",
        "Make",
        "Model",
        "Comment",
        "Warning",
        "DateTimeOriginal",
        "ICC",
        "Copyright",
    ):
        assert word not in told.replace("FileModifyDate", ""), word
