"""What lies about in a photos folder and is no photo: each is told in plain words, and none stops the others."""

from __future__ import annotations

import os
import struct
import subprocess
import sys
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from reporter import door
from reporter.door import Refusal, formats, pixels
from reporter.door.header import read_header
from reporter.model.photo import PhotoFile
from tests.living import PATIENCE

from .scenes import scene

ReadOne = Callable[[Path], PhotoFile]


def _jpeg(file: Path) -> Path:
    scene(64, 48).save(file)
    return file


BEGINNINGS = {
    "a PDF document": b"%PDF-1.7\n" + b"x" * 50,
    "a GIF image": b"GIF89a" + b"x" * 50,
    "a BMP image": b"BM" + b"x" * 50,
    "a film": b"\0\0\0\x14ftypqt  " + b"\0" * 50,
    "a ZIP archive or an office document": b"PK\x03\x04" + b"x" * 50,
    "whatever its name says": b"Dear Sir, the photos will follow.",
    "nothing but zeros": b"\0" * 4096,
    "begins like a photo but is damaged": b"\xff\xd8" + b"x" * 50,
}


@pytest.mark.parametrize("words", BEGINNINGS)
def test_misnamed(words: str, tmp_path: Path, read_one: ReadOne) -> None:
    file = tmp_path / "x.jpg"
    file.write_bytes(BEGINNINGS[words])
    photo = read_one(file)
    assert words in photo.problem
    assert len(photo.sha256) == 64
    assert "x.jpg" not in photo.problem
    assert [problem.file for problem in door.decode_check([file], tmp_path)] == ["x.jpg"]


@pytest.mark.parametrize(
    ("mode", "words"), [("F", "numbers with decimals"), ("I", "whole numbers of 32 bits")]
)
def test_measured_fields_are_refused_with_words(
    mode: str, words: str, tmp_path: Path, read_one: ReadOne
) -> None:
    """Printed as they lie they would be black or white: TIFF tells no range of a field (TIFF 6.0, section 19)."""
    Image.linear_gradient("L").convert(mode).save(tmp_path / "x.tif")
    photo = read_one(tmp_path / "x.tif")
    assert words in photo.problem
    assert "export it as JPEG" in photo.problem
    assert [
        problem.what in photo.problem for problem in door.decode_check([tmp_path / "x.tif"], tmp_path)
    ] == [True]


def test_a_tiff_that_cannot_be_read_is_not_called_damaged_alone(tmp_path: Path, read_one: ReadOne) -> None:
    (tmp_path / "x.tif").write_bytes(b"II*\0" + b"x" * 50)
    assert "damaged or of a kind that cannot be read" in read_one(tmp_path / "x.tif").problem


@pytest.mark.parametrize(("megabytes", "problem"), [(2, ""), (20, "more text than a photo has")])
def test_long_text_is_no_damage(megabytes: int, problem: str, tmp_path: Path, read_one: ReadOne) -> None:
    text = PngInfo()
    text.add_text("Comment", "x" * megabytes * 1_000_000, zip=True)
    scene(64, 48).save(tmp_path / "x.png", pnginfo=text)
    photo = read_one(tmp_path / "x.png")
    assert (problem in photo.problem, "damaged" in photo.problem) == (True, False)
    assert bool(photo.problem) is bool(problem)


def test_right_content_under_another_ending_is_no_problem(tmp_path: Path, read_one: ReadOne) -> None:
    scene(64, 48).save(tmp_path / "x.jpg", "PNG")
    assert (read_one(tmp_path / "x.jpg").format, read_one(tmp_path / "x.jpg").problem) == ("PNG", "")


@pytest.mark.parametrize(
    "fault", [ImportError("libjpeg.so: failed to map segment from shared object"), MemoryError()]
)
def test_a_photo_that_no_memory_was_left_for_is_not_called_damaged(
    fault: Exception, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise fault

    monkeypatch.setattr(pixels, "open_photo", fails)
    with pytest.raises(type(fault)):
        read_header(str(_jpeg(tmp_path / "x.jpg")), str(tmp_path))


def test_empty(tmp_path: Path, read_one: ReadOne) -> None:
    (tmp_path / "x.jpg").touch()
    assert "it is empty" in read_one(tmp_path / "x.jpg").problem


def test_not_there_any_more(tmp_path: Path, read_one: ReadOne) -> None:
    assert "not there any more" in read_one(tmp_path / "x.jpg").problem


def test_folder(tmp_path: Path, read_one: ReadOne) -> None:
    (tmp_path / "x.jpg").mkdir()
    assert "it is a folder" in read_one(tmp_path / "x.jpg").problem


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with names")
def test_pipe_is_not_waited_for(tmp_path: Path, read_one: ReadOne) -> None:
    os.mkfifo(tmp_path / "x.jpg")
    assert "not an ordinary file" in read_one(tmp_path / "x.jpg").problem


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
def test_links_are_not_followed(tmp_path: Path) -> None:
    job = tmp_path / "job"
    (job / "photos").mkdir(parents=True)
    outside = tmp_path / "outside"
    outside.mkdir()
    _jpeg(outside / "there.jpg")
    (job / "photos" / "x.jpg").symlink_to(outside / "there.jpg")
    (job / "photos" / "y.jpg").symlink_to(outside / "dangling.jpg")
    (job / "more").symlink_to(outside)
    files = [job / "photos" / "x.jpg", job / "photos" / "y.jpg", job / "more" / "there.jpg"]
    problems = [photo.problem for photo in door.read_photos(files, job, time_zone="UTC")]
    assert "it is a link" in problems[0]
    assert "it is a link" in problems[1]
    assert "outside the job folder" in problems[2]


def test_unreadable(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By the system's refusal, not by a file's mode: whoever runs the tests may be allowed to read everything."""

    def refuse(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    with pytest.raises(Refusal, match="you may not read it: change its permissions"):
        formats.take(_jpeg(tmp_path / "x.jpg"), tmp_path)


@pytest.mark.skipif(sys.platform in {"win32", "darwin"}, reason="such names cannot exist there")
def test_odd_names(tmp_path: Path) -> None:
    names = [
        b"two\nlines.jpg",
        b"caf\xe9.jpg",
        b"n" * 251 + b".jpg",
        b"IMG.jpg",
        b"img.jpg",
        "Ré ö 帆.jpg".encode(),
    ]
    for name in names:
        _jpeg(tmp_path / "made.jpg").rename(tmp_path / os.fsdecode(name))
    photos = door.read_photos([tmp_path / os.fsdecode(name) for name in names], tmp_path, time_zone="UTC")
    assert [photo.width for photo in photos] == [64] * 6
    assert photos[0].name == "two\nlines.jpg"
    assert photos[1].name == r"caf\xe9.jpg"
    assert "rename it" in photos[1].problem
    assert not any(photo.problem for photo in photos[2:])
    assert (photos[3].name, photos[4].name) == ("IMG.jpg", "img.jpg")


@pytest.mark.parametrize("kept", [0.3, 0.7, 0.98])
def test_truncated_is_found_when_it_is_decoded(kept: float, tmp_path: Path) -> None:
    scene(640, 480).save(tmp_path / "x.jpg", quality=95)
    data = (tmp_path / "x.jpg").read_bytes()
    (tmp_path / "x.jpg").write_bytes(data[: int(len(data) * kept)])
    problems = door.decode_check([tmp_path / "x.jpg"], tmp_path)
    assert [problem.what for problem in problems] == ["the end of it is missing"]


def _png(width: int, height: int, body: bytes) -> bytes:
    def chunk(kind: bytes, content: bytes) -> bytes:
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        )

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def test_too_large_to_render_is_not_called_damaged(tmp_path: Path, read_one: ReadOne) -> None:
    (tmp_path / "x.png").write_bytes(_png(30_000, 30_000, zlib.compress(b"")))
    photo = read_one(tmp_path / "x.png")
    assert "too large to render (30000 x 30000 = 900 megapixels)" in photo.problem
    assert "damaged" not in photo.problem


def test_camera_raw_still_tells_its_time(real_read: dict[str, PhotoFile]) -> None:
    photo = real_read["files/canon_350d.dng"]
    assert "camera raw" in photo.problem
    assert photo.taken is not None


def test_one_bad_file_does_not_stop_the_others(tmp_path: Path) -> None:
    _jpeg(tmp_path / "a.jpg")
    (tmp_path / "b.jpg").write_bytes(b"")
    _jpeg(tmp_path / "c.jpg")
    photos = door.read_photos([tmp_path / f"{name}.jpg" for name in "abc"], tmp_path, time_zone="UTC")
    assert [bool(photo.problem) for photo in photos] == [False, True, False]


@pytest.mark.slow
def test_many_damaged_files_are_all_answered(tmp_path: Path) -> None:
    """300 photos with bytes changed anywhere: an answer for each, twice the same."""
    import random

    source = random.Random(7)  # noqa: S311 - nothing secret
    exif = Image.Exif()
    exif[0x010F], exif[0x0112] = "A maker", 6
    exif.get_ifd(0x8769)[0x9003] = "2027:05:12 10:11:12"
    files = []
    for number, ending in enumerate(("jpg", "png", "webp", "tif", "avif") * 60):
        file = tmp_path / f"{number}.{ending}"
        scene(96, 64, number).save(file, exif=exif)
        data = bytearray(file.read_bytes())
        for _ in range(source.randrange(1, 12)):
            data[source.randrange(min(len(data), 400))] = source.randrange(256)
        file.write_bytes(data)
        files.append(file)
    first = door.read_photos(files, tmp_path, time_zone="UTC")
    assert first == door.read_photos(files, tmp_path, time_zone="UTC")
    assert door.decode_check(files, tmp_path) == door.decode_check(files, tmp_path)
    assert sum(bool(photo.problem) for photo in first) > 30


HOSTILE = (
    "signal.py",
    "reporter/__init__.py",
    "reporter_plugins/__init__.py",
    "PIL/__init__.py",
    "struct.py",
)
_PROGRAM = """
import sys
from pathlib import Path
from reporter import door
from reporter.door import Refusal, formats, pixels
from reporter.door.header import read_header
folder = Path.cwd()
if len(sys.argv) > 2:  # the parent has imported all it needs; only its workers start anew
    door.run(abs, [(1,)])
    door.close()
    sys.path[:0] = ["", str(folder)]
photos = door.read_photos([folder / "photos" / "x.jpg"] * 3, folder, time_zone="UTC")
assert [photo.width for photo in photos] == [64] * 3, photos
assert not door.decode_check([folder / "photos" / "x.jpg"] * 3, folder)
door.close()
print("done")
"""


@pytest.mark.parametrize("more", [(), ("with the current folder on the search path",)])
def test_nothing_in_a_job_folder_is_executed(more: tuple[str, ...], tmp_path: Path) -> None:
    job, program = tmp_path / "job", tmp_path / "program.py"
    (job / "photos").mkdir(parents=True)
    _jpeg(job / "photos" / "x.jpg")
    for name in HOSTILE:
        (job / name).parent.mkdir(exist_ok=True)
        (job / name).write_text(f"open({str(tmp_path / 'executed')!r}, 'a').write(__name__)\n")
    program.write_text(_PROGRAM)
    done = subprocess.run(
        [sys.executable, program, "x", *more],
        cwd=job,
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE,
    )
    assert done.stdout == "done\n", done.stderr
    assert not (tmp_path / "executed").exists()
